package harvest

import (
	"context"
	"errors"
	"maps"
	"path"
	"slices"
	"time"

	"trencher/units/strict"
)

// Journal is where the entries of a plot lie: read a season at a time, written
// one by one. Package journal has the one on disk.
type Journal interface {
	// Seasons lists the years there are entries of, oldest first.
	Seasons() ([]int, error)
	// Season reads the entries of one year, sorted, and names what it left out.
	Season(ctx context.Context, year int) ([]Entry, []LeftOut, error)
	// Write files a new entry and sets its file in it.
	Write(e Entry) (file string, err error)
}

// Ledger is the account book of a plot: what is planted, and the entries of the
// seasons a question rests on. It is opened by package journal, asked questions
// (Account, Ready, Batches, Notes), and given new entries (Lift, Move, Void,
// Fits), which are written only when they agree with all that is there.
type Ledger struct {
	Plantings []Planting
	Entries   []Entry   // of the seasons read so far
	On        time.Time // the day asked about, or that of the last entry
	Warnings  []Warning // what was left out so far
	Site      Site      // the plot's frosts
	Author    Author    // who signs new entries
	Sure      bool      // a new entry is meant as it is: [Doubt]s are told, not asked

	journal Journal
	lenient bool
	lifts   map[string]bool // how the lots of every lift read begin, even of those struck out; nil: not asked yet
	read    map[int]bool    // the seasons that are in Entries
	later   map[int][]Entry // by year: plans of the year after it that take from its lots
}

// NewLedger is a ledger over a journal of which nothing is read yet. A lenient
// one goes on without entries that are damaged or rest on damaged ones, and
// names them.
func NewLedger(j Journal, plantings []Planting, lenient bool) *Ledger {
	return &Ledger{Plantings: plantings, journal: j, lenient: lenient, read: map[int]bool{}, later: map[int][]Entry{}}
}

// Read reads what an answer about a day rests on: the season of that day and
// the one before it, since stored crops live over new year. With seasons named
// it reads those, and the ledger is of the day of their last entry. All that is
// wrong with the entries is told at once, as [strict.Errors].
func (l *Ledger) Read(ctx context.Context, on time.Time, seasons ...int) error {
	l.On = on
	years := seasons
	if len(years) == 0 {
		years = []int{on.Year() - 1, on.Year()}
	}
	err := l.readSeasons(ctx, years...)
	if last := lastOf(l.Entries, time.Time{}); len(seasons) > 0 && !last.IsZero() {
		l.On = last
	}
	return err
}

// readSeasons reads the seasons that are not read yet.
func (l *Ledger) readSeasons(ctx context.Context, years ...int) error {
	var failed []error
	for _, year := range years {
		if l.read[year] {
			continue
		}
		l.read[year] = true
		entries, leftOut, err := l.journal.Season(ctx, year)
		l.Entries = append(l.Entries, entries...)
		if l.lifts != nil {
			l.noteLifts(entries)
		}
		failed = append(failed, err)
		for _, one := range leftOut {
			l.Warnings = append(l.Warnings, one)
		}
	}
	failed = append(failed, l.readPlansAfter(ctx, years))
	return strict.Join(failed...)
}

// readPlansAfter reads the plans of the year after each that is read, where
// that one is not: they may take from its lots.
func (l *Ledger) readPlansAfter(ctx context.Context, years []int) error {
	var failed []error
	for _, year := range years {
		if _, done := l.later[year]; done || l.read[year+1] {
			continue
		}
		later, _, err := l.journal.Season(ctx, year+1)
		failed = append(failed, err)
		l.later[year] = plansReaching(later, year)
	}
	return strict.Join(failed...)
}

// noteLifts notes how the names of the lots begin that lifts among entries make.
func (l *Ledger) noteLifts(entries []Entry) {
	_, roots, _ := Correct(entries)
	for _, e := range entries {
		if lift, ok := e.(*Lift); ok {
			l.lifts[lift.lotsBegin(roots[lift.File])], l.lifts[lift.lotsBegin("")] = true, true
		}
	}
}

// CheckClock makes sure that a question about today is not asked of a journal
// that is ahead of the clock, in any season. Its error is that of [CheckClock].
func (l *Ledger) CheckClock(ctx context.Context, clock time.Time) error {
	seasons, err := l.journal.Seasons()
	if err != nil {
		return err
	}
	entries := slices.Clone(l.Entries)
	for _, year := range seasons {
		if year <= clock.Year() || l.read[year] {
			continue
		}
		later, _, err := l.journal.Season(ctx, year)
		if err != nil {
			return err
		}
		entries = append(entries, later...)
	}
	return CheckClock(entries, clock)
}

// Account settles the entries read, as [Settle] does, on the ledger's day. What
// cannot be beside the other entries is left out and named, such as a use of a
// lot whose lift is struck out, or not copied here yet: journals of several
// devices come together in any order, and stay readable. Its warnings stand
// before the account's own. What no copying of journals explains is an error,
// strict.Errors, unless the ledger is lenient: a lift of what is not planted, a
// correction of itself.
func (l *Ledger) Account() (*Account, error) {
	for {
		account, err := Settle(l.Plantings, l.counted(), l.On)
		var faults strict.Errors
		switch {
		case err == nil:
			account.Warnings = append(slices.Clone(l.Warnings), account.Warnings...)
			return account, nil
		case !errors.As(err, &faults) || !l.leaveOut(faults):
			return nil, err
		}
	}
}

