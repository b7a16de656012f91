package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// converting runs one convert command in an empty folder.
func converting(t *testing.T, args ...string) (status int, out, errs string) {
	t.Helper()
	t.Chdir(t.TempDir())
	var o, e bytes.Buffer
	env := &environment{in: strings.NewReader(""), out: &o, err: &e,
		now: func() time.Time { return time.Date(2031, 7, 12, 9, 0, 0, 0, time.UTC) }}
	status = run(context.Background(), env, append([]string{"convert"}, args...))
	return status, o.String(), e.String()
}

// A box of old recipe cards in a British kitchen: each line is answered by
// the legal size of its measure (Weights and Measures Acts 1878 and 1985), or
// refused in words a cook understands.
func TestOldCardsInABritishKitchen(t *testing.T) {
	for _, card := range []struct{ amount, unit, says string }{
		{"1 gill", "ml", "1 gill = 142.0653125 ml"},
		{"1 noggin", "ml", "1 gill = 142.0653125 ml"},
		{"1 pt.", "ml", "1 pt = 568.26125 ml"},
		{"⅛ pt.", "ml", "0.125 pt = 71.03265625 ml"},
		{"3 qts.", "l", "3 qt = 3.4095675 l"},
		{"half a gallon", "l", "0.5 gal = 2.273045 l"},
		{"2 fl. oz.", "ml", "2 fl oz = 56.826125 ml"},
		{"1 fl. dr.", "ml", "1 fl dr = 3.5516328125 ml"},
		{"20 minims", "ml", "20 minims = 1.183878 ml, rounded"},
		{"1 pottle of strawberries", "l", "1 pottle = 2.273045 l"},
		{"1 peck of peas", "l", "1 peck = 9.09218 l"},
		{"1 bushel", "l", "1 bu = 36.36872 l"},
		{"1 coomb", "l", "1 coomb = 145.47488 l"},
		{"1 teacup", "ml", "1 teacup = about 189 ml"},
		{"1 breakfast cup", "ml", "1 breakfast cup = 284.130625 ml"},
		{"a tumblerful", "ml", "1 tumbler = about 284 ml"},
		{"1 wineglass", "ml", "1 wineglass = about 56.8 ml"},
		{"1 dsp.", "ml", "1 dsp = 10 ml"},
		{"2 tblsps.", "ml", "2 tbsp = 30 ml"},
		{"1 tbsp old British", "ml", "1 tbsp old British = 17.7581640625 ml"},
		{"1 tsp. (level)", "ml", "1 tsp = 5 ml"},
		{"1 T", "ml", "1 tbsp = 15 ml"},
		{"2 saltspoons", "ml", "2 saltspoons = about 2.46 ml"},
		{"1 lb 6 oz", "g", "1.375 lb = 623.68950875 g"},
		{"¼ lb.", "g", "0.25 lb = 113.3980925 g"},
		{"½ stone of potatoes", "kg", "0.5 st = 3.17514659 kg"},
		{"2 cwt", "kg", "2 cwt = 101.60469088 kg"},
		{"1 qr", "kg", "1 qr = 12.70058636 kg"},
		{"1 ton", "kg", "1 ton = 1016.0469088 kg"},
		{"3 grains", "g", "3 grains = 0.19439673 g"},
		{"1 scruple", "g", "1 scruple = 1.2959782 g"},
		{"1 oz. of yeast", "g", "1 oz = 28.349523125 g"},
		{"a knob of butter", "g", "1 knob = about 15 g"},
		{"a pat of butter", "g", "1 pat of butter = about 5 g"},
		{"a dozen eggs", "g", "1 dozen of eggs = about 612 g"},
		{"a brace", "piece", "1 brace = 2"},
		{"a score", "piece", "1 score = 20"},
		{"a sprig of thyme", "g", "1 sprig of thyme = about 0.8 g"},
		{"1 bunch of spring onions", "g", "1 bunch of spring onions = about 100 g"},
		{"2 rashers of streaky bacon", "g", "2 rashers of streaky bacon = about 36 g"},
		{"1 clove garlic", "g", "1 clove of garlic = about 3 g"},
		{"Regulo 4", "C", "gas mark 4 = 176.7 C, rounded"},
		{"gas mark ¼", "F", "gas mark ¼ = 225 F"},
		{"350 °F", "C", "350 F = 176.7 C, rounded"},
		{"200 C", "gas mark", "200 C = gas mark 6"},
		{"10 rods", "m2", "10 rods = 252.9285264 m2"},
		{"1 perch", "m2", "1 rod = 25.29285264 m2"},
		{"1 rood", "m2", "1 rood = 1011.7141056 m2"},
		{"4 sq. yds.", "m2", "4 sq yd = 3.34450944 m2"},
		{"1 chain", "m", "1 ch = 20.1168 m"},
	} {
		t.Run(card.amount, func(t *testing.T) {
			status, out, errs := converting(t, card.amount, card.unit, "--measures", "uk")
			require.Equal(t, statusDone, status, errs)
			first, _, _ := strings.Cut(out, "\n")
			assert.Equal(t, card.says, first)
			for line := range strings.Lines(out) {
				assert.LessOrEqual(t, len([]rune(strings.TrimSpace(line))), 80)
			}
		})
	}
}

