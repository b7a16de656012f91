package recipes

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Every figure of kitchen.yaml has two ends, which are taken, and nothing beyond them.
func TestFiguresOfAKitchenHaveLimits(t *testing.T) {
	for _, c := range []struct {
		key, value       string // # stands for the figure
		least, most      string
		tooLittle, above string
		read             func(Kitchen) float64
		low, high        float64
	}{
		{"altitude", "# m", "0", "5500", "-1", "5500.1", func(k Kitchen) float64 { return k.AltitudeM }, 0, 5500},
		{"room", "# C", "-10", "45", "-10.1", "45.1", func(k Kitchen) float64 { return k.RoomC }, -10, 45},
		{"fridge", "# C", "-5", "12", "-5.1", "12.1", func(k Kitchen) float64 { return k.FridgeC }, -5, 12},
		{"cold-box", "{ice: # g}", "0", "50000", "-1", "50001", func(k Kitchen) float64 { return k.ColdBox.IceG }, 0, 50000},
		{"cold-box", "{holds: # C}", "-5", "20", "-5.1", "20.1", func(k Kitchen) float64 { return k.ColdBox.HoldsC }, -5, 20},
		{"hands", "#", "1", "8", "0", "9", func(k Kitchen) float64 { return float64(k.Hands) }, 1, 8},
		{"pot", "{volume: # ml}", "200", "50000", "199", "50001", func(k Kitchen) float64 { return k.PotML }, 200, 50000},
		{"dishes", "#", "1", "20", "0", "21", func(k Kitchen) float64 { return float64(k.MostDishes) }, 1, 20},
		{"steamer", "{diameter: # mm}", "80", "600", "79", "601", func(k Kitchen) float64 { return k.Steamer.DiameterMM }, 80, 600},
		{"steamer", "{tiers: #}", "1", "6", "0", "7", func(k Kitchen) float64 { return float64(k.Steamer.Tiers) }, 1, 6},
		{"stove", "{power: # W}", "200", "15000", "199", "15001", func(k Kitchen) float64 { return k.Stove.PowerW }, 200, 15000},
		{"stove", "{rings: #}", "1", "6", "0", "7", func(k Kitchen) float64 { return float64(k.Stove.Rings) }, 1, 6},
		{"stove", "{canister: # g}", "50", "20000", "49", "20001", func(k Kitchen) float64 { return k.Stove.CanisterG }, 50, 20000},
		{"stove", "{efficiency: #}", "0.05", "1", "0.049", "1.01", func(k Kitchen) float64 { return k.Stove.Efficiency }, 0.05, 1},
	} {
		load := func(figure string) (Kitchen, error) {
			return LoadKitchen("kitchen.yaml", []byte("measures: metric\n"+c.key+": "+strings.ReplaceAll(c.value, "#", figure)+"\n"))
		}
		for figure, want := range map[string]float64{c.least: c.low, c.most: c.high} {
			k, err := load(figure)
			require.NoError(t, err, "%s %s", c.key, figure)
			assert.Equal(t, want, c.read(k), "%s %s", c.key, figure)
		}
		for _, figure := range []string{c.tooLittle, c.above} {
			_, err := load(figure)
			assert.ErrorContains(t, err, "kitchen.yaml:2:", "%s %s", c.key, figure)
		}
	}
	for _, text := range []string{"altitude: 1-2 m", "altitude: 3 g", "yields: [{crop: oca, prepared: peeled, factor: 0}]", "yields: [{crop: oca, prepared: peeled, factor: 1.51}]", "yields: [{crop: oca, prepared: as-lifted, factor: 1}]",
		"yields: [{crop: oca, prepared: peeled, factor: 0.9}, {crop: Oca, prepared: peeled, factor: 0.8}]", "scales: 0 g", "scales: 1-2 g", "scales: 5 ml", "jug: 0 ml", "jug: 5 g", "spoons: [0 tsp]", "spoons: [1-2 tsp]", "spoons: [5 g]",
		"vague: {cup: 5 ml}", "vague: {smoot: 5 ml}", "vague: {pinch: 0 g}", "vague: {pinch: 1 pinch}", "vague: {pinch: smoot}", "weights: [{item: capers, measure: 1 tbsp}]", "weights: [{item: capers, measure: 0 tbsp, weight: 9 g}]", "household: nobody"} {
		_, err := LoadKitchen("kitchen.yaml", []byte("measures: metric\n"+text+"\n"))
		assert.ErrorContains(t, err, "kitchen.yaml:2:", text)
	}
	k, err := LoadKitchen("kitchen.yaml", []byte("measures: metric\nyields: [{crop: oca, prepared: peeled, factor: 1.5}]\nscales: 2 g\njug: 20 ml\nspoons: [1/8 tsp, 1 tbsp]\nvague: {pinch: 1/8 tsp, knob: 20 g}\n"))
	require.NoError(t, err)
	assert.Equal(t, "3/2", k.Yields[0].Factor.String())
	assert.Equal(t, "2 g", k.Measure.ScaleStep.String())
	assert.Equal(t, "20 ml", k.Measure.JugStep.String())
	assert.Len(t, k.Measure.Spoons, 2)
	assert.Equal(t, "20 g", k.Measure.Vague["knob"].String())
	assert.Equal(t, "0.125 tsp metric", k.Measure.Vague["pinch"].String())
}

