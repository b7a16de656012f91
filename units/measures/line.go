package measures

import (
	"strings"

	"trencher/units"
	"trencher/units/pattern"
)

// Line is one line of a recipe's ingredients as far as it could be read.
type Line struct {
	Text string // as it stands, without its bullet
	Kind LineKind

	Amount  units.Quantity   // packs multiplied out, sums added up; to taste; no amount where none could be read
	Also    []units.Quantity // the same amount said otherwise: "(about 600 g)", "/7 fl oz"
	Packs   units.Quantity   // so many packs or pieces of a stated size: 2 tin; no amount otherwise
	Item    string           // the ingredient in the line's own words, without what is done to it: "waxy potatoes"
	State   string           // what is done to it, parted by ", ": "peeled, finely chopped"
	Note    string           // what else was said: "plus extra for dusting", "from the garden"
	Food    NameMatch        // what the table of names knows the item as; the zero value where it does not
	Known   bool             // the table of names knows the item
	Instead []Line           // what may be taken instead: after "or"

	Optional bool

	notes   []string
	each    bool // it says an amount of each: "2 courgettes (about 200 g each)"
	taken   bool // a weight in a bracket was taken for that of each
	purpose bool // it says what it is for: "to serve"

	// Doubts say what was not understood, or not for certain; Field is amount,
	// item or line. A line without any was read for sure.
	Doubts []*units.FieldError
}

// LineKind is what a line of a recipe is.
type LineKind uint8

// The kinds of line.
const (
	Ingredient LineKind = iota
	Heading             // "For the dressing:"
	Blank
)

// Sure tells a line that was understood whole.
func (l Line) Sure() bool { return len(l.Doubts) == 0 }

// Why is what was not understood, in words; "" where all was.
func (l Line) Why() string {
	var list []string
	for _, doubt := range l.Doubts {
		list = append(list, doubt.Problem)
	}
	return strings.Join(list, "; ")
}

// doubt keeps something that was not understood.
func (l *Line) doubt(field, value, problem, accepted string, cause error) {
	l.Doubts = append(l.Doubts, &units.FieldError{Field: field, Value: value, Problem: problem, Accepted: accepted, Cause: cause})
}

func (l *Line) note(text string) {
	l.Note, l.notes = joinWords(l.Note, text, "; "), append(l.notes, text)
}

func (l *Line) state(text string) {
	l.State = joinWords(l.State, strings.ToLower(text), ", ")
}

// joinWords adds words to those there are.
func joinWords(have, more, by string) string {
	more = strings.Trim(more, " ,;")
	if have == "" || more == "" {
		return have + more
	}
	return have + by + more
}

// ReadLine reads one line of ingredients: an amount as [units.Parse] reads it,
// then what it is of, then what is done to it. It never guesses: what it does not
// understand is a doubt, and the words stay in Text. Regional measures are those
// of s.
func ReadLine(text string, s units.System) Line {
	l := Line{Text: strings.TrimSpace(bullets.ReplaceAllString(plainSpaces(text), ""))}
	switch {
	case l.Text == "":
		l.Kind = Blank
		return l
	case len(l.Text) > maxLine:
		l.doubt("line", "", "too long for an ingredient", "one ingredient", nil)
		return l
	case isHeading(l.Text):
		l.Kind = Heading
		return l
	}
	l.readIngredient(inSmallLetters(l.Text), s)
	return l
}

// inSmallLetters brings a line in capitals to small letters, so that its C is a cup.
// One in which a T may be a spoon stays.
func inSmallLetters(text string) string {
	if text != strings.ToUpper(text) || loneT.MatchString(text) {
		return cupsInC.ReplaceAllString(text, "$1 c $2")
	}
	return strings.ToLower(text)
}

// cupsInC are cups by a capital letter: "1 C. sugar", and no temperature of it.
var cupsInC = pattern.New(`^([` + numberSigns + `][` + numberSigns + ` ./–-]*) ?C\.? (\pL)`)

var loneT = pattern.New(`(?:^|[^\pL])T(?:[^\pL]|$)`)

// maxLine bounds the length of a line, and so the work.
const maxLine = 400

// readIngredient reads the amount, then the rest.
func (l *Line) readIngredient(text string, s units.System) {
	text = l.asides(l.toTheFront(text, s), s)
	text = l.purposes(text)
	rest := l.amount(text, s)
	l.item(rest, s)
	l.settle(s)
}