func TestOldCardsThatCannotBeAnswered(t *testing.T) {
	for _, card := range []struct{ amount, unit, says string }{
		{"1 heaped", "ml", "heaped what? write a heaped teaspoon, dessertspoon, tablespoon or cup"},
		{"1 spoonful", "ml", "say which spoon: tsp, dsp or tbsp"},
		{"1 drachm", "g", "a drachm is the apothecaries' (3.89 g), the avoirdupois dram (1.77 g) or the fluid drachm (3.55 ml): write one of them in full"},
		{"1 quartern", "g", "a quartern is a gill of liquid, 3½ lb of flour or a 4 lb loaf: write gills, pounds or ounces"},
		{"1 gr", "g", "gr is a grain in Britain and a gram elsewhere: write grain or g"},
		{"1 tin of ginger", "g", "no row says what a tin of ginger weighs"},
		{"1 firkin of butter", "g", "a cask's size hangs on what was in it: write gallons UK or litres"},
		{"1 mutchkin", "ml", "an old Scots measure whose size changed by place and good: write millilitres or pints UK"},
		{"a lump of sugar", "g", "a lump has no size: write grams, or a knob (15 g of butter, common practice)"},
		{"a little milk", "ml", "too vague to convert: a pinch is 1/16 tsp (common practice); or write to taste"},
		{"a slow oven", "C", "an oven in words has no exact heat; common practice: slow 150 C, moderate 180 C, hot 220 C"},
		{"blood heat", "C", "heat in words has no exact figure; common practice: blood heat and lukewarm 37 C, hand hot 45 C"},
		{"1 cup", "ml", "there is no standard UK cup: old books mean half a pint (breakfast cup, 284 ml) or a teacup (189 or 142 ml)"},
		{"2,000 lb", "kg", "a comma before three digits may be a thousand or a decimal"},
		{"1 oz. moonrock", "g", "write the unit alone: oz"},
		{"butter the size of an egg", "g", `"butter the size of an egg": it does not begin with a number`},
		{"2 tbsp", "g", "--of: not named, and 2 tbsp metric is a volume, not a mass\nhint: write the ingredient, such as butter"},
		{"6d worth of suet", "g", "a price is no amount: write grams or ounces"},
		{"1 jack", "ml", `unknown unit "jack"`},
		{"to taste", "g", "no amount to convert"},
		{"1 head of garlic", "g", "on file: 1 cup US, 1 tsp US, 1 clove, 1 bulb"},
		{"30 C", "gas mark", "a gas oven's marks run from 1/4 (107 C) to 10 (260 C)"},
	} {
		t.Run(card.amount, func(t *testing.T) {
			status, out, errs := converting(t, card.amount, card.unit, "--measures", "uk")
			assert.Equal(t, statusInput, status)
			assert.Empty(t, out)
			assert.Contains(t, errs, card.says)
		})
	}
}

