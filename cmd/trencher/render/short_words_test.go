package render

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/recipes"
	"trencher/recipes/meal"
)

// Who is short for want of dishes is told so, whether or not there are any that are
// not for them.
func TestShortForWantOfDishes(t *testing.T) {
	short := meal.Shortfall{Guest: recipes.Guests{Count: 2}, Sides: 2, Suiting: 1, People: 2, Helpings: 2}
	assert.Equal(t, "2 × adult: 2 helpings short. Only 1 dish is there to choose from; another would mend it", shortfallWords(short))
	short.Not = []meal.NotFor{{Dish: "Mash", Why: "contains milk"}}
	assert.Equal(t, "2 × adult: 2 helpings short. Only 1 dish suits; another dish that does would mend it. Not for them: Mash (contains milk)", shortfallWords(short))
}
