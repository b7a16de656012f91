package meal_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/meal"
	"trencher/units"
)

// The questions here are invented: they are any kitchen, any lift and any dishes
// that the loader takes.

var day = time.Date(2031, time.July, 12, 0, 0, 0, 0, time.FixedZone("", 3600))

func clockAt(hour, minute int) time.Time {
	return day.Add(time.Duration(hour)*time.Hour + time.Duration(minute)*time.Minute)
}

func loadDish(t testing.TB, file, text string) recipes.Dish {
	t.Helper()
	dish, err := recipes.LoadDish(file, []byte(text), recipes.DefaultKitchen(units.Metric))
	require.NoError(t, err, text)
	return dish
}

func loadKitchen(t testing.TB, text string) recipes.Kitchen {
	t.Helper()
	kitchen, err := recipes.LoadKitchen("kitchen.yaml", []byte("measures: metric\n"+text))
	require.NoError(t, err, text)
	return kitchen
}

// lot is a sound lot of the day, in grams.
func lot(id, crop string, grams int64, low, high int, change ...func(*harvest.Lot)) *harvest.Lot {
	l := &harvest.Lot{ID: id, Name: id, Planting: &harvest.Planting{ID: "tub-1", Crop: crop}, Condition: harvest.Sound, Sizes: units.Band{Low: low, High: high},
		Lifted: clockAt(9, 0), Weight: decimal.NewFromInt(grams)}
	for _, c := range change {
		c(l)
	}
	l.Supply = l.Weight.Mul(l.Condition.Trim())
	return l
}

func damaged(l *harvest.Lot) { l.Condition, l.First = harvest.Damaged, true }
func green(l *harvest.Lot)   { l.Condition = harvest.Green }

// question is an evening of the given dishes from the given lots, at 18:30.
func question(t testing.TB, dishes []recipes.Dish, lots ...*harvest.Lot) meal.Question {
	return meal.Question{Mode: meal.Share, On: day, Now: clockAt(10, 0), ServeAt: clockAt(18, 30),
		Kitchen: loadKitchen(t, ""), AirC: 20, Dishes: dishes, Lots: lots}
}

var randomCrops = []string{"potato", "beetroot", "carrot"}

// randomQuestion is any evening: a kitchen, a lift, one to five dishes, and at a
// table up to three kinds of guests.
func randomQuestion(t testing.TB, random *rand.Rand) meal.Question {
	kitchen := loadKitchen(t, fmt.Sprintf("steamer: {diameter: %d mm, tiers: %d}\nstove: {power: %d W, rings: %d%s}\nhands: %d\nauthority: %s\n%s",
		200+20*random.IntN(5), 1+random.IntN(3), 1200+200*random.IntN(6), 1+random.IntN(2), []string{"", ", canister: 230 g", ", canister: 450 g"}[random.IntN(3)],
		1+random.IntN(3), []string{"strictest", "uk", "us", "au-nz"}[random.IntN(4)], randomColdPlaces(random)))
	q := meal.Question{Mode: meal.Share, On: day, Now: clockAt(8+random.IntN(10), 0), Kitchen: kitchen, AirC: float64(5 + random.IntN(34)), NodeLimit: 300}
	if random.IntN(5) > 0 {
		q.ServeAt = clockAt(16+random.IntN(6), 5*random.IntN(12))
	}
	for d := range 1 + random.IntN(12) {
		q.Dishes = append(q.Dishes, randomDish(t, random, d))
	}
	for i := range 1 + random.IntN(8) {
		q.Lots = append(q.Lots, randomLot(random, i))
	}
	if random.IntN(3) == 0 {
		q.Mode, q.Sides = meal.Table, 1+random.IntN(3)
		for range 1 + random.IntN(3) {
			text := fmt.Sprintf("%d %s%s", 1+random.IntN(5), []string{"adults", "children"}[random.IntN(2)], []string{"", " no milk", " vegan"}[random.IntN(3)])
			guests, err := recipes.ParseGuests(text)
			require.NoError(t, err, text)
			q.Guests = append(q.Guests, guests...)
		}
	}
	return q
}

