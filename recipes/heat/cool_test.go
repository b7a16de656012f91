package heat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Pieces in one layer cool through three quarters of their surface: dry by 11
// W/m²K, while moist by 18, in a fridge by 8; the answer is in minutes.
func TestCoolingOfPieces(t *testing.T) {
	waxy, cubes := crop(t, "potato", "waxy"), cut(t, "cube 25 mm")
	c, err := Cool(waxy, cubes, Spread{FridgeC: 5}, 20)
	require.NoError(t, err)
	body := brickBody(25, 25, 25)
	p := waxy.Composition.At(59) // between 98 and 20 °C
	minutes := func(film, from, to, air float64) float64 { return coolPiece(body, p, 0.75*film, from, to, air) / 60 }
	assert.InEpsilon(t, minutes(18, 98, 28, 20), c.DressExpected, 1e-9)
	assert.InEpsilon(t, minutes(11, 98, 28, 20), c.DressLatest, 1e-9)
	assert.InEpsilon(t, minutes(18, 98, 35, 20), c.FridgeExpected, 1e-9)
	assert.InEpsilon(t, minutes(11, 98, 35, 20), c.FridgeLatest, 1e-9)
	assert.InEpsilon(t, minutes(8, 35, 8, 5), c.ChilledLatest, 1e-9)
	assert.InEpsilon(t, minutes(11, 63, 35, 20)+minutes(8, 35, 8, 5), c.From63To8Latest, 1e-9)
	assert.Equal(t, []float64{28, 35, 8}, []float64{c.DressC, c.FridgeC, c.ChilledC})
	assert.False(t, c.Deep)

	// As one lump of its heat, for a surface so poor that nothing holds the
	// heat up inside (Newton's law of cooling): V/A of a cube is a sixth.
	lump := p.Density * p.HeatCapacity * 0.025 / 6 / 0.4 * math.Log((98.0-20)/(28-20))
	assert.InEpsilon(t, lump, coolPiece(body, p, 0.4, 98, 28, 20), 0.01)
	assert.Zero(t, coolPiece(body, p, 8, 28, 28, 5), "cold enough already")
	assert.Zero(t, coolPiece(body, p, 8, 20, 28, 5))
	assert.InDelta(t, 48*3600, coolPiece(body, p, 8, 98, 20, 20), 60, "never, in air as warm")
}

// Moments between two steps are interpolated: asked for every twentieth of a
// degree, they follow one another evenly.
func TestCoolingIsEven(t *testing.T) {
	body := brickBody(25, 25, 25)
	p := crop(t, "potato", "waxy").Composition.At(59)
	at := func(celsius float64) float64 { return coolPiece(body, p, 8, 98, celsius, 20) }
	before := at(59.95) - at(60)
	for celsius := 59.95; celsius > 55; celsius -= 0.05 {
		now := at(celsius-0.05) - at(celsius)
		assert.InEpsilon(t, before, now, 0.01, "near %.2f °C", celsius)
		before = now
	}
}

// A heap is a short cylinder of 650 kg/m³, 3715 J/(kg K) and 0.35 W/(m K): as
// deep as wide in a bowl, or as deep as it is told to be.
func TestCoolingOfHeaps(t *testing.T) {
	bowl := newHeap(Spread{Bowl: true, Grams: 1300})
	assert.InEpsilon(t, 0.002, math.Pi*bowl.radiusM*bowl.radiusM*2*bowl.halfM, 1e-9, "1.3 kg are two litres")
	assert.Equal(t, bowl.radiusM, bowl.halfM)
	flat := newHeap(Spread{Grams: 1300, DepthMM: 40})
	assert.Equal(t, 0.02, flat.halfM)
	assert.InEpsilon(t, 0.002, math.Pi*flat.radiusM*flat.radiusM*0.04, 1e-9)

	waxy, cubes := crop(t, "potato", "waxy"), cut(t, "cube 25 mm")
	c, err := Cool(waxy, cubes, Spread{Bowl: true, Grams: 1300}, 20)
	require.NoError(t, err)
	minutes := func(h heap, film, from, to, air float64) float64 {
		alpha := 0.35 / (650 * 3715)
		across, along := cylinder.series(film*h.radiusM/0.35, 20), slab.series(film*h.halfM/0.35, 20)
		return root(0, 1e6, func(s float64) float64 {
			return centreTheta(across, alpha*s/(h.radiusM*h.radiusM))*centreTheta(along, alpha*s/(h.halfM*h.halfM)) - (to-air)/(from-air)
		}) / 60
	}
	assert.InEpsilon(t, minutes(bowl, 11, 98, 28, 20), c.DressExpected, 1e-3)
	assert.InEpsilon(t, minutes(bowl, 8, 98, 28, 20), c.DressLatest, 1e-3)
	assert.InEpsilon(t, minutes(bowl, 8, 35, 8, 4), c.ChilledLatest, 1e-3, "the usual fridge has 4 °C")
	assert.True(t, c.Deep)
	assert.Zero(t, heapTimes(bowl).dry(20, 20, 4))

	// One layer is one layer up to half as much again.
	spread := func(depth float64) Cooling {
		c, err := Cool(waxy, cubes, Spread{Grams: 1300, DepthMM: depth}, 20)
		require.NoError(t, err)
		return c
	}
	assert.False(t, spread(37.4).Deep)
	assert.True(t, spread(37.6).Deep)
	assert.InEpsilon(t, minutes(newHeap(Spread{Grams: 1300, DepthMM: 60}), 8, 98, 28, 20), spread(60).DressLatest, 1e-3)
}

