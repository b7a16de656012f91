package meal

import (
	"slices"
	"strconv"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/units"
)

// BatchesOf are the words for the batches that a recorded plan makes, all
// cooked at one time: each dish at its portions. Dishes that entries have as
// cooked by that plan already are left out; where none is left, and where a dish
// is in the plot no more, the error is a [units.FieldError] of as-planned.
func BatchesOf(plan *harvest.Planned, standing []harvest.Entry, dishes []recipes.Dish, at string) ([]EventWords, error) {
	var words []EventWords
	for _, m := range plan.Makes {
		if slices.ContainsFunc(standing, isCookedBy(plan.ID, m.Dish)) {
			continue
		}
		if !slices.Contains(recipes.NamesOf(dishes), m.Dish) {
			return nil, units.WrongField("as-planned", plan.ID, m.Dish+" is no dish of this plot any more", "the batches one by one, each with what it is to food safety")
		}
		words = append(words, EventWords{Event: harvest.KindCooked, Name: m.Dish, Dish: m.Dish, Plan: plan.ID, Amount: strconv.Itoa(m.Portions), At: at})
	}
	if len(words) == 0 {
		return nil, units.WrongField("as-planned", plan.ID, "all its dishes are logged as cooked already", "a plan that is not cooked yet")
	}
	return words, nil
}

func isCookedBy(plan, dish string) func(harvest.Entry) bool {
	return func(e harvest.Entry) bool {
		b, ok := e.(*harvest.BatchEvent)
		return ok && b.Event == harvest.KindCooked && b.Plan == plan && b.Dish == dish
	}
}
