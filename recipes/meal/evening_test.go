package meal_test

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
	"trencher/units"
)

// Parts of one dish share a filling; their times are reckoned for all that is
// in the steamer at once.
func TestPartsShareAFilling(t *testing.T) {
	q := question(t, []recipes.Dish{loadDish(t, "d.yaml", twoCrops)}, lot("tub-1/a", "potato", 300, 20, 45), lot("bed-1/b", "beetroot", 500, 35, 55))
	plan := makePlan(t, q)
	require.Len(t, plan.Runs, 1)
	assert.Equal(t, []meal.PartAt{{Dish: 0, Part: 0}, {Dish: 0, Part: 1}}, plan.Runs[0].Parts)
	together := 0.0
	for _, part := range plan.Dishes[0].Parts {
		together += part.Piece.Grams
	}
	for _, part := range plan.Dishes[0].Parts {
		assert.Equal(t, []string{"r1"}, part.Steam.Runs)
		assert.InDelta(t, together, part.Steam.AtOnceG, 1e-9)
		assert.Greater(t, part.Steam.Estimate.ComeUp, part.Steam.Load.Estimate.ComeUp, "more to heat takes longer to come up")
		assert.LessOrEqual(t, part.Steam.Low, part.Steam.Estimate.Minutes)
		assert.GreaterOrEqual(t, part.Steam.High, part.Steam.Estimate.Minutes)
	}
	assert.Len(t, plan.Runs[0].Tiers, 2)
	var steams, loads []meal.Step
	for _, step := range plan.Steps {
		switch step.Kind {
		case schedule.Steam:
			steams = append(steams, step)
		case schedule.Load:
			loads = append(loads, step)
		}
	}
	require.Len(t, steams, 2)
	assert.Equal(t, "beetroot", steams[0].Crop, "the longest goes in first")
	assert.Equal(t, 1, steams[0].Tier, "and lies lowest")
	assert.Equal(t, steams[0].End(), steams[1].End(), "what needs less goes in later")
	assert.Len(t, loads, 2)
}

func TestLateness(t *testing.T) {
	q := question(t, twoDishes(t), lot("tub-1/a", "potato", 2000, 20, 45))
	q.Now = clockAt(17, 0)
	plan := makePlan(t, q)
	require.NotEmpty(t, plan.Warnings)
	late := plan.Warnings[0]
	assert.Equal(t, meal.Late, late.Concern)
	assert.Equal(t, plan.Steps[0].At, late.Late.Start)
	assert.Equal(t, q.Now.Sub(plan.Steps[0].At), late.Late.By)
	require.NotEmpty(t, late.Late.Helps)
	assert.LessOrEqual(t, len(late.Late.Helps), 3)
	for i, help := range late.Late.Helps {
		assert.GreaterOrEqual(t, help.Saves, 5*time.Minute)
		if i > 0 {
			assert.LessOrEqual(t, help.Saves, late.Late.Helps[i-1].Saves)
		}
	}
	assert.Equal(t, meal.Change{Kind: meal.LeaveOut, Dish: "Potato salad", Saves: late.Late.Helps[0].Saves, Serve: late.Late.Earliest.Add(-late.Late.Helps[0].Saves)}, late.Late.Helps[0])
	assert.Equal(t, q.Now.Add(plan.Allow), late.Late.Earliest)
	assert.Equal(t, late.Late.Earliest, plan.EarliestServeAt)
	assert.False(t, late.Late.Passed)
	// Each saving is what the changed plan really saves.
	without := question(t, twoDishes(t)[:1], lot("tub-1/a", "potato", 2000, 20, 45))
	without.Limits = []meal.Limit{{Item: "butter", Amount: units.MustParse("90 g")}}
	alone := makePlan(t, without)
	require.Equal(t, plan.Dishes[0].Portions, alone.Dishes[0].Portions)
	assert.Equal(t, plan.Allow-alone.Allow, late.Late.Helps[0].Saves)

	q.Now = plan.Steps[0].At
	assert.Empty(t, makePlan(t, q).Warnings, "on the dot is in time")
}

