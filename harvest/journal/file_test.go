package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// faultyDisk fails its Nth call with a given error, half-way through a write
// where the call is one, and after that works again. Without links it refuses
// every link as a memory card does.
type faultyDisk struct {
	realDisk
	failAt  int
	err     error
	noLinks bool
	lock    sync.Mutex
	calls   []string
}

func (d *faultyDisk) call(name string) error {
	d.lock.Lock()
	defer d.lock.Unlock()
	d.calls = append(d.calls, name)
	if len(d.calls) == d.failAt {
		return d.err
	}
	return nil
}

func (d *faultyDisk) Create(path string) (diskFile, error) {
	if err := d.call("create"); err != nil {
		return nil, err
	}
	f, err := d.realDisk.Create(path)
	if err != nil {
		return nil, err
	}
	return &faultyFile{f, d}, nil
}

func (d *faultyDisk) Link(old, new string) error {
	if err := d.call("link"); err != nil {
		return &os.LinkError{Op: "link", Old: old, New: new, Err: err}
	}
	if d.noLinks {
		return &os.LinkError{Op: "link", Old: old, New: new, Err: syscall.EPERM}
	}
	return d.realDisk.Link(old, new)
}

func (d *faultyDisk) Rename(old, new string) error {
	if err := d.call("rename"); err != nil {
		return &os.LinkError{Op: "rename", Old: old, New: new, Err: err}
	}
	return d.realDisk.Rename(old, new)
}

func (d *faultyDisk) SyncFolder(path string) error {
	if err := d.call("sync folder"); err != nil {
		return err
	}
	return d.realDisk.SyncFolder(path)
}

type faultyFile struct {
	diskFile
	disk *faultyDisk
}

func (f *faultyFile) Write(data []byte) (int, error) {
	if err := f.disk.call("write"); err != nil {
		n, _ := f.diskFile.Write(data[:len(data)/2])
		return n, err
	}
	return f.diskFile.Write(data)
}

func (f *faultyFile) Chmod(mode fs.FileMode) error {
	if err := f.disk.call("chmod"); err != nil {
		return err
	}
	return f.diskFile.Chmod(mode)
}

func (f *faultyFile) Sync() error {
	if err := f.disk.call("sync"); err != nil {
		return err
	}
	return f.diskFile.Sync()
}

func (f *faultyFile) Close() error {
	err := f.disk.call("close")
	return errors.Join(err, f.diskFile.Close())
}

const wholeEntry = opening + "\nkind: note\nat: 2031-07-12T16:40:00Z\ndish: Mash\nsays: less salt\n" + closing + "\n"

func folderNames(t *testing.T, folder string) []string {
	t.Helper()
	list, err := os.ReadDir(folder)
	require.NoError(t, err)
	var names []string
	for _, each := range list {
		names = append(names, each.Name())
	}
	return names
}

// Whatever step fails, and whether or not the file system has links, there is
// either the whole entry and no error, or an error and no entry.
func TestPlaceIsAllOrNothing(t *testing.T) {
	for _, cause := range []error{syscall.ENOSPC, syscall.EIO, syscall.EROFS, fs.ErrPermission} {
		for _, noLinks := range []bool{false, true} {
			steps := 0
			for n := 1; ; n++ {
				folder := t.TempDir()
				d := &faultyDisk{failAt: n, err: cause, noLinks: noLinks}
				name, err := place(d, folder, namesFrom("0712-1640-note-mash"), []byte(wholeEntry))
				if err == nil {
					require.Equal(t, []string{name}, folderNames(t, folder))
					data, err := os.ReadFile(filepath.Join(folder, name))
					require.NoError(t, err)
					require.Equal(t, wholeEntry, string(data))
					if len(d.calls) < n {
						steps = n - 1
						break
					}
					continue // a link that failed, made up for by an exclusive file
				}
				require.ErrorIs(t, err, cause, "%v", d.calls)
				require.Empty(t, folderNames(t, folder), "left behind after %v", d.calls)
			}
			assert.GreaterOrEqual(t, steps, 6, "create, write, sync, close, link, sync folder were each tried")
		}
	}
}

func TestPlaceNeverOverwrites(t *testing.T) {
	for _, noLinks := range []bool{false, true} {
		t.Run(fmt.Sprintf("no links %v", noLinks), func(t *testing.T) {
			folder := t.TempDir()
			seen := map[string]bool{}
			for i := range 30 {
				text := fmt.Sprintf("%s# %d\n", wholeEntry, i)
				name, err := place(&faultyDisk{noLinks: noLinks}, folder, namesFrom("0712-1640-lift-tub-3"), []byte(text))
				require.NoError(t, err)
				require.False(t, seen[name], name)
				seen[name] = true
				data, err := os.ReadFile(filepath.Join(folder, name))
				require.NoError(t, err)
				require.Equal(t, text, string(data))
			}
			require.True(t, seen["0712-1640-lift-tub-3.yaml"])
			require.True(t, seen["0712-1640-lift-tub-3-2.yaml"])
			require.Len(t, folderNames(t, folder), 30)
		})
	}
}

// Every place an entry can be cut at is known as a cut, except behind the
// closing line.
func TestTornEntriesAreKnown(t *testing.T) {
	whole := len(strings.TrimRight(wholeEntry, "\n"))
	for cut := len(opening); cut < whole; cut++ {
		require.True(t, torn([]byte(wholeEntry[:cut])), "cut at byte %d: %q", cut, wholeEntry[:cut])
	}
	for cut := whole; cut <= len(wholeEntry); cut++ {
		require.False(t, torn([]byte(wholeEntry[:cut])))
	}
	assert.False(t, torn([]byte("kind: note\n")), "written by hand")
}
