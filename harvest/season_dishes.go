package harvest

import (
	"cmp"
	"math"
	"slices"

	"github.com/shopspring/decimal"

	"trencher/units"
	"trencher/units/measures"
)

// DishSeason is what became of one dish in a season, in portions; batches logged
// by weight, or without an amount, count in Times alone.
type DishSeason struct {
	Dish                  string
	Times                 int // batches cooked
	Cooked, Eaten, Binned float64
}

// DishShare is the grams of a planting that went into a dish.
type DishShare struct {
	Dish  string
	Grams decimal.Decimal
}

// dishSeasons sums the batch events of each year by dish; a batch that is no
// dish of the plot counts under its own name. An event counts in the year its
// batch was cooked.
func dishSeasons(standing []Entry) map[int][]DishSeason {
	of := map[int][]DishSeason{}
	type cooking struct {
		dish string
		year int
	}
	last := map[string]cooking{}
	rowOf := map[cooking]int{}
	for _, e := range lifeOrder(standing) {
		name := measures.Fold(e.Name)
		if e.Event == KindCooked {
			last[name] = cooking{cmp.Or(e.Dish, e.Name), e.At.Year()}
		}
		batch, cooked := last[name]
		if !cooked {
			continue
		}
		key := cooking{measures.Fold(batch.dish), batch.year}
		at, there := rowOf[key]
		if !there {
			at, rowOf[key] = len(of[batch.year]), len(of[batch.year])
			of[batch.year] = append(of[batch.year], DishSeason{Dish: batch.dish})
		}
		of[batch.year][at].add(e)
	}
	for _, rows := range of {
		slices.SortFunc(rows, func(a, b DishSeason) int { return cmp.Compare(a.Dish, b.Dish) })
	}
	return of
}

func (d *DishSeason) add(e *BatchEvent) {
	portions, err := e.Amount.Float64(units.Piece)
	if !e.Amount.IsValid() || err != nil {
		portions = 0
	}
	switch e.Event {
	case KindCooked:
		d.Times++
		d.Cooked += portions
	case KindEaten:
		d.Eaten += portions
	case KindBinned:
		d.Binned += portions
	}
}

// uses are what was eaten of a name's lots.
type uses []eaten

// eatenOf is what was eaten for a dish of the lots of a year, by planting.
func (a *Account) eatenOf(year int) map[string]uses {
	of := map[string]uses{}
	for _, e := range a.eaten {
		if e.dish != "" && e.lot.Lifted.Year() == year {
			of[e.lot.Planting.ID] = append(of[e.lot.Planting.ID], e)
		}
	}
	return of
}

// sharesOf is what of a planting's season went into which dish, the most first.
func (list uses) sharesOf(p Planting) (shares []DishShare) {
	rowOf := map[string]int{}
	for _, e := range list {
		if dayOf(e.lot.Lifted).Before(dayOf(p.Planted)) {
			continue
		}
		dish := measures.Fold(e.dish)
		at, there := rowOf[dish]
		if !there {
			at, rowOf[dish] = len(shares), len(shares)
			shares = append(shares, DishShare{Dish: e.dish})
		}
		shares[at].Grams = shares[at].Grams.Add(e.grams)
	}
	slices.SortFunc(shares, func(a, b DishShare) int { return cmp.Or(b.Grams.Cmp(a.Grams), cmp.Compare(a.Dish, b.Dish)) })
	return shares
}

// Waste is what was grown and eaten by nobody: composted, or dried away.
func (y Yield) Waste() decimal.Decimal {
	return y.Went.Compost.Add(decimal.Max(decimal.Zero, y.Went.Dried))
}

// AgainstUsual is a planting's yield over the middle of what is usual, by
// ratios, and the usual range likewise.
type AgainstUsual struct {
	Per                string  // PerLitre, PerM2 or PerPlant
	Grams              float64 // g a Per
	Times, Low, High   float64 // over the middle
	UsualLow, UsualTop int     // g a Per
}

// AgainstUsual sets the yield against the usual one; ok is false where there is
// none, or nothing tells how much stood there.
func (y Yield) AgainstUsual() (a AgainstUsual, ok bool) {
	value := map[string]decimal.NullDecimal{PerLitre: y.PerLitre, PerM2: y.PerM2, PerPlant: y.PerSeed}[y.Usual.Per]
	if !value.Valid || y.Usual.Grams.Low <= 0 {
		return AgainstUsual{}, false
	}
	low, high := float64(y.Usual.Grams.Low), float64(y.Usual.Grams.High)
	middle := math.Sqrt(low * high)
	g := value.Decimal.InexactFloat64()
	return AgainstUsual{y.Usual.Per, g, g / middle, low / middle, high / middle, y.Usual.Grams.Low, y.Usual.Grams.High}, true
}
