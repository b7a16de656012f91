package recipes

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// randomDish writes the file of a random dish: every key there is, some left
// out, names and words with all that YAML, JSON and HTML make something of.
func randomDish(r *rand.Rand) string {
	var out strings.Builder
	write := func(format string, values ...any) { fmt.Fprintf(&out, format+"\n", values...) }
	pick := func(words ...string) string { return words[r.IntN(len(words))] }
	maybe := func(format string, values ...any) {
		if r.IntN(2) == 0 {
			write(format, values...)
		}
	}
	nasty := func() string {
		return pick("a plain one", "yes", "3", "salt & \"pepper\"", "it's: #1", "- x", "<b>bold</b> & so", "1. numbered", "½ of it", "a, b; c", "&amp; {x}", "null", "*star", "crème brûlée", "a  b", "@home", "100 %")
	}
	write("name: %q", "Dish "+nasty())
	portions := 1 + r.IntN(12)
	write("portions: %d", portions)
	maybe("served: %s", pick("hot", "warm", "cold"))
	maybe("smallest: %d", 1+r.IntN(portions))
	maybe("largest: %d", portions+r.IntN(40))
	maybe("wish: %s", pick("2", "0.5", "1.25"))
	write("crops:")
	for _, crop := range [][]string{{"potato", "peeled", "scrubbed"}, {"carrot", "peeled", "scrubbed"}, {"onion", "peeled"}}[:1+r.IntN(3)] {
		write("  - crop: %s", crop[0])
		write("    amount: %s", pick("720 g", "1.25 kg", "2.25 lb", "83 1/3 g"))
		maybe("    prepared: %s", pick(crop[1:]...))
		if crop[0] == "potato" {
			maybe("    texture: %s", pick("waxy", "floury"))
		}
		maybe("    sizes: %s", pick("20-45 mm", "45-65 mm"))
		maybe("    cut: %s", pick("cube 25 mm", "whole", "halves", "slice 5 mm", "baton 10 mm", "box 20x20x40 mm", "eighths 80 mm"))
		switch cook := pick("", "steam", "boil", "blanch", "own"); cook {
		case "":
			maybe("    until: %s", pick("just-tender", "tender", "soft"))
		case "steam":
			write("    cook: steam")
			maybe("    until: %s", pick("just-tender", "tender", "soft"))
		default:
			write("    cook: %s\n    takes: %d min", cook, 1+r.IntN(90))
			maybe("    uses: %s", pick("ring", "oven", "grill", "embers", "nothing"))
		}
		maybe("    contains: [%s]", pick("sulphites", "celery, milk"))
	}
	maybe("    # to be bought\n    # in time")
	write("others:")
	amount := func() string {
		return pick("60 g", "2 tbsp metric", "0.5 pt UK", "1 1/3 cup US", "3", "1", "2 clove", "1-2 tbsp AU", "to taste", "1 pinch", "250 ml", "3 large", "2 tin", "1 bunch", "0.5", "2 cm")
	}
	for i := range 1 + r.IntN(5) {
		write("  - item: %q", fmt.Sprintf("%s %d", pick("butter", "spring onion", "leaf", "cherry", "olive oil", nasty()), i))
		write("    amount: %s%s", amount(), pick("", "", "   # from the corner shop, made with nuts"))
		maybe("    state: %q", pick("chopped", "finely sliced", "melted, and cooled", "<i>raw</i>"))
		maybe("    from: %s", pick("plot", "shop"))
		maybe("    optional: %s", pick("true", "false"))
		maybe("    scales: %s", pick("linear", "seasoning", "fixed"))
		maybe("    contains: %s", pick("[fish]", "[gluten, eggs]", "[meat]"))
		if r.IntN(3) == 0 {
			write("    instead:\n      - {item: %q, amount: %s, state: grated, contains: [nuts]}", "another "+nasty(), amount())
		}
	}
	if r.IntN(4) > 0 {
		write("method:")
		for range 1 + r.IntN(3) {
			write("  - %q", nasty())
		}
	}
	if r.IntN(2) == 0 {
		write("steps:\n  - {do: %q, takes: %d min, uses: %s}", "Warm the "+nasty(), 1+r.IntN(30), pick("ring", "nothing", "oven"))
	}
	return out.String()
}

