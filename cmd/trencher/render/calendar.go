package render

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"trencher/recipes/meal"
)

// ErrNoTimetable is returned by Calendar for a plan without any task: RFC 5545
// section 3.6 asks for at least one event.
var ErrNoTimetable = errors.New("the plan has no timetable to put into a calendar; give a serving time, such as --serve-at 18:30")

// Calendar writes the timetable as an iCalendar object (RFC 5545): one event
// for each task, with an alarm at its start. An event's UID depends only on
// the day, the dish and what kind of task it is, so that importing a later
// plan of the same day moves the events instead of doubling them. Times are written in UTC,
// which every calendar shows in its own local time. The stamp is the time of
// writing (DTSTAMP).
func Calendar(w io.Writer, plan meal.Plan, stamp time.Time) error {
	if len(plan.Steps) == 0 {
		return ErrNoTimetable
	}
	var lines calendarLines
	lines.add("BEGIN", "VCALENDAR")
	lines.add("VERSION", "2.0")
	lines.add("PRODID", "-//trencher//cooking timetable//EN")
	lines.add("CALSCALE", "GREGORIAN")
	seen := map[string]int{}
	for i, step := range plan.Steps {
		lines.event(plan, step, stepID(plan, step, seen), dangersOf(plan, step, i == 0), stamp)
	}
	lines.add("END", "VCALENDAR")
	_, err := io.WriteString(w, lines.text.String())
	return err
}

// stepID names a step within its day by its kind, its dishes and its crop, not
// by the weights behind it, which the next plan may change. Steps of one name
// are counted in the order of the timetable.
func stepID(plan meal.Plan, step meal.Step, seen map[string]int) string {
	name := fmt.Sprintf("%s %s %q %q", plan.On.Format(time.DateOnly), step.Kind, step.Dishes, step.Crop)
	seen[name]++
	sum := sha256.Sum256(fmt.Appendf(nil, "%s %d", name, seen[name]))
	return hex.EncodeToString(sum[:16]) + "@trencher"
}

// dangersOf are what a step of a dish in danger says before all else; the first
// step of all says every danger.
func dangersOf(plan meal.Plan, step meal.Step, first bool) []string {
	var says []string
	for _, w := range plan.Warnings {
		if w.Severity == meal.Danger && (first || slices.Contains(step.Dishes, w.Dish)) {
			says = append(says, joinNonEmpty(" ", "DANGER", sentence(warningWords(w, plan)), mendWords(w, plan)))
		}
	}
	return says
}

// calendarLines collects content lines, folded and ended as RFC 5545 section
// 3.1 asks.
type calendarLines struct{ text strings.Builder }

func (c *calendarLines) event(plan meal.Plan, step meal.Step, id string, dangers []string, stamp time.Time) {
	summary := escapeText(stepWords(plan, step))
	c.add("BEGIN", "VEVENT")
	c.add("UID", id)
	c.add("DTSTAMP", utc(stamp))
	c.add("DTSTART", utc(step.At))
	if step.Length > 0 {
		c.add("DTEND", utc(step.End()))
	}
	c.add("SUMMARY", summary)
	c.add("DESCRIPTION", escapeText(joinNonEmpty("\n", strings.Join(dangers, "\n"), span(step.Length.Minutes()), laneWords[lane(step)])))
	c.add("TRANSP", transparency(step))
	c.add("BEGIN", "VALARM")
	c.add("ACTION", "DISPLAY")
	c.add("TRIGGER", "PT0S")
	c.add("DESCRIPTION", summary)
	c.add("END", "VALARM")
	c.add("END", "VEVENT")
}

// transparency tells the calendar that waiting does not keep the cook busy.
func transparency(step meal.Step) string {
	if lane(step) == laneCook {
		return "OPAQUE"
	}
	return "TRANSPARENT"
}

// maxLineOctets is the longest a line may be without its line end.
const maxLineOctets = 75

func (c *calendarLines) add(name, value string) {
	room := maxLineOctets
	for _, char := range name + ":" + value {
		size := utf8.RuneLen(char)
		if size > room {
			c.text.WriteString("\r\n ")
			room = maxLineOctets - 1
		}
		c.text.WriteRune(char)
		room -= size
	}
	c.text.WriteString("\r\n")
}

// utc is a DATE-TIME in form 2 of RFC 5545 section 3.3.5.
func utc(at time.Time) string { return at.UTC().Format("20060102T150405Z") }

// escapeText writes a TEXT value (section 3.3.11); control characters that no
// value may hold are dropped.
func escapeText(text string) string {
	var escaped strings.Builder
	for _, char := range strings.ReplaceAll(text, "\r\n", "\n") {
		switch {
		case char == '\\' || char == ';' || char == ',':
			escaped.WriteRune('\\')
			escaped.WriteRune(char)
		case char == '\n':
			escaped.WriteString(`\n`)
		case char < ' ' && char != '\t' || char == 0x7f:
		default:
			escaped.WriteRune(char)
		}
	}
	return escaped.String()
}
