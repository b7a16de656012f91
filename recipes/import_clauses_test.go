package recipes

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// What a method does to the potatoes, and for how long in all; "?" where it is to
// be checked.
func TestCookingIsReadClauseByClause(t *testing.T) {
	for method, want := range map[string]string{
		"Boil the potatoes for 20 minutes.":                                                                                   "boil 20 ring",
		"Boil the potatoes for 20 minutes. Drain, toss in the butter and fry for 5 minutes.":                                  "own 25 ring",
		"Fry the garlic in the butter for 1 minute, add to the potatoes. Boil the potatoes for 10 minutes.":                   "boil 10 ring",
		"Roast the potatoes for 35 minutes. Turn, and roast for another 10 minutes.":                                          "own 45 oven",
		"Roast the potatoes for 35 minutes. Turn them and give them 10 minutes more.":                                         "own 45 oven",
		"Bake the potatoes 1 hr. 10 min. or until soft.":                                                                      "own 70 oven",
		"Bake the potatoes for an hour and a quarter.":                                                                        "own 75 oven",
		"Bake the potatoes for three quarters of an hour.":                                                                    "own 45 oven",
		"Fry the potatoes in the butter for 4 minutes on each side.":                                                          "own 8 ring",
		"Braise the potatoes in the oven for 40 minutes.":                                                                     "own 40 oven",
		"Boil the carrots for 15 minutes. Add the potatoes for the last 5 minutes.":                                           "boil 5 ring",
		"Boil the potatoes for 15 minutes. Add the carrots for the last 5 minutes.":                                           "boil 15 ring",
		"Boil the potatoes for 15 minutes, drain. Meanwhile fry the garlic for 5 minutes.":                                    "boil 15 ring",
		"Boil the potatoes for 15 minutes, drain and leave to cool for 20 minutes.":                                           "boil 15 ring",
		"Melt the butter. Cook the potatoes gently, covered, for 15 minutes.":                                                 "own 15 ring",
		"Fry the garlic in the butter for 1 minute, tip in the carrots, then the potatoes. Lid on, 25 minutes on a low heat.": "own 25 ring",
		"Cook the potatoes in the microwave for 8 minutes.":                                                                   "own 8 nothing",
		"Cook the potatoes for 15 minutes.":                                                                                   "? boil 15 ring",
		"Boil for 15 minutes.":                                                                                                "? boil 15 ring",
		"Steam the potatoes until tender.":                                                                                    "steam 0",
	} {
		t.Run(method, func(t *testing.T) {
			text := "Supper\nServes 4\n\n1 kg potatoes\n200 g carrots\n1 clove garlic\n50 g butter\n\nMethod\n" + method + "\n"
			im, err := ImportRecipe("a.txt", []byte(text), ImportOptions{System: units.UK, Grown: []string{"potato"}}, DefaultKitchen(units.UK))
			require.NoError(t, err)
			require.Len(t, im.Dish.Crops, 1)
			c := im.Dish.Crops[0]
			got := strings.TrimSpace(fmt.Sprintf("%s %d %s", c.Cook, c.Minutes, c.Uses))
			for _, check := range im.Checks {
				if check.Key == "cook" {
					got = "? " + got
				}
			}
			assert.Equal(t, want, got)
		})
	}
}

// What was said of how the dish comes to the table is believed; what only hints at
// it is marked.
func TestHowADishIsServed(t *testing.T) {
	for method, want := range map[string]string{
		"Boil the potatoes for 20 minutes. Serve hot.":                                "hot",
		"Boil the potatoes for 20 minutes. Serve at once.":                            "hot",
		"Boil the potatoes for 20 minutes. Eat warm with bread.":                      "warm",
		"Boil the potatoes for 20 minutes. Serve at room temperature.":                "warm",
		"Boil the potatoes for 20 minutes. Leave to cool slightly and serve hot.":     "hot",
		"Boil the potatoes for 20 minutes. Rinse under cold water. Serve hot.":        "hot",
		"Boil the potatoes for 20 minutes. Serve hot. Leftovers keep cold for a day.": "hot",
		"Boil the potatoes for 20 minutes. Chill well before serving. Serve cold.":    "cold",
		"Boil the potatoes for 20 minutes. Serve hot or cold.":                        "? cold",
		"Boil the potatoes for 20 minutes. Chill.":                                    "? cold",
		"Boil the potatoes for 20 minutes.":                                           "? hot",
	} {
		im, err := ImportRecipe("a.txt", []byte("Supper\nServes 4\n\n1 kg potatoes\n\nMethod\n"+method+"\n"), ImportOptions{System: units.UK}, DefaultKitchen(units.UK))
		require.NoError(t, err)
		got := string(im.Served)
		for _, check := range im.Checks {
			if check.Key == "served" {
				got = "? " + got
			}
		}
		assert.Equal(t, want, got, method)
	}
}

