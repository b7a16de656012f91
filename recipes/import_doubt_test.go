package recipes

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// checksOf are the keys that are marked to be checked in a recipe of potatoes,
// carrots and sourdough, with what was taken.
func checksOf(t *testing.T, text string) map[string]string {
	t.Helper()
	im, err := ImportRecipe("a.txt", []byte(text), ImportOptions{System: units.UK, Grown: []string{"potato", "leek"}}, DefaultKitchen(units.UK))
	require.NoError(t, err)
	checks := map[string]string{}
	for _, c := range im.Checks {
		checks[c.Key] = c.Value
	}
	return checks
}

// Where the words of a method leave open how long the potatoes cook, that is
// marked, whatever was taken.
func TestDoubtfulCookingIsMarked(t *testing.T) {
	const list = "Supper\nServes 4\n\n1 kg potatoes\n200 g carrots\n200 g sourdough\n1 clove garlic\n50 g butter\n\nMethod\n"
	for _, method := range []string{
		"Steam or boil the potatoes for 15 minutes.",
		"Fry the potatoes in batches for 10 minutes.",
		"Boil the potatoes for a few minutes, about 12 minutes in all.",
		"Fry the potatoes until golden. Bake the potatoes for 30 minutes.",
		"Boil the potatoes for 15 minutes, then for 5 minutes with the lid off for 3 minutes.",
		"Peel the potatoes. Toast the bread in the oven for 8 minutes.",
		"Boil the potatoes for 10 minutes. Fry the carrots in the butter for 5 minutes.",
		"Roast the potatoes overnight.",
		"Boil the potatoes for 20 minutes. Cool, slip off the skins and slice them. Simmer them in stock for 10 minutes.",
	} {
		assert.Contains(t, checksOf(t, list+method+"\n"), "cook", method)
	}
	for _, method := range []string{
		"Boil the potatoes for 15 minutes. Meanwhile fry the carrots for 5 minutes.",
		"Peel the potatoes and boil them for 15 minutes, then simmer for 5 minutes more.",
		"Roast the potatoes for 40 minutes, turning them every 10 minutes.",
		"Fry the garlic in the butter for 1 minute. Boil the potatoes for 15 minutes.",
	} {
		assert.NotContains(t, checksOf(t, list+method+"\n"), "cook", method)
	}
}

// A name, a number of portions or of steps that could be read otherwise is marked;
// one that could not is left in peace.
func TestWhatIsTrueOfTheWholeIsMarked(t *testing.T) {
	const parts = "1 kg potatoes\n50 g butter\n\nMethod\n"
	const plain = "Boil the potatoes for 20 minutes.\nServe hot.\n"
	for text, want := range map[string]string{
		"Buttered potatoes\nServes 4\n\n" + parts + plain:                                                              "",
		"THE GARDEN PAGE\nI love spring, truly I do.\nButtered potatoes\nServes 4\n\n" + parts + plain:                 "name",
		"Buttered potatoes - from Nell\nServes 4\n\n" + parts + plain:                                                  "name",
		"Buttered potatoes\nServes 4 as a main, 6 as a side\n\n" + parts + plain:                                       "portions",
		"Buttered potatoes\nMakes 4\n\n" + parts + plain:                                                               "portions",
		"Buttered potatoes\nServes 4\n\n" + parts + "Boil the potatoes for 20 minutes. Lovely\nwith ham. Serve hot.\n": "steps",
		"Buttered potatoes\nServes 4\n\n" + parts + "1. Boil the potatoes for 20 minutes.\n3. Serve hot.\n":            "steps",
		"Buttered potatoes\nServes 4\n\n" + parts + "Boil the potatoes and the leeks for 20 minutes.\nServe hot.\n":    "crops",
		"Buttered potatoes\nServes 4\n\n1 bowl leeks\n" + parts + plain:                                                "crops",
		"Buttered potatoes\n\n" + parts + "Boil the potatoes for 20 minutes.\nServe hot. Feeds 4.\n":                   "portions",
		"Buttered potatoes\n\n" + parts + "Boil the potatoes for 20 minutes.\nServe hot. Feeds 4 hungry mouths.\n":     "portions",
		"Buttered potatoes\nServes 4\n\n" + parts + "Boil the potatoes for 20 minutes.\nServe with cold ham.\n":        "served",
	} {
		checks := checksOf(t, text)
		for _, key := range []string{"name", "portions", "steps", "crops", "served"} {
			_, marked := checks[key]
			assert.Equal(t, key == want, marked, fmt.Sprintf("%s of\n%s", key, text))
		}
	}
}
