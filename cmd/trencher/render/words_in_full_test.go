package render

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/meal"
	"trencher/recipes/planner"
	"trencher/recipes/schedule"
)

// Each thing that can hold a plan back, by each level it would make better; each
// reason for a dish left out; each concern.
func TestWordsOfPlansInFull(t *testing.T) {
	plan := spoiling()
	plan.Levels.Levels = planner.Levels{Fed: []int{4, 2, 1, 0}, Over: 3, UseFirst: big.NewRat(100, 1), Dishes: 3, Portions: 9}
	var lines []string
	add := func(format string, values ...any) { lines = append(lines, fmt.Sprintf(format, values...)) }
	better := []planner.Levels{
		{Fed: []int{5, 2, 1, 0}, Over: 2, UseFirst: big.NewRat(1350, 1), Dishes: 4, Portions: 10}, {Fed: []int{4, 4, 1, 0}, Over: 1, UseFirst: big.NewRat(110, 1), Dishes: 5, Portions: 12},
		{Fed: []int{4, 2, 2, 0}, UseFirst: big.NewRat(110, 1), Dishes: 2, Portions: 8}, {Fed: []int{4, 2, 1, 3}, UseFirst: big.NewRat(110, 1), Dishes: 1, Portions: 7}, {Fed: []int{4, 2, 1, 0}, Over: 3, UseFirst: big.NewRat(100, 1), Dishes: 3, Portions: 9},
	}
	for kind := planner.CropShort; kind <= planner.SmallestBatch; kind++ {
		for i, amount := range []*big.Rat{nil, big.NewRat(1, 1), big.NewRat(99, 10), big.NewRat(101, 10), big.NewRat(2500, 1)} {
			cause := meal.Cause{Kind: kind, Of: "potato", Unit: []string{"g", "g", "mL", "", "g"}[i]}
			add("%d: %s", kind, changeOf(cause, amount))
			for level := planner.Fed; level <= planner.Ties && i == int(kind)%5; level++ {
				for n, then := range better {
					b := meal.Bound{Cause: cause, Improves: level, Amount: amount, Then: then, More: [][]string{nil, {"Mash"}, {"Mash", "Salad"}}[n%3]}
					add("   %s: %s | %s", level, boundWords(b, plan), boundOf(b))
				}
			}
		}
	}
	plan.Bounds = nil
	for kind := planner.CropShort; kind <= planner.SmallestBatch; kind++ {
		for level := planner.Fed; level <= planner.Ties; level++ {
			one := plan
			one.Bounds = []meal.Bound{{Cause: meal.Cause{Kind: kind}, Improves: level, Then: better[0]}, {Cause: meal.Cause{Kind: kind}, Improves: level, Then: better[4]}}
			eaters := len(worthTelling(one))
			one.Levels.Fed = nil
			add("%d %s: worth telling %d, where nobody eats %d", kind, level, eaters, len(worthTelling(one)))
		}
	}
	many := plan
	many.Bounds = make([]meal.Bound, 5)
	assert.Len(t, worthTelling(many), 3)
	for _, reason := range []planner.Reason{planner.NoLot, planner.TooLittle, planner.LimitReached, planner.SuitsNobody, planner.NoRoom, planner.NotNeeded, planner.EnoughDishes, planner.Outweighed} {
		for _, out := range []meal.LeftOut{{}, {Of: "potato", Short: big.NewRat(250, 1)}, {Of: "egg", Unit: "{piece}", Short: big.NewRat(3, 2), OnHand: true}, {Of: "potato", OnHand: true}} {
			out.Dish, out.Reason, out.Smallest = "Mash", reason, 4
			add("left out %s: %s", reason, leftOutWords(out))
		}
	}
	dish := plan.Dishes[0]
	guest := recipes.Guests{Count: 1, Child: true}
	late := meal.Lateness{Start: at(11, 0), By: 95 * time.Minute, Earliest: at(20, 15), Helps: []meal.Change{{Kind: meal.ServeWarm, Dish: dish.Name(), Saves: 30 * time.Minute, Serve: at(19, 45)},
		{Kind: meal.CutSmaller, Dish: dish.Name(), SizeMM: 15, Saves: 20 * time.Minute, Serve: at(19, 55)}, {Kind: meal.LeaveOut, Dish: dish.Name(), Saves: 10 * time.Minute, Serve: at(20, 5)}, {Kind: meal.MoreHands, Saves: 5 * time.Minute, Serve: at(20, 10)}}}
	passed := late
	passed.Passed, passed.Helps = true, nil
	apart := meal.Apart{Dish: dish.Name(), Guest: guest, People: 2, Portions: big.NewRat(1, 1), Without: []string{"own mayonnaise"}, Why: "has raw egg", Clock: plan.Clocks[0]}
	for concern := meal.ClockBroken; concern <= meal.Remark; concern++ {
		w := meal.Warning{Severity: meal.Notice, Concern: concern, Dish: dish.Name(), Crop: "potato", Rule: "uk-hot-2h-once", Clock: plan.Clocks[0], Late: late, Rounds: 1, Waited: 70 * time.Minute, Boil: 30 * time.Minute, Guest: guest, Says: "says so",
			Poison: recipes.Poison{Words: "kidney beans", Grave: true, Says: "they poison", Mend: "boil them", Rule: "bean-dried-boil"}}
		more := []meal.Warning{w, w, w}
		more[1].Apart, more[1].Late, more[1].Poison.Grave, more[1].Rounds = apart, passed, false, 2
		more[2].Dish, more[2].Crop = "Potatoes with a name that is far too long to be told in a line of dangers and of all else", "carrot"
		for _, w := range more {
			add("%d: %s | %s", concern, warningWords(w, plan), mendWords(w, plan))
		}
	}
	for cause := meal.NotInTime; cause <= meal.FridgeKeepsNothing; cause++ {
		add("not cold %d: %s", cause, warningWords(meal.Warning{Concern: meal.NotCold, Dish: "Salad", NotCold: cause}, plan))
	}
	inFull(t, "words-of-plans", says("words", lines...))
}

