package meal_test

import (
	"context"
	"math"
	"math/big"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/recipes/planner"
	"trencher/recipes/schedule"
	"trencher/units"
)

func contains(text, part string) bool { return strings.Contains(text, part) }

const crushed = `
name: Crushed potatoes
portions: 4
served: hot
largest: 6
crops:
  - {crop: potato, amount: 720 g, prepared: scrubbed, cut: cube 30 mm, cook: steam, until: tender}
others:
  - {item: butter, amount: 60 g}
  - {item: chives, amount: 2 tbsp, state: chopped, from: plot}
method: [Steam., Crush.]
`

const salad = `
name: Potato salad
portions: 4
served: cold
largest: 6
crops:
  - {crop: potato, amount: 600 g, prepared: scrubbed, cut: cube 25 mm, cook: steam, until: just-tender}
others:
  - {item: plain yoghurt, amount: 100 g}
  - {item: water, amount: 50 ml}
  - {item: salt, amount: to taste}
  - {item: chives, amount: 1 tbsp, state: chopped, from: plot}
method: [Steam., Cool.]
`

const twoCrops = `
name: Beetroot and potato
portions: 4
served: warm
largest: 6
crops:
  - {crop: beetroot, amount: 400 g, prepared: peeled, cut: cube 25 mm, cook: steam, until: tender}
  - {crop: potato, amount: 300 g, prepared: scrubbed, cut: cube 25 mm, cook: steam, until: tender}
others:
  - {item: butter, amount: 20 g}
method: [Steam.]
`

func twoDishes(t testing.TB) []recipes.Dish {
	return []recipes.Dish{loadDish(t, "dishes/crushed.yaml", crushed), loadDish(t, "dishes/salad.yaml", salad)}
}

func makePlan(t *testing.T, q meal.Question) meal.Plan {
	t.Helper()
	plan, err := meal.Make(context.Background(), q)
	require.NoError(t, err)
	require.Empty(t, meal.Check(plan))
	return plan
}

func kindsOf(plan meal.Plan, dish string) []schedule.Kind {
	var kinds []schedule.Kind
	for _, step := range plan.Steps {
		for _, name := range step.Dishes {
			if name == dish {
				kinds = append(kinds, step.Kind)
			}
		}
	}
	return kinds
}

// Hot dishes go from the steamer to the table; cold ones cool and chill between.
func TestStepsOfADish(t *testing.T) {
	plan := makePlan(t, question(t, twoDishes(t), lot("tub-1/a", "potato", 2000, 20, 45)))
	assert.Equal(t, []schedule.Kind{schedule.Scrub, schedule.Boil, schedule.Load, schedule.Steam, schedule.Test, schedule.Unload,
		schedule.Finish, schedule.Serve}, kindsOf(plan, "Crushed potatoes"))
	assert.Equal(t, []schedule.Kind{schedule.Boil, schedule.Scrub, schedule.Load, schedule.Steam, schedule.Test, schedule.Unload,
		schedule.Spread, schedule.Cool, schedule.Chill, schedule.Dress, schedule.Serve}, kindsOf(plan, "Potato salad"))
	shared := map[schedule.Kind]int{}
	for _, step := range plan.Steps {
		if len(step.Dishes) == 0 {
			shared[step.Kind]++
		}
	}
	assert.Equal(t, 1, shared[schedule.Pick], "chives are picked once for both")
	assert.Zero(t, shared[schedule.Boil], "every filling has its own boil")
	assert.True(t, plan.Timing.Proven)
	for _, step := range plan.Steps {
		switch {
		case step.Kind == schedule.Boil && step.Run == plan.Runs[1].ID:
			assert.Greater(t, step.Length, time.Minute, "after a long pause it is brought back to the boil")
		case step.Kind == schedule.Serve:
			assert.Equal(t, plan.ServeAt, step.End())
		}
	}
	assert.Equal(t, plan.ServeAt.Sub(plan.Steps[0].At), plan.Allow)
}

