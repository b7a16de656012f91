package measures

import (
	"fmt"
	"slices"
	"strings"

	"trencher/units"
)

// toWeigh is what to do where no row helps.
const toWeigh = "weigh a spoon or a piece of it and add it to kitchen.yaml"

// unknownIngredient is an ingredient the table has no row for.
func unknownIngredient(ingredient string, nearest []string) error {
	accepted := "an ingredient on file, or " + toWeigh
	if len(nearest) > 0 {
		accepted = strings.Join(nearest, ", ") + ", if that is meant; or " + toWeigh
	}
	return units.WrongField("of", ingredient, "no row says what a measure of it weighs", accepted)
}

// unsettledState is a state that the ingredient has no row for, or no state
// where it matters which.
func unsettledState(ingredient, state string, known []string) error {
	accepted := "no state"
	known = slices.DeleteFunc(slices.Clone(known), func(s string) bool { return s == "" })
	if len(known) > 0 {
		accepted = strings.Join(known, " | ")
	}
	problem := "no single row for " + ingredient + " in it"
	if state == "" {
		problem = "what a measure of " + ingredient + " weighs depends on it"
	}
	return units.WrongField("state", state, problem, accepted)
}

// unknownMeasure is a measure that no row gives for an ingredient the table
// does know.
func unknownMeasure(p pantry, wanted string, known []string) error {
	of := p.ingredient
	if p.state != "" {
		of += ", " + p.state
	}
	accepted := "grams, or weigh one and add it to kitchen.yaml"
	if len(known) > 0 {
		accepted = "a measure on file: " + strings.Join(known, ", ")
	}
	return &units.FieldError{Problem: fmt.Sprintf("no row says what %s of %s weighs", wanted, of), Accepted: accepted}
}

// inBulk is a bushel or a peck of something, asked for as a weight.
func inBulk(unit, ingredient string) error {
	return &units.FieldError{
		Problem:  fmt.Sprintf("a %s of %s has no weight on file: it hangs on the crop, and in the US trade a bushel is a weight set crop by crop", unit, ingredient),
		Accepted: "a weight; or convert its volume, into litres",
	}
}
