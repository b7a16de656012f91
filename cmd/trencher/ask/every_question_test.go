package ask_test

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
)

// A question is one that may be asked of a plot, and what of the plot it rests on.
type question struct {
	name            string
	dishes, journal bool // faults there stop it, as faults of the kitchen stop all
	writes          bool
	of              func(ctx context.Context, w ask.PlotRef) error
}

// questions are all there are; each is answered on the garden.
func questions(t *testing.T) []question {
	table := filepath.Join(t.TempDir(), "t.csv")
	require.NoError(t, os.WriteFile(table, []byte("at,planting,weight\n2031-07-18,bed-3,900 g\n"), 0o600))
	recipe := []byte("Beet soup\n\nServes 4\n\nIngredients\n\n500 g beetroot\n1 tsp salt\n\nMethod\n\n1. Boil the beetroot for 40 minutes.\n")
	steam := heat.Words{Crop: "potato", Cut: "cube 25 mm"}
	lot := "tub-1/2031-0719-1005/20-45-sound"
	return []question{
		{"stock", false, true, false, func(ctx context.Context, w ask.PlotRef) error { return second(ask.Stock(ctx, w)) }},
		{"tally", false, true, false, func(ctx context.Context, w ask.PlotRef) error { return second(ask.Tally(ctx, w, true)) }},
		{"ready", false, true, false, func(ctx context.Context, w ask.PlotRef) error {
			return second(ask.Ready(ctx, ask.ReadyQuestion{PlotRef: w}))
		}},
		{"next", false, true, false, func(ctx context.Context, w ask.PlotRef) error {
			return second(ask.Next(ctx, ask.NextWords{PlotRef: w, NextWords: meal.NextWords{}}))
		}},
		{"share", true, true, false, func(ctx context.Context, w ask.PlotRef) error {
			return second(ask.Share(ctx, ask.ShareWords{Plot: w}))
		}},
		{"table", true, true, false, func(ctx context.Context, w ask.PlotRef) error {
			return second(ask.Table(ctx, ask.ShareWords{Plot: w, PlanWords: meal.PlanWords{Eaters: meal.EaterWords{Guests: []string{"2 adults"}}}}))
		}},
		{"reckoner", true, true, false, func(ctx context.Context, w ask.PlotRef) error {
			return second(ask.Reckoner(ctx, w, []string{"spring"}))
		}},
		{"check", true, true, false, func(ctx context.Context, w ask.PlotRef) error { return second(ask.Check(ctx, w)) }},
		{"one dish", true, false, false, func(_ context.Context, w ask.PlotRef) error {
			return second(ask.ScaleDish(ask.DishWords{Plot: w, Name: "spring"}))
		}},
		{"export a dish", true, false, false, func(_ context.Context, w ask.PlotRef) error { return second(ask.ExportDish(w, []string{"spring"})) }},
		{"foods of a dish", true, false, false, func(_ context.Context, w ask.PlotRef) error {
			return second(ask.KeepDish(ask.KeepQuestion{PlotRef: w}, "spring"))
		}},
		{"names", true, false, false, func(_ context.Context, w ask.PlotRef) error { return second(ask.DishNames(w)) }},
		{"plantings", false, false, false, func(_ context.Context, w ask.PlotRef) error { return second(ask.Plantings(w)) }},
		{"kitchen", false, false, false, func(_ context.Context, w ask.PlotRef) error { return second(ask.Kitchen(w)) }},
		{"import a dish", false, false, false, func(_ context.Context, w ask.PlotRef) error {
			return second(ask.ImportDish(ask.ImportQuestion{PlotRef: w, File: "a", Text: recipe}))
		}},
		{"add a dish", false, false, true, func(_ context.Context, w ask.PlotRef) error {
			return second(ask.AddDish(ask.ImportQuestion{PlotRef: w, File: "a", Text: recipe, ImportWords: recipes.ImportWords{Served: "hot"}}))
		}},
		{"export", false, true, false, func(ctx context.Context, w ask.PlotRef) error { return ask.ExportTable(ctx, &bytes.Buffer{}, w) }},
		{"import", false, true, true, func(ctx context.Context, w ask.PlotRef) error {
			return second(ask.ImportTable(ctx, ask.TableQuestion{PlotRef: w, Table: table}))
		}},
		{"pack", false, false, false, func(ctx context.Context, w ask.PlotRef) error {
			return second(ask.Pack(ctx, &bytes.Buffer{}, w, journal.WholePlot))
		}},
		{"mend", false, false, true, func(ctx context.Context, w ask.PlotRef) error { return second(ask.Mend(ctx, w)) }},
		{"ledger", false, false, true, func(_ context.Context, w ask.PlotRef) error { return second(ask.Ledger(w)) }},
		{"batches", false, true, false, func(ctx context.Context, w ask.PlotRef) error {
			return second(ask.KeepBatches(ctx, ask.KeepQuestion{PlotRef: w}))
		}},
		{"log of batches", false, false, true, func(_ context.Context, w ask.PlotRef) error { return second(ask.BatchLog(w)) }},
		{"verdict", false, false, false, func(ctx context.Context, w ask.PlotRef) error {
			return second(ask.KeepVerdict(ctx, ask.KeepQuestion{PlotRef: w, Words: keeping.Words{Food: "mash", CookedAt: "18:00"}}))
		}},
		{"steam", false, false, false, func(ctx context.Context, w ask.PlotRef) error {
			return second(ask.Steaming(ctx, ask.SteamQuestion{PlotRef: w, Words: steam}))
		}},
		{"boil", false, false, false, func(_ context.Context, w ask.PlotRef) error {
			return second(ask.Boiling(ask.BoilQuestion{PlotRef: w, PotWords: heat.PotWords{Words: steam}}))
		}},
		{"blanch", false, false, false, func(_ context.Context, w ask.PlotRef) error {
			return second(ask.Blanching(ask.BoilQuestion{PlotRef: w, PotWords: heat.PotWords{Words: heat.Words{Crop: "French bean", Cut: "whole"}}}))
		}},
		{"lift", false, false, true, func(ctx context.Context, w ask.PlotRef) error {
			return second(ask.Lift(ctx, ask.LiftQuestion{PlotRef: w, LiftWords: harvest.LiftWords{Planting: "bed-3", Weighings: []string{"1 kg - 0 g"}}}))
		}},
		{"weighed", false, false, false, func(_ context.Context, w ask.PlotRef) error {
			return second(ask.Weighed(ask.LiftQuestion{PlotRef: w, LiftWords: harvest.LiftWords{Weighings: []string{"1 kg"}}}))
		}},
		{"move", false, true, true, func(ctx context.Context, w ask.PlotRef) error {
			return second(ask.Move(ctx, ask.MoveQuestion{PlotRef: w, MoveWords: harvest.MoveWords{To: harvest.KindGive, Lot: lot, Weight: "10 g"}}))
		}},
		{"reweigh", false, true, true, func(ctx context.Context, w ask.PlotRef) error {
			return second(ask.Reweigh(ctx, ask.ReweighQuestion{PlotRef: w, ReweighWords: harvest.ReweighWords{Lot: lot, Weight: "880 g"}}))
		}},
		{"note", false, false, true, func(ctx context.Context, w ask.PlotRef) error {
			return second(ask.WriteNote(ctx, ask.NoteQuestion{PlotRef: w, Dish: "spring", Says: "x"}))
		}},
		{"void", false, true, true, func(ctx context.Context, w ask.PlotRef) error {
			return second(ask.Void(ctx, w, "0719-1035-lift-bed-3", ""))
		}},
		{"plant", false, false, true, func(_ context.Context, w ask.PlotRef) error {
			return second(ask.Plant(ask.PlantQuestion{PlotRef: w, PlantWords: harvest.PlantWords{Called: "bed-7", Crop: "carrot", Bed: "1 m2"}}))
		}},
	}
}

