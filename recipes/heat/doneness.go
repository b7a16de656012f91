package heat

import (
	"strings"
	"trencher/units"
)

// Doneness is how tender a piece is to be.
type Doneness uint8

// JustTender gives to the knife and holds its shape in a salad; Tender is for
// the plate; Soft crushes and mashes. The zero value counts as JustTender.
const (
	JustTender Doneness = iota + 1
	Tender
	Soft
)

var donenessWords = [...]string{"just-tender", "just-tender", "tender", "soft"}

// String is the word in a dish file.
func (d Doneness) String() string { return donenessWords[d] }

// ParseDoneness reads just-tender, tender or soft.
func ParseDoneness(text string) (Doneness, error) {
	word := strings.ReplaceAll(strings.ToLower(strings.TrimSpace(text)), " ", "-")
	for d := JustTender; d <= Soft; d++ {
		if donenessWords[d] == word {
			return d, nil
		}
	}
	return 0, &units.FieldError{Field: "until", Value: text, Problem: "not known",
		Accepted: "just-tender, tender or soft"}
}
