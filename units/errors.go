package units

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

// ParseError says why a text is not an amount or a unit, and what is.
type ParseError struct {
	Input    string // the whole text
	Reason   string
	Accepted string
	cause    error  // ErrUnknownUnit, or nil
	part     string // of Input, that Reason repeats
	alone    string // Reason where that part is all there is
}

// ErrUnknownUnit is wrapped in the [*ParseError] over a word that is no unit at
// all; other errors are over an amount that is wrong or a word that is
// ambiguous.
var ErrUnknownUnit = errors.New("unknown unit")

// Unwrap is [ErrUnknownUnit], or nil.
func (e *ParseError) Unwrap() error { return e.cause }

func (e *ParseError) Error() string {
	if e.Input == "" {
		return e.Reason
	}
	return quote(e.Input) + ": " + e.Beside(e.Input)
}

// Beside is the reason beside a text that is shown: it repeats no part of Input that is
// all of that text.
func (e *ParseError) Beside(shown string) string {
	if e.part != "" && e.part == strings.TrimSpace(tidy(shown)) {
		return e.alone
	}
	return e.Reason
}

// Hint says what to write instead.
func (e *ParseError) Hint() string {
	if e.Accepted == "" {
		return ""
	}
	return "write " + e.Accepted
}

func unknownUnit(phrase, accepted string) *ParseError {
	err := refusePart(ErrUnknownUnit.Error(), ErrUnknownUnit.Error(), phrase, accepted)
	err.cause = ErrUnknownUnit
	return err
}

// refusePart is the error over a part of a text, which it names unless that is the
// whole text: `no number before "tub"`.
func refusePart(alone, before, part, accepted string) *ParseError {
	part = strings.TrimSpace(part)
	if part == "" {
		return &ParseError{Reason: alone, Accepted: accepted}
	}
	return &ParseError{Reason: before + " " + quote(part), Accepted: accepted, part: part, alone: alone}
}

// Reading is one meaning of a regional word.
type Reading struct {
	System System
	Unit   Unit
}

// AmbiguousError is a regional word with no system beside it and none from
// the kitchen.
type AmbiguousError struct {
	Input    string
	Word     string
	Readings []Reading
	Note     string
}

func (e *AmbiguousError) Error() string {
	if e.Input == "" {
		return e.Problem()
	}
	return quote(e.Input) + ": " + e.Problem()
}

// Problem is the error without the text it was found in.
func (e *AmbiguousError) Problem() string {
	sizes := sizesOf(e.Readings)
	text := "a " + e.Word + " may be " + joinOr(sizes)
	if len(sizes) == 1 {
		text = "a " + e.Word + " is " + sizes[0]
	}
	if e.Note != "" {
		text += "; " + e.Note
	}
	return text
}

// Hint says how to name the reading that is meant.
func (e *AmbiguousError) Hint() string { return "write " + e.Accepted() }

// Accepted are the readings to choose from, as they are written.
func (e *AmbiguousError) Accepted() string {
	return acceptedReadings(e.Readings) + ", or set the kitchen's measures"
}

func acceptedReadings(readings []Reading) string {
	var names []string
	seen := map[Unit]bool{}
	for _, r := range readings {
		if !seen[r.Unit] {
			seen[r.Unit] = true
			names = append(names, r.Unit.Symbol())
		}
	}
	return joinOr(names)
}

// sizesOf says what each reading is, those of one size together.
func sizesOf(readings []Reading) []string {
	var sizes []string
	for i, r := range readings {
		labels := r.System.label()
		first := true
		for j, other := range readings {
			if other.Unit != r.Unit || j == i {
				continue
			}
			first = first && j > i
			labels += ", " + other.System.label()
		}
		if first {
			sizes = append(sizes, r.Unit.sizeText()+" ("+labels+")")
		}
	}
	return sizes
}

// sizeText is the unit's size in its dimension's base unit: "568.26125 ml".
func (u Unit) sizeText() string {
	return formatNumber(u.entry.factor) + " " + base(u.entry.dimension).symbol
}

// DimensionError is an attempt to take a quantity as something it is not.
type DimensionError struct {
	Quantity Quantity
	From, To Unit
}

func (e *DimensionError) Error() string {
	from, to := describe(e.From), describe(e.To)
	if e.From.Dimension() == Count && e.To.Dimension() == Count {
		from, to = "counted in "+e.From.countName(), e.To.countName()
	}
	return fmt.Sprintf("%s is %s, not %s", e.Quantity, from, to)
}

// Crosses tells whether an ingredient could lead across: between mass, volume
// and count.
func (e *DimensionError) Crosses() bool {
	return crosses(e.From.Dimension()) && crosses(e.To.Dimension())
}

// Hint says what would lead across, where something would.
func (e *DimensionError) Hint() string {
	switch a, b := e.From.Dimension(), e.To.Dimension(); {
	case e.Crosses():
		return "what it weighs depends on the ingredient: name it"
	case a == Length && b == Area:
		return "write an area such as 2 m2 or 3 sq yd"
	}
	return ""
}

func crosses(d Dimension) bool { return d == Mass || d == Volume || d == Count }

func describe(u Unit) string {
	switch d := u.Dimension(); d {
	case NoDimension:
		return "no amount"
	case Area, Energy:
		return "an " + d.String()
	case Time:
		return "a time"
	default:
		return "a " + d.String()
	}
}

func (u Unit) countName() string {
	if u.Kind() == "piece" {
		return "pieces"
	}
	return strconv.Quote(u.Kind())
}

// withInput gives an error of this package the whole text it was found in.
func withInput(err error, input string) error {
	switch e := err.(type) {
	case *ParseError:
		e.Input = input
	case *AmbiguousError:
		e.Input = input
	}
	return err
}

func quote(text string) string { return strconv.Quote(clip(text)) }

// clip shortens a text that is too long to print back.
func clip(text string) string {
	if len(text) <= 60 {
		return text
	}
	return strings.ToValidUTF8(text[:57], "") + "..."
}

func joinOr(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " or " + names[len(names)-1]
}
