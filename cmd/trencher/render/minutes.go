package render

import (
	"fmt"
	"math"
	"strings"

	"trencher/recipes/heat"
)

// One rule for knife times, whichever face shows them: what is expected is
// rounded, the knife goes in no later than reckoned and nobody gives up sooner.

// about is an expected time in whole minutes.
func about(minutes float64) int { return int(math.Round(minutes)) }

// knifeFrom is the whole minute to start testing at, the first at the earliest.
func knifeFrom(low float64) int { return max(1, int(math.Floor(low+slip))) }

// upTo is the whole minute that pieces may take.
func upTo(high float64) int { return int(math.Ceil(high - slip)) }

// slip is what a sum of floating point may be off by, in minutes: 6 that came
// out as 5.9999999 is 6.
const slip = 1e-6

// sinceWords is the moment that an estimate's minutes count from.
func sinceWords(e heat.Estimate) string {
	switch {
	case !e.FreeFirst:
		return "putting in"
	case e.Simmering:
		return "simmering again"
	case e.Method == heat.Boiling:
		return "boiling again"
	}
	return "full steam"
}

// MinutesCell is a time in a narrow table: expected, then from the knife to what
// it may take.
func MinutesCell(e heat.Estimate) (expected, from, to int) {
	minutes, low, high := e.Clock()
	return about(minutes), knifeFrom(low), upTo(high)
}

// finerUnder is the time, in minutes, under which half a minute counts at the
// stove.
const finerUnder = 20

// minutesFine writes an expected time to the half minute where that counts, a
// longer one to the minute.
func minutesFine(m float64) string {
	if m >= finerUnder {
		return minutes(m)
	}
	return halfMinutes(math.Round(m * 2))
}

// knifeFromFine is minutesFine for the time to start testing at: never later,
// and half a minute at the earliest.
func knifeFromFine(low float64) string {
	if low >= finerUnder {
		return minutes(float64(knifeFrom(low)))
	}
	return halfMinutes(max(1, math.Floor((low+slip)*2)))
}

// upToFine is minutesFine for the time that pieces may take: never sooner.
func upToFine(high float64) string {
	if high >= finerUnder {
		return minutes(float64(upTo(high)))
	}
	return halfMinutes(math.Ceil((high - slip) * 2))
}

// halfMinutes writes a count of half minutes: "8½ min".
func halfMinutes(halves float64) string {
	switch {
	case halves < 1:
		return "no time"
	case halves == 1:
		return "half a minute"
	}
	return strings.Replace(fmt.Sprintf("%g min", halves/2), ".5", "½", 1)
}
