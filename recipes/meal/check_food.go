package meal

import (
	"slices"
	"time"

	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
	"trencher/recipes/schedule"
)

// cookedOwn makes sure that a part which is not steamed is cooked for its
// minutes, once it is prepared and before the dish is finished.
func (c *check) cookedOwn(at PartAt, prepared Step, ready time.Time) {
	part := c.plan.Dishes[at.Dish].Parts[at.Part]
	name := c.plan.Dishes[at.Dish].Name()
	cooked := c.about(at, schedule.BoilIn, schedule.Own)
	if len(cooked) != 1 {
		c.add(name, "the %s is cooked %d times", part.Line.Crop, len(cooked))
		return
	}
	switch step := cooked[0]; {
	case step.At.Before(prepared.End()):
		c.add(name, "the %s is cooked before it is prepared", part.Line.Crop)
	case step.End().After(ready):
		c.add(name, "it is finished before the %s is done", part.Line.Crop)
	case step.Length != time.Duration(part.Line.Minutes)*time.Minute:
		c.add(name, "the %s does not cook for its %d min", part.Line.Crop, part.Line.Minutes)
	}
}

// cookedInPot makes sure that each filling of the pot boils as long as heat says and
// as a crop that steam does not make safe has to, once it is prepared and before the
// dish is finished.
func (c *check) cookedInPot(at PartAt, prepared Step, ready time.Time) {
	part := c.plan.Dishes[at.Dish].Parts[at.Part]
	name := c.plan.Dishes[at.Dish].Name()
	cooked := c.about(at, schedule.BoilIn)
	if len(cooked) != part.Pot.Rounds {
		c.add(name, "the %s is boiled %d times, not %d", part.Line.Crop, len(cooked), part.Pot.Rounds)
	}
	for _, step := range cooked {
		switch {
		case step.At.Before(prepared.End()):
			c.add(name, "the %s is cooked before it is prepared", part.Line.Crop)
		case step.End().After(ready):
			c.add(name, "it is finished before the %s is done", part.Line.Crop)
		case step.Length.Minutes() < part.Pot.Longest()-1e-6 || step.Length < part.Pot.AtLeast:
			c.add(name, "the %s leaves the pot too early", part.Line.Crop)
		}
	}
}

// boiling makes sure that water boils when food goes into it.
func (c *check) boiling() {
	for _, step := range c.steps(schedule.BoilIn) {
		boils := slices.ContainsFunc(c.plan.Steps, func(s Step) bool { return s.ID == step.AtOnce && c.leavesItBoiling(s, step) })
		if !boils {
			c.add("", "what boils for %v goes into water that does not", step.Dishes)
		}
	}
}

// leavesItBoiling tells that water boils when a step ends: it was brought to the
// boil, or the filling before was just lifted out of it.
func (c *check) leavesItBoiling(before, next Step) bool {
	switch before.Kind {
	case schedule.Boil:
		return before.Length > 0 && before.Ring == next.Ring
	case schedule.LiftOut:
		return slices.ContainsFunc(c.steps(schedule.BoilIn), func(s Step) bool { return s.ID == before.AtOnce && s.Ring == next.Ring })
	}
	return false
}

// cold makes sure that nothing cooked comes to the table as cold that was not
// chilled for as long as its largest piece takes, and that only what is cold
// goes into the cold box.
func (c *check) cold() {
	if len(c.plan.Steps) == 0 {
		return
	}
	chilled := map[int]bool{}
	for at, part := range eachPart(c.plan.Dishes) {
		dish := c.plan.Dishes[at.Dish]
		if !part.IsCooked() || dish.Recipe.Served != recipes.Cold {
			continue
		}
		chills := c.about(at, schedule.Chill)
		chilled[at.Dish] = chilled[at.Dish] || len(chills) > 0
		told := c.isToldNotCold([]string{dish.Name()})
		if !told && !c.isColdEnough(part, chills) && !c.isIced(at, chills) {
			c.add(dish.Name(), "the %s is called cold and is not", part.Line.Crop)
		}
	}
	for d, dish := range c.plan.Dishes {
		boxed := slices.ContainsFunc(c.steps(schedule.ColdBox), func(s Step) bool { return slices.Contains(s.Dishes, dish.Name()) })
		if boxed && (!chilled[d] || c.plan.Kitchen.ColdBox.HoldsC > coldC) {
			c.add(dish.Name(), "it goes into the cold box warm")
		}
	}
	c.ice()
}

// isIced asks heat how long a part that is blanched lies in ice water before it goes
// into the fridge.
func (c *check) isIced(at PartAt, chills []Step) bool {
	part := c.plan.Dishes[at.Dish].Parts[at.Part]
	if part.Pot == nil || part.Pot.Blanched == nil || len(chills) == 0 {
		return false
	}
	ice, err := heat.ChillIn(part.Piece.Crop, part.Piece.Sized, heat.Spread{}, heat.ColdPlace{In: heat.IceWater})
	if err != nil {
		return false
	}
	takes, ok := ice.MinutesTo(straightFromThePot, coldC)
	return ok && c.plan.Supplies.IceG > 0 && slices.ContainsFunc(c.about(at, schedule.Cool), func(s Step) bool { return s.Length.Minutes() >= takes-1e-6 })
}

