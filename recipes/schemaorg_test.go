package recipes

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// `go test ./recipes -update` writes the golden files anew.
var update = flag.Bool("update", false, "write the golden files anew")

func golden(t *testing.T, path, got string) {
	t.Helper()
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	assert.Equal(t, string(readFile(t, path)), got)
}

// imported reads a recipe in a metric kitchen without a plot.
func imported(t testing.TB, file string, data []byte, o ImportOptions) Imported {
	t.Helper()
	if o.System == units.NoSystem {
		o.System = units.Metric
	}
	im, err := ImportRecipe(file, data, o, DefaultKitchen(o.System))
	require.NoError(t, err)
	return im
}

func TestImportRecipeFromPage(t *testing.T) {
	im := imported(t, "page.html", readFile(t, "../testdata/recipes/page.html"), ImportOptions{System: units.UK})
	golden(t, "../testdata/recipes/page.golden.yaml", im.Text)
	d := im.Dish
	assert.Equal(t, "Minted potatoes & peas", d.Name)
	assert.Equal(t, 6, d.Portions)
	assert.Len(t, d.Crops, 2)
	assert.Equal(t, "waxy", d.Crops[0].Texture)
	assert.Equal(t, "shelled", d.Crops[1].Prepared)
}

// The properties that schema.org gives to Recipe and to what it is made of
// (HowTo, CreativeWork, Thing); from memory.
var recipeProperties = map[string]bool{
	"@context": true, "@type": true, "name": true, "recipeYield": true, "recipeIngredient": true,
	"recipeInstructions": true, "cookingMethod": true, "suitableForDiet": true, "additionalProperty": true,
}

var restrictedDiets = map[string]bool{"DiabeticDiet": true, "GlutenFreeDiet": true, "HalalDiet": true, "HinduDiet": true, "KosherDiet": true,
	"LowCalorieDiet": true, "LowFatDiet": true, "LowLactoseDiet": true, "LowSaltDiet": true, "VeganDiet": true, "VegetarianDiet": true}

func TestJSONLDKeepsToTheVocabulary(t *testing.T) {
	d, err := LoadDish("dish.yaml", readFile(t, dishFile), DefaultKitchen(units.Metric))
	require.NoError(t, err)
	data, err := d.JSONLD()
	require.NoError(t, err)
	golden(t, "../testdata/recipes/crushed-potatoes.golden.json", string(data))
	var recipe map[string]any
	require.NoError(t, json.Unmarshal(data, &recipe))
	for property := range recipe {
		assert.True(t, recipeProperties[property], property)
	}
	assert.Equal(t, "https://schema.org", recipe["@context"])
	assert.Equal(t, "Recipe", recipe["@type"])
	for _, step := range recipe["recipeInstructions"].([]any) {
		assert.Equal(t, "HowToStep", step.(map[string]any)["@type"])
	}
	for _, diet := range recipe["suitableForDiet"].([]any) {
		assert.True(t, restrictedDiets[strings.TrimPrefix(diet.(string), "https://schema.org/")], diet)
	}
	assert.NotContains(t, string(data), "VeganDiet", "butter is not vegan")
}

func recipeJSON(yield string, ingredients ...string) []byte {
	data, _ := json.MarshalIndent(map[string]any{"@type": "Recipe", "name": "Test", "recipeYield": yield, "recipeIngredient": ingredients}, "", " ")
	return data
}

func TestWhatAnImportLeavesOpen(t *testing.T) {
	tests := []struct{ name, yield, lines, field, says string }{
		{"crop that cannot be weighed", "4", "potatoes", "amount", `"potatoes": how much does it weigh?`},
		{"no crop", "4", "500 g flour", "amount", "no crop is weighed in this recipe"},
		{"no portions", "some", "1 kg potatoes", "portions", `portions "some": this does not say how many portions`},
		{"no yield", "", "1 kg potatoes", "portions", "the recipe does not say how many portions it makes"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			im := imported(t, "r.json", recipeJSON(test.yield, test.lines, "50 g butter"), ImportOptions{})
			assert.Empty(t, im.Text)
			require.Len(t, im.Open, 1)
			assert.Equal(t, test.field, im.Open[0].Field)
			assert.Contains(t, im.Open.Error(), test.says)
			assert.NotEmpty(t, im.Open[0].Hint())
			assert.NotEmpty(t, im.Lines, "the lines are read back all the same")
		})
	}
	im := imported(t, "r.txt", []byte("Roots\nServes 4\n1 kg carrots\nRoast the carrots until brown."), ImportOptions{})
	require.Len(t, im.Open, 1)
	assert.Equal(t, "cook", im.Open[0].Field)
	assert.Equal(t, "write how long, as: carrot=oven 20 min", im.Open[0].Hint())
	im = imported(t, "r.txt", []byte("Roots\nServes 4\n1 kg carrots\nRoast the carrots until brown."), ImportOptions{Cook: map[string]Cooking{"carrot": {How: "own", Uses: "oven", Minutes: 40}}})
	require.Empty(t, im.Open)
	assert.Equal(t, 40, im.Dish.Crops[0].Minutes)
}

