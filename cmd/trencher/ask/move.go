package ask

import (
	"context"
	"errors"

	"trencher/harvest"
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
	var failed []error
	m.At, err = q.clock().given("at", q.At)
	failed = append(failed, err)
	m.Weight = readWeight("weight", q.Weight, plot.Kitchen.Measures, &failed)
	if err := errors.Join(failed...); err != nil {
		return harvest.LoggedMove{}, err
	}
	logged, err := ledger.Move(ctx, m, q.Lot, q.Now)
	return logged, asTyped(err, "at", q.At)
}
