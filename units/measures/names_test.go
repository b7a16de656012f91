package measures_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/measures"
)

// A name may bring its state along, as a dish's lines do.
func TestNamesThatBringTheirState(t *testing.T) {
	table := measures.Default()
	for _, row := range []struct{ of, state, grams string }{
		{"chives, chopped", "", "3"},
		{"chopped chives", "", "3"},
		{"Parmesan, finely grated", "", "6.25"},
		{"whole black pepper", "", "2.9"},
		{"ground almonds", "", "5.9375"},
		{"flaky salt", "", "2.957353"},
		{"kosher salt", "", "4.7317647"},
		{"salt", "coarse", "4.7317647"},
	} {
		amount := "1 tsp US"
		if row.grams == "3" || row.grams == "6.25" || row.grams == "5.9375" {
			amount = "1 tbsp US"
		}
		c, err := table.Convert(units.MustParse(amount), units.Gram, row.of, row.state)
		require.NoError(t, err, row.of)
		rounded, _ := c.Quantity.Rounded(8)
		d, _ := rounded.Decimal()
		assert.Equal(t, row.grams, d.String(), row.of)
	}
	_, err := table.Convert(units.MustParse("1 tsp"), units.Gram, "fried chives", "")
	assert.ErrorContains(t, err, `of "fried chives": no row says what a measure of it weighs`)
}

func TestDensity(t *testing.T) {
	d, row, err := measures.Default().Density("olive oil", "")
	require.NoError(t, err)
	assert.Equal(t, "0.9130", d.FloatString(4))
	assert.Equal(t, "NDB 04053 seq 2", row.Record)
	_, _, err = measures.Default().Density("petrol", "")
	assert.Error(t, err)
	_, _, err = measures.Default().Density("Spanish onion", "")
	assert.EqualError(t, err, "no row says what a spoon or cup of Spanish onion weighs")
}
