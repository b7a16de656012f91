package recipes_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes"
	"trencher/units"
)

// hiddenPlaces are where a recipe can hide what is in it: the state of an
// ingredient, of an alternative, a step, the title, what stands in brackets beside
// an ingredient of an imported recipe, a step of one.
var hiddenPlaces = []struct {
	name string
	dish func(t *testing.T, phrase string) recipes.Dish
}{
	{"state", func(t *testing.T, phrase string) recipes.Dish {
		return loaded(t, fmt.Sprintf("name: Supper\nothers: [{item: onion, amount: 50 g, state: %q}]\n", phrase))
	}},
	{"method", func(t *testing.T, phrase string) recipes.Dish {
		return loaded(t, fmt.Sprintf("name: Supper\nmethod: [Steam the swede., %q]\n", "Serve it "+phrase+" and plenty of parsley."))
	}},
	{"title", func(t *testing.T, phrase string) recipes.Dish {
		return loaded(t, fmt.Sprintf("name: %q\n", "Steamed swede "+phrase))
	}},
	{"remainder", func(t *testing.T, phrase string) recipes.Dish {
		return imported(t, fmt.Sprintf(`["600 g potatoes", "50 g onion (%s)"]`, phrase), `["Steam."]`)
	}},
	{"line", func(t *testing.T, phrase string) recipes.Dish {
		return imported(t, fmt.Sprintf(`["600 g potatoes", "1 onion, chopped, %s"]`, phrase), `["Steam."]`)
	}},
	{"imported step", func(t *testing.T, phrase string) recipes.Dish {
		return imported(t, `["600 g potatoes"]`, fmt.Sprintf(`["Steam them.", "Serve %s."]`, strings.ToUpper(phrase[:1])+phrase[1:]))
	}},
}

// labelled are the rows of a list of guests' cases and of the second and the third
// one, which were written before they were first run.
func labelled(t *testing.T, list string) (rows [][]string) {
	t.Helper()
	for _, name := range []string{list, list + "-2", list + "-3"} {
		file, err := os.Open("../testdata/guests/" + name + ".csv")
		require.NoError(t, err)
		defer file.Close()
		more, err := csv.NewReader(file).ReadAll()
		require.NoError(t, err)
		rows = append(rows, more[1:]...)
	}
	return rows
}

func loaded(t *testing.T, text string) recipes.Dish {
	t.Helper()
	head, rest, _ := strings.Cut(text, "\n")
	dish, err := recipes.LoadDish("d.yaml", []byte(head+"\nportions: 4\ncrops: [{crop: swede, amount: 800 g, prepared: as-lifted, cut: halves}]\n"+rest), recipes.DefaultKitchen(units.Metric))
	require.NoError(t, err)
	return dish
}

func imported(t *testing.T, ingredients, steps string) recipes.Dish {
	t.Helper()
	page := fmt.Sprintf(`{"@context":"https://schema.org","@type":"Recipe","name":"Supper","recipeYield":"4","recipeIngredient":%s,"recipeInstructions":%s}`, ingredients, steps)
	im, err := recipes.ImportRecipe("r.json", []byte(page), recipes.ImportOptions{System: units.Metric}, recipes.DefaultKitchen(units.Metric))
	require.NoError(t, err, ingredients)
	require.Empty(t, im.Open, ingredients)
	return im.Dish
}

// More than 300 recipes in free text, each with one of the fourteen, meat or honey
// hidden in it (phrases invented; the carriers those of Regulation (EU) No
// 1169/2011, Annex II, and of the allergen lists of the FSA): not one is told to suit
// a guest who must not have it.
func TestNoRecipeHidesWhatAGuestMustNotHave(t *testing.T) {
	rows := labelled(t, "hidden")
	tried := 0
	for i, row := range rows {
		for p := range 3 { // three places each, all places in turn
			place := hiddenPlaces[(i+2*p)%len(hiddenPlaces)]
			if p == 1 {
				place = hiddenPlaces[(i+3)%len(hiddenPlaces)]
			}
			diet, err := recipes.ParseDiet("no " + row[1])
			require.NoError(t, err)
			suits, _ := place.dish(t, row[0]).Suits(diet)
			assert.False(t, suits, "%q in the %s hides %s", row[0], place.name, row[1])
			tried++
		}
	}
	assert.GreaterOrEqual(t, tried, 300)
}

// 500 names of plain produce, water, salt and herbs, as a shop or a cook writes them
// (known_by: practice): at most one in a hundred is left to "may contain anything",
// and none is told to hold one of the fourteen but celery, mustard leaf and what the
// label of a bought juice says.
func TestPlainNamesOfProduceAreKnown(t *testing.T) {
	var names []string
	for _, list := range []string{"produce", "produce-2", "produce-3"} {
		data, err := os.ReadFile("../testdata/guests/" + list + ".txt")
		require.NoError(t, err)
		names = append(names, strings.Split(strings.TrimSpace(string(data)), "\n")...)
	}
	require.GreaterOrEqual(t, len(names), 560)
	var unknown []string
	for _, name := range names {
		made := recipes.Allergens(name)
		if !made.Known {
			unknown = append(unknown, name)
			continue
		}
		for _, allergen := range made.Contains() {
			assert.Contains(t, []recipes.Allergen{recipes.Celery, recipes.Mustard}, allergen, name)
		}
	}
	assert.LessOrEqual(t, len(unknown)*100, len(names), "%q", unknown)
}
