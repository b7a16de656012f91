package harvest

import (
	"slices"
	"strings"
	"time"

	"trencher/units"
)

// ReadDay reads a civil day as people say it, seen from a moment: a date, today
// (or nothing), tomorrow, yesterday, a day of the week ("saturday", "next saturday" is the
// one to come, "last saturday" the one that was). Its error is a
// [units.FieldError] of on.
func ReadDay(text string, now time.Time) (time.Time, error) {
	today := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, now.Location())
	if text == "" {
		return today, nil
	}
	if day, err := time.ParseInLocation(time.DateOnly, text, today.Location()); err == nil {
		return day, nil
	}
	words := strings.Fields(strings.ToLower(text))
	if len(words) == 1 {
		if at := slices.Index([]string{"yesterday", "today", "tomorrow"}, words[0]); at >= 0 {
			return today.AddDate(0, 0, at-1), nil
		}
		words = []string{"next", words[0]}
	}
	if len(words) == 2 {
		for ahead := 1; ahead <= 7; ahead++ {
			for way, days := range map[string]int{"next": ahead, "last": -ahead} {
				day := today.AddDate(0, 0, days)
				if words[0] == way && words[1] == strings.ToLower(day.Weekday().String()) {
					return day, nil
				}
			}
		}
	}
	return time.Time{}, units.WrongField("on", text, "not a day", "a date such as 2031-07-12, today, tomorrow, yesterday, or a day such as next saturday")
}
