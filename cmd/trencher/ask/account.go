package ask

import (
	"context"

	"trencher/harvest"
)

// ledgerOf opens a plot's ledger of the day asked for, or of seasons named.
func ledgerOf(ctx context.Context, w PlotRef, seasons ...int) (*harvest.Ledger, error) {
	if err := harvest.CheckSeasons(seasons...); err != nil {
		return nil, err
	}
	p, err := Open(w)
	if err != nil {
		return nil, err
	}
	return p.Ledger(ctx, seasons...)
}

// Stock lists the lots on hand, what to use first on top.
func Stock(ctx context.Context, w PlotRef, seasons ...int) (harvest.StockList, error) {
	ledger, err := ledgerOf(ctx, w, seasons...)
	if err != nil {
		return harvest.StockList{}, err
	}
	return ledger.Stock(ctx)
}

// Tally draws up the account of seasons: those named, or all of them, or the
// one of the day asked for.
func Tally(ctx context.Context, w PlotRef, all bool, seasons ...int) (harvest.Tally, error) {
	if all {
		folder, err := openFolder(w)
		if err != nil {
			return harvest.Tally{}, err
		}
		if seasons, err = folder.Seasons(); err != nil {
			return harvest.Tally{}, err
		}
	}
	ledger, err := ledgerOf(ctx, w, seasons...)
	if err != nil {
		return harvest.Tally{}, err
	}
	a, err := ledger.Account()
	switch {
	case err != nil:
		return harvest.Tally{}, err
	case len(seasons) == 0:
		seasons = []int{a.On.Year()}
	}
	return a.Tally(seasons...), nil
}

// ReadyQuestion asks which plantings are due; Felt holds sizes felt near the
// surface, as "tub-3=38 mm".
type ReadyQuestion struct {
	PlotRef
	Felt []string
}

// Ready tells which plantings are due.
func Ready(ctx context.Context, q ReadyQuestion) (harvest.ReadyList, error) {
	p, err := Open(q.PlotRef)
	if err != nil {
		return harvest.ReadyList{}, err
	}
	ledger, err := p.Ledger(ctx)
	if err != nil {
		return harvest.ReadyList{}, err
	}
	ledger.Site = harvest.Site{FirstFrost: p.Kitchen.FirstFrost, LastFrost: p.Kitchen.LastFrost}
	list, err := ledger.Ready()
	if err != nil {
		return harvest.ReadyList{}, err
	}
	return list, list.FeelEach(q.Felt)
}
