package meal_test

import (
	"context"
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
	"trencher/units"
)

// shelf is a journal in memory.
type shelf map[int][]harvest.Entry

func (s shelf) Season(_ context.Context, year int) ([]harvest.Entry, []harvest.LeftOut, error) {
	entries := slices.Clone(s[year])
	harvest.SortEntries(entries)
	return entries, nil, nil
}

func (s shelf) Seasons() (years []int, err error) {
	for year := range s {
		years = append(years, year)
	}
	return years, nil
}

func (s shelf) Write(e harvest.Entry) (string, error) {
	file := fmt.Sprintf("journal/2031/%d.yaml", len(s[2031]))
	e.Head().File = file
	s[2031] = append(s[2031], e)
	return file, nil
}

// cookOf is the log of a recorded plan, at a moment.
func cookOf(t *testing.T, s shelf, plan meal.Plan, now time.Time) meal.CookLog {
	t.Helper()
	var record *harvest.Planned
	for _, e := range s[2031] {
		if p, ok := e.(*harvest.Planned); ok {
			record = p
		}
	}
	if record == nil {
		record = meal.Planned(plan, harvest.StockList{})
		record.At = plan.Steps[0].At.Add(-time.Hour)
		_, err := s.Write(record)
		require.NoError(t, err)
	}
	ledger := harvest.NewLedger(s, nil, true)
	_, err := ledger.PlanCalled(t.Context(), harvest.LastPlan, now)
	require.NoError(t, err)
	return meal.CookLog{Plan: plan, Record: record, BatchLog: meal.BatchLog{Ledger: ledger, Judge: meal.Judge{Authority: keeping.Strictest, Moment: now},
		Clock: units.Clock{Now: now, Zone: now.Location()}, System: units.Metric, Dishes: func() []recipes.Dish {
			var all []recipes.Dish
			for _, dish := range plan.Dishes {
				all = append(all, dish.Recipe)
			}
			return all
		}}}
}

// glance is all that a cook sees at a moment.
func glance(c meal.Cooking) string {
	var out strings.Builder
	fmt.Fprintf(&out, "%s serve %s, %s late", c.Now.Format("15:04"), c.Plan.ServeAt.Format("15:04"), c.Lateness())
	if next := c.Next(); !next.IsZero() {
		fmt.Fprint(&out, ", next at ", next.Format("15:04"))
	}
	if c.IsOver() {
		fmt.Fprint(&out, ", over")
	}
	fmt.Fprintln(&out)
	line := func(name string, steps []meal.Step) {
		for _, s := range steps {
			fmt.Fprintf(&out, "    %-9s %s %s %s-%s %v", name, s.ID, s.Kind, s.At.Format("15:04"), s.End().Format("15:04"), s.Dishes)
			if at := c.KnifeAt(s); !at.IsZero() {
				fmt.Fprint(&out, " knife ", at.Format("15:04"))
			}
			fmt.Fprintln(&out)
		}
	}
	line("to do", c.ToDo())
	line("under way", c.UnderWay())
	line("coming", c.Coming())
	for _, tier := range c.Tiers() {
		fmt.Fprintf(&out, "    tier %d: %v\n", tier.Number, idsOf(tier.Steams))
	}
	for _, clock := range c.Plan.Clocks {
		fmt.Fprintf(&out, "    %s by %s %v\n", clock.Dish, clock.LimitAt.Format("15:04"), clock.Holds)
	}
	return out.String()
}

