package render

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/units"
)

// The knife goes in no later than reckoned and nobody gives up sooner; a sum of
// floating point that is off by next to nothing is the whole number it was.
func TestMinutesForTheKnife(t *testing.T) {
	for _, c := range []struct {
		minutes           float64
		about, from, upTo int
		fine, fromFine    string
		upToFine          string
	}{
		{0, 0, 1, 0, "no time", "half a minute", "no time"},
		{0.2, 0, 1, 1, "no time", "half a minute", "half a minute"},
		{0.5, 1, 1, 1, "half a minute", "half a minute", "half a minute"},
		{1, 1, 1, 1, "1 min", "1 min", "1 min"},
		{1.3, 1, 1, 2, "1½ min", "1 min", "1½ min"},
		{5.9999999, 6, 6, 6, "6 min", "6 min", "6 min"},
		{6.0000001, 6, 6, 6, "6 min", "6 min", "6 min"},
		{8.4, 8, 8, 9, "8½ min", "8 min", "8½ min"},
		{19.9, 20, 19, 20, "20 min", "19½ min", "20 min"},
		{20, 20, 20, 20, "20 min", "20 min", "20 min"},
		{20.4, 20, 20, 21, "20 min", "20 min", "21 min"},
	} {
		assert.Equal(t, []int{c.about, c.from, c.upTo}, []int{about(c.minutes), knifeFrom(c.minutes), upTo(c.minutes)}, c.minutes)
		assert.Equal(t, []string{c.fine, c.fromFine, c.upToFine}, []string{minutesFine(c.minutes), knifeFromFine(c.minutes), upToFine(c.minutes)}, c.minutes)
	}
	assert.Equal(t, "7 min", spanWords("7 min", "7 min"))
	assert.Equal(t, "7 min to 8 min", spanWords("7 min", "8 min"))
	assert.Equal(t, "12 min", untilWords(11.8, 12))
	assert.Equal(t, "11 min, at the latest 12 min", untilWords(11, 12))
}

// From when minutes count, and what is said of them.
func TestFromWhenMinutesCount(t *testing.T) {
	for _, c := range []struct {
		e     heat.Estimate
		since string
		rest  string
	}{
		{heat.Estimate{FreeFirst: true, ComeUp: 2, FromLoading: 10, FromLoadingLow: 8, FromLoadingHigh: 13, SteamC: 99.8, CentreC: 97, PerMM: 0.6}, "full steam",
			"Full steam comes 2 min after putting them in: 10 min in all, 8 min to 13 min. Steam at 99.8 °C, the centre at 97 °C when done. A piece 1 mm thicker takes 0.6 min more."},
		{heat.Estimate{FreeFirst: true, Method: heat.Boiling, ComeUp: 0.2, FromLoading: 10, FromLoadingLow: 8, FromLoadingHigh: 13, SteamC: 100, CentreC: 97, PerMM: 0.6}, "boiling again",
			"The water boils again less than half a minute after putting them in: 10 min in all, 8 min to 13 min. Water at 100.0 °C, the centre at 97 °C when done. A piece 1 mm thicker takes 0.6 min more."},
		{heat.Estimate{FreeFirst: true, Method: heat.Boiling, Simmering: true, ComeUp: 0.25, FromLoading: 10, FromLoadingLow: 8, FromLoadingHigh: 13, SteamC: 94, CentreC: 90, PerMM: 0.6}, "simmering again",
			"The water simmers again half a minute after putting them in: 10 min in all, 8 min to 13 min. Water at 94.0 °C, the centre at 90 °C when done. A piece 1 mm thicker takes 0.6 min more."},
		{heat.Estimate{ComeUp: 2, SteamC: 99.8, CentreC: 97, PerMM: 0.6}, "putting in",
			"Steam at 99.8 °C, the centre at 97 °C when done. A piece 1 mm thicker takes 0.6 min more."},
	} {
		assert.Equal(t, c.since, sinceWords(c.e))
		assert.Equal(t, c.rest, timeWords(c.e)[1])
	}
}

