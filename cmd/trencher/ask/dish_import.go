package ask

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"trencher/recipes"
	"trencher/units"
	"trencher/units/strict"
)

// ImportQuestion asks for a dish file made from a recipe's file.
type ImportQuestion struct {
	PlotRef
	File     string
	Measures string   // whose cups and spoons; "" = the kitchen's, else metric
	Portions int      // 0 = as the recipe says
	Amounts  []string // "potatoes=900 g": amounts for lines that hold the word
}

// ImportedDish is the dish file made of a recipe.
type ImportedDish struct {
	Name     string
	Portions int
	Text     string // the dish file
	From     string // the file it was read from
	File     string // where it was written; "" = nowhere yet
}

// ImportDish makes a dish file from a recipe in JSON-LD or a page that holds
// one. It writes nothing.
func ImportDish(q ImportQuestion) (ImportedDish, error) {
	kitchen, err := kitchenOf(q.PlotRef, q.Measures)
	if err != nil {
		return ImportedDish{}, err
	}
	options := recipes.ImportOptions{System: kitchen.Measures, Portions: q.Portions}
	if q.Portions < 0 || q.Portions > recipes.MaxPortions {
		return ImportedDish{}, units.WrongField("portions", fmt.Sprint(q.Portions), "no number of portions", fmt.Sprintf("1 to %d", recipes.MaxPortions))
	}
	if options.Amounts, err = answers(q.Amounts, kitchen.Measures); err != nil {
		return ImportedDish{}, err
	}
	data, err := readRecipe(q.File)
	if err != nil {
		return ImportedDish{}, err
	}
	text, err := recipes.ImportRecipe(q.File, data, options)
	if err != nil {
		return ImportedDish{}, err
	}
	dish, err := recipes.LoadDish(q.File, []byte(text), kitchen)
	if err != nil {
		return ImportedDish{}, err
	}
	return ImportedDish{Name: dish.Name, Portions: dish.Portions, Text: text, From: q.File}, nil
}

// answers reads the amounts given for lines.
func answers(given []string, system units.System) (map[string]units.Quantity, error) {
	amounts := map[string]units.Quantity{}
	for _, text := range given {
		line, amount, ok := strings.Cut(text, "=")
		if !ok || strings.TrimSpace(line) == "" {
			return nil, units.WrongField("amount", text, "which line, and how much of it?", "a word of the line and its amount: potatoes=900 g")
		}
		q, err := units.Parse(strings.TrimSpace(amount), system)
		if err != nil {
			return nil, units.InField("amount", text, err)
		}
		switch q.Dimension() {
		case units.Temperature, units.Area, units.Power, units.Time, units.Energy, units.Pressure:
			return nil, units.WrongField("amount", text, "no amount of an ingredient", "a weight, a volume, a number of pieces, or to taste")
		}
		amounts[strings.TrimSpace(line)] = q
	}
	return amounts, nil
}

// maxRecipe is far above any page that holds a recipe.
const maxRecipe = 16 << 20

func readRecipe(path string) ([]byte, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, &strict.Error{File: path, Problem: "cannot be read: " + plainReason(err), Accepted: "the path of a saved recipe, .json or .html"}
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, maxRecipe+1))
	if err != nil {
		return nil, &strict.Error{File: path, Problem: "cannot be read: " + plainReason(err), Accepted: "the path of a saved recipe, .json or .html"}
	}
	return data, nil
}

func plainReason(err error) string {
	var at *os.PathError
	if errors.As(err, &at) {
		return at.Err.Error()
	}
	return err.Error()
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
	dish, err := findDish(dishes, strings.Join(name, " "))
	if err != nil {
		return nil, err
	}
	return dish.JSONLD()
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
