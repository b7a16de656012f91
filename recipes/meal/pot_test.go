package meal_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
)

// inWater is a dish of one crop, cooked as told.
func inWater(t *testing.T, served, crop, cut, how string) recipes.Dish {
	t.Helper()
	return loadDish(t, "w.yaml", fmt.Sprintf("name: Pot\nportions: 4\nserved: %s\nlargest: 4\ncrops: [{crop: %s, amount: 600 g, prepared: as-lifted, cut: %s, %s}]\nmethod: [Cook.]\n", served, crop, cut, how))
}

// What is boiled has the minutes of heat's own plan of this pot on this stove, with
// the time back to the boil after loading; the dish file's are not used.
func TestBoilingIsReckoned(t *testing.T) {
	for _, kitchen := range []string{"", "pot: {volume: 1 l}\n", "stove: {power: 1 kW, gas: butane}\n", "altitude: 2000 m\n"} {
		q := question(t, []recipes.Dish{inWater(t, "hot", "potato", "cube 25 mm", "cook: boil, takes: 90 min, until: tender")}, lot("tub-1/a", "potato", 2000, 40, 60))
		q.Kitchen = loadKitchen(t, kitchen)
		plan := makePlan(t, q)
		part := plan.Dishes[0].Parts[0]
		crop, err := heat.LookupCrop("potato", "")
		require.NoError(t, err)
		cut, err := heat.ParseCut("cube 25 mm")
		require.NoError(t, err)
		want, err := heat.BoilPlan(crop, cut, heat.Tender, part.Prepared.InexactFloat64(), q.Kitchen.Equipment(), heat.Water{}, heat.Conditions{AltitudeM: q.Kitchen.AltitudeM})
		require.NoError(t, err)
		minutes, low, high := want.Estimate.Clock()
		assert.Equal(t, []float64{minutes, low, high, want.ToBoil, want.WaterML}, []float64{part.Pot.Minutes, part.Pot.Low, part.Pot.High, part.Pot.ToBoil, part.Pot.WaterML}, kitchen)
		assert.Equal(t, want.Estimate.ComeUp, part.Pot.BackToBoil)
		assert.Equal(t, want.Rounds, part.Pot.Rounds)
		var boils, ins, tests, outs []meal.Step
		for _, step := range plan.Steps {
			switch step.Kind {
			case schedule.Boil:
				boils = append(boils, step)
			case schedule.BoilIn:
				ins = append(ins, step)
			case schedule.Test:
				tests = append(tests, step)
			case schedule.LiftOut:
				outs = append(outs, step)
			}
		}
		require.Len(t, boils, 1, "the water is brought to the boil once")
		assert.Equal(t, time.Duration(math.Ceil(want.ToBoil))*time.Minute, boils[0].Length)
		require.Len(t, ins, want.Rounds)
		require.Len(t, tests, want.Rounds)
		require.Len(t, outs, want.Rounds)
		for i := range ins {
			assert.Equal(t, time.Duration(math.Ceil(want.Estimate.ComeUp+high))*time.Minute, ins[i].Length)
			assert.Equal(t, time.Duration(math.Floor(want.Estimate.ComeUp+low))*time.Minute, tests[i].At.Sub(ins[i].At), "the first knife test")
			assert.Equal(t, ins[i].End(), outs[i].At)
		}
		assert.Equal(t, ins[0].End(), plan.Clocks[0].History.CookedAt, "the first filling out is the oldest")
		assert.GreaterOrEqual(t, plan.Supplies.WaterML, want.WaterML)
		assert.True(t, slices.ContainsFunc(plan.Steps, func(s meal.Step) bool { return s.Ring > 0 }))
	}
}

// A pot of a litre holds less than the meal: fillings follow each other at once.
func TestASmallPotIsFilledTwice(t *testing.T) {
	q := question(t, []recipes.Dish{inWater(t, "hot", "potato", "cube 25 mm", "cook: boil")}, lot("tub-1/a", "potato", 2000, 40, 60))
	q.Kitchen = loadKitchen(t, "pot: {volume: 1 l}\n")
	plan := makePlan(t, q)
	pot := plan.Dishes[0].Parts[0].Pot
	assert.Equal(t, 2, pot.Rounds)
	assert.InDelta(t, plan.Dishes[0].Parts[0].Prepared.InexactFloat64(), 2*pot.GramsPerRound, 1e-9)
}

