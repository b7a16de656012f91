package heat

import "math"

// part is a tuber cut through its middle. For a sphere its slowest mode is a
// spherical Bessel function times an angular factor, so decay is the square of
// that function's first zero; along weights the mode of an ellipsoid a little
// stretched (Rayleigh quotient). exponent follows from the mode, film was fitted
// to three-dimensional solutions at a Biot number of 25 (computed).
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
