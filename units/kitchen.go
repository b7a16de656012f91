package units

import (
	"math/big"

	"github.com/shopspring/decimal"
)

// Kitchen is what a kitchen measures with. The zero value is a metric kitchen
// with ordinary scales, a measuring jug and a set of spoons down to an eighth
// of a teaspoon.
type Kitchen struct {
	System    System              // whose spoons and cups; NoSystem is metric
	ScaleStep Quantity            // the finest step of the scales; no amount: 1 g
	JugStep   Quantity            // the finest step of the jug; no amount: 5 ml
	Spoons    []Quantity          // the spoons owned, as volumes; none: 1/8, 1/4, 1/2, 1 tsp, 1 tbsp
	Vague     map[string]Quantity // by unit name: what a pinch or a knob is here
}

// Style is how an amount is measured out.
type Style uint8

// The styles. Auto follows the unit: a mass goes on the scales, spoons stay
// spoons, cups stay cups where the kitchen has cups, other volumes go into
// the jug, and what is counted is counted.
const (
	Auto Style = iota
	ByScale
	BySpoon
	ByJug
	ByCup
	ByPiece
)

// MeasureOptions say what is known of the thing measured. The zero value
// rounds to the nearest.
type MeasureOptions struct {
	Style     Style
	RoundDown bool     // salt, raising agents, chilli: rather less than more
	Halves    bool     // pieces that may be halved: the recipe itself halves them
	Knife     int      // into how many a knife cuts a piece where whole ones miss: 2, 4; 0 not at all
	Density   *big.Rat // g/ml, if known: under 2 g is then measured with a spoon
	Each      Quantity // what one piece weighs, if known, for the weighed alternative
	EachName  string   // what is weighed then: "beaten egg"
}

// Measured is an amount rounded to what the kitchen can measure, with what
// the rounding did to it.
type Measured struct {
	Text         string          // "2 tbsp + 1/2 tsp" with the fraction signs of print
	Value        Quantity        // what Text says, exactly
	Exact        Quantity        // what was asked for
	ErrorPercent decimal.Decimal // signed, to one place; of a range, the larger end
	Note         bool            // moved by more than 2 %: show Exact beside it
	Flag         bool            // moved by more than 10 %
	Alternative  string          // "or 128 g of beaten egg", where rounding moved a count far
}

// The shares of an amount past which rounding is shown, and flagged.
var (
	noteShare = ratio(2, 100)
	flagShare = ratio(10, 100)
)

// Measure rounds an amount to the measures this kitchen has: never to
// nothing, the ends of a range each for itself. What has no number comes back
// as its own text.
func (k Kitchen) Measure(q Quantity, o MeasureOptions) Measured {
	m := Measured{Text: q.Format(k.system()), Value: q, Exact: q}
	if !q.hasNumber() || q.low.sign() <= 0 {
		return m
	}
	low := k.measureEnd(q.Low(), o)
	m.Text, m.Value = low.text, low.value
	moved := low.moved
	if q.IsRange() {
		high := k.measureEnd(q.High(), o)
		m.Text, m.Value = joinMeasured(low, high)
		if off(high.moved, number{}).cmp(off(moved, number{})) > 0 {
			moved = high.moved
		}
	}
	m.note(moved)
	if m.Flag && q.Dimension() == Count && o.Each.hasNumber() {
		m.Alternative = k.weighed(q, o)
	}
	return m
}

// note records by what share of itself the amount was moved.
func (m *Measured) note(share number) {
	m.ErrorPercent = roundHalfUp(share.mul(whole(1000)), whole(1)).decimalOf(1)
	size := off(share, number{})
	m.Note = size.cmp(noteShare) > 0
	m.Flag = size.cmp(flagShare) > 0
}

// decimalOf is a whole number of tenths, hundredths ... as a decimal.
func (a number) decimalOf(places int32) decimal.Decimal {
	d, _ := a.decimal()
	return d.Shift(-places)
}

