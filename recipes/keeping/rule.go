package keeping

import (
	"slices"

	"trencher/units"
)

// Rule is one published rule, fact or habit. See the package comment for what
// its parts mean.
type Rule struct {
	ID           string
	Topic        string
	State        string
	Jurisdiction []string
	Audience     string
	Force        string
	Figures      []Figure // by their names, in order
	Says         string
	Note         string
	Use          string

	// Provenance names the publication (publisher, title, year), or
	// [units.NoSource] for a habit of the trade or the kitchen; its record is
	// the section.
	units.Provenance
}

// Figure is one figure of a rule with its name: "at-most".
type Figure struct {
	Name string
	Value
}

// Value is a figure of a rule: a number or a range with its UCUM unit, or
// words (then Unit is empty and Low and High are 0). The zero Value is no
// figure.
type Value struct {
	Low, High float64 // the same for a single number
	Unit      string  // UCUM code; empty for a bare number or words
	Text      string  // as written
	number    bool    // not words
}

// Rules gives every rule, sorted by file and place. The caller may keep it.
func Rules() []Rule { return slices.Clone(library.rules) }

// LookupRule finds a rule by its id.
func LookupRule(id string) (Rule, bool) {
	i, ok := at(library.byID, id)
	if !ok {
		return Rule{}, false
	}
	return library.rules[i], true
}
