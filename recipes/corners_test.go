package recipes

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// What a cut is called in a recipe.
func TestCutsInWords(t *testing.T) {
	for cut, want := range map[string]string{"halves": "halved", "quarters": "quartered", "eighths": "in eighths", "cube 25 mm": "in 25 mm cubes", "slice 5 mm": "in 5 mm slices", "baton 10 mm": "in 10 mm batons", "box 20x20x40 mm": "box 20x20x40 mm", "whole": "whole", "eighths 80 mm": "eighths 80 mm"} {
		assert.Equal(t, want, cutText(cut), cut)
	}
	d := dishFrom(t, "name: D\nportions: 4\ncrops: [{crop: potato, amount: 1 kg, cut: halves}]\nmethod: [Tip into a 9x13 inch tin.]\n")
	assert.Contains(t, d.ScaleToPortions(8, DefaultKitchen(units.Metric)).Cautions[0], "the 9 x 13 inch tin: as deep, 2 times as much needs one 13 x 18 inch")
	assert.Equal(t, "9 x 13 tin", pan{size: 9, other: 13, word: "tin"}.name())
	assert.Equal(t, "20 cm tin", pan{size: 20, unit: "cm", word: "tin"}.name())
	for portions, text := range map[int]string{1: "1 portion", 2: "2 portions", 0: "0 portions"} {
		assert.Equal(t, text, portionsText(portions))
	}
}

// A recipe that states its own lines is believed where they make a dish; else its lines
// are read as anybody's.
func TestStatedLines(t *testing.T) {
	read := func(properties string) Imported {
		text := `{"@type":"Recipe","name":"Leeks","recipeYield":"4 portions","recipeIngredient":["400 g leeks","50 g butter"],"recipeInstructions":[{"@type":"HowToStep","text":"Boil the leeks for 8 minutes."}],"additionalProperty":[` + properties + `]}`
		im, err := ImportRecipe("a.json", []byte(text), ImportOptions{System: units.Metric}, DefaultKitchen(units.Metric))
		require.NoError(t, err, properties)
		return im
	}
	property := func(name, value string) string { return `{"name":"` + name + `","value":"` + value + `"}` }
	leek := property("400 g leeks", "{crop: leek, amount: 300 g, cook: steam}")
	assert.Equal(t, "300 g", read(leek).Dish.Crops[0].Amount.String(), "as it is stated")
	own := read(leek + "," + property("50 g butter", "{item: lard, amount: 10 g, state: cold}") + "," + property("served", "warm") + "," + property("name", "My leeks"))
	assert.Equal(t, "lard", own.Dish.Others[0].Item)
	assert.Equal(t, Warm, own.Dish.Served)
	assert.Equal(t, "My leeks", own.Name)
	half := read(leek)
	assert.Equal(t, "butter", half.Dish.Others[0].Item, "a line that is not stated is read as anybody's")
	for name, properties := range map[string]string{"no crop": property("50 g butter", "{item: lard, amount: 10 g}"), "no YAML": property("400 g leeks", "{crop: [}"), "an anchor": property("400 g leeks", "&x {crop: leek, amount: 300 g}"), "an alias": property("400 g leeks", "[*x]"), "two documents": property("400 g leeks", `a\n---\nb`), "too long": property("400 g leeks", "{crop: leek, amount: 300 g, x: "+strings.Repeat("y", 20_000)+"}"), "no dish": property("400 g leeks", "{crop: leek, amount: 300 smoots}"), "nothing": property("400 g leeks", "")} {
		im := read(properties)
		require.NotEmpty(t, im.Dish.Crops, name)
		assert.Equal(t, "400 g", im.Dish.Crops[0].Amount.String(), name)
		assert.Equal(t, "boil", im.Dish.Crops[0].Cook, name)
	}
	im, err := ImportRecipe("a.json", []byte(`{"@type":"Recipe","name":"Leeks","recipeYield":"4","recipeIngredient":["400 g leeks"],"recipeInstructions":"Boil the leeks for 8 minutes.","additionalProperty":[`+leek+`]}`), ImportOptions{System: units.Metric, Cook: map[string]Cooking{"leek": {How: "boil", Uses: "ring", Minutes: 3}}}, DefaultKitchen(units.Metric))
	require.NoError(t, err)
	assert.Equal(t, "400 g", im.Dish.Crops[0].Amount.String(), "answers are for its lines as they are read")
}

