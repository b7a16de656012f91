package meal_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes"
	"trencher/recipes/meal"
	"trencher/recipes/planner"
)

// What is steamed alike is one load, of whole layers, whatever the lots are like;
// all layers together fit the fillings asked for.
func TestLoadsFitTheSteamer(t *testing.T) {
	waxy := lot("tub-1/a", "potato", 9000, 20, 45)
	waxy.Texture = "waxy"
	q := question(t, twoDishes(t), waxy)
	free := makePlan(t, q)
	require.Len(t, free.Loads, 2)
	assert.Equal(t, "potato any cube 30 mm tender", free.Loads[0].Class)
	assert.Equal(t, []string{"Crushed potatoes"}, free.Loads[0].Dishes)
	assert.Equal(t, "1080", free.Loads[0].Grams.String(), "six portions of 180 g scrubbed")
	layers := 0
	for _, l := range free.Loads {
		assert.Equal(t, l.Grams.Div(l.PerLayer).Ceil().IntPart(), int64(l.Layers))
		layers += l.Layers
	}
	require.Greater(t, layers, 2)
	q.Layers = layers - 1
	tight := makePlan(t, q)
	assert.Less(t, tight.Levels.Portions, free.Levels.Portions)
	require.NotEmpty(t, tight.Bounds)
	assert.Equal(t, planner.SteamerFull, tight.Bounds[0].Kind)
	assert.Equal(t, "1", tight.Bounds[0].Amount.RatString())
	q.Layers, q.Rounds = 0, 1
	once := makePlan(t, q)
	assert.LessOrEqual(t, once.Rounds, 1)
}

// Fillings asked for bind the portions by their layers; where the timetable takes
// more all the same, it says so, with the number asked for.
func TestMoreFillingsThanAskedForAreTold(t *testing.T) {
	told := 0
	for rounds := range 4 {
		q := question(t, twoDishes(t), lot("tub-1/a", "potato", 3000, 20, 45), lot("tub-1/b", "potato", 2000, 45, 65))
		q.Guests, q.Sides, q.Rounds = []recipes.Guests{{Count: 4}}, 2, rounds
		plan := makePlan(t, q)
		assert.True(t, rounds == 0 || plan.Rounds <= rounds, "by layers it fits")
		at := slices.IndexFunc(plan.Warnings, func(w meal.Warning) bool { return w.Concern == meal.MoreRounds })
		require.Equal(t, rounds > 0 && len(plan.Runs) > rounds, at >= 0, "%d fillings for %d asked for", len(plan.Runs), rounds)
		if at >= 0 {
			told++
			assert.Equal(t, meal.Warning{Severity: meal.Shortcoming, Concern: meal.MoreRounds, Rounds: rounds}, plan.Warnings[at])
		}
	}
	assert.Equal(t, 1, told, "a cold and a hot dish steam apart: two fillings where one was asked for")
}

// Two adults of one side each get two portions of one dish, not ten of five.
func TestTwoAdultsGetWhatTheyEat(t *testing.T) {
	q := question(t, twoDishes(t), lot("tub-1/a", "potato", 9000, 20, 45))
	q.Guests, q.Sides = []recipes.Guests{{Count: 2}}, 1
	plan := makePlan(t, q)
	assert.Equal(t, []int{2}, plan.Levels.Fed)
	assert.Len(t, plan.Dishes, 1)
	assert.Equal(t, 2, plan.Levels.Portions)
	assert.Empty(t, plan.Short)
}
