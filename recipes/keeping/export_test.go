package keeping

import (
	"math/rand/v2"
	"time"
)

// RandomTimeline is a history at random, and the moment to judge it at.
func RandomTimeline(r *rand.Rand) (Batch, time.Time) {
	line := randomTimeline(r)
	return line.batch, line.now
}

// Timelines is how many histories a property is tried on.
func Timelines() int { return timelines() }
