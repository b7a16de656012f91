package recipes

import (
	"fmt"
	"math"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/units"
)

// invented are ingredient lines of fifty dishes, three of them in each.
var invented = strings.Split(`salt, ½ tsp|eggs, 3|onion, 1|plain flour, 100 g|butter, 25 g|olive oil, 2 tbsp|bay leaf, 2|baking powder, 1½ tsp|lemon, ½|
milk, 150 ml|garlic, 2 cloves|cayenne, ¼ tsp|carrot, 3|potato, 5|dried yeast, 7 g|sugar, 2 tsp|honey, 1 dsp|tinned tomatoes, 1 tin|double cream, 75 ml|
parsley, 1 handful|spring onion, 4|cucumber, ½|mustard powder, 1 tsp|chickpeas, 1 tin|capers, 1-2 tsp|salt, 3 g|black pepper, ⅛ tsp|red pepper, 1|egg yolk, 2|
vinegar, 1 tbsp|courgette, 2|leek, 3|apple, 1|bicarbonate of soda, ½ tsp|stock, 1.2 l|rice, 175 g|walnuts, 30 g|ginger, 3 cm|mint, 6 sprigs|cinnamon, 1 stick|
avocado, 2|nutmeg, 1 pinch|celery, 2 sticks|Cheddar, 60 g|cherry tomato, 12|bread, 2 slices|yoghurt, 4 tbsp|cumin seed, 1 tsp|shallot, 2|tomato, 3`, "|")

// bestError is the least share by which anything a kitchen has could miss an
// amount: eighths of a teaspoon, a pinch, grams, 5 ml of the jug, pieces whole or
// cut as far as a knife goes. Told here once more, by the grid alone.
func bestError(k Kitchen, end units.Quantity, item string) float64 {
	least := func(amount, step, smallest float64) float64 {
		down := math.Max(smallest, math.Floor(amount/step)*step)
		up := math.Max(smallest, math.Ceil(amount/step)*step)
		return math.Min(math.Abs(down-amount), math.Abs(up-amount)) / amount
	}
	bestSpoon := func(tsp float64) float64 {
		best := least(tsp, 0.125, 0.125)
		for _, mixed := range []float64{1. / 16, 3. / 16, 5. / 16} { // a pinch, alone or beside a spoon
			best = math.Min(best, math.Abs(mixed-tsp)/tsp)
		}
		return best
	}
	switch end.Dimension() {
	case units.Mass:
		grams, _ := end.Float64(units.Gram)
		if density, _, err := k.Table.Density(item, ""); err == nil && grams < 2 { // too little for the scales
			perTsp, _ := new(big.Rat).Mul(density, big.NewRat(5, 1)).Float64()
			return bestSpoon(grams / perTsp)
		}
		return least(grams, 1, 1)
	case units.Volume:
		tsp, _ := end.Float64(units.Teaspoon)
		return bestSpoon(tsp)
	case units.Length:
		mm, _ := end.Float64(units.Millimetre)
		return least(mm, 1, 1)
	}
	n, _ := end.Rat().Float64()
	parts := math.Max(1, float64(k.knife(end.Unit(), item, "")))
	if end.IsRough() {
		parts = 2
	}
	return least(n, 1/parts, 1/parts)
}

// Over fifty dishes and twelve factors no measured line is off by more than 15 in
// a hundred where the kitchen's own measures could do better.
func TestScaledLinesAreNearEnough(t *testing.T) {
	factors := []string{"1/4", "1/3", "1/2", "2/3", "3/4", "5/4", "4/3", "3/2", "7/4", "2", "7/3", "4"}
	kitchen := DefaultKitchen(units.UK)
	checked := 0
	for i := range 50 {
		var lines strings.Builder
		for j := range 3 {
			item, amount, _ := strings.Cut(strings.TrimSpace(invented[(i+17*j)%len(invented)]), ", ")
			fmt.Fprintf(&lines, "  - {item: %s, amount: %s, scales: linear}\n", item, amount)
		}
		dish, err := LoadDish("d.yaml", []byte("name: D\nportions: 12\nserved: hot\nsmallest: 1\nlargest: 48\ncrops:\n  - {crop: potato, amount: 3 kg, prepared: scrubbed, cut: whole, cook: steam, until: tender}\nothers:\n"+lines.String()), kitchen)
		require.NoError(t, err)
		for _, factor := range factors {
			portions, _ := new(big.Rat).SetString(factor)
			for _, line := range dish.ScaleTo(portions.Mul(portions, big.NewRat(12, 1)), kitchen).Others {
				moved, _ := line.Measured.ErrorPercent.Float64()
				for _, end := range []units.Quantity{line.Exact.Low(), line.Exact.High()} {
					checked++
					if math.Abs(moved) > 15.05 && line.Exact.Low().Equal(line.Exact.High()) {
						best := 100 * bestError(kitchen, end, line.Item)
						require.LessOrEqual(t, math.Abs(moved), best+0.1, "%s %s as %s: off by %.1f %%, the kitchen could do %.1f", line.Exact, line.Item, line.Measured.Text, moved, best)
					}
				}
			}
		}
	}
	require.Greater(t, checked, 50*12*3)
}
