package journal

import (
	"archive/zip"
	"context"
	"errors"
	"io"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"trencher/harvest"
)

// A parcel is a plain zip of files of a plot, under the names they have there.
// It carries what was written on one device to another, by cable, message or
// over the page, and may be brought as often as one likes.

// Parcel is what a parcel carries.
type Parcel struct {
	Files   []string        // their names in the plot, sorted
	Entries int             // how many of them are entries of the journal
	Net     decimal.Decimal // grams: the net weight of the lifts among them
}

// Parcelled chooses what goes into a parcel.
type Parcelled uint8

const (
	// WholePlot: the kitchen, the plantings, the dishes and every entry.
	WholePlot Parcelled = iota
	// Untaken: entries and dishes that this plot neither got in a parcel nor
	// has given away in one.
	Untaken
)

// Pack writes a parcel, its files byte for byte as they are, and returns what it
// carries. The same files make the same bytes. Damaged entries go along: the
// other device names them too.
func (f *Folder) Pack(ctx context.Context, to io.Writer, which Parcelled, o Options) (Parcel, error) {
	files, err := f.parcelFiles(which)
	if err != nil {
		return Parcel{}, err
	}
	parcel := Parcel{Files: files}
	out := zip.NewWriter(to)
	for _, file := range files {
		source, err := f.read(file)
		if err == nil {
			err = ctx.Err()
		}
		if err != nil {
			return parcel, err
		}
		if year, isEntry := entryYear(file); isEntry {
			parcel.Entries++
			parcel.Net = parcel.Net.Add(netOf(source, year, o))
		}
		if err := addToZip(out, source); err != nil {
			return parcel, err
		}
	}
	return parcel, out.Close()
}

func addToZip(out *zip.Writer, source Source) error {
	w, err := out.CreateHeader(&zip.FileHeader{Name: source.File, Method: zip.Deflate})
	if err != nil {
		return err
	}
	_, err = w.Write(source.Data)
	return err
}

// parcelFiles lists the files of the plot that go into a parcel, sorted.
func (f *Folder) parcelFiles(which Parcelled) ([]string, error) {
	var files []string
	if which == WholePlot {
		files = append(files, "kitchen.yaml", "plantings.yaml")
	}
	years, err := f.Seasons()
	if err != nil {
		return nil, err
	}
	folders := []string{"dishes"}
	for _, year := range years {
		folders = append(folders, path.Join("journal", strconv.Itoa(year)))
	}
	known := map[string]bool{}
	if which == Untaken {
		if known, err = f.carried(); err != nil {
			return nil, err
		}
	}
	for _, folder := range folders {
		names, err := f.names(folder)
		if err != nil {
			return nil, err
		}
		for _, name := range names {
			if file := path.Join(folder, name); !known[file] {
				files = append(files, file)
			}
		}
	}
	slices.Sort(files)
	return files, nil
}

// netOf is the net weight, in grams, of an entry that is a lift.
func netOf(source Source, year int, o Options) decimal.Decimal {
	e, err := decodeEntry(source, year, o)
	if lift, ok := e.(*harvest.Lift); ok && err == nil {
		return lift.Net()
	}
	return decimal.Zero
}

// entryYear tells the season of a file that lies where entries do.
func entryYear(file string) (year int, ok bool) {
	parts := strings.Split(file, "/")
	if len(parts) != 3 || parts[0] != "journal" || len(parts[1]) != 4 || !isYAML(parts[2]) {
		return 0, false
	}
	year, err := strconv.Atoi(parts[1])
	return year, err == nil
}

// carriedFile lists the files that came in a parcel or went away in one, a name
// on each line.
const carriedFile = ".carried"

func (f *Folder) carried() (map[string]bool, error) {
	known := map[string]bool{}
	source, err := f.readCarried()
	for line := range strings.Lines(string(source)) {
		known[strings.TrimSpace(line)] = true
	}
	return known, err
}

func (f *Folder) readCarried() ([]byte, error) {
	source, err := fs.ReadFile(f.fsys, carriedFile)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, cannotRead(carriedFile, err)
	}
	return source, nil
}

// Taken notes that a parcel has been given away, so that the next one of
// [Untaken] does not carry it again.
func (f *Folder) Taken(parcel Parcel) error {
	if !f.Writable() {
		return f.readOnly()
	}
	known, err := f.carried()
	if err != nil {
		return err
	}
	for _, file := range parcel.Files {
		known[file] = true
	}
	var names []string
	for name := range known {
		names = append(names, name)
	}
	slices.Sort(names)
	return replaceWith(f.disk, filepath.Join(f.dir, carriedFile), []byte(strings.Join(names, "\n")+"\n"))
}
