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
	if !cut.Sized() {
		return Body{}, &units.FieldError{Field: "cut", Value: cut.String(), Problem: "no size",
			Accepted: "the size: " + cut.Shape.String() + " 45 mm"}
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
	case cut.Shape == Slice:
		return discBody(or(cut.AcrossMM, crop.WidthMM), cut.SizeMM), nil
	}
	return Body{}, &units.FieldError{Field: "cut", Problem: "none given", Accepted: "" + CutForms}
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

// part is a tuber cut through its middle. For a sphere its slowest mode is a
// spherical Bessel function times an angular factor, so decay is the square of
// that function's first zero; along weights the mode of an ellipsoid a little
// stretched (Rayleigh quotient). exponent and film follow from the mode
// (computed).
type part struct {
	decay          float64
	along          [3]float64 // weights of 1/a², 1/b², 1/c²
	exponent, film float64
	pieces         float64
	// Far stretched, heat leaves sideways: zero is of the Bessel function
	// across, and the mode along is an oscillator's, with one quantum, or with
	// three when the knife cuts it in the middle.
	zero, quanta float64
}

var parts = map[Shape]part{
	Whole:        {9.869604, [3]float64{1. / 3, 1. / 3, 1. / 3}, 2, 1, 1, 2.404826, 1},
	Halves:       {20.190729, [3]float64{1. / 5, 3. / 5, 1. / 5}, 2.1898, 0.834, 2, 3.831706, 1},
	HalvesAcross: {20.190729, [3]float64{3. / 5, 1. / 5, 1. / 5}, 2.1898, 0.834, 2, 2.404826, 3},
	Quarters:     {33.217462, [3]float64{1. / 7, 3. / 7, 3. / 7}, 2.2347, 0.848, 4, 5.135622, 1},
	Eighths:      {48.831194, [3]float64{1. / 3, 1. / 3, 1. / 3}, 2.2139, 0.847, 8, 5.135622, 3},
	Wedges:       {66.954312, [3]float64{1. / 11, 5. / 11, 5. / 11}, 2.3693, 0.821, 8, 7.588342, 1},
}

// slowest is the decay rate over the diffusivity, 1/m², of the part's slowest
// mode in an ellipsoid with half lengths a ≥ b ≥ c. Over x = √(bc)/a it is the
// cubic that has the value and the slope of the sphere at x = 1, and of the far
// stretched body at x = 0: within 3 % of three-dimensional solutions up to two and a
// half times as long as wide.
func (p part) slowest(a, b, c float64) float64 {
	x := math.Sqrt(b*c) / a
	round, linear := p.zero*p.zero, p.quanta*p.zero
	value := p.decay - round - linear      // of the two last terms at x = 1
	slope := 2*p.decay*p.along[0] - linear // and their slope there
	square, cubic := 3*value-slope, slope-2*value
	stretched := round + x*(linear+x*(square+x*cubic))
	nearRound := p.decay * (p.along[0]*x*x + p.along[1] + p.along[2])
	return p.decay * (p.along[0]/(a*a) + p.along[1]/(b*b) + p.along[2]/(c*c)) * stretched / nearRound
}

// tuberBody is the body of one piece of an ellipsoid with half lengths a ≥ b ≥ c.
func tuberBody(shape Shape, a, b, c float64) Body {
	p := parts[shape]
	zero, _ := radial(p.exponent)
	body := Body{
		RadiusM:     zero / math.Sqrt(p.slowest(a, b, c)),
		Exponent:    p.exponent,
		Film:        p.film,
		VolumeM3:    4. / 3 * math.Pi * a * b * c / p.pieces,
		AreaM2:      ellipsoidArea(a, b, c)/p.pieces + cutFaces(shape, a, b, c),
		FootprintM2: footprint(shape, a, b, c),
	}
	return body.withArea()
}

// ellipsoidArea is Thomsen's approximation, within 1.1 % (known_by: memory).
func ellipsoidArea(a, b, c float64) float64 {
	const p = 1.6075
	ab, ac, bc := math.Pow(a*b, p), math.Pow(a*c, p), math.Pow(b*c, p)
	return 4 * math.Pi * math.Pow((ab+ac+bc)/3, 1/p)
}

