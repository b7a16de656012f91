package render

import (
	"context"
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

// randomPlan is any evening, invented: a kitchen, a lift, one to eight dishes,
// guests or none. It is nothing where the lift makes nothing.
func randomPlan(t testing.TB, random *rand.Rand) (meal.Plan, bool) {
	t.Helper()
	kitchen, err := recipes.LoadKitchen("kitchen.yaml", []byte(fmt.Sprintf(
		"measures: metric\nsteamer: {diameter: %d mm, tiers: %d}\nstove: {power: %d W, rings: %d%s}\nhands: %d\ndishes: %d\n%s",
		200+20*random.IntN(5), 1+random.IntN(3), 1200+200*random.IntN(6), 1+random.IntN(2), oneOf(random, "", ", canister: 230 g"),
		1+random.IntN(3), 1+random.IntN(6), oneOf(random, "fridge: none\n", "fridge: 4 C\n", "water: carried 3 l\n", "room: 30 C\n"))))
	require.NoError(t, err)
	day := at(0, 0)
	q := meal.Question{Mode: meal.Share, Plot: "an invented plot", On: day, Now: at(8+random.IntN(10), 0), Kitchen: kitchen,
		AirC: float64(5 + random.IntN(30)), NodeLimit: 2000}
	if random.IntN(5) > 0 {
		q.ServeAt = at(16+random.IntN(6), 5*random.IntN(12))
	}
	for d := range 1 + random.IntN(8) {
		q.Dishes = append(q.Dishes, randomDish(t, random, d))
	}
	for i := range 1 + random.IntN(6) {
		q.Lots = append(q.Lots, randomLot(random, i, day))
	}
	if random.IntN(3) == 0 {
		q.Mode, q.Sides = meal.Table, 1+random.IntN(3)
		guests, err := recipes.ParseGuests(fmt.Sprintf("%d %s", 1+random.IntN(5), oneOf(random, "adults", "children", "adults no milk")))
		require.NoError(t, err)
		q.Guests = guests
	}
	plan, err := meal.Make(context.Background(), q)
	return plan, err == nil && len(plan.Dishes) > 0
}

func oneOf(random *rand.Rand, words ...string) string { return words[random.IntN(len(words))] }

var randomCrops = []string{"potato", "beetroot", "carrot"}

// randomDish is a dish with a name, a list and a method of any length.
func randomDish(t testing.TB, random *rand.Rand, d int) recipes.Dish {
	t.Helper()
	smallest := 1 + random.IntN(3)
	text := fmt.Sprintf("name: %s no. %d\nportions: %d\nserved: %s\nsmallest: %d\nlargest: %d\ncrops:\n",
		oneOf(random, "Roots", "Crushed roots with a good deal of chopped parsley", "Salad of the shed"), d, 2+random.IntN(5),
		oneOf(random, "hot", "warm", "cold"), smallest, smallest+random.IntN(12))
	first := random.IntN(len(randomCrops))
	for c := range 1 + random.IntN(2) {
		cook := "cook: steam, until: " + oneOf(random, "just-tender", "tender", "soft")
		if random.IntN(8) == 0 {
			cook = fmt.Sprintf("cook: own, takes: %d min, uses: oven", 20+random.IntN(40))
		}
		text += fmt.Sprintf("  - {crop: %s, amount: %d g, prepared: %s, cut: %s, %s}\n", randomCrops[(first+c)%len(randomCrops)],
			200+random.IntN(900), oneOf(random, "as-lifted", "peeled", "scrubbed"),
			oneOf(random, "cube 20 mm", "cube 25 mm", "halves", "whole", "slice 10 mm"), cook)
	}
	text += "others:\n"
	for i := range 1 + random.IntN(9) {
		text += fmt.Sprintf("  - {item: %s, amount: %d g}\n",
			[]string{"butter", "plain yoghurt", "capers", "walnuts", "feta", "olives", "cooked rice", "tinned tomatoes", "pumpkin seeds"}[i], 5+random.IntN(200))
	}
	if d == 2 {
		text += "  - {item: chives, amount: 2 tbsp, from: plot}\n"
	}
	text += "method:\n"
	for range 1 + random.IntN(9) {
		text += "  - " + oneOf(random, "Steam.", "Turn the warm roots over in the dressing and leave them for a while.",
			"Warm the butter in a small pan until it froths, then take it off at once, for it burns sooner than one thinks.") + "\n"
	}
	dish, err := recipes.LoadDish(fmt.Sprintf("dishes/d%d.yaml", d), []byte(text), recipes.DefaultKitchen(units.Metric))
	require.NoError(t, err, text)
	return dish
}

func randomLot(random *rand.Rand, i int, day time.Time) *harvest.Lot {
	low := 20 + 5*random.IntN(9)
	l := &harvest.Lot{ID: fmt.Sprintf("tub-%d/lot", i), Planting: &harvest.Planting{ID: fmt.Sprintf("tub-%d", i), Crop: randomCrops[random.IntN(len(randomCrops))]},
		Condition: []harvest.Condition{harvest.Sound, harvest.Scabby, harvest.Damaged, harvest.Green}[random.IntN(4)],
		Lifted:    day.Add(7 * time.Hour), Weight: decimal.NewFromInt(int64(100 + random.IntN(2500)))}
	l.Name = l.ID
	if random.IntN(3) > 0 {
		l.Sizes = units.Band{Low: low, High: low + 5*(1+random.IntN(4))}
	}
	l.First = l.Condition == harvest.Damaged
	l.Supply = l.Weight.Mul(l.Condition.Trim())
	return l
}
