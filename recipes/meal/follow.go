package meal

import (
	"math"
	"slices"
	"time"

	"trencher/harvest"
	"trencher/recipes/schedule"
)

// How long "late" puts the rest off, and after how long a knife is tried again
// (common practice, no source).
const (
	lateBy     = 5 * time.Minute
	knifeAgain = 3 * time.Minute
)

// Cooking is a plan that is being cooked, at a moment.
type Cooking struct {
	Plan Plan // its steps as they are now, with the food clocks and dangers of that
	Now  time.Time
	// Amiss is what was said of steps that the plan has not.
	Amiss []*harvest.Told

	planned time.Time // when it was to be served
	over    map[string]bool
	again   map[string]time.Time // by step: when the knife is tried next, after a "not yet"
}

// Follow is a plan at a moment, after what the cook has said, in that order. The
// rest of the timetable moves as [schedule.Later] does. The same words give the
// same answer. Its error is of keeping, as that of [Keep].
func Follow(plan Plan, told []*harvest.Told, now time.Time) (Cooking, error) {
	c := Cooking{Plan: plan, Now: now, planned: plan.ServeAt, over: map[string]bool{}, again: map[string]time.Time{}}
	c.Plan.Steps = slices.Clone(plan.Steps)
	for _, one := range told {
		c.hear(one)
	}
	return c, c.judge()
}

// hear takes in one thing that the cook said.
func (c *Cooking) hear(one *harvest.Told) {
	if one.What == harvest.ToldFiveLate {
		longer := map[string]time.Duration{}
		for _, step := range c.Plan.Steps {
			if step.Hands > 0 && !c.over[step.ID] && c.began(step, one.At) {
				longer[step.ID] = lateBy
			}
		}
		c.shift(one.At, schedule.Progress{Longer: longer}, lateBy)
		return
	}
	i := slices.IndexFunc(c.Plan.Steps, func(s Step) bool { return s.ID == one.Step })
	if i < 0 {
		c.Amiss = append(c.Amiss, one)
		return
	}
	if c.over[one.Step] {
		return // said twice
	}
	step := &c.Plan.Steps[i]
	if one.What == harvest.ToldNotYet {
		c.again[step.ID] = one.At.Add(knifeAgain)
		if longer := c.again[step.ID].Sub(step.End()); longer > 0 {
			c.shift(one.At, schedule.Progress{Longer: map[string]time.Duration{step.ID: roundUp(longer)}}, 0)
		}
		return
	}
	c.over[step.ID] = true
	if stays(*step) {
		step.Length, step.At = max(0, step.End().Sub(one.At)), one.At
		c.shift(one.At, schedule.Progress{}, 0)
		return
	}
	if one.At.Before(step.At) {
		step.At = one.At
	}
	c.shift(one.At, schedule.Progress{Ended: map[string]time.Time{step.ID: one.At}}, 0)
}

func roundUp(d time.Duration) time.Duration {
	return (d + time.Minute - 1).Truncate(time.Minute)
}

// stays tells a step that is done by putting the food somewhere, where it then
// stays.
func stays(step Step) bool { return step.Kind == schedule.Chill || step.Kind == schedule.ColdBox }

// shift moves what has not begun.
func (c *Cooking) shift(at time.Time, p schedule.Progress, by time.Duration) {
	p.Began = map[string]bool{}
	timed, steps := make([]schedule.Timed, 0, len(c.Plan.Steps)), map[string]Step{}
	for _, step := range c.Plan.Steps {
		p.Began[step.ID] = c.over[step.ID] || c.began(step, at)
		timed, steps[step.ID] = append(timed, step.Timed), step
	}
	k := c.Plan.Kitchen
	moved := schedule.Later(timed, schedule.Have{Hands: k.Hands, Rings: k.Stove.Rings}, p, by)
	for i, one := range moved {
		step := steps[one.ID]
		step.Timed = one
		c.Plan.Steps[i] = step
	}
	for i := range c.Plan.Steps {
		c.stretch(&c.Plan.Steps[i])
	}
	slices.SortStableFunc(c.Plan.Steps, func(a, b Step) int { return a.At.Compare(b.At) })
}

// stretch lets what lies in the cold lie until it is wanted, and what is lifted
// out early lie in the steam until it is done.
func (c *Cooking) stretch(step *Step) {
	for _, other := range c.Plan.Steps {
		switch {
		case stays(*step) && slices.Contains(other.After, step.ID):
			step.Length = max(0, other.At.Sub(step.At))
		case step.Kind == schedule.LiftOut && !c.over[step.ID] && holds(other, *step) && other.End().After(step.At):
			step.At = other.End()
		}
	}
}

// holds tells the steaming of what another step takes out.
func holds(steam, out Step) bool {
	return steam.Kind == schedule.Steam && steam.Run == out.Run &&
		slices.ContainsFunc(steam.Parts, func(at PartAt) bool { return slices.Contains(out.Parts, at) })
}

// began tells that a step is under way at a moment: its time has come, and
// nothing it waits for is still to do.
func (c *Cooking) began(step Step, at time.Time) bool {
	if step.At.After(at) {
		return false
	}
	return !slices.ContainsFunc(c.Plan.Steps, func(other Step) bool {
		waits := slices.Contains(step.After, other.ID) || step.AtOnce == other.ID ||
			(step.Kind == schedule.Unload || step.Kind == schedule.LiftOut) && holds(other, step)
		return waits && !c.isOver(other, at)
	})
}

