package heat

import "math"

// Firming is what heating slowly does to a piece: between 55 and 75 °C an enzyme,
// pectin methylesterase, firms the tissue before softening begins.
type Firming struct {
	Minutes float64 // that the centre takes from 55 to 75 °C
	Share   float64 // of the firming there can be, 0 to 1
	Slow    bool    // the surface warms slower than 3 °C a minute: it lengthens cooking
}

// The firming enzyme works best from 60 to 65 °C and is gone after 15 minutes at
// 75 °C: Abu-Ghannam & Crowley (2006), whole new potatoes, J. Food Engineering,
// abstract; warming slower than 3 °C a minute lengthens boiling: J. Cookery Science
// of Japan 45(6) 403 (2012), abstract (known_by: read). The form is a judgement.
const (
	firmsFromC, firmsToC = 55.0, 75.0
	firmsBestC           = 63.0
	firmsWidthK          = 6.0
	firmsFullMinutes     = 15.0
	firmsLeastMinutes    = 2.0
	firmsMore            = 0.8 // of the target, at most
	slowestRise          = 3.0 // K a minute
	slowLow, slowHigh    = 0.9, 1.3
)

// firmingOf reads the firming off a history. Only where the surroundings warm
// slowly, a weak stove or a pot set on cold, is there any to speak of: the middle of
// a large piece in good steam is slow, too, and printed times count on it.
func firmingOf(h *history) Firming {
	outer, _ := firmingSpan(h, surfaceOf)
	f := Firming{Slow: outer > (firmsToC-firmsFromC)/slowestRise}
	var weighed float64
	f.Minutes, weighed = firmingSpan(h, centreOf)
	if f.Slow && weighed >= firmsLeastMinutes {
		f.Share = min(1, weighed/firmsFullMinutes)
	}
	return f
}

// firmingSpan is how many minutes a place in the piece is between the firming
// temperatures, and the same weighed by how near to the best it is.
func firmingSpan(h *history, of func(knot) float64) (minutes, weighed float64) {
	for i := 1; i < len(h.knots); i++ {
		a, b := h.knots[i-1], h.knots[i]
		if of(b) <= firmsFromC || of(a) >= firmsToC || of(b) <= of(a) {
			continue
		}
		rise := (of(b) - of(a)) / (b.seconds - a.seconds)
		from, to := max(of(a), firmsFromC), min(of(b), firmsToC)
		spent := (to - from) / rise / 60
		minutes += spent
		off := ((from+to)/2 - firmsBestC) / firmsWidthK
		weighed += spent * math.Exp(-off*off)
	}
	return minutes, weighed
}

// widen moves a band's ends out for what firming may do: the target's share more at
// the high end, and as much again where the heating is slow.
func (f Firming) widen(minutes, low, high, sensitivity float64) (lower, higher float64) {
	high *= math.Pow(1+firmsMore*f.Share, sensitivity)
	if f.Slow {
		low, high = low*slowLow, high*slowHigh
	}
	return low, high
}