// What is picked takes 3 min and 2 more for each plant: common practice, no
// source. A raw salad boils no water.
func TestPickingAndRawDishes(t *testing.T) {
	raw := loadDish(t, "d.yaml", `
name: Carrot salad
portions: 2
served: cold
crops: [{crop: carrot, amount: 300 g, prepared: peeled, cook: raw}]
others:
  - {item: parsley, amount: 1 tbsp, state: chopped, from: plot}
  - {item: mint, amount: 4, from: plot}
  - {item: parsley, amount: 1, from: plot}
method: [Grate.]
`)
	plan := makePlan(t, question(t, []recipes.Dish{raw}, lot("bed-1/c", "carrot", 2000, 0, 0)))
	assert.Equal(t, []schedule.Kind{schedule.Peel, schedule.Dress, schedule.Serve}, kindsOf(plan, "Carrot salad"))
	for _, step := range plan.Steps {
		assert.Zero(t, step.Ring)
		assert.NotEqual(t, schedule.Boil, step.Kind)
		if step.Kind == schedule.Pick {
			assert.Equal(t, 7*time.Minute, step.Length, "parsley and mint")
		}
	}
	assert.Empty(t, plan.Clocks)
	assert.Empty(t, plan.Runs)
}

// Parts that do not fit the tiers together go in one after the other.
func TestTiersLimitAFilling(t *testing.T) {
	q := question(t, []recipes.Dish{loadDish(t, "d.yaml", twoCrops)}, lot("tub-1/a", "potato", 300, 20, 45), lot("bed-1/b", "beetroot", 500, 35, 55))
	q.Kitchen = loadKitchen(t, "steamer: {diameter: 240 mm, tiers: 1}\n")
	plan := makePlan(t, q)
	assert.Len(t, plan.Runs, 2)
	for _, run := range plan.Runs {
		assert.Len(t, run.Parts, 1)
		assert.Equal(t, 1, run.Number)
		assert.Equal(t, 1, run.Of)
	}
}

// Two hot dishes that leave tiers empty share a filling, the longest first; a
// warm one does not join them.
func TestDishesShareAFilling(t *testing.T) {
	soft := loadDish(t, "m.yaml", strings.NewReplacer("Crushed potatoes", "Mash", "until: tender", "until: soft").Replace(crushed))
	warm := loadDish(t, "w.yaml", strings.NewReplacer("Crushed potatoes", "Warm potatoes", "served: hot", "served: warm").Replace(crushed))
	dishes := []recipes.Dish{loadDish(t, "c.yaml", crushed), soft, warm}
	for i := range dishes {
		dishes[i].Largest = 2
	}
	plan := makePlan(t, question(t, dishes, lot("tub-1/a", "potato", 3000, 20, 45)))
	require.Len(t, plan.Dishes, 3)
	require.Len(t, plan.Runs, 2)
	assert.Equal(t, []meal.PartAt{{Dish: 2}}, plan.Runs[0].Parts)
	assert.Equal(t, meal.Run{ID: "r2", Parts: []meal.PartAt{{Dish: 1}, {Dish: 0}}, Tiers: [][]meal.PartAt{{{Dish: 1}}, {{Dish: 0}}}, Number: 1, Of: 1}, plan.Runs[1])
	assert.Equal(t, []string{"r2"}, plan.Dishes[0].Parts[0].Steam.Runs)
	assert.Equal(t, []string{"r1"}, plan.Dishes[2].Parts[0].Steam.Runs)
	var steam, finishes []meal.Step
	for _, step := range plan.Steps {
		switch {
		case step.Kind == schedule.Steam && step.Run == "r2":
			steam = append(steam, step)
		case step.Kind == schedule.Finish:
			finishes = append(finishes, step)
		}
	}
	require.Len(t, steam, 2, "a step for each class")
	assert.Equal(t, steam[0].End(), steam[1].End(), "hot food ends together")
	require.Len(t, finishes, 2)
	assert.Equal(t, steam[0].End().Add(time.Minute), finishes[0].At, "taken out and finished")
	assert.Equal(t, finishes[0].End(), finishes[1].At, "one after the other")
}

