package heat

import "math"

// sector is a long stick cut lengthwise into equal parts, of radius 1: its
// slowest mode is a Bessel function of the order of parts/2 times a cosine, so
// decay is the square of that function's first zero; exponent gives the mode's
// lag at its hottest-lagging point, film its answer to a film (computed from
// the mode; the flat faces' share by quadrature).
type sector struct{ parts, decay, exponent, film float64 }

var sectors = map[Shape]sector{
	Halves:   {2, 14.68197064, 1.10325, 0.83433},
	Quarters: {4, 26.37461643, 1.08290, 0.88226},
	Eighths:  {4, 26.37461643, 1.08290, 0.88226}, // quarters cut across
	Wedges:   {8, 57.58294090, 1.12911, 0.84497},
}

// stickBody is the body of one piece of a long root or pod, reckoned as a
// cylinder; diameter and length in mm. Across its length it is a slab.
func stickBody(shape Shape, diameter, length float64) Body {
	if shape == HalvesAcross || shape == Eighths {
		length /= 2
	}
	cut, parted := sectors[shape]
	if !parted {
		return discBody(diameter, length)
	}
	r, l := diameter/2e3, length/2e3
	k := math.Sqrt(cut.decay) / r
	zero, lag := radial(cut.exponent)
	radius := zero / k
	moment := l * l * root(0, 10, func(fo float64) float64 {
		return lag*math.Exp(-k*k*l*l*fo)*slabCentre(fo) - 0.1
	})
	body := Body{
		Exponent:    cut.exponent + 1.0899*beside(l/radius),
		VolumeM3:    math.Pi * r * r * 2 * l / cut.parts,
		AreaM2:      2*math.Pi*r*2*l/cut.parts + 4*r*l + 2*math.Pi*r*r/cut.parts,
		FootprintM2: 2 * r * l,
	}
	if shape == Halves {
		body.FootprintM2 *= 2
	}
	return body.passingTenthAt(moment, k*k/(radius*cut.film)+math.Pi*math.Pi/4/(l*l*l))
}
