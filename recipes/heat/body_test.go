package heat

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Volume and surface of every body's piece, by adding up the elements of a mesh
// of it. The ellipsoid's surface is Thomsen's, within 1.1 % (memory).
func TestBodiesMeasureTheirPiece(t *testing.T) {
	for _, long := range []float64{1, 1.3} {
		for shape, octants := range map[Shape]float64{Whole: 8, Halves: 4, HalvesAcross: 4, Quarters: 2, Eighths: 1, Wedges: 4} {
			e := ballPart(shape, 2*long, 2, 2, [3]int{2, 20, 20}).assemble()
			body := tuberBody(shape, 2*long, 2, 2)
			assert.InEpsilon(t, octants*e.volume, body.VolumeM3, 0.005, "%v, %g long", shape, long)
			assert.InEpsilon(t, octants*e.area, body.AreaM2, 0.013, "%v, %g long", shape, long)
		}
	}
	for name, row := range map[string]struct {
		mesh  solid
		parts float64
		body  Body
	}{
		"brick":           {brickPart(1.5, 2, 3, [3]int{8, 8, 8}), 8, brickBody(4e3, 6e3, 3e3)},
		"plate":           {discPart(4, 1.5, [3]int{2, 20, 4}), 8, discBody(8e3, 3e3)},
		"rod":             {discPart(1.5, 4, [3]int{2, 20, 4}), 8, discBody(3e3, 8e3)},
		"halved stick":    {stickPart(Halves, 1.5, 5, [3]int{2, 20, 4}), 4, stickBody(Halves, 3e3, 10e3)},
		"quartered stick": {stickPart(Quarters, 1.5, 5, [3]int{2, 20, 4}), 4, stickBody(Quarters, 3e3, 10e3)},
		"stick in wedges": {stickPart(Wedges, 1.5, 5, [3]int{2, 20, 4}), 4, stickBody(Wedges, 3e3, 10e3)},
		"eighth of stick": {stickPart(Quarters, 1.5, 2.5, [3]int{2, 20, 4}), 4, stickBody(Eighths, 3e3, 10e3)},
		"stick cut in two": {discPart(1.5, 2.5, [3]int{2, 20, 4}), 8,
			stickBody(HalvesAcross, 3e3, 10e3)},
	} {
		e := row.mesh.assemble()
		assert.InEpsilon(t, row.parts*e.volume, row.body.VolumeM3, 0.005, name)
		assert.InEpsilon(t, row.parts*e.area, row.body.AreaM2, 0.005, name)
	}
}

// What a piece covers lying on its largest flat side, or lengthwise.
func TestBodiesCoverTheBasket(t *testing.T) {
	waxy, carrot := crop(t, "potato", "waxy"), crop(t, "carrot", "")
	for _, row := range []struct {
		crop Crop
		cut  string
		mm2  float64
	}{
		{waxy, "whole 52x40x40 mm", math.Pi * 26 * 20},
		{waxy, "halves 52x40x40 mm", math.Pi * 26 * 20},
		{waxy, "halves across 52x40x40 mm", math.Pi * 20 * 20},
		{waxy, "quarters 52x40x40 mm", math.Pi * 26 * 20 / 2},
		{waxy, "wedges 52x40x40 mm", math.Pi * 26 * 20 / 2},
		{waxy, "eighths 52x40x40 mm", math.Pi * 26 * 20 / 4},
		{waxy, "cube 25 mm", 25 * 25},
		{waxy, "box 10x30x20 mm", 30 * 20},
		{waxy, "baton 10x60 mm", 10 * 60},
		{waxy, "baton 10 mm", 10 * 60},
		{waxy, "slice 6x40 mm", math.Pi * 20 * 20},
		{waxy, "slice 60x40 mm", 60 * 40},
		{waxy, "slice 6 mm", math.Pi * 25 * 25},
		{carrot, "whole 25 mm", 25 * 150},
		{carrot, "halves 25 mm", 25 * 150},
		{carrot, "quarters 25 mm", 12.5 * 150},
		{carrot, "wedges 25 mm", 12.5 * 150},
		{carrot, "eighths 25 mm", 12.5 * 75},
		{carrot, "halves across 25 mm", 25 * 75},
		{crop(t, "broad beans", ""), "whole 15 mm", math.Pi * 10.5 * 7.5},
	} {
		body, err := BodyOf(row.crop, cut(t, row.cut))
		require.NoError(t, err)
		assert.InEpsilon(t, row.mm2, body.FootprintM2*1e6, 1e-9, "%s, %s", row.crop.Name, row.cut)
	}
}

// A piece of twice the size is the same body, twice as large: four times as
// slow, with twice the radius.
func TestScaledBodies(t *testing.T) {
	for _, body := range []Body{brickBody(10, 20, 30), discBody(20, 8), tuberBody(Quarters, 0.03, 0.02, 0.02), stickBody(Halves, 20, 100)} {
		twice := body.scaled(2)
		assert.Equal(t, 2*body.RadiusM, twice.RadiusM)
		assert.InEpsilon(t, 8*body.VolumeM3, twice.VolumeM3, 1e-12)
		assert.InEpsilon(t, 4*body.AreaM2, twice.AreaM2, 1e-12)
		assert.InEpsilon(t, 4*body.FootprintM2, twice.FootprintM2, 1e-12)
		assert.Equal(t, body.Exponent, twice.Exponent)
		assert.Equal(t, body.Film, twice.Film)
		assert.Equal(t, body.AreaMore, twice.AreaMore)
	}
	assert.InEpsilon(t, brickBody(20, 40, 60).RadiusM, brickBody(10, 20, 30).scaled(2).RadiusM, 1e-9)
	assert.InDelta(t, 25, brickBody(25, 25, 25).EdgeMM(), 0.01)
}

// A heated radial body has the heat for each area of the real piece: its
// surface, AreaMore times as large, over its volume.
func TestBodiesHaveTheirPiecesHeatForEachArea(t *testing.T) {
	for i, body := range []Body{brickBody(10, 20, 30), discBody(20, 8), tuberBody(Eighths, 0.03, 0.02, 0.018), stickBody(Wedges, 20, 100)} {
		assert.InEpsilon(t, body.AreaM2/body.VolumeM3, body.AreaMore*(body.Exponent+1)/body.RadiusM, 1e-9, fmt.Sprint(i))
	}
}

// A tuber's length, width and thickness may be given in any order, and a flat
// one is thinner than the round.
func TestMeasuresInAnyOrder(t *testing.T) {
	waxy, carrot := crop(t, "potato", "waxy"), crop(t, "carrot", "")
	for _, c := range []Crop{waxy, carrot} {
		want, err := BodyOf(c, cut(t, "halves 90x40x30 mm"))
		require.NoError(t, err)
		for _, text := range []string{"halves 30x40x90 mm", "halves 40x90x30 mm", "halves 40x30x90 mm"} {
			got, err := BodyOf(c, cut(t, text))
			require.NoError(t, err)
			assert.Equal(t, want, got, "%s, %s", c.Name, text)
		}
	}
	beans := crop(t, "broad beans", "")
	usual, err := BodyOf(beans, cut(t, "whole 15 mm"))
	require.NoError(t, err)
	spelt, err := BodyOf(beans, cut(t, "whole 21x15x9 mm"))
	require.NoError(t, err)
	assert.InEpsilon(t, spelt.RadiusM, usual.RadiusM, 1e-9, "0.6 times as thick as wide is what a bean is")
}