// What the beans' rule asks for is boiled whatever the knife says, and is then no
// danger. Published: 30 min (Bundesinstitut für Risikobewertung, Lectins in
// plant-based foods, 2024; read).
func TestBeansBoilTheirTime(t *testing.T) {
	why, must := recipes.MustBoil("French bean")
	require.True(t, must)
	require.Equal(t, 30*time.Minute, why.Boil)
	dangers := func(how string) (concerns []meal.Concern, plan meal.Plan) {
		plan = makePlan(t, question(t, []recipes.Dish{inWater(t, "hot", "French bean", "whole 9 mm", how)}, lot("bed-1/b", "French bean", 900, 0, 0)))
		for _, w := range plan.Warnings {
			if w.Severity == meal.Danger {
				concerns = append(concerns, w.Concern)
			}
		}
		return concerns, plan
	}
	told, plan := dangers("cook: boil, until: just-tender")
	assert.Empty(t, told)
	assert.Equal(t, 30*time.Minute, plan.Dishes[0].Parts[0].Pot.AtLeast)
	for _, step := range plan.Steps {
		if step.Kind == schedule.BoilIn {
			assert.GreaterOrEqual(t, step.Length, 30*time.Minute)
		}
		assert.NotEqual(t, schedule.Test, step.Kind, "no knife decides on them")
	}
	for _, how := range []string{"cook: blanch", "cook: steam"} {
		told, _ := dangers(how)
		assert.Contains(t, told, meal.SteamIsNotEnough, how)
	}
}

// What is blanched for a cold dish goes into ice water until it is cold in the
// middle, then into the fridge; the ice is told. For a hot dish it does not.
func TestBlanchingHasItsIceWater(t *testing.T) {
	q := question(t, []recipes.Dish{inWater(t, "cold", "carrot", "cube 10 mm", "cook: blanch")}, lot("bed-1/c", "carrot", 2000, 0, 0))
	plan := makePlan(t, q)
	pot := plan.Dishes[0].Parts[0].Pot
	want, err := heat.Blanch(plan.Dishes[0].Parts[0].Piece.Crop, plan.Dishes[0].Parts[0].Piece.Sized, plan.Dishes[0].Parts[0].Piece.Grams, q.Kitchen.Equipment(), heat.Conditions{})
	require.NoError(t, err)
	assert.Equal(t, want.Minutes, pot.Minutes)
	assert.Equal(t, want.BackToBoil, pot.BackToBoil)
	assert.Equal(t, want.IceG, plan.Supplies.IceG)
	assert.GreaterOrEqual(t, pot.IceMinutes, want.CoolMinutes)
	kinds := kindsOf(plan, "Pot")
	assert.NotContains(t, kinds, schedule.Spread, "nothing lies on a tray")
	at := slices.Index(kinds, schedule.Cool)
	require.Greater(t, pot.Rounds, 1)
	require.Positive(t, at)
	assert.Contains(t, kinds[at:], schedule.Chill)
	assert.False(t, plan.IsNotCold("Pot"))
	ended := map[schedule.Kind]time.Time{}
	for _, step := range plan.Steps {
		if step.Kind == schedule.Cool || step.Kind == schedule.LiftOut {
			ended[step.Kind] = step.End()
		}
	}
	assert.GreaterOrEqual(t, ended[schedule.Cool].Sub(ended[schedule.LiftOut]).Minutes(), pot.IceMinutes, "the last filling too")
	boiled := slices.DeleteFunc(slices.Clone(kinds), func(k schedule.Kind) bool { return k != schedule.BoilIn })
	assert.Len(t, boiled, want.Rounds)

	q.Kitchen = loadKitchen(t, "fridge: none\n")
	without := makePlan(t, q)
	assert.Contains(t, kindsOf(without, "Pot"), schedule.Cool)
	assert.True(t, without.IsNotCold("Pot"), "nothing keeps it cold until it is served")

	q.Dishes = []recipes.Dish{inWater(t, "hot", "carrot", "cube 10 mm", "cook: blanch")}
	hot := makePlan(t, q)
	assert.Zero(t, hot.Supplies.IceG)
	assert.NotContains(t, kindsOf(hot, "Pot"), schedule.Cool)
}

