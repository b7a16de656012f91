package render

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"github.com/shopspring/decimal"
)

// grams writes a weight for the kitchen: whole grams below a kilogram, else
// kilograms to ten grams.
func grams(g decimal.Decimal) string {
	kilogram := decimal.NewFromInt(1000)
	if g.Round(0).LessThan(kilogram) {
		return g.Round(0).String() + " g"
	}
	return g.DivRound(kilogram, 2).StringFixed(2) + " kg"
}

// minutes writes a span of time: "8 min", "1 h 25 min".
func minutes(m float64) string {
	whole := int(math.Round(m))
	switch {
	case whole < 1:
		return "under 1 min"
	case whole < 60:
		return fmt.Sprintf("%d min", whole)
	case whole%60 == 0:
		return fmt.Sprintf("%d h", whole/60)
	}
	return fmt.Sprintf("%d h %d min", whole/60, whole%60)
}

// sizes writes a riddle band: "20-45 mm"; "not graded" for none.
func sizes(low, high int) string {
	if low == 0 && high == 0 {
		return "not graded"
	}
	return fmt.Sprintf("%d-%d mm", low, high)
}

// clock writes a time of day.
func clock(t time.Time) string { return t.Format("15:04") }

// clockOn writes a time of day, with the weekday when it is not on day.
func clockOn(t, day time.Time) string {
	if t.Format(time.DateOnly) == day.Format(time.DateOnly) {
		return clock(t)
	}
	return t.Format("Mon 15:04")
}

// longDate writes a date in full: "Saturday 19 July 2031".
func longDate(t time.Time) string { return t.Format("Monday 2 January 2006") }

// count writes a number with its noun in the right number.
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// whole writes a figure of physics as a whole number.
func whole(x float64) string { return strconv.Itoa(int(math.Round(x))) }

// capital writes the first letter large.
func capital(text string) string {
	for i, r := range text {
		return strings.ToUpper(string(r)) + text[i+len(string(r)):]
	}
	return text
}

// litres writes an amount of water to two figures, rounded up: it is to be enough.
func litres(ml float64) string {
	switch up := math.Ceil(ml/50-slip) * 50; {
	case up < 1000:
		return fmt.Sprintf("%.0f ml", up)
	case ml > 9900:
		return fmt.Sprintf("%s l", twoFigures(ml/1000))
	}
	return strconv.FormatFloat(math.Ceil(ml/100-slip)/10, 'f', -1, 64) + " l"
}

// litresOf writes an amount of water as it was given.
func litresOf(ml float64) string {
	if ml < 1000 {
		return strconv.FormatFloat(ml, 'f', -1, 64) + " ml"
	}
	return strconv.FormatFloat(ml/1000, 'f', -1, 64) + " l"
}
