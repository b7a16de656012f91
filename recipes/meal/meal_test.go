package meal_test

import (
	"context"
	"math/big"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
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
	assert.Equal(t, []schedule.Kind{schedule.Boil, schedule.Scrub, schedule.Load, schedule.Steam, schedule.Test, schedule.Unload,
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

// A crop that no table knows may poison raw, as cassava does: the plan says so
// first. What is known to be eaten raw passes without a word.
func TestRawIsNeverTakenForGranted(t *testing.T) {
	for crop, known := range map[string]bool{"cassava": false, "taro": false, "cucumber": true, "carrot": true} {
		dish := loadDish(t, "d.yaml", "name: Salad\nportions: 2\nserved: cold\ncrops: [{crop: "+crop+", amount: 300 g, prepared: as-lifted, cook: raw}]\nmethod: [Slice.]\n")
		plan := makePlan(t, question(t, []recipes.Dish{dish}, lot("bed-1/c", crop, 900, 0, 0)))
		var told []meal.Concern
		for _, w := range plan.Warnings {
			told = append(told, w.Concern)
		}
		assert.Equal(t, known, !slices.Contains(told, meal.RawUnknown), crop)
		if !known {
			assert.Contains(t, plan.Warnings, meal.Warning{Severity: meal.Danger, Concern: meal.RawUnknown, Dish: "Salad", Crop: crop})
			assert.Equal(t, "cassava-cooked", plan.Warnings[0].Rule, "what is known of it stands first")
		}
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
	plan := makePlan(t, q)
	after := plan.Dishes[0].Parts[0].Steam.Estimate
	assert.Greater(t, after.Minutes, 1.2*before.Minutes)
	assert.Equal(t, 5, after.KnifeTests)
	var figures []string
	for _, reason := range plan.Reasons {
		figures = append(figures, reason.Figure)
	}
	assert.Contains(t, figures, "potato: this kitchen's minutes")
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