// isOver tells that a step needs no more attention: somebody said so, or it ends
// by itself.
func (c *Cooking) isOver(step Step, at time.Time) bool {
	if c.over[step.ID] {
		return true
	}
	switch step.Kind {
	case schedule.Boil, schedule.Cool:
		return !step.End().After(at)
	case schedule.Test:
		return true // the knife is asked of the steaming itself
	}
	return false
}

// judge has the food clocks of the steps as they are now.
func (c *Cooking) judge() error {
	p := &c.Plan
	if serve := slices.IndexFunc(p.Steps, func(s Step) bool { return s.Kind == schedule.Serve }); serve >= 0 {
		p.ServeAt = p.Steps[serve].End()
	}
	p.Clocks = slices.Clone(p.Clocks)
	p.Warnings = slices.DeleteFunc(slices.Clone(p.Warnings), func(w Warning) bool { return w.Concern == ClockBroken })
	for i, before := range p.Clocks {
		d := slices.IndexFunc(p.Dishes, func(dish Dish) bool { return dish.Name() == before.Dish })
		history := planned(p.Dishes[d], p.Steps, p.Kitchen.ColdBox)
		history.History.Vulnerable = before.History.Vulnerable
		facts := Question{Kitchen: p.Kitchen, AirC: p.AirC}.facts(c.tableAt(before.Dish))
		clock, err := clockOf(facts, history)
		if err != nil {
			return err
		}
		p.Clocks[i] = clock
		if !clock.Holds {
			p.Warnings = append(p.Warnings, Warning{Severity: Danger, Concern: ClockBroken, Dish: clock.Dish, Rule: clock.Rule, Clock: clock})
		}
	}
	sortWarnings(p.Warnings)
	return nil
}

// tableAt is when a dish is on the table: with the others, or once all of it is
// done where the cook served before.
func (c *Cooking) tableAt(dish string) time.Time {
	at := c.Plan.ServeAt
	for _, step := range c.Plan.Steps {
		if slices.Contains(step.Dishes, dish) && step.End().After(at) {
			at = step.End()
		}
	}
	return at
}

// ToDo are the steps for hands whose time has come, what waits longest first.
func (c Cooking) ToDo() []Step {
	return c.those(func(s Step) bool { return (s.Hands > 0 || stays(s)) && c.began(s, c.Now) })
}

// UnderWay are the steps that go on by themselves: on the heat, cooling.
func (c Cooking) UnderWay() []Step {
	return c.those(func(s Step) bool { return s.Hands == 0 && !stays(s) && c.began(s, c.Now) })
}

// Coming are the steps whose time has not come, or that wait for others.
func (c Cooking) Coming() []Step {
	return c.those(func(s Step) bool { return !c.began(s, c.Now) })
}

func (c Cooking) those(which func(Step) bool) (steps []Step) {
	for _, step := range c.Plan.Steps {
		if !c.isOver(step, c.Now) && which(step) {
			steps = append(steps, step)
		}
	}
	return steps
}

// IsOver tells that all is on the table.
func (c Cooking) IsOver() bool { return len(c.those(func(Step) bool { return true })) == 0 }

// KnifeAt is when a knife is tried next in what a step steams; zero where it
// steams nothing that has a time.
func (c Cooking) KnifeAt(step Step) (at time.Time) {
	if again, said := c.again[step.ID]; said {
		return again
	}
	return c.Plan.KnifeAt(step)
}

// KnifeAt is when a knife is first tried in what a step steams: at the whole
// minute by which the soonest of it may be done, the first at the earliest. Zero
// where it steams nothing that has a time.
func (p Plan) KnifeAt(step Step) time.Time {
	least := math.Inf(1)
	for _, at := range step.Parts {
		if steam := p.Dishes[at.Dish].Parts[at.Part].Steam; steam != nil && step.Kind == schedule.Steam {
			least = min(least, steam.Estimate.ComeUp+steam.Low)
		}
	}
	if math.IsInf(least, 1) {
		return time.Time{}
	}
	return step.At.Add(time.Duration(max(1, math.Floor(least+slip))) * time.Minute)
}

// slip is what a sum of floating point may be off by, in minutes.
const slip = 1e-6

// Next is when something changes by the clock alone: the next step's time, a
// knife's, the end of what goes on by itself; zero where nothing does any more.
func (c Cooking) Next() (next time.Time) {
	sooner := func(at time.Time) {
		if at.After(c.Now) && (next.IsZero() || at.Before(next)) {
			next = at
		}
	}
	for _, step := range c.UnderWay() {
		sooner(c.KnifeAt(step))
		sooner(step.End())
	}
	for _, step := range c.Coming() {
		sooner(step.At)
	}
	return next
}

// Lateness is by how much serving is later than it was planned; below nothing
// where it is sooner.
func (c Cooking) Lateness() time.Duration { return c.Plan.ServeAt.Sub(c.planned) }

// Tier is what lies in one tier of the steamer, and until when.
type Tier struct {
	Number int // from 1, the lowest
	Steams []Step
}

// Tiers are what is in the steamer now, the highest tier first; none where it is
// empty.
func (c Cooking) Tiers() (tiers []Tier) {
	for _, step := range c.UnderWay() {
		if step.Kind != schedule.Steam {
			continue
		}
		at := slices.IndexFunc(tiers, func(t Tier) bool { return t.Number == step.Tier })
		if at < 0 {
			tiers, at = append(tiers, Tier{Number: step.Tier}), len(tiers)
		}
		tiers[at].Steams = append(tiers[at].Steams, step)
	}
	slices.SortFunc(tiers, func(a, b Tier) int { return b.Number - a.Number })
	return tiers
}

// IsCooking tells a step that has food on the heat, which only the cook can say
// is done.
func (s Step) IsCooking() bool { return cooks(s) }
