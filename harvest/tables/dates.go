package tables

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"trencher/units/pattern"
)

// date is a date as a cell has it, not settled yet.
type date struct {
	parts [3]int // as they stand; the third is the year, 0 if it has none
	order Order  // AnyOrder: the cell leaves it open
	week  bool   // parts[0] is an ISO week
	clock string // "16:40", or ""
}

var (
	weekday    = pattern.New(`(?i)^(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?[, ]+`)
	weekEnding = pattern.New(`(?i)^(?:w/?e|week[ -]ending|wk[ -]ending)[:. ]+`)
	timeAfter  = pattern.New(`[T ](\d{1,2}:\d{2})(?::\d{2})?$`)
	inNumbers  = pattern.New(`^(\d{1,4})\s*([/. -])\s*(\d{1,2})(?:\s*[/. -]\s*(\d{1,4}))?\.?$`)
	dayName    = pattern.New(`(?i)^(\d{1,2})(?:st|nd|rd|th)?[ /.-]*([a-z]{3,9})\.?(?:[ ,/-]+(\d{2,4}))?$`)
	nameDay    = pattern.New(`(?i)^([a-z]{3,9})\.? (\d{1,2})(?:st|nd|rd|th)?(?:,? +(\d{2,4}))?$`)
	isoWeek    = pattern.New(`(?i)^(?:week|wk|w)\.?\s*(\d{1,2})$`)
	yearAlone  = pattern.New(`\b(?:19|20)\d\d\b`)
)

// readDate reads a cell as a date, or as a week where weeks are columns.
func readDate(text string) (date, bool) {
	text = weekday.ReplaceAllString(weekEnding.ReplaceAllString(strings.TrimSpace(text), ""), "")
	var d date
	if clock := timeAfter.FindStringSubmatch(text); clock != nil {
		d.clock, text = clock[1], strings.TrimSpace(strings.TrimSuffix(text, clock[0]))
	}
	if week := isoWeek.FindStringSubmatch(text); week != nil {
		return date{week: true, parts: [3]int{number(week[1])}}, number(week[1]) >= 1 && number(week[1]) <= 53
	}
	if p := inNumbers.FindStringSubmatch(text); p != nil {
		d.parts = [3]int{number(p[1]), number(p[3]), fullYear(p[4])}
		switch {
		case len(p[1]) > 2 && (len(p[1]) != 4 || p[4] == ""), len(p[1]) <= 2 && len(p[4]) == 1:
			return date{}, false
		case len(p[1]) == 4:
			d.order, d.parts = YearFirst, [3]int{number(p[1]), number(p[3]), number(p[4])}
		case p[2] == ".":
			d.order = DayFirst // the point is written after ordinals: the day comes first
		}
		return d, true
	}
	if p := dayName.FindStringSubmatch(text); p != nil && month(p[2]) > 0 {
		d.order, d.parts = DayFirst, [3]int{number(p[1]), month(p[2]), fullYear(p[3])}
		return d, true
	}
	if p := nameDay.FindStringSubmatch(text); p != nil && month(p[1]) > 0 {
		d.order, d.parts = DayFirst, [3]int{number(p[2]), month(p[1]), fullYear(p[3])}
		return d, true
	}
	return date{}, false
}

func number(text string) int {
	n, err := strconv.Atoi(text)
	if err != nil {
		return 0
	}
	return n
}

// fullYear reads a year of two or four figures; 31 is 2031.
func fullYear(text string) int {
	n := number(text)
	if len(text) == 2 {
		n += 2000
	}
	return n
}

// month is the number of a month by its English name or the start of it; 0 =
// none.
func month(name string) int {
	name = strings.ToLower(name)
	for m := time.January; m <= time.December; m++ {
		full := strings.ToLower(m.String())
		if full == name || full[:3] == name || name == "sept" && m == time.September {
			return int(m)
		}
	}
	return 0
}

// shows is the order a date of numbers can only have; AnyOrder if it may be
// either.
func (d date) shows() Order {
	switch {
	case d.order != AnyOrder || d.week:
		return AnyOrder
	case d.parts[0] > 12 && d.parts[1] <= 12:
		return DayFirst
	case d.parts[1] > 12 && d.parts[0] <= 12:
		return MonthFirst
	}
	return AnyOrder
}

// in settles the date; text is how a journal entry has it. A week is its
// Sunday: by then all of it was lifted.
func (d date) in(order Order, year int) (day time.Time, text string, ok bool) {
	if d.week {
		day = weekEnd(year, d.parts[0])
		return day, day.Format(time.DateOnly), year > 0
	}
	y, m, dd := d.parts[2], d.parts[1], d.parts[0]
	switch {
	case d.order == YearFirst:
		y, m, dd = d.parts[0], d.parts[1], d.parts[2]
	case d.order == AnyOrder && order == MonthFirst:
		m, dd = d.parts[0], d.parts[1]
	}
	if y == 0 {
		y = year
	}
	day = time.Date(y, time.Month(m), dd, 0, 0, 0, 0, time.UTC)
	if y == 0 || day.Day() != dd || int(day.Month()) != m {
		return time.Time{}, "", false
	}
	text = day.Format(time.DateOnly)
	if d.clock != "" {
		text += fmt.Sprintf(" %05s", d.clock)
	}
	return day, text, true
}

// weekEnd is the Sunday of a week as ISO 8601 numbers them: week 1 holds the
// year's first Thursday.
func weekEnd(year, week int) time.Time {
	fourth := time.Date(year, time.January, 4, 0, 0, 0, 0, time.UTC)
	monday := fourth.AddDate(0, 0, -(int(fourth.Weekday())+6)%7)
	return monday.AddDate(0, 0, 7*week-1)
}
