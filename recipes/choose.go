package recipes

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"trencher/units"
	"trencher/units/strict"
)

// Choose picks the dishes asked for: by name or by file name, in the order they
// are named; all of them when none is, and none of those left out. Its error is a
// [units.FieldError], or says that the plot has no dishes.
func Choose(all []Dish, only, without []string) ([]Dish, error) {
	if len(all) == 0 {
		return nil, &strict.Error{Problem: "this plot has no dishes", Accepted: "one file for each of your recipes into dishes/, as dishes/mash.yaml, or bring one in: trencher dish import card.txt"}
	}
	left := slices.Clone(all)
	if len(only) > 0 {
		left = nil
	}
	for _, name := range only {
		dish, err := FindAs("only", all, name)
		if err != nil {
			return nil, err
		}
		if slices.ContainsFunc(left, isNamed(dish.Name)) {
			return nil, units.WrongField("only", name, "this dish is named twice", "each dish once")
		}
		left = append(left, dish)
	}
	for _, name := range without {
		dish, err := FindAs("without", all, name)
		if err != nil {
			return nil, err
		}
		left = slices.DeleteFunc(left, isNamed(dish.Name))
	}
	if len(left) == 0 {
		return nil, units.WrongField("without", strings.Join(without, ", "), "no dish is left to make", "fewer of "+strings.Join(NamesOf(all), ", "))
	}
	return left, nil
}

func isNamed(name string) func(Dish) bool {
	return func(d Dish) bool { return d.Name == name }
}

// Find finds a dish by its name, its file's name, or a beginning of either
// that fits no other dish. Its error lists those there are.
func Find(all []Dish, name string) (Dish, error) {
	switch found := Matching(all, name); len(found) {
	case 1:
		return found[0], nil
	case 0:
		return Dish{}, units.WrongField("", "", fmt.Sprintf("there is no dish %q", name), "one of "+strings.Join(NamesOf(all), ", "))
	default:
		return Dish{}, units.WrongField("", "", fmt.Sprintf("%q may be several dishes", name), "one of "+strings.Join(NamesOf(found), ", "))
	}
}

// FindAs is [Find] for a name typed into a field; its error is a
// [units.FieldError] of it.
func FindAs(field string, all []Dish, name string) (Dish, error) {
	switch found := Matching(all, name); len(found) {
	case 1:
		return found[0], nil
	case 0:
		return Dish{}, units.WrongField(field, name, "no dish of that name", "one of "+strings.Join(NamesOf(all), ", "))
	default:
		return Dish{}, units.WrongField(field, name, "may be several dishes", "one of "+strings.Join(NamesOf(found), ", "))
	}
}

// Matching lists the dishes that a name may mean, as [units.MatchAny] reads it:
// none, the one, or several candidates.
func Matching(all []Dish, name string) (found []Dish) {
	for _, i := range units.MatchAny(name, len(all), func(i int) []string {
		return []string{all[i].Name, strings.TrimSuffix(path.Base(all[i].File), path.Ext(all[i].File))}
	}) {
		found = append(found, all[i])
	}
	return found
}

// NamesOf lists what dishes are called, in their order.
func NamesOf(dishes []Dish) []string {
	var names []string
	for _, dish := range dishes {
		names = append(names, dish.Name)
	}
	return names
}
