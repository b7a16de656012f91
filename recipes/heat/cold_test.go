package heat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func chillIn(t *testing.T, text string, spread Spread, place ColdPlace) Chilling {
	t.Helper()
	c, err := ChillIn(crop(t, "potato", "waxy"), cut(t, text), spread, place)
	require.NoError(t, err)
	return c
}

func minutesTo(t *testing.T, c Chilling, from, to float64) float64 {
	t.Helper()
	minutes, ok := c.MinutesTo(from, to)
	require.True(t, ok)
	return minutes
}

// A room and a fridge cool as Cool says; what MinutesTo asks, After answers.
func TestChillingAgreesWithCool(t *testing.T) {
	for _, spread := range []Spread{{Grams: 800}, {Grams: 800, Bowl: true}, {Grams: 800, DepthMM: 60}} {
		cooling, err := Cool(crop(t, "potato", "waxy"), cut(t, "cube 25 mm"), spread, 20)
		require.NoError(t, err)
		room, fridge := chillIn(t, "cube 25 mm", spread, ColdPlace{CelsiusC: 20}), chillIn(t, "cube 25 mm", spread, ColdPlace{In: FridgeAir, CelsiusC: 4})
		assert.InEpsilon(t, cooling.DressLatest, minutesTo(t, room, 98, 28), 1e-9)
		// Cool takes the properties of the mean of steamer and room throughout.
		assert.InEpsilon(t, cooling.ChilledLatest, minutesTo(t, fridge, 35, 8), 0.02)
		for _, c := range []Chilling{room, fridge, chillIn(t, "cube 25 mm", spread, ColdPlace{In: ColdWater, CelsiusC: 12}), chillIn(t, "cube 25 mm", spread, ColdPlace{In: IceWater})} {
			for _, to := range []float64{90, 63, 35, 25} {
				assert.InDelta(t, to, c.After(98, minutesTo(t, c, 98, to)), 0.3)
			}
			assert.Equal(t, 98.0, c.After(98, 0))
			assert.Zero(t, minutesTo(t, c, 30, 30))
			_, ok := c.MinutesTo(98, 0.5)
			assert.False(t, ok, "nothing gets colder than where it lies")
		}
	}
}

// From 98 to 10 °C in the middle in still ice water, by an independent program of
// explicit steps (known_by: computed; heat capacities within a hundredth).
func TestStillIceWaterAgainstComputed(t *testing.T) {
	for _, row := range []struct {
		crop, cut string
		minutes   float64
	}{
		{"peas", "whole 9 mm", 2.1}, {"carrot", "cube 8 mm", 2.5}, {"potato", "cube 25 mm", 12.3}, {"potato", "whole 50 mm", 32.3},
	} {
		c, err := ChillIn(crop(t, row.crop, ""), cut(t, row.cut), Spread{}, ColdPlace{In: IceWater})
		require.NoError(t, err)
		assert.InDelta(t, row.minutes, minutesTo(t, c, 98, 10), 0.05+0.06*row.minutes, "%s %s", row.crop, row.cut)
	}
}

// Ice cools as much as its melting takes up: a kilogram of ice to the kilogram of
// pieces, as extension services have it, brings ice water under 10 °C; half of that
// does not; and a closed box leaks.
func TestIceGivesOut(t *testing.T) {
	kilo := Spread{Grams: 1000}
	place := func(ice float64) ColdPlace { return ColdPlace{In: IceWater, IceG: ice, WaterML: 500} }
	_, ok := chillIn(t, "cube 25 mm", kilo, place(1000)).MinutesTo(98, 10)
	assert.True(t, ok)
	_, ok = chillIn(t, "cube 25 mm", kilo, place(500)).MinutesTo(98, 10)
	assert.False(t, ok)

	// 2 kg of ice in a box at 5 °C take up 2 · (334 + 4.186 · 5) = 710 kJ, less half a
	// watt for each of 20 K: 36 kJ an hour. A kilogram at 98 °C asks for 334 kJ down to
	// 8 °C at 3.7 kJ/(kg K); two and a half ask for more than there is.
	box := ColdPlace{In: BoxAir, CelsiusC: 5, IceG: 2000, RoomC: 25}
	kg := chillIn(t, "cube 25 mm", kilo, box)
	minutes := minutesTo(t, kg, 98, 8)
	assert.InEpsilon(t, minutesTo(t, chillIn(t, "cube 25 mm", kilo, ColdPlace{In: FridgeAir, CelsiusC: 5}), 98, 8), minutes, 1e-9, "while there is ice")
	_, ok = chillIn(t, "cube 25 mm", Spread{Grams: 2500}, box).MinutesTo(98, 8)
	assert.False(t, ok)
	heat := kg.heatJK
	assert.InEpsilon(t, 3710, heat, 0.01)
	gone := (2*(334000+4186*5) - 90*heat) / (0.5 * 20) / 60 // minutes until the leak has used up what the batch leaves
	assert.InDelta(t, 8, kg.After(98, gone), 0.01)
	assert.Greater(t, kg.After(98, gone+60), 8.0, "then it warms")
	assert.LessOrEqual(t, kg.After(98, 1e5), 98.0)
	assert.Equal(t, 25.0, chillIn(t, "cube 25 mm", kilo, ColdPlace{In: BoxAir, CelsiusC: 5, RoomC: 25}).After(8, 1e5), "a box without ice keeps nothing cold for ever")
}

