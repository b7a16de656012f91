package meal

import (
	"cmp"
	"context"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/shopspring/decimal"

	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/recipes/schedule"
)

// NothingMadeError is what a meal comes to of which no dish can be made. Its plan
// says why of each.
type NothingMadeError struct{ Plan Plan }

// Error says only that; the reasons are the plan's.
func (e *NothingMadeError) Error() string { return "nothing can be made" }

// Make plans a meal of mode [Share] or [Table]. The errors are those of the
// stages: a limit or a crop held back that nothing has, as a *units.FieldError;
// a dish that heat cannot reckon; the context's.
func Make(ctx context.Context, q Question) (Plan, error) {
	q.reckoned, q.makeups = newReckoned(), makeupsOf(q.Dishes)
	stop := readAhead(q.makeups)
	solved, err := Solve(ctx, q)
	stop()
	if err != nil {
		return Plan{}, err
	}
	var explained explained
	var unexplained error
	var reasons sync.WaitGroup
	reasons.Go(func() { explained, unexplained = explain(ctx, q, solved) }) // half of the work, which waits for no timetable
	plan, err := planOf(ctx, q, solved)
	reasons.Wait()
	if err = cmp.Or(err, unexplained); err != nil {
		return Plan{}, err
	}
	plan.Bounds, plan.Partly, plan.Short = explained.bounds, explained.partly, explained.short
	return plan, nil
}

// planOf is the plan of what the planner answered, but for what bound it.
func planOf(ctx context.Context, q Question, solved Solved) (Plan, error) {
	plan, err := rest(ctx, q, Scale(q, solved))
	if err != nil {
		return Plan{}, err
	}
	plan.Lots, plan.Left = lotsOf(solved)
	plan.SetAside = solved.Aside
	plan.LeftOut, plan.Levels, plan.Plates = leftOutOf(q, solved), levelsOf(solved), platesOf(q, solved)
	q.ServeAt = plan.ServeAt
	if plan.Apart, err = plan.apartsOf(q, plan.Steps); err != nil {
		return Plan{}, err
	}
	plan.Warnings = append(plan.Warnings, plan.apartWarnings(q)...)
	if solved.Unproven != nil {
		plan.Warnings = append(plan.Warnings, Warning{Severity: Shortcoming, Concern: Unproven, Says: solved.Unproven.Error()})
	}
	return finished(plan), nil
}

// MakeOne plans the one dish of a question of mode [One].
func MakeOne(ctx context.Context, q Question) (Plan, error) {
	q.reckoned = newReckoned()
	plan, err := rest(ctx, q, ScaleOne(q))
	if err != nil {
		return Plan{}, err
	}
	return finished(plan), nil
}

// rest goes through the stages after scaling, which share all modes.
func rest(ctx context.Context, q Question, scaled Scaled) (Plan, error) {
	loaded, err := LoadUp(q, scaled)
	if err != nil {
		return Plan{}, err
	}
	timetable, err := Schedule(ctx, q, loaded)
	if err != nil {
		return Plan{}, err
	}
	loaded, q.ServeAt = timetable.Loaded, timetable.ServeAt
	kept, err := Keep(q, loaded, timetable)
	if err != nil {
		return Plan{}, err
	}
	plan := Plan{Mode: q.Mode, Plot: q.Plot, On: q.On, ServeAt: q.ServeAt, AirC: q.AirC, Kitchen: q.Kitchen,
		Dishes: loaded.Dishes, Runs: loaded.Runs, Steps: timetable.Steps, Allow: timetable.Allow,
		Took: timetable.Took, Timing: timetable.Timing, Supplies: timetable.Supplies, Box: timetable.Box,
		Clocks: kept.Clocks, Keep: kept.Notes, Cautions: keeping.Cautions(false)}
	if timetable.Late != nil {
		plan.EarliestServeAt = timetable.Late.Earliest
	}
	plan.Loads = loadsOf(q, loaded.Dishes)
	plan.Rounds = roundsOf(plan.Loads, q.Kitchen.Steamer.Tiers)
	plan.Pick, plan.Buy = Wants(loaded.Dishes, q.Kitchen)
	plan.Warnings = warningsOf(q, loaded, timetable, kept)
	plan.Reasons = reasonsOf(q, plan)
	return plan, nil
}

