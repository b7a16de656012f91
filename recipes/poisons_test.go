package recipes

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// What can poison is told wherever a dish can hold it (dishes invented; the rules
// are those of EFSA, Lectins in food (2026); BfR (2024); ANSES (2021); the Danish
// authority's page on pulses; NHS, Sprouted seeds; and as poisons.csv has them).
func TestPoisonsAreFoundWhereverADishHoldsThem(t *testing.T) {
	const crop = "crops: [{crop: potato, amount: 800 g, prepared: scrubbed, cut: halves}]\n"
	for _, c := range []struct {
		dish  string // what follows the crop
		rule  string // "" for none
		grave bool
	}{
		{"others: [{item: dried kidney beans, amount: 100 g}]", "bean-dried-boil", true},
		{"others: [{item: kidney beans, amount: 100 g}]", "bean-dried-boil", true},
		{"others: [{item: kidney beans, amount: 100 g, state: tinned}]", "", false},
		{"others: [{item: tinned cannellini beans, amount: 100 g}]", "", false},
		{"others: [{item: borlotti beans, amount: 100 g, state: soaked overnight}]", "bean-dried-boil", true},
		{"others: [{item: black beans, amount: 100 g, state: dried}]", "bean-dried-boil", true},
		{"others: [{item: butter beans, amount: 100 g}]", "bean-dried-boil", true},
		{"others: [{item: chickpeas, amount: 100 g, state: dried}]", "bean-dried-boil", true},
		{"others: [{item: chickpea flour, amount: 100 g}]", "", false},
		{"others: [{item: soya beans, amount: 100 g}]", "", false},
		{"others: [{item: baked beans, amount: 100 g}]", "", false},
		{"others: [{item: black bean sauce, amount: 1 tbsp}]", "", false},
		{"others: [{item: lentils, amount: 100 g}]", "", false},
		{"others: [{item: French beans, amount: 100 g, state: topped}]", "bean-fresh-strict", true},
		{"others: [{item: runner beans, amount: 100 g, state: \"raw, sliced\"}]", "bean-fresh-strict", true},
		{"others: [{item: butter, amount: 50 g, instead: [{item: green beans, amount: 50 g}]}]", "bean-fresh-strict", true},
		{"method: [Throw in a handful of French beans.]", "bean-fresh-strict", true},
		{"method: [Stir the soaked haricot beans in.]", "bean-dried-boil", true},
		{"others: [{item: beansprouts, amount: 100 g}]", "sprouts-cook", true},
		{"others: [{item: sprouted kidney beans, amount: 100 g}]", "bean-sprout-no", true},
		{"others: [{item: Brussels sprouts, amount: 100 g}]", "", false},
		{"others: [{item: purple sprouting broccoli, amount: 100 g}]", "", false},
		{"others: [{item: courgettes, amount: 100 g}]", "cucurbit-bitter", false},
		{"others: [{item: ornamental gourd, amount: 100 g}]", "cucurbit-seed", true},
		{"others: [{item: pumpkin seeds, amount: 10 g}]", "", false},
		{"others: [{item: rhubarb, amount: 100 g}]", "rhubarb-leaf", false},
		{"others: [{item: rhubarb leaves, amount: 100 g}]", "rhubarb-leaf", true},
		{"others: [{item: elderberries, amount: 100 g}]", "elderberry-raw", true},
		{"others: [{item: broad beans, amount: 100 g}]", "broad-bean-favism", false},
		{"others: [{item: wild garlic, amount: 10 g}]", "wild-garlic-lookalikes", false},
		{"others: [{item: daffodil bulbs, amount: 10 g}]", "daffodil-not-onion", true},
		{"others: [{item: sweet pea flowers, amount: 10 g}]", "sweet-pea-no", true},
		{"method: [Scatter with foxglove flowers.]", "flowers-rule", true},
		{"others: [{item: borage flowers, amount: 3}]", "flowers-rule", false},
		{"others: [{item: tomato leaves, amount: 3}]", "tomato-green", true},
		{"others: [{item: green potatoes, amount: 3}]", "green-bitter-discard", true},
		{"method: [Grate a raw potato over it.]", "potato-not-raw", true},
		{"others: [{item: aubergine, amount: 100 g, state: raw}]", "raw-list-us", true},
		{"others: [{item: carrot, amount: 100 g, state: raw}]", "", false},
		{"others: [{item: butternut squash oil, amount: 1 tbsp}]", "", false},
		{"others: [{item: yellow bean sauce, amount: 1 tbsp}]", "", false},
		{"others: [{item: cauliflower, amount: 100 g}]", "", false},
		{"others: [{item: wild mushrooms, amount: 100 g}]", "anything-else", true},
	} {
		d, err := LoadDish("d.yaml", []byte("name: D\nportions: 4\n"+crop+c.dish+"\n"), DefaultKitchen(units.Metric))
		require.NoError(t, err, c.dish)
		found := d.Poisons()
		if c.rule == "" {
			assert.Empty(t, found, c.dish)
			continue
		}
		require.NotEmpty(t, found, c.dish)
		assert.Equal(t, c.rule, found[0].Rule, c.dish)
		assert.Equal(t, c.grave, found[0].Grave, c.dish)
		assert.NotEmpty(t, found[0].Mend, c.dish)
		assert.NotEmpty(t, found[0].Source, c.dish)
	}
	title, err := LoadDish("d.yaml", []byte("name: Potatoes with green beans\nportions: 4\n"+crop), DefaultKitchen(units.Metric))
	require.NoError(t, err)
	require.Len(t, title.Poisons(), 1)
}

// How a weighed crop is cooked is for the plan to judge, and told there.
func TestAWeighedBeanIsThePlansToJudge(t *testing.T) {
	d, err := LoadDish("d.yaml", []byte("name: Green beans\nportions: 4\ncrops: [{crop: green bean, amount: 800 g, prepared: as-lifted, cut: whole}]\nmethod: [Steam the beans.]\n"), DefaultKitchen(units.Metric))
	require.NoError(t, err)
	assert.Empty(t, d.Poisons())
	_, must := MustBoil("green bean")
	assert.True(t, must)
}
