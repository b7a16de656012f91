package planner

import (
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/units"
)

func TestWants(t *testing.T) {
	q := units.MustParse
	pick, buy := Wants([]Item{
		{Item: "butter", Dish: "A", Exact: q("52.5 g"), Measured: q("55 g")},
		{Item: "chives", State: "chopped", Dish: "A", Exact: q("2 tbsp"), Measured: q("2 tbsp"), FromPlot: true},
		{Item: "butter", Dish: "B", Exact: q("0.06 kg"), Measured: q("0.06 kg")},
		{Item: "butter", Dish: "C", Exact: q("1 tbsp"), Measured: q("1 tbsp")},
		{Item: "chives", State: "chopped", Dish: "B", Exact: q("3 tsp"), Measured: q("3 tsp"), FromPlot: true},
		{Item: "capers", Dish: "A", Exact: q("1-2 tsp"), Measured: q("1-2 tsp"), Optional: true},
		{Item: "capers", Dish: "B", Exact: q("2-3 tsp"), Measured: q("2-3 tsp"), Optional: true},
		{Item: "salt", Dish: "A", Exact: units.ToTaste()},
		{Item: "salt", Dish: "B", Exact: units.ToTaste()},
		{Item: "salt", Dish: "C", Exact: q("1 tsp"), Measured: q("1 tsp")},
	})
	require.Len(t, pick, 1)
	require.True(t, pick[0].Measured.Equal(q("45 ml")), "spoons are metric here: %s", pick[0].Measured)
	require.Equal(t, []string{"A", "B"}, pick[0].Dishes)
	require.Len(t, buy, 5, "spoons of butter are not grams, and to taste is no amount")
	require.True(t, buy[0].Exact.Equal(q("112.5 g")))
	require.True(t, buy[0].Measured.Equal(q("115 g")), "the sum of what is measured out")
	require.True(t, buy[2].Exact.Equal(q("3-5 tsp")), "ranges add end by end: %s", buy[2].Exact)
	require.Equal(t, []string{"A", "B"}, buy[3].Dishes)
}
