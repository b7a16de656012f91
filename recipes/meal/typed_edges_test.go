package meal_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
	"trencher/units"
)

// The least and the most that a number may be, and what nobody said.
func TestNumbersAtTheirEnds(t *testing.T) {
	q := meal.Question{Mode: meal.Share, Kitchen: loadKitchen(t, "")}
	require.NoError(t, q.Seat(meal.EaterWords{}, false))
	assert.Equal(t, []int{2, 0, 0}, []int{q.Sides, q.Rounds, q.Layers}, "nothing is said of fillings and layers")
	require.NoError(t, q.Seat(meal.EaterWords{Sides: "1", Dishes: "1", Rounds: "1", Layers: "1"}, false))
	assert.Equal(t, []int{1, 1, 1, 1}, []int{q.Sides, q.MostDishes, q.Rounds, q.Layers})
	assert.True(t, q.ManyDishes)
	require.NoError(t, q.Seat(meal.EaterWords{Sides: " 20 ", Dishes: "100", Rounds: "20", Layers: "100"}, false))
	assert.Equal(t, []int{20, 100, 20, 100}, []int{q.Sides, q.MostDishes, q.Rounds, q.Layers})
	for field, words := range map[string]meal.EaterWords{"sides": {Sides: "21"}, "dishes": {Dishes: "101"}, "rounds": {Rounds: "21"}, "layers": {Layers: "101"}} {
		requireWrong(t, field, q.Seat(words, false), field)
	}
	require.NoError(t, q.Give(meal.GivenWords{Hands: "1"}, clockOf(clockAt(10, 0))))
	assert.Equal(t, 1, q.Kitchen.Hands)
	require.NoError(t, q.Give(meal.GivenWords{Hands: " 8 "}, clockOf(clockAt(10, 0))))
	assert.Equal(t, 8, q.Kitchen.Hands)
	for _, hands := range []string{"0", "-1", "two"} {
		requireWrong(t, "hands", q.Give(meal.GivenWords{Hands: hands}, clockOf(clockAt(10, 0))), hands)
	}
	q.ServeAt = clockAt(18, 0)
	requireWrong(t, "start", q.Give(meal.GivenWords{Start: "16:00"}, clockOf(clockAt(10, 0))), "both")
}

// A limit may be nothing; a weight may stand beside its unit or away from it.
func TestAmountsAtTheirEnds(t *testing.T) {
	limit, err := meal.ParseLimit("butter=0 g", units.Metric)
	require.NoError(t, err)
	assert.Equal(t, "butter=0 g", limit.String())
	_, err = meal.ParseLimit("butter", units.Metric)
	require.ErrorContains(t, err, "no ingredient and amount")
	_, err = meal.ParseLimit("butter=to taste", units.Metric)
	require.ErrorContains(t, err, "a limit is one amount")
	for _, text := range []string{"500 g potato", "500g potato", "0.5 kg potato"} {
		back, err := meal.ParseKeepBack(text, units.Metric)
		require.NoError(t, err, text)
		assert.Equal(t, "potato", back.Crop, text)
	}
	back, err := meal.ParseKeepBack("500 g 20 mm potato", units.Metric)
	require.NoError(t, err)
	assert.Equal(t, "20 mm potato", back.Crop, "the longest beginning that is a weight")
}

// An ingredient that is limited is found wherever a dish names it, in whatever dish.
func TestALimitOfTheLastIngredient(t *testing.T) {
	q := question(t, twoDishes(t), lot("tub-1/a", "potato", 2000, 20, 45))
	q.Dishes[0].Others = append([]recipes.OtherLine{{Item: "salt", Amount: units.MustParse("5 g")}}, q.Dishes[0].Others...)
	q.Limits = []meal.Limit{{Item: "butter", Amount: units.MustParse("45 g")}}
	plan := makePlan(t, q)
	for _, dish := range plan.Dishes {
		if dish.Name() == q.Dishes[0].Name {
			assert.Equal(t, 3, dish.Portions, "60 g are for four portions")
		}
	}
	q.Limits[0].Item = "lard"
	_, err := meal.Make(t.Context(), q)
	requireWrong(t, "limit", err, "no dish has it")
	require.ErrorContains(t, err, "no dish here uses lard")
	for _, other := range []string{"butter", "Butter"} { // in another unit too
		q.Limits = []meal.Limit{{Item: "butter", Amount: units.MustParse("45 g")}, {Item: other, Amount: units.MustParse("2 kg")}}
		_, err = meal.Make(t.Context(), q)
		require.EqualError(t, err, `limit "`+other+`=2 kg": `+other+` has a limit already`)
	}
}

