package ask

import (
	"context"

	"trencher/harvest"
	"trencher/units"
)

// LiftOffer is what a person who logs a lift is offered.
type LiftOffer struct {
	Plantings []harvest.Planting // the likeliest first
	Measures  units.System
}

// ToLift finds what a lift may be of. What is wrong in the journal keeps no lift
// out: the plantings are then in the order of plantings.yaml.
func ToLift(ctx context.Context, w PlotRef) (LiftOffer, error) {
	plot, ledger, err := openToWrite(w)
	if err != nil {
		return LiftOffer{}, err
	}
	w.SkipDamaged = true
	list, err := Ready(ctx, ReadyQuestion{PlotRef: w})
	if err != nil {
		list = harvest.ReadyList{}
	}
	return LiftOffer{list.LiftOrder(ledger.Plantings), plot.Kitchen.Measures}, nil
}

// CheckMoment makes sure that a moment of the past can be read.
func CheckMoment(w PlotRef, text string) error {
	_, err := w.clock().Past("at", text)
	return err
}
