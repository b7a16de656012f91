package ask

import (
	"cmp"
	"context"

	"trencher/harvest"
)

// Next plans a season from those before it; year 0 is the one after the day
// asked for.
func Next(ctx context.Context, w PlotRef, year int) (harvest.NextSeason, error) {
	p, err := Open(w)
	if err != nil {
		return harvest.NextSeason{}, err
	}
	ledger, err := p.ledger(ctx)
	if err != nil {
		return harvest.NextSeason{}, err
	}
	return ledger.Next(ctx, cmp.Or(year, p.On.Year()+1))
}
