//go:build unix

package journal

import (
	"context"
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units/strict"
)

// A pipe that nobody writes to would make a command wait for ever: it is refused
// at once, wherever it stands in the plot.
func TestPipesAreRefusedAtOnce(t *testing.T) {
	for _, name := range []string{"kitchen.yaml", "plantings.yaml", "dishes/mash.yaml", "journal/2031/0701-1200-x.yaml"} {
		dir := plotWithFiles(t)
		pipe := filepath.Join(dir, "garden", name)
		require.NoError(t, os.Remove(pipe))
		require.NoError(t, syscall.Mkfifo(pipe, 0o644))
		refused := make(chan error, 1)
		go func() { refused <- readWhole(filepath.Join(dir, "garden")) }()
		select {
		case err := <-refused:
			assert.ErrorContains(t, err, "is no ordinary file", name)
		case <-time.After(20 * time.Second):
			t.Fatal(name, "is waited for")
		}
	}
}

func TestPipesNamedByAPersonAreRefused(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "weights.csv")
	require.NoError(t, syscall.Mkfifo(pipe, 0o644))
	for _, name := range []string{pipe, "/dev/zero"} {
		_, err := strict.ReadFile(name, 100)
		assert.ErrorContains(t, err, name+": is no ordinary file")
	}
	assert.ErrorContains(t, Output{Field: "sheet", Path: pipe, Made: madeHere}.Write(writeText("x")), "no ordinary file")
}

// Files may be links within the plot; a season is a folder of its own, for every
// reader alike.
func TestLinks(t *testing.T) {
	tests := map[string]struct{ link, to, says string }{
		"a dish elsewhere":         {"dishes/soup.yaml", "../theirs.html", "dishes/soup.yaml: cannot be read: is a link out of the plot"},
		"a dish of the plot":       {"dishes/soup.yaml", "dishes/mash.yaml", ""},
		"to nothing":               {"dishes/soup.yaml", "dishes/none.yaml", "dishes/soup.yaml: cannot be read"},
		"a season elsewhere":       {"journal/2030", "../elsewhere", "journal/2030: cannot be read: is a link"},
		"a season of the plot":     {"journal/2030", "journal/2031", "journal/2030: cannot be read: is a link"},
		"a kitchen elsewhere":      {"kitchen.yaml", "../theirs.html", "kitchen.yaml: cannot be read: is a link out of the plot"},
		"dishes elsewhere, folder": {"dishes", "../elsewhere", "dishes: cannot be read: is a link"},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			garden := filepath.Join(plotWithFiles(t), "garden")
			link := filepath.Join(garden, test.link)
			require.NoError(t, os.RemoveAll(link))
			require.NoError(t, os.Symlink(filepath.Join(garden, test.to), link))
			err := readWhole(garden)
			if test.says == "" {
				assert.NoError(t, err)
				return
			}
			assert.ErrorContains(t, err, test.says)
		})
	}
}

// readWhole reads every file of a plot there is, as commands do, and returns the
// first error but those of what the files say.
func readWhole(dir string) error {
	folder, err := Open(dir)
	if err != nil {
		return err
	}
	if _, err := folder.Kitchen(); err != nil {
		return err
	}
	if _, err := folder.read("plantings.yaml"); err != nil {
		return err
	}
	if _, err := folder.Dishes(); err != nil {
		return err
	}
	years, err := folder.Seasons()
	if err != nil {
		return err
	}
	for _, year := range years {
		_, left, err := folder.Season(context.Background(), year, Options{SkipDamaged: true})
		if err != nil {
			return err
		}
		for _, out := range left {
			if _, err := folder.read(out.File); err != nil {
				return err
			}
		}
	}
	return nil
}

// An entry is not written into a folder that lies elsewhere.
func TestEntriesStayInThePlot(t *testing.T) {
	dir := plotWithFiles(t)
	garden := filepath.Join(dir, "garden")
	require.NoError(t, os.RemoveAll(filepath.Join(garden, "journal")))
	require.NoError(t, os.Symlink(filepath.Join(dir, "elsewhere"), filepath.Join(garden, "journal")))
	folder, err := Open(garden)
	require.NoError(t, err)
	assert.ErrorContains(t, folder.makeSeason("2031"), "is a link")
	_, err = os.Stat(filepath.Join(dir, "elsewhere", "2031"))
	assert.ErrorIs(t, err, os.ErrNotExist)
}
