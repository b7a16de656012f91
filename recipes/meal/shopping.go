package meal

import (
	"math/big"
	"slices"

	"trencher/recipes"
	"trencher/units"
	"trencher/units/measures"
)

// Want is what to pick or to buy of one good, over all dishes.
type Want struct {
	Item, State string
	Dishes      []string       // in the order of the dishes
	Exact       units.Quantity // the sum of the exact amounts; a range, or to taste
	Sum         units.Quantity // the sum of what the dishes measure out
	Have        units.Measured // at least that, in the kitchen's measures; none of what is to taste
	Weighed     bool           // amounts of different kinds were added up by what a measure weighs
	AndTaste    bool           // some of it besides, to taste
	Optional    bool
	FromPlot    bool
	Cupboard    bool // most kitchens have so much of it

	good string // what a shop calls it
}

// water comes from the tap: it is neither picked nor bought.
const water = "water"

// Wants sums the ingredients of all dishes into what to pick from the plot and
// what to buy, in the order of their first use. One good is one line, whatever is
// done to it at home and whatever its lines call it ([measures.ShopGood]); amounts
// of one dimension are added exactly, others by what a measure of it weighs. What
// has no weight on file stays in lines of its own, and so does what is only
// optional.
func Wants(dishes []Dish, kitchen recipes.Kitchen) (pick, buy []Want) {
	for _, dish := range dishes {
		for _, line := range dish.Scaled.Others {
			if sameItem(line.Item, water) {
				continue
			}
			list := &buy
			if line.FromPlot {
				list = &pick
			}
			*list = put(*list, Want{Item: line.Item, State: line.State, Dishes: []string{dish.Name()}, Exact: line.Exact,
				Sum: line.Measured.Value, Optional: line.Optional, FromPlot: line.FromPlot, good: measures.ShopGood(line.Item, line.State)}, kitchen)
		}
	}
	return measured(pick, kitchen), apart(measured(buy, kitchen))
}

// ToBuy is what has to be bought, InCupboard what most kitchens have: look there
// first.
func (p Plan) ToBuy() []Want { return kept(p.Buy, false) }

// InCupboard is what of the buy list is probably in the cupboard.
func (p Plan) InCupboard() []Want { return kept(p.Buy, true) }

func kept(wants []Want, cupboard bool) []Want {
	var list []Want
	for _, want := range wants {
		if want.Cupboard == cupboard {
			list = append(list, want)
		}
	}
	return list
}

// apart puts what is probably in the cupboard behind what has to be bought.
func apart(wants []Want) []Want {
	for i, want := range wants {
		wants[i].Cupboard = inCupboard(want)
	}
	slices.SortStableFunc(wants, func(a, b Want) int {
		switch {
		case a.Cupboard == b.Cupboard:
			return 0
		case a.Cupboard:
			return 1
		}
		return -1
	})
	return wants
}

// aCupboard is the most of something that a kitchen has without buying it, in
// grams or millilitres: common practice, no source.
var aCupboard = big.NewRat(100, 1)

func inCupboard(w Want) bool {
	if !measures.KeptInCupboard(w.Item) {
		return false
	}
	for _, unit := range []units.Unit{units.Gram, units.Millilitre} {
		if q, err := w.Exact.High().In(unit); err == nil {
			return q.Rat().Cmp(aCupboard) <= 0
		}
	}
	return w.Exact.IsToTaste() || w.Exact.IsRough()
}

// put adds what is wanted to the line it fits, or starts a new one.
func put(wants []Want, more Want, kitchen recipes.Kitchen) []Want {
	for i := range wants {
		if sum, ok := wants[i].plus(more, kitchen); ok {
			wants[i] = sum
			return wants
		}
	}
	return append(wants, more)
}

// plus adds more to a line; ok is false where they do not go together.
func (w Want) plus(more Want, kitchen recipes.Kitchen) (sum Want, ok bool) {
	if w.good != more.good || w.Optional != more.Optional {
		return w, false
	}
	switch {
	case more.Exact.IsToTaste():
		w.AndTaste = w.AndTaste || !w.Exact.IsToTaste()
	case w.Exact.IsToTaste():
		w.Exact, w.Sum, w.AndTaste = more.Exact, more.Sum, true
	default:
		if w, ok = w.add(more, kitchen); !ok {
			return w, false
		}
	}
	if w.State != more.State {
		w.State = ""
	}
	w.AndTaste = w.AndTaste || more.AndTaste
	w.Dishes = slices.Clone(w.Dishes)
	for _, dish := range more.Dishes {
		if !slices.Contains(w.Dishes, dish) {
			w.Dishes = append(w.Dishes, dish)
		}
	}
	return w, true
}

// add adds the amounts: exactly where they are of one dimension, else in grams.
func (w Want) add(more Want, kitchen recipes.Kitchen) (Want, bool) {
	exact, err := w.Exact.Add(more.Exact)
	sum, wrong := w.Sum.Add(more.Sum)
	if err == nil && wrong == nil {
		w.Exact, w.Sum = exact, sum
		return w, true
	}
	was, now := w, more
	for _, one := range []*Want{&was, &now} {
		if !one.weigh(kitchen) {
			return w, false
		}
	}
	if exact, err = was.Exact.Add(now.Exact); err != nil {
		return w, false
	}
	if sum, err = was.Sum.Add(now.Sum); err != nil {
		return w, false
	}
	w.Exact, w.Sum, w.Weighed = exact, sum, true
	return w, true
}

// weigh turns the amounts into grams; false where no row says what they weigh.
func (w *Want) weigh(kitchen recipes.Kitchen) bool {
	for _, q := range []*units.Quantity{&w.Exact, &w.Sum} {
		c, err := kitchen.Table.Convert(*q, units.Gram, w.Item, w.State)
		if err != nil {
			c, err = kitchen.Table.Convert(*q, units.Gram, w.Item, "")
		}
		if err != nil {
			return false
		}
		*q = c.Quantity
	}
	return true
}

// measured puts every sum into the kitchen's measures, never less than the sum.
func measured(wants []Want, kitchen recipes.Kitchen) []Want {
	for i, want := range wants {
		if want.Exact.IsToTaste() {
			continue
		}
		have := kitchen.MeasureOut(want.Sum, want.Item, want.State)
		if less, err := have.Value.Compare(want.Sum); err != nil || less < 0 {
			have = enough(want.Sum, kitchen.Measures)
		}
		wants[i].Have = have
	}
	return wants
}

// enough is a sum that the kitchen's own measures would round down, up to a step
// that a shop and a scale have, so that what is fetched is not too little: two
// figures, and no finer than a gram or 5 ml.
func enough(sum units.Quantity, system units.System) units.Measured {
	_, most := sum.Ends()
	for _, least := range []struct {
		unit units.Unit
		size int64
	}{{units.Gram, 1}, {units.Millilitre, 5}} {
		high, err := units.FromRat(most, sum.Unit()).In(least.unit)
		if err != nil {
			continue
		}
		step := big.NewRat(least.size, 1)
		switch {
		case high.Rat().Cmp(big.NewRat(1000, 1)) > 0:
			step = big.NewRat(50, 1)
		case high.Rat().Cmp(big.NewRat(100, 1)) > 0:
			step = big.NewRat(10, 1)
		}
		up := units.FromRat(units.CeilTo(high.Rat(), step), least.unit)
		return units.Measured{Value: up, Text: up.Format(system)}
	}
	return units.Measured{Value: sum, Text: sum.Format(system)}
}
