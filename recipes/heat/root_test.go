package heat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Roots that are known (by hand, and Abramowitz & Stegun 1964, table 9.5, for the
// Bessel function) to the last digit, by as many looks at the function as counted here.
func TestRoots(t *testing.T) {
	for _, row := range []struct {
		name      string
		low, high float64
		f         func(x float64) float64
		want      float64
		looks     int
	}{
		{"cosine", 0, 3, math.Cos, math.Pi / 2, 16},
		{"Bessel's J0", 2, 3, math.J0, 2.404825557695773, 14},
		{"an exponential", 0, 172800, func(s float64) float64 { return math.Exp(-s/3000) - 0.1 }, 3000 * math.Ln10, 18},
		{"a cube", 0, 3, func(x float64) float64 { return x*x*x - 8 }, 2, 14},
		{"upwards", -1, 5, func(x float64) float64 { return x - 1 }, 1, 4},
		{"a step", 0, 1, func(x float64) float64 {
			if x > 1.0/3 {
				return 2
			}
			return -1
		}, 1.0 / 3, 70},
	} {
		looks := 0
		got := root(row.low, row.high, func(x float64) float64 { looks++; return row.f(x) })
		assert.InEpsilon(t, row.want, got, 1e-14, row.name)
		assert.Equal(t, row.looks, looks, row.name)
	}
	assert.Equal(t, 7.0, root(1, 7, func(x float64) float64 { return x }), "no root is the high end")
	assert.Equal(t, 7.0, root(1, 7, func(x float64) float64 { return -x }), "neither is there one")
}

// The first zeros of the Bessel functions of the slab, cylinder and sphere, and the
// lags of their slowest terms at the centre (Carslaw & Jaeger 1959; by hand: 4/pi of a
// slab, 2 of a sphere; 1.601975 of a cylinder, Heisler's charts).
func TestRadialBodies(t *testing.T) {
	for _, row := range []struct{ g, zero, lag float64 }{{0, math.Pi / 2, 4 / math.Pi}, {1, 2.404825557695773, 1.6019746}, {2, math.Pi, 2}} {
		zero, lag := radial(row.g)
		assert.InEpsilon(t, row.zero, zero, 1e-12)
		assert.InEpsilon(t, row.lag, lag, 1e-7)
	}
}
