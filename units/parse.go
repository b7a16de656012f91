package units

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// maxText bounds the length of an amount: longer is no amount, and bounding
// it bounds the work. It has room for the longest that String writes of what
// Parse reads: a range of two mixed numbers of maxDigits.
const maxText = 4000

// Parse reads an amount as people write it: "1½ pt UK", "1 1/2 UK pint",
// "0.75 kg", "0,75 kg", "2 lb 4 oz", "1-2 tbsp", "2 to 3 tsp", "3" (pieces),
// "half a pint US", "a pinch", "gas mark 6", "-5 C", "to taste". A regional
// word takes its system from a word beside it, else from s; with neither it
// is an *AmbiguousError. Any other text is a *ParseError. Only temperatures
// may be below zero.
func Parse(text string, s System) (Quantity, error) {
	if len(text) > maxText {
		return Quantity{}, &ParseError{Input: text, Reason: "too long for an amount", Accepted: "a number and a unit"}
	}
	r := reader{text: tidy(text), system: s}
	q, err := r.quantity()
	if err != nil {
		return Quantity{}, withInput(err, text)
	}
	q.text = text
	return q, nil
}

// MustParse is Parse under metric measures, for tests and tables; it panics
// on an error.
func MustParse(text string) Quantity {
	q, err := Parse(text, Metric)
	if err != nil {
		panic(err)
	}
	return q
}

// reader walks an amount's text from left to right.
type reader struct {
	text   string
	at     int
	system System
}

func refuse(reason, accepted string) error {
	return &ParseError{Reason: reason, Accepted: accepted}
}

func (r *reader) quantity() (Quantity, error) {
	r.space()
	if r.done() {
		return Quantity{}, refuse("no amount", `a number and a unit, such as 250 g, or "to taste"`)
	}
	if strings.EqualFold(strings.TrimSpace(r.text), "to taste") {
		return ToTaste(), nil
	}
	if r.dial() {
		return r.gasMark()
	}
	q, err := r.ends()
	if err != nil || r.done() {
		return q, err
	}
	return r.twice(q)
}

// ends reads an amount or a range of two.
func (r *reader) ends() (Quantity, error) {
	low, err := r.side()
	if err != nil {
		return Quantity{}, err
	}
	if !r.rangeMark() {
		return r.finish(low, low)
	}
	high, err := r.side()
	if err != nil {
		return Quantity{}, err
	}
	return r.finish(low, high)
}

// side is one end of an amount: its number in its unit, or no unit yet.
type side struct {
	amount number
	unit   *entry
	each   number // what one pack holds, of a number of packs; else nought
}

// side reads a number with its unit, and what is added to it: 2 lb 4 oz.
func (r *reader) side() (side, error) {
	first, err := r.term()
	if err != nil || first.unit == nil {
		return first, err
	}
	last := first
	for {
		joined, more := r.and()
		if !more {
			return first, nil
		}
		next, err := r.term()
		if err != nil {
			return first, err
		}
		if err := fits(last, next, joined); err != nil {
			return first, err
		}
		first.amount = first.amount.add(next.amount.mul(next.unit.factor.quo(first.unit.factor)))
		last = next
	}
}

// fits holds the parts of a compound amount to one dimension, falling size,
// and, unless they are joined by a word or a sign, a fraction in the last part
// alone: ½ cup + 2 tbsp, but not ½ lb 2 oz.
func fits(last, next side, joined bool) error {
	const how = "one dimension from large to small, such as 2 lb 4 oz"
	switch {
	case next.unit == nil:
		return refuse("the last number has no unit", how)
	case !(Unit{last.unit}).like(Unit{next.unit}):
		return refuse(last.unit.name+" and "+next.unit.name+" do not add up", how)
	case last.unit.dimension == Temperature:
		return refuse("temperatures do not add up", "one temperature")
	case last.unit.factor.cmp(next.unit.factor) <= 0:
		return refuse(next.unit.name+" is not smaller than "+last.unit.name, how)
	case !last.amount.isWhole() && !joined:
		return refuse("only the last part may have a fraction", how)
	}
	return nil
}

