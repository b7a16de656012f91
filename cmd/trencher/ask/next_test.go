package ask_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/recipes/meal"
)

// nothingYet is a plot whose journal is empty.
func nothingYet(t *testing.T) ask.PlotRef {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{"kitchen.yaml": "measures: metric\n", "plantings.yaml": "[]\n"} {
		require.NoError(t, os.WriteFile(dir+"/"+name, []byte(text), 0o644))
	}
	return ask.PlotRef{Dir: dir, Now: time.Date(2031, 12, 1, 12, 0, 0, 0, time.UTC)}
}

func planned(t *testing.T, w ask.PlotRef, who, eat string) harvest.NextCrop {
	t.Helper()
	next, err := ask.Next(t.Context(), ask.NextWords{PlotRef: w, NextWords: meal.NextWords{For: who, Eat: []string{eat}}})
	require.NoError(t, err, eat)
	require.Len(t, next.Crops, 1, eat)
	return next.Crops[0]
}

// Two worked examples, reckoned by hand: helpings times portion, over what is
// left after preparing and storing, over the middle (by ratios) of the yields
// that gardens give.
func TestNextWorkedExamples(t *testing.T) {
	w := nothingYet(t)
	potatoes := planned(t, w, "2 adults, 2 children", "late maincrop potato, 3 a week, 26 weeks")
	assert.InDelta(t, 43_500, potatoes.Want.InexactFloat64(), 700, "234 helpings of 175 g steamed, of 0.94 on the plate")
	assert.InDelta(t, 40, potatoes.Plants.Likely, 2, "10 %% lost by half time; 900 to 1700 g a plant")
	assert.LessOrEqual(t, potatoes.Plants.Low, 29.0)
	assert.GreaterOrEqual(t, potatoes.Plants.High, 54.0)
	assert.InDelta(t, 11.1, potatoes.M2, 0.7, "at 37 x 75 cm")
	assert.Equal(t, 40, potatoes.Seed, "a tuber a plant")

	beans := planned(t, w, "2 adults, 2 children", "runner bean, 2 a week, 10 weeks")
	assert.InDelta(t, 5_450, beans.Want.InexactFloat64(), 60, "60 helpings of 80 g, of 0.88 topped and tailed")
	assert.InDelta(t, 7.04, beans.Plants.Likely, 0.1, "500 to 1200 g a plant, middle 775, none of it stored")
	assert.LessOrEqual(t, beans.Plants.Low, 5450.0/1200)
	assert.GreaterOrEqual(t, beans.Plants.High, 5450.0/500)
}

// What extension services and growers tell to plant for a person, fresh, is
// within three times of what ordinary helpings ask for. They say nothing of
// helpings, and differ by five times among themselves; the helpings here are
// common practice, no source: two a week for twelve weeks, but as listed.
func TestNextAgreesWithPublishedAmounts(t *testing.T) {
	file, err := os.Open("../../../testdata/harvest/amounts.csv")
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	w := nothingYet(t)
	helpings := map[string]string{"potato": "3 a week, 26 weeks", "onion": "2 a week, 26 weeks", "tomato": "4 a week, 12 weeks",
		"courgette": "4 a week, 12 weeks", "radish": "1 a week, 5 weeks"}
	for _, row := range rows[1:] {
		often := helpings[row[0]]
		if often == "" {
			often = "2 a week, 12 weeks"
		}
		crop := row[0]
		if crop == "potato" {
			crop = "early maincrop potato"
		}
		c := planned(t, w, row[1]+" adults", fmt.Sprintf("%s, %s", crop, often))
		amount := c.Plants.Likely
		if row[4] == "m of row" {
			amount *= c.Row.Spacing.InRowCM / 100
		}
		low, high := number(t, row[2]), number(t, row[3])
		assert.True(t, low/3 <= amount && amount <= high*3, "%s: %.1f %s, published %s to %s (%s)", row[0], amount, row[4], row[2], row[3], row[5])
	}
	assert.Len(t, rows, 1+20)
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	n, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return n
}

// Who eats next year is not always who ate this year; a crop may be wanted more.
func TestNextForOtherPeople(t *testing.T) {
	w := garden(t)
	_, err := ask.Move(t.Context(), ask.MoveQuestion{PlotRef: w, MoveWords: harvest.MoveWords{To: harvest.KindUse, Lot: "bed-3"}})
	require.NoError(t, err)
	beetroot := func(who string) float64 {
		next, err := ask.Next(t.Context(), ask.NextWords{PlotRef: w, NextWords: meal.NextWords{For: who}})
		require.NoError(t, err)
		for _, c := range next.Crops {
			if c.Crop == "beetroot" {
				return c.Plants.Likely
			}
		}
		return 0
	}
	kitchen, err := os.ReadFile(w.Dir + "/kitchen.yaml")
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(w.Dir+"/kitchen.yaml", append(kitchen, "household: 2 adults\n"...), 0o644))
	assert.InDelta(t, 1.5*beetroot(""), beetroot("2 adults, 2 children"), 1e-6)
	for field, words := range map[string]ask.NextWords{
		"for": {NextWords: meal.NextWords{For: "some people"}}, "eat": {NextWords: meal.NextWords{Eat: []string{"potatoes"}}},
	} {
		words.PlotRef = w
		_, err := ask.Next(t.Context(), words)
		requireField(t, field, err)
	}
	_, err = ask.Next(t.Context(), ask.NextWords{PlotRef: nothingYet(t), NextWords: meal.NextWords{Eat: []string{"potato, 3 a week, 26 weeks"}}})
	requireField(t, "eat", err)
}