// How much of a batch is an amount above nothing; the food of one batch may be said with
// its name, or its dish.
func TestWordsOfOneBatch(t *testing.T) {
	none := func() []recipes.Dish { return nil }
	for amount, fits := range map[string]bool{"1": true, "0.5 kg": true, "0": false, "0 g": false, "1-2 kg": false, "to taste": false, "much": false, "-1": false} {
		_, err := meal.EventWords{Event: harvest.KindCooked, Name: "Mash", Food: "mash", Amount: amount}.Read(clockOf(clockAt(18, 0)), units.Metric, none)
		if fits {
			require.NoError(t, err, amount)
		} else {
			requireWrong(t, "amount", err, amount)
		}
	}
	for _, q := range []meal.EventWords{{Food: "mash"}, {Dish: "Mash"}, {Amount: "4"}} {
		q.Event = harvest.KindCooked
		events, err := q.EachOf([]string{"Mash"})
		require.NoError(t, err)
		assert.Len(t, events, 1)
	}
	dish := loadDish(t, "d.yaml", eggSalad)
	one := func() []recipes.Dish { return []recipes.Dish{dish} }
	event, err := meal.EventWords{Event: harvest.KindCooked, Name: dish.Name}.Read(clockOf(clockAt(18, 0)), units.Metric, one)
	require.NoError(t, err)
	kinds := meal.KindsOf(dish).Foods
	require.Greater(t, len(kinds), 1)
	assert.Equal(t, kinds, append([]string{event.Food}, event.Also...))
	event, err = meal.EventWords{Event: harvest.KindCooked, Name: dish.Name, Food: kinds[1]}.Read(clockOf(clockAt(18, 0)), units.Metric, one)
	require.NoError(t, err)
	assert.Equal(t, kinds[1], event.Food)
	assert.NotContains(t, event.Also, kinds[1], "what it is called is told once")
	assert.Contains(t, event.Also, kinds[0])
	_, err = meal.EventWords{Event: harvest.KindCooked, Name: "Sunday's", Dish: "nothing", Food: "mash"}.Read(clockOf(clockAt(18, 0)), units.Metric, one)
	requireWrong(t, "dish", err, "the plot has one dish, and it is another")
}

// One eater may be asked for, and one kind of people be the household.
func TestNextSeasonForOne(t *testing.T) {
	q, err := meal.NextWords{For: "1 adult", Eat: []string{"late maincrop potato, 3 a week, 26 weeks"}}.Read(nil, 2031)
	require.NoError(t, err)
	require.Len(t, q.Eat, 1)
	assert.Equal(t, 1.0, q.Eat[0].Helpings)
	assert.Zero(t, q.People, "compared with nobody")
	q, err = meal.NextWords{For: "4 adults"}.Read([]recipes.Guests{{Count: 2}}, 2031)
	require.NoError(t, err)
	assert.Equal(t, 2.0, q.People, "twice as many")
	_, err = meal.NextWords{For: "4 adults"}.Read(nil, 2031)
	requireWrong(t, "for", err, "nobody to compare with")
	_, err = meal.NextWords{Eat: []string{"late maincrop potato, 3 a week, 26 weeks"}}.Read(nil, 2031)
	requireWrong(t, "eat", err, "for nobody")
}

// What a knife test was made under is kept to the figure that a kitchen knows, and read
// back; tests behind what cannot be read, and behind other entries, are read too.
func TestWhatAKnifeTestWasMadeUnder(t *testing.T) {
	crop, err := heat.LookupCrop("potato", "waxy")
	require.NoError(t, err)
	start, grams := 18.26, 633.4
	q := heat.Question{Crop: crop, Cut: heat.Cut{Shape: heat.Cube, SizeMM: 25}, Until: heat.Tender, Grams: &grams, Equipment: loadKitchen(t, "").Equipment(),
		Conditions: heat.Conditions{StartC: &start, AltitudeM: 801.4, NetPowerW: 1199.6}}
	entry, err := meal.KnifeEntry(q, "14 min tender")
	require.NoError(t, err)
	assert.Equal(t, []string{"633 g", "18.3 C", "801 m", "1200 W"}, []string{entry.Load.String(), entry.Start.String(), entry.Altitude.String(), entry.Power.String()})
	assert.Equal(t, "waxy", entry.Texture)

	bad, bare := *entry, harvest.Steamed{Crop: "potato", Cut: "cube 25 mm", Until: "tender", Minutes: 14, Power: units.MustParse("1500 W")}
	bad.Cut = "somehow"
	tests, unread := meal.KnifeTests([]harvest.Entry{&harvest.BatchEvent{}, &bad, entry, &harvest.BatchEvent{}, &bad, &bare})
	assert.Len(t, unread, 2)
	require.Len(t, tests, 2)
	assert.Equal(t, []float64{633, 801, 1200}, []float64{tests[0].LoadG, *tests[0].Made.AltitudeM, tests[0].Made.NetPowerW})
	assert.Equal(t, 18.3, *tests[0].Made.StartC)
	assert.Equal(t, 1500.0, tests[1].Made.NetPowerW, "though nothing is told of its load")
	assert.Nil(t, tests[1].Made.StartC)
}

