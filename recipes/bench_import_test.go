package recipes

import (
	"fmt"
	"strings"
	"testing"

	"trencher/units"
)

// BenchmarkImport reads a recipe as long as any that is taken: 980 ingredients
// that no table knows.
func BenchmarkImport(b *testing.B) {
	var text strings.Builder
	text.WriteString("Big\nServes 4\n\nIngredients\n1 kg potatoes\n")
	for i := range 980 {
		fmt.Fprintf(&text, "%d smoots thing %d\n", i+1, i)
	}
	text.WriteString("\nMethod\nBoil the potatoes for 20 minutes.\n")
	data := []byte(text.String())
	for b.Loop() {
		if _, err := ImportRecipe("big.txt", data, ImportOptions{System: units.Metric}, DefaultKitchen(units.Metric)); err != nil {
			b.Fatal(err)
		}
	}
}