// Minutes of handwork are common practice, no source: a kilogram takes 6 min to
// scrub, 12 to peel and 6 to cut, never under 5 in all.
func TestHandworkTakesTime(t *testing.T) {
	lengthOf := func(prepared string, portions int64) time.Duration {
		dish := loadDish(t, "d.yaml", strings.Replace(crushed, "scrubbed", prepared, 1))
		q := question(t, []recipes.Dish{dish})
		q.Mode, q.Portions = meal.One, big.NewRat(portions, 1)
		plan, err := meal.MakeOne(context.Background(), q)
		require.NoError(t, err)
		for _, step := range plan.Steps {
			if step.Kind == schedule.Scrub || step.Kind == schedule.Peel {
				return step.Length
			}
		}
		return 0
	}
	assert.Equal(t, 5*time.Minute, lengthOf("scrubbed", 1))
	// 24 portions take 4,500 g lifted at yields 0.97 and 0.99: 4.5 kg at 12 min.
	assert.Equal(t, 54*time.Minute, lengthOf("scrubbed", 24))
	// Peeled from 5,498 g lifted at 0.97 and 0.81: at 18 min a kilogram.
	assert.Equal(t, 99*time.Minute, lengthOf("peeled", 24))
}

// Of a dish in several fillings the first counts: what came off the heat first
// is as old as its clock.
func TestTheOldestPartCounts(t *testing.T) {
	dish := loadDish(t, "d.yaml", strings.Replace(crushed, "largest: 6", "largest: 40", 1))
	q := question(t, []recipes.Dish{dish}, lot("tub-1/a", "potato", 6000, 20, 45))
	q.Kitchen = loadKitchen(t, "steamer: {diameter: 200 mm, tiers: 1}\n")
	plan := makePlan(t, q)
	steam := plan.Dishes[0].Parts[0].Steam
	require.Greater(t, len(steam.Runs), 2)
	require.Len(t, plan.Clocks, 1)
	var ends []time.Time
	for _, step := range plan.Steps {
		if step.Kind == schedule.Steam {
			ends = append(ends, step.End())
		}
	}
	require.Len(t, ends, len(steam.Runs))
	assert.Equal(t, ends[0], plan.Clocks[0].History.CookedAt)
	for n, run := range plan.Runs {
		assert.Equal(t, n+1, run.Number)
		assert.Equal(t, len(steam.Runs), run.Of)
	}
}

// A big batch in the heat stands longer than the rules allow: the first warning
// is a danger that names dish and rule. Published: cooked food that stood above
// 32 °C (90 °F) for over an hour is thrown out (USDA FSIS, Danger Zone; read).
func TestABrokenClockIsADanger(t *testing.T) {
	dish := loadDish(t, "d.yaml", strings.Replace(crushed, "largest: 6", "largest: 40", 1))
	q := question(t, []recipes.Dish{dish}, lot("tub-1/a", "potato", 6000, 20, 45))
	q.Kitchen = loadKitchen(t, "steamer: {diameter: 200 mm, tiers: 1}\n")
	q.AirC, q.Remarks = 34, []string{"something odd"}
	plan := makePlan(t, q)
	first := plan.Warnings[0]
	assert.Equal(t, meal.Danger, first.Severity)
	assert.Equal(t, meal.ClockBroken, first.Concern)
	assert.Equal(t, "Crushed potatoes", first.Dish)
	assert.NotEmpty(t, first.Rule)
	assert.Equal(t, plan.Clocks[0], first.Clock)
	assert.False(t, first.Clock.Holds)
	assert.Equal(t, plan.ServeAt.Sub(first.Clock.LimitAt), first.Clock.Over())
	last := plan.Warnings[len(plan.Warnings)-1]
	assert.Equal(t, meal.Notice, last.Severity)
}

