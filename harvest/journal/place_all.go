package journal

import (
	"bytes"
	"errors"
	"io"
	"path/filepath"
	"sync"
)

// newFile is a file of the plot on its way to its name.
type newFile struct {
	folder, name string
	data         []byte
}

func (n newFile) path() string { return filepath.Join(n.folder, n.name) }

func (n newFile) write(f diskFile) error {
	_, err := io.Copy(f, bytes.NewReader(n.data))
	return err
}

// syncedAtOnce is how many files are written and synced at a time: a file system
// brings the syncs that wait for it together, so that many cost little more than
// one.
const syncedAtOnce = 256

// placeAll is [place] for many files, each under the one name it may have: all
// of them stand under their names and are on the disk, or there is an error and
// none does. All are written to temporary files and synced before the first
// gets its name, and each folder is synced once at the end. A writer that is
// killed leaves each file whole or not at all, as place does; those that had no
// name yet are among [Folder.Unfinished].
func placeAll(d disk, files []newFile) error {
	temporary := make([]string, len(files))
	defer func() { // a left-over temporary name is no file of the plot
		forEach(len(files), func(i int) error {
			if temporary[i] != "" {
				d.Remove(temporary[i])
			}
			return nil
		})
	}()
	err := forEach(len(files), func(i int) error {
		name := filepath.Join(files[i].folder, temporaryName())
		if err := writeNew(d, name, files[i].write); err != nil {
			return err
		}
		temporary[i] = name
		return nil
	})
	if err != nil {
		return err
	}
	placed := make([]bool, len(files))
	err = forEach(len(files), func(i int) error {
		err := d.Link(temporary[i], files[i].path())
		if err != nil && noLinks(err) {
			err = writeNew(d, files[i].path(), files[i].write)
		}
		placed[i] = err == nil
		return err
	})
	if err == nil {
		err = syncFolders(d, files)
	}
	if err == nil {
		return nil
	}
	for i, file := range files {
		if placed[i] {
			err = errors.Join(err, ignoreMissing(d.Remove(file.path())))
		}
	}
	return err
}

// syncFolders syncs each folder of some files once.
func syncFolders(d disk, files []newFile) error {
	synced := map[string]bool{}
	for _, file := range files {
		if synced[file.folder] {
			continue
		}
		synced[file.folder] = true
		if err := d.SyncFolder(file.folder); err != nil {
			return err
		}
	}
	return nil
}

// forEach does something for 0 to n-1, many at a time, and begins no more of
// them after an error, the first of which it returns.
func forEach(n int, do func(i int) error) error {
	var lock sync.Mutex
	var wait sync.WaitGroup
	var failed error
	next := 0
	take := func() (i int, ok bool) {
		lock.Lock()
		defer lock.Unlock()
		next++
		return next - 1, failed == nil && next <= n
	}
	for range min(n, syncedAtOnce) {
		wait.Go(func() {
			for i, ok := take(); ok; i, ok = take() {
				if err := do(i); err != nil {
					lock.Lock()
					if failed == nil {
						failed = err
					}
					lock.Unlock()
				}
			}
		})
	}
	wait.Wait()
	return failed
}
