package render

import (
	"fmt"
	"regexp"
	"strings"
	"time"
	"unicode/utf8"
)

// A small reader of iCalendar objects, written from RFC 5545 and used by the
// tests alone: it knows nothing of how Calendar writes. Numbers in the
// messages are sections of the RFC.

type contentLine struct{ name, value string }

type component struct {
	name       string
	properties []contentLine
	inside     []*component
}

func (c *component) values(name string) []string {
	var found []string
	for _, property := range c.properties {
		if property.name == name {
			found = append(found, property.value)
		}
	}
	return found
}

func (c *component) all(name string) []*component {
	var found []*component
	for _, one := range c.inside {
		if one.name == name {
			found = append(found, one)
		}
	}
	return found
}

var (
	lineForm     = regexp.MustCompile(`^([A-Z0-9-]+)((?:;[A-Z0-9-]+=[^:;,"]*)*):(.*)$`) // 3.1
	utcForm      = regexp.MustCompile(`^\d{8}T\d{6}Z$`)                                 // 3.3.5 form 2
	durationForm = regexp.MustCompile(`^[+-]?P(?:\d+W|\d+D(?:T(?:\d+H)?(?:\d+M)?(?:\d+S)?)?|T(?:\d+H(?:\d+M(?:\d+S)?)?|\d+M(?:\d+S)?|\d+S))$`)
	textForm     = regexp.MustCompile(`^(?:[^\\;,\x00-\x08\x0a-\x1f\x7f]|\\[\\;,nN])*$`) // 3.3.11
)

// readCalendar unfolds, parses and checks a calendar; every breach of the RFC
// it finds is in the list of faults.
func readCalendar(data string) (*component, []string) {
	var faults []string
	fault := func(format string, values ...any) { faults = append(faults, fmt.Sprintf(format, values...)) }
	if !utf8.ValidString(data) {
		fault("3.1.4: not UTF-8")
	}
	if strings.Count(data, "\n") != strings.Count(data, "\r\n") || !strings.HasSuffix(data, "\r\n") {
		fault("3.1: a line does not end in CRLF")
	}
	for _, physical := range strings.Split(strings.TrimSuffix(data, "\r\n"), "\r\n") {
		if len(physical) > 75 {
			fault("3.1: a line of %d octets", len(physical))
		}
		if !utf8.ValidString(physical) {
			fault("3.1: a fold splits a character")
		}
	}
	top := &component{}
	open := []*component{top}
	for _, line := range strings.Split(strings.TrimSuffix(strings.ReplaceAll(data, "\r\n ", ""), "\r\n"), "\r\n") {
		parts := lineForm.FindStringSubmatch(line)
		if parts == nil {
			fault("3.1: not a content line: %q", line)
			continue
		}
		here := open[len(open)-1]
		switch parts[1] {
		case "BEGIN":
			inner := &component{name: parts[3]}
			here.inside = append(here.inside, inner)
			open = append(open, inner)
		case "END":
			if here.name != parts[3] {
				fault("3.6: END:%s closes %s", parts[3], here.name)
				return top, faults
			}
			open = open[:len(open)-1]
		default:
			here.properties = append(here.properties, contentLine{parts[1], parts[3]})
		}
	}
	if len(open) != 1 {
		fault("3.6: %s is not closed", open[len(open)-1].name)
	}
	return top, append(faults, checkObject(top)...)
}

func checkObject(top *component) []string {
	var faults []string
	calendars := top.all("VCALENDAR")
	if len(calendars) != 1 || len(top.inside) != 1 {
		return append(faults, "3.4: want one VCALENDAR")
	}
	calendar := calendars[0]
	faults = append(faults, once(calendar, "PRODID", "VERSION")...)
	faults = append(faults, atMostOnce(calendar, "CALSCALE", "METHOD")...)
	if fmt.Sprint(calendar.values("VERSION")) != "[2.0]" {
		faults = append(faults, "3.7.4: VERSION is not 2.0")
	}
	if len(calendar.inside) == 0 {
		faults = append(faults, "3.6: no component")
	}
	ids := map[string]bool{}
	for _, event := range calendar.all("VEVENT") {
		faults = append(faults, checkEvent(event)...)
		for _, id := range event.values("UID") {
			if ids[id] {
				faults = append(faults, "3.8.4.7: UID "+id+" stands twice")
			}
			ids[id] = true
		}
	}
	return faults
}

func checkEvent(event *component) []string {
	faults := once(event, "UID", "DTSTAMP", "DTSTART") // 3.6.1; DTSTART as there is no METHOD
	faults = append(faults, atMostOnce(event, "DTEND", "DURATION", "SUMMARY", "DESCRIPTION", "TRANSP", "SEQUENCE")...)
	if len(event.values("DTEND")) > 0 && len(event.values("DURATION")) > 0 {
		faults = append(faults, "3.6.1: both DTEND and DURATION")
	}
	for _, name := range []string{"DTSTAMP", "DTSTART", "DTEND"} {
		for _, value := range event.values(name) {
			if _, err := time.Parse("20060102T150405Z", value); err != nil || !utcForm.MatchString(value) {
				faults = append(faults, "3.3.5: "+name+" "+value+" is not a UTC time")
			}
		}
	}
	for _, end := range event.values("DTEND") {
		if end <= event.values("DTSTART")[0] {
			faults = append(faults, "3.8.2.2: DTEND is not after DTSTART")
		}
	}
	for _, name := range []string{"SUMMARY", "DESCRIPTION"} {
		for _, value := range event.values(name) {
			if !textForm.MatchString(value) {
				faults = append(faults, fmt.Sprintf("3.3.11: %s %q is not escaped", name, value))
			}
		}
	}
	for _, value := range event.values("TRANSP") {
		if value != "OPAQUE" && value != "TRANSPARENT" {
			faults = append(faults, "3.8.2.7: TRANSP "+value)
		}
	}
	for _, alarm := range event.inside {
		faults = append(faults, checkAlarm(alarm)...)
	}
	return faults
}

func checkAlarm(alarm *component) []string {
	if alarm.name != "VALARM" {
		return []string{"3.6.1: " + alarm.name + " inside an event"}
	}
	faults := once(alarm, "ACTION", "TRIGGER", "DESCRIPTION") // 3.6.6, dispprop
	if fmt.Sprint(alarm.values("ACTION")) != "[DISPLAY]" {
		faults = append(faults, "3.6.6: ACTION is not DISPLAY")
	}
	for _, value := range alarm.values("TRIGGER") {
		if !durationForm.MatchString(value) {
			faults = append(faults, "3.3.6: TRIGGER "+value+" is not a duration")
		}
	}
	return faults
}

func once(c *component, names ...string) []string {
	var faults []string
	for _, name := range names {
		if n := len(c.values(name)); n != 1 {
			faults = append(faults, fmt.Sprintf("3.6: %s stands %d times in %s, not once", name, n, c.name))
		}
	}
	return faults
}

func atMostOnce(c *component, names ...string) []string {
	var faults []string
	for _, name := range names {
		if n := len(c.values(name)); n > 1 {
			faults = append(faults, fmt.Sprintf("3.6: %s stands %d times in %s", name, n, c.name))
		}
	}
	return faults
}

// unescape reads a TEXT value back (3.3.11).
func unescape(value string) string {
	return strings.NewReplacer(`\\`, `\`, `\;`, ";", `\,`, ",", `\n`, "\n", `\N`, "\n").Replace(value)
}
