package ask

import (
	"context"
	"slices"
	"time"

	"trencher/harvest"
	"trencher/recipes/meal"
)

// BatchesAnswer is every cooked batch not yet eaten or binned, the most
// urgent first.
type BatchesAnswer struct {
	Batches  []meal.KeptBatch
	Warnings []harvest.Warning
}

// KeepBatches judges every cooked batch in the plot's journal.
func KeepBatches(ctx context.Context, q KeepQuestion) (BatchesAnswer, error) {
	judge, err := q.judge()
	if err != nil {
		return BatchesAnswer{}, err
	}
	where := q.PlotRef
	if q.At != "" {
		where.On = judge.Moment.In(q.zone()).Format(time.DateOnly)
	}
	plot, err := Open(where)
	if err != nil {
		return BatchesAnswer{}, err
	}
	ledger, err := plot.Ledger(ctx)
	if err != nil {
		return BatchesAnswer{}, err
	}
	batches, err := ledger.Batches(judge.Moment)
	if err != nil {
		return BatchesAnswer{}, err
	}
	answer := BatchesAnswer{Warnings: ledger.Warnings}
	for _, b := range batches {
		answer.Batches = append(answer.Batches, judge.Kept(b))
	}
	slices.SortStableFunc(answer.Batches, meal.MoreUrgent)
	return answer, nil
}

// BatchLog opens the log of a plot's cooked batches.
func BatchLog(w PlotRef) (meal.BatchLog, error) {
	judge, err := KeepQuestion{PlotRef: w}.judge()
	if err != nil {
		return meal.BatchLog{}, err
	}
	w.SkipDamaged = true // no damaged entry keeps a new one out
	plot, ledger, err := openToWrite(w)
	if err != nil {
		return meal.BatchLog{}, err
	}
	return meal.BatchLog{Ledger: ledger, Judge: judge, Clock: w.Clock(), System: plot.Kitchen.Measures, Dishes: plot.Dishes}, nil
}
