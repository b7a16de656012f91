package meal

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/recipes/schedule"
)

// Kept is until when each dish may be eaten, and what the rules ask besides.
type Kept struct {
	Clocks []Clock // of the dishes with something cooked, in their order
	Notes  []keeping.Note
}

// Clock is the food clock of one dish: its planned history and until when that
// history lets it be eaten.
type Clock struct {
	Dish      string
	History   keeping.Batch // as planned, from the heat to the table and on
	DressedAt time.Time     // zero where it is not dressed
	ServeAt   time.Time
	LimitAt   time.Time // the last moment it may be eaten
	Rule      string    // the keeping rule that ends it
	Holds     bool      // serving lies at or before LimitAt
	Deadline  keeping.Deadline
}

// Over is by how much serving lies after the limit; zero where it holds.
func (c Clock) Over() time.Duration {
	if c.Holds {
		return 0
	}
	return c.ServeAt.Sub(c.LimitAt)
}

// Keep reads every dish's planned history off the steps and has it judged by
// keeping's own verdict, so that the plan and a later question about the same
// food cannot differ. Its error is of keeping: a food or a fact it does not
// know.
func Keep(q Question, l Loaded, t Timetable) (Kept, error) {
	var kept Kept
	facts := q.facts(q.ServeAt)
	for _, dish := range l.Dishes {
		planned := planned(dish, t.Steps, q.Kitchen.ColdBox)
		planned.History.Vulnerable = q.feedsWeak(dish)
		if tray, ok := t.cool.of(dish); ok && !planned.History.ChilledAt.IsZero() {
			planned.Spread, planned.Heaped = minutes(tray.spread.FridgeLatest), minutes(tray.heaped.FridgeLatest)
		}
		facts.Dishes = append(facts.Dishes, planned)
		if planned.History.CookedAt.IsZero() {
			continue
		}
		clock, err := clockOf(facts, planned)
		if err != nil {
			return Kept{}, err
		}
		kept.Clocks = append(kept.Clocks, clock)
	}
	notes, err := keeping.PlanNotes(facts)
	if err != nil {
		return Kept{}, err
	}
	kept.Notes = slices.Concat(notes, keeping.PlotNotes(plotFacts(q, l, t)), keeping.StandingNotes())
	return kept, nil
}

// plotFacts are what of a plan the plot's hygiene is about.
func plotFacts(q Question, l Loaded, t Timetable) keeping.PlotFacts {
	f := keeping.PlotFacts{Made: len(l.Dishes) > 0, Carried: q.Kitchen.Water.Carried, Raw: len(fromPlot(l.Dishes)) > 0}
	for _, dish := range l.Dishes {
		f.Raw = f.Raw || slices.ContainsFunc(dish.Parts, func(p Part) bool { return p.Line.IsRaw() })
		f.Lay = f.Lay || slices.ContainsFunc(dish.Parts, func(p Part) bool { return p.lay(q.On) })
	}
	f.Cools = slices.ContainsFunc(t.Steps, func(s Step) bool { return s.Kind == schedule.Cool })
	return f
}

// lay tells that some of a part was lifted on a day before, is damaged, or comes
// from nobody knows where.
func (p Part) lay(on time.Time) bool {
	return len(p.From) == 0 || slices.ContainsFunc(p.From, func(t Take) bool {
		return t.Lot.Condition == harvest.Damaged || t.Lot.Lifted.Before(on)
	})
}

// feedsWeak tells that somebody may eat a dish whom stricter rules hold for.
func (q Question) feedsWeak(dish Dish) bool {
	return slices.ContainsFunc(q.Guests, func(g recipes.Guests) bool {
		suits, _ := suitsGuest(dish.Recipe, dish.Makeup, g)
		return g.Conditions().Weak() && suits
	})
}

// facts are what the plan's keeping rests on, on the table at a moment.
func (q Question) facts(table time.Time) keeping.PlanFacts {
	return keeping.PlanFacts{TableFrom: table, Authority: keeping.Authority(q.Kitchen.Authority),
		Air: keeping.Celsius(q.AirC), Fridge: keeping.Celsius(q.Kitchen.FridgeC), NoFridge: q.Kitchen.NoFridge}
}

