package ask_test

import (
	"context"
	"errors"
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
	"trencher/units"
)

// Every word that can be wrong is told by its own field, whatever is asked (the name
// of a dish by itself), and nothing is written.
func TestEveryWrongWordIsTold(t *testing.T) {
	w := garden(t)
	before := entries(t, w)
	planned := func(words meal.PlanWords) error {
		return second(ask.Share(t.Context(), ask.ShareWords{Plot: w, PlanWords: words}))
	}
	dish := func(words ask.DishWords) error {
		words.Plot, words.Name = w, "spring"
		return second(ask.ScaleDish(words))
	}
	for about, c := range map[string]struct {
		field string
		err   error
	}{
		"a season of stock":          {"season", second(ask.Stock(t.Context(), w, 31))},
		"a season of the tally":      {"season", second(ask.Tally(t.Context(), w, false, 2031, 31))},
		"a season to come":           {"season", second(ask.Next(t.Context(), ask.NextWords{PlotRef: w, NextWords: meal.NextWords{Season: 31}}))},
		"what was felt":              {"felt", second(ask.Ready(t.Context(), ask.ReadyQuestion{PlotRef: w, Felt: []string{"tub-1"}}))},
		"the time of a lift":         {"at", second(ask.Lift(t.Context(), ask.LiftQuestion{PlotRef: w, At: "soon", LiftWords: harvest.LiftWords{Planting: "bed-3", Weighings: []string{"1 kg"}}}))},
		"the weight of a lift":       {"weighing", second(ask.Lift(t.Context(), ask.LiftQuestion{PlotRef: w, LiftWords: harvest.LiftWords{Planting: "bed-3", Weighings: []string{"much"}}}))},
		"a serving time":             {"serve-at", planned(meal.PlanWords{ServeAt: "noonish"})},
		"a start":                    {"start", planned(meal.PlanWords{Given: meal.GivenWords{Start: "noonish"}})},
		"hands":                      {"hands", planned(meal.PlanWords{Given: meal.GivenWords{Hands: "none"}})},
		"the air":                    {"air", planned(meal.PlanWords{Air: "warm"})},
		"who eats":                   {"for", planned(meal.PlanWords{Eaters: meal.EaterWords{For: "some"}})},
		"a limit":                    {"limit", planned(meal.PlanWords{Limits: []string{"butter"}})},
		"what is kept back":          {"keep-back", planned(meal.PlanWords{KeepBack: []string{"potato"}})},
		"a dish to be made":          {"only", planned(meal.PlanWords{Only: []string{"boots"}})},
		"a dish to be left out":      {"without", planned(meal.PlanWords{Without: []string{"boots"}})},
		"a dish of the reckoner":     {"dish", second(ask.Reckoner(t.Context(), w, []string{"boots"}))},
		"a dish's serving time":      {"serve-at", dish(ask.DishWords{ServeAt: "noonish", Portions: 4})},
		"a dish's hands":             {"hands", dish(ask.DishWords{Portions: 4, Given: meal.GivenWords{Hands: "none"}})},
		"a dish's weight":            {"lifted", dish(ask.DishWords{Lifted: []string{"some"}})},
		"the crop in steam":          {"crop", second(ask.Steaming(t.Context(), ask.SteamQuestion{PlotRef: w, Words: heat.Words{Crop: "boots", Cut: "whole"}}))},
		"what the knife found":       {"found", second(ask.Steaming(t.Context(), ask.SteamQuestion{PlotRef: w, Words: heat.Words{Crop: "potato", Cut: "cube 25 mm"}, Found: "soon"}))},
		"when the knife was tried":   {"at", second(ask.Steaming(t.Context(), ask.SteamQuestion{PlotRef: w, Words: heat.Words{Crop: "potato", Cut: "cube 25 mm"}, Found: "9 min tender", At: "soon"}))},
		"when food was cooked":       {"cooked-at", second(ask.KeepVerdict(t.Context(), ask.KeepQuestion{PlotRef: w, Words: keeping.Words{Food: "mash", CookedAt: "soon"}}))},
		"the moment of the batches":  {"now", second(ask.KeepBatches(t.Context(), ask.KeepQuestion{PlotRef: w, At: "soon"}))},
		"whose rules":                {"authority", second(ask.KeepBatches(t.Context(), ask.KeepQuestion{PlotRef: w, Authority: "nobody"}))},
		"a plan that is cooked":      {"as-planned", second(ask.Cook(t.Context(), w, "k3fqa"))},
		"how a recipe is to be read": {"served", second(ask.ImportDish(ask.ImportQuestion{PlotRef: w, File: "a", Text: []byte("Soup\n\n500 g beetroot\n"), ImportWords: recipes.ImportWords{Served: "blue"}}))},
	} {
		var wrong *units.FieldError
		if assert.ErrorAs(t, c.err, &wrong, about) {
			assert.Equal(t, c.field, wrong.Field, "%s: %v", about, c.err)
		}
	}
	assert.Equal(t, before, entries(t, w))
}

