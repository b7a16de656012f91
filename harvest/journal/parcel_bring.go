package journal

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"trencher/harvest"
	"trencher/units"
	"trencher/units/strict"
)

// Bounds of a parcel that is taken in.
const (
	// LargestParcel is the most bytes of a parcel.
	LargestParcel      = 32 << 20
	mostParcelFiles    = 200_000
	mostParcelUnpacked = 256 << 20
)

// Brought is what bringing a parcel did.
type Brought struct {
	Parcel            // the entries and dishes that are new here
	Already  int      // files that were here, byte for byte
	Kept     []string // files that differ from those here; the ones here stand
	Replaced []string // files of the plot that a newer one took the place of
	Damaged  []error  // what could not be taken, each naming its file
}

// Renewing says what happens to the kitchen, the plantings and the dishes where
// a parcel has other ones.
type Renewing uint8

const (
	// KeepOwn: the ones here stand. So it is at home.
	KeepOwn Renewing = iota
	// TakeNewer: the parcel's take their place. So it is on a device that only
	// carries the plot about.
	TakeNewer
)

// Bring takes in a parcel: entries and dishes that are not here yet. It
// overwrites no entry, whatever the parcel holds, and bringing the same parcel
// again changes nothing. Entries that cannot be read are named and not taken.
//
// Its error is about the parcel as a whole, or what the disk refused; the
// answer then says what was written before.
func (f *Folder) Bring(ctx context.Context, data []byte, renew Renewing, o Options) (Brought, error) {
	if !f.Writable() {
		return Brought{}, f.readOnly()
	}
	in, err := openParcel(data)
	if err != nil {
		return Brought{}, err
	}
	b := bringing{folder: f, options: o, renew: renew}
	for _, file := range in {
		if err := ctx.Err(); err != nil {
			return b.done, err
		}
		if err := b.take(file); err != nil {
			return b.done, err
		}
	}
	slices.Sort(b.done.Files)
	return b.done, f.Taken(Parcel{Files: b.same})
}

// openParcel reads a parcel within its bounds.
func openParcel(data []byte) ([]Source, error) {
	wrong := func(problem string) error {
		return units.WrongField("", "", "not brought: "+problem, "a file that was saved with \"take home\", or by trencher pocket")
	}
	in, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	switch {
	case err != nil:
		return nil, wrong("this is no whole parcel of entries")
	case len(in.File) > mostParcelFiles:
		return nil, wrong(fmt.Sprintf("it holds more than %d files", mostParcelFiles))
	}
	var files []Source
	unpacked := 0
	for _, each := range in.File {
		if each.FileInfo().IsDir() {
			continue
		}
		if !each.Mode().IsRegular() {
			return nil, wrong(fmt.Sprintf("%q is no ordinary file", each.Name))
		}
		content, err := readPart(each)
		if err != nil {
			return nil, wrong(fmt.Sprintf("%q in it is damaged", each.Name))
		}
		if unpacked += len(content); unpacked > mostParcelUnpacked {
			return nil, wrong(fmt.Sprintf("it is more than %d MB when unpacked", mostParcelUnpacked>>20))
		}
		files = append(files, Source{File: each.Name, Data: content})
	}
	return files, nil
}

func readPart(each *zip.File) ([]byte, error) {
	r, err := each.Open()
	if err != nil {
		return nil, err
	}
	defer r.Close()
	data, err := io.ReadAll(io.LimitReader(r, largestFile+1))
	if err == nil && len(data) > largestFile {
		err = errors.New("larger than a file of a plot can be")
	}
	return data, err
}

type bringing struct {
	folder  *Folder
	options Options
	renew   Renewing
	done    Brought
	same    []string // files that now stand here as in the parcel
}

// take takes in one file. Its error is what the disk refused.
func (b *bringing) take(file Source) error {
	if year, ok := entryYear(file.File); ok && plainName(file.File) {
		return b.takeEntry(file, year)
	}
	dish := path.Dir(file.File) == "dishes" && isYAML(file.File) && plainName(file.File)
	if dish || file.File == "kitchen.yaml" || file.File == "plantings.yaml" {
		return b.takePlain(file)
	}
	b.done.Damaged = append(b.done.Damaged, &strict.Error{File: file.File, Problem: "is no file of a plot"})
	return nil
}