// What a cook is told of slow cooling, and when; times over an hour are told in
// hours and minutes.
func TestCoolingNotes(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	cool := func(text string, spread Spread, room float64) Cooling {
		c, err := Cool(waxy, cut(t, text), spread, room)
		require.NoError(t, err)
		return c
	}
	thin := cool("slice 6 mm", Spread{FridgeC: 2}, 15)
	assert.Less(t, thin.FridgeLatest, 90.0)
	assert.Less(t, thin.From63To8Latest, 90.0)
	assert.Empty(t, thin.Notes)

	for _, size := range []string{"cube 20 mm", "cube 25 mm", "cube 30 mm", "cube 40 mm", "cube 50 mm"} {
		c := cool(size, Spread{}, 20)
		want := 0
		if c.FridgeLatest > 90 {
			want++
			assert.Contains(t, c.Notes[0], "not be ready for the fridge within 90 minutes")
		}
		if c.From63To8Latest > 90 {
			want++
			assert.Contains(t, c.Notes[want-1], "from 63 °C to 8 °C may take "+hours(c.From63To8Latest)+", more than the 90 min")
		}
		assert.Len(t, c.Notes, want, "%s: %.0f and %.0f min", size, c.FridgeLatest, c.From63To8Latest)
	}

	assert.Equal(t, "2 h 19 min", hours(139.4))
	assert.Equal(t, "2 h 20 min", hours(139.6))
	assert.Equal(t, "1 h 0 min", hours(60))

	// A room never cools anything below three degrees over its own air.
	mild := cool("slice 6 mm", Spread{}, 25)
	assert.Equal(t, []float64{28, 35}, []float64{mild.DressC, mild.FridgeC})
	hot := cool("slice 6 mm", Spread{}, 34)
	assert.Equal(t, []float64{37, 37}, []float64{hot.DressC, hot.FridgeC})
	assert.Contains(t, hot.Notes[0], "a room at 34 °C never cools them to 28 °C")
	for _, note := range mild.Notes {
		assert.NotContains(t, note, "never cools")
	}
}

// What cannot be is refused, and taken up to the very end of what can.
func TestCoolingLimits(t *testing.T) {
	waxy, cubes := crop(t, "potato", "waxy"), cut(t, "cube 25 mm")
	for name, row := range map[string]struct {
		spread Spread
		room   float64
		fine   bool
	}{
		"frost":              {Spread{}, -10, true},
		"hard frost":         {Spread{}, -10.1, false},
		"the hottest room":   {Spread{}, 45, true},
		"an oven":            {Spread{}, 45.1, false},
		"the coldest fridge": {Spread{FridgeC: 0.1}, 20, true},
		"a freezer":          {Spread{FridgeC: -0.1}, 20, false},
		"a warm fridge":      {Spread{FridgeC: 7.5}, 20, true},
		"a warmer one":       {Spread{FridgeC: 12}, 20, true},
		"no fridge":          {Spread{FridgeC: 12.1}, 20, false},
		"a deep pot":         {Spread{Grams: 5000, DepthMM: 400}, 20, true},
		"a barrel":           {Spread{Grams: 5000, DepthMM: 401}, 20, false},
		"less than nothing":  {Spread{DepthMM: -1}, 20, false},
		"a sackful":          {Spread{Bowl: true, Grams: 50000}, 20, true},
		"a cartload":         {Spread{Bowl: true, Grams: 50001}, 20, false},
	} {
		_, err := Cool(waxy, cubes, row.spread, row.room)
		assert.Equal(t, row.fine, err == nil, "%s: %v", name, err)
	}
}

