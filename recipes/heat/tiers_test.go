package heat

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// waxyOf is the waxy potato with figures of doneness of its own.
func waxyOf(t testing.TB, z, target float64) Crop {
	c := crop(t, "potato", "waxy")
	c.Z, c.Targets[Tender-1] = z, target
	return c
}

func numbers(t testing.TB, text string) (list []float64) {
	for _, word := range strings.Fields(text) {
		x, err := strconv.ParseFloat(word, 64)
		require.NoError(t, err)
		list = append(list, x)
	}
	return list
}

// Tiers in series and weak stoves against a prototype of another hand.
func TestTiersTable(t *testing.T) {
	for _, r := range table(t, "tiers.csv") {
		waxy := waxyOf(t, 33, r.number(t, "target"))
		var loads []TierLoad
		for _, grams := range numbers(t, r["grams"]) {
			loads = append(loads, TierLoad{Crop: waxy, Cut: cut(t, "cube 25 mm"), Until: Tender, Grams: grams})
		}
		f, err := newTiered(loads, Conditions{NetPowerW: r.number(t, "net_w")})
		require.NoError(t, err)
		run := f.start(nil, math.Inf(1), r.number(t, "bypass"))
		for i, want := range numbers(t, r["from_loading"]) {
			got := run.last(i).cooked(waxy.Target(Tender), waxy.Z)
			assert.InDelta(t, want, got.seconds/60, r.number(t, "tolerance_min"), "%s, tier %d", r["id"], i+1)
		}
		if r["free_min"] != "" {
			assert.InDelta(t, r.number(t, "free_min"), run.freeS/60, 0.2, "%s, free steam", r["id"])
		}
	}
}

// A single tier is what Steam says; of two alike the upper is later by about the
// heat of the lower over the power.
func TestTiersWaitForThoseBelow(t *testing.T) {
	waxy, cubes := crop(t, "potato", "waxy"), cut(t, "cube 25 mm")
	alone, err := Steam(waxy, cubes, Tender, Conditions{LoadGrams: 500})
	require.NoError(t, err)
	one, err := ArrangeTiers([]TierLoad{{Crop: waxy, Cut: cubes, Until: Tender, Grams: 500}}, Conditions{})
	require.NoError(t, err)
	require.Len(t, one.Estimates, 1)
	one.Estimates[0].PerMM = alone.PerMM
	assert.InEpsilon(t, alone.FromLoading, one.Estimates[0].FromLoading, 1e-9)
	assert.Nil(t, one.Better)
	assert.Zero(t, one.SwapAt)

	load := TierLoad{Crop: waxy, Cut: cubes, Until: Tender, Grams: 500}
	two, err := ArrangeTiers([]TierLoad{load, load}, Conditions{})
	require.NoError(t, err)
	lower, upper := two.Estimates[0], two.Estimates[1]
	p := lower.Properties
	lag := 0.5 * p.HeatCapacity * (100 - 15) / 700 / 60
	assert.InEpsilon(t, lag, upper.FromLoading-lower.FromLoading, 0.25)
	assert.Equal(t, lower.ComeUp, upper.ComeUp, "one clock for all")
	assert.Nil(t, two.Better, "they are alike")

	// Swapped at the advised moment, both end together.
	f, err := newTiered([]TierLoad{load, load}, Conditions{})
	require.NoError(t, err)
	require.Greater(t, two.SwapAt, 1.0)
	each, _ := f.seconds(nil, two.SwapAt*60)
	assert.InDelta(t, each[0], each[1], 10, "within ten seconds")
}

// The longest go below: told where it gains a minute, and it does gain it.
func TestLongestBelow(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	small := TierLoad{Crop: waxy, Cut: cut(t, "cube 15 mm"), Until: Tender, Grams: 500}
	large := TierLoad{Crop: waxy, Cut: cut(t, "cube 30 mm"), Until: Tender, Grams: 500}
	wrong, err := ArrangeTiers([]TierLoad{small, large}, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, []int{1, 0}, wrong.Better)
	right, err := ArrangeTiers([]TierLoad{large, small}, Conditions{})
	require.NoError(t, err)
	assert.Nil(t, right.Better)
	last := func(s Tiers) float64 { return max(s.Estimates[0].FromLoading, s.Estimates[1].FromLoading) }
	assert.Greater(t, last(wrong)-last(right), 1.0)
	_, err = ArrangeTiers(nil, Conditions{})
	assert.ErrorContains(t, err, "no tier holds anything")
}

// Heat in is heat in the food and steam out, whatever lies on however many tiers:
// far within 2 %.
func TestSteamersLoseNoHeat(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 2031))
	for range 40 {
		var loads []TierLoad
		for range 1 + r.IntN(4) {
			crop, cut, _ := anySteaming(r)
			loads = append(loads, TierLoad{Crop: crop, Cut: cut, Until: Tender, Grams: 50 + r.Float64()*900})
		}
		c := Conditions{NetPowerW: 200 + r.Float64()*2000, Heaped: r.IntN(3) == 0}
		f, err := newTiered(loads, c)
		require.NoError(t, err)
		run := f.run(nil, math.Inf(1))
		for range 50 + r.IntN(300) {
			run.advance()
		}
		food := 0.0
		for i, tier := range run.tiers {
			s := f.situations[i]
			for _, l := range tier.layers {
				kg := loads[i].Grams / 1e3 / float64(len(tier.layers))
				food += kg * s.props.HeatCapacity * (heatOf(l.t[:shells], s.body.Exponent) - s.start)
			}
		}
		assert.InEpsilon(t, run.made, food+run.escaped, 0.005, "%v", loads)
	}
}

// Small crops lie as deep as their weight makes them, a layer for every 12 mm of
// bulk, and the more there are the longer the last take.
func TestSmallCropsHeap(t *testing.T) {
	peas := crop(t, "peas", "")
	before := 0.0
	for _, row := range []struct {
		grams  float64
		layers int
	}{{150, 1}, {500, 2}, {1000, 4}} { // 240 mm of basket at 600 kg/m³: 5.5, 18 and 37 mm
		e, err := Steam(peas, Cut{Shape: Whole, SizeMM: 9}, Tender, Conditions{LoadGrams: row.grams})
		require.NoError(t, err)
		assert.Equal(t, row.layers, e.LayersDeep, "%g g", row.grams)
		assert.Greater(t, e.FromLoading, before)
		before = e.FromLoading
	}
	slices, err := Steam(crop(t, "carrot", ""), cut(t, "slice 6 mm"), Tender, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, 1, slices.LayersDeep, "slices are laid out")
}
