package units

import (
	"math/big"
	"strings"
	"unicode/utf8"
)

// maxDigits bounds the digits of a number, so that no text asks for more
// memory than a kitchen needs; maxBits is about as many.
const (
	maxDigits     = 400
	maxBits       = 1300
	tooManyDigits = "a number of more than 400 digits"
)

// writable tells whether a number can be written in maxDigits, so that what
// Parse adds up can be read back.
func (a number) writable() bool {
	return a.wide == nil || a.wide.Num().BitLen() <= maxBits && a.wide.Denom().BitLen() <= maxBits
}

const (
	howFractions = "one fraction: 1½, 1 1/2 or 1.5"
	howThousands = "2750 without a comma, or 2.75 with a point"
)

// startsNumber tells whether a number begins here: digits, a point before
// digits, a minus, a vulgar fraction.
func (r *reader) startsNumber() bool {
	if r.done() {
		return false
	}
	c := r.text[r.at]
	switch {
	case isDigit(c):
		return true
	case c == '.' || c == '-':
		return r.at+1 < len(r.text) && isDigit(r.text[r.at+1])
	case c < utf8.RuneSelf:
		return false
	}
	_, ok := r.peekVulgar()
	return ok
}

// number reads one number: in digits, or in words such as "half a".
func (r *reader) number() (number, error) {
	if r.done() {
		return number{}, refuse("a number is missing", "a number and a unit, such as 250 g")
	}
	negative := r.word("minus") || r.mark('-')
	if !r.done() && isLetter(r.text[r.at]) && !negative {
		return r.numberInWords()
	}
	n, err := r.positive()
	if err != nil {
		return number{}, err
	}
	if r.at < len(r.text) && (r.text[r.at] == '.' || r.text[r.at] == ',') && r.at+1 < len(r.text) && isDigit(r.text[r.at+1]) {
		return number{}, refuse("a number with two points or commas", howThousands)
	}
	if negative {
		n = n.neg()
	}
	return n, nil
}

func (r *reader) positive() (number, error) {
	if n, ok := r.vulgar(); ok {
		return n, r.noSecondFraction(n)
	}
	start := r.at
	r.digits()
	head := r.text[start:r.at]
	if mark := r.decimalMark(); mark != 0 {
		return r.decimals(head, mark)
	}
	if head == "" {
		return number{}, refusePart("it does not begin with a number", "no number before", r.text[r.at:], "a number and a unit, such as 250 g")
	}
	n, err := digitsToNumber(head)
	if err != nil {
		return number{}, err
	}
	if r.mark('/') {
		n, err = r.under(n)
		if err == nil {
			err = r.noSecondFraction(n)
		}
		return n, err
	}
	return r.mixed(n)
}

// decimalMark passes a decimal point or comma that has digits after it.
func (r *reader) decimalMark() byte {
	if r.at+1 < len(r.text) && (r.text[r.at] == '.' || r.text[r.at] == ',') && isDigit(r.text[r.at+1]) {
		r.at++
		return r.text[r.at-1]
	}
	return 0
}

// decimals reads the digits after the mark. A comma with exactly three digits
// after it may be a thousand or a decimal, so it is refused, unless nothing
// but a nought stands before it.
func (r *reader) decimals(head string, mark byte) (number, error) {
	start := r.at
	r.digits()
	tail := r.text[start:r.at]
	if mark == ',' && len(tail) == 3 && strings.Trim(head, "0") != "" {
		return number{}, refuse("a comma before three digits may be a thousand or a decimal", head+tail+" or "+head+"."+tail)
	}
	if r.startsFraction() {
		return number{}, refuse("a fraction after a decimal", howFractions)
	}
	n, err := digitsToNumber(head + tail)
	if err != nil {
		return number{}, err
	}
	return n.quo(tenTo(len(tail))), nil
}

// mixed reads the fraction that may follow a whole number: 1½, 1 ½, 1 1/2.
func (r *reader) mixed(n number) (number, error) {
	here := r.at
	if n.sign() > 0 && r.hyphenated() {
		r.at++
	} else {
		r.space()
	}
	if part, ok := r.vulgar(); ok {
		return n.add(part), r.noSecondFraction(part)
	}
	start := r.at
	r.digits()
	if r.at == start || start == here {
		r.at = here
		return n, nil
	}
	top := r.text[start:r.at]
	if !r.mark('/') {
		r.at = here // another number: a pack's size, or a slip
		return n, nil
	}
	over, err := digitsToNumber(top)
	if err != nil {
		return number{}, err
	}
	part, err := r.under(over)
	switch {
	case err != nil:
		return number{}, err
	case part.cmp(whole(1)) >= 0:
		return number{}, refuse("the fraction beside a whole number is one or more", howFractions)
	}
	return n.add(part), r.noSecondFraction(part)
}

// hyphenated tells whether a hyphen and a fraction below one follow: 1-1/2 is
// one and a half, for a range from one to a half would run backwards.
func (r *reader) hyphenated() bool {
	here := r.at
	defer func() { r.at = here }()
	if !r.mark('-') || r.done() {
		return false
	}
	if _, ok := r.vulgar(); ok {
		return true
	}
	start := r.at
	r.digits()
	top := r.text[start:r.at]
	if top == "" || !r.mark('/') {
		return false
	}
	start = r.at
	r.digits()
	below := r.text[start:r.at]
	return len(top) < len(below) || len(top) == len(below) && top < below
}

