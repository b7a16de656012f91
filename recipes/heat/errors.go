package heat

import (
	"errors"
	"fmt"
	"strings"

	"trencher/units"
)

// ErrNotDone is wrapped when a piece is not done after three hours of steam.
var ErrNotDone = errors.New("not done after three hours of steam")

// ErrNoFigures is wrapped in the [units.FieldError] for a crop that the package
// has no figures for.
var ErrNoFigures = errors.New("no figures for it in steam or boiling water")

// outsideError refuses a number outside what the package can speak about.
func outsideError(field string, value, low, high float64, unit string) error {
	return units.WrongField(field, strings.TrimSpace(fmt.Sprintf("%g %s", value, unit)), "out of reach",
		strings.TrimSpace(fmt.Sprintf("%g to %g %s", low, high, unit)))
}

// within refuses a number outside [low, high]; NaN is outside.
func within(field string, value, low, high float64, unit string) error {
	if value >= low && value <= high {
		return nil
	}
	return outsideError(field, value, low, high, unit)
}
