package measures_test

import (
	"encoding/csv"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/measures"
)

// Household measures in a British kitchen, each against the publication its
// row names: to the gram that is printed there.
func TestHouseholdMeasures(t *testing.T) {
	file, err := os.Open("../../testdata/units/household.csv")
	require.NoError(t, err)
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	table := measures.Default().For(units.UK)
	for _, f := range records[1:] {
		amount, of, state, grams, source := f[0], f[1], f[2], f[3], f[4]
		require.NotEmpty(t, source)
		q, err := units.Parse(amount, units.UK)
		require.NoError(t, err)
		c, err := table.Convert(q, units.Gram, of, state)
		require.NoError(t, err, "%s of %s", amount, of)
		d, exact := c.Quantity.Decimal()
		assert.True(t, exact)
		assert.Equal(t, grams, d.String(), "%s of %s %s (%s)", amount, of, state, source)
		assert.Equal(t, f[5], c.Row.KnownBy, "%s of %s", amount, of)
	}
}
