package units

import (
	"strings"
	"time"
)

// twelveHourForms are a time of day as a twelve-hour clock shows it.
var twelveHourForms = []string{"3:04 PM", "3:04PM", "3 PM", "3PM", "3.04 PM"}

const dayTimeAccepted = `hours and minutes, as 18:30 or 6:30 pm; now; or in 45 min`

// OnDay reads a time of day on a given day, as a serving time is typed: 18:30,
// 6:30 pm. "now" and "in 45 min" are counted from the moment of typing, which
// must be on that day.
func (c Clock) OnDay(field, text string, day time.Time) (time.Time, error) {
	if ahead, ok := c.ahead(text); ok {
		if ahead.Format(time.DateOnly) != day.Format(time.DateOnly) && c.Now.In(c.Zone).Format(time.DateOnly) != day.Format(time.DateOnly) {
			return time.Time{}, WrongField(field, text, "the plan is for another day than today", "a time of that day, as 18:30")
		}
		return ahead, nil
	}
	hours, ok := hoursOf(text)
	if !ok {
		return time.Time{}, WrongField(field, text, "not a time of day", dayTimeAccepted)
	}
	return c.Moment(field, day.Format(time.DateOnly)+"T"+hours)
}

// ahead reads "now" and "in 45 min", to the whole minute.
func (c Clock) ahead(text string) (time.Time, bool) {
	words := strings.Fields(strings.ToLower(text))
	now := c.Now.In(c.Zone).Truncate(time.Minute)
	if len(words) == 1 && words[0] == "now" {
		return now, true
	}
	if len(words) < 2 || words[0] != "in" {
		return time.Time{}, false
	}
	span, err := Parse(strings.Join(words[1:], " "), Metric)
	if err != nil || span.IsRange() || span.Dimension() != Time || span.Sign() < 0 {
		return time.Time{}, false
	}
	minutes, err := span.Float64(Minute)
	if err != nil || minutes > 24*60 {
		return time.Time{}, false
	}
	return now.Add(time.Duration(minutes * float64(time.Minute))), true
}

// hoursOf is a time of day as 15:04.
func hoursOf(text string) (string, bool) {
	text = strings.ToUpper(strings.TrimSpace(text))
	for _, form := range append([]string{timeOfDay}, twelveHourForms...) {
		if t, err := time.Parse(form, text); err == nil {
			return t.Format(timeOfDay), true
		}
	}
	return "", false
}
