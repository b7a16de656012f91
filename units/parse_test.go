package units_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// What people write, under metric measures, and what it is.
func TestParse(t *testing.T) {
	for _, row := range []struct{ text, means string }{
		{"1½ pt UK", "1.5 pt UK"},
		{"1 1/2 UK pint", "1.5 pt UK"},
		{"1 ½ pt (UK)", "1.5 pt UK"},
		{"1-1/2 tsp", "1.5 tsp metric"},
		{"2-½ lb", "2.5 lb"},
		{"1-1/2 to 2-3/4 lb", "1.5-2.75 lb"},
		{"0-1/2 tsp", "0-0.5 tsp metric"},
		{"1/2-3/4 tsp", "0.5-0.75 tsp metric"},
		{"0.75 kg", "0.75 kg"},
		{"0,75 kg", "0.75 kg"},
		{"2 lb 4 oz", "2.25 lb"},
		{"1lb6oz", "1.375 lb"},
		{"1-2 tbsp", "1-2 tbsp metric"},
		{"2 to 3 tsp", "2-3 tsp metric"},
		{"3", "3"},
		{"to taste", "to taste"},
		{"a pinch", "1 pinch"},
		{"half a pint UK", "0.5 pt UK"},
		{"three quarters of a pound", "0.75 lb"},
		{"half a dozen", "0.5 dozen"},
		{"one and a half pints UK", "1.5 pt UK"},
		{"half an ounce", "0.5 oz"},
		{"a quarter of a pound", "0.25 lb"},
		{"twelve", "12"},
		{"1 level tbsp", "1 tbsp metric"},
		{"gas mark 6", "gas mark 6"},
		{"Regulo ½", "gas mark ½"},
		{"20–45 mm", "20-45 mm"},
		{"-5 C", "-5 C"},
		{"minus 18 °C", "-18 C"},
		{"400 f", "400 F"},
		{"100 G", "100 g"},
		{"1 NZ tablespoon", "1 tbsp metric"},
		{"½ cu yd", "0.5 cu yd"},
		{"212 ºF", "212 F"},
		{"10 sq yd", "10 sq yd"},
		{"5' 3\"", "5.25 ft"},
		{"3 [foz_br]", "3 fl oz UK"},
		{"2 {piece}", "2"},
		{"3 large", "3 large"},
		{"1 t", "1 tsp metric"},
		{"2 T", "2 tbsp metric"},
		{"20 c", "20 cup metric"},
		{"20 C", "20 C"},
		{"500 g to 1 kg", "500-1000 g"},
	} {
		t.Run(row.text, func(t *testing.T) {
			q, err := units.Parse(row.text, units.Metric)
			require.NoError(t, err)
			assert.Equal(t, row.means, q.String())
			assert.Equal(t, row.text, q.Written())
		})
	}
}
