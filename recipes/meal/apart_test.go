package meal_test

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
)

const eggSalad = `
name: Potatoes in own mayonnaise
portions: 4
served: cold
crops:
  - {crop: potato, amount: 600 g, prepared: scrubbed, cut: cube 25 mm, cook: steam, until: just-tender}
others:
  - {item: own mayonnaise, amount: 100 g}
  - {item: chives, amount: 1 tbsp, state: chopped}
method: [Steam the potatoes and cool them., Stir in the own mayonnaise and scatter the chives.]
`

func guests(t *testing.T, words string) []recipes.Guests {
	t.Helper()
	groups, err := recipes.ParseGuests(words)
	require.NoError(t, err)
	return groups
}

func evening(t *testing.T, who string, dishes ...string) meal.Question {
	t.Helper()
	var all []recipes.Dish
	for i, text := range dishes {
		all = append(all, loadDish(t, fmt.Sprintf("d%d.yaml", i), text))
	}
	q := question(t, all, lot("tub-1/a", "potato", 4000, 20, 45), lot("tub-2/a", "beetroot", 4000, 20, 60))
	q.Mode, q.Guests, q.Sides = meal.Table, guests(t, who), 1
	return q
}

func plateOf(t *testing.T, p meal.Plan, label string) meal.Plate {
	t.Helper()
	at := slices.IndexFunc(p.Plates, func(plate meal.Plate) bool { return plate.Guest.Label() == label })
	require.GreaterOrEqual(t, at, 0, label)
	return p.Plates[at]
}

// One guest at risk does not take a dish from the others: theirs is set apart before
// the raw egg goes in, counted, done in the step that dresses it, and never on their
// plate as it is made (rule vulnerable-table).
func TestAPortionIsSetApart(t *testing.T) {
	plan := makePlan(t, evening(t, "3 adults, 1 adult pregnant, 2 children", eggSalad))
	assert.Equal(t, []int{6}, plan.Levels.Fed, "nobody goes without")
	assert.Equal(t, 5, plan.Dishes[0].Portions, "three, one, and two halves")
	assert.Equal(t, []string{"Potatoes in own mayonnaise"}, plateOf(t, plan, "adult").Dishes)
	for label, portions := range map[string]*big.Rat{"adult, pregnant": big.NewRat(1, 1), "child": big.NewRat(1, 1)} {
		plate := plateOf(t, plan, label)
		assert.Empty(t, plate.Dishes, label)
		assert.Equal(t, []string{"Potatoes in own mayonnaise"}, plate.Apart)
		assert.Zero(t, plate.Short)
		at := slices.IndexFunc(plan.Apart, func(a meal.Apart) bool { return a.Guest.Label() == label })
		require.GreaterOrEqual(t, at, 0)
		one := plan.Apart[at]
		assert.Equal(t, plate.Number, one.People)
		assert.Zero(t, portions.Cmp(one.Portions), "%s: %s", label, one.Portions)
		assert.Equal(t, []string{"own mayonnaise"}, one.Without)
		step := plan.Steps[slices.IndexFunc(plan.Steps, func(s meal.Step) bool { return s.ID == one.Step })]
		assert.Equal(t, schedule.Dress, step.Kind)
		assert.True(t, one.Clock.History.Vulnerable)
		assert.True(t, one.Clock.Holds)
		assert.NotContains(t, append(one.Clock.History.Also, one.Clock.History.Food), "dressed-salad-raw-egg")
		assert.True(t, slices.ContainsFunc(plan.Warnings, func(w meal.Warning) bool {
			return w.Concern == meal.SetApart && w.Guest.Label() == label && w.Apart.Dish == one.Dish
		}))
	}
}

// Where it cannot be told that a portion can be parted in time, nobody gets one: the
// dish stays for the others.
func TestWhatIsNotSetApart(t *testing.T) {
	change := func(pairs ...string) string { return strings.NewReplacer(pairs...).Replace(eggSalad) }
	tests := []struct{ name, who, dish string }{
		{"it is cooked with it", "1 adult pregnant", change("Stir in the own mayonnaise and scatter the chives.", "Stir in the own mayonnaise. Bake till brown.", "served: cold", "served: hot")},
		{"the method does not say when it goes in", "1 adult pregnant", change("Stir in the own mayonnaise and scatter the chives.", "Scatter the chives.")},
		{"the method alone has more of it", "1 adult pregnant", change("scatter the chives", "crumble the brie over")},
		{"the name has more of it", "1 adult pregnant", change("name: Potatoes in", "name: Camembert and potatoes in")},
		{"a step of the dish's own bakes it", "1 adult pregnant", eggSalad + "steps: [{do: Bake with the mayonnaise, takes: 10 min, uses: oven}]\n"},
		{"it is an allergy", "1 adult no egg", eggSalad},
		{"it is a diet", "1 adult vegan", eggSalad},
		{"it is an allergy of somebody at risk", "1 adult pregnant no egg", eggSalad},
		{"a crop is what they must not have", "1 child under 5", change("cook: steam, until: just-tender", "cook: raw", "crop: potato", "crop: carrot")},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			q := evening(t, "3 adults, "+test.who, test.dish)
			q.Lots = append(q.Lots, lot("tub-3/a", "carrot", 4000, 20, 45))
			plan := makePlan(t, q)
			assert.Equal(t, []int{3}, plan.Levels.Fed)
			assert.Empty(t, plan.Apart)
			assert.NotEmpty(t, plan.Dishes, "the others have it")
		})
	}
}

