package measures_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/units"
	"trencher/units/measures"
)

// A rough measure behind a comma is an amount, article or not; a kind of salt and
// pepper that nobody weighs needs none.
func TestRoughMeasuresBehindAComma(t *testing.T) {
	for text, want := range map[string]string{
		"sugar, pinch": "1 pinch sugar", "salt, pinch of": "1 pinch salt", "sugar, a pinch": "1 pinch sugar", "vinegar, dash": "1 dash vinegar", "parsley, handful": "1 handful parsley",
		"salt n pepper": "to taste salt n pepper", "salt 'n' pepper": "to taste salt 'n' pepper",
	} {
		l := measures.ReadLine(text, units.Metric)
		assert.Empty(t, l.Doubts, text)
		assert.Equal(t, want, l.Amount.String()+" "+l.Item, text)
	}
}