// Cards from an American box, by NIST Handbook 44 and the USDA's weights.
func TestAmericanCards(t *testing.T) {
	for _, card := range []struct{ amount, unit, says string }{
		{"1 c. flour", "g", "1 cup of flour = about 125 g"},
		{"2 c. onions", "g", "2 cups of onions = about 320 g"},
		{"1 T. olive oil", "g", "1 tbsp of olive oil = about 13.5 g"},
		{"1 stick butter", "g", "1 stick butter = 113.3980925 g"},
		{"1 qt.", "ml", "1 qt = 946.352946 ml"},
		{"1 dry pt", "ml", "1 pt US dry = 550.6104713575 ml"},
		{"1/3 cup", "ml", "1/3 cup = 78.8627455 ml"},
		{"1 bu.", "l", "1 bu = 35.23907016688 l"},
		{"3 eggs", "g", "3 eggs = about 150 g"},
	} {
		status, out, errs := converting(t, card.amount, card.unit, "--measures", "us")
		require.Equal(t, statusDone, status, errs)
		first, _, _ := strings.Cut(out, "\n")
		assert.Equal(t, card.says, first)
	}
}

// What scripts rely on, field by field.
func TestConvertJSON(t *testing.T) {
	for _, row := range []struct {
		args []string
		json string
	}{
		{[]string{"1½ UK pint", "ml"}, `{"value":"852.391875","unit":"mL","exact":true,"kitchen":"850 ml"}`},
		{[]string{"100 g", "oz"}, `{"value":"3.527396194958041","unit":"[oz_av]","exact":false,"ratio":"160000000/45359237","kitchen":"3½ oz"}`},
		{[]string{"1-2 oz", "g"}, `{"low":"28.349523125","high":"56.69904625","unit":"g","exact":true,"kitchen":"28 g to 55 g"}`},
		{[]string{"1-2 ml", "tsp us"}, `{"low":"0.202884136211058","high":"0.405768272422116","unit":"[tsp_us]","exact":false,"low_ratio":"32000000/157725491","high_ratio":"64000000/157725491"}`},
		{[]string{"212 F", "C"}, `{"value":"100","unit":"Cel","exact":true}`},
		{[]string{"gas mark 6", "C"}, `{"value":"204.4444444444444","unit":"Cel","exact":false,"ratio":"1840/9"}`},
		{[]string{"10 rods", "m2"}, `{"value":"252.9285264","unit":"m2","exact":true}`},
		{[]string{"2 dozen", "piece"}, `{"value":"24","unit":"{piece}","exact":true}`},
		{[]string{"2 tbsp", "g", "--of", "capers", "--state", "drained"}, `{"value":"17.44803571415099","unit":"g","exact":false,"of":"capers","kitchen":"17 g",
			"measure":{"ingredient":"capers","state":"canned, drained","measure":"1 tbsp US","grams":"8.6","known_by":"read","record":"NDB 02054 seq 1",
			"source":"USDA National Nutrient Database for Standard Reference, Release 28 (2015), WEIGHT file"}}`},
	} {
		status, out, errs := converting(t, append(row.args, "--json")...)
		require.Equal(t, statusDone, status, errs)
		var got, want map[string]any
		require.NoError(t, json.Unmarshal([]byte(out), &got))
		require.NoError(t, json.Unmarshal([]byte(row.json), &want))
		for field, value := range want {
			assert.Equal(t, value, got[field], "%v: %s", row.args, field)
		}
	}
}

