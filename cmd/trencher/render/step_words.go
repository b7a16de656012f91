package render

import (
	"fmt"
	"slices"

	"trencher/recipes"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
)

// stepWords says what to do in a step of the timetable, and what is set apart
// before.
func stepWords(p meal.Plan, step meal.Step) string {
	if first := firstApart(p, step); first != "" {
		return first + uncapital(doWords(p, step))
	}
	return doWords(p, step)
}

func doWords(p meal.Plan, step meal.Step) string {
	dish, crop := listed(step.Dishes), step.Crop
	if crop == "" {
		crop = "crops"
	}
	switch step.Kind {
	case schedule.Pick:
		return "Pick and wash " + listed(pickItems(p))
	case schedule.Boil:
		if step.Run == "" && step.Crop != "" {
			return "A pot of water to the boil for the " + crop
		}
		if isFirstBoil(p, step) {
			return "Bring the steamer to the boil with " + litres(p.Supplies.StartML) + " of water"
		}
		if toppedUp(p, step) {
			return "Top up the pan; back to the boil"
		}
		return "The steamer back to the boil; see that there is water enough"
	case schedule.Scrub, schedule.Peel:
		return prepareWords(p, step)
	case schedule.Load:
		return "Put the " + crop + " for " + dish + " into the steamer" + tierWord(step)
	case schedule.Steam:
		return steamStepWords(p, step)
	case schedule.Test:
		return "Try a knife in the " + crop + tierWord(step)
	case schedule.LiftOut:
		return "Lift out the " + crop + " for " + dish
	case schedule.Unload:
		return "Take the " + crop + " out for " + dish
	case schedule.Spread:
		return "Spread out on a tray, one layer: " + dish
	case schedule.Cool:
		if isIced(p, step) {
			return "The " + crop + " for " + dish + " into ice water"
		}
		return "Let " + dish + " cool on its tray"
	case schedule.Chill:
		return dish + " into the fridge, shallow, covered"
	case schedule.ColdBox:
		return dish + " into the cold box; if its packs have melted when it comes out, it was not cold"
	case schedule.Dress:
		return dressWords(p, step)
	case schedule.Finish:
		return "Finish " + dish
	case schedule.Serve:
		return "Everything to the table"
	case schedule.TopUp:
		return "Top the pan up with water"
	case schedule.Canister:
		return "Change the gas canister, outdoors and away from any flame"
	case schedule.BoilIn:
		return ownCookingWords(p, step)
	case schedule.Own, schedule.Warm, schedule.Melt:
		if step.Crop != "" {
			return ownCookingWords(p, step)
		}
		return joinNonEmpty(": ", dish, step.Do)
	}
	return joinNonEmpty(" ", string(step.Kind), dish)
}

// ownCookingWords say how a crop is cooked that is not steamed.
func ownCookingWords(p meal.Plan, step meal.Step) string {
	part := partOfPlan(p, step.Parts[0])
	line := part.Line
	how := map[string]string{"boil": "Boil", "blanch": "Blanch"}[line.Cook]
	if how == "" {
		how = "Cook"
	}
	if part.Pot != nil {
		return joinNonEmpty("; knife ", fmt.Sprintf("%s %s for %s", how, step.Crop, listed(step.Dishes)), potKnife(p, step))
	}
	return fmt.Sprintf("%s %s for %s%s; the minutes are yours", how, step.Crop, listed(step.Dishes), onWhat(line))
}

// potKnife is when a filling of the pot is first tested; "" where it is not.
func potKnife(p meal.Plan, in meal.Step) string {
	for _, step := range p.Steps {
		if step.Kind == schedule.Test && step.Beside == in.ID {
			return clockOn(step.At, p.On)
		}
	}
	return ""
}

// onWhat says what a crop keeps busy while it cooks.
func onWhat(line recipes.CropLine) string {
	return map[string]string{"oven": " in the oven", "grill": " under the grill", "embers": " in the embers"}[line.Uses]
}

// ownTimeWords say how long a crop cooks that is not steamed, as its dish file
// has it: "boiled 15 min", "15 min in the oven"; "" where it is steamed or raw.
func ownTimeWords(line recipes.CropLine) string {
	if line.Minutes == 0 {
		return ""
	}
	how := map[string]string{"boil": "boiled ", "blanch": "blanched "}[line.Cook]
	return fmt.Sprintf("%s%d min%s", how, line.Minutes, onWhat(line))
}

// isFirstBoil tells the step that first brings the water to the boil.
func isFirstBoil(p meal.Plan, step meal.Step) bool {
	first := slices.IndexFunc(p.Steps, func(s meal.Step) bool { return s.Kind == schedule.Boil })
	return first >= 0 && p.Steps[first].ID == step.ID
}

// toppedUp tells a boil before which water is added.
func toppedUp(p meal.Plan, boil meal.Step) bool {
	return slices.ContainsFunc(p.Steps, func(s meal.Step) bool { return s.Kind == schedule.TopUp && s.Run == boil.Run })
}

func tierWord(step meal.Step) string {
	if step.Tier < 2 {
		return ""
	}
	return fmt.Sprintf(", tier %d", step.Tier)
}

func dressWords(p meal.Plan, step meal.Step) string {
	dish := listed(step.Dishes)
	switch served := dishOfStep(p, step).Recipe.Served; {
	case served == recipes.Cold && p.IsNotCold(dish):
		return "Dress " + dish + ", cooled but not cold"
	case served == recipes.Cold:
		return "Dress " + dish + ", cold"
	}
	return "Dress " + dish + " while it is warm"
}

// isIced tells cooling in ice water.
func isIced(p meal.Plan, step meal.Step) bool {
	if len(step.Parts) == 0 {
		return false
	}
	pot := partOfPlan(p, step.Parts[0]).Pot
	return pot != nil && pot.IceMinutes > 0
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
	return fmt.Sprintf("%s, cut: %s for %s", work, step.Crop, listed(step.Dishes))
}

// steamStepWords says what is steamed for which dishes, and when to try a knife.
func steamStepWords(p meal.Plan, step meal.Step) string {
	says := fmt.Sprintf("Steam %s for %s; knife %s", step.Crop, listed(step.Dishes), clock(p.KnifeAt(step)))
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