// Two evenings as they are cooked, told on the way: whoever does a step tells it as
// done, a little late or a little early, tries the knife and says what it found.
func TestEveningsAreFollowed(t *testing.T) {
	q := question(t, twoDishes(t), lot("tub-1/a", "potato", 2000, 20, 45))
	q.Kitchen = loadKitchen(t, "steamer: {diameter: 240 mm, tiers: 3}\nfridge: 4 C\ncold-box: {ice: 2 kg, holds: 5 C}\nstove: {power: 1.8 kW, rings: 2}\n")
	mixed := question(t, []recipes.Dish{loadDish(t, "d.yaml", twoCrops), loadDish(t, "e.yaml", embers), loadDish(t, "b.yaml", beanStew)},
		lot("tub-1/a", "potato", 2500, 20, 45), lot("bed-1/b", "beetroot", 500, 35, 55), lot("bed-2/c", "french-bean", 900, 0, 0))
	for name, plan := range map[string]meal.Plan{"two-dishes": makePlan(t, q), "three-dishes": makePlan(t, mixed)} {
		s := shelf{}
		var out strings.Builder
		log := cookOf(t, s, plan, plan.Steps[0].At)
		cooking, err := log.Cooking()
		require.NoError(t, err)
		out.WriteString(glance(cooking))
		for i, step := range plan.Steps {
			if step.Kind == schedule.Test {
				continue
			}
			says, off := "done", []time.Duration{0, 2 * time.Minute, -time.Minute, 0}[i%4]
			at := step.End().Add(off)
			if step.Kind == schedule.Steam && i%2 == 0 {
				log = cookOf(t, s, plan, at.Add(-2*time.Minute))
				_, err := log.Tell(t.Context(), step.ID, "not-yet")
				require.NoError(t, err)
				says = "over"
			}
			log = cookOf(t, s, plan, at)
			heard, err := log.Tell(t.Context(), step.ID, says)
			fmt.Fprintf(&out, "%s %s %s %s: ", at.Format("15:04"), step.ID, step.Kind, says)
			if err != nil {
				fmt.Fprintln(&out, err)
				continue
			}
			for _, e := range heard.Events {
				fmt.Fprintf(&out, "[%s %s %s %s] ", e.Event, e.Name, e.Amount, e.At.Format("15:04"))
			}
			if k := heard.Knife; k != nil {
				fmt.Fprintf(&out, "[knife %s %s %s %s %.1f min, %s, tier %d, %s] ", k.Crop, k.Cut, k.Until, k.Said, k.Minutes, k.Load, k.Tier, k.At.Format("15:04"))
			}
			fmt.Fprintln(&out)
			if cooking, err = cookOf(t, s, plan, at).Cooking(); err != nil {
				require.NoError(t, err)
			}
			out.WriteString(glance(cooking))
		}
		golden(t, "testdata/cooked/"+name+".txt", out.String())
		for field, told := range map[string][2]string{"step": {"s99", "done"}, "says": {plan.Steps[0].ID, "perhaps"}} {
			_, err := cookOf(t, s, plan, plan.ServeAt).Tell(t.Context(), told[0], told[1])
			var wrong *units.FieldError
			require.ErrorAs(t, err, &wrong)
			assert.Equal(t, field, wrong.Field)
		}
		before := len(s[2031])
		_, err = cookOf(t, s, plan, plan.ServeAt).Tell(t.Context(), "", "five-late")
		require.NoError(t, err)
		assert.Len(t, s[2031], before+1)
	}
}

// What is offered as being cooked is the last plan, for a day, less what is logged.
func TestThePlanThatIsCooked(t *testing.T) {
	plan := aPlan(t)
	s := shelf{}
	log := cookOf(t, s, plan, plan.Steps[0].At)
	for _, c := range []struct {
		after   time.Duration
		offered bool
	}{{0, true}, {24 * time.Hour, true}, {24*time.Hour + time.Second, false}} {
		log.Clock.Now = log.Record.At.Add(c.after)
		record, words := log.Planned(t.Context())
		assert.Equal(t, c.offered, record != nil, c.after)
		assert.Equal(t, c.offered, len(words) == 1, c.after)
	}
	log = cookOf(t, s, plan, plan.ServeAt)
	logged, err := log.AsPlanned(t.Context(), harvest.LastPlan, "18:20")
	require.NoError(t, err)
	require.Len(t, logged, 1)
	assert.Equal(t, "Crushed potatoes", logged[0].Event.Name)
	record, _ := cookOf(t, s, plan, plan.ServeAt).Planned(t.Context())
	assert.Nil(t, record, "all of it is logged")
	_, err = log.AsPlanned(t.Context(), "nosuch", "")
	assert.Error(t, err)
	record, _ = meal.BatchLog{Ledger: harvest.NewLedger(shelf{}, nil, true), Clock: log.Clock}.Planned(t.Context())
	assert.Nil(t, record)
}

