package ask

import (
	"strings"
	"time"

	"trencher/units"
)

// clock is where a typed time is read: the moment it is typed at, and the zone
// that a time without one is local to.
type clock struct {
	now  time.Time
	zone *time.Location
}

const (
	momentAccepted = "2031-07-12T16:40, 2031-07-12T16:40+01:00, 16:40 of today, or yesterday 16:40"
	dayAccepted    = momentAccepted + "; or the day alone, 2031-07-12"
)

// The ways a moment is typed: with its zone, and as a clock on the wall shows
// it. A bare time of day is 15:04.
var (
	zonedForms = []string{time.RFC3339, "2006-01-02T15:04Z07:00"}
	wallForms  = []string{"2006-01-02T15:04:05", "2006-01-02T15:04", "2006-01-02 15:04:05", "2006-01-02 15:04"}
)

const timeOfDay = "15:04"

// moment reads a moment to the second; "" is now. A local time that the clocks
// skip, or strike twice, is an error that asks for the zone: an hour's error
// would matter.
func (c clock) moment(field, text string) (time.Time, error) {
	return c.read(field, text, momentAccepted)
}

// momentOrDay is moment, and a bare date besides, which is noon of that day:
// for entries whose hour decides nothing.
func (c clock) momentOrDay(field, text string) (time.Time, error) {
	if day, err := time.ParseInLocation(time.DateOnly, strings.TrimSpace(text), c.zone); err == nil {
		return day.Add(12 * time.Hour), nil
	}
	return c.read(field, text, dayAccepted)
}

// given is momentOrDay, but the zero time where nothing was typed.
func (c clock) given(field, text string) (time.Time, error) {
	if text == "" {
		return time.Time{}, nil
	}
	return c.momentOrDay(field, text)
}

func (c clock) read(field, text, accepted string) (time.Time, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return c.now.In(c.zone).Truncate(time.Second), nil
	}
	for _, form := range zonedForms {
		if t, err := time.Parse(form, text); err == nil {
			return t.In(c.zone), nil
		}
	}
	wall, ok := c.wall(text)
	if !ok {
		return time.Time{}, units.WrongField(field, text, "not a time", accepted)
	}
	found := readings(wall, c.zone)
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return time.Time{}, units.WrongField(field, text, "the clocks go forward over that time", "a time that was on the clock, or the zone with it")
	}
	return time.Time{}, units.WrongField(field, text, "the clocks go back, and that time comes twice",
		"the zone with it: "+found[0].Format(time.RFC3339)+" or "+found[1].Format(time.RFC3339))
}

// wall reads what a clock on the wall shows, as a time in UTC.
func (c clock) wall(text string) (time.Time, bool) {
	for _, form := range wallForms {
		if t, err := time.Parse(form, text); err == nil {
			return t, true
		}
	}
	day := c.now.In(c.zone)
	if rest, ok := strings.CutPrefix(text, "yesterday "); ok {
		text, day = strings.TrimSpace(rest), day.AddDate(0, 0, -1)
	}
	t, err := time.Parse(timeOfDay, text)
	if err != nil {
		return time.Time{}, false
	}
	return time.Date(day.Year(), day.Month(), day.Day(), t.Hour(), t.Minute(), 0, 0, time.UTC), true
}

// onDay reads a time of day on a given day, as a serving time is typed.
func (c clock) onDay(field, text string, day time.Time) (time.Time, error) {
	if !isTimeOfDay(text) {
		return time.Time{}, units.WrongField(field, text, "not a time of day", "hours and minutes, as 18:30")
	}
	return c.moment(field, day.Format(time.DateOnly)+"T"+strings.TrimSpace(text))
}

func isTimeOfDay(text string) bool {
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
