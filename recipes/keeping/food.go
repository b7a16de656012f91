package keeping

import (
	"strings"
)

// Food is a food that can be asked for.
type Food struct {
	ID       string
	Name     string
	Aliases  []string
	Cooked   bool     // a batch of it can be judged
	Reheats  bool     // it can be heated up again
	Short    string   // the answer in one line, by the strictest rules
	Cites    []string // the rules that make it what it is
	Ours     string   // a choice no source makes
	Warnings []Warning

	sections       []int     // where its guidance stands in the library
	rank           int       // of two kinds whose life ends together the lower names the dish
	lives          []ownLife // "" by every authority without one here
	lifeInstead    bool      // in place of the authority's, not only where shorter
	lifeVulnerable Span
	cold           bool // it is eaten cold
	coolingAim     Span
	out            Span // shuts the window in which it may be eaten at once
	outVulnerable  Span
	timing         timing
	rawEgg         bool
	refer          string  // the rule by which it is not judged at all
	fridge         Degrees // where colder than the authority's
	hot            Degrees // where hotter than the authority's
	notVulnerable  string  // the rule that keeps it from vulnerable eaters
}

// Warning is what to mind with a food.
type Warning struct {
	Reason
	Cooling bool // only until it is in the fridge
}

// Section is one part of the guidance on a food.
type Section struct {
	Name  string
	Lines []Reason
}

// LookupFood finds a food by its id, its name or another name, whatever the
// case, hyphens and plural. An unknown one is a [*units.FieldError] that
// lists what is known.
func LookupFood(name string) (Food, error) {
	if i, ok := at(library.foodNamed, plain(name)); ok {
		return library.foods[i], nil
	}
	return Food{}, FactFood.wrong(name, "not a food the rules know", strings.Join(FoodIDs(), ", "))
}

// FoodIDs lists every food that can be asked for.
func FoodIDs() []string {
	var ids []string
	for _, f := range library.foods {
		ids = append(ids, f.ID)
	}
	return ids
}

// BatchFoods lists the foods of which a batch can be judged.
func BatchFoods() []string {
	var ids []string
	for _, f := range library.foods {
		if f.Cooked {
			ids = append(ids, f.ID)
		}
	}
	return ids
}

// plain makes "Boiled-Potatoes" and "boiled potato" the same.
func plain(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return r == ' ' || r == '-' || r == '_' })
	for i, word := range words {
		word = strings.ReplaceAll(word, "é", "e")
		word = strings.TrimSuffix(word, "s")
		words[i] = strings.TrimSuffix(word, "e")
	}
	return strings.Join(words, " ")
}

// LookupBatchFood finds a food of which a batch can be judged; another, and an
// unknown one, is a [*units.FieldError].
func LookupBatchFood(name string) (Food, error) {
	food, err := LookupFood(name)
	if err != nil {
		return Food{}, err
	}
	if !food.Cooked {
		return Food{}, FactFood.wrong(name, "is "+food.Name+", not a cooked batch", strings.Join(BatchFoods(), ", "))
	}
	return food, nil
}

// ownLife is a food's own life by an authority.
type ownLife struct {
	by   Authority
	life Span
}

// timing is which clocks a food is under.
type timing string

const (
	timed     timing = ""          // all of them
	readyCold timing = "from-cold" // no cooling: out and life, once it is in the fridge
	lifeOnly  timing = "life-only" // opened jars: neither cooling nor out
	untimed   timing = "none"      // whole raw vegetables
)

// lifeBy is the food's own life by an authority; unset where it has none.
func (f Food) lifeBy(a Authority) Span {
	var everywhere Span
	for _, own := range f.lives {
		switch own.by {
		case a:
			return own.life
		case "":
			everywhere = own.life
		}
	}
	return everywhere
}
