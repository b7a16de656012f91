package keeping

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"

	"trencher/units"
)

// ruleRow is a rule as its file has it.
type ruleRow struct {
	ID           string           `yaml:"id"`
	Topic        string           `yaml:"topic"`
	State        string           `yaml:"state"`
	Jurisdiction []string         `yaml:"jurisdiction"`
	Audience     string           `yaml:"audience"`
	Force        string           `yaml:"force"`
	Values       map[string]Value `yaml:"values"`
	Says         string           `yaml:"says"`
	Note         string           `yaml:"note"`
	Use          string           `yaml:"use"`
	Source       publication      `yaml:"source"`
	KnownBy      string           `yaml:"known_by"`
}

// rule is the row with its publication on one line.
func (row ruleRow) rule() Rule {
	r := Rule{ID: row.ID, Topic: row.Topic, State: row.State, Jurisdiction: row.Jurisdiction, Audience: row.Audience, Force: row.Force,
		Says: row.Says, Note: row.Note, Use: row.Use,
		Provenance: units.Provenance{Source: row.Source.String(), Record: row.Source.Section, KnownBy: row.KnownBy}}
	for _, name := range slices.Sorted(maps.Keys(row.Values)) {
		r.Figures = append(r.Figures, Figure{name, row.Values[name]})
	}
	return r
}

// publication says where a rule was published.
type publication struct {
	Publisher string `yaml:"publisher"`
	Title     string `yaml:"title"`
	Year      int    `yaml:"year"` // 0 when the publication bears none
	Section   string `yaml:"section"`
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

// duration is the value as a span of time; ok is false when its unit is none.
func (v Value) duration() (d time.Duration, ok bool) {
	units := map[string]time.Duration{"s": time.Second, "min": time.Minute, "h": time.Hour, "d": 24 * time.Hour}
	unit, ok := units[v.Unit]
	return time.Duration(v.High * float64(unit)), ok && v.number
}