// What a question rests on stops it where that cannot be read, and nothing else
// does; none says something of a plot that it could not read.
func TestWhatEachQuestionRestsOn(t *testing.T) {
	half := garden(t) // of which a dish and an entry cannot be read
	write(t, half.Dir, "dishes/broken.yaml", "name: [\n")
	damage(t, half)
	wrong := garden(t) // of which the kitchen cannot either
	write(t, wrong.Dir, "kitchen.yaml", "measures: furlongs\n")
	write(t, wrong.Dir, "dishes/broken.yaml", "name: [\n")
	damage(t, wrong)
	none := ask.PlotRef{Dir: t.TempDir(), Now: half.Now}
	for _, q := range questions(t) {
		t.Run(q.name, func(t *testing.T) {
			require.ErrorContains(t, q.of(t.Context(), wrong), "kitchen.yaml:1:11")
			err := q.of(t.Context(), half)
			for says, rests := range map[string]bool{"broken.yaml": q.dishes, "0719-1100-lift-bed-3.yaml": q.journal} {
				if rests {
					require.ErrorContains(t, err, says)
				}
			}
			if !q.dishes && !q.journal {
				require.NoError(t, err, "it rests on no dish and no entry")
			}
			later := wrong
			later.On = "soon"
			requireField(t, "on", q.of(t.Context(), later))
			if q.writes {
				require.ErrorIs(t, q.of(t.Context(), ask.PlotRef{Demo: true, Now: later.Now}), ask.ErrReadOnly)
			} else {
				require.NoError(t, q.of(t.Context(), ask.PlotRef{Demo: true, Now: later.Now}))
			}
			require.ErrorIs(t, q.of(t.Context(), none), ask.ErrNoPlot)
		})
	}
}