// A dish goes out as JSON-LD, comes in again and is the same in every field; and
// what goes out the second time is the same to the byte.
func TestDishesComeBackUnharmed(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 5))
	dishes := 50
	if os.Getenv("TRENCHER_LONG") != "" {
		dishes = 500
	}
	for _, system := range []units.System{units.Metric, units.UK} {
		kitchen := DefaultKitchen(system)
		for range dishes {
			file := randomDish(r)
			dish, err := LoadDish("d.yaml", []byte(file), kitchen)
			require.NoError(t, err, file)
			out, err := dish.JSONLD()
			require.NoError(t, err)
			im, err := ImportRecipe("d.yaml", out, ImportOptions{System: system}, kitchen)
			require.NoError(t, err, "%s\n%s", file, out)
			require.Empty(t, im.Open, file)
			require.Equal(t, dish, im.Dish, "%s\n%s\n%s", file, out, im.Text)
			again, err := im.Dish.JSONLD()
			require.NoError(t, err)
			require.Equal(t, string(out), string(again))
		}
	}
}

// A line that somebody changed in the exported recipe is read by what it says
// now; the others stay as they were.
func TestAChangedLineCounts(t *testing.T) {
	dish, err := LoadDish("dish.yaml", readFile(t, dishFile), DefaultKitchen(units.Metric))
	require.NoError(t, err)
	out, err := dish.JSONLD()
	require.NoError(t, err)
	changed := strings.Replace(string(out), `"60 g butter"`, `"40 g lard"`, 1)
	im, err := ImportRecipe("d.json", []byte(changed), ImportOptions{System: units.Metric}, DefaultKitchen(units.Metric))
	require.NoError(t, err)
	assert.Equal(t, dish.Crops, im.Dish.Crops)
	assert.Equal(t, "lard", im.Dish.Others[0].Item)
	assert.Equal(t, "40 g", im.Dish.Others[0].Amount.String())
	broken := strings.Replace(string(out), "{crop: potato, amount: 720 g", "{crop: potato, amount: 720 smoots", 1)
	im, err = ImportRecipe("d.json", []byte(broken), ImportOptions{System: units.Metric}, DefaultKitchen(units.Metric))
	require.NoError(t, err)
	assert.Equal(t, "720 g", im.Dish.Crops[0].Amount.String(), "what is stated and makes no dish is not believed: the line is read")
}

// An exported line is English as a cook writes it.
func TestExportedLines(t *testing.T) {
	for amount, want := range map[string]string{
		"2 tbsp metric": "2 metric tbsp leaves", "1 1/3 cup US": "1 1/3 US cups leaves", "0.5 pt UK": "0.5 UK pt leaves", "3": "3 leaves", "1": "1 leaf",
		"to taste": "leaf, to taste", "3 large": "3 large leaves", "250 g": "250 g leaf", "1 pinch": "1 pinch leaf",
	} {
		got := itemText(units.MustParse(amount), "leaf", "")
		if strings.Contains(want, "metric") || strings.Contains(want, "US") || strings.Contains(want, "UK") {
			want = strings.Replace(want, "leaves", "leaf", 1)
		}
		assert.Equal(t, want, got, amount)
	}
	for name, want := range map[string]string{"potato": "potatoes", "cherry": "cherries", "kale": "kale", "spring onion": "spring onions", "radish": "radishes", "peas": "peas", "bay leaf": "bay leaves", "egg": "eggs", "tomato": "tomatoes", "": ""} {
		assert.Equal(t, want, plural(name))
	}
}
