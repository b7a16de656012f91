package recipes

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

func TestLoadKitchen(t *testing.T) {
	k, err := LoadKitchen("kitchen.yaml", []byte(`measures: uk
altitude: 1000 ft
steamer: {diameter: 24 cm, tiers: 3}
stove: {power: 1.8 kW, gas: propane, wind: windy, efficiency: 0.4}
fridge: 39.2 F
room: 18 C
authority: au-nz
weights:
  - {item: capers, measure: 1 tbsp, weight: 12 g}
yields:
  - {crop: Potatoes, prepared: Scrubbed, factor: 0.97}
  - {crop: oca, prepared: scrubbed, factor: 0.9}
`))
	require.NoError(t, err)
	assert.Equal(t, units.UK, k.Measures)
	assert.InDelta(t, 304.8, k.AltitudeM, 1e-9)
	assert.Equal(t, Steamer{DiameterMM: 240, Tiers: 3}, k.Steamer)
	assert.Equal(t, Stove{PowerW: 1800, Rings: 1, Gas: "propane", Efficiency: 0.4, Windy: true}, k.Stove)
	assert.InDelta(t, 4, k.FridgeC, 1e-9)
	assert.True(t, k.FridgeGiven)
	assert.Equal(t, 18.0, k.RoomC)
	assert.Equal(t, "au-nz", k.Authority)
	assert.Empty(t, k.Assumed)

	spoon, err := k.Table.Convert(units.MustParse("30 ml"), units.Gram, "capers", "")
	require.NoError(t, err)
	assert.Equal(t, "24 g", spoon.Quantity.String(), "the kitchen's own spoon comes first")

	own, err := k.yieldRows().yield("potato", "scrubbed")
	require.NoError(t, err)
	assert.Equal(t, "97/100", own.Factor.String(), "the kitchen's own figure comes first")
	assert.Equal(t, "this kitchen's own weighing", own.Steps[0].Source)
	peeled, err := k.yieldRows().yield("potato", "peeled")
	require.NoError(t, err)
	assert.Equal(t, "7857/10000", peeled.Factor.String(), "the rest stays as it is")
	oca, err := k.yieldRows().yield("oca", "scrubbed")
	require.NoError(t, err)
	assert.Equal(t, "9/10", oca.Factor.String())
}

func TestKitchenDefaults(t *testing.T) {
	k, err := LoadKitchen("kitchen.yaml", []byte("measures: metric\n"))
	require.NoError(t, err)
	assert.Equal(t, []string{"altitude 0 m", "a steamer of 2 tiers, 240 mm wide", "a stove of 1800 W, butane",
		"fridge 5 C", "room 20 C", "the strictest food rules"}, k.Assumed)
	assert.False(t, k.FridgeGiven)
	k.Assumed, k.File = nil, ""
	assert.Equal(t, DefaultKitchen(units.Metric), k)
}

// What the kitchen measures with changes what it is told to measure out.
func TestKitchenMeasuresWithWhatItHas(t *testing.T) {
	k, err := LoadKitchen("kitchen.yaml", []byte(`measures: metric
scales: 5 g
jug: 25 ml
spoons: [1 tsp, 1 tbsp]
vague: {knob: 20 g, pinch: 1/8 tsp}
`))
	require.NoError(t, err)
	plain := DefaultKitchen(units.Metric)
	tests := []struct{ amount, item, here, elsewhere string }{
		{"32 g", "butter", "30 g", "32 g"},
		{"60 ml", "milk", "50 ml", "60 ml"},
		{"1½ tsp", "cumin seed", "2 tsp", "1½ tsp"},
	}
	for _, test := range tests {
		amount := units.MustParse(test.amount)
		assert.Equal(t, test.here, k.MeasureOut(amount, test.item, "").Text, "%s %s", test.amount, test.item)
		assert.Equal(t, test.elsewhere, plain.MeasureOut(amount, test.item, "").Text, "%s %s", test.amount, test.item)
	}
	knob, ok := k.Measure.Size(units.MustParse("a knob"))
	assert.True(t, ok)
	assert.Equal(t, "20 g", knob.String())
}

