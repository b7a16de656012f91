package harvest

import (
	"time"

	"trencher/units/measures"
)

// Made is when each dish was last made, by the journal.
type Made struct{ last map[string]time.Time }

// LastMade reads entries that may hold corrections, up to a moment: a dish was
// made when something was used for it, or a batch of it was cooked.
func LastMade(entries []Entry, until time.Time) Made {
	made := Made{map[string]time.Time{}}
	standing, _, err := Correct(entries)
	if err != nil {
		return made
	}
	for _, e := range standing {
		for _, m := range movesOf(e) {
			if m.To == KindUse {
				made.saw(m.Dish, m.At, until)
			}
		}
		if b, ok := e.(*BatchEvent); ok && b.Event == KindCooked {
			made.saw(b.Dish, b.At, until)
		}
	}
	return made
}

// saw notes that a dish was made, if that was by then.
func (m Made) saw(dish string, at, until time.Time) {
	name := measures.Fold(dish)
	if name != "" && !at.After(until) && at.After(m.last[name]) {
		m.last[name] = at
	}
}

// Last is when a dish was last made; zero where the entries tell of no time.
func (m Made) Last(dish string) time.Time { return m.last[measures.Fold(dish)] }
