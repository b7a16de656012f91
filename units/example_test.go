package units_test

import (
	"errors"
	"fmt"
	"math/big"

	"trencher/units"
)

func ExampleParse() {
	for _, text := range []string{"1½ pt UK", "2 lb 4 oz", "0,75 kg", "1-2 tbsp", "3", "a pinch", "to taste"} {
		q, err := units.Parse(text, units.Metric)
		fmt.Println(q, err)
	}
	// Output:
	// 1.5 pt UK <nil>
	// 2.25 lb <nil>
	// 0.75 kg <nil>
	// 1-2 tbsp metric <nil>
	// 3 <nil>
	// 1 pinch <nil>
	// to taste <nil>
}

func ExampleQuantity_In() {
	ml, _ := units.MustParse("1½ pt UK").In(units.Millilitre)
	fmt.Println(ml)
	oz, _ := units.MustParse("100 g").In(units.Ounce)
	digits, exact := oz.Decimal()
	fmt.Println(digits, exact, oz.Rat())
	// Output:
	// 852.391875 ml
	// 3.527396194958041 false 160000000/45359237
}

func ExampleAmbiguousError() {
	_, err := units.Parse("2 cups", units.UK)
	var ambiguous *units.AmbiguousError
	if errors.As(err, &ambiguous) {
		for _, r := range ambiguous.Readings {
			fmt.Println(r.System, r.Unit, r.Unit.Definition())
		}
	}
	// Output:
	// metric cup (metric) 250 ml
	// us cup (US) 236.5882365 ml
	// au cup (metric) 250 ml
}

func ExampleKitchen_Measure() {
	factor := big.NewRat(7, 4)
	kitchen := units.Kitchen{System: units.Metric}
	for _, text := range []string{"60 g", "1½ tbsp", "¼ tsp", "142 ml", "3"} {
		m := kitchen.Measure(units.MustParse(text).Scale(factor), units.MeasureOptions{})
		fmt.Printf("%s (%s %%)\n", m.Text, m.ErrorPercent)
	}
	// Output:
	// 105 g (0 %)
	// 2 tbsp + 2 tsp (1.6 %)
	// ½ tsp (14.3 %)
	// 250 ml (0.6 %)
	// 5 (-4.8 %)
}

func ExampleQuantity_Equal() {
	a, b := units.MustParse("1.5 kg"), units.MustParse("1500 g")
	fmt.Println(a.Equal(b), a.Same(b))
	// Output: true false
}