func TestWordsOfDonenessAndOutside(t *testing.T) {
	for d, want := range map[heat.Doneness]string{
		heat.JustTender: "Just tender as leaflets of today print it; household bulletins go on longer (--until tender).",
		heat.Tender:     "Tender as household bulletins print it; leaflets of today stop sooner, tables of 1940 to 1975 go on longer.",
		heat.Soft:       "Soft as home-economics tables of 1940 to 1975 and catering cards print it; leaflets of today stop much sooner.",
	} {
		assert.Equal(t, want, styleWords(d))
	}
	outer := func(says heat.Outside, simmering bool) string {
		e := heat.Estimate{Simmering: simmering}
		e.Outer.Says = says
		return outerWords(e)
	}
	assert.Equal(t, "", outer(heat.Even, false))
	assert.Equal(t, "The outside will be softer than the middle.", outer(heat.Softer, false))
	assert.Equal(t, "The outside will be well past soft: halve them, or boil them at 92 to 95 °C (trencher boil --simmer).", outer(heat.PastSoft, false))
	assert.Equal(t, "The outside will be well past soft: halve them.", outer(heat.PastSoft, true), "they simmer already")
	assert.Equal(t, "The outside will be far past soft before the middle is done: cut them.", outer(heat.CutIt, false))
}

func TestWordsOfShapes(t *testing.T) {
	for shape, c := range map[heat.Shape][3]string{ // what to do, what has been done, in a plan
		heat.Whole:        {"leave whole", "whole", "whole"},
		heat.Halves:       {"halve", "halved", "halved"},
		heat.HalvesAcross: {"halve across", heat.HalvesAcross.String(), "in eighths"},
		heat.Quarters:     {"quarter", "quartered", "quartered"},
		heat.Eighths:      {"quarter, then cut across", "in eighths", "in eighths"},
		heat.Wedges:       {"cut in eight wedges", heat.Wedges.String(), "in eighths"},
	} {
		assert.Equal(t, c[0], orderWords(heat.Cut{Shape: shape}), shape)
		assert.Equal(t, c[1], doneWords(heat.Cut{Shape: shape}), shape)
		if shape != heat.HalvesAcross && shape != heat.Wedges {
			assert.Equal(t, c[2], cutWords(meal.Part{}, meal.Cut{Cut: heat.Cut{Shape: shape}}), shape)
		}
	}
	cube := heat.Cut{Shape: heat.Cube, SizeMM: 25}
	assert.Equal(t, "cube 25 mm", orderWords(cube))
	assert.Equal(t, "diced to 24 mm", cutWords(meal.Part{}, meal.Cut{Cut: cube, PieceMM: 24}))
	assert.Equal(t, "slice 5 mm", cutWords(meal.Part{Line: recipes.CropLine{Cut: "slice 5 mm"}}, meal.Cut{Cut: cube, AsWritten: true}))
}

func TestWordsOfTiersAndLayers(t *testing.T) {
	assert.Equal(t, []string{"1, lowest", "2", "3, uppermost"}, []string{tierName(0, 3), tierName(1, 3), tierName(2, 3)})
	l := heat.Load{Layers: 1, Rounds: 1, Tiers: 2, GramsPerLayer: 500, PiecesPerLayer: 1, GramsPerRound: 900, GramsOnEach: 450}
	assert.Equal(t, "1 layer, 1 round. One layer holds 500 g (1 piece).", layersWords(l))
	l.Layers, l.PiecesPerLayer = 2, 20
	assert.Equal(t, "2 layers, 1 round. One layer holds 500 g (20 pieces). Spread 450 g on each.", layersWords(l))
	l.Layers, l.Rounds = 4, 2
	assert.Equal(t, "4 layers, 2 rounds. One layer holds 500 g (20 pieces). Fill 900 g a round, over 2 tiers.", layersWords(l))
	l.Heaped = true
	assert.Equal(t, "4 layers, 2 rounds. One layer holds 500 g (20 pieces). Heaped: the last pieces see steam late and touch, so all of it takes longer and cooks unevenly.", layersWords(l))
}

