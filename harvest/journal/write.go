package journal

import (
	"crypto/sha256"
	"encoding/base32"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"unicode"

	"trencher/harvest"
	"trencher/units"
	"trencher/units/strict"
)

// notWritten is the error for what the disk refuses, in the words of the person
// who holds the weights. Its cause is the disk's own error.
func notWritten(what string, err error) *units.FieldError {
	advice := "the same again"
	switch {
	case errors.Is(err, syscall.ENOSPC):
		advice += " once you have made room: the disk is full"
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		advice += " once you have changed that: the folder may not be written to"
	case errors.Is(err, fs.ErrNotExist):
		advice += " once you have brought it back: the plot folder is gone"
	}
	return &units.FieldError{Problem: fmt.Sprintf("not written: %s: %v", what, bare(err)),
		Accepted: advice + "; nothing was half-written", Cause: err}
}

// Write files a new entry under its season and returns its path in the plot,
// and sets it in the entry. It never overwrites: the name is made unique. When
// Write has returned without an error the entry is on the disk, whole; with an
// error there is no entry.
//
// The entry is first read back from the bytes that would be written, so what
// could not be read is refused ([units.FieldError]s). On an embedded plot it returns
// ErrReadOnly.
func (f *Folder) Write(e harvest.Entry) (file string, err error) {
	if !f.Writable() {
		return "", f.readOnly()
	}
	data, err := encodeEntry(e)
	if err != nil {
		return "", err
	}
	stem := stemFor(e) + "-" + mark(data)
	if file, data, err = f.readBack(e, stem); err != nil {
		return "", err
	}
	folder := path.Dir(file)
	if err := f.makeSeason(path.Base(folder)); err != nil {
		return "", err
	}
	name, err := place(f.disk, filepath.Join(f.dir, filepath.FromSlash(folder)), namesFrom(stem), data)
	if err != nil {
		return "", notWritten(file, err)
	}
	file = path.Join(folder, name)
	e.Head().File = file
	return file, nil
}

// mark is four letters and digits made from an entry's bytes. They keep what
// two devices write about one thing in one minute under two names, so that
// folders merge by copying and nothing is written over.
func mark(data []byte) string {
	sum := sha256.Sum256(data)
	return strings.ToLower(base32.StdEncoding.EncodeToString(sum[:5])[:4])
}

// readBack encodes an entry for a name, and reads it again from those bytes as
// any reader will: what could not be read is refused. The entry is given the
// places of its parts in the file.
func (f *Folder) readBack(e harvest.Entry, stem string) (file string, data []byte, err error) {
	if data, err = encodeEntry(e); err != nil {
		return "", nil, err
	}
	file = path.Join("journal", strconv.Itoa(seasonOf(e)), stem+".yaml")
	read, err := decodeEntry(Source{Data: data}, seasonOf(e), Options{})
	if err != nil {
		return "", nil, unreadable(err)
	}
	e.Head().Places = read.Head().Places
	if p, planned := e.(*harvest.Planned); planned {
		p.Spots = read.(*harvest.Planned).Spots
	}
	return file, data, nil
}

// unreadable tells what of an entry could not be read back, without its place in
// a file that is not there.
func unreadable(err error) error {
	var faults strict.Errors
	if !errors.As(err, &faults) {
		return err
	}
	var list []error
	for _, fault := range faults {
		list = append(list, &units.FieldError{Problem: "not written: " + fault.Problem, Accepted: fault.Accepted, Cause: fault})
	}
	return errors.Join(list...)
}

// makeSeason makes journal/<year> inside the plot, but never the plot itself:
// when that has vanished, the weights must not go to a folder nobody looks in.
func (f *Folder) makeSeason(season string) error {
	if _, err := os.Stat(filepath.Join(f.dir, "kitchen.yaml")); err != nil {
		return notWritten(f.dir, err)
	}
	inside := f.dir
	for _, name := range []string{"journal", season} {
		folder := filepath.Join(inside, name)
		info, err := os.Lstat(folder)
		switch {
		case err == nil && info.Mode()&fs.ModeSymlink != 0:
			return notWritten(folder, errLinkFolder)
		case err == nil && info.IsDir():
			inside = folder
			continue
		}
		if err := f.disk.MakeFolder(folder); err != nil {
			return notWritten(folder, err)
		}
		if err := f.disk.SyncFolder(inside); err != nil {
			return notWritten(inside, err)
		}
		inside = folder
	}
	return nil
}

// stemFor makes the file name of an entry, without its ending: month, day,
// hour, minute, kind and the thing it is about, as in 0712-1640-lift-tub-3. Write
// adds the mark.
func stemFor(e harvest.Entry) string {
	return e.When().Format("0102-1504") + "-" + e.Kind() + slug(thing(e))
}

func thing(e harvest.Entry) string {
	switch e := e.(type) {
	case *harvest.Lift:
		return e.Planting
	case *harvest.Move, *harvest.Reweighed:
		planting, _, _ := strings.Cut(harvest.LotOf(e), "/")
		return planting
	case *harvest.Planned:
		return e.ID
	case *harvest.BatchEvent:
		return e.Name
	case *harvest.Note:
		return e.Dish
	case *harvest.Steamed:
		return e.Crop
	case *harvest.Told:
		return e.Step
	}
	return ""
}

const longestSlug = 40

// slug makes a name fit for every file system: small letters, digits and - only,
// with a leading - unless it is empty. A planting's ID stays as it is.
func slug(name string) string {
	if harvest.IsID(name) {
		return "-" + name
	}
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= longestSlug {
			break
		}
	}
	text := strings.Trim(b.String(), "-")
	if text == "" {
		return ""
	}
	return "-" + text
}
