package journal

import (
	"errors"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"trencher/units"
	"trencher/units/strict"
)

// Errors callers branch on.
var (
	// ErrNoPlot: the folder holds no kitchen.yaml, so it is no plot.
	ErrNoPlot = errors.New("no plot")
	// ErrReadOnly: the plot is the built-in one and cannot be written to.
	ErrReadOnly = errors.New("this plot is read-only")
)

// Folder is a plot: on disk, or embedded in the program. Make one with Open or
// Embedded.
type Folder struct {
	name string
	fsys fs.FS
	dir  string // "" when it cannot be written to
	disk disk
}

// Source is a file of the plot and the path to print in errors.
type Source struct {
	File string
	Data []byte
}

// Options say how to read.
type Options struct {
	// System settles regional units that name none. Zero leaves them errors.
	System units.System
	// Zone is where times without a zone are local. Nil is UTC.
	Zone *time.Location
	// SkipDamaged leaves damaged entries out, and what rests on them, and names
	// them, instead of failing.
	SkipDamaged bool
}

// NoPlotError is the error for a folder that is no plot; its cause is [ErrNoPlot].
type NoPlotError struct {
	Dir     string // as it was given
	Problem string
}

// Error is the folder and what is wrong with it.
func (e *NoPlotError) Error() string { return e.Dir + ": " + e.Problem }

// Unwrap is ErrNoPlot.
func (e *NoPlotError) Unwrap() error { return ErrNoPlot }

func noPlot(dir, problem string) error { return &NoPlotError{dir, problem} }

// cannotRead is the error for a file or a folder of the plot that is there and
// does not open.
func cannotRead(file string, err error) error {
	return &strict.Error{File: file, Problem: "cannot be read: " + bare(err).Error()}
}

// Open opens the plot in a folder. It returns an error wrapping ErrNoPlot when
// there is no kitchen.yaml in it.
func Open(dir string) (*Folder, error) {
	info, err := os.Stat(filepath.Join(dir, "kitchen.yaml"))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if _, err := os.Stat(dir); err != nil {
			return nil, noPlot(dir, "there is no such folder")
		}
		return nil, noPlot(dir, "no plot here (it holds no kitchen.yaml)")
	case err != nil:
		return nil, noPlot(dir, "cannot be read: "+bare(err).Error())
	case info.IsDir():
		return nil, noPlot(dir, "no plot here (its kitchen.yaml is a folder)")
	}
	return &Folder{name: dir, fsys: plotFiles(dir), dir: dir, disk: realDisk{}}, nil
}

// Embedded is a read-only plot, such as the built-in demo. name is how messages
// call it.
func Embedded(fsys fs.FS, name string) *Folder { return &Folder{name: name, fsys: fsys} }

// Name is the folder as it was given, or the name of an embedded plot.
func (f *Folder) Name() string { return f.name }

// Writable tells whether entries can be written: the plot is on disk.
func (f *Folder) Writable() bool { return f.dir != "" }

// Kitchen reads kitchen.yaml.
func (f *Folder) Kitchen() (Source, error) { return f.read("kitchen.yaml") }

// Dishes reads the grower's recipes, dishes/*.yaml, in file-name order.
func (f *Folder) Dishes() ([]Source, error) {
	names, err := f.names("dishes")
	if err != nil {
		return nil, err
	}
	var sources []Source
	var failed []error
	for _, name := range names {
		s, err := f.read(path.Join("dishes", name))
		if err != nil {
			failed = append(failed, err)
			continue
		}
		sources = append(sources, s)
	}
	return sources, strict.Join(failed...)
}

// Seasons lists the years the journal has a folder for, oldest first.
func (f *Folder) Seasons() ([]int, error) {
	list, err := fs.ReadDir(f.fsys, "journal")
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, cannotRead("journal", err)
	}
	var years []int
	for _, each := range list {
		year, err := strconv.Atoi(each.Name())
		switch {
		case err != nil || len(each.Name()) != 4:
		case each.Type()&fs.ModeSymlink != 0:
			return nil, cannotRead(path.Join("journal", each.Name()), errLinkFolder)
		case each.IsDir():
			years = append(years, year)
		}
	}
	slices.Sort(years)
	return years, nil
}

// names lists the YAML files of a subfolder in name order; hidden files and
// files still being written are passed over. A missing folder is empty. What is
// no ordinary file is listed too, so that reading it tells.
func (f *Folder) names(folder string) ([]string, error) {
	list, err := fs.ReadDir(f.fsys, folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, cannotRead(folder, err)
	}
	var names []string
	for _, each := range list {
		name := each.Name()
		if !each.IsDir() && !strings.HasPrefix(name, ".") && isYAML(name) {
			names = append(names, name)
		}
	}
	return names, nil
}

func isYAML(name string) bool {
	ending := strings.ToLower(path.Ext(name))
	return ending == ".yaml" || ending == ".yml"
}

func (f *Folder) read(file string) (Source, error) {
	data, err := fs.ReadFile(f.fsys, file)
	if err != nil {
		return Source{}, cannotRead(file, err)
	}
	return Source{File: file, Data: data}, nil
}
