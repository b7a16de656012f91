package measures

import (
	"slices"

	"trencher/units/sorted"
)

// FoodNames lists every name of a food, in their order.
func FoodNames() []string {
	var names []string
	for key, text := range sorted.Table(foodTable).All() {
		if key[0] != '+' && key[0] != '*' {
			names = append(names, foodOf(text).Name)
		}
	}
	slices.Sort(names)
	return slices.Compact(names)
}