// Lines that cannot be read are kept word by word, block nothing, and clear the
// dish for nobody.
func TestUnreadLinesAreKept(t *testing.T) {
	im := imported(t, "r.json", recipeJSON("4", "1 kg potatoes", "2 smoots flour", "the usual", "salt"), ImportOptions{System: units.UK})
	require.NotEmpty(t, im.Text)
	var kept []string
	for _, o := range im.Dish.Others {
		kept = append(kept, o.Item)
	}
	assert.Contains(t, kept, "2 smoots flour")
	assert.Contains(t, kept, "the usual")
	for _, l := range im.Lines {
		if l.Text == "2 smoots flour" {
			assert.False(t, l.Sure())
			assert.False(t, l.Read.Amount.IsValid(), "no amount is made up")
		}
	}
	suits, _ := im.Dish.Suits(Diet{avoid: mark(Gluten)})
	assert.False(t, suits)
}

func TestImportWithAnswers(t *testing.T) {
	data := recipeJSON("a few", "some potatoes", "1 tsp salt", "60 g unsalted butter", "a few leaves")
	im := imported(t, "r.json", data, ImportOptions{Portions: 4, Amounts: map[string]units.Quantity{
		"potatoes": units.MustParse("900 g"), "salt": units.ToTaste(),
	}})
	d := im.Dish
	assert.Equal(t, "900 g", d.Crops[0].Amount.String())
	assert.Equal(t, 4, d.Portions)
	for _, o := range d.Others {
		switch o.Item {
		case "salt":
			assert.True(t, o.Amount.IsToTaste())
		case "unsalted butter":
			assert.Equal(t, "60 g", o.Amount.String(), "an answer for the salt leaves the butter alone")
		}
	}
	for _, name := range []string{"leeks", "tato", "utter"} {
		_, err := ImportRecipe("r.json", data, ImportOptions{System: units.Metric, Portions: 4, Amounts: map[string]units.Quantity{name: units.MustParse("1 kg")}}, DefaultKitchen(units.Metric))
		assert.ErrorContains(t, err, "no ingredient is called that", name)
	}
	_, err := ImportRecipe("r.json", recipeJSON("4", "1 kg potatoes", "1 tsp salt, fine", "1 tsp salt, coarse"), ImportOptions{System: units.Metric, Amounts: map[string]units.Quantity{"salt": units.ToTaste()}}, DefaultKitchen(units.Metric))
	assert.ErrorContains(t, err, `amount "salt": 2 ingredients fit that`)
}

func TestImportIsCorrected(t *testing.T) {
	data := []byte("Mash\nServes 2\n500 g potatoes\n200 g carrots\n1 egg\nBoil the potatoes for 20 minutes. Mash.\nEnjoy.")
	words := ImportWords{Lines: []string{"5=2 eggs", "7="}, As: []string{"4=other"}, Cook: []string{"Potatoes=oven 1 hour"}, Served: "warm", Name: "Mash, ours"}
	options, err := words.Options(units.Metric)
	require.NoError(t, err)
	im := imported(t, "mash.txt", data, options)
	require.Empty(t, im.Open)
	d := im.Dish
	assert.Equal(t, "Mash, ours", d.Name)
	assert.Equal(t, Warm, d.Served)
	require.Len(t, d.Crops, 1)
	assert.Equal(t, 60, d.Crops[0].Minutes)
	assert.Equal(t, "oven", d.Crops[0].Uses)
	require.Len(t, d.Others, 2)
	assert.Equal(t, "2", d.Others[1].Amount.String())
	for _, wrong := range []struct {
		words ImportWords
		field string
	}{
		{ImportWords{Lines: []string{"x"}}, "line"}, {ImportWords{As: []string{"3=cheese"}}, "as"}, {ImportWords{Cook: []string{"potato=boil"}}, "cook"},
		{ImportWords{Cook: []string{"potato=fry 3 min"}}, "cook"}, {ImportWords{Cook: []string{"potato=steam 3 min"}}, "cook"}, {ImportWords{Served: "soon"}, "served"}, {ImportWords{Amounts: []string{"x"}}, "amount"},
	} {
		_, err := wrong.words.Options(units.Metric)
		var field *units.FieldError
		require.ErrorAs(t, err, &field)
		assert.Equal(t, wrong.field, field.Field)
	}
}

