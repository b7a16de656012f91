package heat

import (
	"errors"

	"trencher/units"
)

// AsTyped has the error of a field show what was typed into it, where it shows
// the value that was read of it; found is what a knife said.
func (w Words) AsTyped(err error, found string) error {
	return asTyped(err, map[string]string{"crop": w.Crop, "kind": w.Kind, "cut": w.Cut, "until": w.Until, "start": w.Start, "altitude": w.Altitude,
		"load": w.Load, "tuber": w.Tuber, "cool": w.Cool, "room": w.Room, "tier": w.Tier, "found": found})
}

// asTyped shows what was typed into the field of an error, by the fields that were.
func asTyped(err error, fields map[string]string) error {
	var wrong *units.FieldError
	if !errors.As(err, &wrong) || fields[wrong.Field] == "" {
		return err
	}
	shown := *wrong
	shown.Value = fields[wrong.Field]
	return &shown
}
