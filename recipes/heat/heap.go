package heat

import "math"

// heap is pieces in a bowl, reckoned as a short cylinder.
type heap struct{ radiusM, halfM float64 }

func newHeap(s Spread) heap {
	volume := s.Grams / 1e3 / bedDensity
	if s.DepthMM > 0 {
		depth := s.DepthMM / 1e3
		return heap{radiusM: math.Sqrt(volume / (math.Pi * depth)), halfM: depth / 2}
	}
	d := math.Cbrt(4 * volume / math.Pi)
	return heap{radiusM: d / 2, halfM: d / 2}
}

func heapTimes(h heap) coolingTimes {
	with := func(film float64) func(from, to, air float64) float64 {
		centre := h.centre(film)
		return func(from, to, air float64) float64 {
			return heapCools(centre, from, to, air)
		}
	}
	dry := with(filmBedDry)
	return coolingTimes{moist: with(filmBedMoist), dry: dry, fridge: dry}
}

// heapCools is how long, in s, a heap's centre takes from one temperature to another
// in an air.
func heapCools(centre func(seconds float64) float64, from, to, air float64) float64 {
	if from <= to {
		return 0
	}
	theta := (to - air) / (from - air)
	return root(0, coolLongestS, func(seconds float64) float64 { return centre(seconds) - theta })
}

// centre is the heap's dimensionless temperature by time in s: the product of
// a slab's and a cylinder's exact series (Carslaw & Jaeger 1959).
func (h heap) centre(film float64) func(seconds float64) float64 {
	const alpha = bedConducts / (bedDensity * bedHeat)
	across := cylinder.series(film*h.radiusM/bedConducts, 8)
	along := slab.series(film*h.halfM/bedConducts, 8)
	soonest := noSooner * min(h.radiusM, h.halfM) * min(h.radiusM, h.halfM) / alpha
	return func(seconds float64) float64 {
		if seconds < soonest {
			return 1
		}
		return centreTheta(across, alpha*seconds/(h.radiusM*h.radiusM)) * centreTheta(along, alpha*seconds/(h.halfM*h.halfM))
	}
}
