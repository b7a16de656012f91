package meal

import (
	"fmt"
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"trencher/recipes"
	"trencher/recipes/schedule"
)

// Finding is something in a plan that cannot be true. It is a fault of ours, or
// of whoever changed the plan.
type Finding struct {
	Dish string // "" where it is about all
	Says string
}

// Check replays a plan as somebody would who trusts nobody that made it: every
// gram is in one place, every step waits for what it rests on and keeps nothing
// busy twice, nothing waits in an occupied place, what is cooked is cooked before
// it is dressed, water never boils dry, gas and water add up, what is called
// cold is chilled as long as it takes, every food clock counts from the oldest
// part and is what keeping says of that history, neither one that breaks nor
// hot food that waits is without a warning, and nobody's plate has what they must
// not have. It returns nil where all is well.
func Check(plan Plan) []Finding {
	c := &check{plan: plan}
	c.grams()
	c.order()
	c.cooking()
	c.steaming()
	c.boiling()
	c.places()
	c.water()
	c.gas()
	c.cold()
	c.clocks()
	c.plates()
	return c.found
}

// check is a plan being replayed.
type check struct {
	plan  Plan
	found []Finding
}

func (c *check) add(dish, format string, values ...any) {
	c.found = append(c.found, Finding{Dish: dish, Says: fmt.Sprintf(format, values...)})
}

// grams adds up what the dishes take of every lot.
func (c *check) grams() {
	taken := map[string]decimal.Decimal{}
	for at, part := range eachPart(c.plan.Dishes) {
		if part.From == nil {
			continue // one dish alone is not taken from lots
		}
		name := c.plan.Dishes[at.Dish].Name()
		for _, take := range part.From {
			taken[take.Lot.ID] = taken[take.Lot.ID].Add(take.Grams)
			if !take.Grams.IsPositive() {
				c.add(name, "takes %s g of %s", take.Grams, take.Lot.Name)
			}
		}
		if sum := sumOf(part.From); !sum.Equal(part.Lifted) {
			c.add(name, "takes %s g of %s where it lifts %s g", sum, part.Line.Crop, part.Lifted)
		}
	}
	left := map[string]decimal.Decimal{}
	for _, rest := range c.plan.Left {
		left[rest.ID] = rest.Grams
	}
	for _, lot := range c.plan.Lots {
		c.lot(lot, taken[lot.ID], left[lot.ID])
	}
}

// lot compares what a lot is told to give with what the dishes take and what is left.
func (c *check) lot(lot LotUse, taken, left decimal.Decimal) {
	switch {
	case !taken.Equal(lot.Taken):
		c.add("", "%s g of %s are taken where %s g are told", taken, lot.Name, lot.Taken)
	case !lot.Taken.Add(left).Equal(lot.Supply):
		c.add("", "%s: %s g taken and %s g left are not its %s g", lot.Name, lot.Taken, left, lot.Supply)
	case left.IsNegative():
		c.add("", "%s gives more than it has", lot.Name)
	}
}

// order follows the steps: each waits for what it rests on, ends by serving, and
// keeps no hands and no ring busy that are busy already.
func (c *check) order() {
	byID := map[string]Step{}
	for _, step := range c.plan.Steps {
		byID[step.ID] = step
	}
	for i, step := range c.plan.Steps {
		if step.End().After(c.plan.ServeAt) {
			c.add("", "%s of %v ends after serving", step.Kind, step.Dishes)
		}
		if i > 0 && step.At.Before(c.plan.Steps[i-1].At) {
			c.add("", "%s of %v is told after a later step", step.Kind, step.Dishes)
		}
		c.ties(step, byID)
	}
	c.follows()
	c.waits()
	serves := c.steps(schedule.Serve)
	if len(c.plan.Steps) > 0 && (len(serves) != 1 || !serves[0].End().Equal(c.plan.ServeAt)) {
		c.add("", "serving does not end at the serving time")
	}
}

// ties makes sure that a step keeps to the steps it rests on.
func (c *check) ties(step Step, byID map[string]Step) {
	for _, id := range step.After {
		before, ok := byID[id]
		if !ok || before.End().After(step.At) {
			c.add("", "%s of %v begins before what it waits for has ended", step.Kind, step.Dishes)
		}
	}
	if at, tied := byID[step.AtOnce]; tied && !at.End().Equal(step.At) {
		c.add("", "%s of %v does not follow at once", step.Kind, step.Dishes)
	}
	if at, tied := byID[step.Beside]; tied && !at.At.Add(step.Offset).Equal(step.At) {
		c.add("", "%s of %v is not at its minute", step.Kind, step.Dishes)
	}
}

// steps lists those of some kinds.
func (c *check) steps(kinds ...schedule.Kind) (found []Step) {
	for i := range c.plan.Steps {
		if slices.Contains(kinds, c.plan.Steps[i].Kind) {
			found = append(found, c.plan.Steps[i])
		}
	}
	return found
}

// follows makes sure that nothing waits in an occupied place: what steams is taken
// out, what is spread cools and what cools is chilled at once; and that every
// filling has its boil.
func (c *check) follows() {
	for _, step := range c.plan.Steps {
		next, must := c.next(step)
		if must && !slices.ContainsFunc(c.plan.Steps, func(s Step) bool { return s.Kind == next && s.AtOnce == step.ID && s.At.Equal(step.End()) }) {
			c.add("", "%s of %v is not followed at once", step.Kind, step.Dishes)
		}
		if step.Kind == schedule.Steam && !c.isTakenOut(step) {
			c.add("", "what steams for %v stays in the steamer", step.Dishes)
		}
	}
	for _, run := range c.plan.Runs {
		boils := slices.ContainsFunc(c.plan.Steps, func(s Step) bool { return s.Kind == schedule.Boil && s.Run == run.ID })
		if len(c.plan.Steps) > 0 && !boils {
			c.add("", "no water boils for %s", run.ID)
		}
	}
}