func TestWordsOfCooling(t *testing.T) {
	for _, c := range []struct {
		c    heat.Cooling
		want string
	}{
		{heat.Cooling{In: heat.ColdWater, Deep: true}, "in a bowl that stands in cold water"},
		{heat.Cooling{In: heat.ColdWater}, "in cold water that runs or is changed"},
		{heat.Cooling{In: heat.IceWater, Deep: true}, "in a bowl that stands in ice water"},
		{heat.Cooling{In: heat.IceWater}, "in ice water"},
		{heat.Cooling{Deep: true}, "in a heap"},
		{heat.Cooling{}, "spread in one layer"},
	} {
		assert.Equal(t, c.want, coolingWords(c.c))
	}
	part := func(c heat.Cooling) string {
		var p page
		coolingPart(&p, c)
		return lined(&p)
	}
	c := heat.Cooling{DressC: 30, DressExpected: 10, DressLatest: 12, FridgeC: 20, FridgeExpected: 20, FridgeLatest: 24, ChilledC: 8, ChilledLatest: 40, Notes: []string{"stir them"}}
	assert.Equal(t, "Cooling, spread in one layer\n  Cool enough to dress (30 °C): 10 min, at the latest 12 min.\n  Ready for the cold (20 °C): 20 min, at the latest 24 min.\n  Stir them.\n", part(c))
	c.Then, c.Notes = heat.FridgeAir, nil
	assert.Contains(t, part(c), "at the latest 24 min; then 40 min to 8 °C\n  in the fridge.\n")
	c.Then = heat.BoxAir
	assert.Contains(t, part(c), "at the latest 24 min; then 40 min to 8 °C\n  in the box with ice.\n")
	c.Then, c.IceG = heat.IceWater, 411
	assert.Contains(t, part(c), "at the latest 24 min; 40 min to 8 °C,\n  still in it.\n  Ice: 420 g at least; move them about.\n")
}

// How to cut sizes for one time: what ends together, and what does less so.
func TestWordsOfACuttingPlan(t *testing.T) {
	rules := []heat.CutRule{{FromMM: 20, ToMM: 30, Cut: heat.Cut{Shape: heat.Whole}, Shortest: 9, Longest: 10}, {FromMM: 30, ToMM: 45, Cut: heat.Cut{Shape: heat.Halves}, Shortest: 10, Longest: 10}}
	part := func(plan heat.CutPlan) string {
		var p page
		cutsPart(&p, plan)
		return lined(&p)
	}
	const head = "Cut so that all end together: 10 min from full steam (8 min to 12½ min)\n" +
		"  20 to 30 mm    leave whole (9 min to 10 min)\n  30 to 45 mm    halve (10 min)\n"
	plan := heat.CutPlan{Minutes: 10, Low: 8.2, High: 12.4, Rules: rules}
	plan.Even = true
	assert.Equal(t, head+"  All within a tenth of each other.\n", part(plan))
	plan.Quick = rules
	plan.QuickEven.Early, plan.QuickEven.Late = 12, 25
	assert.Equal(t, head+"  All within a tenth of each other.\n  Quicker, less even (-12 to +25 %):\n  20 to 30 mm    leave whole (9 min to 10 min)\n  30 to 45 mm    halve (10 min)\n", part(plan))
	plan.QuickEven.Even = true
	assert.Equal(t, head+"  All within a tenth of each other.\n", part(plan), "as even as the other")
	plan.QuickEven.Even, plan.Quick = false, rules[:1]
	assert.Equal(t, head+"  All within a tenth of each other.\n", part(plan), "one rule parts nothing")
	plan.Even, plan.Quick, plan.Close, plan.Notes = false, nil, rules[1:], []string{"take the small ones out first"}
	assert.Equal(t, head+"  Take the small ones out first.\n  Even within a tenth: 30-45 mm halved.\n", part(plan))
	plan.Even = true
	assert.NotContains(t, part(plan), "Even within")
	plan.Even, plan.Rules = false, rules[:1]
	assert.NotContains(t, part(plan), "Even within")
}

func TestWordsOfAKitchensClock(t *testing.T) {
	for minutes, want := range map[float64]string{0: "on time", 0.04: "on time", 0.05: "0.1 min late", 1.24: "1.2 min late", -0.04: "on time", -0.05: "0.1 min early", -2: "2.0 min early"} {
		assert.Equal(t, want, lateWords(minutes), minutes)
	}
	assert.Equal(t, []string{"10 ml", "420 ml", "1000 ml", "1.0 l", "1.3 l"}, []string{millilitres(0.1), millilitres(411), millilitres(999), millilitres(1000), millilitres(1201)})
}