// ice makes sure that the cold box's ice can take up at least what leaks into the
// best of boxes, 0.3 W/K, until serving.
func (c *check) ice() {
	box := c.plan.Kitchen.ColdBox
	if len(c.steps(schedule.ColdBox)) == 0 {
		return
	}
	leaks := 0.3 * max(0, c.plan.AirC-box.HoldsC) * c.plan.ServeAt.Sub(c.plan.Steps[0].At).Seconds()
	if box.IceG/1e3*(334000+4186*max(0, box.HoldsC)) < leaks {
		c.add("", "the ice in the cold box melts before serving")
	}
}

// isColdEnough asks heat how long a part chills.
func (c *check) isColdEnough(part Part, chills []Step) bool {
	if len(chills) == 0 {
		return false
	}
	crop, piece, err := part.whatCools()
	if err != nil {
		return false
	}
	takes, err := heat.Cool(crop, piece, heat.Spread{FridgeC: max(c.plan.Kitchen.FridgeC, coldestFridge)}, min(hottestRoom, max(c.plan.Kitchen.RoomC, c.plan.AirC)))
	for _, chill := range chills {
		if err != nil || chill.Length.Minutes() < takes.ChilledLatest-1e-6 {
			return false
		}
	}
	return true
}

// clocks has every planned history judged anew.
func (c *check) clocks() {
	authority := keeping.Authority(c.plan.Kitchen.Authority)
	for d, dish := range c.plan.Dishes {
		oldest := c.oldest(d)
		at := slices.IndexFunc(c.plan.Clocks, func(k Clock) bool { return k.Dish == dish.Name() })
		switch {
		case oldest.IsZero() && at < 0:
			continue
		case at < 0 || oldest.IsZero():
			c.add(dish.Name(), "what is cooked and what is on the clock differ")
			continue
		}
		clock := c.plan.Clocks[at]
		if !clock.History.CookedAt.Equal(oldest) {
			c.add(dish.Name(), "its clock does not count from its oldest part")
		}
		c.history(d, clock)
		verdict, err := keeping.Judge(clock.History, authority, c.plan.ServeAt)
		if err != nil || clock.Holds == (verdict.Kind == keeping.Discard) {
			c.add(dish.Name(), "its clock and keeping's verdict differ")
		}
		if !clock.Holds && !c.isWarned(dish.Name()) {
			c.add(dish.Name(), "its clock breaks without a warning")
		}
	}
}

// oldest is when the first part of a dish comes off the heat; zero when none is
// cooked by the timetable.
func (c *check) oldest(d int) (oldest time.Time) {
	for p := range c.plan.Dishes[d].Parts {
		for _, step := range c.about(PartAt{d, p}, schedule.Steam, schedule.BoilIn, schedule.Own) {
			if oldest.IsZero() || step.End().Before(oldest) {
				oldest = step.End()
			}
		}
	}
	return oldest
}

func (c *check) isWarned(dish string) bool {
	return slices.ContainsFunc(c.plan.Warnings, func(w Warning) bool {
		return w.Severity == Danger && w.Concern == ClockBroken && w.Dish == dish && w.Apart.Dish == ""
	})
}

// history compares the history that was judged with the steps: chilled when the
// last of it goes into the fridge, out of it from when it is dressed, but for the
// time in the cold box.
func (c *check) history(d int, clock Clock) {
	chilled := c.last(clock.Dish, schedule.Chill)
	var dressed time.Time
	if c.plan.Dishes[d].Recipe.Served == recipes.Cold {
		dressed = c.last(clock.Dish, schedule.Dress)
	}
	if !clock.History.ChilledAt.Equal(chilled) || !clock.DressedAt.Equal(dressed) {
		c.add(clock.Dish, "its clock and its steps differ on when it was chilled and dressed")
	}
	if chilled.IsZero() {
		return
	}
	out := clock.History.Out
	if len(out) == 0 || !out[0].From.Equal(dressed) || !out[len(out)-1].To.IsZero() {
		c.add(clock.Dish, "its clock does not run from when it leaves the fridge")
	}
	for _, spell := range out {
		cooled := spell.Air.Known && spell.Air.C < c.plan.AirC
		boxed := slices.ContainsFunc(c.steps(schedule.ColdBox), func(s Step) bool {
			return slices.Contains(s.Dishes, clock.Dish) && s.At.Equal(spell.From) && s.End().Equal(spell.To)
		})
		if cooled && !boxed {
			c.add(clock.Dish, "its clock has it colder than it stands")
		}
	}
}

// last is when the last step of a kind begins that is about a dish; zero where none
// is.
func (c *check) last(dish string, kind schedule.Kind) (at time.Time) {
	for _, step := range c.steps(kind) {
		if slices.Contains(step.Dishes, dish) {
			at = step.At
		}
	}
	return at
}
