package render

import "math"

// Whole minutes are shown by one rule everywhere: what is expected is rounded,
// the knife begins at the earliest minute that may do, and the last it may take
// is rounded up.

// about is an expected time in whole minutes.
func about(minutes float64) int { return int(math.Round(minutes)) }

// knifeFrom is the minute to try a knife from, the first at the earliest.
func knifeFrom(low float64) int { return max(1, int(math.Floor(low))) }

// upTo is the most minutes it may take.
func upTo(high float64) int { return int(math.Ceil(high)) }
