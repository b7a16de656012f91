package render

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The knife goes in no later than reckoned, and nobody gives up sooner: in
// whole minutes and in half ones.
func TestKnifeTimesAreRoundedOneWay(t *testing.T) {
	for _, c := range []struct {
		minutes         float64
		about, from, to int
		fine, fineFrom  string
		fineTo          string
	}{
		{0, 0, 1, 0, "no time", "half a minute", "no time"},
		{0.2, 0, 1, 1, "no time", "half a minute", "half a minute"},
		{0.5, 1, 1, 1, "half a minute", "half a minute", "half a minute"},
		{1.9, 2, 1, 2, "2 min", "1½ min", "2 min"},
		{6, 6, 6, 6, "6 min", "6 min", "6 min"},
		{5.9999999, 6, 6, 6, "6 min", "6 min", "6 min"},
		{6.0000001, 6, 6, 6, "6 min", "6 min", "6 min"},
		{6.3, 6, 6, 7, "6½ min", "6 min", "6½ min"},
		{6.7, 7, 6, 7, "6½ min", "6½ min", "7 min"},
		{19.8, 20, 19, 20, "20 min", "19½ min", "20 min"},
		{20.4, 20, 20, 21, "20 min", "20 min", "21 min"},
		{33.6, 34, 33, 34, "34 min", "33 min", "34 min"},
		{71.2, 71, 71, 72, "1 h 11 min", "1 h 11 min", "1 h 12 min"},
	} {
		assert.Equal(t, c.about, about(c.minutes), "about %g", c.minutes)
		assert.Equal(t, c.from, knifeFrom(c.minutes), "knife from %g", c.minutes)
		assert.Equal(t, c.to, upTo(c.minutes), "up to %g", c.minutes)
		assert.Equal(t, c.fine, minutesFine(c.minutes), "%g", c.minutes)
		assert.Equal(t, c.fineFrom, knifeFromFine(c.minutes), "%g", c.minutes)
		assert.Equal(t, c.fineTo, upToFine(c.minutes), "%g", c.minutes)
	}
}
