package meal_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/units"
	"trencher/units/measures"
)

// Several batches in one go: each name with its amount behind it.
func TestEachOf(t *testing.T) {
	for _, row := range []struct {
		event, words string // words parted by |
		want, field  string
	}{
		{"cooked", "Spring onion mash", "Spring onion mash=", ""},
		{"cooked", "Mash|600g", "Mash=600g", ""},
		{"cooked", "Mash|600 g,|Potato salad|4", "Mash=600 g Potato salad=4", ""},
		{"cooked", "Mash,|Salad", "Mash= Salad=", ""},
		{"cooked", "Mash|,|Salad|1½ kg", "Mash= Salad=1½ kg", ""},
		{"eaten", "Mash|2|Salad|,", "Mash=2 Salad=", ""},
		{"binned", "Mash|.5 kg", "Mash=.5 kg", ""},
		{"cooked", "3 bean stew", "3 bean stew=", ""}, // no amount: it cannot be read as one
		{"chilled", "Mash|Salad", "Mash= Salad=", ""},
		{"cooked", "600 g|Mash", "", "batch"},
		{"cooked", "Mash|600 g|4", "", "batch"},
		{"chilled", "Mash|600 g", "", "amount"},
		{"reheated", "Mash|2", "", "amount"},
	} {
		events, err := meal.EventWords{Event: row.event, At: "18:00"}.EachOf(strings.Split(row.words, "|"))
		if row.field != "" {
			var wrong *units.FieldError
			require.ErrorAs(t, err, &wrong, row.words)
			assert.Equal(t, row.field, wrong.Field, row.words)
			assert.NotEmpty(t, wrong.Accepted, row.words)
			continue
		}
		require.NoError(t, err, row.words)
		var got []string
		for _, e := range events {
			assert.Equal(t, row.event, e.Event)
			assert.Equal(t, "18:00", e.At)
			got = append(got, e.Name+"="+e.Amount)
		}
		assert.Equal(t, row.want, strings.Join(got, " "))
	}
	for _, q := range []meal.EventWords{{Amount: "4"}, {Food: "mash"}, {Dish: "Mash"}} {
		q.Event = harvest.KindCooked
		_, err := q.EachOf([]string{"Mash", "Salad"})
		require.ErrorContains(t, err, "several batches", "what is said once is of one batch")
	}
	_, err := meal.EventWords{Event: harvest.KindCooked, Amount: "4"}.EachOf([]string{"Mash", "4"})
	require.ErrorContains(t, err, "said twice")
}

// A cooked dish goes by a beginning of its name, and the batch by all of it; of
// several candidates none is taken. What is told with its food is taken by its
// whole name alone, so that "Crushed" may be a batch of its own.
func TestWhichDishWasCooked(t *testing.T) {
	dishes := []recipes.Dish{loadDish(t, "crushed.yaml", crushed), loadDish(t, "salad.yaml", salad)}
	other := loadDish(t, "other.yaml", strings.Replace(crushed, "name: ", "name: Another ", 1))
	name, begin := dishes[0].Name, strings.ToLower(dishes[0].Name[:5])
	for _, row := range []struct {
		words              meal.EventWords
		batch, dish, field string
	}{
		{meal.EventWords{Name: begin}, name, name, ""},
		{meal.EventWords{Name: strings.ToUpper(name)}, strings.ToUpper(name), name, ""}, // the whole name, as it was said
		{meal.EventWords{Name: "salad"}, dishes[1].Name, dishes[1].Name, ""},            // its file's name
		{meal.EventWords{Name: begin, Food: "mash"}, begin, "", ""},
		{meal.EventWords{Name: name, Food: "mash"}, name, name, ""},
		{meal.EventWords{Name: "Sunday's", Dish: begin}, "Sunday's", name, ""},
		{meal.EventWords{Name: "Sunday's", Dish: "nothing"}, "", "", "dish"},
		{meal.EventWords{Name: "s", Dish: ""}, dishes[1].Name, dishes[1].Name, ""},
		{meal.EventWords{Name: "nothing"}, "", "", "food"},
		{meal.EventWords{Name: "another"}, other.Name, other.Name, ""},
	} {
		row.words.Event = harvest.KindCooked
		event, err := row.words.Read(units.Clock{Now: clockAt(18, 0), Zone: day.Location()}, units.Metric, func() []recipes.Dish { return append(dishes, other) })
		if row.field != "" {
			var wrong *units.FieldError
			require.ErrorAs(t, err, &wrong)
			assert.Equal(t, row.field, wrong.Field)
			continue
		}
		require.NoError(t, err, row.words.Name)
		assert.Equal(t, row.batch, event.Name, row.words.Name)
		assert.Equal(t, row.dish, event.Dish, row.words.Name)
	}
	twins := []recipes.Dish{dishes[0], loadDish(t, "c2.yaml", strings.Replace(crushed, name, name+" and more", 1))}
	_, err := meal.EventWords{Event: harvest.KindCooked, Name: begin}.Read(units.Clock{Now: clockAt(18, 0), Zone: day.Location()}, units.Metric, func() []recipes.Dish { return twins })
	require.ErrorContains(t, err, "may be several dishes")
}

