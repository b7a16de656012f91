package journal

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// What a file or a folder of a plot may not be.
var (
	errNoFile     = errors.New("is no ordinary file; a plot holds nothing else")
	errLinkedOut  = errors.New("is a link out of the plot; put the file itself there")
	errLinkFolder = errors.New("is a link; make it a folder, or copy its files in")
)

// plotFiles is a plot on disk, as a file system that opens folders and ordinary
// files of the plot and nothing else. A pipe or a device would make a command
// wait for ever, and a link out of the plot reads what is not the grower's to
// show. A file may be a link to another one of the same plot; a folder may not,
// so that every command sees the same seasons.
type plotFiles string

func (dir plotFiles) Open(name string) (fs.File, error) {
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
	}
	place := filepath.Join(string(dir), filepath.FromSlash(name))
	if name != "." {
		if err := dir.check(place); err != nil {
			return nil, &fs.PathError{Op: "open", Path: name, Err: err}
		}
	}
	return os.Open(place)
}

// largestFile is far beyond any file a person writes by hand, and beyond what
// package strict reads: it names a file that is larger.
const largestFile = 4 << 20

// ReadFile reads a file, of one that is larger than largestFile the beginning. It
// makes plotFiles an [fs.ReadFileFS].
func (dir plotFiles) ReadFile(name string) ([]byte, error) {
	if data, ok := readOrdinary(filepath.Join(string(dir), filepath.FromSlash(name)), largestFile); ok && fs.ValidPath(name) {
		return data, nil
	}
	in, err := dir.Open(name)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	return io.ReadAll(io.LimitReader(in, largestFile))
}

func (dir plotFiles) check(place string) error {
	info, err := os.Lstat(place)
	if err != nil {
		return err
	}
	if info.Mode()&fs.ModeSymlink != 0 {
		if info, err = dir.behind(place); err != nil {
			return err
		}
		if info.IsDir() {
			return errLinkFolder
		}
	}
	if !info.Mode().IsRegular() && !info.IsDir() {
		return errNoFile
	}
	return nil
}

// behind is what a link stands for, if that lies in the plot.
func (dir plotFiles) behind(link string) (fs.FileInfo, error) {
	target, err := filepath.EvalSymlinks(link)
	if err != nil {
		return nil, err
	}
	root, err := filepath.EvalSymlinks(string(dir))
	if err != nil {
		return nil, err
	}
	info, err := os.Stat(target)
	if err != nil {
		return nil, err
	}
	inside, err := filepath.Rel(root, target)
	if !info.IsDir() && (err != nil || !filepath.IsLocal(inside)) {
		return nil, errLinkedOut
	}
	return info, nil
}
