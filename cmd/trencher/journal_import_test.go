package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An old table is shown, then written when told to, and never twice.
func TestOldTableIsShownBeforeItIsWritten(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "garden")
	_, errs, status := dishCommand("begin", dir)
	require.Equal(t, statusDone, status, errs)
	table := filepath.Join(t.TempDir(), "old.csv")
	require.NoError(t, os.WriteFile(table, []byte("Our harvest;;\nDay;What;kg;Note\n17.07.2031;beets;1,25;=wet\n18.07.2031;Ember Round;0,800;\nTotal;;2,05;\n"), 0o644))

	out, errs, status := dishCommand("journal", "import", table, "--plot", dir)
	require.Equal(t, statusDone, status, errs)
	assert.Contains(t, out, "semicolons between cells, decimal commas")
	assert.Contains(t, out, "line 3    2031-07-17  bed-3                   1.25 kg")
	assert.Contains(t, out, "line 5    a total: Total 2,05")
	assert.Contains(t, out, "2 entries to write, 0 in the journal already. Nothing is written yet: add --write.")
	assert.NotContains(t, entriesOf(t, dir), "0717")

	out, errs, status = dishCommand("journal", "import", table, "--plot", dir, "--write")
	require.Equal(t, statusDone, status, errs)
	assert.Contains(t, out, "2 entries written")
	assert.Contains(t, entriesOf(t, dir), "0717")

	out, _, status = dishCommand("journal", "import", table, "--plot", dir, "--write")
	require.Equal(t, statusDone, status)
	assert.Contains(t, out, "0 entries written, 2 in the journal already")

	exported, _, _ := dishCommand("journal", "export", "--plot", dir)
	assert.Contains(t, exported, "'=wet", "a spreadsheet must not run it")
}

func entriesOf(t *testing.T, dir string) string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "journal", "2031", "*.yaml"))
	require.NoError(t, err)
	return strings.Join(files, "\n")
}

func TestNoMoreThanFiftyErrorsAreTold(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "garden")
	_, errs, status := dishCommand("begin", dir)
	require.Equal(t, statusDone, status, errs)
	table := filepath.Join(t.TempDir(), "old.csv")
	require.NoError(t, os.WriteFile(table, []byte("date,planting,weight_kg\n2031-07-12,bed-3,1\n"+strings.Repeat("2031-07-12,bed-3,heavy\n", 80)), 0o644))
	_, errs, status = dishCommand("journal", "import", table, "--plot", dir)
	assert.Equal(t, statusInput, status)
	assert.Equal(t, 50, strings.Count(errs, "old.csv:")-1, errs) // and the line that counts them
	assert.True(t, strings.HasSuffix(errs, "and 30 more\n"), errs)
}

func TestNoMoreThanFiftyWarningsAreTold(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "garden")
	_, errs, status := dishCommand("begin", dir)
	require.Equal(t, statusDone, status, errs)
	for i := range 80 {
		require.NoError(t, os.WriteFile(filepath.Join(dir, "journal", "2031", fmt.Sprintf("0701-%04d.yaml", i)), []byte("kind: odd\n"), 0o644))
	}
	_, errs, status = dishCommand("stock", "--plot", dir, "--on", "2031-07-20", "--skip-damaged")
	assert.Equal(t, statusDone, status, errs)
	assert.Equal(t, 50+1, strings.Count(errs, "warning:"), errs)
	assert.True(t, strings.HasSuffix(errs, "warning: and 30 more\n"), errs)
}
