package ask_test

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/units/measures"
)

// A pint of the United States is 16 of its fluid ounces, one of the United
// Kingdom 20 of its own (NIST Handbook 44, appendix C; Units of Measurement
// Regulations 1995).
func TestConvertByTheSystemAskedFor(t *testing.T) {
	pint := measures.Question{Words: []string{"1 pint", "ml"}}
	for system, want := range map[string]string{"us": "473.176473", "uk": "568.26125"} {
		answer, err := ask.Convert(ask.ConvertQuestion{PlotRef: ask.PlotRef{Demo: true}, Question: pint, Measures: system})
		require.NoError(t, err)
		assert.Equal(t, want+" ml", answer.Given.String())
	}
	_, err := ask.Convert(ask.ConvertQuestion{Question: pint, Measures: "furlongs"})
	requireField(t, "measures", err)
	kitchen, err := ask.Kitchen(ask.PlotRef{})
	require.NoError(t, err, "no folder is named and none is here: a metric kitchen stands in")
	assert.NotEmpty(t, kitchen.Table.Ingredients())
}

func TestDishesOutAndIn(t *testing.T) {
	w := garden(t)
	names, err := ask.DishNames(w)
	require.NoError(t, err)
	assert.Len(t, names, 5)
	data, err := ask.ExportDish(w, []string{"spring", "onion", "mash"})
	require.NoError(t, err)
	_, err = ask.ExportDish(w, []string{"nothing"})
	require.ErrorContains(t, err, "nothing")
	path := filepath.Join(t.TempDir(), "mash.json")
	require.NoError(t, os.WriteFile(path, data, 0o600))
	dish, err := ask.ImportDish(ask.ImportQuestion{PlotRef: w, File: path})
	require.NoError(t, err)
	assert.Equal(t, "Spring onion mash", dish.Name)
	assert.Equal(t, 4, dish.Portions)
	assert.NotEmpty(t, dish.Reasons())
	for field, q := range map[string]ask.ImportQuestion{
		"measures": {File: path, Measures: "furlongs"},
		"portions": {File: path, ImportWords: recipes.ImportWords{Portions: -1}},
		"amount":   {File: path, ImportWords: recipes.ImportWords{Amounts: []string{"potatoes"}}},
	} {
		q.PlotRef = w
		_, err := ask.ImportDish(q)
		requireField(t, field, err)
	}
	_, err = ask.ImportDish(ask.ImportQuestion{PlotRef: w, File: path + ".not"})
	require.ErrorContains(t, err, "mash.json.not")
}

func TestOneDish(t *testing.T) {
	w := garden(t)
	plan, err := ask.ScaleDish(ask.DishWords{Plot: w, Name: "spring", Lifted: []string{"1.85 kg"}, ServeAt: "18:30"})
	require.NoError(t, err)
	require.Len(t, plan.Dishes, 1)
	for field, q := range map[string]ask.DishWords{
		"lifted":   {Lifted: []string{"some"}},
		"portions": {Portions: -1},
		"serve-at": {ServeAt: "half past"},
	} {
		q.Plot, q.Name = w, "spring"
		_, err := ask.ScaleDish(q)
		requireField(t, field, err)
	}
	_, err = ask.ScaleDish(ask.DishWords{Plot: w, Name: "nothing"})
	require.ErrorContains(t, err, "nothing")
	write(t, w.Dir, "dishes/broken.yaml", "name: [\n")
	_, err = ask.ScaleDish(ask.DishWords{Plot: w, Name: "spring"})
	require.ErrorContains(t, err, "broken.yaml")
	_, err = ask.ExportDish(w, []string{"spring"})
	require.ErrorContains(t, err, "broken.yaml")
}

// What a plan uses leaves the stock when it is taken.
func TestTakingAPlan(t *testing.T) {
	w := garden(t)
	before := entries(t, w)
	plan, err := ask.Share(t.Context(), ask.ShareWords{Plot: w, Take: true, PlanWords: meal.PlanWords{Only: []string{"spring"}}})
	require.NoError(t, err)
	require.NotEmpty(t, plan.Record.File)
	assert.Equal(t, before+1, entries(t, w), "one entry for the whole plan")
	assert.Equal(t, meal.Uses(plan.Plan), plan.Record.Uses)
	w.On = "2031-07-19"
	again, err := ask.Share(t.Context(), ask.ShareWords{Plot: w, Take: true, PlanWords: meal.PlanWords{Without: []string{"spring"}}})
	require.NoError(t, err)
	assert.NotEmpty(t, again.Record.File)
}

