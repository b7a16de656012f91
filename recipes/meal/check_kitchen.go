package meal

import (
	"fmt"
	"math"
	"slices"
	"time"

	"trencher/recipes/schedule"
)

// places adds up what is kept busy whenever a step begins.
func (c *check) places() {
	for _, begins := range c.plan.Steps {
		c.busy(begins)
	}
}

// busy makes sure that a step finds hands, ring, steamer and tiers free.
func (c *check) busy(begins Step) {
	hands, held := 0, map[string]string{}
	hold := func(place, by string) {
		if other, taken := held[place]; taken && other != by {
			c.add("", "%s of %v: the %s is taken", begins.Kind, begins.Dishes, place)
		}
		held[place] = by
	}
	for _, step := range c.plan.Steps {
		if step.At.After(begins.At) || !step.End().After(begins.At) {
			continue
		}
		hands += step.Hands
		c.holds(step, hold)
		if most := max(1, c.plan.Kitchen.Stove.Rings); step.Ring > most {
			c.add("", "%s of %v: ring %d burns where %d are there", begins.Kind, begins.Dishes, step.Ring, most)
		}
	}
	if most := max(1, c.plan.Kitchen.Hands); hands > most {
		c.add("", "%s of %v: %d pairs of hands are busy where %d are there", begins.Kind, begins.Dishes, hands, most)
	}
	if tiers := c.tiersAt(begins); tiers > max(1, c.plan.Kitchen.Steamer.Tiers) {
		c.add("", "%s of %v: %d tiers are full", begins.Kind, begins.Dishes, tiers)
	}
}

// holds tells what a step keeps busy, and by whom: a filling keeps its ring and its
// steamer from step to step, and a chain of steps its pot.
func (c *check) holds(step Step, hold func(place, by string)) {
	who := step.Run
	if who == "" {
		who = c.leads(step)
	}
	if step.Ring > 0 {
		hold(fmt.Sprintf("ring %d", step.Ring), who)
	}
	if step.Steamer {
		hold("steamer", who)
	}
	if step.Place != "" {
		hold(step.Place, step.ID)
	}
	if step.Kind == schedule.Steam {
		hold(fmt.Sprintf("tier %d", step.Tier), step.ID)
	}
}

// leads is the step that a chain of steps which follow each other at once begins
// with: they share a pot.
func (c *check) leads(step Step) string {
	for range c.plan.Steps {
		at := slices.IndexFunc(c.plan.Steps, func(s Step) bool { return s.ID == step.AtOnce })
		if at < 0 {
			break
		}
		step = c.plan.Steps[at]
	}
	return step.ID
}

// tiersAt is how many tiers are taken when a step begins.
func (c *check) tiersAt(begins Step) int {
	steaming := map[string]bool{}
	for i := range c.plan.Steps {
		s := &c.plan.Steps[i]
		if s.Kind == schedule.Steam && !s.At.After(begins.At) && s.End().After(begins.At) {
			steaming[s.Run] = true
		}
	}
	tiers := 0
	for _, run := range c.plan.Runs {
		if steaming[run.ID] {
			tiers += len(run.Tiers)
		}
	}
	return tiers
}

// water follows the pan from filling to filling, with no more topped up than is
// told to be at hand.
func (c *check) water() {
	supplies := c.plan.Supplies
	evaporates, pots := c.waterUsed()
	level, spare := supplies.StartML, supplies.WaterML-supplies.StartML-pots
	if len(c.plan.Steps) > 0 && spare < -1e-6 {
		c.add("", "%.0f ml of water are told where more is used", supplies.WaterML)
	}
	seen := map[string]bool{}
	for _, step := range c.plan.Steps {
		switch {
		case step.Kind == schedule.TopUp:
			adds := min(spare, supplies.StartML-level)
			level, spare = level+adds, spare-adds
		case step.Kind == schedule.Steam && !seen[step.Run]:
			seen[step.Run] = true
			if level -= evaporates * c.steamsUntil(step.Run).Sub(step.At).Minutes(); level <= 0 {
				c.add("", "the pan boils dry in %s", step.Run)
			}
		}
	}
}

// waterUsed is how many grams a minute evaporate at the most, and how many ml of
// water the pots take at the least: as much as what boils in them weighs.
func (c *check) waterUsed() (evaporates, pots float64) {
	for _, part := range eachPart(c.plan.Dishes) {
		if part.Steam != nil {
			evaporates = max(evaporates, part.Steam.Load.EvaporatesG)
		}
		if part.Line.IsInWater() && part.IsCooked() {
			covers := part.Prepared.InexactFloat64()
			if part.Pot != nil {
				covers /= float64(max(1, part.Pot.Rounds))
			}
			pots += covers
		}
	}
	return evaporates, pots
}

// steamsUntil is when the last of a filling is done.
func (c *check) steamsUntil(run string) (end time.Time) {
	for _, step := range c.steps(schedule.Steam) {
		if step.Run == run {
			end = later(end, step.End())
		}
	}
	return end
}

// gas adds up every minute that a ring burns, and makes sure that no canister is
// asked for more than it holds.
func (c *check) gas() {
	rate := c.plan.Kitchen.Equipment().GasPerMinute()
	canister := c.plan.Kitchen.Stove.CanisterG
	sum, used, asked := 0.0, 0.0, false
	changes := c.steps(schedule.Canister)
	for _, minute := range c.burning() {
		for _, step := range changes {
			if step.At.Equal(minute.at) {
				used = 0
			}
		}
		sum, used = sum+rate*float64(minute.rings), used+rate*float64(minute.rings)
		asked = asked || canister > 0 && used > canister+1e-6
	}
	if math.Abs(sum-c.plan.Supplies.GasG) > 1e-6*(1+sum) {
		c.add("", "%.1f g of gas are burnt where %.1f g are told", sum, c.plan.Supplies.GasG)
	}
	if canister > 0 && c.plan.Supplies.Canisters < int(math.Ceil(sum/canister-1e-9)) {
		c.add("", "%d canisters are told for %.1f g of gas", c.plan.Supplies.Canisters, sum)
	}
	told := slices.ContainsFunc(c.plan.Warnings, func(w Warning) bool { return w.Concern == CanisterEmpties })
	if asked && !told {
		c.add("", "a canister is asked for more than it holds")
	}
}

// burningMinute is a minute of the plan and how many rings burn in it.
type burningMinute struct {
	at    time.Time
	rings int
}

func (c *check) burning() (minutes []burningMinute) {
	if len(c.plan.Steps) == 0 {
		return nil
	}
	for at := c.plan.Steps[0].At; at.Before(c.plan.ServeAt); at = at.Add(time.Minute) {
		rings := map[int]bool{}
		for _, step := range c.plan.Steps {
			if step.Ring > 0 && step.Kind != schedule.Canister && !step.At.After(at) && step.End().After(at) {
				rings[step.Ring] = true
			}
		}
		minutes = append(minutes, burningMinute{at, len(rings)})
	}
	return minutes
}
