package ask

import (
	"strings"
	"time"

	"trencher/units/strict"
)

const instantAccepted = "2031-07-12T16:40, 2031-07-12T16:40+01:00, 16:40 of today, or yesterday 16:40"

// instant reads a moment to the minute, where an hour's error would matter: a
// local time that the clocks skip, or strike twice, is an error that asks for
// the zone. "" is now; a bare time of day is of now's day.
func instant(flag, text string, now time.Time, zone *time.Location) (time.Time, error) {
	if text == "" {
		return now.In(zone), nil
	}
	for _, form := range []string{time.RFC3339, "2006-01-02T15:04Z07:00"} {
		if t, err := time.Parse(form, text); err == nil {
			return t.In(zone), nil
		}
	}
	wall, ok := wallClock(strings.TrimSpace(text), now.In(zone))
	if !ok {
		return time.Time{}, strict.Flag("--"+flag, text, "not a time", instantAccepted)
	}
	found := readings(wall, zone)
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return time.Time{}, strict.Flag("--"+flag, text, "the clocks go forward over that time", "a time that was on the clock, or the zone with it")
	}
	return time.Time{}, strict.Flag("--"+flag, text, "the clocks go back, and that time comes twice",
		"the zone with it: "+found[0].Format(time.RFC3339)+" or "+found[1].Format(time.RFC3339))
}

// wallClock reads what a clock on the wall shows, as a time in UTC.
func wallClock(text string, now time.Time) (time.Time, bool) {
	for _, form := range momentForms[1:] {
		if t, err := time.Parse(form, text); err == nil {
			return t, true
		}
	}
	if rest, ok := strings.CutPrefix(text, "yesterday "); ok {
		text, now = strings.TrimSpace(rest), now.AddDate(0, 0, -1)
	}
	t, err := time.Parse("15:04", text)
	if err != nil {
		return time.Time{}, false
	}
	return time.Date(now.Year(), now.Month(), now.Day(), t.Hour(), t.Minute(), 0, 0, time.UTC), true
}

func isTimeOfDay(text string) bool {
	_, err := time.Parse("15:04", text)
	return err == nil
}

// readings are the instants at which a clock in the zone shows the wall time.
func readings(wall time.Time, zone *time.Location) []time.Time {
	var found []time.Time
	for _, near := range []time.Duration{-24 * time.Hour, 24 * time.Hour} {
		_, offset := wall.Add(near).In(zone).Zone()
		t := wall.Add(-time.Duration(offset) * time.Second).In(zone)
		shows := t.Format(time.DateTime) == wall.Format(time.DateTime)
		if shows && (len(found) == 0 || !found[0].Equal(t)) {
			found = append(found, t)
		}
	}
	return found
}