// What a weight takes, for the table on the wall.
func TestCellsOfTheReckoner(t *testing.T) {
	h := meal.ReckonedHeat{Line: recipes.CropLine{Cook: "steam"}}
	e := heat.Estimate{FreeFirst: true, Minutes: 10, Low: 8, High: 12.5, ComeUp: 2, FromLoading: 12, FromLoadingLow: 10, FromLoadingHigh: 14.5}
	assert.Equal(t, timeCell{"10", "8–13"}, timeCellOf(h, meal.SizeHeat{Estimate: e}))
	late := e
	late.FreeFirst = false
	assert.Equal(t, timeCell{"12*", "10–15"}, timeCellOf(h, meal.SizeHeat{Estimate: late}))
	assert.Equal(t, timeCell{Usual: "3"}, timeCellOf(h, meal.SizeHeat{Blanched: &heat.Blanched{Minutes: 3.2}}))

	load := heat.Load{Estimate: e, WaterML: 640, GasG: 20.2, GasLongestG: 27, Rounds: 1}
	assert.Equal(t, loadCell{"12 (10–15)", litres(640) + ", 21–27 g"}, loadCellOf(h, meal.LoadHeat{Steamed: &load}))
	load.Rounds, load.GasLongestG = 2, 20.9
	assert.Equal(t, loadCell{"2 × 12 (10–15)", litres(640) + ", 21 g"}, loadCellOf(h, meal.LoadHeat{Steamed: &load}))
	load.GasG = 0
	assert.Equal(t, litres(640), loadCellOf(h, meal.LoadHeat{Steamed: &load}).Takes)
	assert.Equal(t, loadCell{"3 × 6", litres(2000) + ", 31 g"}, loadCellOf(h, meal.LoadHeat{Blanched: &heat.Blanched{FromLoading: 6.2, Rounds: 3, WaterML: 2000, GasG: 30.5}}))
	beans := meal.ReckonedHeat{Line: recipes.CropLine{Cook: "boil"}, AtLeast: 30 * time.Minute}
	assert.Equal(t, loadCell{"32 (32–32)", litres(1000) + ", 40 g"}, loadCellOf(beans, meal.LoadHeat{Boiled: &heat.Boiled{Estimate: e, Rounds: 1, WaterML: 1000, GasG: 40}}))
	beans.AtLeast = 0
	assert.Equal(t, "12 (10–15)", loadCellOf(beans, meal.LoadHeat{Boiled: &heat.Boiled{Estimate: e, Rounds: 1}}).Time)

	name := func(cook string, least time.Duration) string {
		return heatName(meal.ReckonedHeat{Line: recipes.CropLine{Cook: cook, Until: "just-tender"}, Crop: heat.Crop{Name: "runner bean"}, AtLeast: least}, "slice 20 mm")
	}
	assert.Equal(t, "Runner bean, slice 20 mm, steamed just tender", name("steam", 0))
	assert.Equal(t, "Runner bean, slice 20 mm, blanched", name("blanch", 0))
	assert.Equal(t, "Runner bean, slice 20 mm, boiled just tender", name("boil", 30*time.Minute))
	assert.Equal(t, "Runner bean, slice 20 mm, steamed just tender; not safe so: boil them 30 min", name("steam", 30*time.Minute))
	assert.Equal(t, "", shapeOf(meal.ReckonedHeat{Line: recipes.CropLine{Cut: "as it comes"}}))
	assert.Equal(t, "slice", shapeOf(meal.ReckonedHeat{Line: recipes.CropLine{Cut: "slice 20 mm"}}))
}

