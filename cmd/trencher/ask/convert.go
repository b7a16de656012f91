package ask

import (
	"trencher/recipes"
	"trencher/units"
	"trencher/units/measures"
)

// ConvertQuestion asks for an amount in another unit.
type ConvertQuestion struct {
	PlotRef
	measures.Question
	Measures string // the system; "" = the kitchen's, else metric
}

// Convert converts an amount by the kitchen of the plot, where there is one.
func Convert(q ConvertQuestion) (measures.Answer, error) {
	kitchen, err := kitchenOf(q.PlotRef, q.Measures)
	if err != nil {
		return measures.Answer{}, err
	}
	return kitchen.Table.Answer(q.Question, kitchen.Measure)
}

// kitchenOf is the plot's kitchen, where there is one; a system that is asked
// for outranks its measures.
func kitchenOf(w PlotRef, measures string) (recipes.Kitchen, error) {
	kitchen, err := Kitchen(w)
	if err != nil || measures == "" {
		return kitchen, err
	}
	system, err := units.ParseSystem(measures)
	if err != nil {
		return kitchen, units.WrongField("measures", measures, "not a system of measures", "metric, uk, us or au")
	}
	return kitchen.In(system), nil
}

// Kitchen is the kitchen of the plot, where there is one, else a metric one.
func Kitchen(w PlotRef) (recipes.Kitchen, error) {
	_, kitchen, err := openKitchen(w)
	return kitchen, err
}
