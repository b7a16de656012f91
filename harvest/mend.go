package harvest

import (
	"context"
	"slices"
	"time"
)

// mended is why an entry was struck out by mending.
const mended = "mending the journal: another entry counts"

// Mend writes down, entry by entry, what the account decided where the journals
// of several devices contradict each other (see [Correct]): the correction that
// counts becomes the only one, and what rests on a lot that was struck out is
// struck out too. What waits for entries that are not here is left alone. It
// returns what it wrote; asked again, it has nothing to do.
func (l *Ledger) Mend(ctx context.Context, clock time.Time) (written []Entry, err error) {
	all, warnings, err := l.readOpen(ctx, clock)
	if err != nil {
		return nil, err
	}
	for _, w := range onceUnlifted(warnings) {
		for _, e := range remedy(w, all, clock) {
			if _, err := l.journal.Write(e); err != nil {
				return written, err
			}
			written = append(written, e)
		}
	}
	return written, nil
}

// readOpen reads all seasons, and returns their entries and what the account
// warns of.
func (l *Ledger) readOpen(ctx context.Context, clock time.Time) (all []Entry, warnings []Warning, err error) {
	years, err := l.journal.Seasons()
	if err != nil {
		return nil, nil, err
	}
	for _, year := range years {
		if err := l.readSeasons(ctx, year); err != nil {
			return nil, nil, err
		}
	}
	all = slices.Clone(l.Entries)
	l.On = lastOf(all, clock)
	account, err := l.Account()
	if err != nil {
		return nil, nil, err
	}
	return all, account.Warnings, nil
}

// onceUnlifted keeps, of the lots that one entry takes from before they were
// lifted, the one that was lifted last: its day does for all.
func onceUnlifted(warnings []Warning) []Warning {
	return slices.DeleteFunc(slices.Clone(warnings), func(w Warning) bool {
		early, ok := w.(Unlifted)
		return ok && slices.ContainsFunc(warnings, func(other Warning) bool {
			later, ok := other.(Unlifted)
			return ok && later.File == early.File && (later.Lifted.After(early.Lifted) || later.Lifted.Equal(early.Lifted) && later.Lot > early.Lot)
		})
	})
}

// remedy is what settles a warning; nothing for one that only time or a person
// settles.
func remedy(w Warning, all []Entry, clock time.Time) (entries []Entry) {
	switch w := w.(type) {
	case LeftOut:
		switch e := entryIn(all, w.File).(type) {
		case *Move, *Reweighed:
			return struck(e, clock)
		case *Planned:
			if less := e.lessUse(w.Err); less != nil {
				return []Entry{less}
			}
		}
	case Unlifted:
		if early := entryIn(all, w.File); early != nil {
			e := again(early)
			e.Head().At = w.Lifted
			return []Entry{e}
		}
	case Conflict:
		for _, file := range w.Instead {
			entries = append(entries, struck(entryIn(all, file), clock)...)
		}
		if counts := entryIn(all, w.Counts); w.Voided && counts != nil {
			entries = append(entries, again(counts))
		}
	}
	return entries
}

// struck is the entry that strikes another out; nothing where there is none, or it
// strikes one out itself.
func struck(e Entry, clock time.Time) []Entry {
	if e == nil || e.Kind() == KindVoid {
		return nil
	}
	v := voiding(e, clock.Truncate(time.Second), mended)
	v.File = ""
	return []Entry{v}
}

func entryIn(all []Entry, file string) Entry {
	if i := slices.IndexFunc(all, func(e Entry) bool { return e.Head().File == file }); i >= 0 {
		return all[i]
	}
	return nil
}

// again is an entry once more, in its own place: said after the void, it
// stands.
func again(e Entry) Entry {
	said := copied(e)
	*said.Head() = Header{At: e.When(), Replaces: e.Head().File}
	return said
}

// copied is an entry of its own with the same words in it.
func copied(e Entry) Entry {
	switch e := e.(type) {
	case *Lift:
		return copyOf(e)
	case *Move:
		return copyOf(e)
	case *Reweighed:
		return copyOf(e)
	case *BatchEvent:
		return copyOf(e)
	case *Note:
		return copyOf(e)
	case *Steamed:
		return copyOf(e)
	case *Planned:
		return copyOf(e)
	case *Told:
		return copyOf(e)
	case *Void:
		return copyOf(e)
	}
	return nil
}

func copyOf[T any](e *T) *T {
	c := *e
	return &c
}
