package ask

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"trencher/cmd/trencher/demo"
	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/units"
	"trencher/units/strict"
)

// books are the plantings and the journal entries a question is answered from.
type books struct {
	folder    *journal.Folder
	system    units.System
	plantings []harvest.Planting
	entries   []harvest.Entry
	on        time.Time // the civil day asked for, or the last there is
	Warnings  []string
}

// openBooks opens the plot and reads what the account on the day asked for
// rests on: the season of that day and the one before it, since stored crops
// live over new year. With seasons named it reads those, to their last entry.
// All that is wrong in the files is told at once.
func openBooks(ctx context.Context, w PlotRef, seasons ...int) (*books, error) {
	folder, err := openFolder(w)
	if err != nil {
		return nil, err
	}
	on, err := w.day()
	if err != nil {
		return nil, err
	}
	b := &books{folder: folder, on: on}
	var failed []error
	kitchen, err := readWhole(folder)
	failed = append(failed, err)
	b.system = kitchen.Measures
	b.plantings, err = folder.Plantings(b.system)
	failed = append(failed, err)
	years := seasons
	if len(years) == 0 {
		years = []int{on.Year() - 1, on.Year()}
	}
	for _, year := range years {
		if err := b.readSeason(ctx, year, w); err != nil {
			failed = append(failed, err)
		}
	}
	if err := strict.Join(failed...); err != nil {
		return nil, err
	}
	if len(seasons) > 0 {
		b.on = time.Time{}
		if b.on = b.last(); b.on.IsZero() {
			b.on = on
		}
		return b, nil
	}
	return b, b.checkClock(ctx, w)
}

// openToWrite opens a plot to add an entry: its plantings, but no entries, so
// that a damaged file in the journal never keeps a new weight out.
func openToWrite(w PlotRef) (*books, error) {
	folder, err := openFolder(w)
	if err != nil {
		return nil, err
	}
	if !folder.Writable() {
		return nil, fmt.Errorf("%s: %w", folder.Name(), journal.ErrReadOnly)
	}
	b := &books{folder: folder, on: w.Now}
	if b.system, err = measuresOf(folder); err != nil {
		return nil, err
	}
	b.plantings, err = folder.Plantings(b.system)
	return b, err
}

// last is the day of the last entry read, or the day asked for if that is
// later than all.
func (b *books) last() time.Time {
	return lastOf(b.entries, b.on)
}

// lastOf is the moment of the last entry, or a given one if that is later.
func lastOf(entries []harvest.Entry, last time.Time) time.Time {
	for _, e := range entries {
		if e.When().After(last) {
			last = e.When()
		}
	}
	return last
}

func (b *books) readSeason(ctx context.Context, year int, w PlotRef) error {
	entries, skipped, err := b.folder.Season(ctx, year, b.options(w))
	for _, s := range skipped {
		if err == nil {
			b.Warnings = append(b.Warnings, fmt.Sprintf("left out %s: %v", s.File, s.Err))
		}
	}
	b.entries = append(b.entries, entries...)
	return err
}

// settle draws up the account on the day. Where damaged entries are to be
// skipped, so are those that rest on them or on nothing: a use of a lot whose
// lift could not be read. Each is named.
func (b *books) settle(w PlotRef) (*harvest.Account, error) {
	for {
		account, err := harvest.Settle(b.plantings, b.entries, b.on)
		var faults strict.Errors
		if err == nil || !w.SkipDamaged || !errors.As(err, &faults) || !b.leaveOut(faults) {
			return account, err
		}
	}
}

// leaveOut drops the entries that faults name, with a warning for each.
func (b *books) leaveOut(faults strict.Errors) (dropped bool) {
	for _, fault := range faults {
		i := slices.IndexFunc(b.entries, func(e harvest.Entry) bool { return e.Head().File == fault.File })
		if i >= 0 {
			b.entries = slices.Delete(b.entries, i, i+1)
			b.Warnings = append(b.Warnings, fmt.Sprintf("left out %s: %v", fault.File, fault))
			dropped = true
		}
	}
	return dropped
}

func (b *books) options(w PlotRef) journal.Options {
	return journal.Options{System: b.system, Zone: w.zone(), SkipDamaged: w.SkipDamaged}
}

// checkClock makes sure that a question about today is not asked of a journal
// that is ahead of the clock. A day asked for settles it.
func (b *books) checkClock(ctx context.Context, w PlotRef) error {
	if w.On != "" || w.Demo {
		return nil
	}
	seasons, err := b.folder.Seasons()
	if err != nil {
		return err
	}
	entries := slices.Clone(b.entries)
	for _, year := range seasons {
		if year <= w.Now.Year() {
			continue
		}
		later, _, err := b.folder.Season(ctx, year, b.options(w))
		if err != nil {
			return err
		}
		entries = append(entries, later...)
	}
	return harvest.CheckClock(entries, w.Now)
}

// zone is where times without a zone are local.
func (w PlotRef) zone() *time.Location {
	if w.Demo {
		return demo.Zone()
	}
	return w.Now.Location()
}

// clock is where the plot's typed times are read.
func (w PlotRef) clock() clock { return clock{w.Now, w.zone()} }

// day is the civil day asked for.
func (w PlotRef) day() (time.Time, error) {
	switch {
	case w.On != "":
		day, err := time.ParseInLocation(time.DateOnly, w.On, w.zone())
		if err != nil {
			return time.Time{}, units.WrongField("on", w.On, "not a day", "a date such as 2031-07-12")
		}
		return day, nil
	case w.Demo:
		return demo.Day(), nil
	}
	return w.Now, nil
}

// dishNames lists the names of the plot's dishes.
func dishNames(folder *journal.Folder) ([]string, error) {
	sources, err := folder.Dishes()
	if err != nil {
		return nil, err
	}
	var names []string
	var failed []error
	for _, s := range sources {
		r := strict.Parse(s.File, s.Data)
		names = append(names, r.Root().AnyMap().Require("name").Text())
		failed = append(failed, r.Err())
	}
	return names, strict.Join(failed...)
}