// term is one number and one unit.
func (r *reader) term() (side, error) {
	r.space()
	n, err := r.number()
	if err != nil {
		return side{}, err
	}
	if packs, read, err := r.packs(n); read || err != nil {
		return packs, err
	}
	phrase := r.phrase()
	if phrase == "" {
		return side{amount: n}, nil
	}
	unit, err := resolve(phrase, r.system)
	if err != nil {
		return side{}, err
	}
	if n.sign() < 0 && unit.dimension != Temperature {
		return side{}, refuse("below zero", "an amount above zero")
	}
	return side{amount: n, unit: unit}, nil
}

// finish joins the two ends: a unit written once stands for both.
func (r *reader) finish(low, high side) (Quantity, error) {
	if !r.done() && strings.IndexByte("/()", r.text[r.at]) < 0 {
		return Quantity{}, refusePart("cannot be read", "cannot read", r.text[r.at:], "one amount, such as 250 g, 1-2 tbsp or 2 lb 4 oz")
	}
	if high.unit == nil {
		high.unit = Piece.entry
	}
	if low.unit == nil {
		low.unit = high.unit
		if high.each.sign() > 0 { // 2-3 x 400 g
			low.amount = low.amount.mul(high.each)
		}
	}
	from, to := Unit{low.unit}, Unit{high.unit}
	if !from.like(to) {
		return Quantity{}, refuse("a range from "+from.Name()+" to "+to.Name(), "both ends in units of one dimension")
	}
	top, err := through(high.amount, to, from)
	if err != nil {
		return Quantity{}, err
	}
	switch {
	case !low.amount.writable() || !top.writable():
		return Quantity{}, refuse(tooManyDigits, "a kitchen's number")
	case low.amount.cmp(top) > 0:
		return Quantity{}, refuse("the range runs backwards", "the smaller end first; one and a half is 1½ or 1 1/2")
	case low.amount.sign() < 0 && from.Dimension() != Temperature:
		return Quantity{}, refuse("below zero", "an amount above zero")
	case from.Dimension() == Temperature && tooCold(low.amount, from):
		return Quantity{}, refuse("colder than anything can be", "a temperature above -273.15 C")
	}
	return between(low.amount, top, from), nil
}

// tooCold tells a temperature below the absolute zero.
func tooCold(n number, u Unit) bool {
	kelvin, err := through(n, u, Kelvin)
	return err == nil && kelvin.sign() < 0
}

// dial tells whether the text is of a gas oven's dial: "gas mark 6", "gas 6".
func (r *reader) dial() bool {
	mark := r.at
	for _, word := range [...]string{"gas", "gm", "regulo"} {
		if !r.word(word) {
			continue
		}
		r.word("mark")
		if r.space(); r.startsNumber() {
			return true
		}
		r.at = mark
	}
	return false
}

func (r *reader) gasMark() (Quantity, error) {
	n, err := r.number()
	low, high := side{amount: n, unit: GasMark.entry}, side{amount: n, unit: GasMark.entry}
	if err == nil && r.rangeMark() {
		r.space()
		high.amount, err = r.number()
	}
	if err != nil {
		return Quantity{}, err
	}
	for _, end := range [...]side{low, high} {
		if _, err := celsiusOfMark(end.amount); err != nil {
			return Quantity{}, err
		}
	}
	return r.finish(low, high)
}

// phrase reads the words of a unit up to the next number, joining word, range
// mark or end. UCUM codes stand in brackets.
func (r *reader) phrase() string {
	r.space()
	start := r.at
	end := start
	open := 0
	for !r.done() && !r.endsPhrase(start) {
		switch c := r.text[r.at]; c {
		case '[', '{':
			r.bracket(c)
		case '/', '(':
			if r.otherAmount() {
				return r.text[start:end]
			}
			open++
			r.at++
		case ')':
			if open == 0 {
				return r.text[start:end]
			}
			open--
			r.at++
		case ' ':
			r.at++
			continue
		default:
			_, size := utf8.DecodeRuneInString(r.text[r.at:])
			r.at += size
		}
		end = r.at
	}
	return r.text[start:end]
}

