package heat

import (
	"errors"
	"fmt"
)

// ErrNotDone is wrapped when a piece is not done after three hours of steam.
var ErrNotDone = errors.New("not done after three hours of steam")

// InputError is a wrong input: what it was, what is wrong with it and what is
// accepted instead.
type InputError struct {
	What     string // "cut", "crop", "start temperature" ...
	Value    string // as it was given
	Problem  string
	Accepted string
}

func (e *InputError) Error() string {
	return fmt.Sprintf("%s %q: %s", e.What, e.Value, e.Problem)
}

// Hint says what to write instead.
func (e *InputError) Hint() string { return e.Accepted }

// outsideError refuses a number outside what the package can speak about.
func outsideError(what string, value, low, high float64, unit string) error {
	return &InputError{
		What:     what,
		Value:    fmt.Sprintf("%g %s", value, unit),
		Problem:  "out of reach",
		Accepted: fmt.Sprintf("give %g to %g %s", low, high, unit),
	}
}

// within refuses a number outside [low, high]; NaN is outside.
func within(what string, value, low, high float64, unit string) error {
	if value >= low && value <= high {
		return nil
	}
	return outsideError(what, value, low, high, unit)
}
