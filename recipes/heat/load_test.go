package heat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Lid and wall of a 240 mm basket in two tiers lose 10 W/m²K over 80 K: the
// round lid of 0.045 m² and a wall of 0.106 m² (common practice, no source). A
// wind doubles that, and lets 30 % of a flame's heat arrive.
func TestWhatBecomesSteam(t *testing.T) {
	lid, wall := math.Pi/4*0.24*0.24, math.Pi*0.24*0.07*2
	loss := 800 * (lid + wall)
	for name, row := range map[string]struct {
		e    Equipment
		want float64
	}{
		"sheltered":            {Equipment{PowerW: 1800}, 0.45*1800 - loss},
		"in the wind":          {Equipment{PowerW: 3000, Windy: true}, 0.30*3000 - 2*loss},
		"a plate in the wind":  {Equipment{PowerW: 1500, Windy: true, Fuel: "electric"}, 0.70*1500 - 2*loss},
		"the cook knows":       {Equipment{PowerW: 1800, Efficiency: 0.6}, 0.6*1800 - loss},
		"known, in the wind":   {Equipment{PowerW: 1800, Efficiency: 0.6, Windy: true}, 0.6*1800 - 2*loss},
		"three tiers":          {Equipment{PowerW: 1800, Tiers: 3}, 0.45*1800 - 800*(lid+1.5*wall)},
		"a wider basket":       {Equipment{PowerW: 1800, DiameterMM: 300}, 0.45*1800 - 800*(1.25*1.25*lid+1.25*wall)},
		"household gas":        {Equipment{PowerW: 1800, Fuel: " Natural Gas "}, 0.52*1800 - loss},
		"nothing known":        {Equipment{}, 700},
		"nothing but the wind": {Equipment{Windy: true}, 700},
	} {
		net, err := row.e.NetPowerW()
		require.NoError(t, err, name)
		assert.InEpsilon(t, row.want, net, 1e-9, name)
	}
}

// Equipment that cannot be is refused at its field, and taken up to the very
// end of what can.
func TestEquipmentLimits(t *testing.T) {
	for _, row := range []struct {
		low, under, high, over Equipment
		field                  string
	}{
		{Equipment{DiameterMM: 100}, Equipment{DiameterMM: 99.9}, Equipment{DiameterMM: 800}, Equipment{DiameterMM: 800.1}, "steamer"},
		{Equipment{Tiers: 1}, Equipment{Tiers: -1}, Equipment{Tiers: 6}, Equipment{Tiers: 7}, "steamer"},
		{Equipment{PowerW: 200, Efficiency: 1}, Equipment{PowerW: 199, Efficiency: 1}, Equipment{PowerW: 15000}, Equipment{PowerW: 15001}, "stove"},
		{Equipment{PanKg: 0.1}, Equipment{PanKg: 0.09}, Equipment{PanKg: 20}, Equipment{PanKg: 20.1}, "pan"},
		{Equipment{PowerW: 9000, Efficiency: 0.05}, Equipment{PowerW: 9000, Efficiency: 0.049}, Equipment{Efficiency: 1}, Equipment{Efficiency: 1.01}, "stove efficiency"},
	} {
		for _, good := range []Equipment{row.low, row.high} {
			_, err := good.NetPowerW()
			assert.NoError(t, err, "%+v", good)
		}
		for _, bad := range []Equipment{row.under, row.over} {
			_, err := bad.NetPowerW()
			assert.ErrorContains(t, err, row.field, "%+v", bad)
		}
	}
	// 120.6 W are lost: 170.7 W that arrive leave 50 W of steam.
	_, err := Equipment{PowerW: 200, Efficiency: 170.7 / 200}.NetPowerW()
	assert.NoError(t, err)
	_, err = Equipment{PowerW: 200, Efficiency: 170.5 / 200}.NetPowerW()
	assert.ErrorContains(t, err, "no steam to speak of: 170 W reach the pan, lid and walls lose 121 W")
}

