package ask

import (
	"time"

	"trencher/units/strict"
)

// momentForms are the ways a moment can be typed, besides a time of today.
var momentForms = []string{time.RFC3339, "2006-01-02T15:04:05", "2006-01-02T15:04", "2006-01-02 15:04:05", "2006-01-02 15:04"}

// moment reads the time given with a flag; "" is now, a bare time of day is
// today's, a bare date is noon of that day.
func moment(flag, text string, w Where) (time.Time, error) {
	if text == "" {
		return w.Now.Truncate(time.Second), nil
	}
	for _, form := range momentForms {
		if t, err := time.ParseInLocation(form, text, w.zone()); err == nil {
			return t, nil
		}
	}
	if t, err := time.ParseInLocation(time.DateOnly, text, w.zone()); err == nil {
		return t.Add(12 * time.Hour), nil
	}
	if t, err := time.Parse("15:04", text); err == nil {
		year, month, day := w.Now.Date()
		return time.Date(year, month, day, t.Hour(), t.Minute(), 0, 0, w.zone()), nil
	}
	return time.Time{}, strict.Flag("--"+flag, text, "not a time", "2031-07-12T16:40, 2031-07-12 or 16:40")
}