// The salad is out of the fridge from the moment it is dressed.
func TestADressedDishIsOutOfTheFridge(t *testing.T) {
	plan := makePlan(t, question(t, twoDishes(t)[1:], lot("tub-1/a", "potato", 2000, 20, 45)))
	clock := plan.Clocks[0]
	var dressed, chilled time.Time
	for _, step := range plan.Steps {
		switch step.Kind {
		case schedule.Dress:
			dressed = step.At
		case schedule.Chill:
			chilled = step.At
		}
	}
	assert.Equal(t, dressed, clock.DressedAt)
	assert.Equal(t, chilled, clock.History.ChilledAt)
	require.Len(t, clock.History.Out, 1)
	assert.Equal(t, dressed, clock.History.Out[0].From)
	assert.True(t, clock.History.Out[0].To.IsZero())
	assert.Equal(t, "dressed-salad", clock.History.Food)
}

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

// One dish alone takes from no lot and has its own portions.
func TestOneDish(t *testing.T) {
	q := question(t, twoDishes(t)[:1])
	q.Mode, q.Portions, q.ServeAt = meal.One, big.NewRat(11, 2), time.Time{}
	plan, err := meal.MakeOne(context.Background(), q)
	require.NoError(t, err)
	assert.Equal(t, 5, plan.Dishes[0].Portions)
	assert.Equal(t, "1.375", units.DecimalOf(plan.Dishes[0].Scaled.Factor).String())
	assert.Empty(t, plan.Dishes[0].Parts[0].From)
	assert.Equal(t, q.Now, plan.Steps[0].At, "as soon as can be")
	assert.Equal(t, meal.FromNow, plan.Took)
	assert.Equal(t, q.Now.Add(plan.Allow), plan.ServeAt)
	assert.Len(t, plan.Clocks, 1)
	assert.Empty(t, meal.Check(plan))
}

func TestWants(t *testing.T) {
	plan := makePlan(t, question(t, twoDishes(t), lot("tub-1/a", "potato", 2400, 20, 45)))
	require.Len(t, plan.Pick, 1)
	assert.Equal(t, []string{"Crushed potatoes", "Potato salad"}, plan.Pick[0].Dishes)
	assert.True(t, plan.Pick[0].FromPlot)
	var items []string
	for _, want := range plan.Buy {
		items = append(items, want.Item)
		if want.Exact.IsToTaste() {
			assert.Empty(t, want.Have.Text)
			continue
		}
		atLeast, err := want.Have.Value.Compare(want.Sum)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, atLeast, 0, "%s: what is fetched is enough", want.Item)
	}
	assert.Equal(t, []string{"butter", "plain yoghurt", "salt"}, items, "water comes from the tap")
}

// What cannot be added without weighing stays apart, and so does what is only
// optional.
func TestWantsOfOneIngredient(t *testing.T) {
	other := func(lines string) recipes.Dish {
		return loadDish(t, "d.yaml", strings.Split(crushed, "others:")[0]+"others:\n"+lines+"method: [Steam.]\n")
	}
	all := []string{
		"  - {item: butter, amount: 52.5 g}\n  - {item: capers, amount: 1-2 tsp, optional: true}\n  - {item: salt, amount: to taste}\n",
		"  - {item: butter, amount: 0.06 kg}\n  - {item: capers, amount: 2-3 tsp, optional: true}\n  - {item: salt, amount: to taste}\n",
		"  - {item: butter, amount: 1 tbsp}\n  - {item: capers, amount: 1 tsp}\n  - {item: salt, amount: 1 tsp}\n",
	}
	var dishes []meal.Dish
	for i, lines := range all {
		recipe := other(lines)
		recipe.Name = string(rune('A' + i))
		dishes = append(dishes, meal.Dish{Recipe: recipe, Scaled: recipe.ScaleTo(big.NewRat(4, 1), recipes.DefaultKitchen(units.Metric))})
	}
	pick, buy := meal.Wants(dishes, recipes.DefaultKitchen(units.Metric))
	assert.Empty(t, pick)
	var told []string
	for _, want := range buy {
		told = append(told, want.Item+" "+want.Exact.String()+" "+strings.Join(want.Dishes, ""))
	}
	assert.Equal(t, []string{"butter 112.5 g AB", "capers 3-5 tsp metric AB", "salt to taste AB", "butter 1 tbsp metric C", "capers 1 tsp metric C", "salt 1 tsp metric C"}, told)
	assert.True(t, buy[1].Optional)
	assert.False(t, buy[4].Optional)
}

