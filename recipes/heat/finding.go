package heat

import (
	"strings"

	"trencher/units"
)

// Finding is what a knife said of a piece that was to be so tender.
type Finding uint8

// JustRight is the zero value: as tender as asked for. NotYet and Over only bound
// the time that it takes.
const (
	JustRight Finding = iota
	NotYet
	Over
)

var findingWords = [...]string{"just-right", "not-yet", "over"}

// String is the word in a journal entry.
func (f Finding) String() string { return findingWords[f] }

// FindingNames lists what a knife may say.
func FindingNames() []string { return append([]string(nil), findingWords[:]...) }

// ParseFinding reads just-right, not-yet or over; "" is just right.
func ParseFinding(text string) (Finding, error) {
	word := strings.ReplaceAll(strings.ToLower(strings.TrimSpace(text)), " ", "-")
	for f, known := range findingWords {
		if known == word {
			return Finding(f), nil
		}
	}
	if word == "" {
		return JustRight, nil
	}
	return 0, units.WrongField("finding", text, "not known", strings.Join(FindingNames(), ", "))
}
