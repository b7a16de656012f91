package ask

import (
	"context"
	"time"

	"trencher/harvest"
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
	_, ledger, err := openToWrite(p.where)
	if err != nil {
		return err
	}
	return ledger.Record(ctx, plan, p.where.Now)
}
