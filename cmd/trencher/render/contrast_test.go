package render

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// contrast is the contrast ratio of WCAG 2.2 (W3C Recommendation, "contrast
// ratio" and "relative luminance" in its glossary).
func contrast(t *testing.T, one, other string) float64 {
	t.Helper()
	a, b := luminance(t, one), luminance(t, other)
	return (max(a, b) + 0.05) / (min(a, b) + 0.05)
}

func luminance(t *testing.T, colour string) float64 {
	t.Helper()
	require.Len(t, colour, 7, "a colour such as #22261f")
	var sum float64
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		channel, err := strconv.ParseUint(colour[1+2*i:3+2*i], 16, 8)
		require.NoError(t, err)
		value := float64(channel) / 255
		if value <= 0.04045 {
			sum += weight * value / 12.92
		} else {
			sum += weight * math.Pow((value+0.055)/1.055, 2.4)
		}
	}
	return sum
}

// Known ratios: black on white is 21:1 by definition; #767676 on white is the
// well-known lightest grey above 4.5 (computed).
func TestContrastFormula(t *testing.T) {
	assert.InDelta(t, 21, contrast(t, "#000000", "#ffffff"), 1e-9)
	assert.InDelta(t, 4.54, contrast(t, "#767676", "#ffffff"), 0.005)
}
