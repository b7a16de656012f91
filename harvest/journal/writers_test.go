package journal_test

import (
	"bufio"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/units"
)

// volume is how many are tried: by default, in CI (TRENCHER_LONG=1), and of all
// that is promised (TRENCHER_LONG=full).
func volume(quick, long, full int) int {
	switch os.Getenv("TRENCHER_LONG") {
	case "":
		return quick
	case "full":
		return full
	}
	return long
}

// TestMain turns the test program into a writer when it is started as one.
func TestMain(m *testing.M) {
	if dir := os.Getenv("TRENCHER_TEST_WRITER"); dir != "" {
		os.Exit(beWriter(dir))
	}
	if dir := os.Getenv("TRENCHER_TEST_IMPORTER"); dir != "" {
		os.Exit(beImporter(dir))
	}
	os.Exit(m.Run())
}

// beWriter writes lifts into the plot, telling each file once it is safe.
func beWriter(dir string) int {
	most, _ := strconv.Atoi(os.Getenv("TRENCHER_TEST_ENTRIES"))
	folder, err := journal.Open(dir)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	for i := range most {
		file, err := folder.Write(someLift(os.Getpid(), i))
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			return 1
		}
		fmt.Println(file)
	}
	return 0
}

// someLift is a lift whose remark tells writers and entries apart.
func someLift(writer, n int) *harvest.Lift {
	l := &harvest.Lift{
		Planting:  "tub-3",
		Weighings: []harvest.Weighing{{Gross: units.MustParse("1.46 kg"), Tare: units.MustParse("310 g")}},
		Grades:    []harvest.Grade{{Sizes: units.Band{Low: 20, High: 45}, Weight: units.MustParse("820 g"), Condition: harvest.Scabby}},
		Says:      fmt.Sprintf("writer %d entry %d", writer, n),
	}
	l.At = time.Date(2031, 7, 12, 16, n%60, 0, 0, time.UTC)
	return l
}

// newPlot makes a plot on the disk.
func newPlot(t testing.TB) string {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "kitchen.yaml"), []byte(kitchen), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "plantings.yaml"), []byte(plantings), 0o644))
	return dir
}

func startWriter(t *testing.T, dir string, entries int) (*exec.Cmd, *bufio.Scanner) {
	t.Helper()
	self, err := os.Executable()
	require.NoError(t, err)
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), "TRENCHER_TEST_WRITER="+dir, "TRENCHER_TEST_ENTRIES="+strconv.Itoa(entries))
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	return cmd, bufio.NewScanner(out)
}

// remarks reads the plot and returns the remark of each lift by its file.
func remarks(t *testing.T, dir string) map[string]string {
	t.Helper()
	folder, err := journal.Open(dir)
	require.NoError(t, err)
	entries, _, err := folder.Season(context.Background(), 2031, options)
	require.NoError(t, err, "no half entry is ever read")
	found := map[string]string{}
	for _, e := range entries {
		l, ok := e.(*harvest.Lift)
		require.True(t, ok)
		require.Empty(t, l.Problems())
		require.Equal(t, "1150", l.Net().String())
		found[l.File] = l.Says
	}
	return found
}

// Writers are killed at random moments. Every entry they had told as written
// is there, whole; what was being written is there whole or not at all.
func TestKilledWritersLoseNothing(t *testing.T) {
	rounds, writers := volume(1, 10, 10), volume(40, 1000, 1000)
	for round := range rounds {
		t.Run(fmt.Sprintf("round %d", round+1), func(t *testing.T) { killWriters(t, round, writers) })
	}
}

func killWriters(t *testing.T, round, writers int) {
	dir := newPlot(t)
	random := rand.New(rand.NewPCG(7, uint64(12+round)))
	told := 0
	acknowledged := map[string]bool{}
	for range writers {
		cmd, lines := startWriter(t, dir, 1000)
		first := lines.Scan() // it is up and writing
		require.True(t, first)
		acknowledged[lines.Text()] = true
		time.AfterFunc(time.Duration(random.IntN(8000))*time.Microsecond, func() { cmd.Process.Kill() })
		for lines.Scan() {
			acknowledged[lines.Text()] = true
		}
		require.Error(t, cmd.Wait(), "the writer was killed before it was done")
		told = len(acknowledged)
	}
	found := remarks(t, dir)
	for file := range acknowledged {
		require.Contains(t, found, file, "an acknowledged entry is gone")
	}
	assert.GreaterOrEqual(t, told, writers)
	assert.LessOrEqual(t, len(found), told+writers, "at most one entry a writer was written and not told")
	t.Logf("%d writers killed, %d entries told, %d found", writers, told, len(found))
}

// Several processes write into one folder at once; all entries arrive, each
// under a name of its own.
func TestWritersAtOnce(t *testing.T) {
	processes, each := volume(8, 16, 16), volume(20, 1000, 1000)
	dir := newPlot(t)
	var wait sync.WaitGroup
	var lock sync.Mutex
	told := map[string]bool{}
	for range processes {
		cmd, lines := startWriter(t, dir, each)
		wait.Go(func() {
			for lines.Scan() {
				lock.Lock()
				told[lines.Text()] = true
				lock.Unlock()
			}
			assert.NoError(t, cmd.Wait())
		})
	}
	wait.Wait()
	found := remarks(t, dir)
	require.Len(t, told, processes*each)
	require.Len(t, found, processes*each)
	distinct := map[string]bool{}
	for _, says := range found {
		distinct[says] = true
	}
	require.Len(t, distinct, processes*each, "every entry once")
	list, err := os.ReadDir(filepath.Join(dir, "journal", "2031"))
	require.NoError(t, err)
	for _, each := range list {
		require.False(t, strings.HasPrefix(each.Name(), "."), "no temporary file is left: %s", each.Name())
	}
}
