package meal_test

import (
	"context"
	"flag"
	"math/big"
	"os"
	"regexp"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/meal"
	"trencher/units"
)

// `go test ./recipes/meal -update` writes the golden files anew; read each difference.
var update = flag.Bool("update", false, "write the golden files anew")

// The dishes and kitchens of these plans are invented.

const beanStew = `
name: Bean stew
portions: 4
served: warm
smallest: 2
crops:
  - {crop: french-bean, amount: 400 g, prepared: as-lifted, cook: boil, takes: 12-15 min, until: tender}
  - {crop: potato, amount: 500 g, prepared: peeled, cut: cube 20 mm, cook: boil, until: soft}
others:
  - {item: onion, amount: 1}
  - {item: plain flour, amount: 2 tbsp}
  - {item: walnuts, amount: 30 g, optional: true}
steps: [{do: Fry the onion, takes: 8-10 min, uses: ring, before: finish}]
method: [Fry the onion in butter., Boil and stir in.]
`

const blanched = `
name: Green plate
portions: 4
served: cold
largest: 8
crops:
  - {crop: french-bean, amount: 500 g, prepared: as-lifted, cook: blanch}
  - {crop: carrot, amount: 200 g, prepared: peeled, cut: slice 3 mm, cook: raw}
others:
  - {item: olive oil, amount: 2 tbsp}
  - {item: parsley, amount: 2 tbsp, state: chopped, from: plot}
method: [Blanch., Dress.]
`

const embers = `
name: Ember potatoes
portions: 3
served: hot
wish: 2
crops:
  - {crop: potato, amount: 900 g, prepared: as-lifted, cut: whole, cook: own, takes: 35-40 min, uses: embers}
others:
  - {item: soured cream, amount: 100 ml}
method: [Bury them in the embers., Split and fill.]
`

const rawEggRoots = `
name: Roots without a time
portions: 2
served: warm
crops:
  - {crop: celeriac, amount: 400 g, prepared: peeled, cut: cube 25 mm, cook: steam, until: tender}
  - {crop: beetroot, amount: 300 g, prepared: as-lifted, cut: halves, cook: steam, until: tender}
others:
  - {item: raw egg, amount: 1}
method: [Cook., Stir in the raw egg.]
`

const peas = `
name: Buttered peas
portions: 4
served: hot
smallest: 2
crops: [{crop: pea, amount: 300 g, prepared: shelled, cook: boil, until: tender}]
others: [{item: butter, amount: 30 g}, {item: milk, amount: 100 ml}]
steps:
  - {do: Melt the butter, takes: 3 min, uses: ring, before: finish}
  - {do: Warm the milk, takes: 5 min, uses: ring, before: finish}
method: [Boil the peas., Pour butter and milk over them.]
`

