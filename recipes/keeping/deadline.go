package keeping

import "time"

// Deadline is how long a batch may be eaten if nothing more happens to it: the
// moment from which on [Judge] says discard, or no longer knows, and the rules that
// set it.
type Deadline struct {
	// Until is the last moment, to the nanosecond, at which Judge lets it be
	// eaten. It is zero where no moment ends it (it is frozen), where a fact is
	// missing, and where it was never fit to be eaten: Verdict tells which.
	Until time.Time
	Rule  string   // the rule that ends it; "" where none does
	Rules []string // all it rests on, Rule first

	Verdict Verdict // at the moment asked about
	under   bool    // the rule's own moment is already too late
}

// tick is the finest step of time.
const tick = time.Nanosecond

// DeadlineOf gives the deadline of a batch whose history goes on as it stands
// at a moment: a spell out that has no end stays open, the fridge as it is.
// The moment is not before anything in the history. Where Judge says discard by
// then, Until is the last moment before it became one.
//
// It holds no rule of its own: it asks Judge about one moment after another, so
// that the two cannot differ. Errors are Judge's.
func DeadlineOf(b Batch, a Authority, at time.Time) (Deadline, error) {
	verdict, err := Judge(b, a, at)
	if err != nil {
		return Deadline{}, err
	}
	var d Deadline
	switch verdict.Kind {
	case Unknown:
	case Discard:
		d, err = lookBack(b, verdict)
	default:
		d, err = lookAhead(b, verdict.Authority, at, Unknown)
	}
	d.Verdict = verdict
	return d, err
}

// Holds tells whether the batch may be eaten at a moment t, not before the one
// the deadline was asked for. What is condemned, and what a fact is missing of,
// never holds.
func (d Deadline) Holds(t time.Time) bool {
	switch d.Verdict.Kind {
	case Discard, Unknown:
		return false
	}
	return d.Until.IsZero() || !t.After(d.Until)
}

// Clock is the moment a clock on the wall is set to: the batch is eaten by it,
// or before it where the rule says so and the moment itself is too late.
func (d Deadline) Clock() (t time.Time, before bool) {
	if d.under {
		return d.Until.Add(tick), true
	}
	return d.Until, false
}

// lookAhead finds the end of a history that goes on from a moment; the zero
// Deadline where it has none. A verdict stands until some moment, and the
// search goes on right after that. What ends it is a discard, or the other verdict
// told.
func lookAhead(b Batch, a Authority, from time.Time, other Kind) (Deadline, error) {
	now := new(judging)
	for at := from; ; {
		if err := now.decideOn(b, a, at); err != nil {
			return Deadline{}, err
		}
		if kind := now.verdict.Kind; kind == Discard || kind == other {
			return endedBy(b, a, from, at, now.verdict)
		}
		last := now.stands()
		if last.Before(at) {
			return Deadline{}, nil
		}
		at = last.Add(tick)
	}
}

// endedBy is the deadline of a batch that a verdict ends at a moment and did not
// two ticks before.
func endedBy(b Batch, a Authority, from, at time.Time, end Verdict) (Deadline, error) {
	d := Deadline{Until: at.Add(-tick), under: at.Equal(from)}
	if !d.under {
		last, err := decide(b, a, d.Until)
		if err != nil {
			return Deadline{}, err
		}
		if last.verdict.Kind == end.Kind {
			d.Until, d.under, end = d.Until.Add(-tick), true, last.verdict
		}
	}
	d.Rules = end.Reasons[0].Rules
	d.Rule = d.Rules[0]
	return d, nil
}

// lookBack finds where a history that ends in a discard became one: it is gone
// through from one event to the next, as it stood at each. Of a day that nobody
// knows there is nothing to go through.
func lookBack(b Batch, discard Verdict) (Deadline, error) {
	rules := discard.Reasons[0].Rules
	if b.CookedAt.IsZero() {
		return Deadline{Rule: rules[0], Rules: rules}, nil
	}
	events := b.events()
	for i, from := range events {
		d, err := lookAhead(b.AsOf(from), discard.Authority, from, Discard)
		if err != nil {
			return Deadline{}, err
		}
		ended := d.Rule != "" && (i+1 == len(events) || d.Until.Add(tick).Before(events[i+1]))
		if ended && d.Until.Before(b.CookedAt) {
			d.Until, d.under = time.Time{}, false // it was never fit to be eaten
		}
		if ended {
			return d, nil
		}
	}
	return Deadline{Rule: rules[0], Rules: rules}, nil
}

// stands is the moment up to which a verdict stands if nothing more happens;
// zero where it stands for ever. A power cut that goes on changes it at some
// moment, and a batch of which a fact is missing is over at the end of its life
// whatever the fact.
func (j *judging) stands() time.Time {
	last := j.verdict.Until
	if j.verdict.Kind == Unknown {
		last = j.CookedAt.Add(j.limits.Life.Most)
	}
	for _, at := range []time.Time{j.fullAt, j.turnsAt} {
		if !at.IsZero() && !at.Before(j.now) && (last.Before(j.now) || at.Before(last)) {
			last = at
		}
	}
	return last
}
