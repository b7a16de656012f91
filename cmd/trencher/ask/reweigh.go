package ask

import (
	"context"

	"trencher/harvest"
	"trencher/units"
)

// ReweighQuestion is a lot put on the scale again, as it was typed.
type ReweighQuestion struct {
	PlotRef
	harvest.ReweighWords
}

// Reweigh writes a lot's second weighing to the journal.
func Reweigh(ctx context.Context, q ReweighQuestion) (harvest.LoggedReweighed, error) {
	plot, ledger, err := openToWrite(q.PlotRef)
	if err != nil {
		return harvest.LoggedReweighed{}, err
	}
	r, err := q.Read(q.Clock(), plot.Kitchen.Measures)
	if err != nil {
		return harvest.LoggedReweighed{}, err
	}
	logged, err := ledger.Reweigh(ctx, r, q.Lot, q.Now)
	return logged, units.AsTyped(err, "at", q.At)
}
