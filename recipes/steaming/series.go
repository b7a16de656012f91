package steaming

import "math"

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

// slabCentre is the dimensionless temperature at the middle of a slab of half
// thickness 1 whose faces take the surrounding temperature at once, at Fourier
// number fo (Carslaw & Jaeger 1959).
func slabCentre(fo float64) float64 {
	sum, sign := 0.0, 1.0
	for n := 1; n <= 12; n++ {
		zeta := (float64(n) - 0.5) * math.Pi
		term := 2 * sign / zeta * math.Exp(-zeta*zeta*fo)
		sum += term
		if math.Abs(term) < 1e-15 {
			break
		}
		sign = -sign
	}
	return sum
}

// Zeros of J0 and the factors 2/(zeta J1(zeta)) of the long cylinder's centre.
var cylinderZeros, cylinderLags = cylinderTerms()

func cylinderTerms() (zeros, lags [12]float64) {
	for n := range zeros {
		x := (float64(n) + 0.75) * math.Pi
		for range 20 {
			x += math.J0(x) / math.J1(x)
		}
		zeros[n], lags[n] = x, 2/(x*math.J1(x))
	}
	return zeros, lags
}

// cylinderCentre is slabCentre for a long cylinder of radius 1.
func cylinderCentre(fo float64) float64 {
	sum := 0.0
	for n, zeta := range cylinderZeros {
		term := cylinderLags[n] * math.Exp(-zeta*zeta*fo)
		sum += term
		if math.Abs(term) < 1e-15 {
			break
		}
	}
	return sum
}

// tenth finds the time (times diffusivity) at which a falling dimensionless
// temperature passes 0.1, by bisection between low and high.
func tenth(low, high float64, theta func(float64) float64) float64 {
	for range 60 {
		middle := (low + high) / 2
		if theta(middle) > 0.1 {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}