func TestLimitsAndHoldingBack(t *testing.T) {
	lots := []*harvest.Lot{lot("tub-1/a", "potato", 2000, 20, 45)}
	butter := func(amount string) meal.Question {
		q := question(t, twoDishes(t)[:1], lots...)
		q.Limits = []meal.Limit{{Item: "Butter", Amount: units.MustParse(amount)}}
		return q
	}
	assert.Equal(t, 3, makePlan(t, butter("45 g")).Dishes[0].Portions, "15 g a portion")
	assert.Equal(t, 3, makePlan(t, butter("0.045 kg")).Dishes[0].Portions, "in the limit's own unit")
	q := question(t, twoDishes(t)[:1], lots...)
	q.KeepBack = []meal.KeepBack{{Crop: "potatoes", Weight: units.MustParse("1.6 kg")}}
	assert.Equal(t, 2, makePlan(t, q).Dishes[0].Portions, "187.5 g lifted a portion, 400 g left")
	for _, c := range []struct {
		field string
		q     func() meal.Question
	}{
		{"limit", func() meal.Question {
			q := butter("1 g")
			q.Limits[0].Item = "saffron"
			return q
		}},
		{"limit", func() meal.Question { return butter("1 mm") }},
		{"limit", func() meal.Question {
			q := question(t, twoDishes(t)[1:], lots...)
			q.Limits = []meal.Limit{{Item: "salt", Amount: units.MustParse("1 g")}}
			return q
		}},
		{"keep-back", func() meal.Question {
			q := butter("45 g")
			q.KeepBack = []meal.KeepBack{{Crop: "leek", Weight: units.MustParse("1 kg")}}
			return q
		}},
		{"keep-back", func() meal.Question {
			q := butter("45 g")
			q.KeepBack = []meal.KeepBack{{Crop: "potato", Weight: units.MustParse("1 l")}}
			return q
		}},
	} {
		_, err := meal.Make(context.Background(), c.q())
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong)
		assert.Equal(t, c.field, wrong.Field)
		assert.NotEmpty(t, wrong.Value)
	}
}

func TestWhatHeldItBack(t *testing.T) {
	q := question(t, twoDishes(t), lot("tub-1/a", "potato", 1000, 20, 45), lot("tub-1/g", "potato", 90, 0, 0, green))
	plan := makePlan(t, q)
	require.Len(t, plan.Extras, 1)
	assert.Equal(t, "potato", plan.Extras[0].Of)
	assert.NotEmpty(t, plan.Extras[0].More, "the dishes that would then have more")
	for _, dish := range plan.Extras[0].More {
		assert.Contains(t, []string{"Crushed potatoes", "Potato salad"}, dish)
	}
	assert.Positive(t, plan.Extras[0].Amount.Sign())
	require.NotEmpty(t, plan.Bounds)
	assert.Equal(t, meal.RanOut, plan.Bounds[0].Cause)
	assert.Equal(t, "potato", plan.Bounds[0].Of)
	require.Len(t, plan.SetAside, 1)
	assert.True(t, plan.Levels.Proven)

	large := makePlan(t, question(t, twoDishes(t), lot("tub-1/a", "potato", 9000, 20, 45)))
	require.Len(t, large.Bounds, 1)
	assert.Equal(t, meal.LargestBatch, large.Bounds[0].Cause)
	assert.Equal(t, []string{"Crushed potatoes", "Potato salad"}, large.Bounds[0].Dishes)

	limited := question(t, twoDishes(t)[:1], lot("tub-1/a", "potato", 9000, 20, 45))
	limited.Limits = []meal.Limit{{Item: "butter", Amount: units.MustParse("50 g")}}
	assert.Equal(t, meal.LimitReached, makePlan(t, limited).Bounds[0].Cause)
}