func TestWrongWordsOfAMeal(t *testing.T) {
	w := garden(t)
	for field, words := range map[string]meal.PlanWords{
		"only":      {Only: []string{"spring", "spring"}},
		"without":   {Only: []string{"spring"}, Without: []string{"spring"}},
		"serve-at":  {ServeAt: "25:00"},
		"air":       {Air: "90 C"},
		"limit":     {Limits: []string{"butter"}},
		"keep-back": {KeepBack: []string{"potato"}},
	} {
		_, err := ask.Share(t.Context(), ask.ShareWords{Plot: w, PlanWords: words})
		requireField(t, field, err)
	}
	for field, words := range map[string]meal.PlanWords{
		"guests": {},
		"for":    {Eaters: meal.EaterWords{For: "some"}},
		"sides":  {Eaters: meal.EaterWords{Guests: []string{"2 adults"}, Sides: "0"}},
		"dishes": {Eaters: meal.EaterWords{For: "2", Dishes: "0"}},
		"rounds": {Eaters: meal.EaterWords{For: "2", Rounds: "one"}},
		"layers": {Eaters: meal.EaterWords{For: "2", Layers: "-1"}},
	} {
		_, err := ask.Table(t.Context(), ask.ShareWords{Plot: w, PlanWords: words})
		requireField(t, field, err)
	}
	w.On = "2031-05-01"
	_, err := ask.Share(t.Context(), ask.ShareWords{Plot: w})
	require.ErrorIs(t, err, ask.ErrNothingOnHand)
}

// A batch's life in the journal ends in a verdict, and in nothing when it is gone.
func TestABatchInTheJournal(t *testing.T) {
	w := garden(t)
	log := func(words meal.EventWords) meal.LoggedEvent {
		t.Helper()
		answers, err := logged(t.Context(), w, words)
		require.NoError(t, err)
		return answers[0]
	}
	cooked := log(meal.EventWords{Event: harvest.KindCooked, Name: "Spring onion mash", At: "18:00", Amount: "6"})
	require.NotNil(t, cooked.Batch)
	assert.Equal(t, "mash", cooked.Batch.Food, "the dish of that name tells what it is")
	assert.Greater(t, len(meal.LoggedEvents{cooked}.Reasons()), 1)
	log(meal.EventWords{Event: harvest.KindChilled, Name: "Spring onion mash", At: "18:30"})
	log(meal.EventWords{Event: harvest.KindOut, Name: "Spring onion mash", At: "19:00", Until: "19:20", Air: "22 C"})
	kept, err := ask.KeepBatches(t.Context(), ask.KeepQuestion{PlotRef: w, At: "2031-07-19T20:00"})
	require.NoError(t, err)
	require.Len(t, kept.Batches, 1)
	assert.NotEqual(t, keeping.Discard, kept.Batches[0].Verdict.Kind)
	late, err := ask.KeepBatches(t.Context(), ask.KeepQuestion{PlotRef: w, At: "2031-07-27T20:00"})
	require.NoError(t, err)
	assert.Equal(t, keeping.Discard, late.Batches[0].Verdict.Kind, "eight days")
	gone := log(meal.EventWords{Event: harvest.KindBinned, Name: "Spring onion mash"})
	assert.Nil(t, gone.Batch)
	assert.Len(t, meal.LoggedEvents{gone}.Reasons(), 1)
}

func TestWrongWordsOfABatch(t *testing.T) {
	w := garden(t)
	before := entries(t, w)
	for field, words := range map[string]meal.EventWords{
		"batch":  {Event: harvest.KindCooked},
		"at":     {Event: harvest.KindCooked, Name: "x", Food: "mash", At: "soon"},
		"until":  {Event: harvest.KindOut, Name: "x", Until: "soon"},
		"amount": {Event: harvest.KindCooked, Name: "x", Food: "mash", Amount: "much"},
		"air":    {Event: harvest.KindOut, Name: "x", Air: "3 kg"},
		"food":   {Event: harvest.KindCooked, Name: "x"},
	} {
		_, err := logged(t.Context(), w, words)
		requireField(t, field, err)
	}
	_, err := logged(t.Context(), w, meal.EventWords{Event: harvest.KindEaten, Name: "x"})
	require.Error(t, err, "it was never cooked")
	assert.Equal(t, before, entries(t, w))
}

