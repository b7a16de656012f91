package render

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"trencher/recipes/meal"
	"trencher/recipes/schedule"
)

// ErrNoTimetable is returned by Calendar for a plan without any task: RFC 5545
// section 3.6 asks for at least one event.
var ErrNoTimetable = errors.New("the plan has no timetable to put into a calendar; give a serving time, such as --serve-at 18:30")

// Calendar writes the timetable as an iCalendar object (RFC 5545): one event
// for each task, with an alarm at its start, and one for the end of each dish's
// time, with an alarm before it. An event's UID depends only on the day, the dish
// and what kind of task it is, so that importing a later plan of the same day
// moves the events instead of doubling them. Earlier is the calendar that was
// written of the same meal before, or "": an event that has changed since counts
// its SEQUENCE up, and one that is gone is cancelled (sections 3.8.7.4 and
// 3.8.1.11). Times are written in UTC, which every calendar shows in its own local
// time. The stamp is the time of writing (DTSTAMP).
func Calendar(w io.Writer, plan meal.Plan, stamp time.Time, earlier string) error {
	if len(plan.Steps) == 0 {
		return ErrNoTimetable
	}
	var events []event
	seen := map[string]int{}
	for i, step := range plan.Steps {
		events = append(events, stepEvent(plan, step, stepID(plan, step, seen), dangersOf(plan, step, i == 0)))
	}
	events = append(events, endEvents(plan)...)
	var lines calendarLines
	lines.add("BEGIN", "VCALENDAR")
	lines.add("VERSION", "2.0")
	lines.add("PRODID", "-//trencher//cooking timetable//EN")
	lines.add("CALSCALE", "GREGORIAN")
	for _, e := range since(events, earlierEvents(earlier), plan.On.Format(time.DateOnly)) {
		lines.event(e, stamp)
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
	return eventID(fmt.Sprintf("%s %d", name, seen[name]))
}

func eventID(name string) string {
	sum := sha256.Sum256([]byte(name))
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

func (c *calendarLines) event(e event, stamp time.Time) {
	c.add("BEGIN", "VEVENT")
	c.add("UID", e.uid)
	c.add("DTSTAMP", utc(stamp))
	c.add("SEQUENCE", strconv.Itoa(e.sequence))
	if e.cancelled {
		c.add("STATUS", "CANCELLED")
	}
	for _, line := range e.lines {
		c.add(line.name, line.value)
	}
	if !e.cancelled {
		c.add("BEGIN", "VALARM")
		c.add("ACTION", "DISPLAY")
		c.add("TRIGGER", e.alarm)
		c.add("DESCRIPTION", e.value("SUMMARY"))
		c.add("END", "VALARM")
	}
	if e.ends && !e.cancelled {
		c.add("BEGIN", "VALARM")
		c.add("ACTION", "DISPLAY")
		c.add("TRIGGER;RELATED=END", atStart)
		c.add("DESCRIPTION", "Take it out: "+e.value("SUMMARY"))
		c.add("END", "VALARM")
	}
	c.add("END", "VEVENT")
}

// stepEvent is a task. What is finished or served says until when it may be
// eaten.
func stepEvent(plan meal.Plan, step meal.Step, id string, dangers []string) event {
	e := event{uid: id, alarm: atStart, ends: isTakenOutByItself(plan, step)}
	e.add("DTSTART", utc(step.At))
	if step.Length > 0 {
		e.add("DTEND", utc(step.End()))
	}
	e.add("SUMMARY", escapeText(stepWords(plan, step)))
	says := append(slices.Clone(dangers), span(step.Length.Minutes()), laneWords[lane(step)])
	switch step.Kind {
	case schedule.Dress, schedule.Finish, schedule.Serve:
		for _, clock := range plan.Clocks {
			if slices.Contains(step.Dishes, clock.Dish) {
				says = append(says, clock.Dish+": "+endWords(clock, plan))
			}
		}
	}
	e.add("DESCRIPTION", escapeText(strings.Join(says, "\n")))
	e.add("TRANSP", transparency(step))
	e.add(mealDay, plan.On.Format(time.DateOnly))
	return e
}

// isTakenOutByItself tells the cooking of a crop after which no step of its own
// takes it out.
func isTakenOutByItself(plan meal.Plan, step meal.Step) bool {
	cooks := step.Crop != "" && (step.Kind == schedule.Own || step.Kind == schedule.BoilIn)
	return cooks && !slices.ContainsFunc(plan.Steps, func(s meal.Step) bool { return s.Kind == schedule.LiftOut && s.AtOnce == step.ID })
}

// endEvents are the moments by which dishes are eaten or back in the cold, each
// with the dishes it is for.
func endEvents(plan meal.Plan) []event {
	var events []event
	for i, clock := range plan.Clocks {
		end := endOf(clock)
		if end.IsZero() || slices.ContainsFunc(plan.Clocks[:i], func(c meal.Clock) bool { return endOf(c).Equal(end) }) {
			continue
		}
		var dishes []string
		for _, other := range plan.Clocks {
			if endOf(other).Equal(end) {
				dishes = append(dishes, other.Dish)
			}
		}
		e := event{uid: eventID(fmt.Sprintf("%s end %q", plan.On.Format(time.DateOnly), dishes)), alarm: tenMinutesBefore}
		e.add("DTSTART", utc(end))
		e.add("SUMMARY", escapeText(listed(dishes)+": "+endWords(clock, plan)))
		if dangers := dangersOf(plan, meal.Step{Timed: schedule.Timed{Step: schedule.Step{Dishes: dishes}}}, false); len(dangers) > 0 {
			e.add("DESCRIPTION", escapeText(strings.Join(dangers, "\n")))
		}
		e.add("TRANSP", "TRANSPARENT")
		e.add(mealDay, plan.On.Format(time.DateOnly))
		events = append(events, e)
	}
	return events
}

// endOf is when a dish has to be eaten or back in the cold; zero where nothing
// ends it.
func endOf(c meal.Clock) time.Time {
	if back := c.Deadline.Verdict.KeepBy; !back.IsZero() && back.Before(c.LimitAt) {
		return back
	}
	return c.LimitAt
}

// endWords say what has to be done by then.
func endWords(c meal.Clock, p meal.Plan) string {
	if p.Kitchen.NoFridge {
		return "eaten " + limitWords(c, p) + ", else thrown out"
	}
	if back := c.Deadline.Verdict.KeepBy; !back.IsZero() && back.Before(c.LimitAt) {
		return "eaten or back in the cold by " + clockOn(back, p.On)
	}
	return "eaten or back in the cold " + limitWords(c, p)
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
