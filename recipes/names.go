package recipes

import (
	"slices"

	"trencher/units"
	"trencher/units/measures"
)

// CropName is the one name a crop has in the kitchen, whatever its plural,
// capitals or local name: "Potatoes", "new potato" and "potato" are all
// "potato", dwarf and climbing French beans are "French bean". A crop that
// [measures.CropNamed] does not know comes back folded. Compare crops of lots
// and dishes by it.
func CropName(name string) string {
	if crop, ok := measures.CropNamed(name); ok {
		return crop.InKitchen().Name
	}
	return measures.Fold(name)
}

// CropNames are crops by their names in the kitchen, each once.
func CropNames(crops []string) (names []string) {
	for _, crop := range crops {
		if name := CropName(crop); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// fold brings a name to the form that names are compared in.
func fold(name string) string { return measures.Fold(name) }

// meant returns the name that a mistyped one was most likely meant to be, at
// most two letters away; "" when none is that near.
func meant(name string, names []string) string {
	best, least := "", 3
	for _, other := range names {
		if d := units.LettersApart(fold(name), fold(other)); d < least {
			best, least = other, d
		}
	}
	if len(name) < 2*least {
		return ""
	}
	return best
}
