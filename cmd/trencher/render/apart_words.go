package render

import (
	"fmt"
	"math/big"
	"slices"

	"trencher/recipes/meal"
	"trencher/units"
)

// setApartWords say of a dish that is not for a guest as it is made, and what of
// it they get instead.
func setApartWords(w meal.Warning) string {
	if w.Apart.Dish == "" {
		return fmt.Sprintf("%s is not for the guest (%s): it %s. The others may have it", w.Dish, w.Guest.Label(), w.Says)
	}
	return fmt.Sprintf("%s: %s. As it is made it is not for them: it %s", w.Dish, portionApart(w.Apart), w.Says)
}

// portionApart say how much is set apart, before what, and for whom.
func portionApart(a meal.Apart) string {
	return fmt.Sprintf("set apart %s before the %s goes in, for the guest (%s)", apartPortions(a), listed(a.Without), a.Guest.Label())
}

// apartOnPlate is what stands on the plate of who gets it.
func apartOnPlate(p meal.Plan, plate meal.Plate) []string {
	var words []string
	for _, one := range p.Apart {
		if slices.Contains(plate.Apart, one.Dish) && one.Guest.IsLike(plate.Guest) {
			words = append(words, fmt.Sprintf("%s set apart, without %s", one.Dish, listed(one.Without)))
		}
	}
	return words
}

// firstApart is what is done before the rest of a step: "First set apart 1
// portion, without own mayonnaise; then "; "" where nothing is.
func firstApart(p meal.Plan, step meal.Step) string {
	var same []meal.Apart // one for each thing left out, its portions in all
	for _, one := range p.Apart {
		if one.Step != step.ID {
			continue
		}
		at := slices.IndexFunc(same, func(a meal.Apart) bool { return slices.Equal(a.Without, one.Without) })
		if at < 0 {
			same = append(same, one)
			continue
		}
		same[at].Portions = new(big.Rat).Add(same[at].Portions, one.Portions)
	}
	if same == nil {
		return ""
	}
	return "First set apart " + listed(each(same, func(a meal.Apart) string { return apartPortions(a) + " without " + listed(a.Without) })) + "; then "
}

// apartPortions counts what is set apart, in halves.
func apartPortions(a meal.Apart) string {
	if a.Portions.IsInt() {
		return portions(int(a.Portions.Num().Int64()))
	}
	if a.Portions.Cmp(big.NewRat(1, 2)) == 0 {
		return "half a portion"
	}
	return units.DecimalOf(a.Portions).String() + " portions"
}
