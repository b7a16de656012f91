package saved

import (
	"strconv"
	"strings"
	"trencher/units/pattern"
)

// stepsUnsure tells whether it is a guess where the steps of a text begin and
// end. It is none where all of them are numbered, one after the other, or each
// stands on a line of its own and begins with something to do; and no line among
// or below them is left that may be one too.
func (p *plainReader) stepsUnsure() bool {
	var t stepTally
	for _, l := range p.lines {
		switch {
		case l.role == Heading:
			t.begun, t.notes = false, notesHead.MatchString(heading(l.text))
		case l.role == Step && t.step(l):
			return true
		case t.begun && (l.role == Ingredient || l.role == Note && !l.settled && !t.notes):
			return true // a line among the steps
		}
	}
	return p.bareStep || t.plain > 0 && (t.numbered > 0 || p.bare || p.told)
}

// stepTally counts the steps of a text.
type stepTally struct {
	numbered, plain int
	begun           bool // since the last heading
	notes           bool // that heading stands over notes
}

// step counts a step, and tells one that may begin or end elsewhere.
func (t *stepTally) step(l plainLine) bool {
	t.begun = true
	if l.mark == numberMark {
		t.numbered++
		return !isNumber(l.text, t.numbered)
	}
	t.plain++
	return l.broken || !beginsDoing(l.text) || manySteps.MatchString(l.text)
}

// isNumber tells a step whose number is the one expected, or that has lost it.
func isNumber(text string, want int) bool {
	m := numbers.FindStringSubmatch(text)
	return m == nil || m[1] == strconv.Itoa(want) || m[1] == "1" // a new part counts anew
}

// beginsDoing tells a line that begins with a word that steps begin with.
func beginsDoing(text string) bool {
	return doing[strings.Trim(doingWord(text), "!")]
}

// manySteps is a line that numbers steps inside it.
var manySteps = pattern.New(`(?:^|[.;]\s+)\(?[23][.)]\s+\pL`)
