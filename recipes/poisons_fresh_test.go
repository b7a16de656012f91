package recipes

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Plants and parts of plants labelled by what is published of them before they were
// first tried (EFSA, raw apricot kernels (2016); FSANZ, cassava and bamboo shoots;
// BfR, lupin seeds (2017), unripe tomatoes, glycoalkaloids (2020); CDC MMWR (1984),
// elderberry; EFSA, Lectins in food (2026); the rest from textbooks of poisonous
// garden plants, known by memory). At first sight 45 of the first 69 had no word of
// danger, most of them "not known" for their allergens alone. A plant nobody here knows is none the less told.
func TestFreshPoisons(t *testing.T) {
	for rule, items := range map[string][]string{
		"stone-kernels":          {"apricot kernels", "peach stones, cracked", "bitter almonds", "plum kernels", "cherry stones", "apple pips", "cherry leaves"},
		"cassava-cooked":         {"cassava, grated raw", "manioc", "yuca", "taro, raw", "raw bamboo shoots"},
		"elderberry-raw":         {"elderberries", "elder leaves", "green elderberries"},
		"physalis-ripe":          {"physalis husks", "unripe physalis", "cape gooseberry, green", "tomatillo husks"},
		"green-bitter-discard":   {"potato leaves", "potato berries", "sprouted potatoes", "potato sprouts", "green potatoes"},
		"tomato-green":           {"tomato leaves", "aubergine leaves", "pepper leaves", "nightshade berries"},
		"lupin-bitter":           {"lupin seeds", "bitter lupins", "lupin flowers"},
		"bean-dried-boil":        {"raw kidney beans", "lima beans, raw", "jack beans, soaked"},
		"bean-fresh-strict":      {"runner bean pods, sliced raw", "runner bean roots"},
		"sprouts-cook":           {"mung bean sprouts", "beansprouts", "alfalfa sprouts"},
		"daffodil-not-onion":     {"daffodil petals"},
		"wild-garlic-lookalikes": {"cuckoo pint berries", "lily of the valley leaves", "autumn crocus leaves"},
		"umbel-lookalikes":       {"hemlock leaves"},
		"rhubarb-leaf":           {"rhubarb leaves", "rhubarb flowers"},
		"sweet-pea-no":           {"sweet pea pods", "grass peas", "chickling vetch", "vetch seeds", "ackee"},
		"flowers-rule": {"monkshood flowers", "oleander flowers", "azalea flowers", "wisteria flowers", "buttercup petals", "laburnum pods", "yew berries", "holly berries",
			"ivy berries", "arum leaves", "castor beans", "foxglove leaves", "iris bulbs", "morning glory seeds", "datura", "angel's trumpet flowers", "comfrey leaves", "tansy",
			"pennyroyal", "ragwort", "fiddleheads", "asparagus berries", "privet berries", "horse chestnuts", "conkers", "poke berries", "pokeweed shoots",
			"moonwort leaves", "grumbold berries, raw"},
	} {
		for _, item := range items {
			for _, text := range []string{"others: [{item: \"" + item + "\", amount: 10 g}]\n", "method: [Steam the swede., \"Serve with " + item + ".\"]\n"} {
				d, err := LoadDish("d.yaml", []byte("name: D\nportions: 4\ncrops: [{crop: swede, amount: 800 g, prepared: as-lifted, cut: halves}]\n"+text), DefaultKitchen(units.Metric))
				require.NoError(t, err, item)
				found := d.Poisons()
				if assert.NotEmpty(t, found, text) {
					assert.True(t, found[0].Grave, text)
					rules := ""
					for _, p := range found {
						rules += p.Rule + " "
					}
					assert.Contains(t, rules, rule, text)
				}
			}
		}
	}
}

// What is sold as food or grown for it gives no such alarm.
func TestNoPoisonWhereThereIsNone(t *testing.T) {
	for _, item := range []string{"acorn squash", "sweet potato leaves", "castor sugar", "bay leaves", "lupin flour", "lupins in brine", "tapioca", "boiled cassava", "tinned kidney beans",
		"pumpkin seeds", "mustard seeds", "goji berries", "juniper berries", "curry leaves", "celery leaves", "carrot tops, chopped", "almonds", "chestnuts", "raw beetroot, grated",
		"raw sugar", "raw milk", "sunflower seeds", "vine leaves", "coriander roots", "parsley stalks", "chard stems"} {
		d, err := LoadDish("d.yaml", []byte("name: D\nportions: 4\ncrops: [{crop: swede, amount: 800 g, prepared: as-lifted, cut: halves}]\nothers: [{item: \""+item+"\", amount: 10 g}]\n"), DefaultKitchen(units.Metric))
		require.NoError(t, err, item)
		for _, p := range d.Poisons() {
			assert.False(t, p.Grave, "%s: %s", item, p.Says)
		}
	}
}

// Called raw, a plant of which the table of raw crops says nothing is never passed
// in silence.
func TestRawAndNotInTheTableIsTold(t *testing.T) {
	for item, told := range map[string]bool{"okra, sliced raw": true, "burdock root, raw": true, "raw carrot": false, "raw egg": false, "raw prawns": false} {
		d, err := LoadDish("d.yaml", []byte("name: D\nportions: 4\ncrops: [{crop: swede, amount: 800 g, prepared: as-lifted, cut: halves}]\nothers: [{item: \""+item+"\", amount: 10 g}]\n"), DefaultKitchen(units.Metric))
		require.NoError(t, err, item)
		assert.Equal(t, told, len(d.Poisons()) > 0, item)
	}
}