// Only what is made with something from the plot waits for it to be picked.
func TestWhoWaitsForThePicking(t *testing.T) {
	plain := loadDish(t, "p.yaml", strings.NewReplacer("Crushed potatoes", "Plain potatoes", "  - {item: chives, amount: 2 tbsp, state: chopped, from: plot}\n", "").Replace(crushed))
	plan := makePlan(t, question(t, append(twoDishes(t), plain), lot("tub-1/a", "potato", 3000, 20, 45)))
	pick := ""
	for _, step := range plan.Steps {
		if step.Kind == schedule.Pick {
			pick = step.ID
		}
	}
	waiting := map[string]bool{}
	for _, step := range plan.Steps {
		for _, id := range step.After {
			if id == pick {
				waiting[step.Dishes[0]] = true
			}
		}
	}
	assert.Equal(t, map[string]bool{"Crushed potatoes": true, "Potato salad": true}, waiting)
}

// With nothing asked for the meal is as soon as can be; from another start, from
// then; on another day at six.
func TestWhereTheServingTimeComesFrom(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*meal.Question)
		took   meal.Took
		serve  func(meal.Plan) time.Time
	}{
		{"asked for", func(q *meal.Question) { q.ServeAt = clockAt(19, 0) }, meal.AsAsked, func(meal.Plan) time.Time { return clockAt(19, 0) }},
		{"from a start", func(q *meal.Question) { q.Start = clockAt(16, 0) }, meal.FromThen, func(p meal.Plan) time.Time { return clockAt(16, 0).Add(p.Allow) }},
		{"from now", func(*meal.Question) {}, meal.FromNow, func(p meal.Plan) time.Time { return clockAt(10, 1).Add(p.Allow) }},
		{"another day", func(q *meal.Question) { q.Now = q.Now.AddDate(0, 0, -1) }, meal.AtSix, func(meal.Plan) time.Time { return clockAt(18, 0) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			q := question(t, twoDishes(t)[:1], lot("tub-1/a", "potato", 2000, 20, 45))
			q.ServeAt, q.Now = time.Time{}, clockAt(10, 0).Add(20*time.Second)
			c.change(&q)
			plan := makePlan(t, q)
			assert.Equal(t, c.took, plan.Took)
			assert.True(t, plan.ServeAt.Equal(c.serve(plan)), plan.ServeAt)
			assert.Equal(t, plan.ServeAt, plan.Steps[len(plan.Steps)-1].End())
		})
	}
}

// Without a fridge nothing is chilled, the salad is said not to be cold, and it
// is served in time.
func TestWithoutAFridge(t *testing.T) {
	q := question(t, twoDishes(t)[1:], lot("tub-1/a", "potato", 900, 20, 45))
	q.Kitchen = loadKitchen(t, "fridge: none\n")
	plan := makePlan(t, q)
	assert.NotContains(t, kindsOf(plan, "Potato salad"), schedule.Chill)
	assert.Contains(t, kindsOf(plan, "Potato salad"), schedule.Cool)
	assert.True(t, plan.Clocks[0].History.ChilledAt.IsZero())
	assert.True(t, plan.Clocks[0].Holds)
	assert.Equal(t, meal.NotCold, plan.Warnings[0].Concern)
}

// Gas runs out before the last filling: the canister is changed before it.
func TestTheCanisterIsChanged(t *testing.T) {
	dish := loadDish(t, "d.yaml", strings.Replace(crushed, "largest: 6", "largest: 40", 1))
	q := question(t, []recipes.Dish{dish}, lot("tub-1/a", "potato", 3000, 20, 45))
	q.Kitchen = loadKitchen(t, "steamer: {diameter: 220 mm, tiers: 1}\nstove: {power: 1.8 kW, canister: 150 g}\nwater: carried 1 l\n")
	plan := makePlan(t, q)
	assert.Contains(t, kindsOf(plan, "Crushed potatoes"), schedule.Canister)
	assert.Greater(t, plan.Supplies.GasG, 150.0)
	assert.Greater(t, plan.Supplies.Canisters, 1)
	assert.Greater(t, plan.Supplies.WaterML, 1000.0)
	var concerns []meal.Concern
	for _, w := range plan.Warnings {
		concerns = append(concerns, w.Concern)
	}
	assert.Contains(t, concerns, meal.OutOfWater)
}

