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
		"100 g": "100 g", "100.5 g": "110 g", "1000 g": "1000 g", "1000.5 g": "1050 g", "100 ml": "100 ml", "100.5 ml": "110 ml", "1000 ml": "1000 ml", "1.001 l": "1050 ml",
	} {
		have := enough(units.MustParse(sum), units.Metric)
		assert.Equal(t, want, have.Text, sum)
		less, err := have.Value.Compare(units.MustParse(sum).High())
		assert.NoError(t, err)
		assert.GreaterOrEqual(t, less, 0, sum)
	}
	assert.Equal(t, "3", enough(units.MustParse("3"), units.Metric).Text, "pieces as they are")
}
