package recipes

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"trencher/units"
)

// Lists and steps that stand at the edges of what is asked of them.
var (
	wovenGoods = []string{"900 g potatoes, scrubbed", "2 large potatoes", "4 floury potatoes, quartered", "300 g carrots, cut into 2 cm batons", "2 carrots", "1 carrot, diced", "500 g leeks, finely sliced", "a bunch of leeks", "100 g peas", "99 g peas, shelled", "25 g peas", "2 onions", "1 onion, chopped", "50 g butter", "2 tbsp oil, for frying", "salt", "1 tsp salt", "½ tsp paprika", "1 tin tomatoes",
		"400 g spinach or chard", "6 eggs (optional)", "2 smoots of moonleaf", "500 g each of parsnips and swede", "1 kg frozen peas", "1 pint milk", "10 kg coal", "20000 peppercorns", "2 cloves garlic, crushed", "300 g French beans, topped and tailed", "700 g beetroot, whole", "200 g radishes", "1 cucumber, sliced 5 mm thick", "a pumpkin", "800 g waxy potatoes, in wedges", "1 kg new potatoes (about 20)", "Carrots: some", "450 g/1 lb kale"}
	wovenSteps = []string{"Boil the potatoes in salted water for 18-20 minutes.", "Boil the potatoes for 15 minutes, then fry the onions for 5 minutes.", "Steam the carrots until just tender.", "Steam the carrots for 8 minutes until soft.", "Add the leeks and cook for 5 minutes more.", "Add the carrots for the last 5 minutes.", "Fry the onions in the butter for 10 minutes.", "Roast everything in the oven at 200 C for 40 minutes.", "Roast for an hour, turning once.", "Simmer gently for half an hour.", "Bring to the boil.", "Cook for 10 minutes.",
		"Cook in the butter for 10 minutes.", "Meanwhile, boil the beans for 4 minutes.", "In another pan, fry the garlic for 1 minute.", "Grill the slices for 3 minutes each side.", "Blanch the beans for 2 minutes and drain.", "Bake the beetroot in the embers for 1½ hours.", "Cook in a pressure cooker for 6 minutes.", "Cut the carrots into 2 cm cubes.", "Halve the potatoes.", "Slice the leeks.", "Leave to stand for 10 minutes.", "Drain and mash with the butter.", "Add the rest and simmer for 3-4 minutes, then cover and leave for 5 minutes.", "Toast the bread for 2 minutes.",
		"Put the potatoes in a steamer for 25 minutes, then toss them in butter.", "Stir in the eggs and set for a minute or so.", "Fry, then boil the carrots for as long again.", "Return to the pan for another 2 minutes.", "Serve hot.", "Serve warm or at room temperature.", "Serve at once.", "Leave to cool completely and chill.", "Eat cold with the salad.", "Serves 4.", "This feeds 6 people.", "Cook for 15 hours in batches.", "Warm the plates.", "Cook the potatoes for 5-10 minutes or until tender or soft.", "Braise the leeks in stock in the oven for 30 minutes.", "Parboil the potatoes for 5 minutes and roast them for 45 minutes at 220 C.", "Grate the carrots and mix with the oil."}
	wovenYields = []string{"Serves 4", "Serves 4-6", "Makes 12", "", "For two", "Serves 501", "Serves a crowd", "1 loaf"}
)

// Lists and steps in every company, and what is made of each recipe, as when somebody
// last read the difference: its crops and how they are cooked, and what is to be checked.
func TestWovenRecipes(t *testing.T) {
	var out strings.Builder
	random := rand.New(rand.NewPCG(20, 16))
	some := func(of []string, least, most int) string {
		var lines []string
		for range least + random.IntN(most-least+1) {
			lines = append(lines, of[random.IntN(len(of))])
		}
		return strings.Join(lines, "\n")
	}
	for n := range 180 {
		text := "A dish\n" + wovenYields[random.IntN(len(wovenYields))] + "\n\nIngredients\n" + some(wovenGoods, 2, 4) + "\n\nMethod\n" + some(wovenSteps, 1, 4) + "\n"
		o := ImportOptions{System: units.System(1 + n%4)}
		switch n % 5 {
		case 1:
			o.Grown = []string{"potato", "carrot", "leek"}
		case 2:
			o.Grown = []string{"pea", "French bean", "beetroot", "onion"}
		}
		im, err := ImportRecipe("a.txt", []byte(text), o, DefaultKitchen(o.System))
		fmt.Fprintf(&out, "%d: %s\n", n, strings.Join(strings.Fields(text[strings.Index(text, "Ingredients")+11:]), " "))
		if err != nil {
			fmt.Fprintln(&out, "  !", err)
			continue
		}
		fmt.Fprintf(&out, "  %d %s", im.Portions, im.Served)
		for _, c := range im.Dish.Crops {
			fmt.Fprintf(&out, "; %s %s %s %s %s %d %s %s", c.Crop, c.Amount, c.Prepared, c.Cut, c.Cook, c.Minutes, c.Uses, c.Until)
		}
		fmt.Fprintln(&out)
		for _, c := range im.Checks {
			fmt.Fprintf(&out, "  %s: %s\n", c.Key, c.Value)
		}
		for _, q := range im.Open {
			fmt.Fprintf(&out, "  ? %s\n", q)
		}
		for _, l := range im.Lines {
			if !l.Sure() {
				fmt.Fprintf(&out, "  %d %s\n", l.Number, l.Why())
			}
		}
	}
	goldenLines(t, "../testdata/recipes/woven-dishes.txt", out.String())
}
