package units

import (
	"fmt"
	"time"

	"gopkg.in/yaml.v3"
)

// MonthDay is a date of every year, such as that of the first frost. The zero
// value is none.
type MonthDay struct {
	Month time.Month
	Day   int
}

// ParseMonthDay reads a month and a day, written 10-20.
func ParseMonthDay(text string) (MonthDay, error) {
	at, err := time.Parse("01-02", text)
	if err != nil {
		return MonthDay{}, WrongField("", text, "no date of the year", "month and day, such as 10-20")
	}
	return MonthDay{at.Month(), at.Day()}, nil
}

// IsZero tells that it is no date.
func (d MonthDay) IsZero() bool { return d.Month == 0 }

// String writes it as it is read: 10-20; "" where there is none.
func (d MonthDay) String() string {
	if d.IsZero() {
		return ""
	}
	return fmt.Sprintf("%02d-%02d", d.Month, d.Day)
}

// In is that date in a year, at midnight UTC.
func (d MonthDay) In(year int) time.Time {
	return time.Date(year, d.Month, d.Day, 0, 0, 0, 0, time.UTC)
}

// OnOrAfter is the first such date that does not come before a day; both are
// midnights UTC.
func (d MonthDay) OnOrAfter(day time.Time) time.Time {
	at := d.In(day.Year())
	if at.Before(day) {
		at = d.In(day.Year() + 1)
	}
	return at
}

// UnmarshalYAML reads 10-20.
func (d *MonthDay) UnmarshalYAML(n *yaml.Node) (err error) {
	*d, err = ParseMonthDay(n.Value)
	return err
}