// Figures at the borders where their words change.
func TestFiguresInWords(t *testing.T) {
	g := func(x float64) decimal.Decimal { return decimal.NewFromFloat(x) }
	var lines []string
	add := func(format string, values ...any) { lines = append(lines, fmt.Sprintf(format, values...)) }
	for _, x := range []float64{0, 0.4, 0.5, 1, 9.9, 10, 99.4, 500, 994, 995, 999, 999.4, 999.5, 1000, 1004, 1005, 9999, 10000, 123456} {
		add("%g: %s; %s; %s; %s; %s", x, grams(g(x)), litres(x), litresOf(x), millilitres(x), twoFigures(x))
	}
	for _, m := range []float64{-1, 0, 0.2, 0.25, 0.4, 0.5, 0.74, 0.75, 0.9, 1, 1.2, 1.25, 1.5, 1.75, 1.999999999, 2.0000000001, 2.5, 9.9, 10, 10.25, 10.5, 15.2, 59, 59.5, 60, 60.4, 61, 119.6, 120, 150, 1440} {
		add("%g min: %s; %s; %s; %s; %d %d %d; %s; %s", m, minutes(m), minutesFine(m), knifeFromFine(m), upToFine(m), about(m), knifeFrom(m), upTo(m), span(m), lateWords(m))
		add("   %s", lengthWords(time.Duration(m*float64(time.Minute))))
	}
	for _, m := range []float64{0.049, 0.05, -0.049, -0.05} {
		add("%g: %s", m, lateWords(m))
	}
	for _, n := range []int{0, 1, 2} {
		add("%d: %s; %s; %s; %s", n, count(n, "file", "files"), few(n, "file", "files"), times(n), portions(n))
	}
	for _, c := range []schedule.Cost{{}, {Over: 1}, {Hot: 2, Length: 3}, {Over: 1, Hot: 2, Warm: 3, Length: 400}} {
		add("cost %s; %s", costWords(c), timetableReason(meal.Timing{Cost: c, Bound: schedule.Cost{}, Proven: c.Length == 3}))
	}
	for _, list := range [][]string{nil, {"a"}, {"a", "b"}, {"a", "b", "c"}} {
		add("%s; %s", listed(list), joinNonEmpty(", ", append(list, "", "z")...))
	}
	for _, text := range []string{"", "a", "élan", "done.", "done", "3 of it"} {
		add("%q %q", capital(text), sentence(text))
	}
	for _, day := range []time.Time{at(0, 0), at(24, 0), at(-24, 0)} {
		add("%s %s", clockOn(at(18, 30), day), sizes(20, 45))
	}
	for _, d := range heat.DonenessNames() {
		doneness, _ := heat.ParseDoneness(d)
		add("%s", donenessWords(doneness))
	}
	for _, r := range []*big.Rat{big.NewRat(1, 2), big.NewRat(3, 1), big.NewRat(7, 4), big.NewRat(10, 3)} {
		add("%s; %s; %s; %s", peoplesNumber(r), amountWords(r, "g"), amountWords(r, ""), amountWords(r, "mL"))
	}
	for _, text := range []string{"", "one two three", "a word-that-is-longer-than-the-width of all", strings.Repeat("x", 30), "ends here "} {
		add("%q", slices.Collect(eachLine(text, 12)))
	}
	for _, text := range []string{"", "il.", "tfr-", "mW½%", "ABC", "abc", "Ünïtß"} {
		add("%q %.2f pt, %.0f %.0f %.0f lines, %.1f", text, wide(text), linesIn(text, 12), linesIn(strings.Repeat(text+" ", 9), 40), linesIn(text+text+text, 20), paragraph(strings.Repeat(text+" ", 40)))
	}
	view := reckonerView{Made: "made", OmittedSays: "left out", Kitchen: "kitchen", Care: []string{"care", strings.Repeat("care ", 60)}, Own: []string{"own"}, StandHeads: []string{"a", "b"}, Heated: "heated"}
	dish := reckonedDishView{Name: strings.Repeat("Name ", 40), Served: "hot", Portions: []string{"2", "4"}, Foot: "foot", Dangers: []string{"danger"}}
	add("%.2f %.2f %.2f %.2f %.2f", view.topHeight(), view.restHeight(), dish.height(), rowHigh(0.3, strings.Repeat("head ", 20), []string{"a"}), rowHigh(0.3, "h", []string{strings.Repeat("cell ", 40), "b"}))
	view.OmittedSays, view.Own, dish.Foot, dish.Dangers = "", nil, "", nil
	add("%.2f %.2f %.2f", view.topHeight(), view.restHeight(), dish.height())
	for _, condition := range []harvest.Condition{harvest.Green, harvest.Rotten} {
		add("%s", asideWords(meal.Aside{Lot: &harvest.Lot{Condition: condition}}))
	}
	add("%s", asideWords(meal.Aside{Lot: &harvest.Lot{Condition: harvest.Sound}, Because: meal.PastKeeping}))
	inFull(t, "figures-in-words", says("words", lines...))
}