// So much water ends where it and the batch together do: a litre at 12 °C and half a
// kilogram at 98 °C near 39 °C; running water has no such end.
func TestStandingWaterWarms(t *testing.T) {
	half := Spread{Grams: 500}
	c := chillIn(t, "cube 25 mm", half, ColdPlace{In: ColdWater, CelsiusC: 12, WaterML: 1000})
	mixed := (0.5*c.props.HeatCapacity*98 + 4186*12) / (0.5*c.props.HeatCapacity + 4186)
	assert.InDelta(t, mixed, c.After(98, 600), 0.01)
	_, ok := c.MinutesTo(98, mixed-0.1)
	assert.False(t, ok)
	assert.InDelta(t, 12, chillIn(t, "cube 25 mm", half, ColdPlace{In: ColdWater, CelsiusC: 12}).After(98, 600), 0.01)
}

// More ice, more water, a colder place and a smaller batch are never later; what
// stands in a bowl is later than what lies in the water.
func TestChillingGoesTheRightWay(t *testing.T) {
	at := func(spread Spread, place ColdPlace) float64 {
		return chillIn(t, "cube 25 mm", spread, place).After(98, 40)
	}
	kilo := Spread{Grams: 1000}
	for _, pair := range [][2]ColdPlace{
		{{CelsiusC: 15}, {CelsiusC: 20}},
		{{In: FridgeAir, CelsiusC: 4}, {In: FridgeAir, CelsiusC: 7}},
		{{In: ColdWater, CelsiusC: 10, WaterML: 3000}, {In: ColdWater, CelsiusC: 10, WaterML: 1000}},
		{{In: ColdWater, CelsiusC: 10}, {In: ColdWater, CelsiusC: 10, WaterML: 3000}},
		{{In: IceWater, IceG: 1000}, {In: IceWater, IceG: 300}},
		{{In: IceWater}, {In: IceWater, IceG: 300}},
		{{In: IceWater, IceG: 2000, WaterML: 1000}, {CelsiusC: 1}},
		{{In: BoxAir, CelsiusC: 5, IceG: 3000, RoomC: 20}, {In: BoxAir, CelsiusC: 5, IceG: 200, RoomC: 20}},
	} {
		assert.Less(t, at(kilo, pair[0]), at(kilo, pair[1]), "%+v", pair)
		heap := Spread{Grams: 1000, Bowl: true}
		assert.Less(t, at(kilo, pair[0]), at(heap, pair[0]), "%+v in a bowl", pair[0])
	}
	assert.Less(t, chillIn(t, "cube 25 mm", kilo, ColdPlace{CelsiusC: 20}).After(5, 30), 20.0)
	assert.Greater(t, chillIn(t, "cube 25 mm", kilo, ColdPlace{CelsiusC: 20}).After(5, 30), 5.0, "what is colder warms")
	for minutes, before := 0.0, 98.0; minutes < 600; minutes += 7 {
		now := chillIn(t, "cube 25 mm", Spread{Grams: 1000, Bowl: true}, ColdPlace{In: FridgeAir, CelsiusC: 4}).After(98, minutes)
		assert.LessOrEqual(t, now, before+1e-9)
		before = now
	}
}

func TestChillingRefuses(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	for name, row := range map[string]struct {
		spread Spread
		place  ColdPlace
	}{
		"a freezer":           {Spread{}, ColdPlace{CelsiusC: -18}},
		"no number":           {Spread{}, ColdPlace{CelsiusC: math.NaN()}},
		"ice below nought":    {Spread{Grams: 1}, ColdPlace{In: BoxAir, IceG: -1}},
		"a heap of no weight": {Spread{Bowl: true}, ColdPlace{}},
		"a box of no weight":  {Spread{}, ColdPlace{In: BoxAir, IceG: 1000}},
		"a bath of no weight": {Spread{}, ColdPlace{In: ColdWater, WaterML: 1000}},
		"ice for no weight":   {Spread{}, ColdPlace{In: IceWater, IceG: 1000}},
	} {
		_, err := ChillIn(waxy, cut(t, "cube 25 mm"), row.spread, row.place)
		assert.Error(t, err, name)
	}
	_, err := ChillIn(waxy, Cut{Shape: Halves}, Spread{}, ColdPlace{})
	assert.ErrorContains(t, err, "no size")
}
