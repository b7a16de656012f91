package keeping

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"trencher/units"
)

// Rule is one published rule, fact or habit. See the package comment for what
// its parts mean.
type Rule struct {
	ID           string           `yaml:"id" json:",omitempty"`
	Topic        string           `yaml:"topic" json:",omitempty"`
	State        string           `yaml:"state" json:",omitempty"`
	Jurisdiction []string         `yaml:"jurisdiction" json:",omitempty"`
	Audience     string           `yaml:"audience" json:",omitempty"`
	Force        string           `yaml:"force" json:",omitempty"`
	Values       map[string]Value `yaml:"values" json:",omitempty"`
	Says         string           `yaml:"says" json:",omitempty"`
	Note         string           `yaml:"note" json:",omitempty"`
	Use          string           `yaml:"use" json:",omitempty"`

	// Provenance names the publication (publisher, title, year), or
	// [units.NoSource] for a habit of the trade or the kitchen; its record is
	// the section.
	units.Provenance `yaml:"-" json:"-"`
}

// ruleRow is a rule as its file has it.
type ruleRow struct {
	Rule    `yaml:",inline"`
	Source  publication `yaml:"source" json:",omitempty"`
	KnownBy string      `yaml:"known_by" json:",omitempty"`
}

// rule is the row with its publication on one line.
func (row ruleRow) rule() Rule {
	r := row.Rule
	r.Provenance = units.Provenance{Source: row.Source.String(), Record: row.Source.Section, KnownBy: row.KnownBy}
	return r
}

// publication says where a rule was published.
type publication struct {
	Publisher string `yaml:"publisher" json:",omitempty"`
	Title     string `yaml:"title" json:",omitempty"`
	Year      int    `yaml:"year" json:",omitempty"` // 0 when the publication bears none
	Section   string `yaml:"section" json:",omitempty"`
}

// String writes a publication on one line: publisher, title, year.
func (p publication) String() string {
	text := p.Publisher
	if p.Title != "" {
		text += ": " + p.Title
	}
	if p.Year != 0 {
		text += fmt.Sprintf(" (%d)", p.Year)
	}
	return text
}

// Value is a figure of a rule: a number or a range with its UCUM unit, or
// words (then Unit is empty and Low and High are 0). The zero Value is no
// figure.
type Value struct {
	Low, High float64 // the same for a single number
	Unit      string  // UCUM code; empty for a bare number or words
	Text      string  // as written
	number    bool
}

// MarshalText gives the value as written.
func (v Value) MarshalText() ([]byte, error) { return []byte(v.Text), nil }

// UnmarshalText reads "2 h", "0..3 Cel", "1" or words.
func (v *Value) UnmarshalText(text []byte) error {
	written := string(text)
	*v = Value{Text: written}
	figure, unit, _ := strings.Cut(written, " ")
	low, high, isRange := strings.Cut(figure, "..")
	if !isRange {
		high = low
	}
	if !isFigure(low) || !isFigure(high) || strings.ContainsAny(unit, " \t\n") || strings.HasSuffix(written, " ") {
		return nil
	}
	var wrong [2]error
	v.Low, wrong[0] = strconv.ParseFloat(low, 64)
	v.High, wrong[1] = strconv.ParseFloat(high, 64)
	v.Unit, v.number = unit, true
	return errors.Join(wrong[:]...)
}

// isFigure tells digits, with a sign before and a point among them or not.
func isFigure(text string) bool {
	whole, part, pointed := strings.Cut(strings.TrimPrefix(text, "-"), ".")
	return isDigits(whole) && (!pointed || isDigits(part))
}

func isDigits(text string) bool {
	return text != "" && strings.Trim(text, "0123456789") == ""
}

// String gives the value as written.
func (v Value) String() string { return v.Text }

// duration is the value as a span of time; ok is false when its unit is none.
func (v Value) duration() (d time.Duration, ok bool) {
	units := map[string]time.Duration{"s": time.Second, "min": time.Minute, "h": time.Hour, "d": 24 * time.Hour}
	unit, ok := units[v.Unit]
	return time.Duration(v.High * float64(unit)), ok && v.number
}

// Rules gives every rule, sorted by file and place. The caller may keep it.
func Rules() []Rule { return slices.Clone(library().rules) }

// LookupRule finds a rule by its id.
func LookupRule(id string) (Rule, bool) {
	b := library()
	i, ok := b.byID[id]
	if !ok {
		return Rule{}, false
	}
	return b.rules[i], true
}
