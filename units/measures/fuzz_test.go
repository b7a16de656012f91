package measures_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/measures"
)

// FuzzConvert: no name and no state stops the table; what converts converts
// back to the same number, and what does not says why.
func FuzzConvert(f *testing.F) {
	for _, seed := range [][3]string{
		{"2 tbsp", "mayonnaise", ""}, {"1 cup metric", "onions", "chopped"}, {"3", "eggs", "in shell"}, {"1 slice", "onion", "large"},
		{"1", "potato tuber", "30 mm"}, {"100 g", "chopped chives", ""}, {"a handful", "walnuts", ","}, {"1 tsp", ", ,", "and"}, {"1 l", "", "boiled"},
	} {
		f.Add(seed[0], seed[1], seed[2], uint8(1))
	}
	table := measures.Default()
	targets := []units.Unit{units.Gram, units.Tablespoon, units.Piece, units.CupUS}
	f.Fuzz(func(t *testing.T, amount, of, state string, system uint8) {
		s := units.System(system % 5)
		q, err := units.Parse(amount, s)
		if err != nil || len(of) > 200 || len(state) > 200 {
			return
		}
		for _, to := range targets {
			c, err := table.For(s).Convert(q, to, of, state)
			if err != nil {
				require.NotEmpty(t, err.Error())
				continue
			}
			require.True(t, c.Quantity.IsValid())
			if !c.Crossed {
				continue
			}
			require.NotEmpty(t, c.Row.Source)
			back, err := table.For(s).Convert(c.Quantity, q.Unit(), of, state)
			require.NoError(t, err)
			require.True(t, back.Quantity.Equal(q), "%s of %s, %s: %s back to %s", q, of, state, c.Quantity, back.Quantity)
		}
	})
}
