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
	switch amount.Dimension() {
	case units.Mass:
		if density, _, err := k.Table.Density(item, state); err == nil {
			o.Density = density
		}
	case units.Count:
		o.Each, o.EachName = k.weightOfOne(amount.Unit(), item, state)
	}
	m := k.Measure.Measure(amount, o)
	if m.Alternative == "" && state != "" {
		m.Alternative = k.byWeight(amount, item, state)
	}
	return m
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

// byWeight offers the weight of what would fill more than four tablespoons.
func (k Kitchen) byWeight(amount units.Quantity, item, state string) string {
	const tablespoons = 60 // ml
	if amount.Dimension() != units.Volume {
		return ""
	}
	if ml, err := amount.In(units.Millilitre); err != nil || ml.Rat().Cmp(big.NewRat(tablespoons, 1)) <= 0 {
		return ""
	}
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
