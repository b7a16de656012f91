package recipes

import (
	"cmp"
	"slices"
	"strings"
	"sync"
)

// avoidable finds, by the words a guest may use, what can be left out by name: a
// food of the tables by any of its names, a crop, or a family of foods.
var avoidable = sync.OnceValue(func() *phraseIndex[string] {
	index := newPhraseIndex[string]()
	families := map[string]string{}
	for family := range foodFamilies() {
		words := guestWords(family)
		families[strings.Join(words, " ")] = family
		index.putWords(words, family)
	}
	for c := range allCarriers() {
		words := guestWords(c.words)
		if _, family := families[strings.Join(words, " ")]; family || c.food == "" {
			continue
		}
		index.putWords(words, cmp.Or(families[strings.Join(guestWords(c.food), " ")], c.food))
	}
	return index
})

// foodFamilies are the families of foods of the table.
var foodFamilies = sync.OnceValue(func() map[string]bool {
	families := map[string]bool{RawEgg: true, RawThings: true}
	for c := range allCarriers() {
		for _, family := range c.families {
			families[family] = true
		}
	}
	return families
})

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
