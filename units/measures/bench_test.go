package measures_test

import (
	"testing"

	"trencher/units"
	"trencher/units/measures"
)

// One ordinary line read: a file may have thousands.
func BenchmarkReadLine(b *testing.B) {
	for b.Loop() {
		measures.ReadLine("2 x 400 g tins chickpeas (or other beans), drained and rinsed", units.UK)
	}
}

// One name found among all the foods.
func BenchmarkFoodNamed(b *testing.B) {
	for b.Loop() {
		measures.FoodNamed("large ripe vine tomatoes, roughly chopped")
	}
}