// What is prepared, by the work it is.
func TestHandworkInWords(t *testing.T) {
	for prepared, want := range map[string]string{"as-lifted": "Wash, trim, cut: pea for Peas", "scrubbed": "Scrub, cut: pea for Peas", "peeled": "Peel, cut: pea for Peas", "shelled": "Shell, cut: pea for Peas"} {
		plan := meal.Plan{Dishes: []meal.Dish{{Recipe: recipes.Dish{Name: "Peas"}, Parts: []meal.Part{{Line: recipes.CropLine{Crop: "pea", Prepared: prepared}}}}}}
		step := meal.Step{Parts: []meal.PartAt{{}}}
		step.Crop, step.Dishes = "pea", []string{"Peas"}
		assert.Equal(t, want, prepareWords(plan, step))
		assert.Empty(t, togetherWith(plan, meal.PartAt{}))
		plan.Dishes = append(plan.Dishes, plan.Dishes[0])
		plan.Runs = []meal.Run{{Parts: []meal.PartAt{{}}}, {Parts: []meal.PartAt{{}, {Dish: 1}}}, {Parts: []meal.PartAt{{Dish: 1}, {Part: 7}}}}
		assert.Equal(t, []string{"pea for Peas"}, togetherWith(plan, meal.PartAt{}))
	}
}