// Whoever asks can stop waiting: no question goes on without its context.
func TestQuestionsHeedTheirContext(t *testing.T) {
	w := garden(t)
	stopped, stop := context.WithCancel(t.Context())
	stop()
	for name, err := range map[string]error{
		"share": second(ask.Share(stopped, ask.ShareWords{Plot: w})), "reckoner": second(ask.Reckoner(stopped, w, nil)),
		"steam": second(ask.Steaming(stopped, ask.SteamQuestion{PlotRef: w, Words: heat.Words{Crop: "potato", Cut: "cube 25 mm"}})),
		"tally": second(ask.Tally(stopped, w, true)), "batches": second(ask.KeepBatches(stopped, ask.KeepQuestion{PlotRef: w})),
	} {
		require.ErrorIs(t, err, context.Canceled, name)
	}
}

// A knife test that cannot be read is left out of the answer, and said.
func TestKnifeTestsThatAreLeftOut(t *testing.T) {
	w := garden(t)
	steam := func() ask.SteamAnswer {
		answer, err := ask.Steaming(t.Context(), ask.SteamQuestion{PlotRef: w, Words: heat.Words{Crop: "potato", Cut: "cube 25 mm"}})
		require.NoError(t, err)
		return answer
	}
	assert.Empty(t, steam().Warnings)
	write(t, w.Dir, "journal/2031/0719-1400-steamed.yaml", "kind: steamed\ncrop: potato\ncut: cube 25 mm\nuntil: tender\nminutes: 900\nload: 500 g\nat: 2031-07-19T13:00:00+01:00\n")
	answer := steam()
	require.Len(t, answer.Warnings, 1)
	assert.Contains(t, answer.Warnings[0], "left out ")
	assert.Contains(t, answer.Warnings[0], "0719-1400-steamed.yaml")
	assert.Zero(t, answer.Learned.Tests)
}

// The batches are judged at the moment asked for, the most urgent first, and those of
// later are not told of.
func TestBatchesAtAMoment(t *testing.T) {
	w := garden(t)
	for name, hour := range map[string]string{"Old mash": "08", "Mash": "17", "New mash": "19"} {
		write(t, w.Dir, "journal/2031/0719-"+hour+"00-cooked.yaml", "kind: cooked\nbatch: "+name+"\nfood: mash\nat: 2031-07-19T"+hour+":00:00+01:00\n")
	}
	names := func(q ask.KeepQuestion) (names []string) {
		q.PlotRef = w
		answer, err := ask.KeepBatches(t.Context(), q)
		require.NoError(t, err)
		for _, b := range answer.Batches {
			names = append(names, b.Name)
		}
		return names
	}
	assert.Equal(t, []string{"Old mash", "Mash", "New mash"}, names(ask.KeepQuestion{}))
	assert.Equal(t, []string{"Old mash", "Mash"}, names(ask.KeepQuestion{At: "2031-07-19T18:00"}))
	assert.Equal(t, []string{"Old mash"}, names(ask.KeepQuestion{At: "2031-07-19T09:00"}))
	w.Now = w.Now.Add(48 * time.Hour)
	assert.Equal(t, []string{"Old mash"}, names(ask.KeepQuestion{At: "2031-07-19T09:00"}))
}

// A plan is cooked as it was recorded; what has changed since is told.
func TestAPlanThatHasChanged(t *testing.T) {
	w := garden(t)
	_, err := ask.Share(t.Context(), ask.ShareWords{Plot: w, PlanWords: meal.PlanWords{Only: []string{"spring"}}, Take: true})
	require.NoError(t, err)
	later := w
	later.Now = w.Now.Add(time.Hour)
	log, err := ask.Cook(t.Context(), later, harvest.LastPlan)
	require.NoError(t, err)
	assert.Equal(t, []string{"Spring onion mash"}, recipes.NamesOf([]recipes.Dish{log.Plan.Dishes[0].Recipe}))
	assert.Equal(t, w.Now, log.Plan.ServeAt.Add(-log.Plan.Allow), "from the moment it was made at")
	assert.Equal(t, later.Now, log.Clock.Now)
	write(t, w.Dir, "kitchen.yaml", "measures: metric\nsteamer: {diameter: 180 mm, tiers: 1}\n")
	write(t, w.Dir, "dishes/spring-onion-mash.yaml", "name: Spring onion mash\nportions: 2\nserved: hot\nlargest: 2\ncrops: [{crop: potato, amount: 300 g, prepared: peeled, cut: cube 25 mm, cook: steam, until: soft}]\nmethod: [Steam.]\n")
	_, err = ask.Cook(t.Context(), later, harvest.LastPlan)
	requireField(t, "plan", err)
	write(t, w.Dir, "dishes/spring-onion-mash.yaml", "name: [\n")
	_, err = ask.Cook(t.Context(), later, harvest.LastPlan)
	require.ErrorContains(t, err, "spring-onion-mash.yaml")
	var nothing *meal.NothingMadeError
	require.False(t, errors.As(err, &nothing))
}

// What was said of a dish is told beside it, whatever else in the journal is damaged.
func TestNotesBesideADamagedEntry(t *testing.T) {
	w := garden(t)
	write(t, w.Dir, "journal/2031/0719-1300-note.yaml", "kind: note\ndish: Spring onion mash\nsays: less salt\nat: 2031-07-19T13:00:00+01:00\n")
	notes := func() (says []string) {
		answer, err := ask.ScaleDish(ask.DishWords{Plot: w, Name: "spring", Portions: 4})
		require.NoError(t, err)
		for _, note := range answer.Dishes[0].Notes {
			says = append(says, note.Says)
		}
		return says
	}
	assert.Equal(t, []string{"less salt"}, notes())
	damage(t, w)
	assert.Equal(t, []string{"less salt"}, notes())
}
