package ask

import (
	"context"
	"time"

	"trencher/harvest"
	"trencher/recipes/meal"
)

// record writes a plan into the journal as carried out, in one entry, so that
// the stock is true afterwards. Where an ID or a fingerprint was shown, they
// must still be the plan's: what was shown is what is written.
func (p *Plot) record(ctx context.Context, plan *harvest.Planned, w ShareWords) error {
	if err := plan.IsStill(w.Shown, w.Stock); err != nil {
		return err
	}
	if today := p.where.Now.In(p.On.Location()); p.On.Format(time.DateOnly) != today.Format(time.DateOnly) {
		plan.At = p.On.Add(12 * time.Hour)
	}
	ledger, err := p.folder.LedgerToWrite(p.where.options(p.Kitchen.Measures))
	if err != nil {
		return err
	}
	return ledger.Record(ctx, plan, p.where.Now)
}

// CookAsPlanned logs every batch that a recorded plan makes: the plan of that
// ID, or the last.
func CookAsPlanned(ctx context.Context, w PlotRef, id, at string) (BatchEventsAnswer, error) {
	w.SkipDamaged = true
	plot, ledger, err := openToWrite(w)
	if err != nil {
		return nil, err
	}
	plan, err := ledger.PlanCalled(ctx, id, w.Now)
	if err != nil {
		return nil, err
	}
	standing, _, err := harvest.Correct(ledger.Entries)
	if err != nil {
		return nil, err
	}
	words, err := meal.BatchesOf(plan, standing, plot.Dishes(), at)
	if err != nil {
		return nil, err
	}
	return LogBatchEvents(ctx, w, words)
}
