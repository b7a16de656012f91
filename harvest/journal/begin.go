package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"time"

	"trencher/units"
)

// Begun is a new plot: the files that stand in it.
type Begun struct {
	Dir   string
	Files []string
}

// BeginLike makes a new plot folder from an example plot, whose lifts are of one
// day, its dates moved so that they are on the day of now, or on the day before
// where their hour is still to come. It refuses what [Begin] does.
func BeginLike(dir string, example fs.FS, of, now time.Time) (Begun, error) {
	day := now
	if lifted := time.Date(now.Year(), now.Month(), now.Day(), 11, 0, 0, 0, now.Location()); now.Before(lifted) {
		day = now.AddDate(0, 0, -1)
	}
	files, err := Redated(example, of, day)
	if err != nil {
		return Begun{}, err
	}
	written, err := Begin(dir, files)
	return Begun{Dir: dir, Files: written}, err
}

// Reasons says where the files of a new plot come from.
func (b Begun) Reasons() []units.Reason {
	return []units.Reason{
		units.Why("example plot", fmt.Sprintf("%d files", len(b.Files)), "the built-in demo plot, an invented scenario: nobody's garden", "computed"),
		units.Why("dates", "the lift stands on the last day whose lift is past", "the demo's, all moved by the same number of days", "computed"),
	}
}

// Begin makes a new plot folder from example files and returns their paths in
// it. It refuses to touch a folder that has anything in it, and leaves nothing
// behind when it fails.
func Begin(dir string, files []Source) (written []string, err error) {
	if dir == "" {
		return nil, units.WrongField("", "", "no folder name given", "the name of a new folder, such as garden")
	}
	made, err := emptyFolder(dir)
	if err != nil {
		return nil, err
	}
	b := beginning{dir: dir}
	if made {
		b.folders = append(b.folders, dir)
	}
	for _, file := range files {
		if err := b.write(file); err != nil {
			b.undo()
			return nil, notBegun(dir, err)
		}
	}
	return b.written, nil
}

// beginning is a plot being made: what stands already, to be taken away again
// when the rest fails.
type beginning struct {
	dir     string
	folders []string
	written []string
}

func (b *beginning) write(file Source) error {
	folder, name := filepath.Split(filepath.Join(b.dir, filepath.FromSlash(file.File)))
	if err := b.makeFolder(filepath.Clean(folder)); err != nil {
		return err
	}
	if _, err := place(realDisk{}, folder, only(name), file.Data); err != nil {
		return err
	}
	b.written = append(b.written, file.File)
	return nil
}

// makeFolder makes a folder and those above it that are missing.
func (b *beginning) makeFolder(dir string) error {
	if _, err := os.Stat(dir); err == nil {
		return nil
	}
	if err := b.makeFolder(filepath.Dir(dir)); err != nil {
		return err
	}
	if err := os.Mkdir(dir, 0o755); err != nil {
		return err
	}
	b.folders = append(b.folders, dir)
	return nil
}

// undo takes away what was made, and only that.
func (b *beginning) undo() {
	for _, name := range b.written {
		os.Remove(filepath.Join(b.dir, filepath.FromSlash(name)))
	}
	for _, folder := range slices.Backward(b.folders) {
		os.Remove(folder)
	}
}

// emptyFolder makes the folder, or makes sure that it is empty.
func emptyFolder(dir string) (made bool, err error) {
	list, err := os.ReadDir(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if err := os.MkdirAll(dir, 0o755); err != nil {
			return false, notBegun(dir, err)
		}
		return true, nil
	case err != nil:
		return false, notBegun(dir, err)
	}
	for _, each := range list {
		if !strings.HasPrefix(each.Name(), ".") {
			return false, units.WrongField("", "", fmt.Sprintf("%s holds %s already; begin a plot in a new folder", dir, each.Name()), "")
		}
	}
	return false, nil
}

// notBegun is the error for a plot that could not be made.
func notBegun(dir string, err error) error {
	refused := notWritten(dir, err)
	refused.Accepted = "the name of a folder that can be made; nothing was half-written"
	if errors.Is(err, syscall.ENOSPC) {
		refused.Accepted = "it again once you have made room: the disk is full; nothing was half-written"
	}
	return refused
}
