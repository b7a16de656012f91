package harvest

import (
	"context"
	"slices"
	"time"

	"trencher/units"
)

// LeftOpen is what the journals of several devices left open, in all seasons,
// for somebody to look at.
type LeftOpen struct {
	Contradictions []Contradiction
	Overdrawn      []Overdraft
	Others         []Warning // what rests on entries that were struck out, corrected or are not here
}

// Contradiction is a [Conflict] with its entries.
type Contradiction struct {
	Corrected Entry   // nil where it is not here
	Counts    Entry   // the correction that counts
	Instead   []Entry // those that do not
	Voided    bool    // it was struck out as well
}

// Overdraft is an [Overdrawn] with its entry.
type Overdraft struct {
	Overdrawn
	Entry Entry
}

// BetweenDevices tells the warnings of which [Ledger.LeftOpen] tells more.
func BetweenDevices(w Warning) bool {
	switch w.(type) {
	case Conflict, Overdrawn, LeftOut, Unlifted, Waiting:
		return true
	}
	return false
}

// LeftOpen reads all seasons and lists what is open there. The ledger should be
// a lenient one of which nothing has been read.
func (l *Ledger) LeftOpen(ctx context.Context, clock time.Time) (open LeftOpen, err error) {
	all, warnings, err := l.readOpen(ctx, clock)
	if err != nil {
		return open, err
	}
	for _, w := range warnings {
		switch w := w.(type) {
		case Conflict:
			open.Contradictions = append(open.Contradictions, contradictionOf(w, all))
		case Overdrawn:
			open.Overdrawn = append(open.Overdrawn, Overdraft{w, all[w.File]})
		default:
			if BetweenDevices(w) {
				open.Others = append(open.Others, w)
			}
		}
	}
	return open, nil
}

func contradictionOf(w Conflict, all map[string]Entry) Contradiction {
	c := Contradiction{Corrected: all[w.Entry], Counts: all[w.Counts], Voided: w.Voided}
	for _, file := range w.Instead {
		c.Instead = append(c.Instead, all[file])
	}
	return c
}

// Decide settles one [Contradiction]: the correction in this file counts from
// now on, and no other. It returns what it wrote. Its error is a
// [units.FieldError] where that file contradicts nothing any more.
func (l *Ledger) Decide(ctx context.Context, file string, clock time.Time) (written []Entry, err error) {
	all, warnings, err := l.readOpen(ctx, clock)
	if err != nil {
		return nil, err
	}
	for _, w := range warnings {
		conflict, ok := w.(Conflict)
		if !ok || conflict.Counts != file && !slices.Contains(conflict.Instead, file) {
			continue
		}
		others := append(slices.Clone(conflict.Instead), conflict.Counts)
		conflict.Counts, conflict.Instead = file, slices.DeleteFunc(others, func(other string) bool { return other == file })
		for _, e := range remedy(conflict, all, clock) {
			if err := l.Write(e); err != nil {
				return written, err
			}
			written = append(written, e)
		}
		return written, nil
	}
	return nil, units.WrongField("entry", file, "contradicts nothing any more; nothing was written", "what stands on the screen now")
}
