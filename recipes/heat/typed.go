package heat

import (
	"errors"

	"trencher/units"
)

// AsTyped has the error of a field show what was typed into it, where it shows
// the value that was read of it; found is what a knife said.
func (w Words) AsTyped(err error, found string) error {
	var wrong *units.FieldError
	if !errors.As(err, &wrong) {
		return err
	}
	typed := map[string]string{"crop": w.Crop, "kind": w.Kind, "cut": w.Cut, "until": w.Until, "start": w.Start, "altitude": w.Altitude,
		"load": w.Load, "tuber": w.Tuber, "cool": w.Cool, "room": w.Room, "tier": w.Tier, "found": found}[wrong.Field]
	if typed == "" {
		return err
	}
	shown := *wrong
	shown.Value = typed
	return &shown
}