func minutes(m float64) time.Duration { return time.Duration(m * float64(time.Minute)) }

// clockOf has a planned history judged as it stands on the table.
func clockOf(facts keeping.PlanFacts, planned keeping.PlanDish) (Clock, error) {
	history := facts.HistoryOf(planned)
	deadline, err := keeping.DeadlineOf(history, facts.Authority, facts.TableFrom)
	if err != nil {
		return Clock{}, fmt.Errorf("%s: %w", planned.Name, err)
	}
	return Clock{Dish: planned.Name, History: history, DressedAt: planned.DressedAt, ServeAt: facts.TableFrom,
		LimitAt: deadline.Until, Rule: deadline.Rule, Holds: deadline.Holds(facts.TableFrom), Deadline: deadline}, nil
}

// planned reads the planned history of a dish off the steps. What of it came off
// the heat first counts for all of it, and what goes into the fridge last: one
// bowl is what it comes to, and what keep is asked about later.
func planned(dish Dish, steps []Step, box recipes.ColdBox) keeping.PlanDish {
	foods := dish.Makeup.Kinds.Foods
	p := keeping.PlanDish{Name: dish.Name(), History: keeping.Batch{Food: foods[0], Also: foods[1:]}}
	for _, step := range steps {
		if !slices.Contains(step.Dishes, dish.Name()) {
			continue
		}
		switch {
		case cooks(step):
			if p.History.CookedAt.IsZero() || step.End().Before(p.History.CookedAt) {
				p.History.CookedAt = step.End()
			}
		case step.Kind == schedule.Chill:
			p.History.ChilledAt = step.At
		case step.Kind == schedule.ColdBox:
			p.History.Out = []keeping.Spell{{From: p.DressedAt, To: step.At}, {From: step.At, To: step.End(), Air: keeping.Celsius(box.HoldsC)}, {From: step.End()}}
		case step.Kind == schedule.Dress:
			if dish.Recipe.Served == recipes.Cold {
				p.DressedAt = step.At
			}
		}
	}
	return p
}

// DishKinds are the foods a dish of the plot is made of, for keeping.
type DishKinds struct {
	Dish string
	keeping.Kinds
	Rules []string // of all its foods, each once
}

// KindsOfDish tells what foods a dish is made of, and the rules they rest on.
func KindsOfDish(d recipes.Dish) DishKinds {
	kinds := KindsOf(d)
	return DishKinds{Dish: d.Name, Kinds: kinds, Rules: kinds.Rules()}
}

// KindsOf are all the foods a dish is made of, whichever of its alternatives is
// taken; the strictest of them sets each limit.
func KindsOf(d recipes.Dish) keeping.Kinds { return MakeupOf(d).Kinds }

// Makeup is what a dish is made of: what goes into it, the kinds of food it is for
// keeping, and what in it can poison.
type Makeup struct {
	recipes.Makeup
	Kinds   keeping.Kinds
	Poisons []recipes.Poison
}

// MakeupOf reads what a dish is made of.
func MakeupOf(d recipes.Dish) Makeup {
	m := Makeup{Makeup: d.Makeup(), Poisons: d.Poisons()}
	r := keeping.Recipe{Name: d.Name, Cold: d.Served == recipes.Cold, Method: slices.Concat(d.Method, d.Remarks)}
	for _, line := range d.Crops {
		if line.Cook == "raw" {
			r.Raw = append(r.Raw, line.Crop)
			continue
		}
		r.Crops = append(r.Crops, line.Crop)
	}
	for _, other := range d.Others {
		addItem(&r, other.Item, other.State, other.Composition())
		for _, instead := range other.Instead {
			addItem(&r, instead.Item, instead.State, instead.Composition())
		}
	}
	unknown := m.UnknownServed()
	r.Items, r.Unknown = append(r.Items, unknown...), append(r.Unknown, unknown...)
	m.Kinds = keeping.KindsOf(r)
	return m
}

func addItem(r *keeping.Recipe, item, state string, made recipes.Composition) {
	item = strings.TrimSpace(item + " " + state)
	r.Items = append(r.Items, item)
	if !made.Known {
		r.Unknown = append(r.Unknown, item)
	}
}
