package recipes

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/measures"
)

// importedOf reads a short list with one step, in a metric kitchen.
func importedOf(t *testing.T, step string, goods ...string) Imported {
	t.Helper()
	text := "A dish\nServes 4\n\nIngredients\n" + strings.Join(goods, "\n") + "\n\nMethod\n" + step + "\n"
	im, err := ImportRecipe("a.txt", []byte(text), ImportOptions{System: units.Metric}, DefaultKitchen(units.Metric))
	require.NoError(t, err)
	return im
}

// What is weighed at a quarter of the heaviest crop is a crop of the dish, and whatever
// the recipe itself weighs at 100 g; pieces that are steamed or boiled from 50 g on.
func TestWhichLinesAreCrops(t *testing.T) {
	for _, c := range []struct {
		step  string
		goods []string
		crops string
	}{
		{"Boil for 10 minutes.", []string{"1 kg potatoes", "250 g carrots"}, "potato carrot"}, {"Boil for 10 minutes.", []string{"1 kg potatoes", "100 g carrots"}, "potato carrot"}, {"Boil for 10 minutes.", []string{"1 kg potatoes", "99 g carrots"}, "potato"}, {"Boil for 10 minutes.", []string{"300 g potatoes", "75 g carrots"}, "potato carrot"}, {"Boil for 10 minutes.", []string{"300 g potatoes", "74 g carrots"}, "potato"},
		{"Boil the potatoes and carrots for 10 minutes.", []string{"1 kg potatoes", "2 carrots"}, "potato carrot"}, {"Fry the potatoes and carrots for 10 minutes.", []string{"1 kg potatoes", "2 carrots"}, "potato"}, {"Boil the potatoes and onions for 10 minutes.", []string{"1 kg potatoes", "4 large onions"}, "potato onion"}, {"Boil the potatoes and onions for 10 minutes.", []string{"2 kg potatoes", "2 onions"}, "potato"},
		{"Boil for 10 minutes.", []string{"1 kg frozen peas", "300 g leeks"}, "leek"}, {"Boil for 10 minutes.", []string{"400 g tin tomatoes", "300 g leeks"}, "leek"}, {"Boil for 10 minutes.", []string{"300 g dried apricots", "300 g leeks"}, "leek"}, {"Boil for 10 minutes.", []string{"500-600 g leeks"}, "leek"},
	} {
		im := importedOf(t, c.step, c.goods...)
		var crops []string
		for _, crop := range im.Dish.Crops {
			crops = append(crops, crop.Crop)
		}
		assert.Equal(t, c.crops, strings.Join(crops, " "), "%s %v", c.step, c.goods)
	}
	less := importedOf(t, "Boil for 10 minutes.", "500-600 g leeks")
	assert.Equal(t, "500 g", less.Dish.Crops[0].Amount.String())
	assert.False(t, less.Lines[3].Sure(), "the less of both is to be checked")
	none := importedOf(t, "Boil for 10 minutes.", "some leeks", "salt")
	require.Error(t, none.Open.Err())
	assert.Contains(t, none.Open.Error(), "how much does it weigh?")
	assert.Contains(t, importedOf(t, "Boil for 10 minutes.", "200 g rice", "salt").Open.Error(), "no crop is weighed in this recipe")
}

// Amounts that a dish file may have: something, to a tonne and ten thousand pieces.
func TestUsableAmounts(t *testing.T) {
	for text, is := range map[string]bool{"1 g": true, "0 g": false, "1000 kg": true, "1000.1 kg": false, "10000": true, "10001": false, "9999-10000": true, "9999-10001": false, "to taste": true, "5 cm": true, "1 l": true, "20 C": false, "3 m2": false, "5 min": false, "0-1 g": true, "20000 ml": true} {
		assert.Equal(t, is, usable(units.MustParse(text)), text)
	}
	assert.False(t, usable(units.Quantity{}))
	for text, is := range map[string]bool{"1000 kg": false, "1001 kg": true, "1 t": false, "2 l": false} {
		if q, err := units.Parse(text, units.Metric); err == nil {
			assert.Equal(t, is, tooHeavy(q), text)
		}
	}
	for text, ok := range map[string]bool{"10000": true, "10001": false, "1000 kg": true, "1001 kg": false, "0": false, "0-1": true} {
		_, err := LoadDish("d.yaml", []byte("name: A\nportions: 2\ncrops: [{crop: potato, amount: 1 kg, cut: halves}]\nothers: [{item: egg, amount: "+text+"}]\n"), DefaultKitchen(units.Metric))
		assert.Equal(t, ok, err == nil, "%s: %v", text, err)
	}
	for text, ok := range map[string]bool{"1000 kg": true, "1000.1 kg": false, "0.1 g": true, "0 g": false, "1-2 kg": false, "1 l": false} {
		_, err := LoadDish("d.yaml", []byte("name: A\nportions: 2\ncrops: [{crop: potato, amount: "+text+", cut: halves}]\n"), DefaultKitchen(units.Metric))
		assert.Equal(t, ok, err == nil, "%s: %v", text, err)
	}
}