// A knife test is kept with all it was made under, and reads back as it was; what no
// answer could rest on is refused by its box.
func TestKnifeEntries(t *testing.T) {
	crop := func(name, kind string) heat.Crop {
		c, err := heat.LookupCrop(name, kind)
		require.NoError(t, err)
		return c
	}
	cold, grams := 5.04, 1200.0
	cube := heat.Cut{Shape: heat.Cube, SizeMM: 25}
	for _, c := range []struct {
		name, found string
		q           heat.Question
		want        string
	}{
		{"the usual", "9 min tender", heat.Question{Crop: crop("potato", "waxy"), Cut: cube}, "potato waxy, cube 25 mm, tender  9 min; load , start 15 C, altitude 0 m, power 700 W, tier 0"},
		{"under its own conditions", "11.5 min not-yet tender", heat.Question{Crop: crop("potato", "floury"), Cut: cube, Until: heat.Tender, Grams: &grams, Tier: 1,
			Equipment: loadKitchen(t, "").Equipment(), Conditions: heat.Conditions{StartC: &cold, AltitudeM: 410.4, NetPowerW: 640.6}}, "potato floury, cube 25 mm, tender not-yet 11.5 min; load 1200 g, start 5 C, altitude 410 m, power 641 W, tier 1"},
		{"another crop", "30 min over soft", heat.Question{Crop: crop("beetroot", ""), Cut: cube}, "beetroot , cube 25 mm, soft over 30 min; load , start 15 C, altitude 0 m, power 700 W, tier 0"},
	} {
		e, err := meal.KnifeEntry(c.q, c.found)
		require.NoError(t, err, c.name)
		assert.Equal(t, c.want, fmt.Sprintf("%s %s, %s, %s %s %g min; load %s, start %s, altitude %s, power %s, tier %d", e.Crop, e.Texture, e.Cut, e.Until, e.Said, e.Minutes, e.Load, e.Start, e.Altitude, e.Power, e.Tier))
		e.File = "journal/2031/a.yaml"
		tests, unread := meal.KnifeTests([]harvest.Entry{e, &harvest.Note{}})
		require.Empty(t, unread)
		require.Len(t, tests, 1)
		assert.Equal(t, e.Minutes, tests[0].Minutes)
		assert.Equal(t, e.Tier, tests[0].Made.Tier)
		assert.Equal(t, []string{e.Crop, e.Texture, e.File}, []string{tests[0].Crop, tests[0].Texture, tests[0].Place})
		start, _ := e.Start.Float64(units.Celsius)
		assert.Equal(t, start, *tests[0].Made.StartC)
		altitude, _ := e.Altitude.Float64(units.Metre)
		assert.Equal(t, altitude, *tests[0].Made.AltitudeM)
		power, _ := e.Power.Float64(units.Watt)
		assert.Equal(t, power, tests[0].Made.NetPowerW)
		if c.q.Grams != nil {
			assert.Equal(t, 1200.0, tests[0].LoadG)
		}
	}
	for name, c := range map[string]struct {
		cut   heat.Cut
		found string
	}{"no size": {heat.Cut{Shape: heat.Halves}, "9 min tender"}, "no test": {cube, "soon"}, "far too long": {cube, "500 min not-yet just-tender"}} {
		_, err := meal.KnifeEntry(heat.Question{Crop: crop("potato", ""), Cut: c.cut}, c.found)
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong, name)
		assert.Equal(t, "found", wrong.Field, name)
	}
	for _, odd := range []*harvest.Steamed{{Crop: "potato", Cut: "star", Until: "tender"}, {Crop: "potato", Cut: "cube 25 mm", Until: "raw"}, {Crop: "potato", Cut: "cube 25 mm", Until: "tender", Said: "maybe"}, {Crop: "potato", Cut: "cube 25 mm", Until: "tender", Load: units.MustParse("3 m")}} {
		odd.File = "journal/2031/b.yaml"
		tests, unread := meal.KnifeTests([]harvest.Entry{odd})
		assert.Empty(t, tests)
		require.Len(t, unread, 1)
		assert.ErrorContains(t, unread[0], "the knife test journal/2031/b.yaml: ")
	}
}

