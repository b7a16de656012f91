package meal_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/harvest"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
	"trencher/units"
)

// The latest note on a dish comes first, however the dish is spelled.
func TestTastingNotes(t *testing.T) {
	note := func(dish, says string, hour int) *harvest.Note {
		n := &harvest.Note{Dish: dish, Says: says}
		n.At, n.File = clockAt(hour, 0), "journal/2031/"+says+".yaml"
		return n
	}
	notes := meal.TastingNotes([]harvest.Entry{note("Mash", "salty", 9), note("mash", "better", 10), note("Salad", "good", 11)})
	assert.Equal(t, map[string][]meal.TastingNote{
		"mash":  {{At: clockAt(10, 0), Says: "better"}, {At: clockAt(9, 0), Says: "salty"}},
		"salad": {{At: clockAt(11, 0), Says: "good"}},
	}, notes)
}

// What there is little of and what is held back are read in the plot's measures;
// the first that does not read is told by its field.
func TestHold(t *testing.T) {
	var q meal.Question
	q.Kitchen.Measures = units.Metric
	assert.NoError(t, q.Hold([]string{"butter=150 g", "milk = 2 dl"}, []string{"500 g potato"}))
	assert.Len(t, q.Limits, 2)
	assert.Equal(t, "potato", q.KeepBack[0].Crop)
	var wrong *units.FieldError
	assert.ErrorAs(t, q.Hold([]string{"butter"}, nil), &wrong)
	assert.Equal(t, "limit", wrong.Field)
	assert.ErrorAs(t, q.Hold(nil, []string{"potato"}), &wrong)
	assert.Equal(t, "keep-back", wrong.Field)
}

// A fridge of 9 °C chills nothing to 8 °C: what would be chilled is planned as
// in a kitchen without one.
func TestAWarmFridgeIsNoColdPlace(t *testing.T) {
	kinds := func(fridge string) []schedule.Kind {
		q := question(t, twoDishes(t)[1:], lot("tub-1/a", "potato", 2000, 20, 45))
		q.Kitchen = loadKitchen(t, "fridge: "+fridge+"\n")
		return kindsOf(makePlan(t, q), "Potato salad")
	}
	assert.Contains(t, kinds("7 C"), schedule.Chill)
	assert.NotContains(t, kinds("9 C"), schedule.Chill)
	assert.NotContains(t, kinds("none"), schedule.Chill)
}
