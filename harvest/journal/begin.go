package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// Begin makes a new plot folder from the files of an example and returns their
// paths in it. It refuses to touch a folder that has anything in it, and leaves
// nothing behind when it fails.
func Begin(dir string, files fs.FS) (written []string, err error) {
	made, err := emptyFolder(dir)
	if err != nil {
		return nil, err
	}
	b := beginning{dir: dir, files: files}
	if err := fs.WalkDir(files, ".", b.visit); err != nil {
		b.undo(made)
		return nil, writeError{dir, err}
	}
	return b.written, syncFolder(dir)
}

// beginning is a plot being made.
type beginning struct {
	dir     string
	files   fs.FS
	folders []string
	written []string
}

func (b *beginning) visit(name string, entry fs.DirEntry, err error) error {
	if err != nil || name == "." {
		return err
	}
	target := filepath.Join(b.dir, filepath.FromSlash(name))
	if entry.IsDir() {
		if err := os.Mkdir(target, 0o755); err != nil {
			return err
		}
		b.folders = append(b.folders, target)
		return nil
	}
	data, err := fs.ReadFile(b.files, name)
	if err != nil {
		return err
	}
	if err := writeNew(realDisk{}, target, data); err != nil {
		return err
	}
	b.written = append(b.written, name)
	return nil
}

// undo takes away what was made, and only that.
func (b *beginning) undo(made bool) {
	for _, name := range b.written {
		os.Remove(filepath.Join(b.dir, filepath.FromSlash(name)))
	}
	for _, folder := range slices.Backward(b.folders) {
		os.Remove(folder)
	}
	if made {
		os.Remove(b.dir)
	}
}

// emptyFolder makes the folder, or makes sure that it is empty.
func emptyFolder(dir string) (made bool, err error) {
	list, err := os.ReadDir(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if err := os.MkdirAll(dir, 0o755); err != nil {
			return false, writeError{dir, err}
		}
		return true, nil
	case err != nil:
		return false, writeError{dir, err}
	}
	for _, each := range list {
		if !strings.HasPrefix(each.Name(), ".") {
			return false, fmt.Errorf("%s holds %s already; begin a plot in a new folder", dir, each.Name())
		}
	}
	return false, nil
}
