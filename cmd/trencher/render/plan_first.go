package render

import (
	"fmt"
	"strings"

	"trencher/cmd/trencher/ask"
	"trencher/recipes/meal"
)

// firstScreen is how many lines of a terminal are seen at once.
const firstScreen = 25

// crowding is what gives way on the first screen, so that every dish, every danger,
// the times and what to have at hand stand on it.
type crowding uint8

// From roomy on, each gives way more than the one before.
const (
	roomy      crowding = iota // nothing does
	notesLater                 // warnings that are no dangers, and what is not made, come after
	mendsLater                 // and what would mend a danger
	running                    // and dangers and dishes stand one behind the other
)

// planFirst is the first screen: the day, every danger, the times, what needs
// attention, the portions, what to have at hand; then what is left of all that.
func planFirst(p *page, a ask.MealAnswer) {
	for c := roomy; ; c++ {
		screen := &page{}
		if essentials(screen, a, c); len(screen.lines) > firstScreen && c < running {
			continue
		}
		p.lines = append(p.lines, screen.lines...)
		afterwards(p, a.Plan, c)
		return
	}
}

// essentials are what has to stand on the first screen and, where there is room,
// what is told with it.
func essentials(p *page, a ask.MealAnswer, c crowding) {
	plan := a.Plan
	p.wrapped("", joinNonEmpty(", ", longDate(plan.On), plan.Plot)+".")
	planDangers(p, plan, c)
	if len(plan.Steps) > 0 {
		p.wrapped("", fmt.Sprintf("Start %s, on the table %s: %s%s.", clockOn(plan.Steps[0].At, plan.On), clockOn(plan.ServeAt, plan.On),
			minutes(plan.Allow.Minutes()), tookWords(plan)))
	}
	if c == roomy {
		planWarnings(p, plan)
	}
	p.line(portionsLine(plan, planID(a.Record)))
	planServings(p, plan, c)
	if c == roomy {
		planLeftOut(p, plan)
	}
	if hand := atHandWords(plan); hand != "" {
		p.wrapped("Have: ", hand)
	}
}

// afterwards are what the first screen had no room for, and what is told last of the
// first things.
func afterwards(p *page, plan meal.Plan, c crowding) {
	if c > roomy {
		planWarnings(p, plan)
	}
	if c >= mendsLater {
		for _, w := range dangersIn(plan) {
			if mend := mendWords(w, plan); mend != "" {
				p.wrapped("! ", w.Dish+": "+mend)
			}
		}
	}
	if c > roomy {
		planLeftOut(p, plan)
	}
	if says := timingWords(plan); says != "" {
		p.wrapped("", says)
	}
	for _, aside := range plan.SetAside {
		p.wrapped("Set aside: ", fmt.Sprintf("%s of %s (%s). %s", grams(aside.Weight), aside.Crop, aside.Name, capital(asideWords(aside))))
	}
	for _, bound := range worthTelling(plan) {
		p.wrapped("", capital(boundWords(bound, plan))+".")
	}
}

// dangersIn are what could harm somebody.
func dangersIn(plan meal.Plan) []meal.Warning {
	var dangers []meal.Warning
	for _, w := range plan.Warnings {
		if w.Severity == meal.Danger {
			dangers = append(dangers, w)
		}
	}
	return dangers
}

// planDangers tells what could harm somebody, each with what mends it where there is
// room.
func planDangers(p *page, plan meal.Plan, c crowding) {
	var all []string
	for _, w := range dangersIn(plan) {
		says := sentence(warningWords(w, plan))
		if c < mendsLater {
			says = joinNonEmpty(" ", says, mendWords(w, plan))
		}
		all = append(all, says)
	}
	if c == running && len(all) > 0 {
		all = []string{strings.Join(all, " ")}
	}
	for _, says := range all {
		p.wrapped("DANGER ", says)
	}
}

// planWarnings tells what else needs attention.
func planWarnings(p *page, plan meal.Plan) {
	for _, w := range plan.Warnings {
		if w.Severity != meal.Danger {
			p.wrapped("! ", joinNonEmpty(" ", sentence(warningWords(w, plan)), mendWords(w, plan)))
		}
	}
}

// planServings tells the dishes with their portions.
func planServings(p *page, plan meal.Plan, c crowding) {
	if c == running {
		var all []string
		for _, dish := range plan.Dishes {
			all = append(all, fmt.Sprintf("%d %s (%s)", dish.Portions, shortened(dish.Name()), servedWord(plan, dish)))
		}
		p.wrapped("   ", strings.Join(all, "; ")+joinNonEmpty("", "; ", servedAt(plan))+".")
		return
	}
	width := 0
	for _, dish := range plan.Dishes {
		width = max(width, len([]rune(dish.Name())))
	}
	for _, dish := range plan.Dishes {
		p.line(fmt.Sprintf("%4d  %s  %s", dish.Portions, pad(dish.Name(), width), joinNonEmpty(", ", servedWord(plan, dish), servedAt(plan))))
	}
}

func planLeftOut(p *page, plan meal.Plan) {
	for _, out := range leftOutRows(plan.LeftOut) {
		p.wrapped("   -  ", out.Dish+": "+out.Because)
	}
}
