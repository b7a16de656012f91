package measures_test

import (
	"fmt"

	"trencher/units"
	"trencher/units/measures"
)

func ExampleTable_Convert() {
	table := measures.Default().For(units.UK)
	c, err := table.Convert(units.MustParse("1 tbsp"), units.Gram, "mayonnaise", "")
	if err != nil {
		fmt.Println(err)
		return
	}
	about, _ := c.Quantity.Rounded(3)
	fmt.Println("about", about)
	fmt.Println(c.Row.Measure, "weighs", c.Row.Grams.FloatString(0), "g:", c.Row.Record)
	// Output:
	// about 13.9 g
	// 1 cup US weighs 220 g: NDB 04025 seq 2
}

func ExampleTable_Nearest() {
	fmt.Println(measures.Default().Nearest("mint sauce"))
	// Output: [mint Worcestershire sauce dried mint horseradish sauce soy sauce]
}
