package harvest

import (
	"context"
	"errors"
	"path"
	"slices"
	"strings"
	"time"

	"trencher/units"
	"trencher/units/strict"
)

// Void strikes out the entry of that file name, which stays on the disk. It
// refuses to leave a use without its lot ([strict.Errors]), and to strike out
// what is struck out or corrected already ([strict.Error]).
func (l *Ledger) Void(ctx context.Context, name, reason string, clock time.Time) (*Void, error) {
	target, season, err := l.find(ctx, "", name)
	if err != nil {
		return nil, err
	}
	if target == nil {
		return nil, units.WrongField("entry", name, "no entry of that name in the journal", "the path of an entry, such as journal/2031/0712-1640-lift-tub-3.yaml")
	}
	if err := stillStands(target, season); err != nil {
		return nil, err
	}
	v := voiding(target, clock, reason)
	if err := l.breaks(season, v, clock); err != nil {
		return nil, err // what was used of it is in the way
	}
	v.File = ""
	return v, l.Write(v)
}

// breaks returns what a new entry would make wrong in its season, as
// [strict.Errors]; what is wrong there without it keeps nothing out.
func (l *Ledger) breaks(season []Entry, e Entry, at time.Time) error {
	before := map[string]bool{}
	for _, old := range faultsOf(Settle(l.Plantings, season, lastOf(season, at))) {
		before[old.File] = true
	}
	after := faultsOf(Settle(l.Plantings, append(slices.Clone(season), e), lastOf(season, at)))
	after = slices.DeleteFunc(after, func(f *strict.Error) bool { return before[f.File] })
	if len(after) == 0 {
		return nil
	}
	return after
}

// faultsOf are the entries that could not be settled.
func faultsOf(_ *Account, err error) (faults strict.Errors) {
	errors.As(err, &faults)
	return faults
}

// voiding is a void of an entry, not written yet.
func voiding(target Entry, at time.Time, reason string) *Void {
	v := &Void{Voids: target.Head().File, Reason: reason}
	v.At, v.File = at, Beside(target.Head().File, notWrittenYet)
	return v
}

// original finds the entry that a new one replaces, and the season it lies in;
// nil when it replaces none.
func (l *Ledger) original(ctx context.Context, e Entry) (original Entry, season []Entry, err error) {
	name := e.Head().Replaces
	if name == "" {
		return nil, nil, nil
	}
	original, season, err = l.find(ctx, e.Kind(), name)
	switch {
	case err != nil:
		return nil, nil, err
	case original == nil:
		return nil, nil, units.WrongField("replaces", name, "no "+e.Kind()+" entry of that name in the journal", "the file name of the entry to correct")
	}
	return original, season, stillStands(original, season)
}

// find looks through the seasons, the latest first, for an entry by its file
// name; kind "" is any. The season it lies in comes with what the next year's
// plans take from its lots.
func (l *Ledger) find(ctx context.Context, kind, name string) (found Entry, season []Entry, err error) {
	years, err := l.journal.Seasons()
	if err != nil {
		return nil, nil, err
	}
	for _, year := range slices.Backward(years) {
		season, _, err := l.journal.Season(ctx, year)
		if err != nil {
			return nil, nil, err
		}
		for _, e := range season {
			if isCalled(e, name) && (kind == "" || e.Kind() == kind) {
				later, _, err := l.journal.Season(ctx, year+1)
				return e, append(season, plansReaching(later, year)...), err
			}
		}
	}
	return nil, nil, nil
}

// stillStands makes sure that no entry of its season strikes out or corrects an
// entry yet.
func stillStands(target Entry, season []Entry) error {
	for _, e := range season {
		name := e.Head().Replaces
		if v, isVoid := e.(*Void); isVoid {
			name = v.Voids
		}
		if name != "" && isCalled(target, name) {
			return &strict.Error{File: target.Head().File, Problem: "struck out or corrected already, by " + e.Head().File,
				Accepted: "the name of that one, if it is what should go"}
		}
	}
	return nil
}

// isCalled tells whether a file name given by hand is the entry's: the whole
// path or its end, with or without its ending.
func isCalled(e Entry, file string) bool {
	if path.Ext(file) != ".yaml" && path.Ext(file) != ".yml" {
		file += ".yaml"
	}
	return e.Head().File == file || strings.HasSuffix(e.Head().File, "/"+file)
}
