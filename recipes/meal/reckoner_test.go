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

// What cannot be reckoned is refused with the dish it is about; what was odd about the
// files is told; each way of cooking stands once with all its dishes.
func TestWhatAReckonerRefusesAndTells(t *testing.T) {
	question := func(kitchen string, dishes ...string) Question {
		k, err := recipes.LoadKitchen("kitchen.yaml", []byte("measures: metric\n"+kitchen))
		require.NoError(t, err)
		q := Question{Mode: One, On: time.Date(2031, 7, 19, 0, 0, 0, 0, time.UTC), Kitchen: k, AirC: k.RoomC}
		for _, text := range dishes {
			d, err := recipes.LoadDish("dishes/d.yaml", []byte(text), k)
			require.NoError(t, err)
			q.Dishes = append(q.Dishes, d)
		}
		return q
	}
	potatoes := func(name, cut, cook string) string {
		return "name: " + name + "\nportions: 4\nserved: hot\ncrops:\n  - {crop: potato, amount: 700 g, prepared: peeled, cut: " + cut + ", cook: " + cook + "}\nmethod: [Cook.]\n"
	}
	for about, q := range map[string]Question{
		"steam":  question("", potatoes("Whole", "whole 200 mm", "steam, until: soft")),
		"boil":   question("pot: {volume: 5 l}\n", potatoes("Whole", "whole 200 mm", "boil, until: soft")),
		"no way": question("stove: {power: 200 W}\n", potatoes("Whole", "cube 25 mm", "steam, until: soft")),
	} {
		_, err := Reckon(q)
		require.Error(t, err, about)
		assert.Contains(t, err.Error(), "Whole", about)
	}
	q := question("", potatoes("Mash", "cube 25 mm", "steam, until: soft"))
	q.Kitchen.Authority = "nobody"
	_, err := Reckon(q)
	require.ErrorContains(t, err, "Mash")

	steam, boil := "steam, until: soft", "boil, until: soft"
	q = question("", potatoes("Mash", "cube 25 mm", steam), potatoes("Crushed", "cube 25 mm", steam), potatoes("Large", "cube 30 mm", steam), potatoes("Boiled", "cube 25 mm", boil),
		potatoes("Tender", "cube 25 mm", "steam, until: tender"), potatoes("Own", "cube 25 mm", "own, takes: 30 min, uses: oven"), potatoes("Longer", "cube 25 mm", "own, takes: 40 min, uses: oven"), potatoes("Grilled", "cube 25 mm", "own, takes: 40 min, uses: grill"))
	q.Remarks, q.KnifeTests = []string{"a file was left out"}, nil
	r, err := Reckon(q)
	require.NoError(t, err)
	assert.Equal(t, []Warning{{Severity: Notice, Concern: Remark, Says: "a file was left out"}}, r.Warnings)
	var ways [][]string
	for _, h := range r.Heats {
		ways = append(ways, h.Dishes)
	}
	assert.Equal(t, [][]string{{"Mash", "Crushed"}, {"Large"}, {"Boiled"}, {"Tender"}, {"Own"}, {"Longer"}, {"Grilled"}}, ways)
	require.Len(t, r.Heats[0].Loads, 3)
	assert.Equal(t, []float64{500, 1000, 2000}, []float64{r.Heats[0].Loads[0].Grams, r.Heats[0].Loads[1].Grams, r.Heats[0].Loads[2].Grams})
	assert.NotNil(t, r.Heats[0].Loads[0].Steamed)
	assert.NotNil(t, r.Heats[2].Loads[0].Boiled)
	assert.Empty(t, r.Heats[4].Loads)
	assert.Len(t, r.Reasons(), len(withNew(nil, r.Reasons())), "each source once")
	assert.NotEmpty(t, r.Reasons())
}
