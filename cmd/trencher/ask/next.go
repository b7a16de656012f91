package ask

import (
	"context"

	"trencher/harvest"
	"trencher/recipes/meal"
)

// NextWords asks what to plant in a plot, as it was typed.
type NextWords struct {
	PlotRef
	meal.NextWords
}

// Next tells what to plant for what is eaten, in the season after the day asked for
// where none is named.
func Next(ctx context.Context, w NextWords) (harvest.NextSeason, error) {
	p, err := Open(w.PlotRef)
	if err != nil {
		return harvest.NextSeason{}, err
	}
	ledger, err := p.Ledger(ctx)
	if err != nil {
		return harvest.NextSeason{}, err
	}
	ledger.Site = harvest.Site{FirstFrost: p.Kitchen.FirstFrost, LastFrost: p.Kitchen.LastFrost}
	q, err := w.Read(p.Kitchen.Household, p.On.Year()+1)
	if err != nil {
		return harvest.NextSeason{}, err
	}
	return ledger.Next(ctx, q)
}
