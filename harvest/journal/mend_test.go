package journal_test

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest/journal"
)

// onDisk writes files of a plot into a new folder.
func onDisk(t *testing.T, files map[string]string) (string, *journal.Folder) {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, plot(files)))
	folder, err := journal.Open(dir)
	require.NoError(t, err)
	return dir, folder
}

// What two devices and a sync program leave behind: it can be read as it is,
// the copies counted once, and one mending settles it for good.
func TestMendSettlesWhatCopyingLeft(t *testing.T) {
	const voids = "kind: void\nat: 2031-07-14T09:00:00+01:00\nvoids: 0712-1640-lift-tub-3.yaml\n"
	dir, folder := onDisk(t, map[string]string{
		liftFile: lift, useFile: use,
		"journal/2031/0712-1640-lift-tub-3 (1).yaml":               lift,
		"journal/2031/0712-1640-lift-tub-3.conflict-20310712.yaml": lift + "says: of the other device\n",
		"journal/2031/0714-0900-void-a.yaml":                       voids,
		"journal/2031/0714-0900-void-b.yaml":                       voids,
		"journal/2031/.unfinished-11.yaml":                         "kind: note\ndish: Mash\nat: 2031-07-14T10:00:00+01:00\nsays: salty\n",
		"journal/2031/.unfinished-22.yaml":                         "kind: note\ndi",
	})
	ctx, clock := context.Background(), time.Now()
	old := clock.Add(-time.Hour)
	for _, name := range []string{".unfinished-11.yaml", ".unfinished-22.yaml"} {
		require.NoError(t, os.Chtimes(filepath.Join(dir, "journal/2031", name), old, old))
	}
	on := time.Date(2031, 12, 31, 0, 0, 0, 0, time.UTC)
	before, err := folder.Check(ctx, options, on)
	require.NoError(t, err, "two voids and two copies lock nothing")
	assert.Len(t, before.Warnings, 5, "%v", before.Warnings)

	done, err := folder.Mend(ctx, options, clock)
	require.NoError(t, err)
	assert.Len(t, done.Written, 1, "the use of the lift that was struck out")
	assert.Len(t, done.Finished, 1)
	assert.Equal(t, []string{"journal/2031/set-aside/.unfinished-22.yaml",
		"journal/2031/set-aside/0712-1640-lift-tub-3 (1).yaml",
		"journal/2031/set-aside/0712-1640-lift-tub-3.conflict-20310712.yaml"}, done.Aside)
	after, err := folder.Check(ctx, options, on)
	require.NoError(t, err)
	assert.Empty(t, after.Warnings)
	done, err = folder.Mend(ctx, options, clock)
	require.NoError(t, err)
	assert.Equal(t, journal.Mended{}, done, "and nothing is left to mend")
}

// A copy under any other name is known by its bytes: the letters in a written
// name are made from them.
func TestCopiesAreKnownByTheirBytes(t *testing.T) {
	dir, folder := onDisk(t, nil)
	entry, _, err := journal.Embedded(plot(map[string]string{liftFile: lift}), "test").Season(context.Background(), 2031, options)
	require.NoError(t, err)
	file, err := folder.Write(entry[0])
	require.NoError(t, err)
	data, err := os.ReadFile(filepath.Join(dir, file))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "journal/2031/from the phone.yaml"), data, 0o644))
	entries, left, err := folder.Season(context.Background(), 2031, options)
	require.NoError(t, err)
	assert.Len(t, entries, 1)
	require.Len(t, left, 1)
	assert.Contains(t, left[0].Err.Error(), "a second copy of "+filepath.Base(file))
}
