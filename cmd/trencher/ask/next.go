package ask

import (
	"cmp"
	"context"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/units"
)

// NextWords asks what to plant, as it was typed.
type NextWords struct {
	PlotRef
	Season int      // 0: the one after the day asked for
	For    string   // who will eat; "" = the kitchen's household
	Eat    []string // "late maincrop potato, 3 a week, 26 weeks"
}

// Next tells what to plant for what is eaten.
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
	q := harvest.NextQuestion{Year: cmp.Or(w.Season, p.On.Year()+1)}
	people := p.Kitchen.Household
	if w.For != "" {
		if people, err = recipes.ParseEaters(w.For); err != nil {
			return harvest.NextSeason{}, recipes.NotWhoEats(w.For)
		}
		switch {
		case len(p.Kitchen.Household) == 0 && len(w.Eat) == 0:
			return harvest.NextSeason{}, units.WrongField("for", w.For, "more or fewer than who? The kitchen names no household to compare with", "household: 2 adults in kitchen.yaml, or leave it out")
		case len(p.Kitchen.Household) > 0:
			q.People = recipes.HelpingsOf(people) / recipes.HelpingsOf(p.Kitchen.Household)
		}
	}
	for _, text := range w.Eat {
		a, err := harvest.ParseAppetite(text)
		if err != nil {
			return harvest.NextSeason{}, err
		}
		a.Helpings, a.Prepared = recipes.HelpingsOf(people), recipes.OnThePlate(a.Crop, a.Portion.Cooked)
		if a.Helpings == 0 {
			return harvest.NextSeason{}, units.WrongField("eat", text, "for nobody: the kitchen names no household", `who eats, as --for "2 adults, 1 child", or household: in kitchen.yaml`)
		}
		q.Eat = append(q.Eat, a)
	}
	return ledger.Next(ctx, q)
}
