package meal_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes"
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
