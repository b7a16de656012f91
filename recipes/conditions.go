package recipes

import (
	_ "embed"
	"slices"
	"strings"

	"trencher/units"
	"trencher/units/sorted"
)

// Conditions are what makes a guest one for whom stricter keeping rules hold. The
// zero value is none.
type Conditions uint8

// The conditions. Vulnerable is one of the four, nobody knows which; a child of
// whom no age is told counts as one under five.
const (
	Pregnant Conditions = 1 << iota
	UnderFive
	OverSixtyFive
	LowImmunity
	Baby
	Vulnerable
	// AgeUntold marks a child that counts as one under five only because nobody
	// told its age: what it might choke on is cut and ground for it, not refused,
	// unless it is left whole or cannot be cut (common practice, no source).
	AgeUntold
)

// Weak tells that stricter keeping rules hold.
func (c Conditions) Weak() bool { return c != 0 }

var conditionNames = []struct {
	condition Conditions
	name      string
}{
	{Pregnant, "pregnant"}, {Baby, "baby"}, {UnderFive, "under 5"}, {OverSixtyFive, "over 65"}, {LowImmunity, "low immunity"}, {Vulnerable, "vulnerable"},
}

// names lists the conditions by their words.
func (c Conditions) names() []string {
	var names []string
	for _, one := range conditionNames {
		if c&one.condition != 0 {
			names = append(names, one.name)
		}
	}
	return names
}

// conditions.csv holds the foods that a guest of a condition does without, and
// what they are given instead. "weak" is all of the conditions; a word of "unless"
// on the same line takes the row away; a row for nobody only uses its words up.
//
// conditions.sorted finds by its wordForms the row of unfitRows that a phrase stands
// in, and the phrase as it stands there.
//
//go:embed conditions.sorted
var unfitPhrases sorted.Table

// Unfit is a food that a guest of some conditions does without.
type Unfit struct {
	Words   string
	Rule    string // the keeping rule it rests on
	Instead string // what they get in its place
	units.Provenance

	unless  []string
	whom    Conditions
	choking bool // it may stick in a small throat as it is
}

// unfitIn lists the rows a text has phrases of.
func unfitIn(text string) []Unfit {
	return foundIn(wordForms(text), func(words []string) (one Unfit, n int) {
		found, n := unfitPhrases.Longest(words)
		if n > 0 {
			at, phrase, _ := strings.Cut(found, "\t")
			one = unfitRows[rowNumber(at)]
			one.Words = phrase
		}
		return one, n
	})
}

// UnfitFor lists what in a dish is not for a guest of these conditions, each rule
// once. A word of a step or the name that an ingredient line has is that line's to
// answer for.
func (d Dish) UnfitFor(c Conditions) []Unfit {
	var found []Unfit
	lines := d.lines()
	for i, text := range slices.Concat(lines, d.Method, d.Remarks, []string{d.Name}) {
		for _, one := range unfitIn(text) {
			itsLine := func(line string) bool { return hasWords(line, one.Words) && !hasWords(text, "whole") }
			if i >= len(lines) && slices.ContainsFunc(lines, itsLine) || !one.isIn(text, c) {
				continue
			}
			if !slices.ContainsFunc(found, func(o Unfit) bool { return o.Words == one.Words }) {
				found = append(found, one)
			}
		}
	}
	if c&(UnderFive|Baby) != 0 && c&AgeUntold == 0 {
		found = append(found, d.hardRaw()...)
	}
	return found
}

// isIn tells that what a text has is not for a guest of these conditions: none of the
// words is there that make it fit. What only chokes is cut for a child of untold age,
// unless it is whole.
func (u Unfit) isIn(text string, c Conditions) bool {
	cut := u.choking && c&AgeUntold != 0 && !hasWords(text, "whole")
	return u.whom&c != 0 && !cut && !slices.ContainsFunc(u.unless, func(word string) bool { return hasWords(text, word) })
}

// hardRaw are the crops of a dish that are hard while raw, on which a small child
// chokes.
func (d Dish) hardRaw() []Unfit {
	var found []Unfit
	for _, c := range d.Crops {
		if c.Cook == "raw" && slices.Contains([]string{"carrot", "apple", "celery", "radish", "kohlrabi", "turnip", "swede"}, c.Crop) {
			found = append(found, Unfit{Words: "raw " + c.Crop, Rule: "vulnerable-who", Instead: c.Crop + " cooked soft",
				Provenance: units.Provenance{Source: units.NoSource, KnownBy: "practice"}})
		}
	}
	return found
}

// texts are all the words of a dish, line by line, an ingredient with its state.
func (d Dish) texts() []string {
	return slices.Concat([]string{d.Name}, d.lines(), d.Method, d.Remarks)
}
