package recipes

import (
	"fmt"
	"strings"

	"trencher/units"
)

// ImportDish reads a saved recipe and makes a dish file of it, as [ImportRecipe]
// does. It writes nothing. Its errors are those of [ReadSaved] and
// [ImportRecipe], or a [units.FieldError] of portions.
func ImportDish(file string, options ImportOptions, kitchen Kitchen) (Imported, error) {
	data, err := ReadSaved(file)
	if err != nil {
		return Imported{}, err
	}
	return ImportText(file, data, options, kitchen)
}

// ImportText is ImportDish for a recipe that stands in no file.
func ImportText(name string, data []byte, options ImportOptions, kitchen Kitchen) (Imported, error) {
	if options.Portions < 0 || options.Portions > MaxPortions {
		return Imported{}, units.WrongField("portions", fmt.Sprint(options.Portions), "no number of portions", ImportPortionsAccepted)
	}
	return ImportRecipe(name, data, options, kitchen)
}

// Stem is what a dish's file is called by its name, without ".yaml": its letters
// and digits, words parted by hyphens.
func (d Dish) Stem() string {
	words := strings.FieldsFunc(fold(d.Name), func(c rune) bool { return (c < 'a' || c > 'z') && (c < '0' || c > '9') })
	stem := strings.Join(words, "-")
	stem = strings.Trim(stem[:min(len(stem), longestName)], "-")
	if stem == "" {
		return "dish"
	}
	return stem
}

// RecipeReasons says what form an exported dish has.
func RecipeReasons() []units.Reason {
	return []units.Reason{units.Why("form", "one Recipe", "schema.org vocabulary, Recipe, in JSON-LD", "read")}
}

// Reasons says how a recipe was read.
func (d Imported) Reasons() []units.Reason {
	return append(RecipeReasons(),
		units.Why("cups, pints and spoons", "by the system named beside them", "the measures asked for, else the plot's kitchen.yaml, else metric", "given"),
		units.Why("lines marked check", "to be settled by the cook", "the recipe does not say it", "given"))
}
