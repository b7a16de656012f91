package ask

import (
	"context"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/units"
)

// MoveQuestion takes grams out of a lot, as it was typed.
type MoveQuestion struct {
	PlotRef
	harvest.MoveWords
}

// Move writes what left a lot to the journal.
func Move(ctx context.Context, q MoveQuestion) (harvest.LoggedMove, error) {
	plot, ledger, err := openToWrite(q.PlotRef)
	if err != nil {
		return harvest.LoggedMove{}, err
	}
	m, err := q.Read(q.Clock(), plot.Kitchen.Measures)
	if err != nil {
		return harvest.LoggedMove{}, err
	}
	if dishes := plot.Dishes(); len(recipes.Matching(dishes, q.Dish)) > 0 { // else it is no dish of the plot
		dish, err := recipes.FindAs("dish", dishes, q.Dish)
		if err != nil {
			return harvest.LoggedMove{}, err
		}
		m.Dish = dish.Name
	}
	logged, err := ledger.Move(ctx, m, q.Lot, q.Now)
	return logged, units.AsTyped(err, "at", q.At)
}
