package meal

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/units"
)

// What is fetched is never less than what is measured out: up to the next gram,
// or the next 5 ml.
func TestEnough(t *testing.T) {
	for sum, want := range map[string]string{
		"7.3 g": "8 g", "80 g": "80 g", "0.0801 kg": "81 g", "12 ml": "15 ml", "5 ml": "5 ml", "1 tbsp": "15 ml", "10-12.5 g": "13 g",
	} {
		have := enough(units.MustParse(sum), units.Metric)
		assert.Equal(t, want, have.Text, sum)
		less, err := have.Value.Compare(units.MustParse(sum).High())
		assert.NoError(t, err)
		assert.GreaterOrEqual(t, less, 0, sum)
	}
	assert.Equal(t, "3", enough(units.MustParse("3"), units.Metric).Text, "pieces as they are")
}