// A dish's own step wants the ring too.
func TestOwnStepsCompeteForTheRing(t *testing.T) {
	dish := loadDish(t, "d.yaml", crushed+"steps: [{do: Warm the milk, takes: 4-5 min, uses: ring, before: finish}]\n")
	plan := makePlan(t, question(t, []recipes.Dish{dish}, lot("tub-1/a", "potato", 900, 20, 45)))
	for _, step := range plan.Steps {
		if step.Kind == schedule.Warm {
			assert.Equal(t, 5*time.Minute, step.Length)
			assert.Equal(t, "Warm the milk", step.Do)
			assert.Equal(t, 1, step.Ring)
			return
		}
	}
	t.Fatal("nobody warms the milk")
}

// In hot air what should cool would be hand-warm only after the hour that such
// air leaves: it is not chilled, not called cold, and eaten in time.
func TestWhatCannotCoolInTimeIsNotCalledCold(t *testing.T) {
	q := question(t, twoDishes(t)[1:], lot("tub-1/a", "potato", 900, 20, 45))
	q.AirC = 35
	plan := makePlan(t, q)
	assert.NotContains(t, kindsOf(plan, "Potato salad"), schedule.Chill)
	assert.True(t, plan.Clocks[0].Holds)
	assert.Equal(t, meal.NotCold, plan.Warnings[0].Concern)
	assert.Empty(t, meal.Check(plan))
}

const toTheTableMinutes = 1 // putting on the table

// A box with ice keeps cold what comes dressed from the fridge, and its minutes
// do not count as out; one that is too warm is left alone, and without a fridge a
// box chills nothing (coolbox-holds-only, coolbox-clock).
func TestTheColdBoxKeepsColdAndChillsNothing(t *testing.T) {
	for _, c := range []struct {
		name, kitchen string
		boxed         bool
	}{
		{"a fridge and a cold box", "fridge: 4 C\ncold-box: {ice: 2 kg, holds: 5 C}\n", true},
		{"a box that is too warm", "fridge: 4 C\ncold-box: {ice: 1 kg, holds: 10 C}\n", false},
		{"no fridge", "fridge: none\ncold-box: {ice: 2 kg, holds: 5 C}\n", false},
		{"no box", "fridge: 4 C\ncold-box: none\n", false},
		{"ice for an hour or two", "fridge: 4 C\ncold-box: {ice: 100 g, holds: 5 C}\n", false},
		{"nobody knows how much ice", "fridge: 4 C\ncold-box: {holds: 5 C}\n", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			q := question(t, twoDishes(t), lot("tub-1/a", "potato", 2000, 20, 45))
			q.Kitchen = loadKitchen(t, c.kitchen)
			plan := makePlan(t, q)
			require.Empty(t, meal.Check(plan))
			assert.Equal(t, c.boxed, slices.Contains(kindsOf(plan, "Potato salad"), schedule.ColdBox))
			warms := slices.ContainsFunc(plan.Warnings, func(w meal.Warning) bool { return w.Concern == meal.BoxWarms })
			assert.Equal(t, plan.Box.Needed > 0 && !c.boxed, warms, "it is told when the ice is gone too soon")
			assert.Equal(t, c.boxed, plan.Box.Needed > 0 && plan.Box.Lasts >= plan.Box.Needed)
			if plan.Box.Needed > 0 {
				assert.InDelta(t, plan.Allow.Minutes(), plan.Box.Needed, toTheTableMinutes, "the ice melts from when the work begins")
				assert.InDelta(t, 1.25*plan.Dishes[1].Parts[0].Prepared.InexactFloat64(), plan.Box.FoodG, 1e-9)
			}
			for _, clock := range plan.Clocks {
				if clock.Dish != "Potato salad" || !c.boxed {
					continue
				}
				require.Len(t, clock.History.Out, 3)
				box := clock.History.Out[1]
				assert.Equal(t, 5.0, box.Air.C)
				warmer := clock.History
				warmer.Out = []keeping.Spell{{From: clock.DressedAt}}
				without, err := keeping.DeadlineOf(warmer, keeping.Authority(plan.Kitchen.Authority), plan.ServeAt)
				require.NoError(t, err)
				assert.Equal(t, box.To.Sub(box.From), clock.LimitAt.Sub(without.Until), "the box adds its minutes")
			}
		})
	}
}

