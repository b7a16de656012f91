package ask

import (
	"strings"

	"trencher/recipes/planner"
	"trencher/units"
)

// tellShopping sums the ingredients of all dishes into what to pick from the
// plot and what to buy.
func (s *sharing) tellShopping() {
	var items []planner.Item
	for _, told := range s.plan.Dishes {
		for _, line := range s.scaled[told.Name].Others {
			if isWater(line.Item) {
				continue
			}
			items = append(items, planner.Item{Item: line.Item, State: line.State, Dish: told.Name, Exact: line.Exact,
				Measured: line.Measured.Value, Optional: line.Optional, FromPlot: line.FromPlot})
		}
	}
	pick, buy := planner.Wants(items)
	s.plan.Pick, s.plan.Buy = s.wanted(pick, true), s.wanted(buy, false)
}

func isWater(item string) bool { return strings.EqualFold(strings.TrimSpace(item), "water") }

// wanted words the sums: what to have is the sum of what the dishes measure
// out.
func (s *sharing) wanted(wants []planner.Want, plot bool) []Line {
	var lines []Line
	for _, want := range wants {
		line := Line{Item: want.Item, State: want.State, Optional: want.Optional, FromPlot: plot, Dishes: want.Dishes}
		tellAmount(&line, want.Exact)
		line.Measured = want.Exact.String()
		if !want.Exact.IsToTaste() {
			measured := s.plot.Kitchen.MeasureOut(want.Measured, want.Item, want.State)
			line.Measured = measured.Text
			if less, err := measured.Value.Compare(want.Measured); err != nil || less < 0 {
				line.Measured = s.enough(want.Measured)
			}
		}
		lines = append(lines, line)
	}
	return lines
}

// enough writes a sum that the kitchen's own measures would round down: up to
// the next gram or the next 5 ml, so that what is fetched is not too little.
func (s *sharing) enough(sum units.Quantity) string {
	_, most := sum.Ends()
	for _, unit := range []struct {
		unit units.Unit
		step int64
	}{{units.Gram, 1}, {units.Millilitre, 5}} {
		high, err := units.FromRat(most, sum.Unit()).In(unit.unit)
		if err == nil {
			return upTo(high.Rat(), unit.step) + " " + unitName(unit.unit.Code())
		}
	}
	return sum.Format(s.plot.Kitchen.Measures)
}
