package harvest

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"trencher/units"
)

// Fits makes sure that a batch event can be: that its batch is there, and that
// neither it nor a later event of that batch would be of a batch that is not in
// the place for it. It returns the batch as it stands by the clock with the
// event in it. The event is not written yet; it is given the batch's own
// spelling of its name, and the time of the clock where it has none.
//
// Its errors are [units.FieldError] of at, until or batch, and those of the
// journal; a lenient ledger is the one to ask, so that what is damaged never
// keeps a new entry out.
func (l *Ledger) Fits(ctx context.Context, e *BatchEvent, clock time.Time) (*Batch, error) {
	original, _, err := l.original(ctx, e)
	if err != nil {
		return nil, err
	}
	date(e, original, clock)
	if original != nil && e.At.Year() != seasonOf(original) {
		return nil, units.WrongField("at", e.At.Format(time.DateOnly), "in another year than "+original.Head().File, "a time of the same year, or undo that entry")
	}
	if err := e.checkTimes(clock); err != nil {
		return nil, err
	}
	for year := e.At.Year() - 1; year <= clock.Year(); year++ {
		if err := l.readSeasons(ctx, year); err != nil {
			return nil, err
		}
	}
	standing, _, err := Correct(l.Entries)
	if err != nil {
		return nil, err
	}
	if original != nil { // it stands in its place
		standing = slices.DeleteFunc(standing, func(o Entry) bool { return o.Head().File == original.Head().File })
	}
	now := lastOf([]Entry{e}, clock)
	before := foldBatches(standing, now)
	if e.Event != KindCooked {
		if err := e.name(before.batches); err != nil {
			return nil, err
		}
	}
	left := before.leftOf(e)
	after := foldBatches(append(standing, e), now)
	if err := after.spoils(before, e); err != nil {
		return nil, err
	}
	told, err := l.ask(append(doubtEaten(e, left), doubtPlan(e, standing, clock)...))
	l.Warnings = append(l.Warnings, told...)
	return after.of[e], err
}

// leftOf is how much there is of the batch an event is of; an invalid amount
// where nobody knows.
func (f batchFold) leftOf(e *BatchEvent) units.Quantity {
	for _, b := range slices.Backward(f.batches) {
		if b.isCalled(e.Name) && b.State != Gone && !b.CookedAt.IsZero() && !e.At.Before(b.CookedAt) {
			return b.Left
		}
	}
	return units.Quantity{}
}

// doubtEaten asks about more eaten, or thrown out, than is left.
func doubtEaten(e *BatchEvent, left units.Quantity) []Doubt {
	if e.Event == KindCooked || !e.Amount.IsValid() || !left.IsValid() {
		return nil
	}
	over, err := e.Amount.Sub(left)
	if err != nil || over.Sign() <= 0 {
		return nil
	}
	return []Doubt{Overeaten{e.Name, e.Amount, left}}
}

// doubtPlan asks about a batch cooked before its plan was written down, to the minute;
// not where that is after the clock, which is then plainly not the plot's.
func doubtPlan(e *BatchEvent, standing []Entry, clock time.Time) []Doubt {
	for _, other := range standing {
		p, ok := other.(*Planned)
		if ok && e.Event == KindCooked && p.ID == e.Plan && !p.At.After(clock) && isBefore(e.At, p.At.Truncate(time.Minute)) {
			return []Doubt{BeforePlan{e.Name, p.ID, e.At, p.At}}
		}
	}
	return nil
}

func (e *BatchEvent) checkTimes(clock time.Time) error {
	const accepted = "a time that has been"
	if err := notYet("at", e.At, clock, accepted); err != nil {
		return err
	}
	if err := notYet("until", e.Until, clock, accepted); err != nil {
		return err
	}
	if !e.Until.IsZero() && e.Until.Before(e.At) {
		return units.WrongField("until", "", "before it came out", "when it went back into the fridge")
	}
	return nil
}

// name finds the batch an event is of, as [units.MatchNames] reads its name, and
// gives the event its spelling.
func (e *BatchEvent) name(batches []*Batch) error {
	var names []string
	named := map[string]bool{}
	for _, b := range slices.Backward(batches) {
		if b.State != Gone && !b.CookedAt.IsZero() && !named[uncased(b.Name)] {
			named[uncased(b.Name)] = true
			names = append(names, b.Name)
		}
	}
	found := units.MatchNames(e.Name, names)
	switch len(found) {
	case 0:
		return units.WrongField("batch", e.Name, "no batch of that name is there", batchesThere(names))
	case 1:
		e.Name = names[found[0]]
	default:
		var candidates []string
		for _, i := range found {
			candidates = append(candidates, names[i])
		}
		return units.WrongField("batch", e.Name, "more than one batch begins so", batchesThere(candidates))
	}
	for _, b := range slices.Backward(batches) {
		if b.State != Gone && b.isCalled(e.Name) && e.At.Before(b.CookedAt) {
			return units.WrongField("at", stamp(e.At), "before "+b.Name+" was cooked, "+stamp(b.CookedAt), "a time after that")
		}
	}
	return nil
}

func batchesThere(names []string) string {
	if len(names) == 0 {
		return "the name of a batch, once it is logged as cooked"
	}
	return "one of " + strings.Join(names, ", ")
}

// spoils says what a new event makes of the others that could be before: an
// event that cannot be any more, or one that would be of another batch.
func (f batchFold) spoils(before batchFold, e *BatchEvent) error {
	if err := f.refused[e]; err != nil {
		return err
	}
	for _, other := range before.events {
		was := before.of[other]
		moved := !was.CookedAt.IsZero() && !f.of[other].CookedAt.Equal(was.CookedAt)
		broken := before.refused[other] == nil && f.refused[other] != nil
		if moved || broken {
			return units.WrongField("at", stamp(e.At), fmt.Sprintf("at odds with %s %s, logged for %s", other.Name, other.Event, stamp(other.At)),
				"a time that agrees with it, or another name")
		}
	}
	return nil
}
