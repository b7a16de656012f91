package measures_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units/measures"
)

// No two crops share a name or an id, and every name leads to its crop, in
// capitals and in the plural too.
func TestEveryCropNameLeadsToItsCrop(t *testing.T) {
	ids, names := map[string]bool{}, map[string]string{}
	for _, crop := range measures.Crops() {
		assert.Regexp(t, `^[a-z]+(-[a-z]+)*$`, crop.ID)
		assert.False(t, ids[crop.ID], "%s stands twice", crop.ID)
		ids[crop.ID] = true
		byID, ok := measures.CropByID(crop.ID)
		require.True(t, ok)
		assert.Equal(t, crop, byID)
		for _, name := range append([]string{crop.Name}, crop.Names...) {
			other, taken := names[strings.ToLower(name)]
			assert.False(t, taken, "%q is a name of %s and of %s", name, other, crop.Name)
			names[strings.ToLower(name)] = crop.Name
			plural := strings.TrimSuffix(name, "s") + "s"
			for _, form := range []string{name, strings.ToUpper(name), " " + name + " ", plural} {
				found, ok := measures.CropNamed(form)
				require.True(t, ok, form)
				assert.Equal(t, crop.ID, found.ID, "%q", form)
			}
		}
	}
	assert.GreaterOrEqual(t, len(ids), 110)
}

// What a crop counts as in the kitchen is a crop of the table that counts as
// itself, and the two are kin both ways.
func TestCropsInTheKitchen(t *testing.T) {
	apart := 0
	for _, crop := range measures.Crops() {
		kitchen := crop.InKitchen()
		assert.Equal(t, kitchen, kitchen.InKitchen(), crop.Name)
		kin := map[string]bool{}
		for _, each := range crop.Kin() {
			assert.False(t, kin[each.ID], "%s twice among the kin of %s", each.ID, crop.ID)
			kin[each.ID] = true
		}
		assert.Equal(t, crop, crop.Kin()[0])
		if kitchen.ID != crop.ID {
			apart++
			assert.Contains(t, crop.Kin(), kitchen)
			assert.Contains(t, kitchen.Kin(), crop)
		}
	}
	assert.GreaterOrEqual(t, apart, 7)
}

// Names of the trade (common practice, no source): whole names alone, singular
// or plural, with what is not known coming back folded.
func TestCropIDs(t *testing.T) {
	for text, id := range map[string]string{
		"Potatoes": "potato", "new potato": "potato", "tomatoes": "tomato", "Radishes": "radish", "raspberries": "raspberry",
		"French beans": "french-bean", "bush beans": "dwarf-french-bean", "zucchini": "courgette", "chillies": "chilli", "chilis": "chilli",
		"beet leaves": "beet-leaf", "salad leaves": "salad-leaf", "Chinese leaves": "chinese-cabbage", "sweet-potatoes": "sweet-potato",
		"corn on the cob": "sweetcorn", "Lamb’s lettuce": "lambs-lettuce", "mâche": "lambs-lettuce", "lettuces": "lettuce",
		"lettuce, head": "head-lettuce", "onions (dry).": "onions (dry)", "onion (dry)": "onion", "asparagus": "asparagus",
		"potato salad": "potato salad", "sweet potato flour": "sweet potato flour", "mint sauce": "mint sauce",
		"Moonroot": "moonroot", "  Crème   Verte. ": "creme verte", "": "",
	} {
		assert.Equal(t, id, measures.CropID(text), "%q", text)
	}
	_, ok := measures.CropByID("moonroot")
	assert.False(t, ok)
	assert.Panics(t, func() { measures.MustCrop("moonroot") }, "a table of figures that names no crop is a bug")
}

func ExampleCropNamed() {
	crop, _ := measures.CropNamed("Bush beans")
	fmt.Println(crop.ID, "is the", crop.Name, "and in the kitchen a", crop.InKitchen().Name)
	_, known := measures.CropNamed("bean soup")
	fmt.Println("bean soup is a crop:", known)
	// Output:
	// dwarf-french-bean is the dwarf French bean and in the kitchen a French bean
	// bean soup is a crop: false
}

// The name of a crop at the beginning of some words is the longest, of three words at
// most, that is one by itself.
func TestCropAt(t *testing.T) {
	for text, want := range map[string]int{"moonleaf": 0, "": 0, "spring onion soup": 2, "onion soup": 1, "peas": 1, "french beans and peas": 2, "purple sprouting broccoli": 3, "sound spring onion": 0} {
		assert.Equal(t, want, measures.CropAt(strings.Fields(text)), text)
	}
	var words []string
	for _, crop := range measures.Crops() {
		for _, name := range append(crop.Names, crop.Name) {
			words = append(words, strings.Fields(measures.Fold(name))...)
			words = append(words, measures.Stem(words[len(words)-1]), words[len(words)-1]+"s")
		}
	}
	random := rand.New(rand.NewPCG(8, 15))
	for range 3000 {
		some := []string{words[random.IntN(len(words))], words[random.IntN(len(words))], words[random.IntN(len(words))], "soup"}
		if i := random.IntN(len(words) - 3); random.IntN(2) == 0 {
			some = words[i : i+3] // as they follow one another
		}
		want := 0
		for n := range 3 {
			if _, ok := measures.CropNamed(strings.Join(some[:n+1], " ")); ok {
				want = n + 1
			}
		}
		assert.Equal(t, want, measures.CropAt(some), "%q", some)
	}
}
