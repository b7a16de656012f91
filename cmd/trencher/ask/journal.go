package ask

import (
	"context"
	"io"
	"os"
	"path"
	"slices"
	"strconv"
	"strings"

	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/units"
	"trencher/units/strict"
)

// ImportAnswer is what came of a table of weights.
type ImportAnswer struct {
	journal.Imported
	Table string
}

// ImportTable brings a table of comma-separated values into the journal. Its
// error names every bad row; the good ones are in the journal all the same, and
// the answer says how many.
func ImportTable(ctx context.Context, w PlotRef, table string) (ImportAnswer, error) {
	b, err := openToWrite(w)
	if err != nil {
		return ImportAnswer{}, err
	}
	data, err := os.ReadFile(table)
	if err != nil {
		return ImportAnswer{}, err // it names the file and the reason
	}
	result, err := b.folder.Import(ctx, journal.Source{File: table, Data: data}, b.options(w), w.Now)
	answer := ImportAnswer{result, table}
	if err != nil {
		return answer, err
	}
	if len(result.Bad) > 0 {
		return answer, append(strict.Errors{}, result.Bad...)
	}
	return answer, nil
}

// ExportTable writes seasons of the journal as comma-separated values: those
// named, or all.
func ExportTable(ctx context.Context, to io.Writer, w PlotRef, seasons ...int) error {
	folder, err := openFolder(w)
	if err != nil {
		return err
	}
	if len(seasons) == 0 {
		if seasons, err = folder.Seasons(); err != nil {
			return err
		}
	}
	b := &books{folder: folder, on: w.Now}
	if b.system, err = measuresOf(folder); err != nil {
		return err
	}
	for _, year := range seasons {
		if err := b.readSeason(ctx, year, w); err != nil {
			return err
		}
	}
	return journal.Export(to, b.entries)
}

// CheckAnswer is the state of the whole plot folder.
type CheckAnswer struct {
	Entries  int
	Seasons  []int
	Dishes   int
	Warnings []string
}

// Check reads every file of the plot and settles every season. Its error names
// all that is wrong.
func Check(ctx context.Context, w PlotRef) (CheckAnswer, error) {
	p, err := Open(w)
	if err != nil {
		return CheckAnswer{}, err
	}
	answer := CheckAnswer{Dishes: len(p.Dishes())}
	if answer.Seasons, err = p.folder.Seasons(); err != nil {
		return CheckAnswer{}, err
	}
	for _, year := range answer.Seasons {
		p.note(p.readSeason(ctx, year, w))
	}
	if err := p.Err(); err != nil {
		return CheckAnswer{}, err
	}
	account, err := harvest.Settle(p.plantings, p.entries, p.last())
	if err != nil {
		return CheckAnswer{}, err
	}
	answer.Entries = len(p.entries)
	answer.Warnings = append(p.Warnings, account.Warnings...)
	left, err := p.folder.Unfinished()
	for _, file := range left {
		answer.Warnings = append(answer.Warnings, file+" was being written when something stopped it; what it holds is in no account")
	}
	return answer, err
}

// VoidAnswer is a void as written.
type VoidAnswer struct {
	Voids string
	File  string
}

// Void strikes out an entry, which stays on the disk.
func Void(ctx context.Context, w PlotRef, file, because string) (VoidAnswer, error) {
	b, err := openToWrite(w)
	if err != nil {
		return VoidAnswer{}, err
	}
	target, season, err := b.find(ctx, w, "", file)
	if err != nil {
		return VoidAnswer{}, err
	}
	if target == nil {
		return VoidAnswer{}, &strict.Error{File: file, Problem: "no entry of that name in the journal", Accepted: "the path of an entry, such as journal/2031/0712-1640-lift-tub-3.yaml"}
	}
	return b.void(season, target, w, because)
}

// original finds the entry that --replaces names, and the season it lies in;
// nil when none is named.
func (b *books) original(ctx context.Context, w PlotRef, kind, name string) (harvest.Entry, []harvest.Entry, error) {
	if name == "" {
		return nil, nil, nil
	}
	found, season, err := b.find(ctx, w, kind, name)
	if err == nil && found == nil {
		err = units.WrongField("replaces", name, "no "+kind+" of that name in the journal", "the file name of the entry to correct")
	}
	if found != nil {
		err = standing(season, found)
	}
	return found, season, err
}

// standing makes sure that no entry strikes out or corrects the target yet.
func standing(season []harvest.Entry, target harvest.Entry) error {
	for _, e := range season {
		v, isVoid := e.(*harvest.Void)
		if isVoid && isCalled(target, v.Voids) || e.Head().Replaces != "" && isCalled(target, e.Head().Replaces) {
			return &strict.Error{File: target.Head().File, Problem: "struck out or corrected already, by " + e.Head().File,
				Accepted: "the name of that one, if it is what should go"}
		}
	}
	return nil
}

// find looks through the seasons, the latest first, for an entry by its file
// name; kind "" is any.
func (b *books) find(ctx context.Context, w PlotRef, kind, name string) (found harvest.Entry, season []harvest.Entry, err error) {
	years, err := b.folder.Seasons()
	if err != nil {
		return nil, nil, err
	}
	for _, year := range slices.Backward(years) {
		season, _, err := b.folder.Season(ctx, year, b.options(w))
		if err != nil {
			return nil, nil, err
		}
		for _, e := range season {
			if isCalled(e, name) && (kind == "" || e.Kind() == kind) {
				return e, season, nil
			}
		}
	}
	return nil, nil, nil
}

// seasonOf is the year of the folder an entry lies in.
func seasonOf(e harvest.Entry) int {
	year, _ := strconv.Atoi(path.Base(path.Dir(e.Head().File)))
	return year
}

// isCalled tells whether a file name given by hand is the entry's.
func isCalled(e harvest.Entry, file string) bool {
	if path.Ext(file) != ".yaml" && path.Ext(file) != ".yml" {
		file += ".yaml"
	}
	return e.Head().File == file || strings.HasSuffix(e.Head().File, "/"+file)
}

func (b *books) void(season []harvest.Entry, target harvest.Entry, w PlotRef, because string) (VoidAnswer, error) {
	if err := standing(season, target); err != nil {
		return VoidAnswer{}, err
	}
	v := &harvest.Void{Voids: target.Head().File, Reason: because}
	v.At = w.Now
	v.File = harvest.Beside(target.Head().File, "not-yet-written")
	if _, err := harvest.Settle(b.plantings, append(season, v), lastOf(season, w.Now)); err != nil {
		return VoidAnswer{}, err // what was used of it is in the way
	}
	v.File = ""
	file, err := b.folder.Write(v)
	return VoidAnswer{Voids: target.Head().File, File: file}, err
}