// What can be written in one way only is told by the box that is wrong.
func TestWrongWordsOfWeighings(t *testing.T) {
	w := garden(t)
	lot := "tub-1/2031-0719-1005/20-45-sound"
	before := entries(t, w)
	for field, q := range map[string]harvest.ReweighWords{
		"lot": {Lot: "bed-9", Weight: "880 g"}, "weight": {Lot: lot, Weight: "2 m"}, "rotten": {Lot: lot, Weight: "880 g", Rotten: "some"},
		"at": {Lot: lot, Weight: "880 g", At: "2031-01-01"},
	} {
		_, err := ask.Reweigh(t.Context(), ask.ReweighQuestion{PlotRef: w, ReweighWords: q})
		requireField(t, field, err)
	}
	_, err := ask.Reweigh(t.Context(), ask.ReweighQuestion{PlotRef: w, ReweighWords: harvest.ReweighWords{Lot: lot, Weight: "880 g", At: "2031-01-01"}})
	assert.ErrorContains(t, err, "2031-01-01", "the error shows what was typed")
	_, err = ask.Plant(ask.PlantQuestion{PlotRef: w, On: "soon"})
	requireField(t, "planted", err)
	assert.Equal(t, before, entries(t, w))
	logged, err := ask.Reweigh(t.Context(), ask.ReweighQuestion{PlotRef: w, ReweighWords: harvest.ReweighWords{Lot: lot, Weight: "880 g"}})
	require.NoError(t, err)
	assert.Equal(t, w.Now, logged.At)
	w.Form = "abcd-efgh"
	planted, err := ask.Plant(ask.PlantQuestion{PlotRef: w, On: "2031-07-01", PlantWords: harvest.PlantWords{Called: "bed-7", Crop: "carrot", Bed: "1 m2"}})
	require.NoError(t, err)
	assert.Equal(t, "2031-07-01", planted.Planted.Format(time.DateOnly))
}

// What leaves a lot for a dish of the plot is written under the dish's own name; for
// any other it stays as typed.
func TestMovesToADish(t *testing.T) {
	w := garden(t)
	for typed, name := range map[string]string{"spring": "Spring onion mash", "Grandmother's pie": "Grandmother's pie"} {
		moved, err := ask.Move(t.Context(), ask.MoveQuestion{PlotRef: w, MoveWords: harvest.MoveWords{To: harvest.KindUse, Lot: "tub-1/2031-0719-1005/20-45-sound", Weight: "10 g", Dish: typed}})
		require.NoError(t, err)
		assert.Equal(t, name, moved.Dish)
	}
	_, err := ask.Move(t.Context(), ask.MoveQuestion{PlotRef: w, MoveWords: harvest.MoveWords{To: harvest.KindUse, Lot: "tub-1/2031-0719-1005/20-45-sound", Weight: "10 g", Dish: "c"}})
	requireField(t, "dish", err)
}

// Who writes, and by which form, stands in the entry.
func TestEntriesAreSigned(t *testing.T) {
	w := garden(t)
	w.Device, w.Form, w.Sure = func() string { return "k3fqab" }, "abcd-efgh", true
	lift := lifted(t, w, harvest.LiftWords{Planting: "bed-3", Weighings: []string{"1 kg"}})
	assert.Equal(t, []string{"k3fqab", "abcd-efgh"}, []string{lift.By, lift.Form})
	assert.Equal(t, w.Now, lift.Logged)
	steamed, err := ask.Steaming(t.Context(), ask.SteamQuestion{PlotRef: w, Words: heat.Words{Crop: "potato", Cut: "cube 25 mm"}, Found: "20 min just-tender", At: "18:00"})
	require.NoError(t, err)
	assert.Equal(t, "k3fqab", steamed.Found.Entry.By)
	assert.Equal(t, 18, steamed.Found.Entry.At.Hour())
	assert.FileExists(t, filepath.Join(w.Dir, steamed.Found.File))
	ledger, err := ask.Ledger(w)
	require.NoError(t, err)
	assert.True(t, ledger.Sure)
}