// The batches of a plan are its dishes at their portions, less those logged
// already.
func TestBatchesOfAPlan(t *testing.T) {
	dishes := []recipes.Dish{loadDish(t, "crushed.yaml", crushed), loadDish(t, "salad.yaml", salad)}
	plan := &harvest.Planned{ID: "k3fqa", Makes: []harvest.Making{{Dish: dishes[1].Name, Portions: 4}, {Dish: dishes[0].Name, Portions: 2}}}
	words, err := meal.BatchesOf(plan, nil, dishes, "18:00")
	require.NoError(t, err)
	require.Len(t, words, 2)
	assert.Equal(t, meal.EventWords{Event: harvest.KindCooked, Name: dishes[1].Name, Dish: dishes[1].Name, Plan: "k3fqa", Amount: "4", At: "18:00"}, words[0])
	logged := []harvest.Entry{
		&harvest.BatchEvent{Event: harvest.KindCooked, Name: dishes[1].Name, Dish: dishes[1].Name, Plan: "k3fqa"},
		&harvest.BatchEvent{Event: harvest.KindCooked, Name: dishes[0].Name, Dish: dishes[0].Name, Plan: "other"},
	}
	words, err = meal.BatchesOf(plan, logged, dishes, "")
	require.NoError(t, err)
	require.Len(t, words, 1)
	assert.Equal(t, dishes[0].Name, words[0].Name)
	logged[1].(*harvest.BatchEvent).Plan = "k3fqa"
	_, err = meal.BatchesOf(plan, logged, dishes, "")
	require.ErrorContains(t, err, "logged as cooked already")
	_, err = meal.BatchesOf(plan, nil, dishes[:1], "")
	require.ErrorContains(t, err, "no dish of this plot any more")
}

// A batch is called by its name: one that no lid has room for is refused when it
// is made. An older one can still be eaten.
func TestBatchNamesAreShort(t *testing.T) {
	clock := units.Clock{Now: time.Date(2031, 7, 12, 18, 0, 0, 0, time.UTC), Zone: time.UTC}
	none := func() []recipes.Dish { return nil }
	for letters, fits := range map[int]bool{1: true, 120: true, 121: false, 300: false} {
		name := strings.Repeat("é", letters)
		_, err := meal.EventWords{Event: harvest.KindCooked, Name: name, Food: "mash", At: "18:00"}.Read(clock, units.Metric, none)
		if fits {
			require.NoError(t, err, letters)
		} else {
			require.ErrorContains(t, err, "too long for a name", letters)
		}
		_, err = meal.EventWords{Event: harvest.KindEaten, Name: name, At: "18:00"}.Read(clock, units.Metric, none)
		require.NoError(t, err, letters)
	}
}

// Whatever word `keep` takes for a food, `cooked` takes too, and the batch it logs is
// judged as `keep` judges the same history: every food that can be a batch, every
// crop, a dish by what is in it, several joined, and what no rule knows. Words that
// keep refuses are refused here.
func TestABatchMayBeAnyFoodThatKeepTakes(t *testing.T) {
	words := []string{"rice salad", "tuna salad", "boiled-potatoes + pesto", "leeks + home-made mayonnaise", "eel pie", "elvers", "bottled tomatoes", "Boiled Potatoes", "anything else"}
	words = append(words, keeping.BatchFoods()...)
	for _, crop := range measures.Crops() {
		words = append(words, crop.Name)
	}
	clock := units.Clock{Now: clockAt(20, 0), Zone: day.Location()}
	for _, word := range words {
		event, err := meal.EventWords{Event: harvest.KindCooked, Name: word, At: "12:00", Food: word}.Read(clock, units.Metric, func() []recipes.Dish { return nil })
		require.NoError(t, err, word)
		asked, err := keeping.Words{Food: word, CookedAt: "12:00"}.Batch(clock, keeping.Temperature{})
		require.NoError(t, err, word)
		logged := meal.Judge{Authority: keeping.Strictest, Moment: clock.Now}.Kept(&harvest.Batch{Name: event.Name, Food: event.Food, Also: event.Also, CookedAt: event.At}).Verdict
		want, err := keeping.Judge(asked, keeping.Strictest, clock.Now)
		require.NoError(t, err, word)
		assert.Equal(t, want.Head, logged.Head, word)
		assert.Equal(t, want.Rules(), logged.Rules(), word)
		assert.Equal(t, want.Says(), logged.Says(), word)
	}
	for _, word := range []string{"boild potatoes", "hummous"} {
		_, err := meal.EventWords{Event: harvest.KindCooked, Name: "x", Food: word}.Read(clock, units.Metric, func() []recipes.Dish { return nil })
		require.ErrorContains(t, err, "not a food the rules know", word)
	}
}

// The food that is given is added to what the words of the dish find, and never
// makes the batch milder.
func TestTheFoodGivenAndTheDishOfABatch(t *testing.T) {
	dish := loadDish(t, "d.yaml", eggSalad)
	event, err := meal.EventWords{Event: harvest.KindCooked, Name: dish.Name, Food: "boiled-potatoes"}.Read(units.Clock{Now: clockAt(18, 0), Zone: day.Location()},
		units.Metric, func() []recipes.Dish { return []recipes.Dish{dish} })
	require.NoError(t, err)
	assert.Equal(t, "boiled-potatoes", event.Food)
	assert.Contains(t, event.Also, "dressed-salad-raw-egg")
	assert.NotContains(t, event.Also, "boiled-potatoes")
}
