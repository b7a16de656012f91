package harvest

import (
	"time"

	"trencher/units"
)

// slack forgives two clocks that disagree a little.
const slack = 2 * time.Minute

// notYet is the error for a moment that is still to come by the clock, nil for
// one that has been.
func notYet(field string, at, clock time.Time, accepted string) error {
	if !at.After(clock.Add(slack)) {
		return nil
	}
	return units.WrongField(field, "", "still to come, by this machine's clock ("+stamp(clock)+")", accepted)
}

// stamp is a moment as an error shows it.
func stamp(t time.Time) string { return t.Format("2006-01-02 15:04") }

// lastOf is the moment of the last entry, or a given one if that is later.
func lastOf(entries []Entry, last time.Time) time.Time {
	for _, e := range entries {
		if e.When().After(last) {
			last = e.When()
		}
	}
	return last
}
