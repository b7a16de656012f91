package recipes

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/measures"
)

// What a cook writes beside an ingredient brings an allergen in: words and
// dishes invented, the allergens those of Regulation (EU) No 1169/2011, Annex II.
var hidden = []struct {
	words    string
	allergen Allergen
}{
	{"fried in butter", Milk}, {"tossed in butter", Milk}, {"with grated cheese", Milk}, {"creamed", Milk}, {"poached in milk", Milk},
	{"with soured cream", Milk}, {"in a cream sauce", Milk}, {"dressed with yoghurt", Milk}, {"brushed with ghee", Milk}, {"with feta", Milk},
	{"with crushed peanuts", Peanuts}, {"scattered with peanuts", Peanuts}, {"with peanut butter", Peanuts}, {"in groundnut oil", Peanuts},
	{"with toasted almonds", Nuts}, {"and chopped walnuts", Nuts}, {"rolled in hazelnuts", Nuts}, {"with cashew cream", Nuts},
	{"in mayonnaise", Egg}, {"egg-washed", Egg}, {"bound with egg", Egg}, {"with aioli", Egg}, {"topped with a poached egg", Egg},
	{"dusted with flour", Gluten}, {"breaded", Gluten}, {"battered", Gluten}, {"with croutons", Gluten}, {"in beer", Gluten}, {"with couscous", Gluten},
	{"with soy sauce", Soya}, {"with tofu", Soya}, {"dressed with tahini", Sesame}, {"with sesame seeds", Sesame},
	{"with mustard", Mustard}, {"with celery salt", Celery}, {"and celeriac", Celery},
	{"with anchovies", Fish}, {"with fish sauce", Fish}, {"with smoked salmon", Fish}, {"with prawns", Crustaceans}, {"with crab", Crustaceans},
	{"with mussels", Molluscs}, {"with oyster sauce", Molluscs}, {"with lupin flour", Lupin}, {"with white wine vinegar", Sulphites},
}

// Wherever the word stands, no guest who must not have it is told that the dish
// suits: 45 phrases in a state, an alternative's state, a step, a title and a
// name that the table does not know, more than 200 dishes.
func TestNoHiddenAllergenSuits(t *testing.T) {
	places := map[string]string{
		"state":    "name: D\nothers: [{item: onion, amount: 50 g, state: %q}]\n",
		"instead":  "name: D\nothers: [{item: onion, amount: 50 g, instead: [{item: leek, amount: 50 g, state: %q}]}]\n",
		"step":     "name: D\nothers: [{item: onion, amount: 50 g}]\nmethod: [Steam., \"Serve %s.\"]\n",
		"title":    "name: \"Potatoes %s\"\n",
		"unknown":  "name: D\nothers: [{item: \"moonleaf %s\", amount: 50 g}]\n",
		"one step": "name: D\nmethod: [\"Peel, steam and %s; keep warm.\"]\n",
		"capitals": "name: \"%s\"\nothers: []\n",
	}
	dishes := 0
	for _, one := range hidden {
		for place, text := range places {
			words := one.words
			if place == "capitals" {
				words = strings.ToUpper(words)
			}
			head, rest, _ := strings.Cut(fmt.Sprintf(text, words), "\n")
			d, err := LoadDish("d.yaml", []byte(head+"\nportions: 4\ncrops: [{crop: potato, amount: 800 g, prepared: scrubbed, cut: halves}]\n"+rest), DefaultKitchen(units.Metric))
			require.NoError(t, err, "%s in the %s", one.words, place)
			dishes++
			suits, _ := d.Suits(Diet{avoid: mark(one.allergen)})
			assert.False(t, suits, "%s in the %s hides %s", one.words, place, one.allergen)
			if place != "unknown" {
				assert.NotEmpty(t, d.Because()[one.allergen], "%s in the %s", one.words, place)
			}
		}
	}
	assert.GreaterOrEqual(t, dishes, 300)
}

// A longer name hides the allergen that only sounds in it.
func TestTrapsBringNothing(t *testing.T) {
	for _, words := range []string{"butternut squash", "butter beans", "butterhead lettuce", "eggplant", "coconut milk", "rice noodles", "cream of tartar", "buckwheat", "cocoa butter", "nutmeg"} {
		for _, one := range carriersIn("Serve with " + words) {
			assert.Zero(t, one.contains, "%s brings %s", words, one.words)
		}
	}
}

// A file that says none where a word names an allergen contradicts itself.
func TestNoneNeverOverrulesAWord(t *testing.T) {
	for _, line := range []string{"{item: my butter, amount: 50 g, contains: none}", "{item: onion, amount: 50 g, state: fried in butter, contains: none}"} {
		_, err := LoadDish("d.yaml", []byte("name: D\nportions: 4\ncrops: [{crop: potato, amount: 800 g, prepared: scrubbed, cut: halves}]\nothers: ["+line+"]\n"), DefaultKitchen(units.Metric))
		require.ErrorContains(t, err, "contains milk", line)
	}
}

// Plain produce is known, as the crop table names it and as a shop does: no more
// than one name in a hundred may be left to "may contain anything".
func TestPlainProduceIsKnown(t *testing.T) {
	var names, unknown []string
	for _, crop := range measures.Crops() {
		for _, name := range append([]string{crop.Name}, crop.Names...) {
			names = append(names, name, "large "+name, "fresh "+name, name+", chopped")
		}
	}
	names = append(names, "water", "cold water", "boiling water", "ice", "salt", "sea salt", "flaky sea salt", "black pepper", "sugar", "parsley", "flat-leaf parsley",
		"thyme", "rosemary", "sage", "oregano", "marjoram", "tarragon", "chervil", "dill", "coriander", "basil", "mint", "bay leaves", "lemon", "lime", "apple", "olive oil")
	for _, name := range names {
		if !Allergens(name).Known {
			unknown = append(unknown, name)
		}
	}
	require.GreaterOrEqual(t, len(names), 500)
	assert.LessOrEqual(t, len(unknown)*100, len(names), "%q", unknown)
}
