package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// outdoors is one ring, one layer, no fridge and one lift of waxy potatoes for
// two small dishes. It is invented.
var outdoors = map[string]string{
	"kitchen.yaml": `measures: metric
steamer: {diameter: 280 mm, tiers: 1}
stove: {power: 1.6 kW, gas: butane, rings: 1}
fridge: none
room: 18 C
`,
	"plantings.yaml": "- {id: tub-1, crop: potato, planted: 2031-04-02, tub: 40 l, texture: waxy}\n",
	"journal/2031/0712-1600-lift-tub-1.yaml": `kind: lift
at: 2031-07-12T16:00:00Z
planting: tub-1
weighings: [{gross: 820 g}]
grades: [{weight: 820 g, sizes: 20-45 mm, condition: sound}]
`,
	"dishes/dill.yaml": `name: Dill potatoes
portions: 2
served: warm
smallest: 2
largest: 2
crops: [{crop: potato, amount: 300 g, prepared: scrubbed, texture: waxy, cut: cube 25 mm, until: tender}]
others: [{item: rapeseed oil, amount: 1 tbsp}, {item: dill, amount: 1 tbsp, state: chopped, from: plot}]
method: [Dress them warm.]
`,
	"dishes/butter.yaml": `name: Buttered potatoes
portions: 2
served: hot
smallest: 2
largest: 2
crops: [{crop: potato, amount: 360 g, prepared: scrubbed, texture: waxy, cut: cube 25 mm, until: tender}]
others: [{item: butter, amount: 20 g}]
method: [Butter them hot.]
`,
}

// One command on a small stove outdoors: one steaming for both dishes, as soon as
// can be, on two litres of carried water and a hundred grams of gas.
func TestAnEveningOutdoors(t *testing.T) {
	dir := t.TempDir()
	for name, text := range outdoors {
		file := filepath.Join(dir, name)
		require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	}
	golden, err := filepath.Abs("testdata/evening/outdoors.txt")
	require.NoError(t, err)
	t.Chdir(dir)
	out, errs, status := trencher("", "share", "--on", "2031-07-12", "--start", "16:30", "--gas", "100 g", "--water", "2 l")
	require.Equal(t, statusDone, status, errs)
	out = strings.ReplaceAll(out, dir, "the plot")
	if *update {
		require.NoError(t, os.WriteFile(golden, []byte(out), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	assert.Equal(t, string(want), out)
	assert.LessOrEqual(t, strings.Count(out, "\n"), 45, "one screen and a half")
	for _, says := range []string{"Start 16:30", "g of gas", "of drinking water", "1 steaming"} {
		assert.Contains(t, out, says)
	}
	requireNarrow(t, out)
}
