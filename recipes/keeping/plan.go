package keeping

import (
	"fmt"
	"slices"
	"time"
)

// PlanFacts are a plan's dishes and times, from which [PlanNotes] tells the
// rules they trigger.
type PlanFacts struct {
	Dishes     []PlanDish
	TableFrom  time.Time   // the serving time; zero when none is planned
	Air        Temperature // at the table; unknown counts as mild
	Fridge     Temperature
	NoFridge   bool // there is none: nothing is kept
	Vulnerable bool // somebody at the table is
	Authority  Authority
}

// PlanDish is one dish of a plan.
type PlanDish struct {
	Name string
	// History is what is planned for it up to the table. It was cooked when its
	// oldest cooked part leaves the heat. Air, Fridge and eaters that it does
	// not give are the plan's.
	History Batch
	// DressedAt is when it is dressed; zero when it is not, or while hot.
	DressedAt time.Time
	// Heaped and Spread are how long it takes to be cool enough for the
	// fridge in its bowl and in one layer on a tray, at the latest; zero
	// where there is no estimate.
	Heaped, Spread time.Duration
}

// HistoryOf is the planned history of a dish as it stands on the table, the one
// to ask [DeadlineOf] about at the serving time: a dish from the fridge is out
// of it from when it is dressed cold, else from the serving time.
func (f PlanFacts) HistoryOf(d PlanDish) Batch {
	b := f.cooked(d)
	from := f.TableFrom
	if dressed := d.DressedAt; !dressed.IsZero() && !dressed.Before(b.ChilledAt) && (from.IsZero() || dressed.Before(from)) {
		from = dressed
	}
	if !b.ChilledAt.IsZero() && !from.IsZero() && !slices.ContainsFunc(b.Out, Spell.open) {
		b.Out = append(slices.Clone(b.Out), Spell{From: from, Air: f.Air})
	}
	return b
}

func (s Spell) open() bool { return s.To.IsZero() }

// cooked is the history of a dish with the plan's air, fridge and eaters. A
// fridge it goes into after serving is not in it.
func (f PlanFacts) cooked(d PlanDish) Batch {
	b := d.History
	b.Vulnerable = b.Vulnerable || f.Vulnerable
	if !b.Air.Known {
		b.Air = f.Air
	}
	if !b.Fridge.Known {
		b.Fridge = f.Fridge
	}
	if !f.TableFrom.IsZero() && !b.ChilledAt.Before(f.TableFrom) {
		b.ChilledAt, b.Out = time.Time{}, nil
	}
	return b
}

// PlanNotes tells what the keeping rules ask of a plan, in the order of its
// dishes. Every time of day in them is Judge's own on the planned history. A
// history that cannot be, a food it does not know and an unknown authority are
// a [*units.FieldError].
func PlanNotes(facts PlanFacts) ([]Note, error) {
	authority, err := ParseAuthority(string(facts.Authority))
	if err != nil {
		return nil, err
	}
	facts.Authority = authority
	var all []told
	for _, dish := range facts.Dishes {
		p, err := newPlanning(facts, dish)
		if err == nil {
			err = p.note()
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", dish.Name, err)
		}
		all = append(all, p.told...)
	}
	return append(notesOf(all, facts.now()), narrowedNote(authority)...), nil
}

// now is the day from which clock times are told: of serving, else of the
// first cooking.
func (f PlanFacts) now() time.Time {
	if !f.TableFrom.IsZero() {
		return f.TableFrom
	}
	var first time.Time
	for _, d := range f.Dishes {
		if cooked := d.History.CookedAt; !cooked.IsZero() && (first.IsZero() || cooked.Before(first)) {
			first = cooked
		}
	}
	return first
}

// narrowedNote says so when a plan keeps one authority's rules alone.
func narrowedNote(a Authority) []Note {
	if a == Strictest {
		return nil
	}
	rules := joined(LimitsOf(a).Eat.Rules, LimitsOf(a).Life.Rules)
	says := "Narrowed to the rules of " + a.name() + "; the strictest of all allow less."
	return []Note{{Kind: NoteNarrowed, Rule: rules[0], Rules: rules, Says: says}}
}