// finished replays the plan, adds what is amiss and puts the gravest first.
func finished(plan Plan) Plan {
	for _, finding := range Check(plan) {
		plan.Warnings = append(plan.Warnings, Warning{Severity: Danger, Concern: Amiss, Dish: finding.Dish, Says: finding.Says})
	}
	sortWarnings(plan.Warnings)
	return plan
}

// warningsOf is what needs attention before starting.
func warningsOf(q Question, l Loaded, t Timetable, k Kept) []Warning {
	var warnings []Warning
	for _, clock := range k.Clocks {
		if !clock.Holds {
			warnings = append(warnings, Warning{Severity: Danger, Concern: ClockBroken, Dish: clock.Dish, Rule: clock.Rule, Clock: clock})
		}
	}
	if t.Late != nil {
		warnings = append(warnings, Warning{Severity: Shortcoming, Concern: Late, Late: *t.Late})
	}
	warnings = append(warnings, waitsOf(l, t)...)
	warnings = append(warnings, notColdOf(q.Kitchen, l, t)...)
	warnings = append(warnings, shortOf(q, t)...)
	for _, says := range q.Remarks {
		warnings = append(warnings, Warning{Severity: Notice, Concern: Remark, Says: says})
	}
	warnings = append(warnings, poisonsOf(l.Dishes)...)
	warnings = append(warnings, asksOf(q)...)
	for at, part := range eachPart(l.Dishes) {
		warnings = append(warnings, part.warnings(l.Dishes[at.Dish].Name())...)
	}
	return warnings
}

// shortOf tells what the kitchen has too little of: water, fillings, ice, gas.
func shortOf(q Question, t Timetable) []Warning {
	var warnings []Warning
	if water := q.Kitchen.Water; water.Carried && t.Supplies.WaterML > water.CarriedML {
		warnings = append(warnings, Warning{Severity: Shortcoming, Concern: OutOfWater})
	}
	if most := q.Rounds; most > 0 && len(t.Loaded.Runs) > most {
		warnings = append(warnings, Warning{Severity: Shortcoming, Concern: MoreRounds, Rounds: most})
	}
	if t.Box.Warms() {
		warnings = append(warnings, Warning{Severity: Notice, Concern: BoxWarms})
	}
	if t.Supplies.TooLong {
		warnings = append(warnings, Warning{Severity: Shortcoming, Concern: CanisterEmpties})
	}
	return warnings
}

// warnings tell what is amiss with how a part of a dish is cooked.
func (p Part) warnings(dish string) []Warning {
	var warnings []Warning
	crop := p.Line.Crop
	if why, must := recipes.MustBoil(crop); must && !p.Line.IsRaw() && !p.boilsFor(why.Boil) {
		warnings = append(warnings, Warning{Severity: Danger, Concern: SteamIsNotEnough, Dish: dish, Crop: crop, Rule: why.Rule, Boil: why.Boil})
	}
	if p.Line.IsRaw() && !recipes.RawIsKnown(crop) {
		warnings = append(warnings, Warning{Severity: Danger, Concern: RawUnknown, Dish: dish, Crop: crop})
	}
	if p.IsUntimed() {
		warnings = append(warnings, Warning{Severity: Notice, Concern: Untimed, Dish: dish, Crop: crop})
	}
	return warnings
}

// boilsFor tells a part that boils in water for at least so long.
func (p Part) boilsFor(least time.Duration) bool {
	return p.Line.Cook == "boil" && (p.Pot != nil && p.Pot.AtLeast >= least || p.IsCookedOwn() && time.Duration(p.Line.Minutes)*time.Minute >= least)
}