// A load by hand: 2.6 kg of cubes, tender, in a sheltered 240 mm steamer of two
// tiers on 1800 W of butane. Latent heat 2256.5 kJ/kg, water 4.186 kJ/(kg K),
// steel 0.5 kJ/(kg K), butane 45.7 MJ/kg (engineering tables, memory).
func TestLoadByHand(t *testing.T) {
	waxy, cubes := crop(t, "potato", "waxy"), cut(t, "cube 25 mm")
	l, err := LoadPlan(waxy, cubes, Tender, 2600, Equipment{PowerW: 1800}, Conditions{})
	require.NoError(t, err)
	e := l.Estimate

	density := waxy.Composition.At((15 + e.SteamC) / 2).Density
	layer := 0.75 * math.Pi / 4 * 0.24 * 0.24 * 0.025 * density * 1e3 // cubes stand side by side
	assert.InEpsilon(t, layer, l.GramsPerLayer, 1e-9)
	assert.Equal(t, int(layer/(math.Pow(0.025, 3)*density*1e3)), l.PiecesPerLayer)
	assert.Equal(t, int(math.Ceil(2600/layer)), l.Layers)
	require.Equal(t, 3, l.Layers)
	assert.Equal(t, 2, l.Tiers)
	assert.Equal(t, 2, l.Rounds)
	assert.Equal(t, 1300.0, l.GramsPerRound)
	assert.InEpsilon(t, 2600.0/3, l.GramsOnEach, 1e-12)
	assert.False(t, l.Heaped)
	tier := TierLoad{Crop: waxy, Cut: cubes, Until: Tender, Grams: 650}
	round, err := ArrangeTiers([]TierLoad{tier, tier}, Conditions{NetPowerW: l.NetPowerW})
	require.NoError(t, err)
	assert.Equal(t, round.Estimates[1].FromLoading, e.FromLoading, "the upper tier is the last")
	assert.Equal(t, round.SwapAt, l.Series.SwapAt)

	lost := 800 * (math.Pi/4*0.24*0.24 + math.Pi*0.24*0.07*2)
	assert.InEpsilon(t, 0.45*1800-lost, l.NetPowerW, 1e-9)
	assert.InEpsilon(t, lost, l.LossW, 1e-9)
	assert.Equal(t, []float64{1800, 0.45, 0.75}, []float64{l.PowerW, l.Efficiency, l.Cover})
	evaporates := l.NetPowerW / 2256.5e3 * 60e3
	assert.InEpsilon(t, evaporates, l.EvaporatesG, 0.001)
	water := 1.3*evaporates*2*(e.ComeUp+e.High) + 300
	assert.InEpsilon(t, water, l.WaterML, 0.001)
	toBoil := (water/1e3*4186 + 0.8*500) * (e.SteamC - 15) / (0.45*1800 - lost/2) / 60
	assert.InEpsilon(t, toBoil, l.ToBoil, 0.001)
	assert.InEpsilon(t, toBoil+2*(e.ComeUp+e.Minutes), l.TotalMinutes, 0.001)
	assert.InEpsilon(t, 1800*60*l.TotalMinutes/45.7e6*1e3, l.GasG, 1e-9)
	assert.InEpsilon(t, 1800*60*(toBoil+2*(e.ComeUp+e.High))/45.7e6*1e3, l.GasLongestG, 0.001)
	assert.Equal(t, "butane", l.Fuel)
}

// Gaps are left for pieces that must stay just tender; a pan never starts with
// less than half a litre; the tap is no warmer than 15 °C, however warm the
// pieces are.
func TestLoadsOfTheirOwnKind(t *testing.T) {
	waxy, cubes := crop(t, "potato", "waxy"), cut(t, "cube 25 mm")
	plan := func(until Doneness, grams float64, e Equipment, c Conditions) Load {
		l, err := LoadPlan(waxy, cubes, until, grams, e, c)
		require.NoError(t, err)
		return l
	}
	tender := plan(Tender, 600, Equipment{}, Conditions{})
	gaps := plan(JustTender, 600, Equipment{}, Conditions{})
	assert.InEpsilon(t, 0.65/0.75, gaps.GramsPerLayer/tender.GramsPerLayer, 1e-9)
	assert.Equal(t, gaps.GramsPerLayer, plan(0, 600, Equipment{}, Conditions{}).GramsPerLayer, "nothing said is just tender")

	little := plan(JustTender, 100, Equipment{PowerW: 450}, Conditions{})
	assert.Equal(t, 500.0, little.WaterML)
	more := plan(Soft, 600, Equipment{}, Conditions{})
	assert.Greater(t, more.WaterML, 500.0)

	for start, from := range map[float64]float64{5: 5, 15: 15, 40: 15} {
		l := plan(JustTender, 100, Equipment{PowerW: 450}, Conditions{StartC: new(start)})
		want := (0.5*4186 + 0.8*500) * (l.Estimate.SteamC - from) / (0.45*450 - l.LossW/2) / 60
		assert.InEpsilon(t, want, l.ToBoil, 1e-9, "from %g °C", start)
	}
	wide := plan(JustTender, 100, Equipment{PowerW: 900, DiameterMM: 480}, Conditions{})
	want := (0.5*4186 + 4*0.8*500) * (wide.Estimate.SteamC - 15) / (0.45*900 - wide.LossW/2) / 60
	assert.InEpsilon(t, want, wide.ToBoil, 1e-9, "a pan twice as wide is four times as heavy")

	// Exactly one layer is one layer; a hair more is two.
	assert.Equal(t, 1, plan(Tender, tender.GramsPerLayer, Equipment{}, Conditions{}).Layers)
	assert.Equal(t, 2, plan(Tender, tender.GramsPerLayer*1.0001, Equipment{}, Conditions{}).Layers)
	assert.Equal(t, 1, plan(Tender, 2*tender.GramsPerLayer, Equipment{}, Conditions{}).Rounds)
	assert.Equal(t, 2, plan(Tender, 2.01*tender.GramsPerLayer, Equipment{}, Conditions{}).Rounds)
	// A heap is what is more than a layer and a half in a tier.
	brim := 3 * tender.GramsPerLayer
	assert.False(t, plan(Tender, brim*0.999, Equipment{}, Conditions{Heaped: true}).Heaped)
	assert.True(t, plan(Tender, brim*1.001, Equipment{}, Conditions{Heaped: true}).Heaped)
	assert.False(t, plan(Tender, brim*1.001, Equipment{}, Conditions{}).Heaped)
	large, err := LoadPlan(waxy, cut(t, "whole 120 mm"), Tender, 1000, Equipment{DiameterMM: 110}, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, 1, large.PiecesPerLayer, "one piece at least")
	for _, grams := range []float64{0.99, 50001} {
		_, err := LoadPlan(waxy, cubes, Tender, grams, Equipment{}, Conditions{})
		assert.ErrorContains(t, err, "out of reach")
	}
	_ = plan(Tender, 1, Equipment{}, Conditions{})
	_ = plan(Tender, 50000, Equipment{}, Conditions{})
}
