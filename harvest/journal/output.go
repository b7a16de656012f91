package journal

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"trencher/units"
)

// Output is a file that somebody asked for beside an answer: a sheet, a
// calendar, a table, a dish. A hand that slips must lose nothing by it, so it
// never takes the place of a file of a plot, and takes that of any other only
// where an earlier answer stands in it or the person insists.
type Output struct {
	Field string // the field that names the file: sheet, calendar, to
	Path  string
	// Made is what every file of this kind that was written here has near its
	// beginning. Where it is empty no file is replaced.
	Made string
	// Dish tells that it is a dish, which may go among a plot's dishes.
	Dish bool
	// Force replaces any file that is not a plot's.
	Force bool
}

// ErrForeign: a file in the way of an output was made by somebody else. Force
// replaces it.
var ErrForeign = errors.New("a file made by somebody else")

// CheckOutputs tells whether the outputs asked for with a question can be
// written, before anything is worked out or written down for it. Those without
// a path are passed over. Its errors are of the outputs' fields.
func CheckOutputs(outputs ...Output) error {
	for i, o := range outputs {
		if o.Path == "" {
			continue
		}
		if err := o.check(); err != nil {
			return err
		}
		for _, other := range outputs[:i] {
			if other.Path != "" && sameFile(other.Path, o.Path) {
				return o.wrong(fmt.Sprintf("the %s goes to that file already", other.Field), "another file name")
			}
		}
	}
	return nil
}

// Write writes the file whole or not at all; see [CheckOutputs] for what is
// refused. The rights of a file replaced stay, and a link is followed to the
// file it stands for. Where anything fails the old file stands as it was and
// nothing is left beside it.
//
// It returns the error of write as it came, and a *[units.FieldError] of the
// output's field otherwise.
func (o Output) Write(write func(io.Writer) error) error {
	if err := o.check(); err != nil {
		return err
	}
	return units.InField(o.Field, o.Path, replaceFile(realDisk{}, o.Path, write))
}

// Earlier is what stands in the file that is about to be replaced; "" where
// there is none that was written here.
func (o Output) Earlier() string {
	data, err := os.ReadFile(o.Path)
	if err != nil || o.Made == "" || !strings.Contains(string(data), o.Made) {
		return ""
	}
	return string(data)
}

// check refuses what must not be replaced and what is no ordinary file.
func (o Output) check() error {
	if o.Path == "" {
		return o.wrong("no file name given", "one, such as plan.html")
	}
	if part := partOfPlot(o.Path); part != "" && !(part == "dishes" && o.Dish) {
		return placeOfPlot(o.Field, o.Path, part)
	}
	if isDevice(filepath.Base(o.Path)) {
		return o.wrong("that name means a device on other systems", "another file name")
	}
	info, err := os.Stat(o.Path)
	switch _, link := os.Lstat(o.Path); {
	case err != nil && link == nil:
		return o.wrong("that is a link to nothing", "the name of a file")
	case errors.Is(err, fs.ErrNotExist):
		return o.checkFolder()
	case err != nil:
		return o.wrong("cannot be looked at: "+bare(err).Error(), "a file name in a folder that may be written to")
	case !info.Mode().IsRegular():
		return o.wrong("that is no ordinary file", "the name of a file")
	case o.Force:
		return nil
	case o.Made == "":
		return o.wrong("that file exists already", "a name that is free, or move the old file away first")
	}
	return o.checkMade()
}

// CheckApart refuses a file or folder among a plot's own files; its error is a
// *[units.FieldError].
func CheckApart(field, path string) error {
	if part := partOfPlot(path); part != "" {
		return placeOfPlot(field, path, part)
	}
	return nil
}

func placeOfPlot(field, path, part string) error {
	return units.WrongField(field, path, "that is a place for the plot's own files ("+part+")", "a name outside of it, such as plan.html")
}

// checkFolder tells whether there is a folder for a new file.
func (o Output) checkFolder() error {
	folder := filepath.Dir(o.Path)
	if info, err := os.Stat(folder); err != nil || !info.IsDir() {
		return o.wrong("there is no folder "+folder, "a file name in a folder that may be written to")
	}
	return nil
}

// markWithin is how many bytes of a file the mark of its maker is looked for in.
const markWithin = 1024

// checkMade refuses a file that somebody else made.
func (o Output) checkMade() error {
	file, err := os.Open(o.Path)
	if err != nil {
		return o.wrong("cannot be read: "+bare(err).Error(), "another file name")
	}
	defer file.Close()
	head, err := io.ReadAll(io.LimitReader(file, markWithin))
	switch {
	case err != nil:
		return o.wrong("cannot be read: "+bare(err).Error(), "another file name")
	case len(head) > 0 && !bytes.Contains(head, []byte(o.Made)):
		foreign := o.wrong("that file was not made by trencher, and would be lost", "another file name")
		foreign.Cause = ErrForeign
		return foreign
	}
	return nil
}

// isDevice tells whether Windows takes a file's name for a device, whatever its
// ending (Microsoft, Naming Files, Paths, and Namespaces; from memory).
func isDevice(name string) bool {
	stem, _, _ := strings.Cut(strings.ToLower(name), ".")
	switch stem {
	case "con", "prn", "aux", "nul":
		return true
	}
	return len(stem) == 4 && (strings.HasPrefix(stem, "com") || strings.HasPrefix(stem, "lpt")) && stem[3] >= '0' && stem[3] <= '9'
}

func (o Output) wrong(problem, accepted string) *units.FieldError {
	return units.WrongField(o.Field, o.Path, problem, accepted)
}

// partOfPlot is the part of a plot that a path lies in: kitchen.yaml,
// plantings.yaml, dishes or journal; or it is empty. A file of the first two's name
// is one wherever it lies. Small and capital letters are the same, as they are on some
// disks.
func partOfPlot(path string) string {
	path, err := filepath.Abs(path)
	if err != nil {
		return ""
	}
	if target, err := filepath.EvalSymlinks(path); err == nil {
		path = target
	} else if folder, err := filepath.EvalSymlinks(filepath.Dir(path)); err == nil {
		path = filepath.Join(folder, filepath.Base(path))
	}
	if part := partNamed(filepath.Base(path)); strings.HasSuffix(part, ".yaml") {
		return part // it would make its folder a plot, and a broken one
	}
	for folder := filepath.Dir(path); ; path, folder = folder, filepath.Dir(folder) {
		if part := partNamed(filepath.Base(path)); part != "" {
			if _, err := os.Stat(filepath.Join(folder, "kitchen.yaml")); err == nil {
				return part
			}
		}
		if folder == filepath.Dir(folder) {
			return ""
		}
	}
}

// partNamed is the part of a plot that goes by a name; "" where none does.
func partNamed(name string) string {
	for _, part := range []string{"kitchen.yaml", "plantings.yaml", "dishes", "journal"} {
		if strings.EqualFold(name, part) {
			return part
		}
	}
	return ""
}

// sameFile tells whether two paths are one file, or would be.
func sameFile(one, other string) bool {
	a, errA := os.Stat(one)
	b, errB := os.Stat(other)
	if errA == nil && errB == nil {
		return os.SameFile(a, b)
	}
	return strings.EqualFold(fullPath(one), fullPath(other))
}

// fullPath is a path from the root, with the links of its folder followed.
func fullPath(path string) string {
	if whole, err := filepath.Abs(path); err == nil {
		path = whole
	}
	if folder, err := filepath.EvalSymlinks(filepath.Dir(path)); err == nil {
		return filepath.Join(folder, filepath.Base(path))
	}
	return path
}