// The kitchen's fridge and authority count where a question gives none.
func TestKeepingWords(t *testing.T) {
	w := garden(t)
	q := ask.KeepQuestion{PlotRef: w, Words: keeping.Words{Food: "mash", CookedAt: "18:00", ChilledAt: "18:30"}}
	verdict, err := ask.KeepVerdict(t.Context(), q)
	require.NoError(t, err)
	assert.Equal(t, keeping.Strictest, verdict.Authority)
	guide, err := ask.KeepGuide(t.Context(), q)
	require.NoError(t, err)
	assert.NotEmpty(t, guide.Short)
	q.Authority = "uk"
	verdict, err = ask.KeepVerdict(t.Context(), q)
	require.NoError(t, err)
	assert.Equal(t, keeping.Authority("uk"), verdict.Authority)
	for field, change := range map[string]func(*ask.KeepQuestion){
		"now":       func(q *ask.KeepQuestion) { q.At = "soon" },
		"authority": func(q *ask.KeepQuestion) { q.Authority = "nobody" },
		"eater":     func(q *ask.KeepQuestion) { q.Eater = "cat" },
		"fridge":    func(q *ask.KeepQuestion) { q.Fridge = "cold" },
	} {
		wrong := q
		change(&wrong)
		_, err := ask.KeepGuide(t.Context(), wrong)
		requireField(t, field, err)
		_, err = ask.KeepBatches(t.Context(), wrong)
		requireField(t, field, err)
	}
	q.Food = "mahs" // a slip of the pen; a food no table knows falls under the strictest limits
	_, err = ask.KeepGuide(t.Context(), q)
	requireField(t, "food", err)
	q.Food, q.CookedAt = "mash", "soon"
	_, err = ask.KeepVerdict(t.Context(), q)
	requireField(t, "cooked-at", err)
	write(t, w.Dir, "kitchen.yaml", "measures: furlongs\n")
	_, err = ask.KeepVerdict(t.Context(), q)
	require.ErrorContains(t, err, "kitchen.yaml")
}

// A knife test written down moves the next answer; without a plot there is
// nowhere to write it.
func TestSteamingAndTheKnife(t *testing.T) {
	w := garden(t)
	q := ask.SteamQuestion{PlotRef: w, Words: heat.Words{Crop: "potato", Cut: "cube 25 mm", Load: "500 g"}}
	before, err := ask.Steaming(t.Context(), q)
	require.NoError(t, err)
	q.Found = "20 min just-tender"
	after, err := ask.Steaming(t.Context(), q)
	require.NoError(t, err)
	require.NotNil(t, after.Found)
	assert.Greater(t, after.Estimate.Minutes, before.Estimate.Minutes, "it was far slower than reckoned")
	write(t, w.Dir, "journal/2031/0719-1900-steamed-potato.yaml", "kind: steamed\n")
	q.Found = ""
	skipped, err := ask.Steaming(t.Context(), q)
	require.NoError(t, err)
	assert.Len(t, skipped.Warnings, 1, "what cannot be read is named and left out")

	q.Found, q.PlotRef = "20 min just-tender", ask.PlotRef{Demo: true}
	_, err = ask.Steaming(t.Context(), q)
	require.ErrorIs(t, err, ask.ErrReadOnly)
	q.PlotRef = ask.PlotRef{Now: time.Date(2031, 7, 19, 20, 0, 0, 0, time.UTC)}
	_, err = ask.Steaming(t.Context(), q)
	require.ErrorIs(t, err, ask.ErrNoPlot)
	q.Found = ""
	without, err := ask.Steaming(t.Context(), q)
	require.NoError(t, err)
	assert.Len(t, without.Assumed, 1, "what stands in for a kitchen is said")
}

// A wrong field's error shows what was typed, not what it was read as.
func TestWrongWordsOfSteaming(t *testing.T) {
	w := garden(t)
	for field, q := range map[string]ask.SteamQuestion{
		"crop":     {Words: heat.Words{Crop: "boots"}},
		"cut":      {Words: heat.Words{Crop: "potato", Cut: "star 9"}},
		"until":    {Words: heat.Words{Crop: "potato", Cut: "cube 25 mm", Until: "raw"}},
		"start":    {Words: heat.Words{Crop: "potato", Cut: "cube 25 mm", Start: "300 C"}},
		"altitude": {Words: heat.Words{Crop: "potato", Cut: "cube 25 mm", Altitude: "90 km"}},
		"load":     {Words: heat.Words{Crop: "potato", Cut: "cube 25 mm", Load: "3 m"}},
		"found":    {Words: heat.Words{Crop: "potato", Cut: "cube 25 mm"}, Found: "soon"},
		"at":       {Words: heat.Words{Crop: "potato", Cut: "cube 25 mm"}, Found: "9 min tender", At: "soon"},
	} {
		q.PlotRef = w
		_, err := ask.Steaming(t.Context(), q)
		requireField(t, field, err)
	}
	_, err := ask.Steaming(t.Context(), ask.SteamQuestion{PlotRef: w, Words: heat.Words{Crop: "potato", Cut: "cube 25 mm", Start: "300 C"}})
	require.ErrorContains(t, err, "300 C")
}

// logged writes events of batches to a plot.
func logged(ctx context.Context, w ask.PlotRef, words ...meal.EventWords) (meal.LoggedEvents, error) {
	log, err := ask.BatchLog(w)
	if err != nil {
		return nil, err
	}
	return log.Write(ctx, words...)
}
