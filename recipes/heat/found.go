package heat

import (
	"strings"

	"trencher/units"
	"trencher/units/strict"
)

const foundForms = `the minutes and what the knife said: "9 min just-tender", tender or soft; "9 min not-yet tender", "9 min over tender"`

// Found is what a knife test found: after so many minutes of steam at full flow a
// piece was as tender as Until, not yet so, or over it.
type Found struct {
	Minutes float64
	Until   Doneness
	Said    Finding
}

// ParseFound reads what a knife test found: "9 min just-tender", "9 min not-yet
// tender", "9 min over tender". Its error is of the field found.
func ParseFound(found string) (f Found, err error) {
	text := strings.TrimSpace(found)
	rest, ok := f.readUntil(text)
	if !ok {
		problem := "not a doneness the knife can tell"
		if !strings.ContainsRune(text, ' ') {
			problem = "not a time and a doneness"
		}
		return Found{}, units.WrongField("found", found, problem, foundForms)
	}
	rest = f.readSaid(rest)
	if f.Minutes, err = strict.FigureField("found", rest, units.Metric, units.Minute); err != nil {
		return Found{}, err
	}
	if !(f.Minutes >= 0.5 && f.Minutes <= 180) {
		return Found{}, units.WrongField("found", found, "not a steaming time", "minutes from steam at full flow, 0.5 to 180")
	}
	return f, nil
}

// readUntil takes the doneness off the end of a text: the longest word of one, so
// that "just tender" is not tender.
func (f *Found) readUntil(text string) (rest string, ok bool) {
	for until := JustTender; until <= Soft; until++ {
		if rest, ok = cutWords(text, until.String()); ok {
			f.Until = until
			return rest, true
		}
	}
	return text, false
}

// readSaid takes off the end what the knife said, where it says so.
func (f *Found) readSaid(text string) (rest string) {
	for said := range findingWords {
		if rest, ok := cutWords(text, findingWords[said]); ok {
			f.Said = Finding(said)
			return rest
		}
	}
	return text
}

// cutWords takes words, joined by a hyphen or apart, off the end of a text, and the
// space before them.
func cutWords(text, words string) (rest string, ok bool) {
	lower := strings.ReplaceAll(strings.ToLower(text), "-", " ")
	if len(lower) != len(text) || !strings.HasSuffix(lower, " "+strings.ReplaceAll(words, "-", " ")) {
		return text, false
	}
	return strings.TrimSpace(text[:len(text)-len(words)]), true
}