// measuredEnd is one amount measured: what to say, what that is, and by what
// share of itself it was moved.
type measuredEnd struct {
	text  string
	value Quantity
	moved number
}

// joinMeasured is a range in the measures of its ends; two that fall together
// are one.
func joinMeasured(low, high measuredEnd) (string, Quantity) {
	top, err := high.value.In(low.value.unit)
	if err != nil {
		return low.text + " to " + high.text, low.value
	}
	value := between(low.value.low, top.low, low.value.unit)
	if low.text == high.text {
		return low.text, value
	}
	return low.text + " to " + high.text, value
}

// system is the kitchen's own, metric where none is set.
func (k Kitchen) system() System {
	if k.System == NoSystem {
		return Metric
	}
	return k.System
}

// measureEnd measures one amount out in the style that fits it.
func (k Kitchen) measureEnd(q Quantity, o MeasureOptions) measuredEnd {
	style := o.Style
	if style == Auto || !style.fits(q.Dimension()) {
		style = k.styleOf(q.unit)
	}
	switch {
	case q.IsRough():
		return k.rough(q)
	case style == ByScale:
		return k.onScales(q, o)
	case style == BySpoon:
		return k.inSpoons(in(q, Millilitre), o)
	case style == ByJug:
		return k.inJug(in(q, Millilitre), o)
	case style == ByCup:
		return k.inCups(in(q, Millilitre), o)
	case style == ByPiece:
		return pieces(q, o)
	case q.Dimension() == Length:
		return k.onRuler(q, o)
	}
	return measuredEnd{text: q.Format(k.system()), value: q}
}

// fits tells whether an amount of a dimension can be measured in a style.
func (s Style) fits(d Dimension) bool {
	switch s {
	case ByScale:
		return d == Mass
	case BySpoon, ByJug, ByCup:
		return d == Volume
	case ByPiece:
		return d == Count
	}
	return false
}

// styleOf is the style an amount in a unit is measured in, unless told.
func (k Kitchen) styleOf(u Unit) Style {
	switch u.Dimension() {
	case Mass:
		return ByScale
	case Count:
		return ByPiece
	case Volume:
		switch {
		case isSpoon(u):
			return BySpoon
		case k.system() == US || isCup(u) && k.system() != UK:
			return ByCup
		}
		return ByJug
	}
	return Auto
}

func isSpoon(u Unit) bool {
	switch u.entry.bare {
	case "tsp", "tbsp", "dsp", "saltspoon", "tbsp old British":
		return true
	}
	return false
}

func isCup(u Unit) bool { return u.entry.bare == "cup" }

// in is a conversion within one dimension, which cannot fail.
func in(q Quantity, u Unit) number {
	n, err := through(q.low, q.unit, u)
	if err != nil {
		return q.low
	}
	return n
}

// measured builds the end for a value in a unit of what was exactly n.
func measured(text string, value, exact number, u Unit) measuredEnd {
	return measuredEnd{text: text, value: exactly(value, u), moved: value.sub(exact).quo(exact)}
}

// Size is what a rough amount stands for: the kitchen's own size of a pinch
// or a knob, else the usual one; what is not rough is its own size. The second
// result is false where only the ingredient could tell.
func (k Kitchen) Size(q Quantity) (Quantity, bool) {
	if !q.IsRough() || !q.hasNumber() {
		return q, q.hasNumber()
	}
	e := q.unit.entry
	if own, ok := k.Vague[e.name]; ok && own.hasNumber() {
		return between(q.low.mul(own.low), q.high.mul(own.high), own.unit), true
	}
	if e.dimension != Count {
		return between(q.low.mul(e.factor), q.high.mul(e.factor), Unit{base(e.dimension)}), true
	}
	if e.grams.sign() == 0 {
		return Quantity{}, false
	}
	return between(q.low.mul(e.grams), q.high.mul(e.grams), Gram), true
}
