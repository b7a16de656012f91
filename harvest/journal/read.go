package journal

import (
	"context"
	"errors"
	"path"
	"slices"
	"strconv"
	"strings"
	"sync"

	"trencher/harvest"
	"trencher/units/parallel"
	"trencher/units/strict"
)

// EverySeason reads the entries of every season there is, the earliest first, as
// [Folder.Season] reads one.
func (f *Folder) EverySeason(ctx context.Context, o Options) (all []harvest.Entry, out []harvest.LeftOut, err error) {
	years, err := f.Seasons()
	if err != nil {
		return nil, nil, err
	}
	for _, year := range years {
		entries, left, err := f.Season(ctx, year, o)
		if err != nil {
			return nil, nil, err
		}
		all, out = append(all, entries...), append(out, left...)
	}
	return all, out, nil
}

// Season reads the entries of one season, sorted by moment: the files of
// journal/<year> and no others. A missing folder is an empty season.
//
// What is wrong is told all at once as strict.Errors. With SkipDamaged the
// damaged entries are left out and named instead.
func (f *Folder) Season(ctx context.Context, year int, o Options) ([]harvest.Entry, []harvest.LeftOut, error) {
	folder := path.Join("journal", strconv.Itoa(year))
	names, err := f.names(folder)
	if err != nil {
		return nil, nil, err
	}
	files, err := f.readAll(ctx, folder, names, year, o)
	if err != nil {
		return nil, nil, err
	}
	var entries []harvest.Entry
	var skipped []harvest.LeftOut
	markTwins(files)
	for _, file := range files {
		if errors.Is(file.Err, errHalfWritten) {
			continue // its text is among what is unfinished
		}
		if file.Err != nil {
			skipped = append(skipped, file.LeftOut)
			continue
		}
		entries = append(entries, file.entry)
	}
	harvest.SortEntries(entries)
	if damaged := faults(skipped); len(damaged) > 0 && !o.SkipDamaged {
		return nil, nil, strict.Join(damaged...)
	}
	return entries, skipped, nil
}

// readFile is one file of a season: its entry, or what is wrong with it.
type readFile struct {
	harvest.LeftOut
	entry harvest.Entry
	mark  string // what Write would make of its bytes
}

// markTwins finds the files that hold, byte by byte, what another one holds
// whose name was made from those bytes: somebody copied it.
func markTwins(files []readFile) {
	named := map[string]string{}
	fits := func(f readFile) bool { return strings.Contains(f.File, "-"+f.mark) }
	if !slices.ContainsFunc(files, func(f readFile) bool { return f.Err == nil && !fits(f) }) {
		return
	}
	key := func(f readFile) string { return f.entry.When().String() + f.mark }
	for _, f := range files {
		if f.Err == nil && fits(f) {
			named[key(f)] = f.File
		}
	}
	for i, f := range files {
		if f.Err != nil || fits(f) {
			continue
		}
		if of, twin := named[key(f)]; twin {
			files[i].Err = &harvest.Copied{File: f.File, Of: path.Base(of)}
		}
	}
}

// readAll reads the files of a season on all processors, and returns them in
// the order of their names.
func (f *Folder) readAll(ctx context.Context, folder string, names []string, year int, o Options) ([]readFile, error) {
	copies := conflictCopies(names)
	files := make([]readFile, len(names))
	parallel.Each(len(names), func(i int) {
		if ctx.Err() != nil {
			return
		}
		file := path.Join(folder, names[i])
		e, mark, err := f.entry(file, year, copies[names[i]], o)
		files[i] = readFile{harvest.LeftOut{File: file, Err: err}, e, mark}
	})
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	return files, f.lookAgain(folder, files, year, o)
}

func (f *Folder) entry(file string, year int, copyOf string, o Options) (e harvest.Entry, marked string, err error) {
	if copyOf != "" {
		return nil, "", &harvest.Copied{File: file, Of: copyOf}
	}
	source, err := f.read(file)
	switch {
	case err != nil:
		return nil, "", err
	case cutShort(source.Data):
		return nil, "", &shortEntry{source.Data}
	}
	e, err = decodeEntry(source, year, o)
	return e, mark(source.Data), err
}

// shortEntry is a file cut short, which may be in the middle of being written.
type shortEntry struct{ begins []byte }

func (*shortEntry) Error() string { return "cut short" }

// lookAgain reads the files cut short once more, now that all others are read: what
// is being written lies whole beside them, unfinished, or is finished by now.
func (f *Folder) lookAgain(folder string, files []readFile, year int, o Options) error {
	var unfinished []string
	for i := range files {
		file := &files[i]
		var short *shortEntry
		if !errors.As(file.Err, &short) {
			continue
		}
		if unfinished == nil {
			var err error
			if unfinished, err = f.unfinishedTexts(folder); err != nil {
				return err
			}
		}
		if isBeginningOf(unfinished, string(short.begins)) {
			file.Err = errHalfWritten
			continue
		}
		source, err := f.read(file.File)
		if err == nil {
			file.mark = mark(source.Data)
			file.entry, err = decodeEntry(source, year, o)
		}
		file.Err = err
	}
	return nil
}

// conflictCopies finds files that a sync tool or a copy by hand made of another
// entry: their name is another entry's name with something behind it that
// Write would not put there. Counting both would count the weights twice.
func conflictCopies(names []string) map[string]string {
	copies := map[string]string{}
	stems := sync.OnceValue(func() map[string]string { // most folders have no copies to look for
		all := map[string]string{}
		for _, name := range names {
			all[stemOf(name)] = name
		}
		return all
	})
	for _, name := range names {
		if strings.ContainsAny(name, copyMarks) || saysCopied(name) {
			if original := copiedFrom(stemOf(name), stems()); original != "" {
				copies[name] = original
			}
		}
	}
	return copies
}

func stemOf(name string) string { return strings.TrimSuffix(name, path.Ext(name)) }

// copiedFrom is the name among stems that a file's stem is that of a copy of; ""
// where it is none.
func copiedFrom(stem string, stems map[string]string) (original string) {
	for end := len(stem) - 1; end > 0; end-- {
		if original, ok := stems[stem[:end]]; ok && looksCopied(stem[end:]) {
			return original
		}
	}
	return ""
}

// copyMarks begin what is put behind a copy's name, where no word says so.
const copyMarks = " (~"

func looksCopied(rest string) bool {
	return strings.ContainsAny(rest[:1], copyMarks) || saysCopied(rest)
}

func saysCopied(text string) bool {
	text = strings.ToLower(text)
	return strings.Contains(text, "conflict") || strings.Contains(text, "copy")
}

// faults are what is damaged among the files left out; a copy is not.
func faults(skipped []harvest.LeftOut) []error {
	var list []error
	for _, s := range skipped {
		var copied *harvest.Copied
		if !errors.As(s.Err, &copied) {
			list = append(list, s.Err)
		}
	}
	return list
}
