package recipes

import "slices"

// usualPreparations are how crops mostly come onto a plate, the likelier first:
// common practice, no source.
var usualPreparations = []string{"shelled", "topped and tailed", "scrubbed", "trimmed", "peeled"}

// OnThePlate is the grams that are on the plate of a gram of a crop as lifted,
// prepared as it mostly is and, where portions are told cooked, steamed. A crop
// that is eaten as it comes has 1.
func OnThePlate(crop string, cooked bool) float64 {
	known := Preparations(crop)
	share := 1.0
	for _, prepared := range usualPreparations {
		if !slices.Contains(known, prepared) {
			continue
		}
		y, err := YieldOf(crop, prepared)
		if err != nil {
			continue
		}
		share, _ = y.Factor.Float64()
		if y, err := CookedYield(crop, prepared, "steamed"); err == nil && cooked {
			steamed, _ := y.Factor.Float64()
			share *= steamed
		}
		return share
	}
	return share
}

// HelpingsOf is how many helpings people eat of a dish each: an adult one, a
// child half of one.
func HelpingsOf(people []Guests) float64 {
	sum := 0.0
	for _, g := range people {
		each := 1.0
		if g.Child {
			each = 0.5
		}
		sum += each * float64(g.Count)
	}
	return sum
}