func TestLeftOut(t *testing.T) {
	beets := loadDish(t, "b.yaml", strings.ReplaceAll(twoCrops, "Beetroot and potato", "Roots"))
	q := question(t, append(twoDishes(t), beets), lot("tub-1/a", "potato", 1000, 20, 45))
	plan := makePlan(t, q)
	require.Len(t, plan.LeftOut, 1)
	out := plan.LeftOut[0]
	assert.Equal(t, "Roots", out.Dish)
	assert.Equal(t, planner.NoLot, out.Reason)
	assert.Equal(t, "beetroot", out.Of)
	assert.False(t, out.OnHand)
	assert.Equal(t, 1, out.Smallest)
}

func TestTheTable(t *testing.T) {
	q := question(t, twoDishes(t), lot("tub-1/a", "potato", 2400, 20, 45))
	q.Mode, q.Sides = meal.Table, 2
	for _, text := range []string{"2 adults", "1 adult vegan", "2 children"} {
		guests, err := recipes.ParseGuests(text)
		require.NoError(t, err)
		q.Guests = append(q.Guests, guests...)
	}
	plan := makePlan(t, q)
	assert.Equal(t, 8, plan.Levels.Fed)
	require.Len(t, plan.Plates, 3, "guests with the same plate stand together")
	assert.Equal(t, 2, plan.Plates[0].Number)
	assert.Equal(t, []string{"Crushed potatoes", "Potato salad"}, plan.Plates[0].Dishes)
	require.Len(t, plan.Short, 1)
	short := plan.Short[0]
	assert.Equal(t, 1, short.People)
	assert.Equal(t, 2, short.Helpings)
	assert.Equal(t, 0, short.Suiting)
	assert.Len(t, short.Not, 2)
	assert.NotEmpty(t, short.Not[0].Why)
	assert.Nil(t, short.Extra)
	last := plan.Bounds[len(plan.Bounds)-1]
	assert.Equal(t, meal.NobodyEatsMore, last.Cause)
}

// What a plan takes is written so that the stock is true afterwards: damaged lots
// leave with what is trimmed off them (85 % is used: common practice, no source).
func TestUses(t *testing.T) {
	q := question(t, twoDishes(t), lot("tub-1/d", "potato", 200, 0, 0, damaged), lot("tub-1/a", "potato", 900, 20, 45))
	plan := makePlan(t, q)
	sums := map[string]string{}
	for _, use := range meal.Uses(plan) {
		assert.Equal(t, harvest.KindUse, use.To)
		assert.NotEmpty(t, use.Dish)
		grams, ok := harvest.Grams(use.Weight)
		require.True(t, ok)
		sums[use.Lot] += grams.String() + " "
	}
	assert.Contains(t, sums, "tub-1/d")
	for _, l := range plan.Lots {
		if l.ID == "tub-1/d" {
			assert.True(t, l.Left().IsZero())
			assert.Equal(t, "200 ", sums[l.ID], "a lot that is used up is used up to the last gram")
		}
	}
}

