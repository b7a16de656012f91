package units

import "strings"

// howPacks is how packs of a stated size are written.
const howPacks = "one number, thousands without a gap; or packs of one size: 2 x 400 g"

// packs reads what follows a number of packs: "2 x 400 g tins", "1 (14 oz)
// can", "2 400 g tins". The amount is that of all of them together.
func (r *reader) packs(n number) (all side, read bool, err error) {
	start := r.at
	r.space()
	switch {
	case r.times():
		switch {
		case r.done():
			return side{}, false, refuse("packs of what size?", howPacks)
		case !r.startsNumber():
			return side{}, false, nil // "2 x large"
		}
		each, err := r.term()
		return each.times(n), true, r.holds(each, err)
	case r.mark('('):
		r.word("about")
		each, err := r.term()
		if err != nil || each.unit == nil || !r.mark(')') || !isPack(r.phrase()) {
			r.at = start
			return side{}, false, nil
		}
		return each.times(n), true, r.holds(each, nil)
	case r.at < len(r.text) && isDigit(r.text[r.at]):
		each, err := r.term()
		if err != nil || each.unit == nil || each.unit.dimension == Count || !isPack(lastOf(r.text[start:r.at])) {
			return side{}, false, refuse("two numbers side by side", howPacks)
		}
		return each.times(n), true, r.holds(each, nil)
	case r.at+1 < len(r.text) && r.text[r.at] == '-' && isLetter(r.text[r.at+1]): // 14-oz
		r.at++
		return side{}, false, nil
	}
	r.at = start
	return side{}, false, nil
}

// times passes the sign of multiplication.
func (r *reader) times() bool {
	start := r.at
	if !r.mark('x') && !r.mark('X') && !r.mark('*') {
		return false
	}
	if r.at < len(r.text) && isLetter(r.text[r.at]) {
		r.at = start
		return false
	}
	r.space()
	return true
}

// times is so many packs of one size.
func (s side) times(n number) side {
	s.each, s.amount = s.amount, s.amount.mul(n)
	return s
}

// holds tells that a pack holds a weight, a volume, a length or a number of
// things.
func (r *reader) holds(each side, err error) error {
	switch {
	case err != nil:
		return err
	case each.unit == nil:
		return refuse("packs of what size?", howPacks)
	case !crosses(each.unit.dimension) && each.unit.dimension != Length:
		return refuse("a pack holds no "+each.unit.dimension.String(), howPacks)
	}
	return nil
}

// otherAmount tells whether the same amount in another unit begins here: the
// bracket or stroke of "200 ml/7 fl oz", "1 cup (240 ml)".
func (r *reader) otherAmount() bool {
	here := r.at
	defer func() { r.at = here }()
	r.at++
	r.space()
	for r.word("about") || r.word("approx") || r.word("or") {
	}
	return r.startsNumber()
}

// agreeWithin is how far two amounts for one thing may lie apart: old pages
// round an ounce to 25 g or 30 g (28.35 g, common practice).
var agreeWithin = ratio(20, 100)

// twice reads the same amount said again in another unit, and holds it against
// the first, which counts.
func (r *reader) twice(q Quantity) (Quantity, error) {
	shut := r.mark('(')
	if !shut && !r.mark('/') {
		return Quantity{}, refusePart("cannot be read", "cannot read", r.text[r.at:], "one amount, such as 250 g, 1-2 tbsp or 2 lb 4 oz")
	}
	r.space()
	for r.word("about") || r.word("approx") || r.word("or") {
	}
	again, err := r.ends()
	if err != nil {
		return Quantity{}, err
	}
	if shut && !r.mark(')') {
		return Quantity{}, refuse("a bracket is not shut", "one amount, such as 1 cup (240 ml)")
	}
	if r.space(); !r.done() {
		return Quantity{}, refusePart("cannot be read", "cannot read", r.text[r.at:], "one amount, such as 250 g, 1-2 tbsp or 2 lb 4 oz")
	}
	if again.unit == Piece {
		return Quantity{}, refuse("the second amount has no unit", "one amount, such as 1 cup (240 ml)")
	}
	return q, agree(q, again)
}

// agree refuses two amounts of one dimension that cannot be the same.
func agree(q, again Quantity) error {
	other, err := again.In(q.unit)
	if err != nil {
		return nil // only the ingredient could tell
	}
	if off(other.low, q.low).cmp(q.low.mul(agreeWithin)) > 0 || off(other.high, q.high).cmp(q.high.mul(agreeWithin)) > 0 {
		return refuse(q.String()+" and "+again.String()+" are not the same amount", "one of the two")
	}
	return nil
}

// isPack tells a word for what a shop sells things in, or for a part of them:
// a tin, a bunch, a fillet, a piece.
func isPack(word string) bool {
	w := wordOf(fold(word))
	return w != nil && w.only != nil && w.only.dimension == Count && !(Unit{w.only}).IsSize() && fold(word) != "each"
}

// lastOf is the last word of a text.
func lastOf(text string) string {
	text = strings.TrimRight(text, " ")
	return text[strings.LastIndexByte(text, ' ')+1:]
}

// withoutPack drops the pack from "g tins": the size says it all.
func withoutPack(phrase string) (size string, ok bool) {
	last := lastOf(phrase)
	size = strings.TrimRight(strings.TrimSuffix(phrase, last), " ")
	return size, size != "" && isPack(last)
}
