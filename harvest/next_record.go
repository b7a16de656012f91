package harvest

import (
	"cmp"
	"math"
	"strings"

	"github.com/shopspring/decimal"

	"trencher/units"
	"trencher/units/measures"
)

// record is what the seasons tell about one crop.
type record struct {
	crop, class string
	people      float64 // who will eat over who ate
	years       []int
	gave, eaten []float64 // g, by season
	sum         Yield
	yields      []float64 // g a plant, by planting and season
}

func (r *record) add(year int, y Yield) {
	if len(r.years) == 0 || r.years[len(r.years)-1] != year {
		r.years, r.gave, r.eaten = append(r.years, year), append(r.gave, 0), append(r.eaten, 0)
	}
	last := len(r.years) - 1
	r.gave[last] += y.Net.InexactFloat64()
	r.eaten[last] += y.Went.Kitchen.InexactFloat64()
	r.sum.Net, r.sum.Went = r.sum.Net.Add(y.Net), r.sum.Went.Add(y.Went)
	r.sum.Green, r.sum.Rotten = r.sum.Green.Add(y.Green), r.sum.Rotten.Add(y.Rotten)
	if plants := plantsOf(y.Planting); plants > 0 && y.Net.Sign() > 0 {
		r.yields = append(r.yields, y.Net.InexactFloat64()/plants)
	}
}

// plantsOf is how many plants a planting has: as counted, else as its bed or
// tub holds at the usual spacing; 0 where nothing tells.
func plantsOf(p Planting) float64 {
	if p.SeedCount > 0 {
		return float64(p.SeedCount)
	}
	row, ok := LookupCrop(p.Crop)
	if !ok {
		return 0
	}
	if area, ok := amountIn(p.Bed, units.SquareMetre); ok {
		return area.InexactFloat64() * row.Spacing.PlantsPerM2()
	}
	if litres, ok := amountIn(p.Tub, units.Litre); ok {
		return litres.InexactFloat64() / row.Tub.Litres
	}
	return 0
}

func (r *record) plan() NextCrop {
	seasons := decimal.NewFromInt(int64(len(r.years)))
	each := func(g decimal.Decimal) decimal.Decimal { return g.DivRound(seasons, 1) }
	n := NextCrop{Crop: r.crop, Class: r.class, Seasons: len(r.years), Eaten: each(r.sum.Went.Kitchen), Given: each(r.sum.Went.Given),
		Lost: each(r.lost()), Left: each(decimal.Max(decimal.Zero, r.sum.Went.OnHand.Add(r.sum.Went.Stored)))}
	n.Row, _ = LookupCrop(r.crop)
	if n.Seasons == 1 {
		n.Guessed = append(n.Guessed, GuessOneSeason)
	}
	want := r.want(&n)
	if n.Eaten.Sign() == 0 && n.Left.Sign() > 0 {
		n.Guessed = append(n.Guessed, GuessLeft)
	}
	yield, ok := r.yield(&n)
	if !ok {
		n.Guessed = append(n.Guessed, GuessNoYield)
		return n
	}
	if len(r.yields) == 0 {
		n.Guessed = append(n.Guessed, GuessYield)
	}
	lost := (r.lost().InexactFloat64() + usualLoss*worth*r.mean(r.gave)) / (r.sum.Net.InexactFloat64() + worth*r.mean(r.gave))
	n.PerPlant = yield.range90()
	n.Plants = guess{want.log - math.Log(1-lost) - yield.log, want.spread*want.spread + yield.spread*yield.spread}.sqrt().range90()
	if n.Eaten.Sign() == 0 && n.Left.Sign() == 0 {
		n.Plants = Estimate{}
	}
	return n
}

// lost is what never got to a plate: composted, or not fit to eat and still
// lying there.
func (r *record) lost() decimal.Decimal {
	unfit := r.sum.Green.Add(r.sum.Rotten)
	return decimal.Max(r.sum.Went.Compost, unfit)
}

func (r *record) mean(list []float64) float64 {
	sum := 0.0
	for _, g := range list {
		sum += g
	}
	return sum / float64(len(list))
}

// guess is a figure on a scale of ratios: its logarithm, and how far that may
// be off.
type guess struct{ log, spread float64 }

