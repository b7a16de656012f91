package recipes

import (
	_ "embed" // the table
	"slices"
	"strings"

	"trencher/units/sorted"
)

// avoidable has what can be left out by name, by the words a guest may use: a food of
// the tables by any of its names, a crop, or a family of foods. `go generate
// ./recipes` makes it anew with carriers.sorted.
//
//go:embed avoidable.sorted
var avoidable sorted.Table

// Two families that are no food but how food is: whoever knows a dish's kinds
// judges them, see [Diet.LeavesOut].
const (
	RawEgg    = "raw egg"
	RawThings = "raw things"
)

// isOf tells that a food is the one left out, or of the family left out, or a kind
// of it by its last word: red cabbage is a cabbage.
func (c carrier) isOf(out string) bool {
	if c.food == "" {
		return false
	}
	return c.food == out || slices.Contains(c.families, out) || strings.HasSuffix(" "+strings.Join(wordForms(c.words), " "), " "+strings.Join(wordForms(out), " "))
}

// leftOut says which food left out by name stands in the dish, in the dish's
// words; "" where none.
func (d Dish) leftOut(diet Diet) string {
	for _, text := range d.texts() {
		crop := CropName(text)
		for _, out := range diet.outByName() {
			if crop == CropName(out) {
				return out
			}
			for _, c := range foundIn(wordForms(text), carrierAt) {
				if c.isOf(out) {
					return c.words
				}
			}
		}
	}
	return ""
}

// outByName are the foods left out by name, and those that go with an allergen
// though no list names them: a pine nut is a nut to the FDA (Questions and Answers
// Regarding Food Allergens, ed. 5, 2025) and none to the EU, so it stays out until
// the guest is asked.
func (d Diet) outByName() []string {
	foods := d.Without()
	if d.avoid&mark(Nuts) != 0 {
		foods = append(slices.Clone(foods), "pine nut")
	}
	return foods
}
