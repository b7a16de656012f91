package render

import (
	"fmt"
	"time"

	"trencher/recipes/meal"
	"trencher/recipes/schedule"
)

// CookView is a plan that is being cooked, in words: what to do now, what is on
// the heat, what comes next.
type CookView struct {
	Plan            string
	Moment          int64 // the moment it is of, in milliseconds of Unix time
	Again           int   // seconds after which it is to be looked at again
	Serve, Late     string
	Dangers         []string
	Do, Heat, Alone []CookStep
	Next            *CookStep
	Then            []CookStep
	Tiers           []TierView
	Over            bool
	Ended           string
}

// CookStep is one step, and the moment that it is about.
type CookStep struct {
	ID, Says, For string
	What, At, In  string // what the moment is, when, and how long until then
	Moment        string // for programs
	Until         int64  // the moment, in milliseconds of Unix time; 0 = none
	Heat          bool   // food on the heat: the knife says when it is done
}

// TierView is what lies in one tier of the steamer.
type TierView struct {
	Name  string
	Holds []string
}

// The soonest and the latest that a cooking screen is looked at again.
const (
	soonestAgain = 15 * time.Second
	latestAgain  = time.Minute
)

// Cook lays a plan that is being cooked out in words. Times are the plan's own.
func Cook(c meal.Cooking, id string) CookView {
	p := c.Plan
	view := CookView{Plan: id, Moment: c.Now.UnixMilli(), Again: int(againIn(c).Seconds()), Serve: clockOn(p.ServeAt, p.On), Over: c.IsOver()}
	switch late := c.Lateness().Round(time.Minute); {
	case late > 0:
		view.Late = minutes(late.Minutes()) + " later than planned"
	case late < 0:
		view.Late = minutes(-late.Minutes()) + " sooner than planned"
	}
	for _, w := range p.Warnings {
		if w.Severity == meal.Danger {
			view.Dangers = append(view.Dangers, joinNonEmpty(" ", sentence(warningWords(w, p)), mendWords(w, p)))
		}
	}
	for _, step := range c.ToDo() {
		view.Do = append(view.Do, cookStep(c, step, "since", step.At))
	}
	for _, step := range c.UnderWay() {
		if step.IsCooking() {
			view.Heat = append(view.Heat, onHeat(c, step))
		} else {
			view.Alone = append(view.Alone, cookStep(c, step, "until", step.End()))
		}
	}
	for i, step := range c.Coming() {
		one := cookStep(c, step, "at", step.At)
		if i == 0 {
			view.Next = &one
		} else {
			view.Then = append(view.Then, one)
		}
	}
	for _, tier := range c.Tiers() {
		view.Tiers = append(view.Tiers, tierView(c, tier))
	}
	return view
}

// onHeat is food on the heat, with when the knife is tried.
func onHeat(c meal.Cooking, step meal.Step) CookStep {
	what, at := "done at about", step.End()
	if knife := c.KnifeAt(step); !knife.IsZero() {
		what, at = "knife at", knife
	}
	one := cookStep(c, step, what, at)
	one.Heat = true
	return one
}

// againIn is how long a screen stays true.
func againIn(c meal.Cooking) time.Duration {
	next := c.Next()
	if next.IsZero() {
		return latestAgain
	}
	return min(latestAgain, max(soonestAgain, next.Sub(c.Now)))
}

func cookStep(c meal.Cooking, step meal.Step, what string, at time.Time) CookStep {
	at = at.In(c.Plan.On.Location())
	one := CookStep{ID: step.ID, Says: stepWords(c.Plan, step), What: what, At: clockOn(at, c.Plan.On), In: inWords(at.Sub(c.Now)),
		Moment: at.Format(time.RFC3339), Until: at.UnixMilli()}
	if step.Kind == schedule.Steam {
		one.Says = "Steam " + step.Crop + " for " + listed(step.Dishes)
	}
	return one
}

// inWords is how long until a moment.
func inWords(d time.Duration) string {
	if d <= 0 {
		return "now"
	}
	return "in " + minutes(max(1, d.Round(time.Minute).Minutes()))
}

func tierView(c meal.Cooking, tier meal.Tier) TierView {
	view := TierView{Name: fmt.Sprintf("Tier %d", tier.Number)}
	if tier.Number == 1 {
		view.Name += ", the lowest"
	}
	for _, step := range tier.Steams {
		view.Holds = append(view.Holds, fmt.Sprintf("%s for %s, till about %s", step.Crop, listed(step.Dishes), clockOn(step.End(), c.Plan.On)))
	}
	return view
}

// HeardWords tell what was written down of something a cook said.
func HeardWords(h meal.Heard) string {
	says := capital(tellingWords[h.Told.What]) + "."
	for _, event := range h.Events {
		says += " " + capital(event.Name) + " " + batchVerbs[event.Event] + "."
	}
	if h.Knife != nil {
		says += " " + capital(entryWhat(h.Knife)) + "."
	}
	return says
}
