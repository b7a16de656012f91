package harvest

import (
	"cmp"
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

// readOpen reads all seasons, and returns their entries by file and what the
// account warns of.
func (l *Ledger) readOpen(ctx context.Context, clock time.Time) (all map[string]Entry, warnings []Warning, err error) {
	years, err := l.journal.Seasons()
	if err != nil {
		return nil, nil, err
	}
	for _, year := range years {
		if err := l.readSeasons(ctx, year); err != nil {
			return nil, nil, err
		}
	}
	all = byFile(l.Entries)
	l.On = lastOf(l.Entries, clock)
	account, err := l.Account()
	if err != nil {
		return nil, nil, err
	}
	return all, account.Warnings, nil
}

// onceUnlifted keeps, of the lots that one entry takes from before they were
// lifted, the one that was lifted last: its day does for all.
func onceUnlifted(warnings []Warning) []Warning {
	last := map[string]Unlifted{} // by entry
	for _, w := range warnings {
		if one, ok := w.(Unlifted); ok {
			if before, seen := last[one.File]; !seen || one.isAfter(before) {
				last[one.File] = one
			}
		}
	}
	return slices.DeleteFunc(slices.Clone(warnings), func(w Warning) bool {
		one, ok := w.(Unlifted)
		return ok && last[one.File].isAfter(one)
	})
}

// isAfter tells whether a lot was lifted after another, or at its moment and its
// name comes later.
func (w Unlifted) isAfter(other Unlifted) bool {
	return cmp.Or(w.Lifted.Compare(other.Lifted), cmp.Compare(w.Lot, other.Lot)) > 0
}

// remedy is what settles a warning; nothing for one that only time or a person
// settles.
func remedy(w Warning, all map[string]Entry, clock time.Time) (entries []Entry) {
	switch w := w.(type) {
	case LeftOut:
		switch e := all[w.File].(type) {
		case *Move, *Reweighed:
			return struck(e, clock)
		case *Planned:
			if less := e.lessUse(w.Err); less != nil {
				return []Entry{less}
			}
		}
	case Unlifted:
		if early := all[w.File]; early != nil {
			e := again(early)
			e.Head().At = w.Lifted
			return []Entry{e}
		}
	case Conflict:
		for _, file := range w.Instead {
			entries = append(entries, struck(all[file], clock)...)
		}
		if counts := all[w.Counts]; w.Voided && counts != nil {
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

// byFile are entries by the file each lies in.
func byFile(lists ...[]Entry) map[string]Entry {
	all := map[string]Entry{}
	for _, list := range lists {
		for _, e := range list {
			all[e.Head().File] = e
		}
	}
	return all
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
