package measures

import (
	"math/rand/v2"
	"strings"
	"testing"

	"trencher/units"
)

// What a line of ingredients is made of: how much, of what, and what is said of it.
var (
	wovenMuch = []string{"1", "2", "500 g", "1 kg", "2 tbsp", "1 heaped tsp", "½", "1½ cups", "2 x 400 g tins", "1 (14 oz) can", "2 large", "3 cloves", "a handful of", "a good pinch of", "about 300 g", "2-3", "one or two", "a couple of", "some", "plenty of", "juice of 1", "zest of ½", "200 ml/7 fl oz", "1 cup (240 ml)", "2 (about 300 g each)", "1 bunch", "small bunch", "a few sprigs of", "1 pint", "5 cm", "l½ lb", "12 oz.", "1 C.", "2 T", "1 tin", "a 15 g bunch", "two 400 g packets", "", "3 large handfuls", "1 medium-sized", "1 thumb-sized piece", "up to 200 g", "1 scant cup", "2 small heads", "a knob", "1 slice"}
	wovenWhat = []string{"potatoes", "floury potatoes", "King Edward potatoes", "carrots", "leek", "onions", "spring onions", "garlic", "lemon", "butter", "unsalted butter", "olive oil", "plain flour", "milk", "eggs", "thyme leaves", "fresh thyme", "ground cumin", "black pepper", "salt and pepper", "chopped tomatoes", "peas", "double cream", "star anise", "leaf beet", "moonleaf", "coal", "ginger root", "bread", "water", "sea salt", "vegetable stock", "Cheddar", "butter beans", "egg yolks", "lemon juice", "salt", "baking powder", "mixed herbs", "squash"}
	wovenSaid = []string{"", "", ", chopped", ", peeled and finely diced", " (optional)", ", plus extra to serve", " or 2 parsnips", " or margarine", ", about 200 g", " (about 200 g)", " (2 kg)", ", to taste", ", for frying", ", cut into 2 cm cubes", ", 3 of them", " from the garden", ", at room temperature", " each", " and 1 egg", ", halved lengthways", " (see note)", ", drained and rinsed", " - 500 g", ": 300 g", ", grated, to serve", ", washed, if you have them", " (I use waxy ones)", ", boiled for 10 minutes", ", made up with 500 ml water", "*", ".", ", divided", " x 2", ", juiced", " 2 tbsp", ", to 300 g", " if needed"}
)

// Lines in every company, as when somebody last read the difference.
func TestWovenLines(t *testing.T) {
	var out strings.Builder
	random := rand.New(rand.NewPCG(20, 16))
	for n := range 1300 {
		text := strings.TrimSpace(wovenMuch[random.IntN(len(wovenMuch))] + " " + wovenWhat[random.IntN(len(wovenWhat))] + wovenSaid[random.IntN(len(wovenSaid))])
		writeRead(&out, text, units.System(n%5))
	}
	reviewed(t, "woven-lines.txt", out.String())
}
