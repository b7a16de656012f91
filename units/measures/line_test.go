package measures_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/measures"
)

// The parts of a line, each where it belongs.
func TestReadLine(t *testing.T) {
	for text, want := range map[string][4]string{ // amount, item, state, note
		"900 g waxy potatoes, scrubbed":               {"900 g", "waxy potatoes", "scrubbed", ""},
		"• 2 x 400 g tins chickpeas, drained":         {"800 g", "chickpeas", "tinned, drained", ""},
		"1 (14 oz) can chopped tomatoes":              {"14 oz", "chopped tomatoes", "tinned", ""},
		"2 chopped tomatoes":                          {"2", "tomatoes", "chopped", ""},
		"juice of ½ lemon":                            {"0.5", "lemon", "juice", ""},
		"1 tbsp olive oil, plus extra for drizzling":  {"1 tbsp metric", "olive oil", "", "plus extra for drizzling"},
		"2 large cloves of garlic":                    {"2 clove", "garlic", "large", ""},
		"handful of parsley":                          {"1 handful", "parsley", "", ""},
		"oil, for frying":                             {"to taste", "oil", "", "for frying"},
		"1 pint/600 ml milk":                          {"1 pt UK", "milk", "", ""},
		"3 Kestrel potatoes (from the garden), diced": {"3", "Kestrel potatoes", "diced", "from the garden"},
		"2 heaped tbsp flour":                         {"2 heaped tbsp metric", "flour", "", ""},
		"500g leaf beet":                              {"500 g", "leaf beet", "", ""},
		"1 drained tin of butter beans":               {"1 tin", "butter beans", "drained", ""},
		"2 packed cups kale":                          {"2 cup metric", "kale", "packed", ""},
		"1 kg butternut squash peeled and cubed":      {"1 kg", "butternut squash", "peeled and cubed", ""},
		"a clove or two of garlic":                    {"1-2 clove", "garlic", "", ""},
		"a pound and a half of potatoes":              {"1.5 lb", "potatoes", "", ""},
		"1/2 C WATER":                                 {"0.5 cup metric", "water", "", ""},
		"2 EL Butter":                                 {"2 tbsp metric", "Butter", "", ""},
	} {
		l := measures.ReadLine(text, units.Metric)
		require.True(t, l.Sure(), "%s: %s", text, l.Why())
		assert.Equal(t, want, [4]string{l.Amount.String(), l.Item, l.State, l.Note}, text)
		assert.True(t, l.Known, text)
	}
}

// What is not understood is a doubt with its reason, never an amount.
func TestDoubtfulLines(t *testing.T) {
	for text, why := range map[string]string{
		"2 smoots flour":             `"1 smoots": unknown unit "smoots"`,
		"1 cup milk":                 "a cup may be",
		"2 carrots and 1 onion":      "more than one thing in a line",
		"4 cloves":                   "of garlic, or the spice?",
		"potatoes":                   "no amount",
		"1 posh or plain pepper":     "one of two things",
		"1 tsp each salt and pepper": "so much of each",
		"2,750 g flour":              "a comma before three digits",
	} {
		l := measures.ReadLine(text, units.UK)
		assert.False(t, l.Sure(), text)
		assert.Contains(t, l.Why(), why, text)
		assert.Equal(t, text, l.Text, "the words are kept")
	}
	assert.Equal(t, measures.Heading, measures.ReadLine("For the dressing:", units.UK).Kind)
	assert.Equal(t, measures.Blank, measures.ReadLine(" • ", units.UK).Kind)
}

// A name is found whole, with nothing beside it but words that may stand there.
func TestFoodsAreNamedWhole(t *testing.T) {
	for text, family := range map[string]string{
		"waxy potatoes": "potato", "sweet potatoes": "sweet potato", "peanut butter": "peanut butter", "chick peas": "chickpea",
		"eggplant": "aubergine", "kosher salt": "salt", "large ripe tomatoes": "tomato", "unsalted butter": "butter", "water": "water",
		"Kestrel potatoes": "potato", "finely chopped onion": "onion", "cayenne pepper": "cayenne",
	} {
		m, ok := measures.FoodNamed(text)
		require.True(t, ok, text)
		assert.Equal(t, family, m.Food.Family, text)
	}
	for _, text := range []string{"vegan chicken pieces", "butter flavoured popcorn", "potato ricer", "Kestrel butter", "dairy-free milk powder", ""} {
		m, ok := measures.FoodNamed(text)
		assert.False(t, ok, "%s is no %s", text, m.Food.Name)
	}
	assert.Greater(t, len(measures.FoodNames()), 1000)
}
