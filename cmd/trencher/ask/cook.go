package ask

import (
	"context"
	"time"

	"trencher/harvest"
	"trencher/recipes/meal"
	"trencher/units"
)

// Cook opens the log of a recorded plan, the one of that ID or the last, made again
// from the journal as it was. Its errors are those of [harvest.Ledger.PlanCalled],
// [meal.ReadRecorded] and [Share], and a [units.FieldError] of plan if it differs.
func Cook(ctx context.Context, w PlotRef, id string) (meal.CookLog, error) {
	log, err := BatchLog(w)
	if err != nil {
		return meal.CookLog{}, err
	}
	record, err := log.Ledger.PlanCalled(ctx, id, w.Now)
	if err != nil {
		return meal.CookLog{}, err
	}
	asked, err := meal.ReadRecorded(record)
	if err != nil {
		return meal.CookLog{}, err
	}
	w.Now, w.On = asked.Now.In(w.zone()), record.At.In(w.zone()).Format(time.DateOnly)
	plot, err := Open(w)
	if err != nil {
		return meal.CookLog{}, err
	}
	plot.asOf = record
	question, err := plot.readShare(ctx, asked.PlanWords, asked.Mode)
	if err != nil {
		return meal.CookLog{}, err
	}
	plan, err := meal.Make(ctx, question)
	if err == nil && meal.Planned(plan, harvest.StockList{Lots: question.Lots}).ID != record.ID {
		err = units.WrongField("plan", record.ID, "a dish, the kitchen or what was on hand has changed since it was written down", "the dishes one by one, or a new plan")
	}
	return meal.CookLog{BatchLog: log, Record: record, Plan: plan}, err
}
