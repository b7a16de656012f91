package keeping

import (
	"fmt"
	"strings"
	"time"
)

// clockTime writes a moment for the kitchen: the time alone on the day of
// now, else with the day, else with the date.
func clockTime(t, now time.Time) string {
	t = t.In(now.Location())
	days := daysBetween(now, t)
	switch {
	case days == 0:
		return t.Format("15:04")
	case days > -7 && days < 7:
		return t.Format("Mon 15:04")
	case t.Year() == now.Year():
		return t.Format("Mon 2 Jan 15:04")
	}
	return t.Format("Mon 2 Jan 2006 15:04")
}

// daysBetween counts civil days from a to b.
func daysBetween(a, b time.Time) int {
	day := func(t time.Time) time.Time {
		return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC)
	}
	return int(day(b).Sub(day(a)) / (24 * time.Hour))
}

// spanWords writes a span for the kitchen: "2 h", "1 h 30 min", "48 h".
func spanWords(d time.Duration) string {
	text := d.Truncate(time.Minute).String()
	text = strings.TrimSuffix(text, "0s")
	if d < time.Minute {
		return "under a minute"
	}
	text = strings.Replace(text, "h", " h ", 1)
	text = strings.Replace(text, "m", " min", 1)
	return strings.TrimSpace(strings.TrimSuffix(text, " 0 min"))
}

// uncapital lets a sentence go on after a colon or a semicolon.
func uncapital(text string) string {
	if len(text) < 2 || text[1] >= 'A' && text[1] <= 'Z' {
		return text
	}
	return strings.ToLower(text[:1]) + text[1:]
}

// degrees writes a temperature: "5 °C", "4.4 °C".
func degrees(c float64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", c), ".0") + " °C" }

// stamp writes a moment in full for an error.
func stamp(t time.Time) string { return t.Format("2006-01-02 15:04 MST") }
