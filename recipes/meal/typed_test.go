package meal_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/units"
)

func clockOf(now time.Time) units.Clock { return units.Clock{Now: now, Zone: day.Location()} }

// What an evening is given other than the kitchen has: each word goes where it
// belongs and nowhere else, and is refused with its own field.
func TestWhatIsGivenForOneEvening(t *testing.T) {
	const people, canister = "a whole number from 1 to 8", "the gas in a full one, as 100 g"
	for _, c := range []struct {
		given    meal.GivenWords
		want     func(*meal.Question)
		field    string
		accepted string
	}{
		{given: meal.GivenWords{Start: "16:00"}, want: func(q *meal.Question) { q.Start = clockAt(16, 0) }},
		{given: meal.GivenWords{Start: "now"}, want: func(q *meal.Question) { q.Start = clockAt(10, 5) }},
		{given: meal.GivenWords{Start: "in 45 min", Hands: "2"}, want: func(q *meal.Question) { q.Start, q.Kitchen.Hands = clockAt(10, 50), 2 }},
		{given: meal.GivenWords{Gas: "100 g"}, want: func(q *meal.Question) { q.Kitchen.Stove.CanisterG = 100 }},
		{given: meal.GivenWords{Gas: "50 g"}, want: func(q *meal.Question) { q.Kitchen.Stove.CanisterG = 50 }},
		{given: meal.GivenWords{Gas: "20 kg"}, want: func(q *meal.Question) { q.Kitchen.Stove.CanisterG = 20000 }},
		{given: meal.GivenWords{Water: "2 l"}, want: func(q *meal.Question) { q.Kitchen.Water = recipes.Water{Carried: true, CarriedML: 2000} }},
		{given: meal.GivenWords{Water: "tap"}, want: func(q *meal.Question) { q.Kitchen.Water = recipes.Water{} }},
		{given: meal.GivenWords{Start: "soon"}, field: "start"},
		{given: meal.GivenWords{Hands: "9"}, field: "hands", accepted: people},
		{given: meal.GivenWords{Gas: "49.9 g"}, field: "gas", accepted: canister},
		{given: meal.GivenWords{Gas: "20001 g"}, field: "gas", accepted: canister},
		{given: meal.GivenWords{Gas: "100-200 g"}, field: "gas", accepted: canister},
		{given: meal.GivenWords{Gas: "1 l"}, field: "gas", accepted: canister},
		{given: meal.GivenWords{Gas: "some"}, field: "gas"},
		{given: meal.GivenWords{Water: "much"}, field: "water", accepted: "what is carried, as 2 l; or tap"},
		{given: meal.GivenWords{Water: "2 kg"}, field: "water", accepted: "what is carried, as 2 l; or tap"},
		{given: meal.GivenWords{Start: "16:00", Gas: "1 g"}, field: "gas", accepted: canister},
	} {
		had := meal.Question{On: day, Kitchen: recipes.Kitchen{Hands: 1, Water: recipes.Water{Carried: true, CarriedML: 4000}}}
		q := had
		err := q.Give(c.given, clockOf(clockAt(10, 5)))
		if c.field != "" {
			var wrong *units.FieldError
			require.ErrorAs(t, err, &wrong)
			assert.Equal(t, c.field, wrong.Field)
			if c.accepted != "" {
				assert.Equal(t, c.accepted, wrong.Accepted)
			}
			continue
		}
		require.NoError(t, err)
		c.want(&had)
		assert.Equal(t, had, q)
	}
	q := meal.Question{On: day, ServeAt: clockAt(18, 30)}
	requireWrong(t, "start", q.Give(meal.GivenWords{Start: "16:00"}, clockOf(clockAt(10, 5))), "beside a serving time")
	assert.True(t, q.Start.IsZero())
}

