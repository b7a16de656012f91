package journal

import (
	"errors"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"
)

// Unfinished lists what was still being written when something stopped it:
// files no reader counts, which may hold a weight nobody wrote down elsewhere.
// Temporary files whose entry stands under its name are not among them.
func (f *Folder) Unfinished() ([]string, error) {
	years, err := f.Seasons()
	if err != nil {
		return nil, err
	}
	var found []string
	for _, year := range years {
		left, err := f.unfinishedIn(path.Join("journal", strconv.Itoa(year)))
		if err != nil {
			return nil, err
		}
		found = append(found, left...)
	}
	return found, nil
}

func (f *Folder) unfinishedIn(folder string) ([]string, error) {
	list, err := fs.ReadDir(f.fsys, folder)
	if err != nil {
		return nil, err
	}
	temporary := temporaries(folder, list)
	if len(temporary) == 0 {
		return nil, nil
	}
	filed := map[string]bool{}
	names, err := f.names(folder)
	if err != nil {
		return nil, err
	}
	for _, name := range names {
		if source, err := f.read(path.Join(folder, name)); err == nil {
			filed[string(source.Data)] = true
		}
	}
	var found []string
	for _, file := range temporary {
		if source, err := f.read(file); err != nil || !filed[string(source.Data)] {
			found = append(found, file)
		}
	}
	return found, nil
}

func temporaries(folder string, list []fs.DirEntry) (files []string) {
	for _, each := range list {
		if strings.HasPrefix(each.Name(), temporaryPrefix) {
			files = append(files, path.Join(folder, each.Name()))
		}
	}
	return files
}

// errHalfWritten says of a file that it is being written, or that its writer was
// stopped: the whole of it lies beside it, unfinished. That happens where the
// file system has no links, and is as if the file were not there yet.
var errHalfWritten = errors.New("half written")

// unfinishedTexts are the whole entries that lie unfinished in a folder, sorted;
// never nil.
func (f *Folder) unfinishedTexts(folder string) ([]string, error) {
	list, err := fs.ReadDir(f.fsys, folder)
	if err != nil {
		return nil, cannotRead(folder, err)
	}
	texts := []string{}
	for _, file := range temporaries(folder, list) {
		if whole, err := f.read(file); err == nil && !cutShort(whole.Data) {
			texts = append(texts, string(whole.Data))
		}
	}
	slices.Sort(texts)
	return texts, nil
}

// isBeginningOf tells whether one of the texts, which are sorted, begins so.
func isBeginningOf(texts []string, begin string) bool {
	at, _ := slices.BinarySearch(texts, begin)
	return at < len(texts) && strings.HasPrefix(texts[at], begin)
}
