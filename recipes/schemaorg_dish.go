package recipes

import (
	"fmt"

	"trencher/units"
)

// ImportedDish is the dish file made of a recipe.
type ImportedDish struct {
	Name     string
	Portions int
	Text     string // the dish file
	From     string // the file it was read from
	File     string // where it was written; "" = nowhere yet
}

// ImportDish makes a dish file from a saved recipe, and loads it in a kitchen. It
// writes nothing. Its errors are those of [ReadSaved] and [ImportRecipe], or a
// [units.FieldError] of portions.
func ImportDish(file string, options ImportOptions, kitchen Kitchen) (ImportedDish, error) {
	if options.Portions < 0 || options.Portions > MaxPortions {
		return ImportedDish{}, units.WrongField("portions", fmt.Sprint(options.Portions), "no number of portions", fmt.Sprintf("1 to %d", MaxPortions))
	}
	data, err := ReadSaved(file)
	if err != nil {
		return ImportedDish{}, err
	}
	text, err := ImportRecipe(file, data, options)
	if err != nil {
		return ImportedDish{}, err
	}
	dish, err := LoadDish(file, []byte(text), kitchen)
	if err != nil {
		return ImportedDish{}, err
	}
	return ImportedDish{Name: dish.Name, Portions: dish.Portions, Text: text, From: file}, nil
}

// RecipeReasons says what form an exported dish has.
func RecipeReasons() []units.Reason {
	return []units.Reason{units.Why("form", "one Recipe", "schema.org vocabulary, Recipe, in JSON-LD", "read")}
}

// Reasons says how a recipe was read.
func (d ImportedDish) Reasons() []units.Reason {
	return append(RecipeReasons(),
		units.Why("cups, pints and spoons", "by the system named beside them", "the measures asked for, else the plot's kitchen.yaml, else metric", "given"),
		units.Why("lines marked check", "to be settled by the cook", "the recipe does not say it", "given"))
}
