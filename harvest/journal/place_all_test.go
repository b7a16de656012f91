package journal

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// threeFiles are new files of two seasons.
func threeFiles(t *testing.T) (dir string, files []newFile) {
	t.Helper()
	dir = t.TempDir()
	for i, season := range []string{"2030", "2031", "2031"} {
		folder := filepath.Join(dir, season)
		require.NoError(t, os.MkdirAll(folder, 0o755))
		files = append(files, newFile{folder, fmt.Sprintf("0712-1640-note-mash-%d.yaml", i), fmt.Appendf(nil, "%s# %d\n", wholeEntry, i)})
	}
	return dir, files
}

// filesIn are the files of a folder of folders, by their path in it.
func filesIn(t *testing.T, dir string) map[string]string {
	t.Helper()
	found := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, each fs.DirEntry, err error) error {
		if err != nil || each.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		found[path] = string(data)
		return err
	}))
	return found
}

// Whatever step fails, and whether or not the file system has links, either all
// files stand whole under their names and there is no error, or there is an error
// and none of them, nor anything else.
func TestPlaceAllIsAllOrNothing(t *testing.T) {
	for _, cause := range []error{syscall.ENOSPC, syscall.EIO, syscall.EROFS, fs.ErrPermission} {
		for _, noLinks := range []bool{false, true} {
			steps := 0
			for n := 1; ; n++ {
				dir, files := threeFiles(t)
				d := &faultyDisk{failAt: n, err: cause, noLinks: noLinks}
				err := placeAll(d, files)
				found := filesIn(t, dir)
				if err != nil {
					require.ErrorIs(t, err, cause, "%v", d.calls)
					require.Empty(t, found, "left behind after %v", d.calls)
					continue
				}
				require.Len(t, found, len(files))
				for _, file := range files {
					require.Equal(t, string(file.data), found[file.path()])
				}
				if len(d.calls) < n {
					steps = n - 1
					break
				}
			}
			assert.GreaterOrEqual(t, steps, 3*5+2, "create, write, sync, close and link of each file, and two folders, were tried")
		}
	}
}

// Every file is synced before the first gets its name, so that no name ever
// stands for bytes that are not on the disk; the folders are synced last.
func TestPlaceAllNamesWhatIsSynced(t *testing.T) {
	_, files := threeFiles(t)
	d := &faultyDisk{}
	require.NoError(t, placeAll(d, files))
	synced := 0
	for i, call := range d.calls {
		switch call {
		case "sync":
			synced++
		case "link":
			require.Equal(t, len(files), synced, "%v", d.calls)
		case "sync folder":
			require.GreaterOrEqual(t, i, len(d.calls)-2, "%v", d.calls)
		}
	}
	assert.Equal(t, len(files), synced)
}

// A name that somebody else took meanwhile is not written over, and no file of
// the heap stays.
func TestPlaceAllNeverOverwrites(t *testing.T) {
	for _, noLinks := range []bool{false, true} {
		dir, files := threeFiles(t)
		require.NoError(t, os.WriteFile(files[1].path(), []byte("somebody else's"), 0o644))
		require.ErrorIs(t, placeAll(&faultyDisk{noLinks: noLinks}, files), fs.ErrExist)
		assert.Equal(t, map[string]string{files[1].path(): "somebody else's"}, filesIn(t, dir))
	}
}
