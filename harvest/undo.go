package harvest

import (
	"cmp"
	"context"
	"path"
	"slices"
	"time"

	"trencher/units"
)

// Author is the device an entry is written on, and the moment of writing. The
// zero value signs nothing: such entries belong to no known device.
type Author struct {
	Device string // a short name, the device's own
	Now    time.Time
	Form   string // what it is written by; see [Header]
}

// Sign notes who writes an entry, when and by what form, unless that is noted
// already.
func (a Author) Sign(h *Header) {
	if h.Form == "" {
		h.Form = a.Form
	}
	if a.Device != "" && h.By == "" {
		h.By, h.Logged = a.Device, a.Now.Truncate(time.Millisecond)
	}
}

// LoggedAt is when the entry was written: told, or else the moment it is about.
func (h *Header) LoggedAt() time.Time {
	if h.Logged.IsZero() {
		return h.At
	}
	return h.Logged
}

// Undone is an entry that was taken back, and the entry that did so: a void or,
// where a correction was taken back, the corrected entry once more.
type Undone struct{ Entry, With Entry }

// Last is the entry that the ledger's device wrote last, of those that stand;
// nil where it wrote none. Voids are passed over: what is struck out stays so.
func (l *Ledger) Last(ctx context.Context) (Entry, error) {
	if l.Author.Device == "" {
		return nil, nil // what nobody signed may be anybody's
	}
	years, err := l.journal.Seasons()
	if err != nil {
		return nil, err
	}
	var last Entry
	for i, year := range slices.Backward(years) {
		season, _, err := l.journal.Season(ctx, year)
		if err != nil {
			return nil, err
		}
		if e := lastBy(l.Author.Device, season); e != nil && (last == nil || isWrittenAfter(e, last)) {
			last = e
		}
		if last != nil && i < len(years)-1 {
			break // what leaves the store in January lies with the season before
		}
	}
	return last, nil
}

// lastBy is what a device wrote last of what stands; nil where it wrote nothing.
func lastBy(device string, entries []Entry) (last Entry) {
	standing, _, _ := Correct(entries)
	for _, e := range standing {
		if e.Head().By == device && (last == nil || isWrittenAfter(e, last)) {
			last = e
		}
	}
	return last
}

func isWrittenAfter(e, other Entry) bool {
	return cmp.Or(e.Head().LoggedAt().Compare(other.Head().LoggedAt()), cmp.Compare(path.Base(e.Head().File), path.Base(other.Head().File))) > 0
}

// undone is why an entry was struck out by being taken back.
const undone = "taken back"

// Undo takes back the entry that [Ledger.Last] names, by an entry. Where that
// was a correction, what it corrected stands again. With a file given it must
// still be the last one. Its errors are a [units.FieldError] where there is
// nothing to take back, and those of [Ledger.Void].
func (l *Ledger) Undo(ctx context.Context, file string, clock time.Time) (Undone, error) {
	last, err := l.Last(ctx)
	switch {
	case err != nil:
		return Undone{}, err
	case last == nil:
		return Undone{}, units.WrongField("", "", "nothing to take back: this device has written no entry that stands",
			"journal void with the entry's file, for one that another device wrote")
	case file != "" && !isCalled(last, file):
		return Undone{}, units.WrongField("entry", file, "not the last entry of this device any more; nothing was taken back", "the last one: "+last.Head().File)
	}
	return l.takeBack(ctx, last, clock)
}

// TakeBack takes back any entry of this device that stands, by its file, as
// [Ledger.Undo] does. Its errors are those of [Ledger.Undo].
func (l *Ledger) TakeBack(ctx context.Context, file string, clock time.Time) (Undone, error) {
	e, season, err := l.find(ctx, "", file)
	switch {
	case err != nil:
		return Undone{}, err
	case e == nil || e.Head().By != l.Author.Device || e.Kind() == KindVoid:
		return Undone{}, units.WrongField("entry", file, "no entry that this device wrote", "one of the latest entries")
	}
	if err := stillStands(e, season); err != nil {
		return Undone{}, err
	}
	return l.takeBack(ctx, e, clock)
}

// takeBack takes an entry back, and with it what else was written by the same
// form: they were one thing to whoever sent it.
func (l *Ledger) takeBack(ctx context.Context, last Entry, clock time.Time) (Undone, error) {
	done, err := l.takeBackAlone(ctx, last, clock)
	if err != nil || last.Head().Form == "" {
		return done, err
	}
	with, err := l.writtenBy(ctx, last.Head().Form)
	for _, e := range slices.Backward(with) {
		if err == nil && e.Head().File != last.Head().File && e.Kind() != KindVoid {
			_, err = l.takeBackAlone(ctx, e, clock)
		}
	}
	return done, err
}

func (l *Ledger) takeBackAlone(ctx context.Context, last Entry, clock time.Time) (Undone, error) {
	before, season, err := l.corrected(ctx, last)
	if err != nil {
		return Undone{}, err
	}
	if before == nil || isWrittenAfter(before, last) { // that one was taken back: this is what it corrected, again
		void, err := l.Void(ctx, last.Head().File, undone, clock)
		return Undone{last, void}, err
	}
	restored := copied(before)
	*restored.Head() = Header{At: before.When(), Replaces: last.Head().File, By: l.Author.Device, Logged: before.Head().LoggedAt()}
	restored.Head().File = Beside(last.Head().File, notWrittenYet)
	if err := l.breaks(season, restored, clock); err != nil {
		return Undone{}, err
	}
	restored.Head().File = ""
	return Undone{last, restored}, l.Write(restored)
}

// corrected is the entry that an entry replaces, with its season; nil where it
// replaces none, or one that is not here.
func (l *Ledger) corrected(ctx context.Context, e Entry) (before Entry, season []Entry, err error) {
	if e.Head().Replaces == "" {
		return nil, nil, nil
	}
	return l.find(ctx, e.Kind(), Beside(e.Head().File, e.Head().Replaces))
}

// Reasons says what was taken back by what.
func (u Undone) Reasons() []units.Reason {
	return []units.Reason{units.Why("taken back", u.Entry.Head().File, "the last entry of this device, by the moment it was logged", "computed")}
}
