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
	for _, text := range []string{"warm", "3 g", "56 C", "-31 C", "20-30 C", "24"} {
		_, err := meal.ParseAir(text, kitchen)
		requireWrong(t, "air", err, text)
	}
	table := meal.Question{Mode: meal.Table}
	require.NoError(t, table.Seat(meal.EaterWords{Guests: []string{"2 adults", "1 child no milk"}, Sides: "20"}, false))
	assert.Len(t, table.Guests, 2)
	assert.Equal(t, 20, table.Sides)
	requireWrong(t, "guests", table.Seat(meal.EaterWords{}, false), "nobody")
	requireWrong(t, "guests", table.Seat(meal.EaterWords{Guests: []string{"some"}}, false), "some")
	requireWrong(t, "for", table.Seat(meal.EaterWords{For: "some"}, false), "some")
	for _, sides := range []string{"0", "21", "two"} {
		requireWrong(t, "sides", table.Seat(meal.EaterWords{For: "2", Sides: sides}, false), sides)
	}
	for _, number := range []string{"0", "-1", "many", "1001"} {
		requireWrong(t, "dishes", table.Seat(meal.EaterWords{For: "2", Dishes: number}, false), number)
		requireWrong(t, "rounds", table.Seat(meal.EaterWords{For: "2", Rounds: number}, false), number)
		requireWrong(t, "layers", table.Seat(meal.EaterWords{For: "2", Layers: number}, false), number)
	}
}

// Guests stand before --for, --for before the household; how many dishes are
// asked for follows from who eats and what is named.
func TestWhoEatsAndHowMany(t *testing.T) {
	kitchen := recipes.DefaultKitchen(units.Metric)
	home := kitchen
	home.Household = []recipes.Guests{{Count: 2}, {Count: 1, Child: true}}
	home.MostDishes = 4
	dishes := make([]recipes.Dish, 5)
	for _, c := range []struct {
		about   string
		kitchen recipes.Kitchen
		words   meal.EaterWords
		named   bool
		people  int
		most    int
		many    bool
	}{
		{"nobody in particular: the kitchen's number", kitchen, meal.EaterWords{}, false, 0, 3, false},
		{"nobody in particular, and N", kitchen, meal.EaterWords{Dishes: "2"}, false, 0, 2, true},
		{"nobody in particular, and names", kitchen, meal.EaterWords{}, true, 0, 5, true},
		{"the household: the fewest", home, meal.EaterWords{}, false, 3, 0, false},
		{"for stands before the household", home, meal.EaterWords{For: "5"}, false, 5, 0, false},
		{"guests stand before both", home, meal.EaterWords{For: "5", Guests: []string{"7 adults"}}, false, 7, 0, false},
		{"eaters and N", home, meal.EaterWords{Dishes: "2"}, false, 3, 2, true},
		{"eaters and names", home, meal.EaterWords{}, true, 3, 5, true},
		{"eaters, names and N", home, meal.EaterWords{Dishes: "1"}, true, 3, 1, true},
	} {
		q := meal.Question{Mode: meal.Share, Kitchen: c.kitchen, Dishes: dishes}
		require.NoError(t, q.Seat(c.words, c.named), c.about)
		people := 0
		for _, g := range q.Guests {
			people += g.Count
		}
		assert.Equal(t, c.people, people, c.about)
		assert.Equal(t, c.most, q.MostDishes, c.about)
		assert.Equal(t, c.many, q.ManyDishes, c.about)
		assert.Equal(t, 2, q.Sides, c.about)
	}
}

func requireWrong(t *testing.T, field string, err error, text string) {
	t.Helper()
	var wrong *units.FieldError
	require.ErrorAs(t, err, &wrong, text)
	assert.Equal(t, field, wrong.Field, text)
}