// Beans are told how long they must boil, however they are asked after, and every
// answer without a kitchen says what stands in for one.
func TestCautionsOfWhatMustBoil(t *testing.T) {
	w := garden(t)
	beans := heat.Words{Crop: "French bean", Cut: "whole", Load: "300 g"}
	boiled, err := ask.Boiling(ask.BoilQuestion{PlotRef: w, PotWords: heat.PotWords{Words: beans}})
	require.NoError(t, err)
	assert.Equal(t, "Boil green beans for at least 30 min, whatever the knife says: less does not make them safe (bean-fresh-strict).", boiled.Cautions[0])
	assert.NotEmpty(t, boiled.Boiled.Estimate.Minutes)
	blanched, err := ask.Blanching(ask.BoilQuestion{PlotRef: w, PotWords: heat.PotWords{Words: beans}})
	require.NoError(t, err)
	assert.Equal(t, "Blanched green beans are not cooked: boil them for at least 30 min before they are eaten (bean-fresh-strict).", blanched.Cautions[0])
	assert.Positive(t, blanched.Minutes)
	assert.NotEmpty(t, blanched.Freezing)
	steamed, err := ask.Steaming(t.Context(), ask.SteamQuestion{PlotRef: w, Words: beans})
	require.NoError(t, err)
	assert.Equal(t, "Steam alone does not make green beans safe: boil them in water for 30 min (bean-fresh-strict).", steamed.Cautions[0])
	potatoes, err := ask.Boiling(ask.BoilQuestion{PlotRef: w, PotWords: heat.PotWords{Words: heat.Words{Crop: "potato", Cut: "cube 25 mm"}}})
	require.NoError(t, err)
	assert.False(t, slices.ContainsFunc(potatoes.Cautions, func(says string) bool { return strings.Contains(says, "bean-fresh") }))
	write(t, w.Dir, "kitchen.yaml", "measures: metric\n")
	bare, err := ask.Boiling(ask.BoilQuestion{PlotRef: w, PotWords: heat.PotWords{Words: heat.Words{Crop: "potato", Cut: "cube 25 mm"}}})
	require.NoError(t, err)
	assert.Equal(t, "assumed: altitude 0 m", bare.Assumed[0], "what kitchen.yaml leaves out")
	without, err := ask.Boiling(ask.BoilQuestion{PlotRef: ask.PlotRef{Now: w.Now}, PotWords: heat.PotWords{Words: beans}})
	require.NoError(t, err)
	assert.Equal(t, "no kitchen: a lidded pot of 3 l, 900 W into the water, sea level", without.Assumed[0])
	for field, words := range map[string]heat.PotWords{"crop": {Words: heat.Words{Crop: "boots"}}, "water": {Words: beans, Water: "3 m"}} {
		requireField(t, field, second(ask.Boiling(ask.BoilQuestion{PlotRef: w, PotWords: words})))
		requireField(t, field, second(ask.Blanching(ask.BoilQuestion{PlotRef: w, PotWords: words})))
	}
}

// A kitchen's own places and height count for what is steamed in it.
func TestTheKitchenOfASteamingQuestion(t *testing.T) {
	w := garden(t)
	words := ask.SteamQuestion{PlotRef: w, Words: heat.Words{Crop: "potato", Cut: "cube 25 mm", Load: "500 g"}}
	low, err := ask.Steaming(t.Context(), words)
	require.NoError(t, err)
	write(t, w.Dir, "kitchen.yaml", "measures: metric\naltitude: 3000 m\nfridge: none\ncold-box: {ice: 2 kg, holds: 5 C}\nroom: 30 C\n")
	high, err := ask.Steaming(t.Context(), words)
	require.NoError(t, err)
	assert.Greater(t, high.Estimate.Minutes, low.Estimate.Minutes, "steam is cooler up there")
	assert.NotEqual(t, low.Assumed, high.Assumed)
	write(t, w.Dir, "kitchen.yaml", "measures: metric\nstove: {power: 200 W}\n")
	_, err = ask.Steaming(t.Context(), words)
	require.ErrorContains(t, err, "kitchen.yaml")
}