func TestMinutes(t *testing.T) {
	for text, want := range map[string]int{
		"20 minutes": 20, "20-25 mins": 25, "20 to 25 min": 25, "1 hour 15 minutes": 75, "1 hr and 5 mins": 65, "1½ hours": 90, "1 1/2 hours": 90, "1-1½ hours": 90, "1.5 h": 90,
		"2 h": 120, "an hour": 60, "half an hour": 30, "a quarter of an hour": 15, "three quarters of an hour": 45, "an hour and a half": 90, "an hour and a quarter": 75,
		"ten minutes": 10, "ten or so minutes": 10, "90 seconds": 2, "30 secs": 1, "twenty-five minutes": 25, "5 minutes more": 5, "10-minute": 10, "at 200C": 0, "for 4": 0, "30 days": 0,
	} {
		assert.Equal(t, want, minutesIn(text), text)
	}
}

// Pieces of a crop below a quarter of the dish are a crop of it too, to be checked,
// where its steps steam or boil them; what flavours, is fried first or only joins
// stays an ingredient.
func TestPiecesThatAreSteamedAreCrops(t *testing.T) {
	for lines, want := range map[string]string{
		"2 carrots\n|Steam the potatoes and carrots together for 15 minutes.":                   "potato 1500 steam 0; carrot 120 steam 0",
		"2 carrots\n|Boil the potatoes for 20 minutes. Grate the carrots over them.":            "potato 1500 boil 20",
		"2 carrots\n|Fry the carrots for 5 minutes. Boil the potatoes for 20 minutes.":          "potato 1500 boil 20",
		"1 onion\n|Simmer the potatoes and the onion in water for 20 minutes.":                  "potato 1500 boil 20",
		"1 clove garlic\n|Steam the potatoes with the garlic for 20 minutes.":                   "potato 1500 steam 0",
		"60 g carrots\n|Boil the potatoes and the carrots for 20 minutes.":                      "potato 1500 boil 20",
		"2 sticks celery\n|Boil the potatoes and the celery for 20 minutes.":                    "potato 1500 boil 20",
		"2 carrots\n|Steam the potatoes. Serve with the carrots, boiled until they are tender.": "potato 1500 steam 0",
	} {
		list, method, _ := strings.Cut(lines, "|")
		text := "Supper\nServes 4\n\n1.5 kg potatoes\n" + list + "\nMethod\n" + method + " Serve hot.\n"
		im, err := ImportRecipe("a.txt", []byte(text), ImportOptions{System: units.UK, Grown: []string{"potato", "carrot", "onion", "garlic", "celery"}}, DefaultKitchen(units.UK))
		require.NoError(t, err)
		for _, l := range im.Lines {
			if l.As == AsCrop && l.Read.Amount.Dimension() == units.Count {
				assert.False(t, l.Sure(), l.Text)
			}
		}
		assert.Equal(t, want, strings.Join(cropsCooked(im), "; "), method)
	}
}

// cropsCooked are the weighed crops with grams, way and minutes.
func cropsCooked(im Imported) (all []string) {
	for _, c := range im.Dish.Crops {
		grams, _ := c.Amount.Float64(units.Gram)
		all = append(all, fmt.Sprintf("%s %.0f %s %d", c.Crop, grams, c.Cook, c.Minutes))
	}
	return all
}

// A crop that is kin to another is itself: gooseberries are no strawberries, leaf beet
// no beetroot.
func TestCropsAreThemselves(t *testing.T) {
	for line, want := range map[string]string{"500 g gooseberries": "gooseberry", "500 g raspberries": "raspberry", "500g leaf beet": "chard", "500 g palak (spinach)": "spinach"} {
		im, err := ImportRecipe("a.txt", []byte("Supper\nServes 4\n\n"+line+"\n20 g sugar\n\nMethod\nSimmer for 10 minutes.\n"), ImportOptions{System: units.UK}, DefaultKitchen(units.UK))
		require.NoError(t, err)
		require.Len(t, im.Dish.Crops, 1, line)
		assert.Equal(t, want, im.Dish.Crops[0].Crop, line)
	}
}

// What a line says the same amount of are lines of their own, where all of it is
// known.
func TestSoMuchOfEachIsParted(t *testing.T) {
	for line, want := range map[string]string{
		"500 g each of parsnips and carrots":   "500 g parsnips; 500 g carrots",
		"1 tsp each: salt, sugar & paprika":    "1 tsp salt; 1 tsp sugar; 1 tsp paprika",
		"1 tsp each of salt and moonwort":      "1 tsp each of salt and moonwort",
		"2 courgettes (about 200 g each)":      "2 courgettes (about 200 g each)",
		"30 g each of butter and 2 tbsp flour": "30 g each of butter and 2 tbsp flour",
	} {
		im, err := ImportRecipe("a.json", []byte(`{"@type":"Recipe","name":"S","recipeYield":"4","recipeIngredient":["1 kg potatoes","`+line+`"],"recipeInstructions":"Boil the potatoes for 20 minutes."}`), ImportOptions{System: units.UK}, DefaultKitchen(units.UK))
		require.NoError(t, err)
		var lines []string
		for _, l := range im.Lines {
			if (l.As == AsOther || l.As == AsCrop) && l.Text != "1 kg potatoes" {
				lines = append(lines, l.Text)
			}
		}
		assert.Equal(t, want, strings.Join(lines, "; "))
	}
}