// Boiled potatoes have their water boiled first, on a ring of their own, and boil as
// long as heat says of this pot, whatever the dish file's minutes; two dishes of one
// oven bake one after the other.
func TestWhatIsNotSteamedCompetesToo(t *testing.T) {
	cook := func(name, how string) recipes.Dish {
		return loadDish(t, name+".yaml", "name: "+name+"\nportions: 2\nserved: hot\nlargest: 2\ncrops: [{crop: potato, amount: 400 g, prepared: scrubbed, cut: halves, "+how+"}]\nmethod: [Cook.]\n")
	}
	q := question(t, []recipes.Dish{cook("Boiled", "cook: boil, takes: 18-20 min"), cook("Baked", "cook: own, takes: 40 min, uses: oven"), cook("Crisp", "cook: own, takes: 30 min, uses: oven")},
		lot("tub-1/a", "potato", 3000, 35, 55))
	plan := makePlan(t, q)
	require.Len(t, plan.Dishes, 3)
	require.Empty(t, meal.Check(plan))
	var ovens []meal.Step
	for i, step := range plan.Steps {
		switch {
		case step.Kind == schedule.BoilIn:
			pot := plan.Dishes[step.Parts[0].Dish].Parts[0].Pot
			require.NotNil(t, pot)
			assert.Equal(t, time.Duration(math.Ceil(pot.Longest()))*time.Minute, step.Length)
			at := slices.IndexFunc(plan.Steps, func(s meal.Step) bool { return s.ID == step.AtOnce })
			require.GreaterOrEqual(t, at, 0)
			assert.Equal(t, schedule.Boil, plan.Steps[at].Kind)
			assert.Equal(t, plan.Steps[at].Ring, step.Ring)
			assert.Less(t, at, i)
		case step.Place == "oven":
			ovens = append(ovens, step)
		}
	}
	require.Len(t, ovens, 2)
	assert.False(t, ovens[1].At.Before(ovens[0].End()), "one oven")
	assert.Positive(t, plan.Supplies.GasG)
	assert.GreaterOrEqual(t, plan.Supplies.WaterML, 750.0)
	assert.Len(t, plan.Clocks, 3)
}

// The fillings of a dish follow each other at once, unless another between them
// makes the better timetable: of three fillings of hot food in one tier the shorter
// comes the later, whichever dish it is of, for then least waits.
func TestADishIsSplitWhereThatIsBetter(t *testing.T) {
	dish := func(name, crops string) recipes.Dish {
		return loadDish(t, name+".yaml", "name: "+name+"\nportions: 2\nserved: hot\nlargest: 2\ncrops:\n"+crops+"method: [Steam.]\n")
	}
	part := func(crop, cut string) string {
		return "  - {crop: " + crop + ", amount: 300 g, prepared: as-lifted, cut: cube " + cut + ", cook: steam, until: tender}\n"
	}
	for _, c := range []struct {
		name   string
		dishes []recipes.Dish
		split  bool
	}{
		{"a middling filling goes between", []recipes.Dish{dish("Two", part("beetroot", "30 mm")+part("potato", "15 mm")), dish("One", part("potato", "35 mm"))}, true},
		{"the longest and the shortest stay beside each other", []recipes.Dish{dish("Two", part("beetroot", "30 mm")+part("potato", "35 mm")), dish("One", part("potato", "15 mm"))}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			q := question(t, c.dishes, lot("tub-1/a", "potato", 3000, 40, 60), lot("bed-1/b", "beetroot", 2000, 40, 60))
			q.Kitchen = loadKitchen(t, "steamer: {diameter: 240 mm, tiers: 1}\n")
			plan := makePlan(t, q)
			require.Len(t, plan.Runs, 3)
			require.True(t, plan.Timing.Proven)
			hasty := q
			hasty.NodeLimit = 1
			rough := makePlan(t, hasty)
			assert.LessOrEqual(t, rough.Timing.Bound.Compare(plan.Timing.Cost), 0, "given up early, it does not claim more than is so")
			assert.Equal(t, rough.Timing.Proven, rough.Timing.Cost == rough.Timing.Bound)
			var order []string
			lengths := []time.Duration{}
			for _, step := range plan.Steps {
				if step.Kind == schedule.Steam {
					order, lengths = append(order, step.Dishes...), append(lengths, step.Length)
				}
			}
			assert.Equal(t, c.split, order[1] == "One", order)
			assert.True(t, slices.IsSortedFunc(lengths, func(a, b time.Duration) int { return cmp.Compare(b, a) }), "the shortest last: %v", lengths)
		})
	}
}
