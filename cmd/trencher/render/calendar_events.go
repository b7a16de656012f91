package render

import (
	"slices"
	"strconv"
	"strings"
)

// mealDay is the property that tells which meal an event is of: its day.
const mealDay = "X-MEAL-DAY"

// When an alarm goes off, as RFC 5545 section 3.8.6.3 writes it.
const (
	atStart          = "PT0S"
	tenMinutesBefore = "-PT10M"
)

// event is one VEVENT: its lines besides those that every writing gives anew.
type event struct {
	uid       string
	sequence  int
	cancelled bool
	alarm     string
	ends      bool // another goes off at its end
	lines     []property
}

// property is a content line.
type property struct{ name, value string }

func (e *event) add(name, value string) { e.lines = append(e.lines, property{name, value}) }

// value is that of the first line of a name; "" where there is none.
func (e event) value(name string) string {
	for _, line := range e.lines {
		if line.name == name {
			return line.value
		}
	}
	return ""
}

// since numbers events after those written earlier of the same day: what has
// changed counts up, what is gone is cancelled.
func since(events, earlier []event, day string) []event {
	for _, old := range earlier {
		if old.value(mealDay) != day {
			continue
		}
		at := slices.IndexFunc(events, func(e event) bool { return e.uid == old.uid })
		switch {
		case at >= 0:
			events[at].sequence = old.sequence
			if old.cancelled || !slices.Equal(old.lines, events[at].lines) {
				events[at].sequence++
			}
		case old.cancelled:
			events = append(events, old)
		default:
			old.cancelled = true
			old.sequence++
			events = append(events, old)
		}
	}
	return events
}

// earlierEvents reads the events of a calendar that [Calendar] wrote; of any
// other it reads what it can.
func earlierEvents(text string) []event {
	var all []event
	var within []string
	for _, line := range strings.Split(unfolded(text), "\r\n") {
		name, value, found := strings.Cut(line, ":")
		switch {
		case !found:
		case name == "BEGIN":
			if within = append(within, value); value == "VEVENT" {
				all = append(all, event{})
			}
		case name == "END":
			within = within[:max(0, len(within)-1)]
		case len(within) > 0 && within[len(within)-1] == "VEVENT":
			all[len(all)-1].read(name, value)
		}
	}
	return slices.DeleteFunc(all, func(e event) bool { return e.uid == "" })
}

func (e *event) read(name, value string) {
	switch name {
	case "UID":
		e.uid = value
	case "SEQUENCE":
		e.sequence, _ = strconv.Atoi(value)
	case "STATUS":
		e.cancelled = value == "CANCELLED"
	case "DTSTAMP":
	default:
		e.add(name, value)
	}
}

// unfolded joins lines that were folded (RFC 5545 section 3.1).
func unfolded(text string) string {
	return strings.NewReplacer("\r\n ", "", "\r\n\t", "").Replace(text)
}
