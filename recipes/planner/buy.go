package planner

import (
	"slices"

	"trencher/units"
)

// Item is one measured ingredient of one dish.
type Item struct {
	Item, State string
	Dish        string
	Exact       units.Quantity // as scaled; may be a range or to taste
	Measured    units.Quantity // as the cook measures it
	Optional    bool
	FromPlot    bool
}

// Want is what to pick or to buy of one ingredient, over all dishes.
type Want struct {
	Item, State string
	Dishes      []string       // in the order of the dishes
	Exact       units.Quantity // the sum of the exact amounts
	Measured    units.Quantity // the sum of what the dishes measure out: what to have
	Optional    bool
}

// Wants sums the ingredients of all dishes into what to pick from the plot and
// what to buy, in the order of their first use. Amounts of one dimension are
// added exactly; what cannot be added without weighing (two spoons and a
// bunch) stays in lines of its own, and so does what is only optional.
func Wants(items []Item) (pick, buy []Want) {
	for _, item := range items {
		list := &buy
		if item.FromPlot {
			list = &pick
		}
		*list = put(*list, item)
	}
	return pick, buy
}

// put adds an item to the line it fits, or starts a new one.
func put(wants []Want, item Item) []Want {
	for i := range wants {
		if w, ok := wants[i].plus(item); ok {
			wants[i] = w
			return wants
		}
	}
	return append(wants, Want{Item: item.Item, State: item.State, Dishes: []string{item.Dish},
		Exact: item.Exact, Measured: item.Measured, Optional: item.Optional})
}

// plus adds an item to a line; ok is false where they do not go together.
func (w Want) plus(item Item) (sum Want, ok bool) {
	if w.Item != item.Item || w.State != item.State || w.Optional != item.Optional ||
		w.Exact.IsToTaste() != item.Exact.IsToTaste() {
		return w, false
	}
	if !w.Exact.IsToTaste() {
		var err error
		if w.Exact, err = w.Exact.Add(item.Exact); err != nil {
			return w, false
		}
		if w.Measured, err = w.Measured.Add(item.Measured); err != nil {
			return w, false
		}
	}
	if !slices.Contains(w.Dishes, item.Dish) {
		w.Dishes = append(slices.Clone(w.Dishes), item.Dish)
	}
	return w, true
}