// Where there is no fridge, no box with ice and no tap, kitchen.yaml says so.
func TestColdAndWaterOfAKitchen(t *testing.T) {
	load := func(text string) Kitchen {
		k, err := LoadKitchen("kitchen.yaml", []byte("measures: metric\n"+text))
		require.NoError(t, err, text)
		return k
	}
	assert.True(t, load("fridge: none\n").NoFridge)
	assert.True(t, load("fridge: None\n").FridgeGiven)
	given := load("fridge: 4 C\n")
	assert.Equal(t, 4.0, given.FridgeC)
	assert.True(t, given.FridgeGiven && !given.NoFridge)
	plain := load("")
	assert.Equal(t, 5.0, plain.FridgeC)
	assert.False(t, plain.FridgeGiven || plain.NoFridge || plain.ColdBox.There)
	assert.Equal(t, ColdBox{}, load("cold-box: none\n").ColdBox)
	assert.Equal(t, ColdBox{There: true, HoldsC: 5}, load("cold-box: {}\n").ColdBox)
	assert.Equal(t, ColdBox{There: true, HoldsC: 5, IceG: 2000}, load("cold-box: {ice: 2 kg}\n").ColdBox)
	assert.Equal(t, ColdBox{There: true, HoldsC: 8, IceG: 1500}, load("cold-box: {ice: 1.5 kg, holds: 8 C}\n").ColdBox)
	assert.Equal(t, Water{Carried: true, CarriedML: 4000}, load("water: carried 4 l\n").Water)
	assert.Equal(t, Water{}, load("water: tap\n").Water)
	_, err := LoadKitchen("kitchen.yaml", []byte("measures: metric\nwater: well\n"))
	assert.ErrorContains(t, err, "not where water comes from")
	for text, want := range map[string]Water{"Tap": {}, "4 l": {Carried: true, CarriedML: 4000}, "Carried 2 litres": {Carried: true, CarriedML: 2000}, "1000 l": {Carried: true, CarriedML: 1e6}, "1 ml": {Carried: true, CarriedML: 1}} {
		got, ok := ParseWater(text, units.Metric)
		assert.True(t, ok, text)
		assert.Equal(t, want, got, text)
	}
	for _, text := range []string{"", "carried", "well", "4 kg", "1-2 l", "0 l", "1000.1 l", "tap water", "to taste"} {
		_, ok := ParseWater(text, units.Metric)
		assert.False(t, ok, text)
	}
}

// The kitchen by what heat reckons with, and by another system of measures.
func TestKitchenAsOthersSeeIt(t *testing.T) {
	k, err := LoadKitchen("kitchen.yaml", []byte("measures: uk\nsteamer: {diameter: 200 mm, tiers: 3}\nstove: {power: 2 kW, gas: propane, wind: windy, efficiency: 0.5}\npot: {volume: 4 l}\n"))
	require.NoError(t, err)
	e := k.Equipment()
	assert.Equal(t, []any{200.0, 4000.0, 3, 2000.0, "propane", 0.5, true}, []any{e.DiameterMM, e.PotML, e.Tiers, e.PowerW, e.Fuel, e.Efficiency, e.Windy})
	us := k.In(units.US)
	assert.Equal(t, units.US, us.Measures)
	assert.Equal(t, units.US, us.Measure.System)
	assert.Equal(t, units.UK, k.Measures, "the kitchen itself stays")
	assert.Equal(t, []string{"altitude 0 m", "the strictest food rules"}, second(LoadKitchen("k", []byte("measures: uk\nsteamer: {diameter: 200 mm, tiers: 3}\nstove: {power: 2 kW, gas: propane}\nfridge: 4 C\nroom: 20 C\n"))).Assumed)
	assert.Equal(t, []string{"altitude 0 m", "a steamer of 2 tiers, 240 mm wide", "a stove of 1800 W, butane", "fridge 5 C", "room 20 C", "the strictest food rules"}, second(LoadKitchen("k", []byte("measures: uk\n"))).Assumed)
	assert.Equal(t, []string{"altitude 0 m", "a steamer 240 mm wide", "a stove of 1800 W", "fridge 5 C", "room 20 C", "the strictest food rules"}, second(LoadKitchen("k", []byte("measures: uk\nsteamer: {tiers: 3}\nstove: {gas: propane}\n"))).Assumed)
	assert.Equal(t, []string{"altitude 0 m", "a steamer of 2 tiers", "the stove burns butane", "fridge 5 C", "room 20 C", "the strictest food rules"}, second(LoadKitchen("k", []byte("measures: uk\nsteamer: {diameter: 200 mm}\nstove: {power: 2 kW}\n"))).Assumed)
	windless := second(LoadKitchen("k", []byte("measures: uk\nstove: {wind: sheltered}\n")))
	assert.False(t, windless.Stove.Windy)
}

func second(k Kitchen, _ error) Kitchen { return k }
