package units

import (
	"errors"
	"math/big"
)

// ErrNoAmount is returned where a number was needed of a quantity that has
// none: the zero Quantity or "to taste".
var ErrNoAmount = errors.New("no amount to convert")

// In is the quantity in another unit of its dimension, exactly. Temperatures
// convert with their offset. A rod, as a length, becomes a square rod where
// an area is asked for, and the answer is in square rods where an area is
// asked in rods. Any other change of dimension is a *DimensionError,
// and a temperature that is no mark of a gas oven's dial a *MarkError.
func (q Quantity) In(u Unit) (Quantity, error) {
	if !q.hasNumber() {
		return Quantity{}, ErrNoAmount
	}
	if q.unit == u {
		q.text = ""
		return q, nil
	}
	from, to := asPlot(q.unit, u)
	if !from.like(to) {
		return Quantity{}, &DimensionError{Quantity: q, From: q.unit, To: u}
	}
	low, err := through(q.low, from, to)
	if err != nil {
		return Quantity{}, err
	}
	if q.form == single {
		return exactly(low, to), nil
	}
	high, err := through(q.high, from, to)
	if err != nil {
		return Quantity{}, err
	}
	return between(low, high, to), nil
}

// asPlot reads a rod as a square rod where the other side is an area.
func asPlot(from, to Unit) (Unit, Unit) {
	if !from.IsValid() || !to.IsValid() {
		return from, to
	}
	if from.entry.square != "" && to.entry.dimension == Area {
		return known(from.entry.square), to
	}
	if to.entry.square != "" && from.entry.dimension == Area {
		return from, known(to.entry.square)
	}
	return from, to
}

// through converts one number between units of one dimension.
func through(n number, from, to Unit) (number, error) {
	if from.entry.dimension != Temperature {
		return n.mul(from.entry.factor.quo(to.entry.factor)), nil
	}
	celsius := n.mul(from.entry.factor).add(from.entry.offset)
	if from == GasMark {
		var err error
		if celsius, err = celsiusOfMark(n); err != nil {
			return number{}, err
		}
	}
	if to == GasMark {
		return markOfCelsius(celsius)
	}
	return celsius.sub(to.entry.offset).quo(to.entry.factor), nil
}

// Float64 is the amount (the low end of a range) in u, for physics alone.
func (q Quantity) Float64(u Unit) (float64, error) {
	in, err := q.In(u)
	if err != nil {
		return 0, err
	}
	f, _ := in.Rat().Float64()
	return f, nil
}

// Add is q + o in q's unit, end by end. It refuses unlike dimensions and,
// since 20 C and 20 C are not 40 C, temperatures.
func (q Quantity) Add(o Quantity) (Quantity, error) {
	o, err := q.alongside(o)
	if err != nil {
		return Quantity{}, err
	}
	return between(q.low.add(o.low), q.high.add(o.high), q.unit), nil
}

// Sub is q - o in q's unit; of ranges, the least and the most it can be.
func (q Quantity) Sub(o Quantity) (Quantity, error) {
	o, err := q.alongside(o)
	if err != nil {
		return Quantity{}, err
	}
	return between(q.low.sub(o.high), q.high.sub(o.low), q.unit), nil
}

// ErrTemperatures is returned when temperatures are added or subtracted.
var ErrTemperatures = errors.New("temperatures do not add up")

// alongside is o in q's unit, where the two can be added.
func (q Quantity) alongside(o Quantity) (Quantity, error) {
	if !q.hasNumber() || !o.hasNumber() {
		return Quantity{}, ErrNoAmount
	}
	if q.Dimension() == Temperature {
		return Quantity{}, ErrTemperatures
	}
	return o.In(q.unit)
}

// Scale is r times the quantity, both ends of a range; what has no number
// stays as it is.
func (q Quantity) Scale(r *big.Rat) Quantity {
	if !q.hasNumber() {
		return q
	}
	f := fromRat(r)
	low, high := q.low.mul(f), q.high.mul(f)
	if f.sign() < 0 {
		low, high = high, low
	}
	return between(low, high, q.unit)
}

// Compare orders two quantities of one dimension: -1, 0 or +1, by the low
// ends and then by the high ends.
func (q Quantity) Compare(o Quantity) (int, error) {
	if !q.hasNumber() || !o.hasNumber() {
		return 0, ErrNoAmount
	}
	in, err := o.In(q.unit)
	if err != nil {
		return 0, err
	}
	if order := q.low.cmp(in.low); order != 0 {
		return order, nil
	}
	return q.high.cmp(in.high), nil
}

// Equal tells whether two quantities are the same amount, whatever units they
// are written in: 1.5 kg is 1500 g. Quantities without a number are equal to
// their like.
func (q Quantity) Equal(o Quantity) bool {
	if !q.hasNumber() || !o.hasNumber() {
		return q.form == o.form
	}
	order, err := q.Compare(o)
	return err == nil && order == 0
}

// base is the unit a dimension's factors are kept in.
func base(d Dimension) *entry {
	switch d {
	case Mass:
		return Gram.entry
	case Volume:
		return Millilitre.entry
	case Length:
		return Millimetre.entry
	case Area:
		return SquareMetre.entry
	case Temperature:
		return Celsius.entry
	case Power:
		return Watt.entry
	case Time:
		return Second.entry
	case Energy:
		return Joule.entry
	case Pressure:
		return Pascal.entry
	}
	return Piece.entry
}
