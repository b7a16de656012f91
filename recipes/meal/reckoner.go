package meal

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/units"
)

// Reckoner is what a kitchen's dishes come to, worked out beforehand, for where
// there is no device to ask: every figure in it is what [MakeOne], heat and keeping
// answer to the same question.
type Reckoner struct {
	Plot       string
	On         time.Time // the day it was made
	Kitchen    recipes.Kitchen
	KnifeTests int // of this kitchen that its times rest on
	Dishes     []ReckonedDish
	Heats      []ReckonedHeat // each way of cooking a crop once, as the dishes name them
	Warnings   []Warning
	Cautions   []string // that go with every answer on keeping

	reasons []units.Reason
}

// Reasons says what every figure rests on, each source once.
func (r Reckoner) Reasons() []units.Reason { return r.reasons }

// ReckonedDish is one dish at several sizes.
type ReckonedDish struct {
	Recipe   recipes.Dish
	Made     []Dish            // at each number of portions of its ladder, the fewest first
	Portion  []decimal.Decimal // by crop line: grams as lifted that one portion takes
	Stands   Stands            // how long it keeps
	Warnings []Warning         // of what is in it
	Foods    keeping.Kinds     // it is made of
}

// Stands is how long a dish may stand, each counted by keeping's own verdict.
type Stands struct {
	Out      Standing // from the heat on, in the kitchen's room
	HotOut   Standing // the same in air hotter than any rule is easy with
	Fridge   Standing // chilled in time: from the heat on
	WeakEat  Standing // chilled in time, for those of stricter rules
	TableOut Standing // from the fridge on, chilled in time
}

// Standing is for how long food may still be eaten. For is zero where it may not be,
// where a fact is missing, and where no moment ends it: Verdict tells which.
type Standing struct {
	For     time.Duration
	Before  bool // For itself is already too long
	Verdict keeping.Kind
	Rules   []string // it rests on
}

// mostRungs is how many sizes of a dish a reckoner has.
const mostRungs = 5

// Reckon works out the dishes of a question, of which only the kitchen, the day,
// the knife tests and the remarks count besides. Its errors are of heat and of
// keeping, with the dish they are about.
func Reckon(q Question) (Reckoner, error) {
	q.reckoned = newReckoned()
	r := Reckoner{Plot: q.Plot, On: q.On, Kitchen: q.Kitchen, KnifeTests: len(q.KnifeTests), Cautions: keeping.Cautions(false)}
	for _, says := range q.Remarks {
		r.Warnings = append(r.Warnings, Warning{Severity: Notice, Concern: Remark, Says: says})
	}
	for _, recipe := range q.Dishes {
		dish, err := reckonDish(q, recipe)
		if err != nil {
			return Reckoner{}, fmt.Errorf("%s: %w", recipe.Name, err)
		}
		r.Dishes = append(r.Dishes, dish)
	}
	var err error
	r.Heats, err = reckonHeats(q)
	r.reasons = r.restsOn(q)
	return r, err
}

// restsOn gathers the sources behind the figures, each once.
func (r Reckoner) restsOn(q Question) (list []units.Reason) {
	var all []units.Reason
	for _, dish := range r.Dishes {
		for i := range dish.Recipe.Crops {
			all = append(all, yieldReasons(dish.Made[0], i)...)
		}
		all = append(all, lineReasons(dish.Made[0], q.Kitchen)...)
		all = append(all, dish.Stands.reasons()...)
	}
	for _, h := range r.Heats {
		all = append(all, h.reasons()...)
	}
	all = append(all, assumed("kitchen.yaml", q.Kitchen.Assumed, "not in kitchen.yaml: the default")...)
	return withNew(list, all)
}

// reasons are the keeping rules that the times rest on.
func (s Stands) reasons() []units.Reason {
	return ruleReasons(slices.Concat(s.Out.Rules, s.HotOut.Rules, s.Fridge.Rules, s.TableOut.Rules, s.WeakEat.Rules))
}