// What was said of a step before a knife test, or of another step since, leaves the test
// told once.
func TestAKnifeTestIsWrittenOnceWhateverElseIsSaid(t *testing.T) {
	plan := aPlan(t)
	steam, scrub := stepOf(t, plan.Steps, schedule.Steam), stepOf(t, plan.Steps, schedule.Scrub)
	at := steam.End().Add(-time.Minute)
	first, err := cookOf(t, shelf{}, plan, at).Tell(t.Context(), steam.ID, "not-yet")
	require.NoError(t, err)
	for _, c := range []struct {
		about, step string
		ago         time.Duration
		written     bool
	}{
		{"of it, before", steam.ID, 2 * time.Minute, false}, {"of another, before", scrub.ID, 2 * time.Minute, false}, {"of another, since", scrub.ID, 30 * time.Second, false},
		{"of it, since", steam.ID, 30 * time.Second, true}, {"of it, at the same moment", steam.ID, time.Minute, true},
	} {
		before := *first.Knife
		before.At = at.Add(-time.Minute)
		s := shelf{}
		log := cookOf(t, s, plan, at)
		_, err := s.Write(&before)
		require.NoError(t, err)
		_, err = s.Write(&harvest.Told{Header: harvest.Header{At: at.Add(-c.ago)}, Plan: log.Record.ID, Step: c.step, What: harvest.ToldNotYet})
		require.NoError(t, err)
		heard, err := cookOf(t, s, plan, at).Tell(t.Context(), steam.ID, "not-yet")
		require.NoError(t, err)
		assert.Equal(t, c.written, heard.Knife != nil, c.about)
	}
}

// A knife tells of the first step of a plan as of any other, and of none that is not
// there; where nobody knows which entries stand, all of them are read.
func TestAKnifeInTheFirstStep(t *testing.T) {
	plan := aPlan(t)
	steam := stepOf(t, plan.Steps, schedule.Steam)
	c := follow(t, plan, steam.End())
	c.Plan.Steps = []meal.Step{steam}
	knife, err := c.KnifeTest(said(steam.End(), steam.ID, harvest.ToldDone))
	require.NoError(t, err)
	require.NotNil(t, knife)
	assert.Len(t, c.Events(said(steam.End(), steam.ID, harvest.ToldDone), "k3fqa"), 1, "and its batch begins")
	none, err := c.KnifeTest(said(steam.End(), "s99", harvest.ToldDone))
	require.NoError(t, err)
	assert.Nil(t, none)

	first, second := *knife, *knife
	first.File, second.File, second.Replaces = "journal/2031/first.yaml", "journal/2031/second.yaml", "first.yaml"
	tests, _ := meal.KnifeTests([]harvest.Entry{&first, &second})
	assert.Len(t, tests, 1)
	tests, _ = meal.KnifeTests([]harvest.Entry{&first, &second, odd()})
	assert.Len(t, tests, 2)
}

// Guests go before who eats in a word, which goes before the household; that the word is
// not looked at is told.
func TestGuestsGoBeforeWhoEats(t *testing.T) {
	q := meal.Question{Mode: meal.Share, Remarks: []string{"first"}}
	require.NoError(t, q.Seat(meal.EaterWords{Guests: []string{"2 adults"}, For: "4"}, false))
	require.Len(t, q.Guests, 1)
	require.Equal(t, 2, q.Guests[0].Count)
	require.Equal(t, []string{"first", `Who eats is told twice: the guests count, and not "4".`}, q.Remarks)
	require.Error(t, q.Seat(meal.EaterWords{Guests: []string{"2 adults"}, For: "dragons"}, false))
}