// The limits of a dish file's figures, each with the last that is taken and the first
// that is not.
func TestFiguresOfADishHaveLimits(t *testing.T) {
	load := func(line string) error {
		key, _, _ := strings.Cut(line, ":")
		text := "name: A\nportions: 4\ncrops: [{crop: potato, amount: 1 kg, cut: halves}]\n"
		if key == "portions" || key == "name" {
			text = strings.Replace(text, map[string]string{"portions": "portions: 4", "name": "name: A"}[key], "x: y", 1)
			text = strings.Replace(text, "x: y", line, 1)
		} else {
			text += line + "\n"
		}
		_, err := LoadDish("d.yaml", []byte(text), DefaultKitchen(units.Metric))
		return err
	}
	for line, ok := range map[string]bool{
		"portions: 1": true, "portions: 500": true, "portions: 0": false, "portions: 501": false, "smallest: 1": true, "smallest: 0": false, "largest: 4": true, "largest: 500": true, "largest: 501": false, "largest: 0": false, "wish: 0.01": true, "wish: 0": false, "wish: -1": false, "wish: 1": true, "wish: 100": true, "wish: 100.1": false, "smallest: 500": true, "smallest: 501": false, "smallest: 5\nlargest: 5": true, "smallest: 6\nlargest: 5": false,
		"name: " + strings.Repeat("é", 120): true, "name: " + strings.Repeat("é", 121): false,
		"served: hot": true, "served: frozen": false, "steps: [{do: Wait, takes: 12 h}]": true, "steps: [{do: Wait, takes: 721 min}]": false, "steps: [{do: Wait, takes: 0 min}]": false, "steps: [{do: Wait, takes: 1-2 min, uses: oven}]": true, "steps: [{do: Wait, takes: 5 min, uses: fire}]": false, "steps: [{takes: 5 min}]": false,
	} {
		assert.Equal(t, ok, load(line) == nil, "%s: %v", line, load(line))
	}
	for sizes, ok := range map[string]bool{"20-45 mm": true, "1-300 mm": true, "20-301 mm": false, "45-20 mm": false, "20 mm": false, "20-20 mm": false, "2-4.5 cm": true, "20.5-45 mm": false, "20-45.5 mm": false, "x": false} {
		_, err := LoadDish("d.yaml", []byte("name: A\nportions: 2\ncrops: [{crop: potato, amount: 1 kg, cut: halves, sizes: "+sizes+"}]\n"), DefaultKitchen(units.Metric))
		assert.Equal(t, ok, err == nil, "%s: %v", sizes, err)
	}
	for minutes, want := range map[string]int{"30 s": 1, "61 s": 2, "5 min": 5, "5-8 min": 8, "12 h": 720} {
		d := dishFrom(t, fmt.Sprintf("name: A\nportions: 2\ncrops: [{crop: potato, amount: 1 kg, cut: halves, cook: boil, takes: %s}]\n", minutes))
		assert.Equal(t, want, d.Crops[0].Minutes, minutes)
	}
}

// Which clause may speak of a crop after all: one with times that were not understood, or
// of what has no name in the list.
func TestClausesThatMayBeOfACrop(t *testing.T) {
	for _, c := range []struct {
		text string
		of   about
		own  bool
		may  bool
	}{
		{"boil for 10 minutes", somethingElse, true, true}, {"boil for 10 minutes", somethingElse, false, true}, {"boil them", somethingElse, true, false}, {"boil them", nothingYet, false, false}, {"boil overnight", nothingYet, false, true}, {"toast the bread", nothingYet, false, false}, {"toast the bread for 2 minutes", nothingYet, false, false}, {"fry the bread for 2 minutes", nothingYet, false, true}, {"leave for 10 minutes", somethingElse, false, false}, {"turn for 10 minutes", somethingElse, false, true}, {"for some minutes", nothingYet, false, false},
	} {
		assert.Equal(t, c.may, clauseIn(c.text).mayBeThis(c.of, c.own), "%s %d %t", c.text, c.of, c.own)
	}
	for text, may := range map[string]bool{"boil for 10 minutes": false, "boil overnight": true, "fry the bread for 2 minutes": true, "fry the bread": false, "wait overnight": false, "for 5 minutes, then 6 minutes": true} {
		assert.Equal(t, may, clauseIn(text).mayBeOther(false), text)
	}
	assert.False(t, clauseIn("fry the bread for 2 minutes").mayBeOther(true))
	assert.True(t, clauseIn("boil overnight").mayBeOther(true))
}

