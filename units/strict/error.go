package strict

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Error is one mistake in what a person wrote into a file, with its place.
// What is wrong with a value given otherwise is a [units.FieldError].
type Error struct {
	File         string // empty where no file is at fault
	Line, Column int    // from 1; 0 where the whole file is meant
	Problem      string
	Accepted     string // what to write instead, to follow the word "write"
	cause        error
}

// Error is the place and the problem: `plantings.yaml:14:9: seed "3 stones":
// unknown unit`.
func (e *Error) Error() string {
	switch {
	case e.File == "":
		return e.Problem
	case e.Line == 0:
		return e.File + ": " + e.Problem
	}
	return fmt.Sprintf("%s:%d:%d: %s", e.File, e.Line, e.Column, e.Problem)
}

// Hint says what to write instead, or is empty.
func (e *Error) Hint() string {
	if e.Accepted == "" {
		return ""
	}
	return "write " + e.Accepted
}

// Unwrap is the error behind this one, such as a *units.ParseError, or nil.
func (e *Error) Unwrap() error { return e.cause }

// Errors is every mistake found, by file and place.
type Errors []*Error

// Error lists the mistakes, one on a line.
func (e Errors) Error() string {
	lines := make([]string, len(e))
	for i, one := range e {
		lines[i] = one.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap is the list, for errors.Is and errors.As.
func (e Errors) Unwrap() []error {
	list := make([]error, len(e))
	for i, one := range e {
		list[i] = one
	}
	return list
}

// Join gathers the mistakes of several files into one sorted list, nil if
// there are none. An error that is not of this package stands for its text.
func Join(errs ...error) error {
	var all Errors
	for _, err := range errs {
		switch e := err.(type) {
		case nil:
		case Errors:
			all = append(all, e...)
		case *Error:
			all = append(all, e)
		default:
			all = append(all, &Error{Problem: err.Error(), cause: err})
		}
	}
	if len(all) == 0 {
		return nil
	}
	all.sort()
	return all
}

func (e Errors) sort() {
	slices.SortStableFunc(e, func(a, b *Error) int {
		return cmp.Or(strings.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
}