// The first goal that another order might improve, with both figures.
func TestWhatATimetableLeavesOpen(t *testing.T) {
	for _, c := range []struct {
		cost, bound  schedule.Cost
		goal         meal.TimingGoal
		found, least int
	}{
		{schedule.Cost{Over: 2, Hot: 3, Warm: 4, Length: 5}, schedule.Cost{Over: 1, Hot: 1, Warm: 1, Length: 1}, meal.OverLimits, 2, 1},
		{schedule.Cost{Over: 1, Hot: 3, Warm: 4, Length: 5}, schedule.Cost{Over: 1, Hot: 1, Warm: 1, Length: 1}, meal.HotWaiting, 3, 1},
		{schedule.Cost{Hot: 3, Warm: 4, Length: 5}, schedule.Cost{Hot: 3, Warm: 1, Length: 1}, meal.WarmWaiting, 4, 1},
		{schedule.Cost{Warm: 1, Length: 5}, schedule.Cost{Hot: 3, Warm: 1, Length: 4}, meal.InAll, 5, 4},
		{schedule.Cost{Length: 5}, schedule.Cost{Length: 5}, meal.InAll, 5, 5},
	} {
		goal, found, least := meal.Timing{Cost: c.cost, Bound: c.bound}.Open()
		assert.Equal(t, []int{int(c.goal), c.found, c.least}, []int{int(goal), found, least})
	}
}

// Whether a part is cooked, and by whose minutes.
func TestHowAPartIsCooked(t *testing.T) {
	cooked := loadDish(t, "d.yaml", beanStew).Crops[0]
	raw := loadDish(t, "d.yaml", blanched).Crops[1]
	for _, c := range []struct {
		name                 string
		part                 meal.Part
		untimed, own, cooked bool
	}{
		{"raw", meal.Part{Line: raw}, false, false, false},
		{"boiled by the dish's minutes", meal.Part{Line: cooked}, false, true, true},
		{"boiled by figures", meal.Part{Line: cooked, Pot: &meal.Pot{}}, false, false, true},
		{"steamed", meal.Part{Line: recipes.CropLine{Cook: "steam"}, Steam: &meal.Steaming{}}, false, false, true},
		{"steamed, nobody knows how long", meal.Part{Line: recipes.CropLine{Cook: "steam"}}, true, false, false},
	} {
		assert.Equal(t, []bool{c.untimed, c.own, c.cooked}, []bool{c.part.IsUntimed(), c.part.IsCookedOwn(), c.part.IsCooked()}, c.name)
	}
}

// Whole reckoners of dishes that differ in all that one is made from.
func TestReckonersInFull(t *testing.T) {
	k := loadKitchen(t, "fridge: 4 C\npot: {volume: 3 l}\nstove: {power: 1.8 kW, canister: 190 g}\n")
	var all []recipes.Dish
	for i, text := range []string{crushed, salad, twoCrops, beanStew, blanched, embers, rawEggRoots} {
		all = append(all, loadDish(t, fmt.Sprintf("dishes/%d.yaml", i), text))
	}
	r, err := meal.Reckon(meal.Question{Mode: meal.One, On: day, Now: clockAt(9, 0), Kitchen: k, AirC: 20, Dishes: all,
		KnifeTests: []heat.KnifeTest{{Crop: "potato", Cut: heat.Cut{Shape: heat.Cube, SizeMM: 30}, Until: heat.Tender, Said: heat.NotYet, Minutes: 12}}})
	require.NoError(t, err)
	golden(t, "testdata/cooked/reckoner.txt", told(r))
}

// A knife test that the journal has been told already is not written twice: the same
// finding, a moment ago, nothing said of the step since.
func TestAKnifeTestIsWrittenOnce(t *testing.T) {
	plan := aPlan(t)
	steam := stepOf(t, plan.Steps, schedule.Steam)
	at := steam.End().Add(-time.Minute)
	first, err := cookOf(t, shelf{}, plan, at).Tell(t.Context(), steam.ID, "not-yet")
	require.NoError(t, err)
	require.NotNil(t, first.Knife)
	for _, c := range []struct {
		name    string
		ago     time.Duration
		change  func(*harvest.Steamed)
		since   bool // something was said of the step since
		written bool
	}{
		{"just now", 0, nil, false, false}, {"not three minutes ago", 3*time.Minute - time.Second, nil, false, false}, {"three minutes ago", 3 * time.Minute, nil, false, true},
		{"still to come", -time.Second, nil, false, true}, {"said of since", time.Minute, nil, true, true},
		{"of another crop", 0, func(s *harvest.Steamed) { s.Crop = "carrot" }, false, true}, {"of another texture", 0, func(s *harvest.Steamed) { s.Texture = "floury" }, false, true},
		{"of another cut", 0, func(s *harvest.Steamed) { s.Cut = "cube 10 mm" }, false, true}, {"until otherwise", 0, func(s *harvest.Steamed) { s.Until = "soft" }, false, true}, {"found otherwise", 0, func(s *harvest.Steamed) { s.Said = "over" }, false, true},
	} {
		before := *first.Knife
		before.At = at.Add(-c.ago)
		if c.change != nil {
			c.change(&before)
		}
		s := shelf{}
		log := cookOf(t, s, plan, at)
		_, err := s.Write(&before)
		require.NoError(t, err)
		if c.since {
			_, err := s.Write(&harvest.Told{Header: harvest.Header{At: before.At.Add(time.Second)}, Plan: log.Record.ID, Step: steam.ID, What: harvest.ToldNotYet})
			require.NoError(t, err)
		}
		heard, err := cookOf(t, s, plan, at).Tell(t.Context(), steam.ID, "not-yet")
		require.NoError(t, err)
		assert.Equal(t, c.written, heard.Knife != nil, c.name)
	}
}

