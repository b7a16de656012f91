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
	"trencher/recipes/meal"
	"trencher/recipes/planner"
	"trencher/recipes/schedule"
	"trencher/units"
)

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
		exact, _ := want.Exact.Rounded(6)
		told = append(told, want.Item+" "+exact.String()+" "+strings.Join(want.Dishes, ""))
	}
	assert.Equal(t, []string{"butter 126.892 g ABC", "capers 3-5 tsp metric AB", "capers 1 tsp metric C", "salt 1 tsp metric ABC"}, told)
	assert.True(t, buy[1].Optional)
	assert.False(t, buy[2].Optional)
	assert.True(t, buy[0].Weighed, "a spoon of butter is 14.4 g: 227 g a US cup (USDA SR28, NDB 01001 seq 3)")
	assert.Equal(t, "130 g", buy[0].Have.Text)
	assert.True(t, buy[3].AndTaste)
	assert.True(t, buy[3].Cupboard)
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
	potato := meal.Cause{Kind: planner.CropShort, Of: "potato", Unit: "g"}
	require.NotEmpty(t, plan.Bounds)
	bound := plan.Bounds[0]
	assert.Equal(t, potato, bound.Cause)
	assert.NotEmpty(t, bound.More, "the dishes that would then have more")
	assert.Positive(t, bound.Amount.Sign())
	require.Len(t, plan.SetAside, 1)
	assert.Equal(t, meal.NotEdible, plan.SetAside[0].Because)
	assert.True(t, plan.Levels.Proven)

	large := makePlan(t, question(t, twoDishes(t), lot("tub-1/a", "potato", 9000, 20, 45)))
	require.Len(t, large.Bounds, 2)
	for i, dish := range []string{"Crushed potatoes", "Potato salad"} {
		assert.Equal(t, meal.Cause{Kind: planner.LargestBatch, Of: dish}, large.Bounds[i].Cause)
	}

	limited := question(t, twoDishes(t)[:1], lot("tub-1/a", "potato", 9000, 20, 45))
	limited.Limits = []meal.Limit{{Item: "butter", Amount: units.MustParse("50 g")}}
	held := makePlan(t, limited)
	require.Len(t, held.Bounds, 1)
	assert.Equal(t, planner.LimitShort, held.Bounds[0].Kind)
	assert.Equal(t, "10", held.Bounds[0].Amount.RatString(), "three portions take 45 g, four 60 g")
}

// A lot older than twice the time it keeps raw is not planned on.
func TestLongPastIsSetAside(t *testing.T) {
	old := lot("tub-1/old", "potato", 1000, 20, 45)
	old.Lifted, old.Keeping = day.AddDate(0, 0, -14), &harvest.KeepsRaw{Days: harvest.Range{Low: 7}}
	old.KeepsUntil = day.AddDate(0, 0, -7)
	fresh := lot("tub-2/new", "potato", 700, 20, 45)
	plan := makePlan(t, question(t, twoDishes(t), old, fresh))
	assert.Empty(t, plan.SetAside, "twice its life to the day")
	old.Lifted = day.AddDate(0, 0, -15)
	plan = makePlan(t, question(t, twoDishes(t), old, fresh))
	require.Len(t, plan.SetAside, 1)
	assert.Equal(t, "tub-1/old", plan.SetAside[0].ID)
	assert.Equal(t, meal.PastKeeping, plan.SetAside[0].Because)
	require.Len(t, plan.Lots, 1)
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
	assert.Equal(t, []int{4, 4}, plan.Levels.Fed)
	assert.Zero(t, plan.Levels.Over)
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
	assert.Nil(t, short.Mend)
	assert.Empty(t, plan.Bounds, "all who can eat have all they take")
}

// What a plan takes is written so that the stock is true afterwards: damaged lots
// leave with what is trimmed off them (85 % is used: common practice, no source).
func TestUses(t *testing.T) {
	q := question(t, twoDishes(t), lot("tub-1/d", "potato", 200, 0, 0, damaged), lot("tub-1/a", "potato", 900, 20, 45))
	plan := makePlan(t, q)
	sums := map[string]string{}
	for _, use := range meal.Uses(plan) {
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
	assert.Empty(t, plan.Bounds, "what more would buy is only known beside the best plan")
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
	sum := func(uses []harvest.Use) string {
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
