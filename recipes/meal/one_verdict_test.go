package meal_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/units"
)

// What is logged of a dish carries every food it is made of, so that the same
// history has one verdict, whether a plan or the journal tells it.
func TestALoggedDishHasThePlansVerdict(t *testing.T) {
	for _, text := range []string{crushed, salad, twoCrops,
		"name: Pesto potatoes\nportions: 4\nserved: cold\ncrops: [{crop: potato, amount: 600 g, prepared: scrubbed, cut: cube 25 mm, cook: steam, until: tender}]\nothers: [{item: pesto, amount: 80 g}, {item: egg, amount: 2, state: hard-boiled}, {item: cooked rice, amount: 100 g}]\nmethod: [Steam., Cool., Fold in the pesto.]\n",
	} {
		dish := loadDish(t, "d.yaml", text)
		kinds := meal.KindsOf(dish).Foods
		words := meal.EventWords{Event: harvest.KindCooked, Name: dish.Name}
		clock := units.Clock{Now: clockAt(20, 0), Zone: day.Location()}
		event, err := words.Read(clock, units.Metric, func() []recipes.Dish { return []recipes.Dish{dish} })
		require.NoError(t, err)
		assert.ElementsMatch(t, kinds, append([]string{event.Food}, event.Also...), dish.Name)

		event.At = clockAt(12, 0)
		batches := harvest.Batches([]harvest.Entry{event}, clockAt(20, 0))
		require.Len(t, batches, 1)
		assert.ElementsMatch(t, kinds, append([]string{batches[0].Food}, batches[0].Also...))
		for after := time.Duration(0); after < 8*time.Hour; after += 10 * time.Minute {
			at := event.At.Add(after)
			planned, err := keeping.Judge(keeping.Batch{Food: kinds[0], Also: kinds[1:], CookedAt: event.At}, keeping.Strictest, at)
			require.NoError(t, err)
			logged, err := keeping.Judge(keeping.Batch{Food: batches[0].Food, Also: batches[0].Also, CookedAt: event.At}, keeping.Strictest, at)
			require.NoError(t, err)
			assert.Equal(t, planned.Kind, logged.Kind, "%s after %s", dish.Name, after)
			assert.Equal(t, planned.Until, logged.Until, "%s after %s", dish.Name, after)
		}
	}
}
