package heat

import (
	"math"
	"slices"
	"trencher/units"
)

// Body is the radial body that stands for a piece: heat moves along the radius
// only, through shells whose area goes with radius to the power Exponent.
type Body struct {
	RadiusM  float64 // its slowest decay rate equals the piece's
	Exponent float64 // g: 0 slab, 1 cylinder, 2 sphere; gives the lag at the centre
	Film     float64 // s_h: factor on the surface coefficient, for a large Biot number
	AreaMore float64 // s_A: factor on the surface coefficient that makes heat per area right
	VolumeM3 float64 // of the piece itself
	AreaM2   float64 // of the piece itself
	// FootprintM2 is the area the piece covers lying on its flattest side.
	FootprintM2 float64
}

// scaled is the body of the same piece, every length times factor.
func (b Body) scaled(factor float64) Body {
	b.RadiusM *= factor
	b.VolumeM3 *= factor * factor * factor
	b.AreaM2 *= factor * factor
	b.FootprintM2 *= factor * factor
	return b
}

// EdgeMM is the edge, in mm, of the cube that takes as long: the one size by
// which pieces of every shape compare.
func (b Body) EdgeMM() float64 { return b.RadiusM / cubeRadius * 1e3 }

// cubeRadius is RadiusM of a cube of edge 1.
const cubeRadius = 0.5961

// BodyOf finds the body of a sized cut of a crop. The crop gives what the cut
// leaves open: how long a tuber is, how wide a slice.
func BodyOf(crop Crop, cut Cut) (Body, error) {
	if cut.Shape == 0 {
		return Body{}, units.WrongField("cut", "", "none given", CutForms)
	}
	if !cut.Sized() {
		return Body{}, units.WrongField("cut", cut.String(), "no size", "the size: "+cut.Shape.String()+" 45 mm")
	}
	if err := cut.check(); err != nil {
		return Body{}, err
	}
	switch {
	case cut.Shape.OfTuber() && crop.Stick:
		length, diameter := stickSize(crop, cut)
		return stickBody(cut.Shape, diameter, length), nil
	case cut.Shape.OfTuber():
		a, b, c := tuberAxes(crop, cut)
		return tuberBody(cut.Shape, a, b, c), nil
	case cut.Shape == Cube:
		return brickBody(cut.SizeMM, cut.SizeMM, cut.SizeMM), nil
	case cut.Shape == Baton:
		return brickBody(cut.SizeMM, cut.SizeMM, or(cut.AcrossMM, 6*cut.SizeMM)), nil
	case cut.Shape == Box:
		return brickBody(cut.Sides[0], cut.Sides[1], cut.Sides[2]), nil
	}
	return discBody(or(cut.AcrossMM, crop.WidthMM), cut.SizeMM), nil // a slice
}

// or is value, or otherwise when none is given (0). A value that cannot be is
// kept, to be refused.
func or(value, otherwise float64) float64 {
	if value == 0 {
		return otherwise
	}
	return value
}

// tuberAxes gives the half lengths, in m, longest first.
func tuberAxes(crop Crop, cut Cut) (a, b, c float64) {
	if cut.Sides[0] > 0 {
		sides := cut.Sides
		slices.Sort(sides[:])
		return sides[2] / 2e3, sides[1] / 2e3, sides[0] / 2e3
	}
	b = cut.SizeMM / 2e3
	return b * crop.Length, b, b * or(crop.Thickness, 1)
}

// stickSize gives length and diameter in mm: of an oval section the diameter of
// the round one as large.
func stickSize(crop Crop, cut Cut) (length, diameter float64) {
	if cut.Sides[0] > 0 {
		sides := cut.Sides
		slices.Sort(sides[:])
		return sides[2], math.Sqrt(sides[0] * sides[1])
	}
	return cut.SizeMM * crop.Length, cut.SizeMM
}

func (b Body) withArea() Body {
	b.AreaMore = b.AreaM2 / b.VolumeM3 * b.RadiusM / (b.Exponent + 1)
	return b
}