// A crop that heat has no figures for keeps the minutes of its dish file; without
// those nobody knows how long it takes, and the plan says so.
func TestWaterWithoutFigures(t *testing.T) {
	leeks := func(how string) meal.Plan {
		return makePlan(t, question(t, []recipes.Dish{inWater(t, "hot", "leek", "slice 20 mm", how)}, lot("bed-1/l", "leek", 2000, 0, 0)))
	}
	plan := leeks("cook: boil, takes: 12 min")
	assert.Nil(t, plan.Dishes[0].Parts[0].Pot)
	at := slices.IndexFunc(plan.Steps, func(s meal.Step) bool { return s.Kind == schedule.BoilIn })
	require.GreaterOrEqual(t, at, 0)
	assert.Equal(t, 12*time.Minute, plan.Steps[at].Length)
	untimed := leeks("cook: boil")
	assert.True(t, untimed.Dishes[0].Parts[0].IsUntimed())
	assert.Equal(t, meal.Untimed, untimed.Warnings[0].Concern)
}

// A salad of three fillings is one bowl: it is as old as what left the heat first,
// and in the fridge once the last of it is. A plan in which that is too long says so
// first, as keep says it of the same bowl.
func TestASaladOfManyFillingsIsOneBowl(t *testing.T) {
	for name, how := range map[string]string{"steamed": "cook: steam", "boiled": "cook: boil"} {
		t.Run(name, func(t *testing.T) {
			dish := inWater(t, "cold", "potato", "cube 25 mm", how)
			dish.Largest, dish.Smallest = 20, 20
			q := question(t, []recipes.Dish{dish}, lot("tub-1/a", "potato", 9000, 40, 60))
			q.Kitchen = loadKitchen(t, "steamer: {diameter: 220 mm, tiers: 1}\npot: {volume: 2 l}\n")
			plan := makePlan(t, q)
			var ends, chills []time.Time
			for _, step := range plan.Steps {
				switch step.Kind {
				case schedule.Steam, schedule.BoilIn:
					ends = append(ends, step.End())
				case schedule.Chill:
					chills = append(chills, step.At)
				}
			}
			require.Greater(t, len(ends), 2)
			require.Len(t, chills, len(ends), "each filling goes into the fridge")
			clock := plan.Clocks[0]
			assert.Equal(t, slices.MinFunc(ends, time.Time.Compare), clock.History.CookedAt)
			assert.Equal(t, slices.MaxFunc(chills, time.Time.Compare), clock.History.ChilledAt)
			told := slices.ContainsFunc(plan.Warnings, func(w meal.Warning) bool {
				return w.Concern == meal.ClockBroken && w.Severity == meal.Danger
			})
			assert.Equal(t, clock.Holds, !told)
		})
	}
}

// One steaming asked for is one steaming, where no limit breaks for it; else the plan
// says that it takes more.
func TestTheFillingsAskedForAreKept(t *testing.T) {
	warm := loadDish(t, "w.yaml", strings.NewReplacer("Crushed potatoes", "Warm potatoes", "served: hot", "served: warm").Replace(crushed))
	dishes := []recipes.Dish{loadDish(t, "c.yaml", crushed), warm}
	for i := range dishes {
		dishes[i].Smallest, dishes[i].Largest = 2, 2
	}
	q := question(t, dishes, lot("tub-1/a", "potato", 3000, 20, 45))
	q.Rounds, q.MostDishes = 1, 2
	plan := makePlan(t, q)
	require.Len(t, plan.Dishes, 2)
	assert.Len(t, plan.Runs, 1)
	told := func(plan meal.Plan) bool {
		return slices.ContainsFunc(plan.Warnings, func(w meal.Warning) bool { return w.Concern == meal.MoreRounds && w.Rounds == 1 })
	}
	assert.False(t, told(plan))
	q.Dishes[1].Served = recipes.Cold
	assert.Equal(t, len(makePlan(t, q).Runs) > 1, told(makePlan(t, q)))
}
