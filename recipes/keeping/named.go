package keeping

import (
	"slices"
	"strings"

	"trencher/units"
	"trencher/units/measures"
)

// named is what a person's word for a food was taken for.
type named struct {
	food   string
	also   []string
	called string // the word, where no rule knows it
}

// nameFood takes a word for a food: one of the foods by any of its names, a crop,
// what is in it by the words of a dish ("tuna salad"), and else a food no rule knows,
// under the strictest limits; "boiled-potatoes + pesto" is a dish of both. What is put up in jars at home is for an authority. A
// word that is nearly a food's name is more likely a slip: a [*units.FieldError]
// that names it.
func nameFood(name string) (named, error) {
	if first, rest, several := strings.Cut(name, "+"); several {
		return nameFoods(first, rest)
	}
	food, err := LookupFood(name)
	switch {
	case err == nil && (food.Cooked || !isCrop(name) || strings.Contains(plain(food.Name), "potato")):
		return named{food: food.ID}, nil
	case isCrop(name):
		kinds := KindsOf(Recipe{Crops: []string{measures.Fold(name)}})
		return named{food: kinds.Foods[0], also: kinds.Foods[1:]}, nil
	case slices.ContainsFunc(formsOf(name), func(word string) bool { return slices.Contains(jarWords, word) }):
		return named{food: "home-canned"}, nil
	}
	if meant := nearly(name); meant != "" {
		return named{}, FactFood.wrong(name, "not a food the rules know", meant+", if that is meant; any other food goes by what is in it")
	}
	kinds := KindsOf(Recipe{Name: name})
	if kinds.Foods[0] == AnythingElse {
		return named{food: AnythingElse, called: name}, nil
	}
	return named{food: kinds.Foods[0], also: kinds.Foods[1:]}, nil
}

// nameFoods takes several words joined by "+" for the foods of one dish, each a
// food by one of its names.
func nameFoods(first, rest string) (named, error) {
	var all named
	for _, word := range append([]string{first}, strings.Split(rest, "+")...) {
		food, err := LookupBatchFood(strings.TrimSpace(word))
		switch {
		case err != nil:
			return named{}, err
		case all.food == "":
			all.food = food.ID
		default:
			all.also = append(all.also, food.ID)
		}
	}
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
	for _, food := range library().foods {
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
