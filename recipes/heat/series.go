package heat

import (
	"math"
	"sync"
)

// radial holds the first zero and the lag factor of the radial body of shape
// exponent g (0 slab, 1 cylinder, 2 sphere, anything between): with
// nu = (g-1)/2 the zero of J_nu, and the factor of the slowest term at the
// centre of a body whose surface is held at the steam's temperature (Carslaw &
// Jaeger, Conduction of Heat in Solids, 1959).
func radial(g float64) (zero, lag float64) {
	nu := (g - 1) / 2
	x := math.Pi/2 + 0.785*g // close enough for Newton from 0 to 3
	for range 20 {
		f, df := reduced(nu, x), -x/(2*(nu+1))*reduced(nu+1, x)
		step := f / df
		x -= step
		if math.Abs(step) < 1e-13 {
			break
		}
	}
	return x, 4 * (nu + 1) / (x * x * reduced(nu+1, x))
}

// reduced is Gamma(nu+1) (2/x)^nu J_nu(x), the Bessel function without its
// power; its derivative is -x/(2(nu+1)) reduced(nu+1, x).
func reduced(nu, x float64) float64 {
	term, sum := 1.0, 1.0
	for k := 1.0; k < 60; k++ {
		term *= -x * x / (4 * k * (nu + k))
		sum += term
		if math.Abs(term) < 1e-17*math.Abs(sum) {
			break
		}
	}
	return sum
}

// tenth finds the time (times diffusivity) at which a falling dimensionless
// temperature passes 0.1, between low and high.
func tenth(low, high float64, theta func(float64) float64) float64 {
	return root(low, high, func(fo float64) float64 { return theta(fo) - 0.1 })
}

// geometry is a body whose exact series is known.
type geometry uint8

const (
	slab     geometry = 0 // half thickness 1
	cylinder geometry = 1 // radius 1, long
	sphere   geometry = 2 // radius 1
)

// mode is the shape of a term along the radius and its slope, both at the
// surface, for the eigenvalue zeta.
func (g geometry) mode(zeta float64) (value, slope float64) {
	switch g {
	case slab:
		return math.Cos(zeta), -zeta * math.Sin(zeta)
	case cylinder:
		return math.J0(zeta), -zeta * math.J1(zeta)
	}
	if zeta == 0 {
		return 1, 0
	}
	value = math.Sin(zeta) / zeta
	return value, math.Cos(zeta) - value
}

// term is one term of an exact series: factor · exp(-zeta² Fo) at the centre.
type term struct{ zeta, factor float64 }

// series gives the first terms of the exact solution for a Biot number, on half
// thickness or radius; bi = +Inf holds the surface at the surroundings'
// temperature (Carslaw & Jaeger, Conduction of Heat in Solids, 1959).
func (g geometry) series(bi float64, terms int) []term {
	balance := func(zeta float64) float64 {
		value, slope := g.mode(zeta)
		if math.IsInf(bi, 1) {
			return value
		}
		return bi*value + slope
	}
	found := make([]term, 0, terms)
	const pace = 1.0 // roots lie more than half of pi apart, the first may be near 0
	from, before := 0.0, balance(0)
	for len(found) < terms {
		to := from + pace
		after := balance(to)
		if before != 0 && (after > 0) != (before > 0) {
			zeta := root(from, to, balance)
			found = append(found, term{zeta, g.factor(zeta)})
		}
		from, before = to, after
	}
	return found
}

// factor is the integral of a mode over the body by that of its square.
func (g geometry) factor(zeta float64) float64 {
	value, slope := g.mode(zeta)
	z2 := zeta * zeta
	mean := -slope / z2
	square := (value*value + slope*slope/z2 + (float64(g)-1)*value*slope/z2) / 2
	return mean / square
}

// root finds where f changes sign between low and high, or high where it does not,
// by Ridders' rule (1979): a false position on what is left of f once an exponential
// through both ends and the middle is taken out of it. Ends are never left.
func root(low, high float64, f func(float64) float64) float64 {
	below, above := f(low), f(high)
	if (below > 0) == (above > 0) {
		return high
	}
	at, before := high, low
	for range 60 {
		middle := low + (high-low)/2
		half := f(middle)
		at = middle + (middle-low)*math.Copysign(1, below-above)*half/math.Sqrt(half*half-below*above)
		here := f(at)
		if here == 0 || at == before {
			break
		}
		before = at
		for _, point := range [...][2]float64{{middle, half}, {at, here}} {
			switch x, y := point[0], point[1]; {
			case x <= low || x >= high:
			case (y > 0) == (below > 0):
				low, below = x, y
			default:
				high, above = x, y
			}
		}
	}
	return at
}

// centreTheta is the dimensionless temperature at the centre: 1 at the start,
// 0 in the end.
func centreTheta(terms []term, fo float64) float64 {
	sum := 0.0
	for _, t := range terms {
		part := t.factor * math.Exp(-t.zeta*t.zeta*fo)
		sum += part
		if math.Abs(part) < 1e-15 {
			break
		}
	}
	return sum
}

// Series of bodies whose surface takes the surroundings' temperature at once.
var (
	slabAtOnce     = sync.OnceValue(func() []term { return slab.series(never, 12) })
	cylinderAtOnce = sync.OnceValue(func() []term { return cylinder.series(never, 12) })
)

// noSooner is the time (times diffusivity over half thickness or radius squared)
// before which a centre feels nothing: less than a part in 10^11 by then, and
// more than the first terms of a series can say.
const noSooner = 0.01

func slabCentre(fo float64) float64     { return atOnce(slabAtOnce(), fo) }
func cylinderCentre(fo float64) float64 { return atOnce(cylinderAtOnce(), fo) }

func atOnce(terms []term, fo float64) float64 {
	if fo < noSooner {
		return 1
	}
	return centreTheta(terms, fo)
}
