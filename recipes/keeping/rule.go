package keeping

import (
	"fmt"
	"slices"
	"strconv"
	"time"

	"gopkg.in/yaml.v3"

	"trencher/units"
	"trencher/units/pattern"
)

// Rule is one published rule, fact or habit. See the package comment for what
// its parts mean.
type Rule struct {
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

	// Provenance names the publication (publisher, title, year), or
	// [units.NoSource] for a habit of the trade or the kitchen; its record is
	// the section.
	units.Provenance `yaml:"-"`
}

// ruleRow is a rule as its file has it.
type ruleRow struct {
	Rule    `yaml:",inline"`
	Source  publication `yaml:"source"`
	KnownBy string      `yaml:"known_by"`
}

// rule is the row with its publication on one line.
func (row ruleRow) rule() Rule {
	r := row.Rule
	r.Provenance = units.Provenance{Source: row.Source.String(), Record: row.Source.Section, KnownBy: row.KnownBy}
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

// Value is a figure of a rule: a number or a range with its UCUM unit, or
// words (then Unit is empty and Low and High are 0). The zero Value is no
// figure.
type Value struct {
	Low, High float64 // the same for a single number
	Unit      string  // UCUM code; empty for a bare number or words
	Text      string  // as written
	number    bool
}

var figure = pattern.New(`^(-?\d+(?:\.\d+)?)(?:\.\.(-?\d+(?:\.\d+)?))?(?: (\S+))?$`)

// UnmarshalYAML reads "2 h", "0..3 Cel", "1" or words.
func (v *Value) UnmarshalYAML(node *yaml.Node) error {
	*v = Value{Text: node.Value}
	parts := figure.FindStringSubmatch(node.Value)
	if parts == nil {
		return nil
	}
	low, err := strconv.ParseFloat(parts[1], 64)
	if err != nil {
		return fmt.Errorf("line %d: %w", node.Line, err)
	}
	v.Low, v.High, v.Unit, v.number = low, low, parts[3], true
	if parts[2] != "" {
		v.High, err = strconv.ParseFloat(parts[2], 64)
	}
	return err
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