// under reads what a fraction is divided by.
func (r *reader) under(over number) (number, error) {
	r.space()
	start := r.at
	r.digits()
	if r.at == start {
		return number{}, refuse("a fraction with nothing under it", howFractions)
	}
	below, err := digitsToNumber(r.text[start:r.at])
	if err != nil {
		return number{}, err
	}
	if below.sign() == 0 {
		return number{}, refuse("a fraction over nought", howFractions)
	}
	return over.quo(below), nil
}

func (r *reader) noSecondFraction(part number) error {
	if part.sign() == 0 {
		return refuse("a fraction of nought", howFractions)
	}
	if r.startsFraction() {
		return refuse("two fractions together", howFractions)
	}
	return nil
}

// startsFraction tells whether a fraction follows, after any space.
func (r *reader) startsFraction() bool {
	here := r.at
	defer func() { r.at = here }()
	r.space()
	if _, ok := r.peekVulgar(); ok || r.mark('/') {
		return true
	}
	start := r.at
	r.digits()
	return r.at > start && r.mark('/')
}

func (r *reader) digits() {
	for r.at < len(r.text) && isDigit(r.text[r.at]) {
		r.at++
	}
}

func (r *reader) vulgar() (number, bool) {
	if r.done() || r.text[r.at] < utf8.RuneSelf {
		return number{}, false
	}
	n, ok := r.peekVulgar()
	if ok {
		_, size := utf8.DecodeRuneInString(r.text[r.at:])
		r.at += size
	}
	return n, ok
}

func (r *reader) peekVulgar() (number, bool) {
	c, _ := utf8.DecodeRuneInString(r.text[r.at:])
	for i, sign := range vulgarSigns {
		if c == sign {
			return vulgarValues[i], true
		}
	}
	return number{}, false
}

// The vulgar fractions Unicode has a sign for.
var (
	vulgarSigns  = [...]rune{'½', '¼', '¾', '⅓', '⅔', '⅛', '⅜', '⅝', '⅞', '⅕', '⅖', '⅗', '⅘', '⅙', '⅚', '⅐', '⅑', '⅒', '↉'}
	vulgarValues = [...]number{ratio(1, 2), ratio(1, 4), ratio(3, 4), ratio(1, 3), ratio(2, 3), ratio(1, 8), ratio(3, 8), ratio(5, 8), ratio(7, 8), ratio(1, 5), ratio(2, 5), ratio(3, 5), ratio(4, 5), ratio(1, 6), ratio(5, 6), ratio(1, 7), ratio(1, 9), ratio(1, 10), {}}
)

// numberWords are the numbers people spell out; after half and the quarters
// an "a", "an" or "of a" may follow.
var numberWords = map[string]number{
	"a": whole(1), "an": whole(1), "one": whole(1), "two": whole(2), "three": whole(3), "four": whole(4),
	"five": whole(5), "six": whole(6), "seven": whole(7), "eight": whole(8), "nine": whole(9), "ten": whole(10),
	"eleven": whole(11), "twelve": whole(12), "half": ratio(1, 2), "quarter": ratio(1, 4), "third": ratio(1, 3),
}

func (r *reader) numberInWords() (number, error) {
	n, ok := r.numberWord()
	if !ok {
		if w := wordOf(fold(r.text[r.at:])); w != nil && w.strict && w.note != "" {
			return number{}, refuse(w.note, "a number and a unit, such as 250 g")
		}
		return number{}, refusePart("it does not begin with a number", "no number before", r.text[r.at:], "a number and a unit, such as 250 g")
	}
	if here := r.at; n.isWhole() { // "a half", "three quarters", "a dozen"
		if part, ok := r.partWord(); ok {
			n = n.mul(part)
		} else if part, ok := r.andPart(); ok { // "one and a half"
			return n.add(part), nil
		} else {
			r.at = here
		}
	}
	if !n.isWhole() {
		r.word("of")
		if !r.word("an") {
			r.word("a")
		}
	}
	return n, nil
}

// numberWord passes one word that is a number.
func (r *reader) numberWord() (number, bool) {
	start := r.at
	for r.at < len(r.text) && isLetter(r.text[r.at]) {
		r.at++
	}
	n, ok := numberWords[strings.ToLower(r.text[start:r.at])]
	if !ok {
		r.at = start
		return number{}, false
	}
	if !r.mark('-') {
		r.space()
	}
	return n, true
}

// andPart passes "and a half" and its like.
func (r *reader) andPart() (number, bool) {
	if !r.word("and") {
		return number{}, false
	}
	r.word("a")
	return r.partWord()
}

// partWord passes half, quarter, third or their plurals.
func (r *reader) partWord() (number, bool) {
	for _, part := range [...]struct {
		word string
		size number
	}{{"halves", ratio(1, 2)}, {"half", ratio(1, 2)}, {"quarters", ratio(1, 4)}, {"quarter", ratio(1, 4)}, {"thirds", ratio(1, 3)}, {"third", ratio(1, 3)}} {
		if r.word(part.word) {
			return part.size, true
		}
	}
	return number{}, false
}

func digitsToNumber(digits string) (number, error) {
	if len(digits) > maxDigits {
		return number{}, refuse(tooManyDigits, "a kitchen's number")
	}
	if len(digits) <= 18 {
		n := int64(0)
		for i := 0; i < len(digits); i++ {
			n = n*10 + int64(digits[i]-'0')
		}
		return whole(n), nil
	}
	n, ok := new(big.Int).SetString(digits, 10)
	if !ok {
		return number{}, refuse("not a number", "digits")
	}
	return fromRat(new(big.Rat).SetInt(n)), nil
}

func tenTo(n int) number {
	if n < len(powersOfTen) {
		return whole(powersOfTen[n])
	}
	power := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil)
	return fromRat(new(big.Rat).SetInt(power))
}
