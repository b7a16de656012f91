package ask

import (
	"strings"

	"trencher/harvest"
	"trencher/recipes"
)

// ImportQuestion asks for a dish file made from a recipe.
type ImportQuestion struct {
	PlotRef
	recipes.ImportWords
	File     string // named in errors
	Text     []byte // the recipe, where it stands in no file
	Measures string // whose cups and spoons; "" = the kitchen's, else metric
	Again    bool   // it may have been written before: found word for word, it is well
}

// ImportDish reads a recipe, in any form [recipes.ImportRecipe] knows, and makes
// a dish file of it. It writes nothing.
func ImportDish(q ImportQuestion) (recipes.Imported, error) {
	kitchen, err := kitchenOf(q.PlotRef, q.Measures)
	if err != nil {
		return recipes.Imported{}, err
	}
	options, err := q.Options(kitchen.Measures)
	if err != nil {
		return recipes.Imported{}, err
	}
	if plantings, err := Plantings(q.PlotRef); err == nil {
		options.Grown = recipes.CropNames(harvest.CropsOf(plantings))
	}
	if q.Text != nil {
		return recipes.ImportText(q.File, q.Text, options, kitchen)
	}
	return recipes.ImportDish(q.File, options, kitchen)
}

// AddDish reads a recipe as ImportDish does and writes its dish file into the
// plot, under the dish's name. What the recipe leaves open is its error.
func AddDish(q ImportQuestion) (recipes.Imported, error) {
	imported, err := ImportDish(q)
	if err == nil && len(imported.Open) > 0 {
		err = imported.Open
	}
	if err != nil {
		return imported, err
	}
	plot, err := openMeasures(q.PlotRef)
	if err != nil {
		return imported, err
	}
	if q.Again && plot.folder.HasDish(imported.Dish.Stem(), imported.Text) {
		return imported, nil
	}
	imported.File, err = plot.folder.WriteDish(imported.Dish.Stem(), imported.Text)
	return imported, err
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
