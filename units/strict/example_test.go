package strict_test

import (
	"fmt"

	"trencher/units"
	"trencher/units/strict"
)

// A loader reads straight through and asks once what was wrong.
func Example() {
	file := []byte("id: tub-3\nseed: 3 stonez\ncount: many\ncolour: red\n")
	r := strict.Parse("plantings.yaml", file)
	m := r.Root().Map("id", "seed", "count")
	m.Require("id").Text()
	m.At("seed").Quantity(units.Metric, units.Mass)
	m.At("count").Whole(1, 500)
	fmt.Println(r.Err())
	// Output:
	// plantings.yaml:2:7: seed "3 stonez": unknown unit "stonez"
	// plantings.yaml:3:8: count "many": not a whole number from 1 to 500
	// plantings.yaml:4:1: unknown key "colour"
}
