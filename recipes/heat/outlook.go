package heat

import "math"

// kitchens is what is known of a kitchen that has tested nothing yet. Its minutes
// are the model's t, times exp(phi + a·delta), plus the clock's bias; a is how the
// time goes with the target. A reading scatters about that by the sizes of pieces
// and the lot, and by what a look at the clock misses, in one kitchen more than in
// another. Each is normal, with these standard deviations (judgement; for a cube of
// 25 mm they come to 0.27 in the logarithm together, by which printed times of one
// piece differ from source to source).
type kitchens struct {
	phi     float64 // of the logarithm: film, diffusivity, power
	delta   float64 // of the target's logarithm: what a cook calls done, and the crop
	clock   float64 // minutes
	glance  float64 // minutes
	pieces  float64 // share of the time: 5 % of the size of the piece prodded
	lot     float64 // share of the time: from lot to lot
	scatter float64 // of the logarithm of how much readings scatter
	wild    float64 // share of readings that say nothing: the wrong pot, a slip of the pen
}

// prior is any kitchen.
var prior = kitchens{phi: 0.16, delta: 0.37, clock: 0.9, glance: 0.5, pieces: 0.08, lot: 0.08, scatter: 0.45, wild: 0.05}

// band is where a time of that many minutes by the model falls nine times in ten:
// from its twentieth to its last twentieth. Sensitivity is d ln t / d ln C.
func (k kitchens) band(minutes, sensitivity float64) (low, high float64) {
	if minutes <= 0 {
		return 0, 0
	}
	apart := math.Hypot(k.phi, sensitivity*k.delta)
	places := make(outcome, 0, len(hermiteNodes)*len(scatterNodes))
	for i, node := range hermiteNodes {
		cooked := minutes * math.Exp(apart*node)
		for j, share := range scatterWeights {
			places = append(places, place{cooked, math.Hypot(k.clock, k.spread(cooked, j)), hermiteWeights[i] * share})
		}
	}
	return places.quantile(0.05, minutes), places.quantile(0.95, minutes)
}

// Nodes and weights by which a function of a standard normal variable is averaged:
// Gauss and Hermite's, of nine points (Abramowitz & Stegun 1964, table 25.10, times
// the root of two and over the root of pi; known_by: computed).
var (
	hermiteNodes = [...]float64{-4.512745863399783, -3.205429002856470, -2.076847978677830, -1.023255663789133, 0,
		1.023255663789133, 2.076847978677830, 3.205429002856470, 4.512745863399783}
	hermiteWeights = [...]float64{2.234584400774659e-05, 2.789141321231769e-03, 4.991640676521788e-02, 2.440975028949394e-01, 4.063492063492063e-01,
		2.440975028949394e-01, 4.991640676521788e-02, 2.789141321231769e-03, 2.234584400774659e-05}
)
