package ask

import (
	"context"
	"fmt"
	"slices"
	"time"

	"trencher/harvest"
	"trencher/recipes/meal"
	"trencher/units"
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

// BatchEventQuestion logs one event in the life of a cooked batch, as typed.
type BatchEventQuestion struct {
	PlotRef
	meal.EventWords
}

// BatchEventAnswer is the event as written, and what to do with the batch now;
// Batch is nil when nothing is left of it.
type BatchEventAnswer struct {
	Event    *harvest.BatchEvent
	Batch    *meal.KeptBatch
	Warnings []harvest.Warning
}

// LogBatchEvent writes an event to the journal. Apart from cooked, the batch
// must be one that was cooked and is not gone.
func LogBatchEvent(ctx context.Context, q BatchEventQuestion) (BatchEventAnswer, error) {
	keep := KeepQuestion{PlotRef: q.PlotRef}
	judge, err := keep.judge()
	if err != nil {
		return BatchEventAnswer{}, err
	}
	q.SkipDamaged = true // no damaged entry keeps a new one out
	plot, ledger, err := openToWrite(q.PlotRef)
	if err != nil {
		return BatchEventAnswer{}, err
	}
	event, err := q.Read(q.clock(), plot.Kitchen.Measures, plot.Dishes)
	if err != nil {
		return BatchEventAnswer{}, err
	}
	batch, err := ledger.Fits(ctx, event, q.Now)
	if err != nil {
		return BatchEventAnswer{}, asTyped(asTyped(err, "at", q.At), "until", q.Until)
	}
	if event.At.After(judge.Moment) {
		judge.Moment = event.At
	}
	answer := BatchEventAnswer{Event: event, Warnings: ledger.Warnings}
	if batch.State != harvest.Gone {
		kept, err := judge.Strictly(batch)
		if err != nil {
			return BatchEventAnswer{}, fmt.Errorf("%s %s at %s cannot be: %w", event.Name, event.Event, event.At.Format("15:04"), err)
		}
		answer.Batch = &kept
	}
	return answer, ledger.Write(event)
}

// Reasons gives the rules behind what to do with the batch, with their sources.
func (a BatchEventAnswer) Reasons() []units.Reason {
	list := []units.Reason{harvest.WhenReason(a.Event.At)}
	if a.Batch != nil {
		list = append(list, a.Batch.Verdict.RuleReasons()...)
	}
	return list
}
