package spelled_test

import (
	"fmt"

	"trencher/units/spelled"
)

// An answer as a golden file has it: what is zero is left away.
func ExampleOut() {
	type lot struct {
		ID    string
		Grams float64
		Past  bool
	}
	fmt.Print(spelled.Out(struct {
		On   string
		Lots []lot
	}{"12 July", []lot{{ID: "tub-3", Grams: 820}, {ID: "bed-1", Past: true}}}, nil))
	// Output:
	// On: 12 July
	// Lots 1: {ID tub-3, Grams 820}
	// Lots 2: {ID bed-1, Past true}
}