// What the figures of the reckoner are for, and what of a dish stands on it.
func TestWordsOfTheReckoner(t *testing.T) {
	r := meal.Reckoner{KnifeTests: 1, Kitchen: recipes.Kitchen{RoomC: 20, FridgeC: 4, AltitudeM: 120}}
	r.Kitchen.Steamer.DiameterMM, r.Kitchen.Steamer.Tiers, r.Kitchen.Stove.PowerW = 240, 2, 1800
	assert.Equal(t, "For this kitchen: steamer 240 mm, 2 tiers; stove 1.8 kW; 120 m above the sea; fridge 4 °C; room 20 °C; 1 knife test of its own.", reckonerKitchen(r))
	r.Kitchen.NoFridge, r.Kitchen.Stove.Gas, r.Kitchen.Steamer.Tiers, r.KnifeTests = true, "butane", 1, 0
	assert.Equal(t, "For this kitchen: steamer 240 mm, 1 tier; stove 1.8 kW, butane; 120 m above the sea; no fridge; room 20 °C; 0 knife tests of its own.", reckonerKitchen(r))
	assert.Equal(t, []string{"Potato", "Floury potato", "Potato"}, []string{cropOfReckoner(recipes.CropLine{Crop: "potato", Texture: "any"}), cropOfReckoner(recipes.CropLine{Crop: "potato", Texture: "floury"}), cropOfReckoner(recipes.CropLine{Crop: "potato"})})

	line := func(item, measured string, flag bool) recipes.ScaledLine {
		l := recipes.ScaledLine{Item: item}
		l.Measured.Text, l.Measured.Flag = measured, flag
		l.Exact, l.Measured.Value = units.MustParse("10 g"), units.MustParse("10 g")
		return l
	}
	butter, salt, few := line("butter", "20 g", false), line("salt", "a pinch", false), line("butter", "10 g", true)
	butter.Instead, few.Instead = []recipes.ScaledLine{line("oil", "2 tbsp", false)}, []recipes.ScaledLine{line("oil", "1 tbsp", false)}
	salt.Optional, salt.FromPlot = true, true
	d := meal.ReckonedDish{Recipe: recipes.Dish{Name: "Mash", Served: recipes.Hot}, Made: []meal.Dish{
		{Portions: 2, Scaled: recipes.Scaled{Others: []recipes.ScaledLine{few, salt}}}, {Portions: 4, Scaled: recipes.Scaled{Others: []recipes.ScaledLine{butter, salt}}}},
		Warnings: []meal.Warning{{Severity: meal.Danger, Concern: meal.SteamIsNotEnough, Dish: "Mash", Crop: "bean", Rule: "bean-fresh-strict", Boil: 30 * time.Minute}, {Severity: meal.Notice, Concern: meal.Remark, Says: "odd"}}}
	view := viewReckonedDish(d)
	assert.Equal(t, []string{"2", "4"}, view.Portions)
	assert.Equal(t, []reckonedRow{{What: "butter", Cells: []string{"≈ 10 g", "20 g"}}, {What: "or oil", Cells: []string{"1 tbsp", "2 tbsp"}}}, view.Rows)
	assert.Equal(t, "For any number: salt, if you like (plot) a pinch. Odd.", view.Foot)
	assert.Equal(t, []string{"Mash: steam alone does not make its beans safe (bean-fresh-strict). Boil them in water for 30 min, whatever the steaming time; or leave the dish out."}, view.Dangers)
}

// How long it may stand, rounded down; without a fridge nothing is said of one.
func TestWordsOfStanding(t *testing.T) {
	for d, want := range map[time.Duration]string{0: "0 h", 59 * time.Second: "0 h", time.Minute: "1 min", 59 * time.Minute: "59 min", time.Hour: "1 h", 89*time.Minute + 59*time.Second: "1 h 29 min", 2 * time.Hour: "2 h", 49 * time.Hour: "49 h"} {
		assert.Equal(t, want, hoursWords(d), d)
	}
	for want, s := range map[string]meal.Standing{
		"2 h": {For: 2 * time.Hour}, "under 2 h": {For: 2 * time.Hour, Before: true}, "not at all": {Verdict: keeping.Discard}, "not known": {Verdict: keeping.Unknown},
	} {
		assert.Equal(t, want, standingWords(s))
	}
	k := recipes.Kitchen{RoomC: 20}
	dish := meal.ReckonedDish{Recipe: recipes.Dish{Name: "Mash"}, Stands: meal.Stands{Out: meal.Standing{For: time.Hour}, HotOut: meal.Standing{For: 2 * time.Hour},
		Fridge: meal.Standing{For: 3 * time.Hour}, TableOut: meal.Standing{For: 4 * time.Hour}, WeakEat: meal.Standing{For: 5 * time.Hour}}}
	assert.Equal(t, []string{"out, at 20 °C", "out, over 32 °C", "in the fridge", "out again", "stricter rules"}, standHeads(k))
	assert.Equal(t, standsView{"Mash", []string{"1 h", "2 h", "3 h", "4 h", "5 h"}}, viewStands(k, dish))
	k.NoFridge = true
	assert.Equal(t, []string{"out, at 20 °C", "out, over 32 °C"}, standHeads(k))
	assert.Equal(t, standsView{"Mash", []string{"1 h", "2 h"}}, viewStands(k, dish))
	assert.Contains(t, heatedWords(meal.Reckoner{Kitchen: k}), "Counted from the heat; eaten by then. Heat leftovers up ")
	assert.Equal(t, []string{"once", "at most 2 times"}, []string{timesWord(1), timesWord(2)})
}

// lined is a page as it stands on the terminal.
func lined(p *page) string { return strings.Join(p.lines, "\n") + "\n" }
