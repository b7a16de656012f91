package meal

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes"
	"trencher/recipes/keeping"
)

func reckonedDish(t *testing.T, kitchen, dish string) Reckoner {
	t.Helper()
	k, err := recipes.LoadKitchen("kitchen.yaml", []byte("measures: metric\n"+kitchen))
	require.NoError(t, err)
	d, err := recipes.LoadDish("dishes/d.yaml", []byte(dish), k)
	require.NoError(t, err)
	r, err := Reckon(Question{Mode: One, On: time.Date(2031, 7, 19, 0, 0, 0, 0, time.UTC), Kitchen: k, AirC: k.RoomC, Dishes: []recipes.Dish{d}})
	require.NoError(t, err)
	return r
}

const reckonedBeans = "name: Beans\nportions: 4\nserved: hot\nsmallest: 2\nlargest: 12\ncrops:\n  - {crop: runner bean, amount: 400 g, prepared: trimmed, cut: slice 20 mm, cook: "

// The ladder has the fewest, the most and the dish's own number.
func TestReckonerLadder(t *testing.T) {
	for _, c := range []struct{ smallest, own, largest int }{{2, 4, 12}, {1, 1, 1}, {2, 3, 3}, {1, 8, 20}, {3, 4, 4}} {
		list := rungs(recipes.Dish{Smallest: c.smallest, Portions: c.own, Largest: c.largest})
		assert.Equal(t, c.smallest, list[0])
		assert.Equal(t, c.largest, list[len(list)-1])
		assert.Contains(t, list, c.own)
		assert.LessOrEqual(t, len(list), mostRungs)
		assert.IsIncreasing(t, append([]int{0}, list...))
	}
}

// The own number stands in the place of the nearest rung between the ends, the first
// of two as near.
func TestRungsInFull(t *testing.T) {
	for _, c := range []struct {
		smallest, own, largest int
		list                   []int
	}{
		{1, 8, 20, []int{1, 5, 8, 15, 20}}, {2, 4, 12, []int{2, 4, 7, 9, 12}}, {1, 1, 6, []int{1, 2, 3, 4, 6}}, {1, 6, 6, []int{1, 2, 3, 4, 6}},
		{5, 2, 3, []int{5}}, {1, 19, 20, []int{1, 5, 10, 19, 20}}, {1, 2, 20, []int{1, 2, 10, 15, 20}},
	} {
		assert.Equal(t, c.list, rungs(recipes.Dish{Smallest: c.smallest, Portions: c.own, Largest: c.largest}))
	}
}

// Beans that are steamed are a danger; boiled, none of their times is shorter than
// what makes them safe.
func TestReckonerOfWhatMustBoil(t *testing.T) {
	steamed := reckonedDish(t, "", reckonedBeans+"steam, until: tender}\n")
	require.NotEmpty(t, steamed.Dishes[0].Warnings)
	assert.Equal(t, SteamIsNotEnough, steamed.Dishes[0].Warnings[0].Concern)
	boiled := reckonedDish(t, "pot: {volume: 3 l}\n", reckonedBeans+"boil, until: just-tender}\n")
	assert.Empty(t, boiled.Dishes[0].Warnings)
	heat := boiled.Heats[0]
	require.Positive(t, heat.AtLeast)
	for _, size := range heat.Sizes {
		usual, low, high := heat.AtLeastFor(size.Estimate.Clock())
		for _, minutes := range []float64{usual, low, high} {
			assert.GreaterOrEqual(t, minutes, heat.AtLeast.Minutes())
		}
	}
}

// A hot room halves the time out; without a fridge nothing is said of one.
func TestReckonerStands(t *testing.T) {
	mild := reckonedDish(t, "", reckonedBeans+"boil, until: tender}\n").Dishes[0].Stands
	assert.Equal(t, Standing{For: 2 * time.Hour, Before: mild.Out.Before, Verdict: keeping.FineNow, Rules: mild.Out.Rules}, mild.Out)
	assert.Equal(t, time.Hour, mild.HotOut.For)
	assert.Greater(t, mild.Fridge.For, mild.WeakEat.For)
	hot := reckonedDish(t, "room: 34 C\nfridge: none\n", reckonedBeans+"boil, until: tender}\n").Dishes[0].Stands
	assert.Equal(t, hot.HotOut.For, hot.Out.For)
	assert.Zero(t, hot.Fridge)
}
