package heat

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Every amount is taken up to the very ends of what is told as accepted, and refused
// at its field a little beyond either. The ends are judgements: what no kitchen has.
func TestEndsOfEveryAmount(t *testing.T) {
	waxy, peas, cubes := crop(t, "potato", "waxy"), crop(t, "peas", ""), cut(t, "cube 25 mm")
	chill := func(spread Spread, place ColdPlace) error {
		_, err := ChillIn(waxy, cubes, spread, place)
		return err
	}
	cool := func(spread Spread, roomC float64) error {
		_, err := Cool(waxy, cubes, spread, roomC)
		return err
	}
	stove := func(e Equipment) error {
		_, err := e.stove()
		return err
	}
	for _, row := range []struct {
		field     string
		low, high float64
		beyond    float64 // as far over either end
		given     func(x float64) error
	}{
		{"cold place", -10, 45, 0.5, func(x float64) error { return chill(Spread{}, ColdPlace{CelsiusC: x}) }},
		{"room", -10, 45, 0.5, func(x float64) error { return chill(Spread{}, ColdPlace{RoomC: x}) }},
		{"ice", 0, 100000, 0.5, func(x float64) error { return chill(Spread{Grams: 500}, ColdPlace{In: IceWater, IceG: x}) }},
		{"water", 0, 100000, 0.5, func(x float64) error { return chill(Spread{Grams: 500}, ColdPlace{In: ColdWater, WaterML: x}) }},
		{"cool", 0, 400, 0.5, func(x float64) error { return chill(Spread{Grams: 500, DepthMM: x}, ColdPlace{}) }},
		{"load", 0, 50000, 0.5, func(x float64) error { return chill(Spread{Grams: x}, ColdPlace{}) }},
		{"room", -10, 45, 0.5, func(x float64) error { return cool(Spread{}, x) }},
		{"fridge", 0.1, 12, 0.05, func(x float64) error { return cool(Spread{FridgeC: x}, 20) }},
		{"cool", 0, 400, 0.5, func(x float64) error { return cool(Spread{Grams: 500, DepthMM: x}, 20) }},
		{"load", 0, 50000, 0.5, func(x float64) error { return cool(Spread{Grams: x}, 20) }},
		{"steamer", 100, 800, 0.5, func(x float64) error { return stove(Equipment{DiameterMM: x}) }},
		{"steamer", 1, 6, 1, func(x float64) error {
			if x == 0 {
				x = -1 // 0 is the usual
			}
			return stove(Equipment{Tiers: int(x)})
		}},
		{"stove", 200, 15000, 0.5, func(x float64) error { return stove(Equipment{PowerW: x, Efficiency: 0.9}) }},
		{"pan", 0.1, 20, 0.01, func(x float64) error { return stove(Equipment{PanKg: x}) }},
		{"stove efficiency", 0.05, 1, 0.002, func(x float64) error { return stove(Equipment{Efficiency: x, PowerW: 15000}) }},
		{"pot", 200, 50000, 0.5, func(x float64) error {
			_, _, _, err := Equipment{PotML: x}.potFire()
			return err
		}},
		{"water", 100, 50000, 0.5, func(x float64) error {
			_, err := Boil(waxy, cubes, Tender, Water{ML: x}, Conditions{})
			return err
		}},
		{"load", 1, 50000, 0.5, func(x float64) error {
			_, err := BoilPlan(waxy, cubes, Tender, x, Equipment{}, Water{}, Conditions{})
			return err
		}},
		{"load", 1, 50000, 0.5, func(x float64) error {
			_, err := Blanch(peas, cut(t, "whole 9 mm"), x, Equipment{}, Conditions{})
			return err
		}},
		{"load", 1, 50000, 0.5, func(x float64) error {
			_, err := LoadPlan(waxy, cubes, Tender, x, Equipment{}, Conditions{})
			return err
		}},
		{"tuber", 2, 200, 0.5, func(x float64) error { return Cut{Shape: Whole}.CheckTuber(x) }},
		{"found", 0.5, 180, 0.01, func(x float64) error {
			_, err := ParseFound(millimetres(x) + " min tender")
			return err
		}},
	} {
		for _, x := range []float64{row.low, row.high} {
			assert.NoError(t, row.given(x), "%s %g", row.field, x)
		}
		for _, x := range []float64{row.low - row.beyond, row.high + row.beyond} {
			var wrong *units.FieldError
			require.True(t, errors.As(row.given(x), &wrong), "%s %g is refused", row.field, x)
			assert.Equal(t, row.field, wrong.Field)
		}
	}
	// A simmer lies between 80 °C and the boil of the place.
	for held, fine := range map[float64]bool{80: true, 79.9: false, 99.97: true, 100.1: false} {
		err := Water{HeldC: held, ML: 1000}.check(SteamC(0))
		assert.Equal(t, fine, err == nil, "held at %g °C: %v", held, err)
	}
}

// A pot is filled to nine tenths, a gram in it takes a millilitre and as much water to
// cover it: 2700 ml of 3 l hold 1350 g. By hand.
func TestWhatAPotHolds(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	for _, row := range []struct {
		grams, potML float64
		rounds       int
		waterML      float64
	}{
		{1350, 0, 1, 1350}, {1351, 0, 2, 1351}, {2700, 0, 2, 1350}, {2701, 0, 3, 2700 - 2701.0/3}, {200, 0, 1, 500}, {500, 0, 1, 1000}, {900, 2000, 1, 900}, {901, 2000, 2, 901},
	} {
		b, err := BoilPlan(waxy, cut(t, "cube 25 mm"), Tender, row.grams, Equipment{PotML: row.potML}, Water{}, Conditions{})
		require.NoError(t, err)
		assert.Equal(t, row.rounds, b.Rounds, "%g g", row.grams)
		assert.InDelta(t, row.waterML, b.WaterML, 1e-6, "%g g", row.grams)
		assert.InDelta(t, row.grams/float64(row.rounds), b.GramsPerRound, 1e-9)
	}
}

// A swap is advised from two minutes on that it brings the ends together by, an order
// from one.
func TestWhenASwapIsWorthIt(t *testing.T) {
	load := TierLoad{Crop: crop(t, "potato", "waxy"), Cut: cut(t, "cube 25 mm"), Until: Tender, Grams: 500}
	f, err := newTiered([]TierLoad{load, load}, Conditions{}.filled())
	require.NoError(t, err)
	assert.Zero(t, f.swap([]float64{1000, 1119.9}))
	assert.Positive(t, f.swap([]float64{1000, 1120}))
	small := load
	small.Cut = cut(t, "cube 15 mm")
	f, err = newTiered([]TierLoad{small, load}, Conditions{}.filled())
	require.NoError(t, err)
	_, then := f.seconds([]int{1, 0}, 0)
	assert.Nil(t, f.better(then+59.9))
	assert.Equal(t, []int{1, 0}, f.better(then+60))
}

// A heap as deep as is told, however thin; else as wide as it is high. By hand: 650 g
// of pieces are a litre of heap.
func TestHeapsByHand(t *testing.T) {
	thin := newHeap(Spread{Grams: 650, DepthMM: 1})
	assert.InEpsilon(t, 0.0005, thin.halfM, 1e-12)
	assert.InEpsilon(t, 0.5641896, thin.radiusM, 1e-6, "the root of 1 over pi")
	bowl := newHeap(Spread{Grams: 650})
	assert.InEpsilon(t, 0.0541926, bowl.radiusM, 1e-5, "half the cubic root of 0.004 over pi")
	assert.Equal(t, bowl.radiusM, bowl.halfM)
}
