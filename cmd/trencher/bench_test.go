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
const mostTimesBare = 20

// How many times a bare program's processor time the main job takes, both in this
// run: a ratio hardly knows how busy the machine is.
func TestShareAgainstABareProgram(t *testing.T) {
	if os.Getenv("TRENCHER_LONG") == "" {
		t.Skip("builds two programs; set TRENCHER_LONG=1")
	}
	share, bare := buildProgram(t, "."), buildProgram(t, "./testdata/bare")
	shared, plain := leastTime(t, share, "share", "--demo"), leastTime(t, bare)
	ratio := float64(shared) / float64(plain)
	t.Logf("share --demo %v, bare %v: %.1f times", shared, plain, ratio)
	require.Less(t, ratio, float64(mostTimesBare))
}

func buildProgram(t testing.TB, source string) (path string) {
	path = filepath.Join(t.TempDir(), "program.exe")
	out, err := exec.Command("go", "build", "-o", path, source).CombinedOutput()
	require.NoError(t, err, string(out))
	return path
}

// leastTime is the least processor time of twenty runs.
func leastTime(t testing.TB, path string, args ...string) (least time.Duration) {
	for range 20 {
		run := exec.Command(path, args...)
		require.NoError(t, run.Run())
		if took := run.ProcessState.UserTime() + run.ProcessState.SystemTime(); least == 0 || took < least {
			least = took
		}
	}
	return least
}
