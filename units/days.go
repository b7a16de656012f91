package units

import (
	"slices"
	"strings"
	"time"
)

// Day reads a civil day as people say it: a date, today (or nothing), tomorrow,
// yesterday, a day of the week ("saturday" and "next saturday" are the one to
// come, "last saturday" the one that was). It is local midnight.
func (c Clock) Day(field, text string) (time.Time, error) {
	if day, ok := c.dayCalled(text); ok {
		return day, nil
	}
	return time.Time{}, WrongField(field, text, "not a day", "a date such as 2031-07-12, today, tomorrow, yesterday, or a day such as next saturday")
}

// dayGone is a day that an entry may be of: one told by its date, or in words
// that do not look ahead.
func (c Clock) dayGone(text string) (time.Time, bool) {
	day, ok := c.dayCalled(text)
	if _, err := time.Parse(time.DateOnly, strings.TrimSpace(text)); err == nil {
		return day, ok
	}
	return day, ok && !day.After(c.Now)
}

func (c Clock) dayCalled(text string) (time.Time, bool) {
	now := c.Now.In(c.Zone)
	today := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, c.Zone)
	words := strings.Fields(strings.ToLower(text))
	if day, err := time.ParseInLocation(time.DateOnly, strings.Join(words, " "), c.Zone); err == nil {
		return day, true
	}
	switch len(words) {
	case 0:
		return today, true
	case 1:
		if at := slices.Index([]string{"yesterday", "today", "tomorrow"}, words[0]); at >= 0 {
			return today.AddDate(0, 0, at-1), true
		}
		words = []string{"next", words[0]}
	}
	way, known := map[string]int{"next": 1, "last": -1}[words[0]]
	if !known || len(words) != 2 {
		return time.Time{}, false
	}
	for days := 1; days <= 7; days++ {
		day := today.AddDate(0, 0, way*days)
		if words[1] == strings.ToLower(day.Weekday().String()) {
			return day, true
		}
	}
	return time.Time{}, false
}
