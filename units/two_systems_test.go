package units_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Two systems beside one unit contradict each other: neither is taken in silence.
func TestTwoSystemsBesideAUnit(t *testing.T) {
	for text, problem := range map[string]string{
		"2 pt UK (US)":            "both UK and US are named beside it",
		"2 pt (US) UK":            "both US and UK are named beside it",
		"1 imperial pint (US)":    "both UK and US are named beside it",
		"3 cups metric AU":        "both metric and AU are named beside it",
		"1 American gallon (imp)": "both US and UK are named beside it",
	} {
		_, err := units.Parse(text, units.Metric)
		var wrong *units.ParseError
		require.ErrorAs(t, err, &wrong, text)
		assert.Equal(t, problem, wrong.Reason, text)
		assert.NotEmpty(t, wrong.Accepted, text)
	}
	same, err := units.Parse("1 imperial pint (UK)", units.US)
	require.NoError(t, err)
	assert.Equal(t, "1 pt UK", same.String(), "said twice is no contradiction")
}
