package meal_test

import (
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes"
	"trencher/recipes/meal"
	"trencher/units"
)

// One good is one line over dishes, whatever a line calls it and whatever is done
// to it at home; what only looks like it is not.
func TestOneGoodIsOneLine(t *testing.T) {
	kitchen := recipes.DefaultKitchen(units.UK)
	var dishes []meal.Dish
	for i, lines := range []string{
		"  - {item: butter, amount: 125 g}\n  - {item: scallions, amount: 2}\n  - {item: parsley, amount: 1 tbsp, state: chopped}\n  - {item: peas, amount: 100 g, state: frozen}\n  - {item: plain flour, amount: 25 g}\n",
		"  - {item: butter, amount: 2 tbsp}\n  - {item: spring onion, amount: 3}\n  - {item: parsley, amount: 2 tbsp, state: torn}\n  - {item: peas, amount: 100 g}\n  - {item: plain flour, amount: 500 g}\n",
		"  - {item: butter, amount: 1 tsp, state: melted}\n  - {item: peanut butter, amount: 1 tbsp}\n  - {item: single cream, amount: 50 ml}\n  - {item: double cream, amount: 50 ml}\n  - {item: olive oil, amount: 2 tbsp}\n",
	} {
		recipe := loadDish(t, "d.yaml", strings.Split(crushed, "others:")[0]+"others:\n"+lines+"method: [Steam.]\n")
		recipe.Name = string(rune('A' + i))
		dishes = append(dishes, meal.Dish{Recipe: recipe, Scaled: recipe.ScaleTo(big.NewRat(int64(recipe.Portions), 1), kitchen)})
	}
	_, buy := meal.Wants(dishes, kitchen)
	lines := map[string]string{}
	for _, want := range buy {
		_, twice := lines[want.Item+want.State]
		require.False(t, twice, "%s stands twice", want.Item)
		lines[want.Item+want.State] = want.Have.Text + " " + strings.Join(want.Dishes, "")
	}
	assert.Equal(t, map[string]string{
		"butter":    "160 g ABC", // 125 g, and 7 tsp of 4.8 g each: 227 g a US cup (USDA SR28, NDB 01001 seq 3)
		"scallions": "5 AB", "parsley": "3 tbsp AB", "peasfrozen": "100 g A", "peas": "100 g B", "plain flour": "530 g AB",
		"peanut butter": "1 tbsp C", "single cream": "50 ml C", "double cream": "50 ml C", "olive oil": "2 tbsp C",
	}, lines)
	var cupboard []string
	for _, want := range (meal.Plan{Buy: buy}).InCupboard() {
		cupboard = append(cupboard, want.Item)
	}
	assert.Equal(t, []string{"olive oil"}, cupboard, "half a kilo of flour is bought")
}
