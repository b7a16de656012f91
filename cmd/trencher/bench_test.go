package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// BenchmarkShareDemo is the main job in one process, from flags to text.
func BenchmarkShareDemo(b *testing.B) {
	for b.Loop() {
		if _, errs, status := trencher("", "share", "--demo"); status != statusDone {
			b.Fatal(errs)
		}
	}
}

// BenchmarkWholeProcess is the main job as it is waited for, from the shell's
// start of the program to its end, beside a bare program on the same libraries
// that prints its help.
func BenchmarkWholeProcess(b *testing.B) {
	for _, program := range []struct {
		name, source string
		args         []string
	}{
		{"share", ".", []string{"share", "--demo"}},
		{"help", ".", []string{"--help"}},
		{"bare", "./testdata/bare", nil},
	} {
		path := buildProgram(b, program.source)
		b.Run(program.name, func(b *testing.B) {
			for b.Loop() {
				if out, err := exec.Command(path, program.args...).CombinedOutput(); err != nil {
					b.Fatal(string(out))
				}
			}
		})
	}
}

// mostTimesBare is twice the ratio that DEVELOPERS.md tells under "Speed".
const mostTimesBare = 13

// How many times a bare program's processor time the main job takes, both in this
// run: a ratio hardly knows how busy the machine is.
func TestShareAgainstABareProgram(t *testing.T) {
	if os.Getenv("TRENCHER_LONG") == "" {
		t.Skip("builds two programs; set TRENCHER_LONG=1")
	}
	share, bare := buildProgram(t, "."), buildProgram(t, "./testdata/bare")
	shared, plain := leastTimes(t, share, bare)
	processor, clock := shared.times(plain)
	t.Logf("share --demo %+v, bare %+v: %.1f times, %.1f on the clock", shared, plain, processor, clock)
	require.Less(t, processor, float64(mostTimesBare))
}

func buildProgram(t testing.TB, source string) (path string) {
	path = filepath.Join(t.TempDir(), "program.exe")
	out, err := exec.Command("go", "build", "-o", path, source).CombinedOutput()
	require.NoError(t, err, string(out))
	return path
}

// taken is what a run of a program takes.
type taken struct{ processor, clock time.Duration }

// times is how many times as long as another it takes.
func (a taken) times(b taken) (processor, clock float64) {
	return float64(a.processor) / float64(b.processor), float64(a.clock) / float64(b.clock)
}

// leastTimes are the least that `share --demo` and a bare program take, of forty runs of
// each by turns: what slows the machine down for a while slows both.
func leastTimes(t testing.TB, program, bare string) (share, plain taken) {
	least := taken{time.Hour, time.Hour}
	share, plain = least, least
	for range 40 {
		share, plain = share.least(runOnce(t, program, "share", "--demo")), plain.least(runOnce(t, bare))
	}
	return share, plain
}

func (a taken) least(b taken) taken {
	return taken{min(a.processor, b.processor), min(a.clock, b.clock)}
}

func runOnce(t testing.TB, path string, args ...string) taken {
	run := exec.Command(path, args...)
	began := time.Now()
	require.NoError(t, run.Run())
	clock := time.Since(began)
	return taken{run.ProcessState.UserTime() + run.ProcessState.SystemTime(), clock}
}
