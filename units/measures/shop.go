package measures

import (
	"slices"
	"strings"
)

// ShopGood is the one name under which a shop sells an ingredient: its good, with
// what was done to it before it was bought (frozen, dried, tinned), without what
// is done to it at home (chopped, peeled). Lines of one ShopGood may be added up.
func ShopGood(item, state string) string {
	good := GoodOf(item)
	var bought []string
	for _, word := range stateWords(state) {
		if slices.Contains(boughtSo, word) {
			bought = append(bought, word)
		}
	}
	parts := strings.Split(good, ", ")
	for _, part := range parts[1:] {
		if kind := foodTable.beside(part); kind == 0 || slices.Contains(boughtSo, part) || kind == apartWord {
			bought = append(bought, part)
		}
	}
	slices.Sort(bought)
	return strings.Join(append(parts[:1], slices.Compact(bought)...), ", ")
}

// boughtSo are the states that make another good of a food.
var boughtSo = []string{"frozen", "dried", "tinned", "ground", "smoked", "pickled", "cured", "powdered", "jarred", "bottled", "roasted", "cooked",
	"salted", "unsalted", "sliced bread", "vacuum-packed", "freeze-dried"}

// cupboard is the tag of a food that most kitchens have some of.
const cupboard = "cupboard"

// KeptInCupboard tells what most kitchens have some of: salt, oil, vinegar, dry
// spices, sugar, flour, mustard. By the table of names; common practice, no source.
func KeptInCupboard(item string) bool {
	m, ok := FoodNamed(item)
	if !ok {
		return false
	}
	if slices.Contains(m.Food.Tags, cupboard) {
		return true
	}
	family, ok := foodTable.lookup(lookupKey(m.Food.Family))
	return ok && m.Food.Kind != KinOfFood && m.Food.Kind != FormOfFood && slices.Contains(family.Tags, cupboard)
}
