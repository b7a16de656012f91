package measures_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/units"
	"trencher/units/measures"
)

// However a cook puts an amount, before its ingredient or behind it, in figures or
// in words, it is read; and where no number is said, none is invented. "?" stands
// before a reading that is to be checked.
func TestAmountsInEveryPlace(t *testing.T) {
	for text, want := range map[string]string{
		"Potatoes 1kg":                         "1 kg | Potatoes",
		"Butter: 50 g, melted":                 "50 g | Butter | melted",
		"Butter 60g + extra to serve":          "60 g | Butter",
		"Swede - 750 g":                        "750 g | Swede",
		"Potatoes ........ 2 lb":               "2 lb | Potatoes",
		"Potatoes (floury), 900g":              "900 g | Potatoes",
		"carrots, 3 large":                     "3 large | carrots",
		"Onion x 2":                            "2 | Onion",
		"Onions (2)":                           "2 | Onions",
		"Egg: one":                             "1 | Egg",
		"Salt: to taste":                       "to taste | Salt",
		"Black pepper: plenty":                 "to taste | Black pepper",
		"Nutmeg: a good grating":               "1 grating | Nutmeg",
		"Parsley - small bunch":                "1 bunch | Parsley | small",
		"1-1/2 teaspoons kosher salt":          "1.5 tsp metric | kosher salt",
		"1/2 a lemon, juiced":                  "0.5 | lemon | juiced",
		"juice 1/2 lemon":                      "0.5 | lemon | juice",
		"two or three carrots":                 "2-3 | carrots",
		"between 1 and 2 tbsp oil":             "1-2 tbsp metric | oil",
		"a couple of carrots":                  "2 | carrots",
		"a good pinch of salt":                 "1 pinch | salt",
		"a large knob of butter":               "1 knob | butter",
		"2 big handfuls of spinach":            "2 handful | spinach",
		"1 good knob butter":                   "1 knob | butter",
		"2 good pinches salt":                  "2 pinch | salt",
		"1 small knob of ginger":               "1 knob | ginger",
		"1 generous glug olive oil":            "1 glug | olive oil",
		"half a good handful of mint":          "0.5 handful | mint",
		"a decent slug of brandy":              "1 glug | brandy",
		"1 nob butter":                         "1 knob | butter",
		"a scant pint of milk":                 "1 pt UK | milk",
		"2 tins chopped tomatoes (400g each)":  "800 g | chopped tomatoes | tinned",
		"a few sprigs of thyme":                "? to taste | thyme",
		"some carrots":                         "? to taste | carrots",
		"Lemon (juice of half)":                "? none | Lemon",
		"Lemon (zest only)":                    "? none | Lemon",
		"2 smidges of flour":                   "? none | smidges of flour",
		"a mug of rice":                        "? none | mug of rice",
		"3 gratings of nutmeg":                 "3 grating | nutmeg",
		"potatoes, cut into 2 cm cubes":        "? none | potatoes | cut into 2 cm cubes",
		"1 butternut squash - approx. 900 g":   "1 | butternut squash",
		"2 courgettes, about 200g each, diced": "2 | courgettes | diced",
		"500 g carrots in 2-3cm chunks":        "500 g | carrots | in 2-3cm chunks",
		"2 leeks into ½ inch slices":           "2 | leeks | into ½ inch slices",
		"900 g zucchini / courgettes":          "900 g | zucchini",
		"250 g mangetout/snow peas, halved":    "250 g | mangetout | halved",
		"500 g beetroot/beets cut in chunks":   "500 g | beetroot | cut in chunks",
		"150 ml dry cider/white wine":          "150 ml | dry cider | or 150 ml white wine",
		"2 tbsp herbs/whatever there is":       "? 2 tbsp metric | herbs/whatever there is",
	} {
		t.Run(text, func(t *testing.T) {
			assert.Equal(t, want, readInWords(text))
		})
	}
}

func readInWords(text string) string {
	l := measures.ReadLine(text, units.UK)
	out := "none"
	if l.Amount.IsValid() {
		out = l.Amount.String()
	}
	if out += " | " + l.Item; l.State != "" {
		out += " | " + l.State
	}
	for _, other := range l.Instead {
		out += " | or " + other.Amount.String() + " " + other.Item
	}
	if !l.Sure() {
		out = "? " + out
	}
	return out
}

