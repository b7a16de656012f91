package heat

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A table by size says for each size and doneness what a question about that
// one piece says, and longer for larger and softer.
func TestTableAgreesWithSinglePieces(t *testing.T) {
	for _, shape := range []Shape{Cube, Box} {
		sizes := Steps(16, 32, 8)
		require.Equal(t, []float64{16, 24, 32}, sizes)
		rows, err := BySize(crop(t, "potato", "waxy"), shape, sizes, Conditions{})
		require.NoError(t, err)
		require.Len(t, rows, 3)
		for i, row := range rows {
			assert.Equal(t, sizes[i], row.SizeMM)
			alone, err := Steam(crop(t, "potato", "waxy"), row.By[1].Cut, Tender, Conditions{})
			require.NoError(t, err)
			assert.Equal(t, alone.Minutes, row.By[1].Minutes)
			assert.Less(t, row.By[0].Minutes, row.By[1].Minutes)
			assert.Less(t, row.By[1].Minutes, row.By[2].Minutes)
			if i > 0 {
				assert.Greater(t, row.By[0].Minutes+row.By[0].ComeUp, rows[i-1].By[0].Minutes+rows[i-1].By[0].ComeUp)
			}
		}
	}
	_, err := BySize(crop(t, "potato", "waxy"), Cube, []float64{20, -3}, Conditions{})
	assert.Error(t, err, "no piece is that small")
	assert.Len(t, Steps(1, 1e6, 1), 200, "a table has an end")
	assert.Empty(t, Steps(30, 20, 1))
}

// A table by the size of nobody's asking: pieces as a knife makes them, tubers
// and roots as they grow.
func TestUsualSizes(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	pieces := []float64{5, 10, 15, 20, 25, 30, 35, 40}
	for _, shape := range []Shape{Cube, Slice, Baton, Box} {
		assert.Equal(t, pieces, UsualSizes(waxy, shape))
	}
	for _, shape := range []Shape{Whole, Halves, Wedges} {
		assert.Equal(t, []float64{25, 30, 35, 40, 45, 50, 55, 60, 65}, UsualSizes(waxy, shape))
	}
	assert.Equal(t, []float64{7, 8, 9, 10, 11}, UsualSizes(crop(t, "peas", ""), Whole), "by a millimetre at least")
	assert.Equal(t, []float64{6, 7.5, 9}, Steps(6, 9, 1.5))
	assert.Equal(t, []float64{6, 7.5}, Steps(6, 8.9, 1.5))
	assert.Equal(t, []float64{0.1, 0.2, 0.30000000000000004}, Steps(0.1, 0.3, 0.1), "a hair of rounding costs no row")
}

// A knife test is weighed against the model's own time, which is the middle of
// an untested band.
func TestExpectIsTheMiddleOfTheBand(t *testing.T) {
	for _, text := range []string{"cube 25 mm", "whole 35 mm", "slice 6 mm", "quarters 60 mm"} {
		for d := JustTender; d <= Soft; d++ {
			e, err := Steam(crop(t, "potato", "waxy"), cut(t, text), d, Conditions{})
			require.NoError(t, err)
			alone, err := KnifeTest{Crop: "potato", Texture: "waxy", Cut: cut(t, text), Until: d}.Expected(Conditions{})
			require.NoError(t, err)
			assert.Equal(t, e.Minutes, alone, "%s, %s", text, d)
		}
	}
	_, err := KnifeTest{Crop: "potato", Until: Tender}.Expected(Conditions{})
	assert.Error(t, err)
	_, err = KnifeTest{Crop: "beetroot", Cut: cut(t, "whole 140 mm"), Until: Soft}.Expected(Conditions{AltitudeM: 4500})
	assert.ErrorIs(t, err, ErrNotDone)
}

// A carrot's two measures may be given; an oval root counts as the round one
// of its section.
func TestRootsWithTheirOwnMeasures(t *testing.T) {
	carrot := crop(t, "carrot", "")
	round, err := Steam(carrot, cut(t, "whole 150x25x25 mm"), Tender, Conditions{})
	require.NoError(t, err)
	usual, err := Steam(carrot, cut(t, "whole 25 mm"), Tender, Conditions{})
	require.NoError(t, err)
	assert.InDelta(t, usual.Minutes, round.Minutes, 1e-9, "six times as long as wide is what a carrot is")
	oval, err := Steam(carrot, cut(t, "whole 150x31.25x20 mm"), Tender, Conditions{})
	require.NoError(t, err)
	assert.InDelta(t, round.Minutes, oval.Minutes, 1e-6, "the square root of 31.25 times 20 is 25")
}

// What is said to the cook of each shape, fuel and doneness reads back.
func TestWordsReadBack(t *testing.T) {
	for shape, word := range shapeWords {
		read, err := ParseShape(word)
		require.NoError(t, err)
		assert.Equal(t, shape, read)
	}
	_, err := ParseShape("spiral")
	assert.ErrorContains(t, err, "spiral")
	for d := JustTender; d <= Soft; d++ {
		read, err := ParseDoneness(d.String())
		require.NoError(t, err)
		assert.Equal(t, d, read)
	}
	_, err = ParseDoneness("raw")
	assert.ErrorContains(t, err, `until "raw": not known`)
	assert.Equal(t, "just-tender", Doneness(0).String(), "the zero value counts as just tender")
}

// The fuel table: what each kilogram gives, and the cautions that go with it.
func TestFuels(t *testing.T) {
	heat := map[string]float64{ // lower heating values, engineering tables (memory)
		"butane": 45.7, "propane": 46.3, "natural gas": 47.1, "electric": 0,
	}
	efficiency := map[string]float64{"butane": 0.45, "propane": 0.45, "natural gas": 0.52, "electric": 0.70}
	require.Len(t, FuelRows(), len(heat))
	for _, row := range FuelRows() {
		assert.InDelta(t, heat[row.Name], row.MJPerKg, 1e-9, row.Name)
		assert.InDelta(t, efficiency[row.Name], row.Efficiency, 1e-9, row.Name)
		said := Cautions(Equipment{Fuel: row.Name})
		if row.MJPerKg > 0 {
			require.Len(t, said, 3, row.Name)
			assert.Contains(t, said[2], "carbon monoxide")
		} else {
			assert.Len(t, said, 2, "an electric plate makes no carbon monoxide")
		}
	}
	assert.Len(t, Cautions(Equipment{Fuel: "peat"}), 3, "a fuel not known gets the caution for gas")
	net, err := Equipment{}.NetPowerW()
	require.NoError(t, err)
	assert.InDelta(t, DefaultNetPowerW, net, 1e-9)
	_, err = Equipment{Fuel: "peat"}.NetPowerW()
	assert.ErrorContains(t, err, `fuel "peat": not known`)
	load, err := LoadPlan(crop(t, "potato", "waxy"), cut(t, "cube 25 mm"), Tender, 800, Equipment{Fuel: "electric"}, Conditions{})
	require.NoError(t, err)
	assert.Zero(t, load.GasG, "nothing is weighed of electricity")
}
