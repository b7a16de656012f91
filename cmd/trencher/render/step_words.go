package render

import (
	"fmt"
	"slices"
	"strings"

	"trencher/recipes"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
)

// stepWords says what to do in a step of the timetable.
func stepWords(p meal.Plan, step meal.Step) string {
	dish := listed(step.Dishes)
	switch step.Kind {
	case schedule.Pick:
		return "Pick and wash " + listed(pickItems(p))
	case schedule.Boil:
		if step.Run == "" {
			return "Bring the steamer to the boil"
		}
		return "Bring the steamer back to the boil; see that there is water enough"
	case schedule.Scrub, schedule.Peel:
		return prepareWords(p, step)
	case schedule.Steam:
		return steamStepWords(p, step)
	case schedule.Cool:
		return "Spread " + dish + " out in one layer on a tray to cool"
	case schedule.Chill:
		return "Put " + dish + " into the fridge, shallow and covered"
	case schedule.Dress:
		if dishOfStep(p, step).Recipe.Served == recipes.Cold {
			return "Dress " + dish + " and serve it cold"
		}
		return "Dress " + dish + " while it is warm"
	case schedule.Finish:
		return "Finish " + dish + " and take it to the table"
	}
	return joinNonEmpty(" ", string(step.Kind), dish)
}

// pickItems lists what is picked from the plot, each once.
func pickItems(p meal.Plan) []string {
	var items []string
	for _, want := range p.Pick {
		if !slices.Contains(items, want.Item) {
			items = append(items, want.Item)
		}
	}
	return items
}

func prepareWords(p meal.Plan, step meal.Step) string {
	work := "Wash, trim"
	for _, at := range step.Parts {
		switch partOfPlan(p, at).Line.Handwork() {
		case recipes.Scrub:
			work = "Scrub"
		case recipes.Peel:
			work = "Peel"
		case recipes.Shell:
			work = "Shell"
		}
	}
	return fmt.Sprintf("%s and cut the %s for %s", work, step.Crop, listed(step.Dishes))
}

// steamStepWords says what is steamed for how long: from full steam, the knife
// first; a shared filling with all that is in it.
func steamStepWords(p meal.Plan, step meal.Step) string {
	var words []string
	for _, at := range step.Parts {
		part := partOfPlan(p, at)
		words = append(words, fmt.Sprintf("the %s for %s, about %d min from full steam (knife from %d)",
			part.Line.Crop, p.Dishes[at.Dish].Name(), about(part.Steam.Estimate.Minutes), knifeFrom(part.Steam.Low)))
	}
	if len(words) > 1 {
		return "Steam together, a tier each: " + strings.Join(words, "; ")
	}
	says := "Steam " + strings.Join(words, "")
	if run := runOfStep(p, step); run.Of > 1 {
		says += fmt.Sprintf(", round %d of %d", run.Number, run.Of)
	}
	return says
}

func runOfStep(p meal.Plan, step meal.Step) meal.Run {
	at := slices.IndexFunc(p.Runs, func(r meal.Run) bool { return r.ID == step.Run })
	return p.Runs[at]
}

func dishOfStep(p meal.Plan, step meal.Step) meal.Dish {
	at := slices.IndexFunc(p.Dishes, func(d meal.Dish) bool { return slices.Contains(step.Dishes, d.Name()) })
	return p.Dishes[at]
}

// The lanes of the clock strip: what a step keeps busy, as scripts read it.
const (
	laneSteamer = "steamer"
	laneCook    = "cook"
	laneWait    = "wait"
)

func lane(step meal.Step) string {
	switch {
	case step.Ring > 0:
		return laneSteamer
	case step.Hands > 0:
		return laneCook
	}
	return laneWait
}

var laneWords = map[string]string{
	laneSteamer: "In the steamer",
	laneCook:    "Your hands",
	laneWait:    "Cools or waits",
}
