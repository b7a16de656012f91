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
	fmt.Println(measures.Default().Nearest("mint dressing"))
	// Output: [ranch dressing mint Caesar dressing Italian dressing coleslaw dressing]
}

// A question in a cook's words, and what the answer rests on.
func ExampleTable_Answer() {
	kitchen := units.Kitchen{System: units.UK}
	a, err := measures.Default().For(units.UK).Answer(measures.Question{Words: []string{"3 eggs", "g"}}, kitchen)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(a.Asked, a.Of, "are about", a.Given)
	for _, remark := range a.Remarks {
		switch remark.Kind {
		case measures.Assumed:
			fmt.Println("assumed:", remark.Assumed[0].What)
		case measures.Basis:
			fmt.Println("by:", remark.Row.Name(), remark.Row.Weight(), remark.Row.KnownBy)
		}
	}
	// Output:
	// 3 eggs are about 153 g
	// assumed: medium
	// by: 1 medium of egg, without shell, raw 51 g computed
}
