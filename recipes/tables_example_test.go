package recipes_test

import (
	"fmt"

	"trencher/recipes"
)

// What is not eaten raw, by the table.
func ExampleRawRows() {
	for _, row := range recipes.RawRows() {
		if row.Crop == "aubergine" || row.Crop == "carrot" {
			fmt.Println(row.Crop, row.May)
		}
	}
	// Output:
	// carrot true
	// aubergine false
}

// The words of a dish that are asked about, with the rule each rests on.
func ExamplePoisonRows() {
	for _, row := range recipes.PoisonRows()[:2] {
		fmt.Println(row.Words[0], row.Rule)
	}
	// Output:
	// French bean bean-fresh-strict
	// kidney bean bean-dried-boil
}
