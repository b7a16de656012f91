package units

import (
	"math/big"

	"github.com/shopspring/decimal"
)

// Quantity is an exact amount of something: a number or a range of numbers
// with a unit, or "to taste". It is a value: small, never changed, safe to
// copy. The zero Quantity is no amount, which is not the same as 0 g; IsValid
// tells. Compare with Equal (the same amount) or Same (written alike), never
// with ==, which the compiler refuses.
type Quantity struct {
	_         [0]func()
	low, high number
	unit      Unit
	text      string // as written, for those that were read
	form      form
}

type form uint8

const (
	noAmount form = iota
	single
	span
	taste
)

// New is an exact amount of u.
func New(amount decimal.Decimal, u Unit) Quantity { return FromRat(amount.Rat(), u) }

// FromRat is an exact amount of u; the rational is copied.
func FromRat(amount *big.Rat, u Unit) Quantity { return exactly(fromRat(amount), u) }

// FromRange is an amount from low to high; low must not be above high, or the
// two are taken the other way round.
func FromRange(low, high *big.Rat, u Unit) Quantity {
	if low.Cmp(high) > 0 {
		low, high = high, low
	}
	return between(fromRat(low), fromRat(high), u)
}

// ToTaste is the amount that has no number.
func ToTaste() Quantity { return Quantity{form: taste} }

func exactly(n number, u Unit) Quantity {
	if !u.IsValid() {
		return Quantity{}
	}
	return Quantity{low: n, high: n, unit: u, form: single}
}

func between(low, high number, u Unit) Quantity {
	if low.cmp(high) == 0 {
		return exactly(low, u)
	}
	if !u.IsValid() {
		return Quantity{}
	}
	return Quantity{low: low, high: high, unit: u, form: span}
}

// IsValid is false for the zero Quantity alone.
func (q Quantity) IsValid() bool { return q.form != noAmount }

// IsRange tells whether the amount has two different ends.
func (q Quantity) IsRange() bool { return q.form == span }

// IsToTaste tells the amount that has no number.
func (q Quantity) IsToTaste() bool { return q.form == taste }

// IsRough tells whether the unit has no fixed size: a pinch, a knob, a sprig.
func (q Quantity) IsRough() bool { return q.unit.IsRough() }

// hasNumber is true for a single amount or a range.
func (q Quantity) hasNumber() bool { return q.form == single || q.form == span }

// Unit is the unit the amount is held in; the zero Unit for no amount and
// for "to taste".
func (q Quantity) Unit() Unit { return q.unit }

// Dimension is what the amount measures.
func (q Quantity) Dimension() Dimension { return q.unit.Dimension() }

// Rat is a copy of the amount, the low end of a range; 0 where there is no
// number.
func (q Quantity) Rat() *big.Rat { return q.low.rat() }

// Ends are copies of the two ends, alike unless IsRange.
func (q Quantity) Ends() (low, high *big.Rat) { return q.low.rat(), q.high.rat() }

// Low is the low end alone, High the high end, as quantities.
func (q Quantity) Low() Quantity { return q.end(q.low) }

// High is the high end of a range as a quantity, or the amount itself.
func (q Quantity) High() Quantity { return q.end(q.high) }

func (q Quantity) end(n number) Quantity {
	if !q.hasNumber() {
		return q
	}
	return exactly(n, q.unit)
}

// Decimal is the amount (the low end of a range) as a decimal, and whether
// that is exact; a number with no finite decimal is rounded to 16 significant
// digits.
func (q Quantity) Decimal() (d decimal.Decimal, exact bool) { return q.low.decimal() }

// IsDecimal tells whether the amount (the low end of a range) has a finite decimal.
func (q Quantity) IsDecimal() bool { return q.low.isDecimal() }

// Rounded is the quantity to so many significant digits, and whether nothing
// was lost.
func (q Quantity) Rounded(digits int) (rounded Quantity, exact bool) {
	if !q.hasNumber() {
		return q, true
	}
	low := fromRat(roundSignificant(q.low.rat(), digits).Rat())
	high := fromRat(roundSignificant(q.high.rat(), digits).Rat())
	return between(low, high, q.unit), low.cmp(q.low) == 0 && high.cmp(q.high) == 0
}

// Sign is -1, 0 or +1 by the low end.
func (q Quantity) Sign() int { return q.low.sign() }

// Written is the text the quantity was read from, or empty.
func (q Quantity) Written() string { return q.text }

// Same tells whether two quantities are written alike, number for number and
// unit for unit: 1.5 kg and 1500 g are Equal but not Same.
func (q Quantity) Same(o Quantity) bool {
	return q.form == o.form && q.unit == o.unit && q.low.cmp(o.low) == 0 && q.high.cmp(o.high) == 0
}
