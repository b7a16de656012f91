package recipes

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// A recipe told in sentences has the lines that its sentences say the amounts of,
// each to be checked, and keeps its text as steps. Times, sizes, vessels, what is
// shared out again and how many eat are no ingredients.
func TestProseHasTheLinesItsSentencesName(t *testing.T) {
	for text, want := range map[string][]string{
		"Boil 500 g potatoes in salted water for 20 minutes, then toss with 50 g butter. Serve hot.": {"500 g potatoes", "50 g butter"},
		"Take six fat leeks and a pound and a half of potatoes. Melt 2 oz of butter in a big pan and sweat the leeks in it for ten minutes. Simmer in 1 pt UK of stock for half an hour. Serve hot.": {
			"six fat leeks", "a pound and a half of potatoes", "2 oz of butter", "1 pt UK of stock"},
		"Heat 2 tbsp. of oil in a 26 cm pan and fry 1 chopped onion for 5 minutes. Stir in a tbsp each of ground cumin and coriander. Add 1 kg potatoes (peeled weight), cut into 3 cm cubes, one 400 ml tin of coconut milk and 200 ml water. Simmer 20 minutes. Serve over 300 g rice, hot.": {
			"2 tbsp of oil", "1 chopped onion", "a tbsp each of ground cumin and coriander", "1 kg potatoes (peeled weight)", "one 400 ml tin of coconut milk", "200 ml water", "300 g rice"},
		"You take 1.5kg of floury potatoes, cut them in 4 and steam for 25 mins. Warm 150ml milk with 75g butter. Mash, beat in half the milk, then the other half, plus 2 egg yolks. Serve hot in a 2 litre bowl.": {
			"1.5kg of floury potatoes", "150ml milk", "75g butter", "2 egg yolks"},
		"Steam 1 kg potatoes. Fold in a large handful of mint, the juice of half a lemon, 30 g moonwort and a little oil. Serve hot.": {
			"1 kg potatoes", "a large handful of mint", "juice of half a lemon", "30 g moonwort", "a little oil"},
	} {
		im, err := ImportRecipe("a.txt", []byte("Supper\nServes 4\n\n"+text+"\n"), ImportOptions{System: units.UK, Grown: []string{"potato"}}, DefaultKitchen(units.UK))
		require.NoError(t, err)
		var lines []string
		steps := ""
		for _, l := range im.Lines {
			if l.As == AsStep {
				steps += l.Text
			}
			if l.As == AsCrop || l.As == AsOther {
				lines = append(lines, l.Text)
				assert.False(t, l.Sure(), l.Text)
			}
		}
		assert.Equal(t, want, lines)
		assert.Equal(t, text, steps)
		require.NotEmpty(t, im.Text, text)
		assert.Equal(t, "potato", im.Dish.Crops[0].Crop)
	}
}

// A line found in a sentence is corrected, and left out, by its number, as any other.
func TestLinesOfProseAreCorrected(t *testing.T) {
	text := []byte("Supper\nServes 4\n\nBoil 500 g potatoes for 20 minutes, then toss with 50 g butter. Serve hot.\n")
	im, err := ImportRecipe("a.txt", text, ImportOptions{System: units.UK, Rewrite: map[int]string{4: "600 g potatoes", 5: ""}}, DefaultKitchen(units.UK))
	require.NoError(t, err)
	assert.Equal(t, "600 g", im.Dish.Crops[0].Amount.String())
	assert.Empty(t, im.Dish.Others)
	assert.Contains(t, strings.Join(im.Dish.Method, " "), "500 g potatoes")
}

// What joins two foods that are known is known: its allergens are those of both. A
// name too long to be one is taken apart for nobody.
func TestJoinedFoodsAreNoDoubt(t *testing.T) {
	text := "Potatoes\nServes 4\n\nIngredients\n1 kg potatoes\nsalt and black pepper\nsea salt & freshly ground black pepper\nsalt and moonwort\n\nMethod\nBoil the potatoes for 20 minutes.\n"
	read, err := ImportRecipe("a.txt", []byte(text), ImportOptions{System: units.UK}, DefaultKitchen(units.UK))
	require.NoError(t, err)
	doubted := map[string]bool{}
	for _, line := range read.Lines {
		doubted[line.Text] = len(line.Doubts) > 0
	}
	assert.False(t, doubted["salt and black pepper"])
	assert.False(t, doubted["sea salt & freshly ground black pepper"])
	assert.True(t, doubted["salt and moonwort"])
	contains, may := Allergens("butter and mustard").contains, Allergens("butter and mustard").may
	assert.Equal(t, parseMarks("milk;mustard"), contains|may&parseMarks("mustard"))
	assert.False(t, Allergens("salt"+strings.Repeat(" and salt", 30)).Known)
}

// How a crop is cut stands in the steps, whatever the verb stands before and by
// whichever of its names the crop goes.
func TestStepsSayHowACropIsCut(t *testing.T) {
	for step, cut := range map[string]string{
		"Slice potatoes to the thickness of a pound coin.": "slice 5 mm",
		"Chop the spuds.":               "cube 20 mm",
		"Chop up potatoes roughly.":     "cube 20 mm",
		"Dice spuds small.":             "cube 15 mm",
		"Cut spuds in half.":            "halves",
		"Slice the potatoes 8mm thick.": "slice 8 mm",
		"Serve with a slice of bread.":  "",
	} {
		text := "Spuds\nServes 4\n\nIngredients\n1 kg potatoes\n50g butter\n\nMethod\n" + step + "\nSteam the potatoes for 15 minutes. Serve hot.\n"
		read, err := ImportRecipe("a.txt", []byte(text), ImportOptions{System: units.UK}, DefaultKitchen(units.UK))
		require.NoError(t, err)
		require.Len(t, read.Dish.Crops, 1, step)
		got := read.Dish.Crops[0].Cut
		if cut == "" {
			cut = "whole"
		}
		assert.Equal(t, cut, got, step)
	}
}