// Water cools first what then goes into the fridge; in ice water they stay until they
// are cold, and the ice is what their heat melts: 0.5 kg at 3.71 kJ/(kg K) over 90 K are
// 167 kJ, and 334 + 4.19 · 8 kJ/kg take up each kilogram's.
func TestCoolingInWater(t *testing.T) {
	waxy, cubes := crop(t, "potato", "waxy"), cut(t, "cube 25 mm")
	cool := func(spread Spread) Cooling {
		spread.Grams = 500
		c, err := Cool(waxy, cubes, spread, 33)
		require.NoError(t, err)
		return c
	}
	air, water, ice := cool(Spread{}), cool(Spread{In: ColdWater}), cool(Spread{In: IceWater})
	assert.Equal(t, 36.0, air.DressC)
	assert.Equal(t, 28.0, water.DressC, "a hot room does not hinder")
	wet := chillIn(t, "cube 25 mm", Spread{}, ColdPlace{In: ColdWater, CelsiusC: TapC})
	assert.InEpsilon(t, minutesTo(t, wet, 98, 28), water.DressLatest, 1e-9)
	assert.Less(t, water.DressLatest, air.DressLatest/4)
	assert.Less(t, ice.DressLatest, water.DressLatest)
	assert.Equal(t, []Medium{FridgeAir, FridgeAir, IceWater}, []Medium{air.Then, water.Then, ice.Then})
	assert.InEpsilon(t, minutesTo(t, chillIn(t, "cube 25 mm", Spread{}, ColdPlace{In: IceWater}), 98, 8), ice.FridgeLatest+ice.ChilledLatest, 0.01)
	assert.InEpsilon(t, 455, ice.IceG, 0.01)
	assert.Zero(t, water.IceG)
	bowl := cool(Spread{Bowl: true, In: IceWater})
	assert.Greater(t, bowl.DressLatest, 3*ice.DressLatest)
	assert.Less(t, bowl.DressLatest, cool(Spread{Bowl: true}).DressLatest)
}

// Without a fridge they get cold in a box with ice, as far as the ice goes; else
// nowhere, and it is said.
func TestCoolingWithoutAFridge(t *testing.T) {
	waxy, cubes := crop(t, "potato", "waxy"), cut(t, "cube 25 mm")
	cool := func(grams, ice float64, spread Spread) Cooling {
		spread.Grams = grams
		if ice > 0 {
			spread.Box = ColdPlace{In: BoxAir, CelsiusC: 5, IceG: ice, RoomC: 20}
		}
		c, err := Cool(waxy, cubes, spread, 20)
		require.NoError(t, err)
		return c
	}
	box := cool(1000, 2000, Spread{NoFridge: true})
	assert.Equal(t, BoxAir, box.Then)
	place := chillIn(t, "cube 25 mm", Spread{Grams: 1000}, ColdPlace{In: BoxAir, CelsiusC: 5, IceG: 2000, RoomC: 20})
	assert.InEpsilon(t, minutesTo(t, place, 35, 8), box.ChilledLatest, 1e-9)
	for name, c := range map[string]Cooling{
		"no box":             cool(1000, 0, Spread{NoFridge: true}),
		"not enough ice":     cool(5000, 1000, Spread{NoFridge: true}),
		"a warm fridge":      cool(1000, 0, Spread{FridgeC: 9}),
		"as warm as chilled": cool(1000, 0, Spread{FridgeC: 8}),
	} {
		assert.Equal(t, RoomAir, c.Then, name)
		assert.Zero(t, c.ChilledLatest, name)
		assert.Contains(t, c.Notes[len(c.Notes)-1], "nothing here brings them to 8 °C", name)
	}
	assert.Equal(t, FridgeAir, cool(5000, 2000, Spread{}).Then, "the fridge where there is one")
}

// coolPiece is how long, in s, the centre of one piece takes from one
// temperature to another in air.
func coolPiece(body Body, p Properties, film, from, to, air float64) float64 {
	if from <= to {
		return 0
	}
	return airBath(body, p, film, from, air).until(to, coolLongestS)
}
