package measures_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/measures"
)

// Amounts across mass, volume and count in a metric kitchen. The grams are
// the record's own grams times the ratio of the two measures, worked by hand
// from the published record named beside each.
func TestConvertAcross(t *testing.T) {
	table := measures.Default().For(units.Metric)
	for _, row := range []struct {
		amount, to, of, state string
		is                    string // to three decimals
		record, assumed       string
	}{
		{"1 tbsp", "g", "mayonnaise", "", "13.948", "NDB 04025 seq 2", ""}, // 220 g / 236.588 ml x 15 ml
		{"1 tbsp", "g", "olive oil", "", "13.695", "NDB 04053 seq 2", ""},  // 216 g a US cup
		{"1 tbsp US", "g", "olive oil", "", "13.5", "NDB 04053 seq 2", ""}, // the US spoon's
		{"1 tsp US", "g", "black pepper", "", "2.3", "NDB 02030 seq 2", "as ground"},
		{"1 tsp US", "g", "black pepper", "whole", "2.9", "NDB 02030 seq 3", ""},
		{"1 cup US", "g", "double cream", "whipped", "120", "NDB 01053 seq 1", ""},
		{"1 cup US", "g", "double cream", "", "238", "NDB 01053 seq 2", "as poured"},
		{"2 cloves", "g", "garlic", "", "6", "NDB 11215 seq 3", "weighed raw, peeled"},
		{"3", "g", "eggs", "", "153", "NDB 01123 refuse 12", "as medium; weighed without shell, raw"},
		{"1 dozen", "g", "egg", "in shell", "696", "band 53-63 g", "as medium"},
		{"100 g", "ml", "water", "", "100", "NDB 14429 seq 3", ""},
		{"2 slices", "g", "onion", "", "28", "NDB 11282 seq 7", "as medium; weighed raw, peeled"},
		{"1 medium", "slice", "onion", "", "7.857", "NDB 11282 seq 6", "weighed raw, peeled; as medium"}, // 110 g over 14 g: said once of both
		{"2", "cup US", "onions", "chopped", "1.375", "NDB 11282 seq 6", "as medium; weighed raw, peeled; as raw, peeled, chopped"},
		{"227 g", "cup US", "butter", "", "1", "NDB 01001 seq 3", "as salted, block"},
		{"a handful", "g", "walnuts", "", "30", "", ""},
	} {
		t.Run(row.amount+" "+row.of+" "+row.state, func(t *testing.T) {
			q, err := units.Parse(row.amount, units.Metric)
			require.NoError(t, err)
			to, err := units.ParseUnit(row.to, units.Metric)
			require.NoError(t, err)
			c, err := table.Convert(q, to, row.of, row.state)
			require.NoError(t, err)
			d, _ := c.Quantity.Decimal()
			assert.Equal(t, row.is, d.Round(3).String())
			assert.True(t, c.Crossed)
			assert.Equal(t, row.record, c.Row.Record)
			assert.Equal(t, row.assumed, told(c.Assumed))
		})
	}
}

// told writes assumptions in one line.
func told(list []measures.Assumption) string {
	var parts []string
	for _, a := range list {
		parts = append(parts, map[measures.AssumptionKind]string{
			measures.TakenAs: "as ", measures.CountedAs: "counted as ", measures.WeighedAs: "weighed "}[a.Kind]+a.What)
	}
	return strings.Join(parts, "; ")
}
