// Package spelled writes values out for tests that compare all of an answer with a
// golden file. It is for tests alone.
package spelled

import (
	"encoding"
	"fmt"
	"math/big"
	"reflect"
	"strconv"
	"strings"
	"time"
)

// Out spells a struct out: a field a line, of a list an element a line, what lies
// deeper within its line. What is zero is left away, as is what is not exported.
// Numbers of physics (float64) have three figures, so that they move a golden only
// where a person would see it. words gives a value its own words, where it has any;
// it may be nil.
func Out(value any, words func(any) (string, bool)) string {
	var text strings.Builder
	v, s := reflect.ValueOf(value), speller{words}
	for i := range v.NumField() {
		field, name := v.Field(i), v.Type().Field(i).Name
		switch {
		case !v.Type().Field(i).IsExported() || isNothing(field):
		case field.Kind() == reflect.Slice:
			for n := range field.Len() {
				fmt.Fprintf(&text, "%s %d: %s\n", name, n+1, s.line(field.Index(n)))
			}
		default:
			fmt.Fprintf(&text, "%s: %s\n", name, s.line(field))
		}
	}
	return text.String()
}

// Line spells any value out within a line.
func Line(value any, words func(any) (string, bool)) string {
	return speller{words}.line(reflect.ValueOf(value))
}

type speller struct {
	words func(any) (string, bool)
}

func (s speller) line(v reflect.Value) string {
	if (v.Kind() == reflect.Pointer || v.Kind() == reflect.Interface) && v.IsNil() {
		return "none"
	}
	if text, ok := s.ofItsOwn(v.Interface()); ok {
		return text
	}
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		return s.line(v.Elem())
	case reflect.Slice, reflect.Array:
		return "[" + strings.Join(s.elements(v), ", ") + "]"
	case reflect.Struct:
		return "{" + strings.Join(s.fields(v), ", ") + "}"
	case reflect.Float64:
		return strconv.FormatFloat(v.Float(), 'g', 3, 64)
	}
	return fmt.Sprint(v.Interface())
}

func (s speller) elements(v reflect.Value) (all []string) {
	for i := range v.Len() {
		all = append(all, s.line(v.Index(i)))
	}
	return all
}

func (s speller) fields(v reflect.Value) (all []string) {
	for i := range v.NumField() {
		if field := v.Type().Field(i); field.IsExported() && !isNothing(v.Field(i)) {
			all = append(all, field.Name+" "+s.line(v.Field(i)))
		}
	}
	return all
}

// ofItsOwn are a value's own words.
func (s speller) ofItsOwn(value any) (string, bool) {
	if s.words != nil {
		if text, ok := s.words(value); ok {
			return text, true
		}
	}
	return usual(value)
}

// isNothing tells a value that is zero, however it holds that.
func isNothing(v reflect.Value) bool {
	if v.IsZero() {
		return true
	}
	zero, ok := v.Interface().(interface{ IsZero() bool })
	return ok && zero.IsZero()
}

// usual are the values that everybody writes alike.
func usual(value any) (string, bool) {
	switch value := value.(type) {
	case time.Time:
		return value.Format("2006-01-02 15:04:05"), true
	case *big.Rat:
		return value.RatString(), true
	case fmt.Stringer:
		return value.String(), true
	case encoding.TextMarshaler:
		text, err := value.MarshalText()
		return string(text), err == nil
	}
	return "", false
}
