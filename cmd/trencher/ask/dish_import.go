package ask

import (
	"strings"

	"trencher/recipes"
)

// ImportQuestion asks for a dish file made from a recipe's file.
type ImportQuestion struct {
	PlotRef
	File     string
	Measures string   // whose cups and spoons; "" = the kitchen's, else metric
	Portions int      // 0 = as the recipe says
	Amounts  []string // "potatoes=900 g": amounts for lines that hold the word
}

// ImportDish makes a dish file from a recipe in JSON-LD or a page that holds
// one. It writes nothing.
func ImportDish(q ImportQuestion) (recipes.ImportedDish, error) {
	kitchen, err := kitchenOf(q.PlotRef, q.Measures)
	if err != nil {
		return recipes.ImportedDish{}, err
	}
	options := recipes.ImportOptions{System: kitchen.Measures, Portions: q.Portions}
	if options.Amounts, err = recipes.ParseAnswers(q.Amounts, kitchen.Measures); err != nil {
		return recipes.ImportedDish{}, err
	}
	return recipes.ImportDish(q.File, options, kitchen)
}

// ExportDish is a dish of the plot as a schema.org Recipe in JSON-LD.
func ExportDish(w PlotRef, name []string) ([]byte, error) {
	plot, err := Open(w)
	if err != nil {
		return nil, err
	}
	dishes := plot.Dishes()
	if err := plot.Err(); err != nil {
		return nil, err
	}
	dish, err := recipes.Find(dishes, strings.Join(name, " "))
	if err != nil {
		return nil, err
	}
	return dish.JSONLD()
}