func TestImportWeights(t *testing.T) {
	for line, weight := range map[string]string{
		"4 medium potatoes (about 600 g), peeled": "600 g",
		"500g/1lb 2oz floury potatoes":            "500 g",
		"800-900 g potatoes":                      "800 g",
	} {
		im := imported(t, "r.json", recipeJSON("4", line), ImportOptions{})
		require.NotEmpty(t, im.Text, line)
		assert.Equal(t, weight, im.Dish.Crops[0].Amount.String(), line)
	}
	im := imported(t, "r.json", recipeJSON("4", "6 potatoes"), ImportOptions{})
	require.NotEmpty(t, im.Text)
	assert.False(t, im.Lines[len(im.Lines)-1].Sure(), "a weight by the table is to be checked")
	assert.Contains(t, im.Lines[len(im.Lines)-1].Why(), "by the table of measures")
}

// Crops are what the plot grows; the rest are ingredients.
func TestCropsAreThoseOfThePlot(t *testing.T) {
	data := recipeJSON("4", "500 g carrots", "400 g potatoes", "300 g tinned peas", "1 bunch chives")
	crops := func(grown ...string) string {
		im := imported(t, "r.json", data, ImportOptions{Grown: grown})
		var names []string
		for _, c := range im.Dish.Crops {
			names = append(names, c.Crop)
		}
		return strings.Join(names, ", ")
	}
	assert.Equal(t, "potato", crops("potato", "chives"))
	assert.Equal(t, "carrot, potato", crops("potato", "carrot"))
	assert.Equal(t, "carrot, potato", crops())
	im := imported(t, "r.json", data, ImportOptions{Grown: []string{"leek"}})
	require.Len(t, im.Open, 1)
	assert.Contains(t, im.Open.Error(), "none of what this plot grows is weighed")
}

// Dishes come in as they are cooked, with the recipe's own minutes, never as
// steamed.
func TestImportKeepsHowItIsCooked(t *testing.T) {
	for method, want := range map[string]string{
		"Steam the potatoes for 12 minutes until just tender.":                                  "steam 0  just-tender",
		"Boil the potatoes in salted water for 15-20 minutes.":                                  "boil 20 ring ",
		"Put the potatoes in a pan of cold water, bring to the boil and simmer for 20 minutes.": "boil 20 ring ",
		"Cook the potatoes in plenty of salted water for 15 minutes.":                           "boil 15 ring ",
		"Heat the oven to 200C. Toss the potatoes in oil and roast for 45 minutes.":             "own 45 oven ",
		"Fry the potatoes in the butter for 10 minutes, turning.":                               "own 10 ring ",
		"Bake the potatoes for an hour.":                                                        "own 60 oven ",
		"Parboil the potatoes for 8 minutes. Drain. Roast the potatoes for 40 minutes.":         "own 48 oven ",
		"Grill the potatoes for ten minutes.":                                                   "own 10 grill ",
		"Bring a large pan of water to the boil. Add the potatoes and cook for 12 minutes.":     "boil 12 ring ",
		"Blanch the potatoes for 3 minutes.":                                                    "blanch 3 ring ",
		"Bury the potatoes in the embers for 40 minutes.":                                       "own 40 embers ",
	} {
		im := imported(t, "r.txt", []byte("Potatoes\nServes 4\n\nIngredients\n1 kg potatoes\n50 g butter\n\nMethod\n"+method), ImportOptions{})
		require.Empty(t, im.Open, method)
		c := im.Dish.Crops[0]
		until := c.Until
		if c.Cook != "steam" {
			until = ""
		}
		assert.Equal(t, want, fmt.Sprintf("%s %d %s %s", c.Cook, c.Minutes, c.Uses, until), method)
	}
}

func FuzzImportRecipe(f *testing.F) {
	f.Add([]byte(`{"@type":"Recipe","name":"x","recipeYield":4,"recipeIngredient":["1 kg potatoes"]}`))
	f.Add(recipeJSON("4", "1 kg potatoes, peeled", "2 tbsp: oil #", "- 3 'x'", "1 cup \"y\": z"))
	f.Add([]byte(`<script type="application/ld+json">[{"@graph":[{"@type":"Recipe"}]}]</script>`))
	f.Add([]byte("Mash\nServes 2\n500 g potatoes\n1 egg\n1 egg\n30 ml egg\nBoil for 20 minutes."))
	f.Fuzz(func(t *testing.T, data []byte) {
		im, err := ImportRecipe("f.json", data, ImportOptions{System: units.Metric}, DefaultKitchen(units.Metric))
		if err != nil {
			require.NotContains(t, err.Error(), "does not load")
			return
		}
		require.Equal(t, im.Text == "", len(im.Open) > 0)
		for _, l := range im.Lines {
			if l.As == AsOther && im.Text != "" {
				word := firstLetters(l.Text)
				require.Contains(t, im.Text, word, "a line is lost")
			}
		}
	})
}

// firstLetters is the longest plain word of a text.
func firstLetters(text string) string {
	longest := ""
	for _, word := range strings.FieldsFunc(text, func(c rune) bool { return c < 'a' || c > 'z' }) {
		if len(word) > len(longest) && len(word) > 6 {
			longest = word
		}
	}
	return longest
}
