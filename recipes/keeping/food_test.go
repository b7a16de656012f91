package keeping

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

func TestFoodsByOtherNames(t *testing.T) {
	for name, id := range map[string]string{
		"potato salad": "dressed-salad", "Potato Salad": "dressed-salad", "potato-salad": "dressed-salad", "salads": "dressed-salad",
		"mashed potatoes": "mash", "steamed potato": "boiled-potatoes", "potato": "potatoes", "Potatoes": "potatoes",
		"foil potatoes": "baked-in-foil", "baked potato": "baked-in-foil", "garlic in oil": "garlic-oil", "herb butter": "herb-butter",
		"beetroot": "cooked-vegetables", "carrot": "cooked-vegetables", "purée": "mash", "ramsons": "wild-garlic", "marsh marigold": "edible-flowers",
	} {
		food, err := LookupFood(name)
		require.NoError(t, err, name)
		assert.Equal(t, id, food.ID, name)
	}
	for _, name := range []string{"", "pizza", "potato salad surprise"} {
		_, err := LookupFood(name)
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong)
		assert.Contains(t, wrong.Hint(), "boiled-potatoes")
	}
}

func TestGuidanceIsWhole(t *testing.T) {
	for _, id := range FoodIDs() {
		g, err := Guide(id)
		require.NoError(t, err)
		assert.NotEmpty(t, g.Short, id)
		assert.NotContains(t, g.Short, "{")
		assert.Equal(t, Cautions(false), g.Cautions)
		for _, s := range g.Sections {
			assert.NotEmpty(t, s.Name)
			for _, line := range s.Lines {
				assert.NotEmpty(t, line.Rules, line.Says)
				assert.NotContains(t, line.Says, "{", "a figure not filled in")
			}
		}
	}
}