func TestLoadKitchenWrongInput(t *testing.T) {
	tests := []struct{ text, message, hint string }{
		{"", "kitchen.yaml:1:1: the file is empty", ""},
		{"altitude: 60 m\n", `kitchen.yaml:1:1: the key "measures" is missing`, ""},
		{"measures: imperial\n", `kitchen.yaml:1:11: measures "imperial": not one of the words known here`, "write metric | uk | us | au"},
		{"measures: metric\noven: hot\n", `kitchen.yaml:2:1: unknown key "oven"`, ""},
		{"measures: metric\naltitude: 60 g\n", `kitchen.yaml:2:11: altitude "60 g": a mass where a length is wanted`, ""},
		{"measures: metric\naltitude: 9 km\n", `kitchen.yaml:2:11: altitude "9 km": out of range`, "write one figure from 0 to 5500 m"},
		{"measures: metric\nsteamer: {diameter: 24 mm}\n", `kitchen.yaml:2:21: diameter "24 mm": out of range`, "write one figure from 80 to 600 mm"},
		{"measures: metric\nsteamer: {tiers: 0}\n", `kitchen.yaml:2:18: tiers "0": not a whole number from 1 to 6`, ""},
		{"measures: metric\nstove: {power: 1.8 kg}\n", `kitchen.yaml:2:16: power "1.8 kg": a mass where a power is wanted`, ""},
		{"measures: metric\nstove: {gas: methane}\n", `kitchen.yaml:2:14: gas "methane": not one of the words known here`, "write butane | propane | natural gas | electric"},
		{"measures: metric\nstove: {efficiency: 45}\n", `kitchen.yaml:2:21: efficiency "45": out of range`, "write the share of the heat that reaches the pan, from 0.05 to 1"},
		{"measures: metric\nfridge: 40 C\n", `kitchen.yaml:2:9: fridge "40 C": out of range`, ""},
		{"measures: metric\nauthority: fda\n", `kitchen.yaml:2:12: authority "fda": not one of the words known here`, "write strictest | uk | us | au-nz"},
		{"measures: metric\nscales: 0 g\n", `kitchen.yaml:2:9: scales "0 g": no step`, "write the finest step of the scales: 1 g or 5 g"},
		{"measures: metric\njug: 5 g\n", `kitchen.yaml:2:6: jug "5 g": a mass where a volume is wanted`, ""},
		{"measures: metric\nspoons: [1-2 tsp]\n", `kitchen.yaml:2:10: spoons "1-2 tsp": no spoon`, "write one spoon, such as 1/4 tsp"},
		{"measures: metric\nvague: {armful: 2 kg}\n", `kitchen.yaml:2:17: armful "2 kg": "armful" is not a vague measure`, ""},
		{"measures: metric\nvague: {knob: a pinch}\n", `kitchen.yaml:2:15: knob "a pinch": no exact size`, "write a weight or a volume, such as 15 g"},
		{"measures: metric\nweights: [{item: capers, measure: 1 tbsp, weight: 0 g}]\n", `kitchen.yaml:2:11: weights: weight "0 g": the measure and its weight must be above nought`, ""},
		{"measures: metric\nweights: [{item: capers, measure: 1 g, weight: 3 g}]\n", `kitchen.yaml:2:35: measure "1 g": a mass where a volume or a count is wanted`, ""},
		{"measures: metric\nyields: [{crop: potato, prepared: as-lifted, factor: 1}]\n", `kitchen.yaml:2:35: prepared "as-lifted": as lifted is always 1`, ""},
		{"measures: metric\nyields: [{crop: potato, prepared: peeled, factor: 0}]\n", `kitchen.yaml:2:51: factor "0": out of range`, ""},
		{"measures: metric\nyields: [{crop: potato, prepared: peeled, factor: 0.8}, {crop: potatoes, prepared: peeled, factor: 0.7}]\n", `kitchen.yaml:2:57: yields: potato peeled stands twice`, ""},
	}
	for _, test := range tests {
		t.Run(test.text, func(t *testing.T) {
			_, err := LoadKitchen("kitchen.yaml", []byte(test.text))
			require.Error(t, err)
			assert.Contains(t, strings.Split(err.Error(), "\n"), test.message)
			if test.hint != "" {
				h, ok := err.(interface{ Unwrap() []error }).Unwrap()[0].(interface{ Hint() string })
				require.True(t, ok)
				assert.Equal(t, test.hint, h.Hint())
			}
		})
	}
}

// The frosts of the plot are dates of the year; nothing is assumed here where
// they are not given.
func TestKitchenSite(t *testing.T) {
	k, err := LoadKitchen("kitchen.yaml", []byte("measures: metric\nsite: {first-frost: 10-08, last-frost: 05-22}\n"))
	require.NoError(t, err)
	assert.Equal(t, "10-08", k.FirstFrost.String())
	assert.Equal(t, "05-22", k.LastFrost.String())
	none, err := LoadKitchen("kitchen.yaml", []byte("measures: metric\n"))
	require.NoError(t, err)
	assert.True(t, none.FirstFrost.IsZero() && none.LastFrost.IsZero())
	for text, says := range map[string]string{
		"site: {first-frost: October}": "no date of the year", "site: {frost: 10-08}": "unknown key", "site: 10-08": "kitchen.yaml:2",
	} {
		_, err := LoadKitchen("kitchen.yaml", []byte("measures: metric\n"+text+"\n"))
		assert.ErrorContains(t, err, says, text)
	}
}