// randomColdPlaces is a fridge, more or less cold, or none, and a box with ice or
// none.
func randomColdPlaces(random *rand.Rand) string {
	places := []string{"fridge: none\n", "fridge: 3 C\n", "fridge: 4 C\n", "fridge: 5 C\n", "fridge: 7 C\n", "fridge: 9 C\n"}[random.IntN(6)]
	if random.IntN(3) == 0 {
		places += fmt.Sprintf("cold-box: {ice: 2 kg, holds: %d C}\n", 3+random.IntN(8))
	}
	return places + []string{"", "water: carried 2 l\n", "room: 30 C\n"}[random.IntN(3)]
}

func randomDish(t testing.TB, random *rand.Rand, d int) recipes.Dish {
	smallest := 1 + random.IntN(3)
	text := fmt.Sprintf("name: Dish %d\nportions: %d\nserved: %s\nsmallest: %d\nlargest: %d\nwish: %d\ncrops:\n", d, 2+random.IntN(5),
		[]string{"hot", "warm", "cold"}[random.IntN(3)], smallest, smallest+random.IntN(12), 1+random.IntN(2))
	first := random.IntN(len(randomCrops))
	for c := range 1 + random.IntN(2) {
		cook := "cook: steam, until: " + []string{"just-tender", "tender", "soft"}[random.IntN(3)]
		crop := randomCrops[(first+c)%len(randomCrops)]
		switch _, may := recipes.EatenRaw(crop); {
		case random.IntN(8) == 0 && may:
			cook = "cook: raw"
		case random.IntN(8) == 0:
			takes := 10 + random.IntN(20)
			cook = []string{fmt.Sprintf("cook: boil, takes: %d min", takes), "cook: boil, until: soft", "cook: blanch"}[takes%3]
		case random.IntN(8) == 0:
			cook = fmt.Sprintf("cook: own, takes: %d-%d min, uses: %s", 20+random.IntN(10), 30+random.IntN(30), []string{"ring", "oven", "embers", "nothing"}[random.IntN(4)])
		}
		text += fmt.Sprintf("  - {crop: %s, amount: %d g, prepared: %s, cut: %s, %s}\n", crop,
			200+random.IntN(900), []string{"as-lifted", "peeled", "scrubbed"}[random.IntN(3)],
			[]string{"cube 20 mm", "cube 25 mm", "halves", "whole", "slice 10 mm"}[random.IntN(5)], cook)
	}
	text += "others:\n  - {item: butter, amount: 40 g}\n"
	if random.IntN(2) == 0 {
		text += "  - {item: chives, amount: 2 tbsp, state: chopped, from: plot}\n"
	}
	if random.IntN(5) == 0 {
		text += fmt.Sprintf("steps:\n  - {do: Warm the sauce, takes: 5 min, uses: %s, before: finish}\n", []string{"ring", "oven", "nothing"}[random.IntN(3)])
	}
	return loadDish(t, fmt.Sprintf("dishes/d%d.yaml", d), text+"method: [Steam.]\n")
}

func randomLot(random *rand.Rand, i int) *harvest.Lot {
	low := 20 + 5*random.IntN(9)
	l := lot(fmt.Sprintf("tub-%d/lot", i), randomCrops[random.IntN(len(randomCrops))], int64(1+random.IntN(2500)), low, low+5*(1+random.IntN(4)))
	if random.IntN(3) == 0 {
		l.Sizes = units.Band{}
	}
	l.Texture = []string{"", "waxy", "floury"}[random.IntN(3)]
	l.Condition = []harvest.Condition{harvest.Sound, harvest.Scabby, harvest.Damaged, harvest.Green, harvest.Rotten}[random.IntN(5)]
	l.First = l.Condition == harvest.Damaged
	l.Supply = l.Weight.Mul(l.Condition.Trim())
	return l
}
