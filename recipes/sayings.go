package recipes

import (
	_ "embed"
	"trencher/units/sorted"
)

// sayings.csv holds what guests say of what they eat: what is ruled out by it,
// foods and families of foods that no allergen covers, whether they are among
// those with the stricter keeping rules, and whether a plan is made (accept), is
// made with a question asked back (ask), or is not made at all, because it would
// take a guess (decline, with the reason).
//
// sayings.sorted finds the row of sayingRows that a guest's words are.
//
//go:embed sayings.sorted
var sayingPhrases sorted.Table

// saying is a row of it.
type saying struct {
	phrase    string
	out       marks
	foods     []string
	condition Conditions
	severe    bool // it says how bad an allergy is, and not to what
	decline   bool
	ask       string // what to ask back, or why it is declined
}

// sayingAt is the longest saying that some words begin with, and how many of them it
// takes; 0 where they begin with none.
func sayingAt(words []string) (s saying, n int) {
	found, n := sayingPhrases.Longest(words)
	if n > 0 {
		s = sayingRows[rowNumber(found)]
	}
	return s, n
}