// A child eats half a helping (the plan of the sharing problem): two adults and a
// child where the household is four adults eat 2½ helpings of 4.
func TestWordsOfNextSeason(t *testing.T) {
	four, err := recipes.ParseEaters("4")
	require.NoError(t, err)
	potato := harvest.Appetite{Crop: "potato", Times: 3, Weeks: 26, Helpings: 4, Portion: harvest.PortionOf("potato"), Prepared: recipes.OnThePlate("potato", true)}
	forThree, carrots := potato, harvest.Appetite{Crop: "carrot", Times: 1, Weeks: 10, Helpings: 2.5, Portion: harvest.PortionOf("carrot"), Prepared: recipes.OnThePlate("carrot", false)}
	forThree.Helpings = 2.5
	for _, c := range []struct {
		words     meal.NextWords
		household []recipes.Guests
		want      harvest.NextQuestion
		field     string
	}{
		{meal.NextWords{}, nil, harvest.NextQuestion{Year: 2032}, ""},
		{meal.NextWords{Season: 2034}, four, harvest.NextQuestion{Year: 2034}, ""},
		{meal.NextWords{Season: 26}, four, harvest.NextQuestion{}, "season"},
		{meal.NextWords{For: "2 adults, 1 child"}, four, harvest.NextQuestion{Year: 2032, People: 0.625}, ""},
		{meal.NextWords{For: "a crowd"}, four, harvest.NextQuestion{}, "for"},
		{meal.NextWords{For: "2"}, nil, harvest.NextQuestion{}, "for"},
		{meal.NextWords{Eat: []string{"potato, 3 a week, 26 weeks"}}, four, harvest.NextQuestion{Year: 2032, Eat: []harvest.Appetite{potato}}, ""},
		{meal.NextWords{Eat: []string{"potato, 3 a week, 26 weeks", "carrot, 1 a week, 10 weeks"}, For: "2 adults, 1 child"}, nil,
			harvest.NextQuestion{Year: 2032, Eat: []harvest.Appetite{forThree, carrots}}, ""},
		{meal.NextWords{Eat: []string{"potato, 3 a week, 26 weeks"}}, nil, harvest.NextQuestion{}, "eat"},
		{meal.NextWords{Eat: []string{"potatoes now and then"}}, four, harvest.NextQuestion{}, "eat"},
	} {
		got, err := c.words.Read(c.household, 2032)
		if c.field != "" {
			requireWrong(t, c.field, err, "")
			continue
		}
		require.NoError(t, err)
		assert.Equal(t, c.want, got)
	}
}

