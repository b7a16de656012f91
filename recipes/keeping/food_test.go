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

// Where one authority is asked for, its own limits stand beside the guidance.
// The figures are those of TestLimitsOfTime and TestLimitsOfTemperature.
func TestGuidanceByOneAuthority(t *testing.T) {
	guide := func(food string, a Authority) []string {
		g, err := Guide(food)
		require.NoError(t, err)
		before := len(g.Sections)
		narrowed := g.With(a)
		assert.Len(t, g.Sections, before)
		var lines []string
		for _, s := range narrowed.Sections[before:] {
			lines = append(lines, s.Name)
			for _, line := range s.Lines {
				assert.NotEmpty(t, line.Rules, line.Says)
				lines = append(lines, line.Says)
			}
		}
		return lines
	}
	assert.Equal(t, []string{
		"Narrowed to the rules of the US",
		"In the fridge within 2 h; the fridge at 5 °C or colder.",
		"Out of the fridge up to 2 h in all it may go back; it may be eaten out there up to 2 h.",
		"Eaten within 96 h of cooking; by vulnerable people within 96 h.",
		"Kept hot at 57 °C or hotter; heated up to 74 °C in the middle.",
		"In air above 32.2 °C half the time out.",
	}, guide("mash", UnitedStates))
	assert.Equal(t, []string{
		"Narrowed to the rules of Australia and New Zealand",
		"In the fridge within 2 h; the fridge at 4.4 °C or colder.",
		"Out of the fridge under 2 h in all it may go back; it may be eaten out there up to 2 h.",
		"Eaten within 96 h of cooking; by vulnerable people within 24 h.",
		"Kept hot at 60 °C or hotter; heated up to 75 °C in the middle.",
	}, guide("garlic-oil", AustraliaAndNZ), "with what the food is stricter in")
	assert.Empty(t, guide("mash", Strictest), "the guidance is the strictest anyway")
	assert.Empty(t, guide("potatoes", UnitedKingdom), "raw potatoes are no batch")
	_, err := Guide("mashh")
	require.ErrorContains(t, err, "mashh")
}

// What goes into the freezer is told by the rules, whatever the food.
func TestFreezingIsGuided(t *testing.T) {
	freezing := Freezing()
	assert.NotEmpty(t, freezing.Name)
	var cited []string
	for _, line := range freezing.Lines {
		cited = append(cited, line.Rules...)
	}
	assert.Contains(t, cited, "freezer-18c")
	assert.Contains(t, cited, "thaw-24h")
}