// Whole plans of evenings that differ in all that a plan is made from: whoever changes
// what a plan says sees here what changed, everywhere at once.
func TestPlansInFull(t *testing.T) {
	dishes := func(texts ...string) []recipes.Dish {
		var all []recipes.Dish
		for i, text := range texts {
			all = append(all, loadDish(t, "dishes/"+string(rune('a'+i))+".yaml", text))
		}
		return all
	}
	potatoes, beetroots := lot("tub-1/small", "potato", 2400, 20, 45), lot("bed-1/roots", "beetroot", 900, 35, 55)
	for _, c := range []struct {
		name string
		q    func() meal.Question
	}{
		{"two-dishes-of-one-crop", func() meal.Question {
			old := lot("tub-1/old", "potato", 300, 20, 45, func(l *harvest.Lot) { l.Past, l.First = true, true })
			q := question(t, dishes(crushed, salad), potatoes, lot("tub-1/hurt", "potato", 400, 45, 60, damaged), lot("tub-1/green", "potato", 120, 0, 0, green), old)
			q.KeepBack = []meal.KeepBack{{Crop: "potato", Weight: units.MustParse("300 g")}}
			q.Limits = []meal.Limit{{Item: "butter", Amount: units.MustParse("50 g")}}
			q.Notes = map[string][]meal.TastingNote{"potato salad": {{At: clockAt(8, 0), Says: "more salt"}}}
			q.Remarks = []string{"a file was left out"}
			q.KnifeTests = []heat.KnifeTest{{Crop: "potato", Cut: heat.Cut{Shape: heat.Cube, SizeMM: 30}, Until: heat.Tender, Said: heat.NotYet, Minutes: 12}}
			return q
		}},
		{"all-sorts-of-guests", func() meal.Question {
			q := question(t, dishes(crushed, salad, eggSalad, blanched), potatoes, lot("bed-2/beans", "french-bean", 800, 0, 0), lot("bed-3/carrots", "carrot", 300, 0, 0))
			q.Mode, q.Sides, q.MostDishes = meal.Table, 2, 3
			q.Guests = guests(t, "3 adults, 1 adult pregnant, 2 adults no milk, 1 adult vegan, 2 children, 1 child under 5")
			return q
		}},
		{"three-at-the-plot", func() meal.Question {
			q := question(t, dishes(crushed, twoCrops), lot("tub-1/few", "potato", 500, 20, 45), beetroots)
			q.Guests, q.Sides, q.Rounds, q.Layers = guests(t, "2 adults, 1 child"), 1, 1, 2
			q.Kitchen = loadKitchen(t, "steamer: {diameter: 200 mm, tiers: 1}\nfridge: 8 C\n")
			return q
		}},
		{"small-stove-and-canister", func() meal.Question {
			q := question(t, dishes(crushed, beanStew), lot("tub-1/many", "potato", 4000, 30, 60), lot("bed-2/beans", "french-bean", 900, 0, 0))
			q.Dishes[0].Largest = 20
			q.Kitchen = loadKitchen(t, "steamer: {diameter: 220 mm, tiers: 1}\nstove: {power: 1.2 kW, canister: 100 g, rings: 2}\nwater: carried 1 l\npot: {volume: 2 l}\naltitude: 800 m\nhands: 2\n")
			return q
		}},
		{"topped-up", func() meal.Question {
			q := question(t, dishes(crushed, twoCrops), lot("tub-1/many", "potato", 9000, 30, 60), beetroots)
			q.Dishes[0].Largest = 40
			q.Kitchen = loadKitchen(t, "steamer: {diameter: 180 mm, tiers: 1}\nstove: {power: 1.5 kW, canister: 230 g, rings: 1}\nwater: carried 5 l\n")
			return q
		}},
		{"pot-and-cold-box", func() meal.Question {
			q := question(t, dishes(salad, blanched, embers), potatoes, lot("bed-2/beans", "french-bean", 800, 0, 0), lot("bed-3/carrots", "carrot", 300, 0, 0))
			q.Kitchen = loadKitchen(t, "fridge: 4 C\ncold-box: {ice: 2 kg, holds: 5 C}\nstove: {power: 1.8 kW, rings: 2, canister: 190 g}\npot: {volume: 5 l}\nhands: 2\n")
			return q
		}},
		{"hot-day-no-fridge", func() meal.Question {
			q := question(t, dishes(salad, rawEggRoots), potatoes, beetroots, lot("bed-4/celeriac", "celeriac", 600, 0, 0))
			q.AirC, q.ServeAt, q.Now = 34, time.Time{}, clockAt(15, 7)
			q.Kitchen = loadKitchen(t, "fridge: none\nroom: 30 C\n")
			return q
		}},
		{"shelled-warmed-melted", func() meal.Question {
			q := question(t, dishes(peas), lot("bed-5/peas", "pea", 900, 0, 0))
			q.Kitchen = loadKitchen(t, "stove: {power: 1.8 kW, rings: 2}\npot: {volume: 3 l}\n")
			return q
		}},
		{"too-late", func() meal.Question {
			q := question(t, dishes(crushed, salad, twoCrops), potatoes, beetroots)
			q.Now = clockAt(17, 40)
			return q
		}},
		{"one-dish-from-a-start", func() meal.Question {
			q := question(t, dishes(twoCrops))
			q.Mode, q.Portions, q.ServeAt, q.Start = meal.One, big.NewRat(13, 2), time.Time{}, clockAt(16, 20)
			return q
		}},
		{"raw-for-another-day", func() meal.Question {
			q := question(t, dishes("name: Carrots\nportions: 2\nserved: cold\nsmallest: 2\ncrops: [{crop: carrot, amount: 300 g, prepared: peeled, cook: raw}]\nothers: [{item: orange juice, amount: 50 ml}, {item: water, amount: 1 tbsp}]\nmethod: [Grate.]\n", beanStew),
				lot("bed-3/carrots", "carrot", 700, 0, 0), lot("bed-2/beans", "french-bean", 50, 0, 0))
			q.Now, q.ServeAt = clockAt(-10, 0), time.Time{}
			return q
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			q := c.q()
			make := meal.Make
			if q.Mode == meal.One {
				make = meal.MakeOne
			}
			plan, err := make(context.Background(), q)
			require.NoError(t, err)
			golden(t, "testdata/plans/"+c.name+".txt", told(plan))
		})
	}
}

// nodes are what a search tried: another search may try others for the same plan.
var nodes = regexp.MustCompile(`,? ?Nodes \d+`)

func golden(t *testing.T, file, text string) {
	t.Helper()
	text = nodes.ReplaceAllString(text, "")
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, string(want), text)
}
