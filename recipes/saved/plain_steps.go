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
	numbered, plain, begun := 0, 0, false
	under := Note // the part that a heading begins
	for _, l := range p.lines {
		text := heading(l.text)
		switch {
		case l.role == Heading && notesHead.MatchString(text):
			under, begun = Note, false
		case l.role == Heading:
			under = Heading
		case l.role == Ingredient && begun && under == Step:
			return true // among the steps
		case l.role == Note && begun && !l.settled && under != Note:
			return true
		case l.role != Step:
		case l.mark == numberMark:
			begun, under = true, Step
			if numbered++; !isNumber(l.text, numbered) {
				return true
			}
		default:
			begun, under = true, Step
			if plain++; l.broken || !beginsDoing(l.text) || manySteps.MatchString(l.text) {
				return true
			}
		}
	}
	return plain > 0 && (numbered > 0 || p.bare)
}

// isNumber tells a step whose number is the one expected, or that has lost it.
func isNumber(text string, want int) bool {
	m := numbers.FindStringSubmatch(text)
	return m == nil || m[1] == strconv.Itoa(want) || m[1] == "1" // a new part counts anew
}

// beginsDoing tells a line that begins with a word that steps begin with.
func beginsDoing(text string) bool {
	return doing[strings.ToLower(strings.Trim(firstWord(text), ",.:;!"))]
}

// manySteps is a line that numbers steps inside it.
var manySteps = pattern.New(`(?:^|[.;]\s+)\(?[23][.)]\s+\pL`)
