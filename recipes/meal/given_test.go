package meal_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes"
	"trencher/recipes/meal"
	"trencher/units"
)

// How many cook is a whole number of people; nothing typed is the kitchen's own.
func TestHowManyPeopleCook(t *testing.T) {
	for typed, want := range map[string]int{"": 3, "1": 1, "2": 2, " 8 ": 8} {
		q := meal.Question{Kitchen: recipes.Kitchen{Hands: 3}}
		require.NoError(t, q.Give(meal.GivenWords{Hands: typed}, units.Clock{}), typed)
		assert.Equal(t, want, q.Kitchen.Hands, typed)
	}
	for _, typed := range []string{"0", "-1", "9", "1.5", "two", " "} {
		var wrong *units.FieldError
		q := meal.Question{}
		require.ErrorAs(t, q.Give(meal.GivenWords{Hands: typed}, units.Clock{}), &wrong, typed)
		assert.Equal(t, "hands", wrong.Field, typed)
		assert.Equal(t, "a whole number from 1 to 8", wrong.Accepted, typed)
	}
}
