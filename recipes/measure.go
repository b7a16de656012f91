package recipes

import (
	"fmt"
	"math/big"
	"strings"

	"trencher/units"
)

// MeasureOut says how an amount of an ingredient is measured out in this
// kitchen. What is too little for the scales goes into a spoon where the
// measures table knows its density; salt, raising agents and chilli are
// rounded down; a count that rounding moves far, and chopped things past four
// tablespoons, have their weight beside them. The weighed crop is never
// passed through here.
func (k Kitchen) MeasureOut(amount units.Quantity, item, state string) units.Measured {
	return k.measureOut(amount, item, state, units.MeasureOptions{})
}

func (k Kitchen) measureOut(amount units.Quantity, item, state string, o units.MeasureOptions) units.Measured {
	o.RoundDown = roundsDown(item)
	if amount.Dimension() == units.Count {
		o.Knife = k.knife(amount.Unit(), item, state)
	}
	if amount.Dimension() == units.Mass && under(amount, units.Gram, spoonBelow) {
		if density, _, err := k.Table.Density(item, state); err == nil {
			o.Density = density
		}
	}
	m := k.Measure.Measure(amount, o)
	if m.Flag && amount.Dimension() == units.Count { // the table is asked only where it can help
		o.Each, o.EachName = k.weightOfOne(amount.Unit(), item, state)
		m = k.Measure.Measure(amount, o)
	}
	if m.Alternative == "" && state != "" && amount.Dimension() == units.Volume && !under(amount, units.Millilitre, weighAbove) {
		m.Alternative = k.byWeight(amount, item, state)
	}
	return m
}

// Below two grams a spoon is surer than the scales, up to five it may be nearer; above four tablespoons the
// scales are surer than a spoon.
var (
	spoonBelow = big.NewRat(5, 1)
	weighAbove = big.NewRat(61, 1)
)

func under(amount units.Quantity, unit units.Unit, limit *big.Rat) bool {
	q, err := amount.In(unit)
	return err == nil && q.Rat().Cmp(limit) < 0
}

// What a knife cuts well: halves from 20 g on, quarters from 80 g on (common
// practice, no source).
var (
	halvedFrom    = big.NewRat(20, 1)
	quarteredFrom = big.NewRat(80, 1)
)

// knife is into how many parts a piece can be cut: an onion into quarters, an
// egg not at all. A tin is half poured out.
func (k Kitchen) knife(unit units.Unit, item, state string) int {
	one, _ := k.weightOfOne(unit, item, state)
	switch {
	case unit.IsPack():
		return 2
	case isEgg(item) || !one.IsValid() || under(one.High(), units.Gram, halvedFrom):
		return 0
	case under(one, units.Gram, quarteredFrom):
		return 2
	}
	return 4
}

// weightOfOne is what one piece weighs, for the weighed alternative: of an
// egg the beaten inside.
func (k Kitchen) weightOfOne(unit units.Unit, item, state string) (units.Quantity, string) {
	one, err := k.Table.Convert(units.FromRat(big.NewRat(1, 1), unit), units.Gram, item, state)
	if err != nil {
		return units.Quantity{}, ""
	}
	if isEgg(item) {
		return one.Quantity, "beaten egg"
	}
	return one.Quantity, item
}

func isEgg(item string) bool {
	c := Allergens(item)
	return c.Row == "egg"
}

// byWeight offers the weight of what would be many spoons; "" without a row.
func (k Kitchen) byWeight(amount units.Quantity, item, state string) string {
	weight, err := k.Table.Convert(amount, units.Gram, item, state)
	if err != nil {
		return ""
	}
	return fmt.Sprintf("or %s by weight", k.Measure.Measure(weight.Quantity, units.MeasureOptions{}).Text)
}

// roundsDown tells what is better short than over: salt, raising agents,
// chilli.
func roundsDown(item string) bool {
	switch row := Allergens(item).Row; row {
	case "salt", "celery salt", "chilli", "cayenne", "hot pepper sauce", "harissa", "yeast",
		"baking powder", "bicarbonate of soda", "cream of tartar":
		return true
	}
	return strings.Contains(fold(item), "salt") && !Allergens(item).Known
}
