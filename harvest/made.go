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
		dish := ""
		switch e := e.(type) {
		case *Move:
			if e.To == KindUse {
				dish = e.Dish
			}
		case *BatchEvent:
			if e.Event == KindCooked {
				dish = e.Dish
			}
		}
		name, at := measures.Fold(dish), e.Head().When()
		if name != "" && !at.After(until) && at.After(made.last[name]) {
			made.last[name] = at
		}
	}
	return made
}

// Last is when a dish was last made; zero where the entries tell of no time.
func (m Made) Last(dish string) time.Time { return m.last[measures.Fold(dish)] }