// What so many pieces weigh together is kept beside their number: of each where
// it says each.
func TestWeightOfPieces(t *testing.T) {
	for text, grams := range map[string]string{
		"2 courgettes (about 200g each)":       "400 g",
		"2 courgettes, about 200g each, diced": "400 g",
		"4 salmon fillets, about 150g each":    "600 g",
		"1 butternut squash, about 1kg":        "1 kg",
		"3 medium potatoes, about 500 g":       "500 g",
		"3-4 medium potatoes (about 600 g)":    "600 g",
	} {
		l := measures.ReadLine(text, units.UK)
		if assert.Len(t, l.Also, 1, text) {
			assert.Equal(t, grams, l.Also[0].String(), text)
		}
		assert.True(t, l.Sure(), text)
	}
}

// Seasonings in a list without amounts are one item, whatever stands between them;
// what is done to salt, or behind an amount, is not.
func TestSeasoningsInAList(t *testing.T) {
	for text, want := range map[string]string{
		"salt, pepper": "salt and pepper", "Salt, freshly ground black pepper": "Salt and freshly ground black pepper", "sea salt; black pepper": "sea salt and black pepper",
		"salt/pepper": "salt and pepper", "S & P": "s & p", "salt, pepper, nutmeg": "salt, pepper and nutmeg", "salt, pepper, and nutmeg": "salt, pepper and nutmeg",
		"pepper & salt": "pepper & salt", "salt, parsley": "salt", "1 tsp salt, pepper": "salt, pepper",
	} {
		l := measures.ReadLine(text, units.UK)
		assert.Equal(t, want, l.Item, text)
	}
}

// What is only partly understood is doubted, never read for sure: a second number,
// another thing behind a comma, a weight said twice and not the same, a bracket
// that may be of each or of all, a piece of what comes by the spoon.
func TestWhatIsLeftOverIsDoubted(t *testing.T) {
	for _, text := range []string{
		"4 tomatoes, 2 chopped and 2 sliced", "1 onion, stuck with 2 cloves", "500 g peas (1.2 kg in pods)", "1 kg pumpkin (500 g flesh)", "10 oz beetroot - 500 g",
		"500 g beetroot (2 kg)", "carrots, onion, 1 leek", "salt, parsley", "turnip (swede) 500 g", "3 (300 g) beetroot", "beetroot, 3 (300 g)", "1 chilli powder", "2 soy sauce",
		"1 c. à s. oil", "Water, ditto", "1/2 Bunde parsley", "1 wonky can of butter beans", "l½ lb leeks", "2 courgettes, 1 sliced",
		"2 smoots flour", "1 cup milk, soured with 1 tbsp vinegar", "500g potatoes x 2", "Sauce: 2 tbsp:",
	} {
		assert.False(t, measures.ReadLine(text, units.US).Sure(), text)
	}
	for text, want := range map[string]string{
		"1 kg carrots (about 8)": "1 kg", "500 g carrots (4 medium)": "500 g", "1 swede (700 g peeled weight)": "1", "2 leeks, 300 g, sliced": "2", "450 g/1 lb carrots": "450 g",
		"2 leeks, cut into 1 cm rounds": "2", "1 kg potatoes, boiled for 10 minutes": "1 kg", "salt, pepper": "to taste", "4 cloves garlic or 1 tsp garlic powder": "4 clove",
		"1 head garlic, cloves separated": "1 head", "250 g pasta flour (type 00)": "250 g", "½ savoy cabbage": "0.5",
	} {
		got := measures.ReadLine(text, units.US)
		assert.Equal(t, want, got.Amount.String(), text)
		assert.True(t, got.Sure() || got.Food.Food.Name == "", "%s: %s", text, got.Why())
	}
	either := measures.ReadLine("4 cloves garlic or 1 tsp garlic powder", units.US)
	assert.Equal(t, "garlic", either.Item, "not garlic powder by the clove")
}
