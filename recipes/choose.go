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
		return nil, &strict.Error{Problem: "this plot has no dishes", Accepted: "one file for each of your recipes into dishes/, as dishes/mash.yaml"}
	}
	left := slices.Clone(all)
	if len(only) > 0 {
		left = nil
	}
	for _, name := range only {
		dish, err := Find(all, name)
		if err != nil {
			return nil, err
		}
		if slices.ContainsFunc(left, isNamed(dish.Name)) {
			return nil, units.WrongField("only", name, "this dish is named twice", "each dish once")
		}
		left = append(left, dish)
	}
	for _, name := range without {
		dish, err := Find(all, name)
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
	wanted := strings.ToLower(strings.TrimSpace(name))
	var begin []Dish
	for _, dish := range all {
		called, file := strings.ToLower(dish.Name), strings.ToLower(strings.TrimSuffix(path.Base(dish.File), path.Ext(dish.File)))
		if wanted == called || wanted == file {
			return dish, nil
		}
		if wanted != "" && (strings.HasPrefix(called, wanted) || strings.HasPrefix(file, wanted)) {
			begin = append(begin, dish)
		}
	}
	switch len(begin) {
	case 1:
		return begin[0], nil
	case 0:
		return Dish{}, units.WrongField("", "", fmt.Sprintf("there is no dish %q", name), "one of "+strings.Join(NamesOf(all), ", "))
	}
	return Dish{}, units.WrongField("", "", fmt.Sprintf("%q may be several dishes", name), "one of "+strings.Join(NamesOf(begin), ", "))
}

// NamesOf lists what dishes are called, in their order.
func NamesOf(dishes []Dish) []string {
	var names []string
	for _, dish := range dishes {
		names = append(names, dish.Name)
	}
	return names
}
