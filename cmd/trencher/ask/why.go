package ask

import (
	"fmt"
	"strings"
	"time"

	"trencher/harvest"
	"trencher/recipes/keeping"
	"trencher/units"
)

// given is known_by of what the grower typed or the plot's files say.
const given = "given"

func timeReason(at time.Time) units.Reason {
	return units.Why("when", at.Format("2006-01-02 15:04 -07:00"), "the time given, else this machine's clock", given)
}

// keepingReason says how long a lot keeps raw and who says so; ok is false when
// no figure is known.
func keepingReason(l *harvest.Lot) (reason units.Reason, ok bool) {
	if l.KeepsUntil.IsZero() {
		return units.Reason{}, false
	}
	return units.Why(fmt.Sprintf("%s, %s: keeps raw", strings.TrimSpace(l.Class+" "+l.Crop), l.Condition),
		l.Keeping.Days.String()+" days, "+l.Keeping.Where+"; the account counts with the lower",
		l.Keeping.Source, l.Keeping.KnownBy), true
}

// trimReason is what the kitchen gets of a lot; ok is false where that is all
// of it.
func trimReason(l *harvest.Lot) (reason units.Reason, ok bool) {
	switch {
	case !l.Condition.Edible():
		return units.Why(string(l.Condition)+": to the kitchen", "nothing", ruleSource("green-bitter-discard"), "read"), l.Condition == harvest.Green
	case l.Condition == harvest.Damaged:
		return units.Why("damaged: to the kitchen", "85 % after trimming", keeping.NoSource, "practice"), true
	}
	return units.Reason{}, false
}

func ruleSource(id string) string {
	rule, _ := keeping.LookupRule(id)
	return rule.Source.String()
}

// Reasons says what a lift's figures and defaults rest on.
func (a LiftAnswer) Reasons() []units.Reason {
	list := []units.Reason{
		units.Why("net weight", a.Net.String()+" g", "each bowl less its tare, added up exactly", "computed"),
		timeReason(a.Lift.At),
	}
	seen := map[string]bool{}
	for _, l := range a.Lots {
		for _, from := range []func(*harvest.Lot) (units.Reason, bool){keepingReason, trimReason} {
			if r, ok := from(l); ok && !seen[r.Figure] {
				seen[r.Figure] = true
				list = append(list, r)
			}
		}
	}
	return list
}

// Reasons says what a move's figures and defaults rest on.
func (a MoveAnswer) Reasons() []units.Reason {
	list := []units.Reason{
		units.Why("weight", a.Grams.String()+" g", "as given, else all the journal has of the lot: "+a.Lot.Weight.String()+" g", given),
		timeReason(a.Move.At),
	}
	if r, ok := keepingReason(a.Lot); ok {
		list = append(list, r)
	}
	if r, ok := trimReason(a.Lot); ok {
		list = append(list, r)
	}
	return list
}

// Reasons says what a note rests on.
func (a NoteAnswer) Reasons() []units.Reason {
	return []units.Reason{units.Why("dish", a.Note.Dish, "the name in the plot's dishes folder", given), timeReason(a.Note.At)}
}

// Reasons gives the rules behind what to do with the batch, with their sources.
func (a BatchEventAnswer) Reasons() []units.Reason {
	list := []units.Reason{timeReason(a.Event.At)}
	if a.Batch == nil {
		return list
	}
	for _, id := range a.Batch.Verdict.Rules() {
		if rule, ok := keeping.LookupRule(id); ok {
			list = append(list, units.Why("rule "+id, strings.TrimRight(rule.Says, "."), rule.Source.String(), rule.KnownBy))
		}
	}
	return list
}

// TableReasons says what form a table of the journal has.
func TableReasons() []units.Reason {
	return []units.Reason{units.Why("form", "a header, then a row for each entry", "RFC 4180, comma-separated values", "read")}
}

// Reasons says how a table was read.
func (a ImportAnswer) Reasons() []units.Reason {
	return append(TableReasons(), units.Why("weights without a unit", "by the column's name, else by the plot's measures", "weight_kg, weight_g, weight_lb or weight_oz in the header; kitchen.yaml", given))
}

// Reasons says what striking out does.
func (a VoidAnswer) Reasons() []units.Reason {
	return []units.Reason{units.Why("struck out", a.Voids, "the entry's file stays; the new entry names it, and the account passes it over", "computed")}
}

// Reasons says what a check read.
func (a CheckAnswer) Reasons() []units.Reason {
	return []units.Reason{
		units.Why("read", "kitchen.yaml, plantings.yaml, dishes, and the journal of every season", "this plot's files, by the same reader as every command", "computed"),
		units.Why("settled", fmt.Sprintf("%d entries", a.Entries), "no lot gives more than was lifted, no entry names what is not there", "computed"),
	}
}

// RecipeReasons says what form an exported dish has.
func RecipeReasons() []units.Reason {
	return []units.Reason{units.Why("form", "one Recipe", "schema.org vocabulary, Recipe, in JSON-LD", "read")}
}

// Reasons says how a recipe was read.
func (d ImportedDish) Reasons() []units.Reason {
	return append(RecipeReasons(),
		units.Why("cups, pints and spoons", "by the system named beside them", "the measures asked for, else the plot's kitchen.yaml, else metric", given),
		units.Why("lines marked check", "to be settled by the cook", "the recipe does not say it", given))
}