// cutFaces is the area the knife laid open on one piece.
func cutFaces(shape Shape, a, b, c float64) float64 {
	switch shape {
	case Halves:
		return math.Pi * a * c
	case HalvesAcross:
		return math.Pi * b * c
	case Quarters:
		return math.Pi * a * (b + c) / 2
	case Eighths:
		return math.Pi * (a*b + a*c + b*c) / 4
	case Wedges:
		return math.Pi * a * math.Sqrt(b*c)
	}
	return 0
}

// footprint is the area one piece covers on the basket, lying on its largest face.
func footprint(shape Shape, a, b, c float64) float64 {
	switch shape {
	case HalvesAcross:
		return math.Pi * b * c
	case Quarters, Wedges:
		return math.Pi * a * b / 2
	case Eighths:
		return math.Pi * a * b / 4
	}
	return math.Pi * a * b
}

// brickBody is the body of a brick with sides in mm, in any order: its centre
// follows the product of three slabs (Carslaw & Jaeger 1959); the radius makes
// the radial body pass a tenth at the same moment.
func brickBody(x, y, z float64) Body {
	sides := []float64{x / 2e3, y / 2e3, z / 2e3}
	slices.Sort(sides)
	l1, l2, l3 := sides[0], sides[1], sides[2]
	moment := l1 * l1 * tenth(0.02, 2, func(fo float64) float64 {
		return slabCentre(fo) * slabCentre(fo*l1*l1/(l2*l2)) * slabCentre(fo*l1*l1/(l3*l3))
	})
	const quarterPi2 = math.Pi * math.Pi / 4
	body := Body{
		Exponent:    1.0528*beside(l2/l1) + 1.0916*beside(l3/l1),
		VolumeM3:    8 * l1 * l2 * l3,
		AreaM2:      8 * (l1*l2 + l1*l3 + l2*l3),
		FootprintM2: 4 * l2 * l3,
	}
	return body.passingTenthAt(moment, quarterPi2*(1/(l1*l1*l1)+1/(l2*l2*l2)+1/(l3*l3*l3)))
}

// discBody is the body of a disc or stick, diameter and height in mm.
func discBody(diameter, height float64) Body {
	r, l := diameter/2e3, height/2e3
	const slab2, cylinder2 = math.Pi * math.Pi / 4, 2.404826 * 2.404826
	small := min(r, l)
	moment := small * small * tenth(0.02, 2, func(fo float64) float64 {
		return slabCentre(fo*small*small/(l*l)) * cylinderCentre(fo*small*small/(r*r))
	})
	exponent := 1 + 1.0899*beside(l/r)
	if r >= l {
		exponent = 2.0899 * beside(r/l)
	}
	body := Body{
		Exponent:    exponent,
		VolumeM3:    math.Pi * r * r * height / 1e3,
		AreaM2:      2 * math.Pi * r * (r + height/1e3),
		FootprintM2: math.Pi * r * r,
	}
	if l > r {
		body.FootprintM2 = 4 * r * l
	}
	return body.passingTenthAt(moment, slab2/(l*l*l)+cylinder2/(r*r*r))
}

// beside says how much a longer side still counts for the lag.
func beside(ratio float64) float64 {
	if ratio <= 1.5 {
		return 1
	}
	return 2.25 / (ratio * ratio)
}

// passingTenthAt sets the radius by the moment (time × diffusivity, m²) at
// which the piece's centre passes a tenth, and the film factor by the decay's
// first-order answer to the film, pull = Σ zero²/halfside³.
func (b Body) passingTenthAt(moment, pull float64) Body {
	zero, lag := radial(b.Exponent)
	b.RadiusM = zero * math.Sqrt(moment/math.Log(lag/0.1))
	b.Film = zero * zero / (b.RadiusM * b.RadiusM) / (b.RadiusM * pull)
	return b.withArea()
}

func (b Body) withArea() Body {
	b.AreaMore = b.AreaM2 / b.VolumeM3 * b.RadiusM / (b.Exponent + 1)
	return b
}
