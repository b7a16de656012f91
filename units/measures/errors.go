package measures

import (
	"fmt"
	"strings"
)

// UnknownError is an ingredient the table has no row for.
type UnknownError struct {
	Ingredient string
	Nearest    []string
}

func (e *UnknownError) Error() string {
	return fmt.Sprintf("no row says what a measure of %q weighs", e.Ingredient)
}

// Hint names the nearest ingredients, or says how to add one's own.
func (e *UnknownError) Hint() string {
	const own = "weigh a spoon or a piece of it and add it to kitchen.yaml"
	if len(e.Nearest) == 0 {
		return own
	}
	return "nearest on file: " + strings.Join(e.Nearest, ", ") + "; or " + own
}

// StateError is a state that the ingredient has no row for, or no state where
// it matters which.
type StateError struct {
	Ingredient string
	State      string
	Known      []string
}

func (e *StateError) Error() string {
	if e.State == "" {
		return fmt.Sprintf("what a measure of %s weighs depends on its state", e.Ingredient)
	}
	return fmt.Sprintf("no single row for %s in the state %q", e.Ingredient, e.State)
}

// Hint lists the states on file.
func (e *StateError) Hint() string {
	var known []string
	for _, state := range e.Known {
		if state != "" {
			known = append(known, state)
		}
	}
	if len(known) == 0 {
		return "leave the state out"
	}
	return "give the state: " + strings.Join(known, " | ")
}

// MeasureError is a measure that no row gives for an ingredient the table
// does know.
type MeasureError struct {
	Ingredient string
	State      string
	Wanted     string
	Known      []string
}

func (e *MeasureError) Error() string {
	of := e.Ingredient
	if e.State != "" {
		of += ", " + e.State
	}
	return fmt.Sprintf("no row says what %s of %s weighs", e.Wanted, of)
}

// Hint lists the measures on file.
func (e *MeasureError) Hint() string {
	if len(e.Known) == 0 {
		return "weigh one and add it to kitchen.yaml"
	}
	return "on file: " + strings.Join(e.Known, ", ")
}

// BulkError is a bushel or a peck of something, asked for as a weight.
type BulkError struct {
	Ingredient string
	Unit       string
}

func (e *BulkError) Error() string {
	return fmt.Sprintf("a %s of %s has no weight on file: it hangs on the crop, and in the US trade a bushel is a weight set crop by crop", e.Unit, e.Ingredient)
}

// Hint says what to do instead.
func (e *BulkError) Hint() string { return "weigh it; or convert its volume, into litres" }
