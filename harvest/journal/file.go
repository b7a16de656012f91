package journal

import (
	"bytes"
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"iter"
	"os"
	"path/filepath"
	"strconv"
	"syscall"

	"trencher/units"
)

// Every file is written the same way, here and nowhere else: into a temporary
// file beside the place it is for, synced, and only then brought to its name.
// Whatever stops a writer, a file is there whole or not at all.

// replaceFile writes a file in the place of the one that has its name.
func replaceFile(d disk, path string, write func(io.Writer) error) error {
	path, mode := target(path)
	temporary := filepath.Join(filepath.Dir(path), "."+filepath.Base(path)+"."+randomText(8)+".part")
	var refused error // by write itself, not by the disk
	err := writeNew(d, temporary, func(f diskFile) error {
		out := &noting{diskFile: f}
		if err := write(out); out.failed != nil {
			return out.failed
		} else if err != nil {
			refused = err
			return err
		}
		return f.Chmod(mode)
	})
	if err == nil {
		if err = d.Rename(temporary, path); err != nil {
			d.Remove(temporary)
		}
	}
	if err != nil && refused == nil {
		return cannotWrite(path, err)
	}
	return refused
}

// replaceWith is replaceFile for bytes that are there.
func replaceWith(d disk, path string, data []byte) error {
	return replaceFile(d, path, func(to io.Writer) error {
		_, err := to.Write(data)
		return err
	})
}

// A noting file remembers what the disk refused it, however that is told on.
type noting struct {
	diskFile
	failed error
}

func (n *noting) Write(data []byte) (int, error) {
	written, err := n.diskFile.Write(data)
	if err != nil && n.failed == nil {
		n.failed = err
	}
	return written, err
}

func cannotWrite(path string, err error) error {
	accepted := "a file name in a folder that may be written to"
	if errors.Is(err, syscall.ENOSPC) {
		accepted = "it again once you have made room: the disk is full"
	}
	return &units.FieldError{Problem: fmt.Sprintf("cannot write %s: %v", path, bare(err)), Accepted: accepted, Cause: err}
}

// target follows a link to the file it stands for, and gives the rights the
// written file is to have: those of the file it replaces.
func target(path string) (file string, mode fs.FileMode) {
	if file, err := filepath.EvalSymlinks(path); err == nil {
		path = file
	}
	info, err := os.Stat(path)
	if err != nil {
		return path, 0o644 // a new file; a folder that is missing shows when it is written to
	}
	return path, info.Mode().Perm()
}

// writeNew writes and syncs a file that must not exist, and removes it again
// when that fails.
func writeNew(d disk, path string, write func(diskFile) error) error {
	f, err := d.Create(path)
	if err != nil {
		return err
	}
	err = write(f)
	if err == nil {
		err = f.Sync()
	}
	err = errors.Join(err, f.Close())
	if err != nil {
		return errors.Join(err, ignoreMissing(d.Remove(path)))
	}
	return nil
}

// place writes bytes into the folder under the first of the names that is free,
// and returns that name. It never overwrites: the temporary file is linked to a
// name that must not exist yet, then the folder is synced. Where the file
// system has no links the file is created under its name exclusively; an
// entry's closing line then tells a whole one from a torn one. A failure leaves
// no file behind.
func place(d disk, folder string, names iter.Seq[string], data []byte) (name string, err error) {
	write := func(f diskFile) error {
		_, err := io.Copy(f, bytes.NewReader(data))
		return err
	}
	temporary := filepath.Join(folder, temporaryName())
	if err := writeNew(d, temporary, write); err != nil {
		return "", err
	}
	defer d.Remove(temporary) // a left-over temporary name is no file of the plot
	name, err = firstFree(names, func(name string) error { return d.Link(temporary, filepath.Join(folder, name)) })
	if err != nil && noLinks(err) {
		name, err = firstFree(names, func(name string) error { return writeNew(d, filepath.Join(folder, name), write) })
	}
	if err != nil {
		return "", err
	}
	if err := d.SyncFolder(folder); err != nil {
		return "", errors.Join(err, ignoreMissing(d.Remove(filepath.Join(folder, name))))
	}
	return name, nil
}

// firstFree tries names until one is not taken.
func firstFree(names iter.Seq[string], try func(name string) error) (string, error) {
	err := error(fs.ErrExist)
	for name := range names {
		if err = try(name); !errors.Is(err, fs.ErrExist) {
			return name, err
		}
	}
	return "", err
}

// only is the one name a file may have.
func only(name string) iter.Seq[string] { return func(yield func(string) bool) { yield(name) } }

// mostNames bounds the search for a free name among entries of one minute.
const mostNames = 1000

// namesFrom are stem.yaml, stem-2.yaml ... stem-9.yaml and then random endings.
func namesFrom(stem string) iter.Seq[string] {
	return func(yield func(string) bool) {
		for n := 1; n <= mostNames; n++ {
			name := stem + ".yaml"
			switch {
			case n > 9:
				name = stem + "-" + randomText(4) + ".yaml"
			case n > 1:
				name = stem + "-" + strconv.Itoa(n) + ".yaml"
			}
			if !yield(name) {
				return
			}
		}
	}
}

// temporaryPrefix marks a file of the plot still being written. Readers pass it
// over.
const temporaryPrefix = ".unfinished-"

func temporaryName() string {
	return temporaryPrefix + randomText(8) + ".yaml"
}

func randomText(bytes int) string {
	b := make([]byte, bytes)
	rand.Read(b) // never fails
	return hex.EncodeToString(b)
}

func ignoreMissing(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}