// Stock is what is on hand on the ledger's day, as its [Account] has it. The ledger
// gives its entries up for it: it is for this one question, so that a journal of a
// hundred thousand lifts is not held beside its lots. A journal in which something
// contradicts itself is read once more.
func (l *Ledger) Stock(ctx context.Context) (StockList, error) {
	entries, on := l.counted(), l.On
	l.Entries, l.later = nil, map[int][]Entry{}
	account, err := settle(l.Plantings, entries, on, false)
	if err == nil {
		account.Warnings = append(slices.Clone(l.Warnings), account.Warnings...)
		return account.Stock(), nil
	}
	if err := l.readAgain(ctx); err != nil {
		return StockList{}, err
	}
	if account, err = l.Account(); err != nil {
		return StockList{}, err
	}
	return account.Stock(), nil
}

// readAgain reads the seasons once more that were read before.
func (l *Ledger) readAgain(ctx context.Context) error {
	years := slices.Sorted(maps.Keys(l.read))
	l.Warnings, l.read = nil, map[int]bool{}
	return l.readSeasons(ctx, years...)
}

// leaveOut drops the entries that faults name, with a warning for each.
func (l *Ledger) leaveOut(faults strict.Errors) (dropped bool) {
	if l.lifts == nil {
		l.lifts = map[string]bool{}
		l.noteLifts(l.Entries)
	}
	counted := byFile(l.lists()...)
	out := leaving{map[string]bool{}, map[*Planned]map[int]bool{}}
	for _, fault := range faults {
		e, known := counted[fault.File]
		if !known || out.entries[fault.File] {
			continue
		}
		if use := out.note(e, fault, l.lenient); use != nil {
			l.Warnings = append(l.Warnings, l.whyLeft(use, fault))
		}
	}
	l.Entries = out.of(l.Entries)
	for year, plans := range l.later {
		l.later[year] = out.of(plans)
	}
	return len(out.entries)+len(out.uses) > 0
}

// leaving is what is to be left out: entries by file, and uses of plans by their
// number.
type leaving struct {
	entries map[string]bool
	uses    map[*Planned]map[int]bool
}

// note notes what a fault of an entry leaves out, and returns it: the one use of a
// plan that the fault is about, or the entry; nil where nothing may be left out.
func (out leaving) note(e Entry, fault *strict.Error, lenient bool) Entry {
	if p, planned := e.(*Planned); planned {
		if i := p.useAt(fault); i >= 0 {
			if out.uses[p] == nil {
				out.uses[p] = map[int]bool{}
			}
			out.uses[p][i] = true
			return p.move(i)
		}
	}
	if LotOf(e) == "" && !lenient {
		return nil
	}
	out.entries[fault.File] = true
	return e
}

// of is what stays of a list.
func (out leaving) of(list []Entry) []Entry {
	for i, e := range list {
		if p, planned := e.(*Planned); planned && out.uses[p] != nil {
			list[i] = p.without(func(use int) bool { return out.uses[p][use] })
		}
	}
	return slices.DeleteFunc(list, func(e Entry) bool { return out.entries[e.Head().File] })
}

// lists are the entries read, and for each season that is not read the plans of
// it which take from lots of those that are.
func (l *Ledger) lists() [][]Entry {
	lists := [][]Entry{l.Entries}
	for year, plans := range l.later {
		if !l.read[year+1] {
			lists = append(lists, plans)
		}
	}
	return lists
}

// counted are all entries of lists.
func (l *Ledger) counted() []Entry { return slices.Concat(l.lists()...) }

// whyLeft tells a use whose lift is not here from one that cannot be.
func (l *Ledger) whyLeft(e Entry, fault *strict.Error) Warning {
	if lift, ok := e.(*Lift); ok {
		delete(l.lifts, lift.lotsBegin(""))
	}
	lot := LotOf(e)
	if begin, _ := path.Split(lot); lot == "" || l.lifts[begin] {
		return LeftOut{fault.File, fault}
	}
	return Waiting{fault.File, lot}
}

// LotOf is the lot that an entry rests on; "" where it rests on none.
func LotOf(e Entry) string {
	switch e := e.(type) {
	case *Move:
		return e.Lot
	case *Reweighed:
		return e.Lot
	}
	return ""
}

// Ready tells how every planting stands on the ledger's day. Its errors are
// those of [Correct].
func (l *Ledger) Ready() (ReadyList, error) {
	standing, _, err := Correct(l.Entries)
	if err != nil {
		return ReadyList{}, err
	}
	list, untold := Ready(l.Plantings, standing, l.Site, l.On)
	return ReadyList{On: l.On, List: list, Warnings: slices.Concat(l.Warnings, Unsettled(l.Entries), untold)}, nil
}

// Batches are the cooked batches at a moment, as [Batches] folds them; those
// that are gone are left out. Its errors are those of [Correct].
func (l *Ledger) Batches(moment time.Time) ([]*Batch, error) {
	standing, _, err := Correct(l.Entries)
	if err != nil {
		return nil, err
	}
	return slices.DeleteFunc(Batches(standing, moment), func(b *Batch) bool { return b.State == Gone }), nil
}

// Notes are the tasting notes in entries that may hold corrections, the latest
// first; none where the corrections contradict each other, which an
// account of the same entries tells.
func Notes(entries []Entry) []*Note {
	standing, _, err := Correct(entries)
	if err != nil {
		return nil
	}
	var notes []*Note
	for _, e := range slices.Backward(standing) {
		if note, ok := e.(*Note); ok {
			notes = append(notes, note)
		}
	}
	return notes
}
