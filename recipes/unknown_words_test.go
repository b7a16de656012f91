package recipes

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// What a text brings to the food and no table knows is a food nobody knows; things
// of the kitchen, deeds and how they are done are none (texts invented).
func TestAFoodNobodyKnowsIsFoundInAText(t *testing.T) {
	for _, c := range []struct {
		text    string
		unknown []string
	}{
		{"Serve with lumbang.", []string{"lumbang"}},
		{"Serve with a good spoonful of lumbang sauce.", []string{"lumbang"}},
		{"Potatoes and leeks in sprangle", []string{"sprangle"}},
		{"fried in sprangle, then drained", []string{"sprangle"}},
		{"Scatter over parsley, dill and lumbang seeds; serve at once.", []string{"lumbang"}},
		{"Add the sprangle and two lumbangs.", []string{"sprangle", "lumbangs"}},
		{"Turn over in butter with lumbang and with lumbang.", []string{"lumbang"}},
		{"Serve with Kestrel potatoes.", nil}, // a crop by a sort nobody has heard of
		{"Steam in a battered pan over a lively flame with the lid on for 20 minutes.", nil},
		{"Cut in halves, and those in thick rounds on the slant.", nil},
		{"Dress with oil and lemon while warm; leave to stand in the pan.", nil},
		{"Eat with the fingers, outside, with everything.", nil},
		{"snipped with scissors", nil},
		{"Scatter with bonito flakes.", nil}, // known, and told by its own name
		{"Beat with the freshest zhug you can find.", []string{"zhug"}},
		{"with gorble zhug", []string{"gorble", "zhug"}},
		{"of the garden", nil},
		{"", nil},
		{"with", nil},
		{"with and with, of or", nil},
	} {
		assert.Equal(t, c.unknown, unknownServed(c.text), c.text)
	}
}

// Such a food may hold anything: a dish with it suits nobody who avoids something,
// it is named among what is not known, and the dish file can say what it holds.
func TestAFoodNobodyKnowsMayHoldAnything(t *testing.T) {
	diet, err := ParseDiet("no sesame")
	require.NoError(t, err)
	for dish, unknown := range map[string][]string{
		"name: Roots with lumbang\nothers: [{item: chives, amount: 1 tbsp}]\n":                                            {"the name (lumbang)"},
		"name: Roots\nothers: [{item: chives, amount: 1 tbsp, state: in lumbang}]\n":                                      {"chives (lumbang)"},
		"name: Roots\nothers: [{item: butter, amount: 9 g, instead: [{item: chives, amount: 9 g, state: in lumbang}]}]\n": {"chives (lumbang)"},
		"name: Roots\nmethod: [Steam them., Serve with lumbang.]\n":                                                       {"the method (lumbang)"},
		"name: Roots\nothers: [{item: lumbang, amount: 9 g, contains: none}]\nmethod: [Serve with lumbang.]\n":            nil,
		"name: Roots\nothers: [{item: chives, amount: 1 tbsp, state: in lumbang, contains: none}]\n":                      nil,
	} {
		d, err := LoadDish("d.yaml", []byte(dish+"portions: 4\ncrops: [{crop: swede, amount: 800 g, prepared: as-lifted, cut: halves}]\n"), DefaultKitchen(units.Metric))
		require.NoError(t, err, dish)
		suits, why := d.Suits(diet)
		assert.Equal(t, unknown, d.Unknown(), dish)
		assert.Equal(t, unknown == nil, suits, "%s: %s", dish, why)
	}
}
