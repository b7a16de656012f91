package ask

import (
	"context"

	"trencher/harvest"
	"trencher/units"
)

// LiftQuestion is a weighed lift to be logged, as it was typed.
type LiftQuestion struct {
	PlotRef
	harvest.LiftWords
	At string // "" = now
}

// Lift writes a weighed lift to the journal. Nothing is written unless every
// part of it makes sense.
func Lift(ctx context.Context, q LiftQuestion) (harvest.LoggedLift, error) {
	plot, ledger, err := openToWrite(q.PlotRef)
	if err != nil {
		return harvest.LoggedLift{}, err
	}
	lift, err := q.Read(plot.Kitchen.Measures)
	if err != nil {
		return harvest.LoggedLift{}, err
	}
	if lift.At, err = q.Clock().Past("at", q.At); err != nil {
		return harvest.LoggedLift{}, err
	}
	logged, err := ledger.Lift(ctx, lift, q.Now)
	return logged, units.AsTyped(err, "at", q.At)
}

// Weighed is the lift as far as it was typed, to tell its weights while it is
// being asked for.
func Weighed(q LiftQuestion) (*harvest.Lift, error) {
	plot, err := openMeasures(q.PlotRef)
	if err != nil {
		return nil, err
	}
	return q.Read(plot.Kitchen.Measures)
}
