package strict

import (
	"errors"
	"fmt"
	"math/big"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"trencher/units"
)

// Whole is a whole number from least to most.
func (n Node) Whole(least, most int) int {
	text, ok := n.text()
	if !ok {
		return 0
	}
	value, err := strconv.Atoi(text)
	if err != nil || value < least || value > most || strings.HasPrefix(text, "+") {
		n.Fail("not a whole number from "+strconv.Itoa(least)+" to "+strconv.Itoa(most), "digits alone, such as "+strconv.Itoa(max(least, 1)))
		return 0
	}
	return value
}

// Decimal is an exact decimal number, with a point or a comma.
func (n Node) Decimal() decimal.Decimal {
	text, ok := n.text()
	if !ok {
		return decimal.Decimal{}
	}
	value, ok := plainDecimal(text)
	if !ok {
		n.Fail("not a number", "digits, with a point if need be, such as 1.5")
	}
	return value
}

func plainDecimal(text string) (decimal.Decimal, bool) {
	text = strings.Replace(text, ",", ".", 1)
	digits := strings.TrimPrefix(text, "-")
	if len(digits) > 40 || strings.Trim(digits, "0123456789.") != "" || strings.Trim(digits, ".") != digits {
		return decimal.Decimal{}, false
	}
	value, err := decimal.NewFromString(text)
	return value, err == nil
}

// Bool is true or false, or yes or no.
func (n Node) Bool() bool {
	text, ok := n.text()
	if !ok {
		return false
	}
	switch strings.ToLower(text) {
	case "true", "yes":
		return true
	case "false", "no":
		return false
	}
	n.Fail("neither yes nor no", "true or false")
	return false
}

// Choice is one of the words given.
func (n Node) Choice(values ...string) string {
	text, ok := n.text()
	if !ok {
		return ""
	}
	for _, value := range values {
		if strings.EqualFold(text, value) {
			return value
		}
	}
	n.Fail("not one of the words known here", strings.Join(values, " | "))
	return ""
}

// Quantity is an amount of one of the dimensions given, or of any if none is.
// Regional words take sys. Where one dimension alone is asked for, the amount
// must be exact: a knob is no weight to log. A rod where an area is wanted is
// a square rod.
func (n Node) Quantity(sys units.System, dims ...units.Dimension) units.Quantity {
	text, ok := n.text()
	if !ok {
		return units.Quantity{}
	}
	q, problem, accepted, cause := quantity(strings.Clone(text), sys, dims)
	if problem != "" {
		n.fail(problem, accepted, cause)
		return units.Quantity{}
	}
	return q
}

// QuantityField is Quantity for a value that stands in no file. Its error is a
// [*units.FieldError].
func QuantityField(field, value string, sys units.System, dims ...units.Dimension) (units.Quantity, error) {
	q, problem, accepted, cause := quantity(value, sys, dims)
	if problem != "" {
		return units.Quantity{}, &units.FieldError{Field: field, Value: value, Problem: problem, Accepted: accepted, Cause: cause}
	}
	return q, nil
}

func quantity(text string, sys units.System, dims []units.Dimension) (q units.Quantity, problem, accepted string, cause error) {
	q, err := units.Parse(text, sys)
	var parse *units.ParseError
	var ambiguous *units.AmbiguousError
	switch {
	case errors.As(err, &ambiguous):
		return q, ambiguous.Problem(), ambiguous.Accepted(), err
	case errors.As(err, &parse):
		accepted = parse.Accepted
		if len(dims) > 0 {
			accepted = usual(dims)
		}
		return q, parse.Beside(text), accepted, err
	case err != nil:
		return q, err.Error(), usual(dims), err
	}
	if len(dims) == 1 && dims[0] == units.Area && q.Dimension() == units.Length {
		if plot, err := q.In(units.SquareRod); err == nil {
			q = plot
		}
	}
	problem, accepted = unfit(q, dims)
	return q, problem, accepted, nil
}

// unfit says why a readable amount will not do.
func unfit(q units.Quantity, dims []units.Dimension) (problem, accepted string) {
	if len(dims) > 0 && !slices.Contains(dims, q.Dimension()) {
		if q.IsToTaste() {
			return "an amount is wanted here", usual(dims)
		}
		return wanted([]units.Dimension{q.Dimension()}) + " where " + wanted(dims) + " is wanted", usual(dims)
	}
	if len(dims) == 1 && q.IsRough() {
		return "too vague here", usual(dims)
	}
	if absurd(q) {
		return "too much to be true", "a smaller amount, in the right unit"
	}
	return "", ""
}