// asksOf tells what to ask the guests back.
func asksOf(q Question) []Warning {
	var warnings []Warning
	for _, g := range q.Guests {
		if g.Ask != "" {
			for _, ask := range strings.Split(g.Ask, "\n") {
				warnings = append(warnings, Warning{Severity: Notice, Concern: AskGuest, Guest: g, Says: ask})
			}
		}
	}
	return warnings
}

// poisonsOf tells what can poison: what does as a dish is written, dish by dish,
// and what is to be minded, once for all of them.
func poisonsOf(dishes []Dish) []Warning {
	var warnings []Warning
	for _, dish := range dishes {
		for _, poison := range dish.Makeup.Poisons {
			w := Warning{Severity: Danger, Concern: Poisonous, Dish: dish.Name(), Rule: poison.Rule, Poison: poison}
			if !poison.Grave {
				w.Severity, w.Dish = Notice, ""
				if slices.ContainsFunc(warnings, func(o Warning) bool { return o.Concern == Poisonous && o.Severity == Notice && o.Rule == w.Rule }) {
					continue
				}
			}
			warnings = append(warnings, w)
		}
	}
	return warnings
}

// waitsOf tells of hot and warm dishes that wait longer than they should.
func waitsOf(l Loaded, t Timetable) []Warning {
	var warnings []Warning
	for d, dish := range l.Dishes {
		most := map[recipes.Served]time.Duration{recipes.Hot: hotWait, recipes.Warm: warmWait}[dish.Recipe.Served]
		left := firstOffHeat(t.Steps, d)
		if waits := t.ServeAt.Sub(left); most > 0 && !left.IsZero() && waits > most {
			warnings = append(warnings, Warning{Severity: Notice, Concern: Waits, Dish: dish.Name(), Waited: waits})
		}
	}
	return warnings
}

// notColdOf tells of dishes meant cold that are not, and why.
func notColdOf(k recipes.Kitchen, l Loaded, t Timetable) []Warning {
	var warnings []Warning
	for _, dish := range l.Dishes {
		if dish.Recipe.Served != recipes.Cold || !isCooked(dish) {
			continue
		}
		tray, ok := t.cool.of(dish)
		why := NotInTime
		switch {
		case ok && tray.cold:
			continue
		case k.NoFridge && k.ColdBox.There:
			why = OnlyABox
		case k.NoFridge:
			why = NoColdPlace
		case ok && tray.judged && !tray.believed:
			why = FridgeKeepsNothing
		case k.FridgeC > warmestFridge:
			why = FridgeTooWarm
		}
		warnings = append(warnings, Warning{Severity: Notice, Concern: NotCold, Dish: dish.Name(), NotCold: why})
	}
	return warnings
}

// cooks tells a step that cooks a crop.
func cooks(step Step) bool {
	return step.Kind == schedule.Steam || step.Crop != "" && (step.Kind == schedule.BoilIn || step.Kind == schedule.Own)
}

// firstOffHeat is when the first cooked part of a dish leaves the heat; zero
// where none is.
func firstOffHeat(steps []Step, dish int) (first time.Time) {
	for _, step := range steps {
		about := slices.ContainsFunc(step.Parts, func(at PartAt) bool { return at.Dish == dish })
		if cooks(step) && about && (first.IsZero() || step.End().Before(first)) {
			first = step.End()
		}
	}
	return first
}

// lotsOf lists the kitchen's lots with what the plan takes of each, and what is
// left: the two add up to the supply exactly.
func lotsOf(s Solved) (uses []LotUse, left []Leftover) {
	taken := make([]decimal.Decimal, len(s.Lots))
	for d := range s.Problem.Dishes {
		for n := range s.Problem.Dishes[d].Needs {
			for _, take := range takesOf(s, d, n) {
				at := slices.Index(s.Lots, take.Lot)
				taken[at] = taken[at].Add(take.Grams)
			}
		}
	}
	for i, lot := range s.Lots {
		use := LotUse{Lot: lot, Taken: taken[i]}
		uses = append(uses, use)
		if use.Left().IsPositive() {
			left = append(left, Leftover{Lot: lot, Grams: use.Left()})
		}
	}
	return uses, left
}
