package keeping

import (
	"cmp"
	"slices"
	"strings"

	"trencher/units"
	"trencher/units/measures"
)

// Named is what a person's word for a food was taken for.
type Named struct {
	Food   string
	Also   []string // what else is in it
	Called string   // the word, where no rule knows it
}

// NameFood takes a word for a food: one of the foods by any of its names, a crop,
// what is in it by the words of a dish ("tuna salad"), and else a food no rule knows,
// under the strictest limits; "boiled-potatoes + pesto" is a dish of both. What is put up in jars at home is for an authority. A
// word that is nearly a food's name is more likely a slip: a [*units.FieldError]
// that names it.
func NameFood(name string) (Named, error) {
	if parts := strings.Split(name, "+"); len(parts) > 1 {
		return nameFoods(parts)
	}
	food, err := LookupFood(name)
	switch {
	case err == nil && (food.Cooked || !isCrop(name) || strings.Contains(plain(food.Name), "potato")):
		return Named{Food: food.ID}, nil
	case isCrop(name):
		return cookedCrop(name), nil
	case slices.ContainsFunc(formsOf(name), func(word string) bool { return slices.Contains(jarWords, word) }):
		return Named{Food: "home-canned"}, nil
	}
	if meant := nearly(name); meant != "" {
		return Named{}, FactFood.wrong(name, "not a food the rules know", meant+", if that is meant; any other food goes by what is in it")
	}
	kinds := KindsOf(Recipe{Name: name})
	if kinds.Foods[0] == AnythingElse {
		return Named{Food: AnythingElse, Called: name}, nil
	}
	return Named{Food: kinds.Foods[0], Also: kinds.Foods[1:]}, nil
}

// NameBatch is [NameFood] for a cooked batch: a crop is cooked. What can be no batch
// is a [*units.FieldError].
func NameBatch(word string) (Named, error) {
	named, err := NameFood(word)
	if err != nil {
		return Named{}, err
	}
	if food, err := LookupFood(named.Food); err == nil && !food.Cooked && isCrop(word) && !speaks(word, "raw") {
		return cookedCrop(word), nil
	}
	if _, err := LookupBatchFood(named.Food); err != nil {
		return Named{}, err
	}
	return named, nil
}

func cookedCrop(name string) Named {
	kinds := KindsOf(Recipe{Crops: []string{measures.Fold(name)}})
	return Named{Food: kinds.Foods[0], Also: kinds.Foods[1:]}
}

// nameFoods takes several words for the foods of one dish.
func nameFoods(words []string) (Named, error) {
	var all Named
	for _, word := range words {
		one, err := NameBatch(strings.TrimSpace(word))
		if err != nil {
			return Named{}, err
		}
		for _, food := range append([]string{one.Food}, one.Also...) {
			if !slices.Contains(all.Also, food) {
				all.Also = append(all.Also, food)
			}
		}
		all.Called = cmp.Or(all.Called, one.Called)
	}
	all.Food, all.Also = all.Also[0], all.Also[1:]
	return all, nil
}

func isCrop(name string) bool {
	_, ok := measures.CropNamed(name)
	return ok
}

// jarWords say that something is put up in jars at home.
var jarWords = []string{"canning", "canned", "can", "bottling", "bottled", "preserving", "preserved"}

// nearly is the name of a food that a word is one or two letters from; "" where
// none is.
func nearly(name string) string {
	best, least := "", 3
	for _, food := range library.foods {
		for _, other := range append([]string{food.ID, food.Name}, food.Aliases...) {
			if d := units.LettersApart(plain(name), plain(other)); d < least {
				best, least = other, d
			}
		}
	}
	if len(name) < 3*least {
		return ""
	}
	return best
}