func (g guess) sqrt() guess { return guess{g.log, math.Sqrt(g.spread)} }

func (g guess) range90() Estimate {
	return Estimate{math.Exp(g.log), math.Exp(g.log - nineInTen*g.spread), math.Exp(g.log + nineInTen*g.spread)}
}

// seen is what figures of several seasons tell of the next one: their mean, and
// a spread that is the usual one where they are few.
func seen(logs []float64, usual float64) (mean, spread float64) {
	for _, x := range logs {
		mean += x / float64(len(logs))
	}
	squares := usual * usual * worth
	for _, x := range logs {
		squares += (x - mean) * (x - mean)
	}
	return mean, math.Sqrt(squares / (worth + float64(len(logs)) - 1))
}

// want is what is eaten in a season. Where all of one was eaten, more would
// have been; what is left of the last one may still be.
func (r *record) want(n *NextCrop) guess {
	var logs []float64
	for i, g := range r.eaten {
		left := 0.0
		if i == len(r.eaten)-1 {
			left = n.Left.InexactFloat64() * float64(n.Seasons)
		}
		g += left / 2
		if g <= 0 {
			continue
		}
		if r.eaten[i] > 0.97*r.gave[i] {
			n.Short = true
			g *= shortBy
		}
		logs = append(logs, math.Log(g))
	}
	if len(logs) == 0 {
		return guess{}
	}
	mean, spread := seen(logs, usualAppetite)
	return guess{mean + math.Log(cmp.Or(r.people, 1)), spread * math.Sqrt(1+1/float64(len(logs)))}
}

// yield is what a plant gives here: the published range is what plots differ
// by, and each season of one's own draws it towards this plot's.
func (r *record) yield(n *NextCrop) (guess, bool) {
	usual, ok := n.Row.usual(r.class, PerPlant)
	var logs []float64
	for _, g := range r.yields {
		logs = append(logs, math.Log(g))
	}
	if !ok {
		if len(logs) == 0 {
			return guess{}, false
		}
		mean, spread := seen(logs, usualSpread)
		return guess{mean, spread * math.Sqrt(1+1/float64(len(logs)))}, true
	}
	n.published = usual
	low, high := math.Log(float64(usual.Grams.Low)), math.Log(float64(usual.Grams.High))
	middle, between := (low+high)/2, math.Max((high-low)/2/nineInTen*1.25, usualSpread)
	if len(logs) == 0 {
		return guess{middle, math.Hypot(between, usualSpread)}, true
	}
	mean, spread := seen(logs, usualSpread)
	a, b := 1/(between*between), float64(len(logs))/(spread*spread)
	return guess{(middle*a + mean*b) / (a + b), math.Sqrt(1/(a+b) + spread*spread)}, true
}

// eatenPortions is how many portions were eaten of the dishes that each crop
// went into, by the journal: a portion of two crops counts for both.
func eatenPortions(plantings []Planting, entries []Entry) map[string]float64 {
	standing, _, _ := Correct(entries)
	eaten := eatenByDish(standing)
	of, counted := map[string]float64{}, map[[2]string]bool{}
	all := plantedOf(plantings)
	for _, e := range standing {
		for _, m := range movesOf(e) {
			if m.To != KindUse || m.Dish == "" {
				continue
			}
			id, _, _ := strings.Cut(m.Lot, "/")
			p, _ := all.standing(id, m.At)
			if dish := measures.Fold(m.Dish); p != nil && !counted[[2]string{p.Crop, dish}] {
				counted[[2]string{p.Crop, dish}] = true
				of[p.Crop] += eaten[dish]
			}
		}
	}
	return of
}

// eatenByDish is how many portions of each dish were eaten.
func eatenByDish(standing []Entry) map[string]float64 {
	eaten, dishOf := map[string]float64{}, map[string]string{}
	for _, e := range lifeOrder(standing) {
		name := measures.Fold(e.Name)
		if e.Event == KindCooked {
			dishOf[name] = measures.Fold(cmp.Or(e.Dish, e.Name))
		}
		if count, err := e.Amount.Float64(units.Piece); e.Event == KindEaten && e.Amount.IsValid() && err == nil {
			eaten[dishOf[name]] += count
		}
	}
	return eaten
}