// A batch that was logged by hand is not cooked twice.
func TestABatchLoggedByHandIsNotCookedAgain(t *testing.T) {
	plan := aPlan(t)
	steam := stepOf(t, plan.Steps, schedule.Steam)
	for _, of := range []string{"Crushed potatoes", "Soup"} {
		s := shelf{}
		log := cookOf(t, s, plan, steam.End())
		byHand := &harvest.BatchEvent{Event: harvest.KindCooked, Name: of, Dish: of, Plan: log.Record.ID, Food: "mash"}
		byHand.At = steam.End().Add(-time.Minute)
		_, err := s.Write(byHand)
		require.NoError(t, err)
		heard, err := cookOf(t, s, plan, steam.End()).Tell(t.Context(), steam.ID, "done")
		require.NoError(t, err)
		assert.Equal(t, of == "Soup", len(heard.Events) == 1, of)
	}
}

// The knife is first tried at the whole minute by which the soonest may be done, the
// first at the earliest.
func TestWhenTheKnifeIsFirstTried(t *testing.T) {
	plan := aPlan(t)
	steam := stepOf(t, plan.Steps, schedule.Steam)
	part := plan.Dishes[0].Parts[0]
	for low, minutes := range map[float64]int{0: 1, 0.9: 1, 1: 1, 1.99: 1, 2: 2, 1.9999999999: 2, 7.5: 7} {
		s := *part.Steam
		s.Estimate.ComeUp, s.Low = 0, low
		plan.Dishes[0].Parts[0].Steam = &s
		assert.Equal(t, steam.At.Add(time.Duration(minutes)*time.Minute), plan.KnifeAt(steam), low)
	}
	steam.Kind = schedule.Boil
	assert.True(t, plan.KnifeAt(steam).IsZero())
}

// A serving time is missed by any time at all, and not by none.
func TestLateByNextToNothing(t *testing.T) {
	plan := aPlan(t)
	for late, told := range map[time.Duration]bool{0: false, 1: true, -1: false} {
		q := question(t, twoDishes(t)[:1], lot("tub-1/a", "potato", 1500, 20, 45))
		q.Now = plan.Steps[0].At.Add(late)
		again, err := meal.Make(t.Context(), q)
		require.NoError(t, err)
		assert.Equal(t, told, slices.ContainsFunc(again.Warnings, func(w meal.Warning) bool { return w.Concern == meal.Late }), late)
	}
}

// Amounts that nothing can add up stay apart, whole.
func TestWantsThatDoNotAddUp(t *testing.T) {
	var dishes []meal.Dish
	for i, amount := range []string{"1 tsp", "2", "2 tsp", "3"} {
		recipe := loadDish(t, "d.yaml", strings.Split(crushed, "others:")[0]+"others: [{item: moon dust, amount: "+amount+"}]\nmethod: [Steam.]\n")
		recipe.Name = string(rune('A' + i))
		dishes = append(dishes, meal.Dish{Recipe: recipe, Scaled: recipe.ScaleTo(big.NewRat(4, 1), recipes.DefaultKitchen(units.Metric))})
	}
	_, buy := meal.Wants(dishes, recipes.DefaultKitchen(units.Metric))
	var told []string
	for _, want := range buy {
		told = append(told, want.Item+" "+want.Exact.String()+" "+strings.Join(want.Dishes, ""))
	}
	assert.Equal(t, []string{"moon dust 3 tsp metric AC", "moon dust 5 BD"}, told)
}
