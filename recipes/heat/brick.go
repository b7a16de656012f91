package heat

import (
	"math"
	"slices"
	"sync"
)

// brickBody is the body of a brick with sides in mm, in any order: its centre
// follows the product of three slabs (Carslaw & Jaeger 1959); the radius makes
// the radial body pass a tenth at the same moment.
func brickBody(x, y, z float64) Body {
	sides := []float64{x / 2e3, y / 2e3, z / 2e3}
	slices.Sort(sides)
	l1, l2, l3 := sides[0], sides[1], sides[2]
	if l1 == l3 {
		return cubeOf2M().scaled(l1)
	}
	return unevenBody(l1, l2, l3)
}

// cubeOf2M is the body of a cube whose sides are 2 m: every cube's but for its size.
var cubeOf2M = sync.OnceValue(func() Body { return unevenBody(1, 1, 1) })

// unevenBody is brickBody of half the sides in m, the least first.
func unevenBody(l1, l2, l3 float64) Body {
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
