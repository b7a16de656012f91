package meal_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes"
	"trencher/recipes/meal"
	"trencher/units"
)

func TestWordsOfLimitsAndWhatIsKeptBack(t *testing.T) {
	limit, err := meal.ParseLimit(" Butter = 150 g", units.Metric)
	require.NoError(t, err)
	assert.Equal(t, "butter=150 g", limit.String())
	back, err := meal.ParseKeepBack("1 1/2 lb sweet potato", units.Metric)
	require.NoError(t, err)
	assert.Equal(t, "sweet potato", back.Crop)
	assert.Equal(t, "1.5 lb", back.Weight.String())
	for _, text := range []string{"butter", "=3 g", "butter=much", "butter=1-2 g", "butter=to taste", "butter=-1 g"} {
		_, err := meal.ParseLimit(text, units.Metric)
		requireWrong(t, "limit", err, text)
	}
	for _, text := range []string{"", "potato", "500 g", "500 ml potato", "0 g potato", "1-2 kg potato"} {
		_, err := meal.ParseKeepBack(text, units.Metric)
		requireWrong(t, "keep-back", err, text)
	}
}

func TestWordsOfTheAirAndTheTable(t *testing.T) {
	kitchen := recipes.DefaultKitchen(units.Metric)
	for text, want := range map[string]float64{"": kitchen.RoomC, "86 F": 30, "-30 C": -30, "55 C": 55} {
		celsius, err := meal.ParseAir(text, kitchen)
		require.NoError(t, err, text)
		assert.InDelta(t, want, celsius, 1e-9, text)
	}
	for _, text := range []string{"warm", "3 g", "56 C", "-31 C"} {
		_, err := meal.ParseAir(text, kitchen)
		requireWrong(t, "air", err, text)
	}
	table := meal.Question{Mode: meal.Table}
	require.NoError(t, table.Seat([]string{"2 adults", "1 child no milk"}, 20))
	assert.Len(t, table.Guests, 2)
	assert.Equal(t, 20, table.Sides)
	requireWrong(t, "guests", table.Seat(nil, 2), "nobody")
	requireWrong(t, "guests", table.Seat([]string{"some"}, 2), "some")
	for _, sides := range []int{0, 21} {
		requireWrong(t, "sides", table.Seat([]string{"2 adults"}, sides), "sides")
	}
	alone := meal.Question{Mode: meal.Share}
	require.NoError(t, alone.Seat(nil, 0), "nobody sits at a share")
}

func requireWrong(t *testing.T, field string, err error, text string) {
	t.Helper()
	var wrong *units.FieldError
	require.ErrorAs(t, err, &wrong, text)
	assert.Equal(t, field, wrong.Field, text)
}
