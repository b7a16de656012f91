package ask

import (
	"context"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/meal"
)

// LiftOffer is what a person who logs a lift is offered.
type LiftOffer struct {
	Plantings []harvest.Planting // the likeliest first
	Unit      string             // the scale's
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
	return LiftOffer{list.LiftOrder(ledger.Plantings), harvest.ScaleUnit(plot.Kitchen.Measures)}, nil
}

// SaidBowl is a bowl as it was said, in the plot's measures: see
// [harvest.SaidWeighing].
func SaidBowl(w PlotRef, text, unit, tare string) (weighing, next string, err error) {
	plot, err := openMeasures(w)
	if err != nil {
		return "", tare, err
	}
	return harvest.SaidWeighing(text, unit, tare, plot.Kitchen.Measures)
}

// CheckMoment makes sure that a moment of the past can be read.
func CheckMoment(w PlotRef, text string) error {
	_, err := w.clock().Past("at", text)
	return err
}

// ToCook finds what a batch may be of: the latest recorded plan, with what is
// not logged of it yet, and the plot's dishes.
func ToCook(ctx context.Context, w PlotRef) (plan *harvest.Planned, rest []meal.EventWords, dishes []recipes.Dish, err error) {
	log, err := batchLog(w)
	if err != nil {
		return nil, nil, nil, err
	}
	plan, rest = log.Planned(ctx)
	return plan, rest, log.Dishes(), nil
}

// CheckBatchEvent reads an event as far as it was said, and makes sure that it
// can be. Nothing is written.
func CheckBatchEvent(ctx context.Context, w PlotRef, words meal.EventWords) (*harvest.BatchEvent, error) {
	w.Sure = true // doubts are for the whole
	log, err := batchLog(w)
	if err != nil {
		return nil, err
	}
	return log.Check(ctx, words)
}