// Every word of an event goes into the entry; what is wrong is told of its field.
func TestWordsOfAnEvent(t *testing.T) {
	none := func() []recipes.Dish { return nil }
	air := units.MustParse("28 C")
	for _, c := range []struct {
		words meal.EventWords
		want  harvest.BatchEvent
		field string
	}{
		{meal.EventWords{Event: harvest.KindOut, Name: " Salad ", At: "18:00", Until: "19:30", Air: "28 C", Says: "on the grass"},
			harvest.BatchEvent{Event: harvest.KindOut, Name: "Salad", Header: harvest.Header{At: clockAt(18, 0)}, Until: clockAt(19, 30), Air: air, Says: "on the grass"}, ""},
		{meal.EventWords{Event: harvest.KindEaten, Name: "Salad"}, harvest.BatchEvent{Event: harvest.KindEaten, Name: "Salad", Header: harvest.Header{At: clockAt(20, 0)}}, ""},
		{meal.EventWords{Event: harvest.KindEaten, Name: "Salad", Replaces: "journal/2031/e.yaml"},
			harvest.BatchEvent{Event: harvest.KindEaten, Name: "Salad", Header: harvest.Header{Replaces: "journal/2031/e.yaml"}}, ""},
		{meal.EventWords{Event: harvest.KindEaten, Name: "Salad", At: "19:00", Replaces: "journal/2031/e.yaml"},
			harvest.BatchEvent{Event: harvest.KindEaten, Name: "Salad", Header: harvest.Header{At: clockAt(19, 0), Replaces: "journal/2031/e.yaml"}}, ""},
		{meal.EventWords{Event: harvest.KindBinned, Name: "Salad", At: "19:00", Amount: "1.2 kg"},
			harvest.BatchEvent{Event: harvest.KindBinned, Name: "Salad", Header: harvest.Header{At: clockAt(19, 0)}, Amount: units.MustParse("1.2 kg")}, ""},
		{meal.EventWords{Event: harvest.KindCooked, Name: "Salad", At: "19:00", Food: "dressed-salad", Plan: "k3fqa"},
			harvest.BatchEvent{Event: harvest.KindCooked, Name: "Salad", Header: harvest.Header{At: clockAt(19, 0)}, Food: "dressed-salad", Plan: "k3fqa"}, ""},
		{meal.EventWords{Event: harvest.KindEaten, Name: "  "}, harvest.BatchEvent{}, "batch"},
		{meal.EventWords{Event: harvest.KindEaten, Name: "Salad", At: "some time"}, harvest.BatchEvent{}, "at"},
		{meal.EventWords{Event: harvest.KindOut, Name: "Salad", Until: "some time"}, harvest.BatchEvent{}, "until"},
		{meal.EventWords{Event: harvest.KindEaten, Name: "Salad", Amount: "much"}, harvest.BatchEvent{}, "amount"},
		{meal.EventWords{Event: harvest.KindEaten, Name: "Salad", Amount: "0"}, harvest.BatchEvent{}, "amount"},
		{meal.EventWords{Event: harvest.KindEaten, Name: "Salad", Amount: "-1"}, harvest.BatchEvent{}, "amount"},
		{meal.EventWords{Event: harvest.KindEaten, Name: "Salad", Amount: "1-2"}, harvest.BatchEvent{}, "amount"},
		{meal.EventWords{Event: harvest.KindEaten, Name: "Salad", Amount: "to taste"}, harvest.BatchEvent{}, "amount"},
		{meal.EventWords{Event: harvest.KindOut, Name: "Salad", Air: "warm"}, harvest.BatchEvent{}, "air"},
	} {
		got, err := c.words.Read(clockOf(clockAt(20, 0)), units.Metric, none)
		if c.field != "" {
			requireWrong(t, c.field, err, "")
			continue
		}
		require.NoError(t, err)
		if len(got.Also) == 0 {
			got.Also = nil
		}
		assert.Equal(t, c.want, *got)
	}
}

// The batch that is to be thrown out first, then by what keep says, then the one
// cooked first, then by name; and called by the beginning of its name.
func TestTheMostUrgentBatchIsFirst(t *testing.T) {
	kept := func(name string, cooked int, v keeping.Verdict) meal.KeptBatch {
		return meal.KeptBatch{Batch: &harvest.Batch{Name: name, CookedAt: clockAt(cooked, 0)}, Verdict: v}
	}
	now := keeping.Verdict{Kind: keeping.EatBy, Until: clockAt(20, 0)}
	order := []meal.KeptBatch{
		kept("zucchini", 12, keeping.Verdict{Kind: keeping.Discard}), kept("peas", 12, now), kept("beans", 13, now), kept("beetroot", 13, now),
		kept("apples", 9, keeping.Verdict{Kind: keeping.EatBy, Until: clockAt(21, 0)}),
	}
	for i, a := range order {
		for j, b := range order {
			assert.Equal(t, i < j, meal.MoreUrgent(a, b) < 0, "%s before %s", a.Name, b.Name)
			assert.Equal(t, i == j, meal.MoreUrgent(a, b) == 0)
		}
	}
	namesOf := func(batches []meal.KeptBatch) (names []string) {
		for _, b := range batches {
			names = append(names, b.Name)
		}
		return names
	}
	assert.Equal(t, []string{"beans", "beetroot"}, namesOf(meal.Called("Be", order)))
	assert.Equal(t, []string{"peas"}, namesOf(meal.Called("peas", order)))
	assert.Empty(t, meal.Called("soup", order))
}