func TestConvertFollowsTheKitchen(t *testing.T) {
	plot := t.TempDir()
	kitchen := "measures: au\nweights:\n  - {item: capers, measure: 1 tbsp, weight: 11 g}\n"
	require.NoError(t, os.WriteFile(filepath.Join(plot, "kitchen.yaml"), []byte(kitchen), 0o600))
	_, out, errs := converting(t, "1 tbsp", "ml", "--plot", plot)
	assert.Equal(t, "1 tbsp = 20 ml\n", out, errs)
	_, out, errs = converting(t, "2 tbsp", "g", "--of", "capers", "--plot", plot)
	assert.Contains(t, out, "2 tbsp of capers = about 22 g", errs)
	_, out, _ = converting(t, "1 tbsp", "ml", "--plot", plot, "--measures", "us")
	assert.Contains(t, out, "1 tbsp = 14.78676478125 ml", "the flag outranks the kitchen")

	require.NoError(t, os.WriteFile(filepath.Join(plot, "kitchen.yaml"), []byte("measures: imperial\n"), 0o600))
	status, out, errs := converting(t, "1 tbsp", "ml", "--plot", plot)
	assert.Equal(t, statusInput, status)
	assert.Empty(t, out)
	assert.Contains(t, errs, "kitchen.yaml:1:11: ")
}

func TestConvertUsage(t *testing.T) {
	for _, args := range [][]string{{}, {"-18 C", "F"}, {"1 g", "kg", "--nonsense"}} {
		status, out, errs := converting(t, args...)
		assert.Equal(t, statusUsage, status)
		assert.Empty(t, out)
		assert.NotEmpty(t, errs)
	}
	_, _, errs := converting(t, "-18 C", "F")
	assert.Contains(t, errs, `as "minus 18 C"`)
	_, out, _ := converting(t, "minus 18 C", "F")
	assert.Equal(t, "-18 C = -0.4 F\n", out)
	_, out, _ = converting(t, "--", "-18 C", "F")
	assert.Equal(t, "-18 C = -0.4 F\n", out)
	_, out, _ = converting(t, "2", "lb", "4", "oz", "to", "kg")
	assert.True(t, strings.HasPrefix(out, "2.25 lb = 1.0205828325 kg\n"), out)
	var status int
	status, _, errs = converting(t, "1 tbsp", "ml", "--measures", "old")
	assert.Equal(t, statusInput, status)
	assert.Equal(t, "--measures \"old\": not a system of measures\nhint: write metric, uk, us or au\n", errs)
}

// A shell completes units, ingredients, states and systems.
func TestConvertCompletion(t *testing.T) {
	for _, row := range []struct {
		args []string
		has  string
	}{
		{[]string{"convert", "1 cup", ""}, "fl oz UK"},
		{[]string{"convert", "1 cup", "g", "--of", ""}, "mayonnaise"},
		{[]string{"convert", "1 cup", "g", "--of", "onion", "--state", ""}, "raw, peeled, chopped"},
		{[]string{"convert", "1 cup", "g", "--measures", ""}, "metric"},
	} {
		t.Chdir(t.TempDir())
		var out, errs bytes.Buffer
		env := &environment{in: strings.NewReader(""), out: &out, err: &errs, now: time.Now, program: noProgram}
		require.Equal(t, statusDone, run(context.Background(), env, append([]string{"__complete"}, row.args...)))
		assert.Contains(t, strings.Split(out.String(), "\n"), row.has)
	}
}

func TestConvertWhy(t *testing.T) {
	_, out, _ := converting(t, "1 tbsp", "g", "--of", "olive oil", "--why")
	assert.Contains(t, out, "216 g (USDA National Nutrient Database")
	assert.Contains(t, out, "NDB 04053 seq 2; read)")
	_, out, _ = converting(t, "100 g", "oz", "--why")
	assert.Contains(t, out, "3.527396194958041 oz, rounded; exactly 3 23922289/45359237 oz")
	assert.Contains(t, out, "UK Weights and Measures Act 1985")
}
