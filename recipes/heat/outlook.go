package heat

import "math"

// kitchens is what is known of a kitchen that has tested nothing yet. Its minutes
// are the model's t, times exp(phi + a·delta), plus the clock's bias; a is how the
// time goes with the target. A reading scatters about that by the sizes of pieces
// and the lot, and by what a look at the clock misses. Each is normal, with these
// standard deviations (judgement).
type kitchens struct {
	phi    float64 // of the logarithm: film, diffusivity, power
	delta  float64 // of the target's logarithm: what a cook calls done, and the crop
	clock  float64 // minutes
	glance float64 // minutes
	pieces float64 // share of the time: 7 % of the size of the piece prodded
	lot    float64 // share of the time: from lot to lot
}

// prior is any kitchen.
var prior = kitchens{phi: 0.18, delta: 0.45, clock: 1, glance: 0.6, pieces: 0.12, lot: 0.10}

// band is where a time of that many minutes by the model falls nine times in ten:
// from its twentieth to its last twentieth. Sensitivity is d ln t / d ln C.
func (k kitchens) band(minutes, sensitivity float64) (low, high float64) {
	if minutes <= 0 {
		return 0, 0
	}
	spread := math.Hypot(k.phi, sensitivity*k.delta)
	below := func(y float64) float64 {
		sum := 0.0
		for i, node := range hermiteNodes {
			mean := minutes * math.Exp(spread*node)
			sd := math.Sqrt(k.clock*k.clock + k.glance*k.glance + (k.pieces*k.pieces+k.lot*k.lot)*mean*mean)
			sum += hermiteWeights[i] * 0.5 * math.Erfc((mean-y)/(sd*math.Sqrt2))
		}
		return sum
	}
	quantile := func(share, from, to float64) float64 {
		for to-from > 1e-3*minutes {
			middle := (from + to) / 2
			if below(middle) < share {
				from = middle
			} else {
				to = middle
			}
		}
		return (from + to) / 2
	}
	least := 0.05 * minutes // a very short time may be over before the clock has started
	return max(least, quantile(0.05, 0, minutes)), quantile(0.95, minutes, 6*minutes+10)
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