func TestASearchThatGivesUpSaysSo(t *testing.T) {
	q := question(t, twoDishes(t), lot("tub-1/a", "potato", 1357, 20, 45), lot("tub-1/b", "potato", 777, 45, 65))
	q.NodeLimit = 1
	plan, err := meal.Make(context.Background(), q)
	require.NoError(t, err)
	if plan.Levels.Proven {
		t.Fatal("one step of the search proves nothing here")
	}
	assert.Equal(t, meal.Unproven, plan.Warnings[0].Concern)
	assert.Equal(t, meal.Shortcoming, plan.Warnings[0].Severity)
	assert.Empty(t, plan.Extras, "what more would buy is only known beside the best plan")
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
	assert.Equal(t, meal.Change{Kind: meal.LeaveOut, Dish: "Potato salad", Saves: late.Late.Helps[0].Saves}, late.Late.Helps[0])
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

// A crop without figures is planned without a time, and said.
func TestUntimed(t *testing.T) {
	leeks := loadDish(t, "d.yaml", "name: Leeks\nportions: 2\nserved: hot\ncrops: [{crop: leek, amount: 300 g, prepared: trimmed, cut: slice 20 mm, cook: steam, until: tender}]\nmethod: [Steam.]\n")
	plan := makePlan(t, question(t, []recipes.Dish{leeks}, lot("bed-1/l", "leek", 900, 0, 0)))
	require.Len(t, plan.Warnings, 1)
	assert.Equal(t, meal.Warning{Severity: meal.Notice, Concern: meal.Untimed, Dish: "Leeks", Crop: "leek"}, plan.Warnings[0])
	assert.True(t, plan.Dishes[0].Parts[0].IsUntimed())
}

// Beans are not made safe by steam (Bundesinstitut für Risikobewertung, Lectins
// in plant-based foods, 2024): a plan that would steam them says so first.
func TestSteamIsNotEnoughForBeans(t *testing.T) {
	for crop, rule := range map[string]string{"runner bean": "bean-fresh-strict", "borlotti bean": "bean-dried-boil"} {
		beans := loadDish(t, "d.yaml", "name: Beans\nportions: 2\nserved: hot\ncrops: [{crop: "+crop+", amount: 300 g, prepared: as-lifted, cook: steam, until: tender}]\nmethod: [Steam.]\n")
		plan := makePlan(t, question(t, []recipes.Dish{beans}, lot("bed-1/b", crop, 900, 0, 0)))
		require.NotEmpty(t, plan.Warnings)
		first := plan.Warnings[0]
		assert.Equal(t, meal.Warning{Severity: meal.Danger, Concern: meal.SteamIsNotEnough, Dish: "Beans", Crop: first.Crop, Rule: rule, Boil: 30 * time.Minute}, first)
		_, known := keeping.LookupRule(rule)
		assert.True(t, known, rule)
	}
}

// A knife test of this kitchen changes its times.
func TestKnifeTestsCount(t *testing.T) {
	q := question(t, twoDishes(t)[:1], lot("tub-1/a", "potato", 750, 45, 65))
	before := makePlan(t, q).Dishes[0].Parts[0].Steam.Estimate
	cut, err := heat.ParseCut("cube 30 mm")
	require.NoError(t, err)
	for range 5 {
		q.KnifeTests = append(q.KnifeTests, heat.KnifeTest{Crop: "potato", Cut: cut, Until: heat.Tender, Minutes: 2 * before.Minutes})
	}
	after := makePlan(t, q).Dishes[0].Parts[0].Steam.Estimate
	assert.Greater(t, after.Minutes, 1.2*before.Minutes)
	assert.Equal(t, 5, after.KnifeTests)
}

// Every figure of a plan has its source.
func TestReasons(t *testing.T) {
	plan := makePlan(t, question(t, twoDishes(t), lot("tub-1/a", "potato", 2000, 20, 45)))
	figures := map[string]bool{}
	for i, reason := range plan.Reasons {
		assert.NotEmpty(t, reason.Source, reason.Figure)
		assert.NotEmpty(t, reason.KnownBy, reason.Figure)
		figures[reason.Figure] = true
		for _, other := range plan.Reasons[:i] {
			assert.NotEqual(t, other, reason, "told twice")
		}
	}
	for _, figure := range []string{"potato: as-lifted to washed", "potato: steam temperature", "butter: holds", "damaged lots", "kitchen.yaml", "dishes/crushed.yaml"} {
		assert.True(t, figures[figure], figure)
	}
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

// Rings are numbered from 1; waiting needs nobody, and what is done to a filling
// while it steams leaves the ring to it.
func TestWhatStepsUse(t *testing.T) {
	plan := makePlan(t, question(t, twoDishes(t), lot("tub-1/a", "potato", 2000, 20, 45)))
	for _, step := range plan.Steps {
		switch step.Kind {
		case schedule.Boil, schedule.Steam:
			assert.Equal(t, 1, step.Ring)
			assert.Zero(t, step.Hands)
		case schedule.Cool, schedule.Chill:
			assert.Zero(t, step.Ring+step.Hands)
		case schedule.Load, schedule.Unload:
			assert.Equal(t, 1, step.Ring*step.Hands)
		default:
			assert.Equal(t, 1, step.Hands)
			assert.Zero(t, step.Ring)
		}
		switch step.Kind {
		case schedule.Steam:
			part := plan.Dishes[step.Parts[0].Dish].Parts[step.Parts[0].Part]
			assert.Equal(t, time.Duration(math.Ceil(part.Steam.Longest()))*time.Minute, step.Length)
			assert.Equal(t, "potato", step.Crop)
			assert.NotEmpty(t, step.Run)
		case schedule.Load:
			assert.Equal(t, 2*time.Minute, step.Length, "common practice, no source")
		case schedule.Dress:
			assert.Equal(t, 10*time.Minute, step.Length, "a cold dish: common practice, no source")
		case schedule.Finish:
			assert.Equal(t, 4*time.Minute, step.Length, "a hot dish: common practice, no source")
		}
	}
}

// The texture is the dish's, else the lots' own where all have the same.
func TestTexture(t *testing.T) {
	textured := func(texture string) func(*harvest.Lot) { return func(l *harvest.Lot) { l.Texture = texture } }
	kind := func(dish string, lots ...*harvest.Lot) string {
		plan := makePlan(t, question(t, []recipes.Dish{loadDish(t, "d.yaml", dish)}, lots...))
		return plan.Dishes[0].Parts[0].Piece.Crop.Kind
	}
	floury := lot("tub-1/a", "potato", 600, 20, 45, textured("floury"))
	moreFloury := lot("tub-1/b", "potato", 600, 45, 65, textured("floury"))
	waxy := lot("tub-1/c", "potato", 600, 45, 65, textured("waxy"))
	assert.Equal(t, "floury", kind(crushed, floury, moreFloury))
	assert.Equal(t, "waxy", kind(crushed, waxy))
	assert.Equal(t, "waxy", kind(crushed, floury, waxy), "they differ: the crop's own default")
	assert.Equal(t, "floury", kind(strings.Replace(crushed, "prepared: scrubbed", "prepared: scrubbed, texture: floury", 1), floury))
	assert.Equal(t, "floury", kind(strings.Replace(crushed, "prepared: scrubbed", "prepared: scrubbed, texture: any", 1), floury))
	carrots := "name: Carrots\nportions: 2\nserved: hot\ncrops: [{crop: carrot, amount: 300 g, prepared: peeled, cut: cube 20 mm, cook: steam, until: tender}]\nmethod: [Steam.]\n"
	assert.Empty(t, kind(carrots, lot("bed-1/c", "carrot", 900, 0, 0, textured("waxy"))), "carrots come in no kinds")
}

// Ungraded lots are reckoned by the sizes the dish asks for, else the crop's
// usual ones; lots of one band count once.
func TestSizes(t *testing.T) {
	classes := func(dish string, lots ...*harvest.Lot) []heat.SizeClass {
		return makePlan(t, question(t, []recipes.Dish{loadDish(t, "d.yaml", dish)}, lots...)).Dishes[0].Parts[0].Piece.Classes
	}
	potato, err := heat.LookupCrop("potato", "")
	require.NoError(t, err)
	usual := classes(crushed, lot("tub-1/a", "potato", 500, 0, 0))
	require.Len(t, usual, 1)
	assert.Equal(t, potato.Usual.LowMM, usual[0].LowMM)
	assert.Equal(t, potato.Usual.HighMM, usual[0].HighMM)
	asked := classes(strings.Replace(crushed, "prepared: scrubbed", "prepared: scrubbed, sizes: 30-50 mm", 1), lot("tub-1/a", "potato", 500, 0, 0))
	assert.Equal(t, 30.0, asked[0].LowMM)
	assert.Equal(t, 50.0, asked[0].HighMM)
	mixed := classes(crushed, lot("tub-1/a", "potato", 300, 45, 65), lot("tub-1/b", "potato", 300, 20, 45), lot("tub-2/c", "potato", 300, 20, 45))
	require.Len(t, mixed, 2, "two lots of one band are one class")
	assert.Equal(t, 20.0, mixed[0].LowMM, "the smallest first")
	assert.Greater(t, mixed[0].Grams, 250.0)
	whole := makePlan(t, question(t, []recipes.Dish{loadDish(t, "d.yaml", strings.Replace(crushed, "cube 30 mm", "halves", 1))}, lot("tub-1/a", "potato", 900, 20, 45)))
	assert.Equal(t, 45.0, whole.Dishes[0].Parts[0].Piece.Sized.SizeMM, "halves of the largest tuber")
	slices := makePlan(t, question(t, []recipes.Dish{loadDish(t, "d.yaml", strings.Replace(crushed, "cube 30 mm", "slice 10 mm", 1))}, lot("tub-1/a", "potato", 900, 20, 45)))
	cuts := slices.Dishes[0].Parts[0].Cuts
	require.Len(t, cuts, 1)
	assert.True(t, cuts[0].AsWritten)
	assert.False(t, cuts[0].Sizes.IsGraded())
}

// What heat cannot reckon is refused, not planned: a tuber of 200 mm left whole
// is not soft after three hours.
func TestWhatCannotBePlanned(t *testing.T) {
	huge := loadDish(t, "d.yaml", strings.NewReplacer("cube 30 mm", "whole 200 mm", "until: tender", "until: soft").Replace(crushed))
	q := question(t, []recipes.Dish{huge}, lot("tub-1/a", "potato", 5000, 0, 0))
	_, err := meal.Make(context.Background(), q)
	require.ErrorIs(t, err, heat.ErrNotDone)
	assert.Contains(t, err.Error(), "Crushed potatoes")
	q.Mode, q.Portions = meal.One, big.NewRat(4, 1)
	_, err = meal.MakeOne(context.Background(), q)
	require.ErrorIs(t, err, heat.ErrNotDone)

	q = question(t, twoDishes(t), lot("tub-1/a", "potato", 2000, 20, 45))
	q.Kitchen.Authority = "nobody"
	_, err = meal.Make(context.Background(), q)
	require.Error(t, err)
	q = question(t, twoDishes(t), lot("tub-1/a", "potato", 2000, 20, 45))
	q.Kitchen.Stove.PowerW = 200
	_, err = meal.Make(context.Background(), q)
	require.Error(t, err, "no steam to speak of")
	stopped, stop := context.WithCancel(context.Background())
	stop()
	_, err = meal.Make(stopped, question(t, twoDishes(t), lot("tub-1/a", "potato", 2000, 20, 45)))
	require.ErrorIs(t, err, context.Canceled)
}

// A lot of which next to nothing is left is used up by the last dish that takes
// of it, and by no other.
func TestUsedUp(t *testing.T) {
	plan := makePlan(t, question(t, twoDishes(t), lot("tub-1/a", "potato", 1500, 20, 45)))
	require.Len(t, plan.Dishes, 2)
	left := func(grams string) meal.Plan {
		p := plan
		p.Lots = []meal.LotUse{{Lot: plan.Lots[0].Lot, Taken: plan.Lots[0].Supply.Sub(decimal.RequireFromString(grams))}}
		return p
	}
	sum := func(uses []harvest.Move) string {
		total := decimal.Zero
		for _, use := range uses {
			grams, ok := harvest.Grams(use.Weight)
			require.True(t, ok)
			total = total.Add(grams)
		}
		return total.String()
	}
	assert.Equal(t, "1500", sum(meal.Uses(left("0.0000005"))))
	taken := decimal.Zero
	for _, dish := range plan.Dishes {
		taken = taken.Add(dish.Parts[0].From[0].Grams.Round(3))
	}
	uses := meal.Uses(left("0.000002"))
	assert.Equal(t, taken.String(), sum(uses), "a milligram is the finest weight")
	first, _ := harvest.Grams(meal.Uses(left("0"))[0].Weight)
	assert.True(t, first.Equal(plan.Dishes[0].Parts[0].From[0].Grams.Round(3)), "the first dish takes its own share")
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
