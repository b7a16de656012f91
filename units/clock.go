package units

import (
	"strings"
	"time"
)

// Clock is where a typed time is read: the moment it is typed at, and the zone
// that a time without one is local to. Its errors are those of a field.
type Clock struct {
	Now  time.Time
	Zone *time.Location
}

const (
	momentAccepted = "2031-07-12T16:40, 2031-07-12T16:40+01:00, 16:40 of today, or yesterday 16:40"
	dayAccepted    = momentAccepted + "; or the day alone, 2031-07-12 or yesterday"
)

// The ways a moment is typed: with its zone, and as a clock on the wall shows
// it. A bare time of day is 15:04.
var (
	zonedForms = []string{time.RFC3339, "2006-01-02T15:04Z07:00"}
	wallForms  = []string{"2006-01-02T15:04:05", "2006-01-02T15:04", "2006-01-02 15:04:05", "2006-01-02 15:04"}
)

const timeOfDay = "15:04"

// Moment reads a moment to the second; "" is now. A local time that the clocks
// skip, or strike twice, is an error that asks for the zone: an hour's error
// would matter.
func (c Clock) Moment(field, text string) (time.Time, error) {
	return c.read(field, text, momentAccepted)
}

// MomentOrDay is [Clock.Moment], and a bare day besides, as [Clock.Day] reads it,
// which is noon of that day: for entries whose hour decides nothing. The word
// today is now.
func (c Clock) MomentOrDay(field, text string) (time.Time, error) {
	day, ok := c.dayGone(text)
	switch {
	case strings.EqualFold(strings.TrimSpace(text), "today"):
		text = ""
	case ok && strings.TrimSpace(text) != "":
		return day.Add(12 * time.Hour), nil
	}
	return c.read(field, text, dayAccepted)
}

// Past is [Clock.MomentOrDay], but the zero time where nothing was typed.
func (c Clock) Past(field, text string) (time.Time, error) {
	if text == "" {
		return time.Time{}, nil
	}
	return c.MomentOrDay(field, text)
}

func (c Clock) read(field, text, accepted string) (time.Time, error) {
	text = strings.TrimSpace(text)
	if text == "" || strings.EqualFold(text, "now") {
		return c.Now.In(c.Zone).Truncate(time.Second), nil
	}
	for _, form := range zonedForms {
		if t, err := time.Parse(form, text); err == nil {
			return t.In(c.Zone), nil
		}
	}
	wall, ok := c.wall(text)
	if !ok {
		return time.Time{}, WrongField(field, text, "not a time", accepted)
	}
	found := readings(wall, c.Zone)
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return time.Time{}, WrongField(field, text, "the clocks go forward over that time", "a time that was on the clock, or the zone with it")
	}
	return time.Time{}, WrongField(field, text, "the clocks go back, and that time comes twice",
		"the zone with it: "+found[0].Format(time.RFC3339)+" or "+found[1].Format(time.RFC3339))
}

// wall reads what a clock on the wall shows, as a time in UTC.
func (c Clock) wall(text string) (time.Time, bool) {
	for _, form := range wallForms {
		if t, err := time.Parse(form, text); err == nil {
			return t, true
		}
	}
	words := strings.Fields(text)
	for i := range words {
		day, known := c.dayGone(strings.Join(words[:i], " "))
		hours, ok := hoursOf(strings.Join(words[i:], " "))
		if t, err := time.Parse(timeOfDay, hours); known && ok && err == nil {
			return time.Date(day.Year(), day.Month(), day.Day(), t.Hour(), t.Minute(), 0, 0, time.UTC), true
		}
	}
	return time.Time{}, false
}

// IsTimeOfDay tells hours and minutes alone, as 18:30, from a moment.
func IsTimeOfDay(text string) bool {
	_, err := time.Parse(timeOfDay, strings.TrimSpace(text))
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