// Nothing is set apart of a dish that nobody has as it is made: it is to be made
// another way.
func TestNothingIsSetApartForAll(t *testing.T) {
	q := evening(t, "2 adults pregnant", eggSalad, twoCrops)
	plan := makePlan(t, q)
	assert.Empty(t, plan.Apart)
	assert.Equal(t, []string{"Beetroot and potato"}, plateOf(t, plan, "adult, pregnant").Dishes)
}

// Of two dishes each gets the one that suits as it is made, before anything is set
// apart.
func TestWholeBeforeSetApart(t *testing.T) {
	q := evening(t, "1 adult, 1 adult pregnant", eggSalad, twoCrops)
	q.MostDishes, q.ManyDishes = 2, true
	plan := makePlan(t, q)
	assert.Empty(t, plan.Apart)
	assert.Equal(t, []string{"Beetroot and potato"}, plateOf(t, plan, "adult, pregnant").Dishes)
	assert.Equal(t, []string{"Potatoes in own mayonnaise"}, plateOf(t, plan, "adult").Dishes)
}

// What is not for a small child because it could choke on it goes in after its helping
// is set apart; for a child of untold age it is cut, unless it is left whole or cannot
// be (common practice, no source).
func TestChildrenAndWhatTheyChokeOn(t *testing.T) {
	with := func(item, state string) string {
		return strings.NewReplacer("own mayonnaise, amount: 100 g", item+", amount: 60 g, state: "+state, "the own mayonnaise", "the "+item, "in own mayonnaise", "and more").Replace(eggSalad)
	}
	tests := []struct {
		who, item, state string
		apart, cut       bool
	}{
		{"child under 5", "walnuts", "broken", true, false},
		{"child under 5", "walnuts", "ground", false, false},
		{"child 7", "walnuts", "broken", false, false},
		{"child", "walnuts", "broken", false, true},
		{"child", "walnuts", "ground", false, false},
		{"child", "walnuts", "whole", true, false},
		{"child", "grapes", "washed", false, true},
		{"child", "grapes", "whole", true, false},
		{"child", "grapes", "quartered", false, false},
		{"child", "popcorn", "plain", true, false},
		{"child", "olives", "stoned", false, true},
		{"child under 5", "olives", "stoned", true, false},
		{"child under 5", "olive oil", "cold", false, false},
	}
	for _, test := range tests {
		t.Run(fmt.Sprint(test.who, " ", test.item, " ", test.state), func(t *testing.T) {
			plan := makePlan(t, evening(t, "2 adults, 1 "+test.who, with(test.item, test.state)))
			assert.Equal(t, []int{3}, plan.Levels.Fed)
			assert.Equal(t, test.apart, len(plan.Apart) == 1, "%+v", plan.Apart)
			cut := slices.ContainsFunc(plan.Warnings, func(w meal.Warning) bool { return w.Concern == meal.CutSmall })
			assert.Equal(t, test.cut, cut)
		})
	}
}

// A portion set apart that its eater may not have any more is a danger: by the UK's
// rules 7 °C is cold enough for the others' cheese salad and not for theirs.
func TestWhatIsSetApartHasItsOwnClock(t *testing.T) {
	text := strings.NewReplacer("own mayonnaise", "feta").Replace(eggSalad)
	q := evening(t, "3 adults, 1 adult pregnant", text)
	q.Kitchen = loadKitchen(t, "authority: uk\nfridge: 7 C\n")
	plan := makePlan(t, q)
	require.Len(t, plan.Apart, 1)
	require.NotEmpty(t, plan.Clocks)
	assert.True(t, plan.Clocks[0].Holds)
	one := plan.Apart[0]
	told := slices.ContainsFunc(plan.Warnings, func(w meal.Warning) bool {
		return w.Severity == meal.Danger && w.Concern == meal.ClockBroken && w.Apart.Dish == one.Dish
	})
	assert.False(t, one.Clock.Holds)
	assert.True(t, told)
}

// An inspector finds every plate and portion set apart that was tampered with.
func TestCheckFindsPlatesTamperedWith(t *testing.T) {
	tests := map[string]func(*meal.Plan){
		"a forbidden dish on the plate": func(p *meal.Plan) { p.Plates[1].Dishes, p.Plates[1].Apart = p.Plates[1].Apart, nil },
		"a dish that is not made":       func(p *meal.Plan) { p.Plates[0].Dishes = []string{"Trifle"} },
		"nobody sets it apart":          func(p *meal.Plan) { p.Apart = nil },
		"one portion too few":           func(p *meal.Plan) { p.Apart[0].Portions = big.NewRat(1, 2) },
		"one person too few":            func(p *meal.Plan) { p.Apart[0].People = 0 },
		"with what they must not have":  func(p *meal.Plan) { p.Apart[0].Without = []string{"chives"} },
		"at no step":                    func(p *meal.Plan) { p.Apart[0].Step = p.Steps[0].ID },
		"of what is not made":           func(p *meal.Plan) { p.Apart[0].Dish = "Trifle" },
		"by the others' rules":          func(p *meal.Plan) { p.Apart[0].Clock.History.Vulnerable = false },
		"past its time":                 func(p *meal.Plan) { p.Apart[0].Clock.Holds = false },
	}
	for name, tamper := range tests {
		t.Run(name, func(t *testing.T) {
			plan := makePlan(t, evening(t, "3 adults, 1 adult pregnant", eggSalad))
			require.Len(t, plan.Apart, 1)
			tamper(&plan)
			assert.NotEmpty(t, meal.Check(plan))
		})
	}
}