// What is written of a recipe, to the letter.
func TestWordsOfAnImport(t *testing.T) {
	for given, want := range map[[2]string]string{{"Leek pie", "a.txt"}: "Leek pie", {" Leek  pie ", "a.txt"}: "Leek pie", {"", "dir/leek-pie.txt"}: "leek-pie", {strings.Repeat("é", 60), "a"}: strings.Repeat("é", 60), {strings.Repeat("é", 61), "a"}: strings.Repeat("é", 60), {strings.Repeat("x", 59) + " y", "a"}: strings.Repeat("x", 59)} {
		assert.Equal(t, want, nameFor(given[0], given[1]))
	}
	for given, want := range map[[2]string]string{{"chopped", ""}: "chopped", {"", "about"}: "about", {"chopped", "about"}: "chopped, about", {"finely chopped", "Chopped"}: "finely chopped", {"", ""}: ""} {
		assert.Equal(t, want, withNote(given[0], given[1]))
	}
	for text, want := range map[string]string{"plain": "plain", "yes": `"yes"`, "a: b": "'a: b'", "two\nlines": `"two\nlines"`, "": `""`} {
		assert.Equal(t, want, scalar(text), text)
	}
	assert.Equal(t, "nothing", orNothing(""))
	assert.NoError(t, checkName("Leek pie"))
	assert.ErrorContains(t, checkName("Leek\u202e pie"), "a hidden character is in it")
	assert.ErrorContains(t, checkName(strings.Repeat("x", 121)), longName)
	assert.Equal(t, "ring", orNothing("ring"))
	assert.Equal(t, "a; b", joined("a", "", "b"))
	assert.Equal(t, "a b", oneLine(" a\n b "))
	for _, c := range []struct{ item, amount, note, scales string }{{"salt", "1 tsp", "", "seasoning"}, {"salt", "to taste", "", ""}, {"olive oil", "2 tbsp", "for frying", "fixed"}, {"olive oil", "2 tbsp", "", ""}, {"chilli flakes", "1 tsp", "", "seasoning"}, {"butter", "50 g", "for frying", ""}} {
		food, _ := measures.FoodNamed(c.item)
		assert.Equal(t, c.scales, scalesOf(measures.Line{Food: food, Note: c.note}, writtenOther{amount: units.MustParse(c.amount)}), c)
	}
	for cooking, want := range map[Cooking][2]string{{How: "boil"}: {"boil", "boiled"}, {How: "blanch"}: {"blanch", "blanched"}, {How: "own", Uses: "oven"}: {"oven", "in the oven"}, {How: "own", Uses: "ring"}: {"ring", "on a ring"}, {How: "own", Uses: "grill"}: {"grill", "under the grill"}, {How: "own", Uses: "embers"}: {"embers", "in the embers"}, {How: "own"}: {"own", ""}} {
		assert.Equal(t, want, [2]string{cookWord(cooking), cookedWord(cooking)})
	}
}

// Comments beside the ingredients of a dish file are remarks, but not those in quotes or
// of other keys.
func TestRemarksOfADishFile(t *testing.T) {
	for line, at := range map[string]int{"item: a # b": 8, "item: a#b": -1, "item: 'a # b'": -1, `item: "a # b" # c`: 14, "# all": 0, "it's # so": 5, "[ 'a', # b": 7, "": -1, "item: it's # b": 11} {
		assert.Equal(t, at, commentAt(line), line)
	}
	assert.Equal(t, []string{"one", "two", "three"}, remarksIn([]byte("name: x # no\n- crop: potato # one\n  amount: 1 kg   # two\n  cut: whole # no\n# no\n  state: a # three\n")))
	for prepared, work := range map[string]Handwork{"scrubbed": Scrub, "rubbed": Scrub, "peeled": Peel, "shelled": Shell, "trimmed": Trim, "peeled, trimmed": Peel, AsLifted: Trim, "": Trim} {
		assert.Equal(t, work, CropLine{Prepared: prepared}.Handwork(), prepared)
	}
}

// Cautions about pans and minutes begin past the factors that say so.
func TestWhereCautionsBegin(t *testing.T) {
	d := dishFrom(t, "name: D\nportions: 20\nsmallest: 1\nlargest: 100\ncrops: [{crop: potato, amount: 1 kg, cut: whole, cook: own, takes: 40 min, uses: oven}]\nmethod: [Tip into a 20 cm tin.]\n")
	for portions, want := range map[int64][2]int{4: {1, 1}, 5: {1, 1}, 9: {1, 1}, 10: {1, 0}, 15: {1, 0}, 16: {0, 0}, 20: {0, 0}, 25: {0, 0}, 26: {1, 0}, 30: {1, 0}, 31: {1, 1}, 80: {1, 1}, 81: {1, 1}} {
		var tins, minutes int
		for _, caution := range d.ScaleTo(big.NewRat(portions, 1), DefaultKitchen(units.Metric)).Cautions {
			if strings.Contains(caution, "tin") {
				tins++
			}
			if strings.Contains(caution, "own minutes") {
				minutes++
			}
		}
		assert.Equal(t, want, [2]int{tins, minutes}, "%d of 20", portions)
	}
	for factor, want := range map[[2]int64]string{{9, 2}: "4.5", {1, 8}: "0.12", {120, 1}: "120", {99, 10}: "9.9", {10, 1}: "10", {101, 10}: "10", {999, 100}: "10"} {
		assert.Equal(t, want, shortFactor(big.NewRat(factor[0], factor[1])), factor)
	}
	assert.Len(t, pansIn("a 100 cm tin"), 1)
	assert.Empty(t, pansIn("a 101 cm tin"), "a 400 g tin is none to bake in")
}