func reckonDish(q Question, recipe recipes.Dish) (d ReckonedDish, err error) {
	makeup := MakeupOf(recipe)
	d = ReckonedDish{Recipe: recipe, Foods: makeup.Kinds}
	for _, portions := range rungs(recipe) {
		made := scaleDish(q, recipe, big.NewRat(int64(portions), 1))
		made.Makeup = makeup
		d.Made = append(d.Made, made)
	}
	for _, part := range scaleDish(q, recipe, big.NewRat(1, 1)).Parts {
		d.Portion = append(d.Portion, part.Lifted)
	}
	if d.Warnings, err = warningsOfOne(q, d.Made[0]); err != nil {
		return d, err
	}
	d.Stands, err = standsOf(q, d.Foods)
	return d, err
}

// warningsOfOne tells what can harm in a dish however it is timed.
func warningsOfOne(q Question, dish Dish) ([]Warning, error) {
	k := newKitchen(q)
	dish.Parts = slices.Clone(dish.Parts)
	for i := range dish.Parts {
		part := &dish.Parts[i]
		if err := errors.Join(k.steamAlone(part), k.boil(part, dish.Recipe.Served)); err != nil {
			return nil, err
		}
	}
	one := []Dish{dish}
	warnings := poisonsOf(one)
	for _, part := range dish.Parts {
		warnings = append(warnings, part.warnings(dish.Name())...)
	}
	sortWarnings(warnings)
	return warnings, nil
}

// rungs are the numbers of portions that a dish is worked out at: its fewest, its
// most and what parts them evenly, its own number in the place of the nearest.
func rungs(d recipes.Dish) []int {
	from, to := d.Smallest, max(d.Smallest, d.Largest)
	list := make([]int, mostRungs)
	nearest := 1
	for i := range list {
		list[i] = from + (to-from)*i/(mostRungs-1)
		if inside := i > 0 && i < mostRungs-1; inside && math.Abs(float64(list[i]-d.Portions)) < math.Abs(float64(list[nearest]-d.Portions)) {
			nearest = i
		}
	}
	if d.Portions > from && d.Portions < to {
		list[nearest] = d.Portions
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// How the histories are laid out that keeping is asked about: hotAirC is hotter
// than any rule is easy with, soon is when a dish that is cared for is in the
// fridge, nextDay is when it comes out.
const (
	hotAirC = 33.0
	soon    = 30 * time.Minute
	nextDay = 12 * time.Hour
)

// standsOf asks keeping about a dish of these foods that stays out, that is
// chilled, and that comes out again.
func standsOf(q Question, kinds keeping.Kinds) (s Stands, err error) {
	cooked := q.On.Add(12 * time.Hour)
	out := keeping.Batch{Food: kinds.Foods[0], Also: kinds.Foods[1:], CookedAt: cooked, Air: keeping.Celsius(q.AirC),
		Fridge: keeping.Celsius(q.Kitchen.FridgeC)}
	hot, chilled := out, out
	hot.Air, chilled.ChilledAt = keeping.Celsius(hotAirC), cooked.Add(soon)
	weak, table := chilled, chilled
	weak.Vulnerable, table.Out = true, []keeping.Spell{{From: cooked.Add(nextDay)}}
	for _, one := range []struct {
		into  *Standing
		batch keeping.Batch
		at    time.Time // asked then
		from  time.Time // counted from then
		cold  bool
	}{
		{&s.Out, out, cooked, cooked, false}, {&s.HotOut, hot, cooked, cooked, false},
		{&s.Fridge, chilled, chilled.ChilledAt, cooked, true}, {&s.WeakEat, weak, chilled.ChilledAt, cooked, true},
		{&s.TableOut, table, table.Out[0].From, table.Out[0].From, true},
	} {
		if one.cold && q.Kitchen.NoFridge {
			continue
		}
		deadline, err := keeping.DeadlineOf(one.batch, keeping.Authority(q.Kitchen.Authority), one.at)
		if err != nil {
			return s, err
		}
		*one.into = Standing{Verdict: deadline.Verdict.Kind, Rules: deadline.Rules}
		if until, before := deadline.Clock(); deadline.Holds(one.at) && !until.IsZero() {
			one.into.For, one.into.Before = until.Sub(one.from), before
		}
	}
	return s, nil
}
