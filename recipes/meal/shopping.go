package meal

import (
	"math/big"
	"slices"

	"trencher/recipes"
	"trencher/units"
)

// Want is what to pick or to buy of one ingredient, over all dishes.
type Want struct {
	Item, State string
	Dishes      []string       // in the order of the dishes
	Exact       units.Quantity // the sum of the exact amounts; a range, or to taste
	Sum         units.Quantity // the sum of what the dishes measure out
	Have        units.Measured // at least that, in the kitchen's measures; none of what is to taste
	Optional    bool
	FromPlot    bool
}

// water comes from the tap: it is neither picked nor bought.
const water = "water"

// Wants sums the ingredients of all dishes into what to pick from the plot and
// what to buy, in the order of their first use. Amounts of one dimension are
// added exactly; what cannot be added without weighing (two spoons and a bunch)
// stays in lines of its own, and so does what is only optional.
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
				Sum: line.Measured.Value, Optional: line.Optional, FromPlot: line.FromPlot})
		}
	}
	return measured(pick, kitchen), measured(buy, kitchen)
}

// put adds what is wanted to the line it fits, or starts a new one.
func put(wants []Want, more Want) []Want {
	for i := range wants {
		if sum, ok := wants[i].plus(more); ok {
			wants[i] = sum
			return wants
		}
	}
	return append(wants, more)
}

// plus adds more to a line; ok is false where they do not go together.
func (w Want) plus(more Want) (sum Want, ok bool) {
	if w.Item != more.Item || w.State != more.State || w.Optional != more.Optional || w.Exact.IsToTaste() != more.Exact.IsToTaste() {
		return w, false
	}
	if !w.Exact.IsToTaste() {
		var err error
		if w.Exact, err = w.Exact.Add(more.Exact); err != nil {
			return w, false
		}
		if w.Sum, err = w.Sum.Add(more.Sum); err != nil {
			return w, false
		}
	}
	w.Dishes = slices.Clone(w.Dishes)
	for _, dish := range more.Dishes {
		if !slices.Contains(w.Dishes, dish) {
			w.Dishes = append(w.Dishes, dish)
		}
	}
	return w, true
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

// enough is a sum that the kitchen's own measures would round down, up to the
// next gram or the next 5 ml, so that what is fetched is not too little.
func enough(sum units.Quantity, system units.System) units.Measured {
	_, most := sum.Ends()
	for _, step := range []struct {
		unit units.Unit
		size int64
	}{{units.Gram, 1}, {units.Millilitre, 5}} {
		if high, err := units.FromRat(most, sum.Unit()).In(step.unit); err == nil {
			up := units.FromRat(units.CeilTo(high.Rat(), big.NewRat(step.size, 1)), step.unit)
			return units.Measured{Value: up, Text: up.Format(system)}
		}
	}
	return units.Measured{Value: sum, Text: sum.Format(system)}
}
