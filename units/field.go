package units

import (
	"errors"
	"fmt"
	"strings"
)

// FieldError is a value somebody gave that cannot be used. It names the field
// of the question the value stands in, never a flag or a box: a command turns
// the field into its flag, a page into the box beside it.
type FieldError struct {
	Field    string // "serve-at", "limit"; "" where the value alone says it
	Value    string // as it was given; "" where none was
	Problem  string // what is wrong with it
	Accepted string // what to give instead; "" where nothing can be said
	Cause    error  // the error behind this one, such as a [*ParseError]; may be nil
}

// WrongField is the error for a value that cannot be used.
func WrongField(field, value, problem, accepted string) *FieldError {
	return &FieldError{Field: field, Value: value, Problem: problem, Accepted: accepted}
}

// AsTyped puts what was typed into an error of that field that has no value.
func AsTyped(err error, field, text string) error {
	var wrong *FieldError
	if errors.As(err, &wrong) && wrong.Field == field && wrong.Value == "" {
		wrong.Value = text
	}
	return err
}

// InField names the field that an error is about. An error that names its
// field already is returned as it is. A nil error stays nil.
func InField(field, value string, err error) error {
	if err == nil {
		return nil
	}
	wrong := &FieldError{Field: field, Value: value, Problem: err.Error(), Cause: err}
	var own *FieldError
	var parse *ParseError
	var ambiguous *AmbiguousError
	switch {
	case errors.As(err, &own) && own.Field != "":
		return own
	case own != nil:
		wrong.Problem, wrong.Accepted = own.Problem, own.Accepted
	case errors.As(err, &parse):
		wrong.Problem, wrong.Accepted = parse.Beside(value), parse.Accepted
	case errors.As(err, &ambiguous):
		wrong.Problem, wrong.Accepted = ambiguous.Problem(), ambiguous.Accepted()
	}
	return wrong
}

// InFieldFor is InField for a field that takes less than what did not read it: it says
// what the field itself accepts.
func InFieldFor(field, value string, err error, accepted string) error {
	err = InField(field, value, err)
	var wrong *FieldError
	if errors.As(err, &wrong) {
		wrong.Accepted = accepted
	}
	return err
}

// Error is the field with its value and the problem: `limit "butter=abc":
// unknown unit`.
func (e *FieldError) Error() string { return e.In(e.Field) }

// In is Error with the field called by another name, such as a flag's:
// `--limit "butter=abc": unknown unit`.
func (e *FieldError) In(field string) string {
	if e.Value != "" {
		field = Named(field, e.Value)
	}
	if field == "" {
		return e.Problem
	}
	return field + ": " + e.Problem
}

// Hint says what to give instead: what is accepted, else what the error behind
// this one advises; or it is empty.
func (e *FieldError) Hint() string {
	if e.Accepted != "" {
		return "write " + e.Accepted
	}
	var advising interface{ Hint() string }
	if errors.As(e.Cause, &advising) {
		return advising.Hint()
	}
	return ""
}

// Unwrap is the error behind this one, or nil.
func (e *FieldError) Unwrap() error { return e.Cause }

// Several are the errors that an error joins; nil where it is one. What stands
// behind a [FieldError] is its cause, and never told in its place.
func Several(err error) []error {
	for ; err != nil; err = errors.Unwrap(err) {
		if _, whole := err.(*FieldError); whole {
			return nil
		}
		if several, ok := err.(interface{ Unwrap() []error }); ok {
			return several.Unwrap()
		}
	}
	return nil
}

// mostShown is how much of a value an error repeats.
const mostShown = 60

// Named is a field or a key with its value beside it: `limit "butter=abc"`. A
// long value is cut short.
func Named(name, value string) string {
	if len(value) > mostShown {
		value = strings.ToValidUTF8(value[:mostShown-3], "") + "..."
	}
	return strings.TrimSpace(fmt.Sprintf("%s %q", name, value))
}