// An answer is for the one ingredient that its words name.
func TestAnswersFindTheirLine(t *testing.T) {
	read := func(amounts map[string]units.Quantity) (Imported, error) {
		text := "A dish\nServes 4\n\nIngredients\nsome potatoes\na lump of butter\n2 smoots butter beans\nglorp\n\nMethod\nBoil the potatoes for 18 minutes. Serve hot.\n"
		return ImportRecipe("a.txt", []byte(text), ImportOptions{System: units.Metric, Amounts: amounts}, DefaultKitchen(units.Metric))
	}
	im, err := read(map[string]units.Quantity{"potatoes": units.MustParse("900 g")})
	require.NoError(t, err)
	assert.Equal(t, "900 g", im.Dish.Crops[0].Amount.String())
	for key, says := range map[string]string{"leek": "no ingredient is called that", "butter": "2 ingredients fit that", "butte": "no ingredient is called that"} {
		_, err := read(map[string]units.Quantity{key: units.MustParse("1 g")})
		assert.ErrorContains(t, err, says, key)
	}
	_, err = read(map[string]units.Quantity{"beans": units.MustParse("100 g"), "potatoes": units.MustParse("900 g")})
	assert.NoError(t, err)
}

// Words of eaters that say nobody, steps before the finish, and dishes that tell of foods
// nobody knows.
func TestWhatElseIsTold(t *testing.T) {
	assert.EqualError(t, NotWhoEats("us"), `for "us": not who eats`)
	d := dishFrom(t, "name: D\nportions: 4\ncrops: [{crop: potato, amount: 1 kg, cut: halves}]\nsteps: [{do: Warm the plates, takes: 5 min, uses: oven, before: finish}, {do: melt butter, takes: 1 min}, {do: Wait, takes: 2 min}]\nmethod: [Serve with a spoon of lumbang.]\n")
	assert.Equal(t, []OwnStep{{"Warm the plates", 5, "oven", WarmsUp}, {"melt butter", 1, "", Melts}, {"Wait", 2, "", AnyWork}}, d.Steps)
	assert.Equal(t, []string{"lumbang"}, d.UnknownServed())
	assert.Equal(t, d.UnknownServed(), d.Makeup().UnknownServed())
	suits, _ := d.Makeup().Suits(Diet{})
	assert.True(t, suits, "who eats anything eats this")
	_, err := LoadDish("d.yaml", []byte("name: D\nportions: 4\ncrops: [{crop: potato, amount: 1 kg, cut: halves}]\nsteps: [{do: Warm, takes: 5 min, before: start}]\n"), DefaultKitchen(units.Metric))
	assert.ErrorContains(t, err, "before")
	for contains, ok := range map[string]bool{"none": true, "None": true, "[milk]": true, "milk": true, "[]": false, "moonleaf": false, "[nuts, moonleaf]": false, "nuts": true, "[honey, meat]": true} {
		_, err := LoadDish("d.yaml", []byte("name: D\nportions: 4\ncrops: [{crop: potato, amount: 1 kg, cut: halves}]\nothers: [{item: grandmother's sauce, amount: 5 g, contains: "+contains+"}]\n"), DefaultKitchen(units.Metric))
		assert.Equal(t, ok, err == nil, "%s: %v", contains, err)
	}
	nuts := dishOf(t, "- {item: grandmother's sauce, amount: 5 g, contains: nuts}")
	contained, _ := nuts.Allergens()
	assert.Equal(t, []Allergen{Nuts}, contained, "nuts of a file are tree nuts")
	for a, word := range map[Allergen]string{0: "no allergen", Gluten: "gluten", Molluscs: "molluscs", Molluscs + 1: "no allergen"} {
		assert.Equal(t, word, a.String())
	}
	instead := dishOf(t, "- {item: olive oil, amount: 1 tbsp, instead: [{item: butter, amount: 20 g, state: melted}]}")
	instead.Method = []string{"Bake with the butter."}
	_, _, ok := instead.Without([]string{"butter"})
	assert.False(t, ok, "what may be taken instead is heated too")
	assert.True(t, firstNamed(clause{}, []string{"leek"}))
	assert.True(t, firstNamed(clause{things: []string{"leeks", "bacon"}}, []string{"leek"}))
	assert.False(t, firstNamed(clause{things: []string{"bacon", "leeks"}}, []string{"leek"}))
	for word, sizes := range map[string]string{"cubes": "cube", "chunks": "cube", "sticks": "baton", "rounds": "slice", "wedges": "", "moons": ""} {
		assert.Equal(t, sizes, formOf(word), word)
	}
}
