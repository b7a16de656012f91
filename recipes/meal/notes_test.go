package meal_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/harvest"
	"trencher/recipes/meal"
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