// next is what has to follow a step at once; must is false where nothing has to.
func (c *check) next(step Step) (next schedule.Kind, must bool) {
	switch {
	case step.Kind == schedule.Spread:
		return schedule.Cool, true
	case step.Kind == schedule.Cool && !c.isToldNotCold(step.Dishes):
		return schedule.Chill, true
	}
	return next, false
}

// waits makes sure that what should be hot or warm on the table is, or is told not
// to be.
func (c *check) waits() {
	for d, dish := range c.plan.Dishes {
		most := map[recipes.Served]time.Duration{recipes.Hot: hotWait, recipes.Warm: warmWait}[dish.Recipe.Served]
		left := c.oldest(d)
		told := slices.ContainsFunc(c.plan.Warnings, func(w Warning) bool { return w.Concern == Waits && w.Dish == dish.Name() })
		if most > 0 && !left.IsZero() && !told && c.plan.ServeAt.Sub(left) > most {
			c.add(dish.Name(), "it waits too long off the heat, untold")
		}
	}
}

// isToldNotCold tells that the plan says of one of the dishes that it is not cold.
func (c *check) isToldNotCold(dishes []string) bool {
	return slices.ContainsFunc(dishes, c.plan.IsNotCold)
}

// isTakenOut tells that a class is lifted out or taken out when it is done.
func (c *check) isTakenOut(steam Step) bool {
	return slices.ContainsFunc(c.plan.Steps, func(s Step) bool {
		return (s.Kind == schedule.Unload || s.Kind == schedule.LiftOut) && s.Run == steam.Run && s.At.Equal(steam.End())
	})
}

// cooking makes sure that every part is prepared, then cooked in each of its
// fillings, and only then dressed or finished.
func (c *check) cooking() {
	if c.plan.ServeAt.IsZero() {
		return
	}
	for at, part := range eachPart(c.plan.Dishes) {
		dish := c.plan.Dishes[at.Dish]
		prepared := c.about(at, schedule.Scrub, schedule.Peel)
		if len(prepared) == 0 {
			c.add(dish.Name(), "nobody prepares the %s", part.Line.Crop)
			continue
		}
		ready := c.readyAt(dish)
		if part.IsCookedOwn() {
			c.cookedOwn(at, prepared[0], ready)
		}
		if part.Pot != nil {
			c.cookedInPot(at, prepared[0], ready)
		}
		if part.Steam != nil {
			c.steamed(at, prepared[0], ready)
		}
	}
}

// steamed makes sure that a part steams in each of its fillings for as long as it
// takes, once it is prepared and before the dish is finished.
func (c *check) steamed(at PartAt, prepared Step, ready time.Time) {
	name, part := c.plan.Dishes[at.Dish].Name(), c.plan.Dishes[at.Dish].Parts[at.Part]
	steamed := c.about(at, schedule.Steam)
	if len(steamed) != len(part.Steam.Runs) {
		c.add(name, "the %s is steamed %d times, not %d", part.Line.Crop, len(steamed), len(part.Steam.Runs))
	}
	for _, steam := range steamed {
		if steam.At.Before(prepared.End()) {
			c.add(name, "the %s is steamed before it is prepared", part.Line.Crop)
		}
		if ready.Before(steam.End()) {
			c.add(name, "it is finished before the %s is done", part.Line.Crop)
		}
		if steam.Length < time.Duration(part.Steam.Longest()*float64(time.Minute)) {
			c.add(name, "the %s leaves the steamer too early", part.Line.Crop)
		}
	}
}

// steaming makes sure that water boils before anything steams in it, and that
// parts which share a filling find room in its tiers.
func (c *check) steaming() {
	for _, step := range c.plan.Steps {
		if step.Kind == schedule.Steam && !c.boilsBefore(step) {
			c.add("", "%v steam before the water boils", step.Dishes)
		}
	}
	for _, run := range c.plan.Runs {
		if layers, tiers := len(run.Tiers), c.plan.Kitchen.Steamer.Tiers; layers > tiers {
			c.add("", "%d layers share %d tiers", layers, tiers)
		}
	}
}

func (c *check) boilsBefore(steam Step) bool {
	return slices.ContainsFunc(c.plan.Steps, func(s Step) bool { return s.Kind == schedule.Boil && !s.End().After(steam.At) })
}

// readyAt is when the last step of a dish begins.
func (c *check) readyAt(dish Dish) (at time.Time) {
	for _, step := range c.plan.Steps {
		if slices.Contains(step.Dishes, dish.Name()) && (step.Kind == schedule.Dress || step.Kind == schedule.Finish) {
			at = step.At
		}
	}
	return at
}

// about lists the steps of some kinds that are about a part.
func (c *check) about(at PartAt, kinds ...schedule.Kind) []Step {
	var steps []Step
	for _, step := range c.plan.Steps {
		if slices.Contains(kinds, step.Kind) && slices.Contains(step.Parts, at) {
			steps = append(steps, step)
		}
	}
	return steps
}