// plainName tells whether a file's name can be given to a file on any system.
func plainName(file string) bool {
	name := path.Base(file)
	return len(name) <= 200 && !strings.HasPrefix(name, ".") && !strings.ContainsAny(name, `\/:*?"<>|`) &&
		!strings.ContainsFunc(name, units.Hidden) && filepath.IsLocal(filepath.FromSlash(file))
}

func (b *bringing) takeEntry(file Source, year int) error {
	e, err := decodeEntry(file, year, b.options)
	if err != nil {
		b.done.Damaged = append(b.done.Damaged, err)
		return nil
	}
	name, err := b.settle(file)
	if name == "" || err != nil {
		return err
	}
	b.done.Files = append(b.done.Files, name)
	b.done.Entries++
	if lift, ok := e.(*harvest.Lift); ok {
		b.done.Net = b.done.Net.Add(lift.Net())
	}
	return nil
}

// settle writes an entry under its name, or under one beside it where another
// entry has that name. The name is empty where the entry is here already.
func (b *bringing) settle(file Source) (name string, err error) {
	f := b.folder
	season := path.Dir(file.File)
	if err := f.makeSeason(path.Base(season)); err != nil {
		return "", err
	}
	stem := strings.TrimSuffix(path.Base(file.File), path.Ext(file.File))
	for name := range namesFrom(stem) {
		here, err := f.read(path.Join(season, name))
		if err == nil && bytes.Equal(here.Data, file.Data) {
			b.done.Already++
			b.same = append(b.same, path.Join(season, name))
			return "", nil
		}
		if err != nil {
			break // no file of this name: the entry is new
		}
	}
	name, err = place(f.disk, filepath.Join(f.dir, filepath.FromSlash(season)), namesFrom(stem), file.Data)
	if err != nil {
		return "", notWritten(file.File, err)
	}
	b.same = append(b.same, path.Join(season, name))
	return path.Join(season, name), nil
}

// takePlain takes in the kitchen, the plantings or a dish.
func (b *bringing) takePlain(file Source) error {
	f := b.folder
	here, err := f.read(file.File)
	there := err == nil
	switch {
	case there && bytes.Equal(here.Data, file.Data):
		b.done.Already++
		b.same = append(b.same, file.File)
		return nil
	case there && b.renew == KeepOwn:
		b.done.Kept = append(b.done.Kept, file.File)
		return nil
	}
	target := filepath.Join(f.dir, filepath.FromSlash(file.File))
	if err := f.disk.MakeFolder(filepath.Dir(target)); err != nil {
		return notWritten(file.File, err)
	}
	if there {
		b.done.Replaced = append(b.done.Replaced, file.File)
		err = replaceWith(f.disk, target, file.Data)
	} else {
		_, err = place(f.disk, filepath.Dir(target), only(path.Base(file.File)), file.Data)
		b.done.Files = append(b.done.Files, file.File)
	}
	if err != nil {
		return notWritten(file.File, err)
	}
	b.same = append(b.same, file.File)
	return nil
}

// Unpack makes a plot of a parcel that holds a whole one, or brings the plot
// that is there already up to date with it. Stopped half way, it may be called
// again.
func Unpack(ctx context.Context, dir string, data []byte, o Options) (Brought, error) {
	files, err := openParcel(data)
	if err != nil {
		return Brought{}, err
	}
	if _, err := os.Stat(filepath.Join(dir, "kitchen.yaml")); errors.Is(err, fs.ErrNotExist) {
		at := slices.IndexFunc(files, func(file Source) bool { return file.File == "kitchen.yaml" })
		if at < 0 {
			return Brought{}, noPlot(dir, "the parcel holds no kitchen.yaml, so it is no whole plot")
		}
		if err := os.MkdirAll(dir, 0o755); err != nil {
			return Brought{}, notBegun(dir, err)
		}
		if _, err := place(realDisk{}, dir, only("kitchen.yaml"), files[at].Data); err != nil {
			return Brought{}, notBegun(dir, err)
		}
	}
	folder, err := Open(dir)
	if err != nil {
		return Brought{}, err
	}
	return folder.Bring(ctx, data, TakeNewer, o)
}

// Reasons says what bringing goes by.
func (b Brought) Reasons() []units.Reason {
	return []units.Reason{
		units.Why("an entry is new", "no file of its name holds the same bytes", "so that bringing twice changes nothing", "computed"),
		units.Why("what differs", "an entry goes beside the one here under a name of its own; a kitchen, plantings or dish here stands", "so that nothing is overwritten", "computed"),
	}
}
