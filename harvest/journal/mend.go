package journal

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path"
	"path/filepath"
	"strconv"
	"time"

	"trencher/harvest"
	"trencher/units"
)

// Mended is what mending a journal did, by files.
type Mended struct {
	Written  []string // entries that settle contradictions
	Finished []string // entries found whole in files that were never finished
	Aside    []string // what was moved out of the way, where it is now
}

// setAside is the folder, beside a season's entries, for files that are none.
const setAside = "set-aside"

// stillWriting is how young an unfinished file may be somebody's who is writing
// it now.
const stillWriting = time.Minute

// Mend settles what copies between devices left open, as [harvest.Ledger.Mend]
// does for entries; second copies of an entry and files that cannot be finished
// are moved to set-aside, and a file that holds a whole entry is brought to its
// name. On an embedded plot it returns [ErrReadOnly].
func (f *Folder) Mend(ctx context.Context, o Options, clock time.Time) (done Mended, err error) {
	if !f.Writable() {
		return done, f.readOnly()
	}
	if err := f.finish(&done, o, clock); err != nil {
		return done, err
	}
	o.SkipDamaged = true
	if err := f.moveCopies(ctx, &done, o); err != nil {
		return done, err
	}
	plantings, err := f.Plantings(o.System)
	if err != nil {
		return done, err
	}
	written, err := harvest.NewLedger(shelf{f, o}, plantings, true).Mend(ctx, clock)
	for _, e := range written {
		done.Written = append(done.Written, e.Head().File)
	}
	return done, err
}

// moveCopies moves second copies of entries out of the way.
func (f *Folder) moveCopies(ctx context.Context, done *Mended, o Options) error {
	years, err := f.Seasons()
	if err != nil {
		return err
	}
	for _, year := range years {
		_, left, err := f.Season(ctx, year, o)
		if err != nil {
			return err
		}
		for _, one := range left {
			var copied *harvest.Copied
			if !errors.As(one.Err, &copied) {
				continue
			}
			if err := f.moveAside(done, one.File); err != nil {
				return err
			}
		}
	}
	return nil
}

// finish brings unfinished files to their names where they hold a whole entry.
func (f *Folder) finish(done *Mended, o Options, clock time.Time) error {
	left, err := f.Unfinished()
	if err != nil {
		return err
	}
	for _, file := range left {
		info, err := os.Stat(filepath.Join(f.dir, file))
		if err != nil || clock.Sub(info.ModTime()) < stillWriting {
			continue
		}
		if err := f.finishOne(done, o, file); err != nil {
			return err
		}
	}
	return nil
}

// finishOne brings an unfinished file to its name, or moves it out of the way where
// it holds no whole entry.
func (f *Folder) finishOne(done *Mended, o Options, file string) error {
	e, err := f.whole(file, o)
	if err != nil {
		return f.moveAside(done, file)
	}
	if err := f.moveBeginnings(done, file); err != nil {
		return err
	}
	name, err := f.Write(e)
	if err != nil {
		return err
	}
	if err := f.disk.Remove(filepath.Join(f.dir, file)); err != nil {
		return notWritten(file, err)
	}
	done.Finished = append(done.Finished, name)
	return nil
}

// moveBeginnings moves files out of the way that hold the beginning of an
// unfinished one.
func (f *Folder) moveBeginnings(done *Mended, unfinished string) error {
	whole, err := f.read(unfinished)
	if err != nil {
		return err
	}
	folder := path.Dir(unfinished)
	names, err := f.names(folder)
	if err != nil {
		return err
	}
	for _, name := range names {
		part, err := f.read(path.Join(folder, name))
		if err == nil && cutShort(part.Data) && bytes.HasPrefix(whole.Data, part.Data) {
			if err := f.moveAside(done, part.File); err != nil {
				return err
			}
		}
	}
	return nil
}

// whole reads an entry that has its closing line.
func (f *Folder) whole(file string, o Options) (harvest.Entry, error) {
	source, err := f.read(file)
	if err != nil {
		return nil, err
	}
	year, _ := strconv.Atoi(path.Base(path.Dir(file))) // a season's folder is its year
	return decodeEntry(source, year, o)
}

// moveAside moves a file out of the season, under a name that is free there.
func (f *Folder) moveAside(done *Mended, file string) error {
	folder := path.Join(path.Dir(file), setAside)
	if err := f.disk.MakeFolder(filepath.Join(f.dir, folder)); err != nil {
		return notWritten(folder, err)
	}
	to := path.Join(folder, path.Base(file))
	for n := 2; exists(filepath.Join(f.dir, to)); n++ {
		to = path.Join(folder, strconv.Itoa(n)+"-"+path.Base(file))
	}
	if err := f.disk.Rename(filepath.Join(f.dir, file), filepath.Join(f.dir, to)); err != nil {
		return notWritten(to, err)
	}
	done.Aside = append(done.Aside, to)
	return nil
}

func exists(file string) bool {
	_, err := os.Lstat(file)
	return err == nil
}

// Reasons says what mending goes by.
func (m Mended) Reasons() []units.Reason {
	return []units.Reason{units.Why("what counts", "the latest correction, and a correction before a void", "so that no weight is lost and the order of copying changes nothing", "computed")}
}
