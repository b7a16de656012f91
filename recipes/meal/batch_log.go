package meal

import (
	"context"
	"fmt"
	"time"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/units"
)

// BatchLog writes the events of cooked batches to a plot's journal.
type BatchLog struct {
	Ledger *harvest.Ledger
	Judge  Judge
	Clock  units.Clock
	System units.System          // of amounts that name none
	Dishes func() []recipes.Dish // of the plot
}

// LoggedEvent is an event as written, and what to do with the batch now; Batch
// is nil when nothing is left of it.
type LoggedEvent struct {
	Event    *harvest.BatchEvent
	Batch    *KeptBatch
	Warnings []harvest.Warning
}

// LoggedEvents are events in the order they were written.
type LoggedEvents []LoggedEvent

// Write writes events; none is written unless all of them can be. Apart from
// cooked, the batch must be one that was cooked and is not gone. Its errors are
// those of [EventWords.Read] and [harvest.Ledger.Fits].
func (l BatchLog) Write(ctx context.Context, words ...EventWords) (LoggedEvents, error) {
	var logged LoggedEvents
	for _, q := range words {
		event, err := q.Read(l.Clock, l.System, l.Dishes)
		if err != nil {
			return nil, err
		}
		batch, err := l.Ledger.Fits(ctx, event, l.Clock.Now)
		if err != nil {
			return nil, units.AsTyped(units.AsTyped(err, "at", q.At), "until", q.Until)
		}
		one, err := l.judged(event, batch)
		if err != nil {
			return nil, err
		}
		logged = append(logged, one)
		l.Ledger.Entries = append(l.Ledger.Entries, event) // the next one is of a time with this one
	}
	for _, one := range logged {
		if err := l.Ledger.Write(one.Event); err != nil {
			return nil, err
		}
	}
	return logged, nil
}

// judged is an event with the verdict on its batch.
func (l BatchLog) judged(event *harvest.BatchEvent, batch *harvest.Batch) (LoggedEvent, error) {
	if event.At.After(l.Judge.Moment) {
		l.Judge.Moment = event.At
	}
	one := LoggedEvent{Event: event, Warnings: l.Ledger.Warnings}
	if batch.State != harvest.Gone {
		kept, err := l.Judge.Strictly(batch)
		if err != nil {
			return one, fmt.Errorf("%s %s at %s cannot be: %w", event.Name, event.Event, event.At.Format("15:04"), err)
		}
		one.Batch = &kept
	}
	return one, nil
}

// AsPlanned logs every batch that a recorded plan makes: the plan of that ID, or
// the last, all cooked at one time. Its errors are those of
// [harvest.Ledger.PlanCalled], [BatchesOf] and Write.
func (l BatchLog) AsPlanned(ctx context.Context, id, at string) (LoggedEvents, error) {
	plan, err := l.Ledger.PlanCalled(ctx, id, l.Clock.Now)
	if err != nil {
		return nil, err
	}
	standing, _, err := harvest.Correct(l.Ledger.Entries)
	if err != nil {
		return nil, err
	}
	words, err := BatchesOf(plan, standing, l.Dishes(), at)
	if err != nil {
		return nil, err
	}
	return l.Write(ctx, words...)
}

// Reasons gives the rules behind what to do with the batches, with their
// sources.
func (l LoggedEvents) Reasons() (list []units.Reason) {
	for _, one := range l {
		list = append(list, harvest.WhenReason(one.Event.At))
		if one.Batch != nil {
			list = append(list, one.Batch.Verdict.RuleReasons()...)
		}
	}
	return list
}

// Check reads an event and makes sure that it can be, as Write does, without
// writing it.
func (l BatchLog) Check(ctx context.Context, q EventWords) (*harvest.BatchEvent, error) {
	event, err := q.Read(l.Clock, l.System, l.Dishes)
	if err != nil {
		return nil, err
	}
	if _, err := l.Ledger.Fits(ctx, event, l.Clock.Now); err != nil {
		return nil, units.AsTyped(units.AsTyped(err, "at", q.At), "until", q.Until)
	}
	return event, nil
}

// planIsFresh is how long after it was recorded a plan is offered as what is
// being cooked.
const planIsFresh = 24 * time.Hour

// Planned is the latest recorded plan and what is not logged of it yet; nil
// where there is none, where all is logged, or where it is of another day's
// cooking.
func (l BatchLog) Planned(ctx context.Context) (*harvest.Planned, []EventWords) {
	plan, err := l.Ledger.PlanCalled(ctx, harvest.LastPlan, l.Clock.Now)
	if err != nil || l.Clock.Now.Sub(plan.At) > planIsFresh {
		return nil, nil
	}
	standing, _, err := harvest.Correct(l.Ledger.Entries)
	if err != nil {
		return nil, nil
	}
	words, err := BatchesOf(plan, standing, l.Dishes(), "")
	if err != nil {
		return nil, nil
	}
	return plan, words
}