// bounds are, for each dimension, beyond what any garden or kitchen holds.
var bounds = map[units.Dimension][2]units.Quantity{
	units.Mass:        between(0, 1000, units.Tonne),
	units.Volume:      between(0, 10_000_000, units.Litre),
	units.Length:      between(0, 100_000, units.Metre),
	units.Area:        between(0, 100_000_000, units.SquareMetre),
	units.Temperature: between(-90, 1000, units.Celsius),
	units.Count:       between(0, 10_000_000, units.Piece),
	units.Power:       between(0, 1000, units.Kilowatt),
	units.Time:        between(0, 40_000, units.Day),
}

func between(low, high int64, u units.Unit) [2]units.Quantity {
	return [2]units.Quantity{units.FromRat(big.NewRat(low, 1), u), units.FromRat(big.NewRat(high, 1), u)}
}

func absurd(q units.Quantity) bool {
	limit, known := bounds[q.Dimension()]
	if !known || q.Unit().Kind() != limit[0].Unit().Kind() {
		return false
	}
	under, err1 := q.Low().Compare(limit[0])
	over, err2 := q.High().Compare(limit[1])
	return err1 == nil && under < 0 || err2 == nil && over > 0
}

// usual lists, for an error, the units people write for the dimensions.
func usual(dims []units.Dimension) string {
	var list []string
	for _, d := range dims {
		switch d {
		case units.Mass:
			list = append(list, "kg, g, lb or oz")
		case units.Volume:
			list = append(list, "l, ml, tbsp or tsp")
		case units.Length:
			list = append(list, "mm, cm, m or in")
		case units.Area:
			list = append(list, "m2, sq yd or square rods")
		case units.Temperature:
			list = append(list, "C or F, such as 4 C")
		case units.Count:
			list = append(list, "a plain number")
		case units.Power:
			list = append(list, "W or kW")
		case units.Time:
			list = append(list, "min, h or days")
		}
	}
	return strings.Join(list, "; or ")
}

func wanted(dims []units.Dimension) string {
	names := make([]string, len(dims))
	for i, d := range dims {
		names[i] = "a " + d.String()
		if d == units.Area {
			names[i] = "an area"
		}
	}
	return strings.Join(names, " or ")
}

// Date is a calendar day, as midnight UTC.
func (n Node) Date() time.Time {
	text, ok := n.text()
	if !ok {
		return time.Time{}
	}
	day, err := time.Parse(time.DateOnly, text)
	if err != nil || day.Year() < 1900 || day.Year() > 2200 {
		n.Fail("not a date", "year-month-day, such as 2031-07-12")
		return time.Time{}
	}
	return day
}

// timeForms are the ways a moment may be written; those without a zone are in
// the place's own time.
var timeForms = [...]string{
	"2006-01-02T15:04:05", "2006-01-02 15:04:05", "2006-01-02T15:04", "2006-01-02 15:04",
}

// ParseTime reads a moment: RFC 3339, or local in loc without a zone; a nil
// loc is UTC.
func ParseTime(text string, loc *time.Location) (time.Time, error) {
	if loc == nil {
		loc = time.UTC
	}
	for _, form := range [...]string{time.RFC3339, "2006-01-02T15:04Z07:00", "2006-01-02 15:04Z07:00"} {
		if at, err := time.Parse(form, text); err == nil {
			return at, checkYear(at)
		}
	}
	for _, form := range timeForms {
		if at, err := time.ParseInLocation(form, text, loc); err == nil {
			return at, checkYear(at)
		}
	}
	return time.Time{}, errNotTime
}

var errNotTime = errors.New("not a time")

func checkYear(at time.Time) error {
	if at.Year() < 1900 || at.Year() > 2200 {
		return fmt.Errorf("%w: the year %d", errNotTime, at.Year())
	}
	return nil
}

// Time is a moment, as ParseTime reads it.
func (n Node) Time(loc *time.Location) time.Time {
	text, ok := n.text()
	if !ok {
		return time.Time{}
	}
	at, err := ParseTime(text, loc)
	if err != nil {
		n.fail(err.Error(), "2031-07-12T16:40:00+01:00, or 2031-07-12 16:40 in local time", err)
		return time.Time{}
	}
	return at
}
