package recipes

import (
	"encoding/json"
	"errors"
	"flag"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/strict"
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

func TestImportRecipeFromPage(t *testing.T) {
	text, err := ImportRecipe("page.html", readFile(t, "../testdata/recipes/page.html"), ImportOptions{System: units.UK})
	require.NoError(t, err)
	golden(t, "../testdata/recipes/page.golden.yaml", text)
	d, err := LoadDish("page.yaml", []byte(text), DefaultKitchen(units.UK))
	require.NoError(t, err)
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
	"recipeInstructions": true, "cookingMethod": true, "suitableForDiet": true,
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

// What is written as JSON-LD reads back as the same amounts of the same
// things.
func TestJSONLDReadsBack(t *testing.T) {
	for _, system := range []units.System{units.Metric, units.UK, units.US, units.AU} {
		d, err := LoadDish("dish.yaml", readFile(t, dishFile), DefaultKitchen(system))
		require.NoError(t, err)
		data, err := d.JSONLD()
		require.NoError(t, err)
		text, err := ImportRecipe("dish.json", data, ImportOptions{System: units.Metric})
		require.NoError(t, err)
		back, err := LoadDish("back.yaml", []byte(text), DefaultKitchen(units.Metric))
		require.NoError(t, err)
		require.Len(t, back.Others, len(d.Others))
		for i, o := range d.Others {
			assert.Equal(t, o.Item, back.Others[i].Item)
			assert.Equal(t, o.State, back.Others[i].State)
			assert.Equal(t, o.Optional, back.Others[i].Optional)
			assert.Len(t, back.Others[i].Instead, len(o.Instead))
			assert.True(t, o.Amount.Equal(back.Others[i].Amount), "%s %s", o.Amount, back.Others[i].Amount)
		}
		assert.Equal(t, d.Crops[0].Prepared, back.Crops[0].Prepared)
		assert.Equal(t, d.Crops[0].Cut, back.Crops[0].Cut)
		assert.True(t, d.Crops[0].Amount.Equal(back.Crops[0].Amount))
		assert.Equal(t, d.Method, back.Method)
	}
}

func recipeJSON(yield string, ingredients ...string) []byte {
	data, _ := json.MarshalIndent(map[string]any{"@type": "Recipe", "name": "Test", "recipeYield": yield, "recipeIngredient": ingredients}, "", " ")
	return data
}

func TestImportRefusesWhatItCannotRead(t *testing.T) {
	tests := []struct {
		name    string
		data    []byte
		message string
		hint    string
	}{
		{"no amount", recipeJSON("4", "1 kg potatoes", "Salt and pepper"), `r.json:6:3: "Salt and pepper": no amount`,
			`write an amount in front, or "to taste" after it; or give the line its amount: salt=to taste`},
		{"ambiguous", recipeJSON("4", "1 kg potatoes", "1 pint milk"), `r.json:6:3: "1 pint milk": `, ""},
		{"amount of nothing", recipeJSON("4", "1 kg potatoes", "200 g"), `r.json:6:3: "200 g": an amount of what?`, "write an amount, then the ingredient"},
		{"crop counted", recipeJSON("4", "6 potatoes", "50 g butter"), `r.json:5:3: no crop is weighed in this recipe: "6 potatoes" has no weight`,
			"write the weight of the crop it is built on: 900 g potatoes; or give its line that amount: potatoes=900 g"},
		{"no crop", recipeJSON("4", "500 g flour"), `r.json:1:1: no crop is weighed in this recipe`, ""},
		{"no portions", recipeJSON("some", "1 kg potatoes"), `r.json:7:17: recipeYield "some" does not say how many portions`, "write a number from 1 to 500; or say for how many to take it"},
		{"twice", recipeJSON("4", "1 kg potatoes", "50 g butter", "30 ml butter"), `r.json:7:3: "30 ml butter": stands twice, in amounts that do not add up`, "write one line of it"},
		{"no recipe", []byte(`{"@type":"Person"}`), `r.json:1:1: no Recipe in this file`, ""},
		{"not JSON", []byte(`{"@type":`), `r.json:1:1: this is not JSON: unexpected end of JSON input`, ""},
		{"a page without one", []byte("<html><body>nothing</body></html>"), `r.json:1:1: no Recipe in this file`, ""},
		{"two", []byte(`[{"@type":"Recipe","name":"A"},{"@type":"Recipe","name":"B"}]`), `r.json:1:1: 2 recipes in one file: A; B`, "write a file with one of them"},
		{"empty", nil, `r.json:1:1: this is not JSON: unexpected end of JSON input`, ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			text, err := ImportRecipe("r.json", test.data, ImportOptions{})
			assert.Empty(t, text)
			var errs strict.Errors
			require.True(t, errors.As(err, &errs), "%v", err)
			assert.Contains(t, err.Error(), test.message)
			if test.hint != "" {
				assert.Equal(t, test.hint, errs[len(errs)-1].Hint())
			}
		})
	}
}

func TestImportWithAnswers(t *testing.T) {
	data := recipeJSON("a few", "6 potatoes", "Salt and pepper", "butter")
	text, err := ImportRecipe("r.json", data, ImportOptions{System: units.Metric, Portions: 4, Amounts: map[string]units.Quantity{
		"potatoes": units.MustParse("900 g"), "salt": units.ToTaste(), "Butter": units.MustParse("50 g"),
	}})
	require.NoError(t, err)
	d, err := LoadDish("d.yaml", []byte(text), DefaultKitchen(units.Metric))
	require.NoError(t, err)
	assert.Equal(t, "900 g", d.Crops[0].Amount.String())
	assert.Equal(t, "Salt and pepper", d.Others[0].Item)
	assert.Equal(t, 4, d.Portions)
	_, err = ImportRecipe("r.json", data, ImportOptions{System: units.Metric, Portions: 4, Amounts: map[string]units.Quantity{"leeks": units.MustParse("1 kg")}})
	assert.ErrorContains(t, err, `an amount is given for "leeks", but no ingredient holds that text`)
}

func TestImportLines(t *testing.T) {
	tests := []struct{ line, amount, item, state string }{
		{"Juice of ½ lemon", "0.5", "lemon", "juice"},
		{"finely grated zest of 1 lemon", "1", "lemon", "finely grated zest"},
		{"1 (400 g) tin chickpeas", "400 g", "chickpeas", ""},
		{"2 x 400 g tins chickpeas", "800 g", "chickpeas", ""},
		{"2 tins (400g) of chickpeas, drained", "800 g", "chickpeas", "drained"},
		{"1/2 cup (120 ml) milk", "0.5 cup metric", "milk", ""},
		{"3 tbsp. olive oil", "3 tbsp metric", "olive oil", ""},
		{"50g/2oz butter", "50 g", "butter", ""},
		{"• 2 cloves garlic, crushed", "2 clove", "garlic", "crushed"},
		{"2 to 3 tsp capers", "2-3 tsp metric", "capers", ""},
		{"black pepper to taste", "to taste", "black pepper", ""},
		{"a handful of finely chopped parsley", "1 handful", "parsley", "finely chopped"},
	}
	for _, test := range tests {
		t.Run(test.line, func(t *testing.T) {
			text, err := ImportRecipe("r.json", recipeJSON("4", "500g/1lb 2oz floury potatoes", test.line), ImportOptions{System: units.Metric})
			require.NoError(t, err)
			d, err := LoadDish("d.yaml", []byte(text), DefaultKitchen(units.Metric))
			require.NoError(t, err)
			assert.Equal(t, "500 g", d.Crops[0].Amount.String())
			assert.Equal(t, "floury", d.Crops[0].Texture)
			require.Len(t, d.Others, 1)
			assert.Equal(t, test.amount, d.Others[0].Amount.String())
			assert.Equal(t, test.item, d.Others[0].Item)
			assert.Equal(t, test.state, d.Others[0].State)
		})
	}
}

func TestImportWeightInBrackets(t *testing.T) {
	text, err := ImportRecipe("r.json", recipeJSON("4", "4 medium potatoes (about 600 g), peeled"), ImportOptions{System: units.Metric})
	require.NoError(t, err)
	d, err := LoadDish("d.yaml", []byte(text), DefaultKitchen(units.Metric))
	require.NoError(t, err)
	assert.Equal(t, "600 g", d.Crops[0].Amount.String())
	assert.Equal(t, "peeled", d.Crops[0].Prepared)
}

func FuzzImportRecipe(f *testing.F) {
	f.Add([]byte(`{"@type":"Recipe","name":"x","recipeYield":4,"recipeIngredient":["1 kg potatoes"]}`))
	f.Add(recipeJSON("4", "1 kg potatoes, peeled", "2 tbsp: oil #", "- 3 'x'", "1 cup \"y\": z"))
	f.Add([]byte(`<script type="application/ld+json">[{"@graph":[{"@type":"Recipe"}]}]</script>`))
	f.Fuzz(func(t *testing.T, data []byte) {
		text, err := ImportRecipe("f.json", data, ImportOptions{System: units.Metric})
		if err != nil {
			if strings.Contains(err.Error(), "does not load") {
				t.Fatal(err)
			}
			return
		}
		if _, err := LoadDish("f.yaml", []byte(text), DefaultKitchen(units.Metric)); err != nil {
			t.Fatalf("imported dish does not load: %v\n%s", err, text)
		}
	})
}
