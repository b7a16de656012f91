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
	_, kitchen, err := openKitchen(w)
	if err != nil || measures == "" {
		return kitchen, err
	}
	system, err := units.ParseSystem(measures)
	if err != nil {
		return kitchen, units.WrongField("measures", measures, "not a system of measures", "metric, uk, us or au")
	}
	kitchen.Measures, kitchen.Measure.System = system, system
	kitchen.Table = kitchen.Table.For(system)
	return kitchen, nil
}

// UnitNames lists what a unit may be called, for a shell to complete.
func UnitNames() []string {
	var names []string
	for _, u := range units.All() {
		if u.Symbol() != "" {
			names = append(names, u.Symbol())
		}
	}
	return names
}

// SystemNames lists the systems of measures.
func SystemNames() []string {
	return []string{units.Metric.String(), units.UK.String(), units.US.String(), units.AU.String()}
}

// IngredientNames lists the ingredients the kitchen's table weighs; none if
// the kitchen cannot be read.
func IngredientNames(w PlotRef) []string {
	_, kitchen, err := openKitchen(w)
	if err != nil {
		return nil
	}
	return kitchen.Table.Ingredients()
}

// StateNames lists the states of one ingredient.
func StateNames(w PlotRef, ingredient string) []string {
	_, kitchen, err := openKitchen(w)
	if err != nil {
		return nil
	}
	return kitchen.Table.States(ingredient)
}