// endsPhrase tells whether the words of a unit that began at start end here.
func (r *reader) endsPhrase(start int) bool {
	if r.text[r.at] == '-' && !r.hyphen() || r.startsNumber() && !r.power(start) {
		return true
	}
	if r.at > start && r.text[r.at-1] != ' ' {
		return false // inside a word
	}
	here := r.at
	defer func() { r.at = here }()
	return r.word("and") || r.word("plus") || r.word("to") || r.mark('&') || r.mark('+')
}

// bracket passes over a code in brackets.
func (r *reader) bracket(open byte) {
	shut := byte(']')
	if open == '{' {
		shut = '}'
	}
	if i := strings.IndexByte(r.text[r.at:], shut); i >= 0 {
		r.at += i + 1
		return
	}
	r.at++
}

// power tells the 2 of m2 and the 3 of cm3 from a new number.
func (r *reader) power(start int) bool {
	c := r.text[r.at]
	if r.at == start || (c != '2' && c != '3') || r.text[r.at-1] == ' ' {
		return false
	}
	if r.at+1 < len(r.text) && isWordByte(r.text[r.at+1]) {
		return false
	}
	return wordOf(r.text[start:r.at+1]) != nil || wordOf(fold(r.text[start:r.at+1])) != nil
}

// hyphen tells the dash of "half-pint" from that of "1-2".
func (r *reader) hyphen() bool {
	return r.at > 0 && r.at+1 < len(r.text) && isLetter(r.text[r.at-1]) && isLetter(r.text[r.at+1])
}

// and tells whether a next part follows, and passes the word or sign that may
// join it.
func (r *reader) and() (joined, more bool) {
	r.space()
	if r.word("and") || r.word("plus") || r.mark('&') || r.mark('+') {
		return true, true
	}
	return false, r.startsNumber() && r.text[r.at] != '-'
}

// rangeMark passes the mark between the ends of a range.
func (r *reader) rangeMark() bool {
	r.space()
	return r.mark('-') || r.word("to")
}

// mark passes one character.
func (r *reader) mark(c byte) bool {
	if r.at < len(r.text) && r.text[r.at] == c {
		r.at++
		return true
	}
	return false
}

// word passes a whole word, in any case.
func (r *reader) word(w string) bool {
	end := r.at + len(w)
	if end > len(r.text) || !strings.EqualFold(r.text[r.at:end], w) {
		return false
	}
	if end < len(r.text) && isLetter(r.text[end]) {
		return false
	}
	r.at = end
	r.space()
	return true
}

func (r *reader) space() {
	for r.at < len(r.text) && r.text[r.at] == ' ' {
		r.at++
	}
}

func (r *reader) done() bool { return r.at >= len(r.text) }

func isLetter(c byte) bool   { return c|0x20 >= 'a' && c|0x20 <= 'z' }
func isDigit(c byte) bool    { return c >= '0' && c <= '9' }
func isWordByte(c byte) bool { return isLetter(c) || isDigit(c) }

// tidy gives every kind of space, dash and slash one form. Texts of plain
// ASCII, nearly all of them, come back as they are.
func tidy(text string) string {
	plain := true
	for i := 0; i < len(text); i++ {
		if text[i] >= utf8.RuneSelf || text[i] < ' ' {
			plain = false
			break
		}
	}
	if plain {
		return text
	}
	return strings.Map(func(c rune) rune {
		switch c {
		case '–', '—', '−', '‐', '‑', '‒':
			return '-'
		case '⁄', '∕':
			return '/'
		case 'º', '˚':
			return '°'
		case '×', '✕':
			return 'x'
		case '’', 'ʹ':
			return '\''
		case '“', '”':
			return '"'
		}
		if unicode.IsSpace(c) || c == '\u2009' || c == '\u200b' {
			return ' '
		}
		return c
	}, text)
}
