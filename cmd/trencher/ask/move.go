package ask

import (
	"context"
	"errors"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/units"
)

// MoveQuestion takes grams out of a lot, as it was typed.
type MoveQuestion struct {
	PlotRef
	To       string // harvest.KindUse, KindGive, KindCompost or KindStore
	Lot      string // its ID, its short name, or a planting with one lot on hand
	Weight   string // "" = all there is
	At       string // "" = now
	Dish     string
	Whom     string
	Lies     string
	Reason   string
	Replaces string // the file of the entry this one corrects
}

// Move writes what left a lot to the journal.
func Move(ctx context.Context, q MoveQuestion) (harvest.LoggedMove, error) {
	plot, ledger, err := openToWrite(q.PlotRef)
	if err != nil {
		return harvest.LoggedMove{}, err
	}
	m := &harvest.Move{To: q.To, Dish: q.Dish, Whom: q.Whom, Where: q.Lies, Reason: q.Reason}
	m.Replaces = q.Replaces
	var wrong error
	m.At, err = q.clock().Past("at", q.At)
	m.Weight, wrong = harvest.ParseWeightField("weight", q.Weight, plot.Kitchen.Measures)
	if err := errors.Join(err, wrong); err != nil {
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
