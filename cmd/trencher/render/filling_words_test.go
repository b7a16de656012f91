package render

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/recipes"
	"trencher/recipes/meal"
)

// A steamer filled more often than was asked for is told with both numbers, and
// with what is in each filling.
func TestFillingWords(t *testing.T) {
	plan := meal.Plan{
		Rounds: 1,
		Dishes: []meal.Dish{{Recipe: recipes.Dish{Name: "Cold salad"}}, {Recipe: recipes.Dish{Name: "Mash"}}},
		Runs:   []meal.Run{{Parts: []meal.PartAt{{Dish: 0}, {Dish: 0, Part: 1}}}, {Parts: []meal.PartAt{{Dish: 1}, {Dish: 0}}}},
	}
	assert.Equal(t, "the steamer is filled 2 times, not 1 time at most as you asked (1. Cold salad, 2. Mash and Cold salad): "+
		"in fewer, food would be past its limits or not fit", warningWords(meal.Warning{Concern: meal.MoreRounds, Rounds: 1}, plan))
}
