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
// an area is asked for. Any other change of dimension is a *DimensionError,
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
	if err != nil || q.form == single {
		return exactly(low, u), err
	}
	high, err := through(q.high, from, to)
	return between(low, high, u), err
}

// asPlot reads a rod as a square rod where the other side is an area.
func asPlot(from, to Unit) (Unit, Unit) {
	if !from.IsValid() || !to.IsValid() {
		return from, to
	}
	if from.entry.square != nil && to.entry.dimension == Area {
		return Unit{from.entry.square}, to
	}
	if to.entry.square != nil && from.entry.dimension == Area {
		return from, Unit{to.entry.square}
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

// InDifference is a difference of temperature in another unit: as In, but
// without the offset. A rise of 9 F is a rise of 5 C.
func (q Quantity) InDifference(u Unit) (Quantity, error) {
	if q.Dimension() != Temperature || q.unit == GasMark || u == GasMark {
		return q.In(u)
	}
	if !q.hasNumber() {
		return Quantity{}, ErrNoAmount
	}
	if u.Dimension() != Temperature {
		return Quantity{}, &DimensionError{Quantity: q, From: q.unit, To: u}
	}
	f := q.unit.entry.factor.quo(u.entry.factor)
	return between(q.low.mul(f), q.high.mul(f), u), nil
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

// Copy-safe constants for the dial of a gas oven, in degrees Celsius: marks 1
// to 10 are 250 F + 25 F a mark; a half is 250 F, a quarter 225 F.
var (
	markStep    = ratio(125, 9)
	markZero    = ratio(1090, 9)
	markQuarter = ratio(965, 9)
	tenMarks    = whole(10)
)

// celsiusOfMark is the heat at a mark of the dial.
func celsiusOfMark(mark number) (number, error) {
	switch {
	case mark.cmp(ratio(1, 4)) == 0:
		return markQuarter, nil
	case mark.cmp(ratio(1, 2)) == 0:
		return markZero, nil
	case mark.isWhole() && mark.sign() > 0 && mark.cmp(tenMarks) <= 0:
		return mark.mul(markStep).add(markZero), nil
	}
	return number{}, &ParseError{Reason: "there is no gas mark " + formatNumber(mark), Accepted: "gas mark 1/4, 1/2, or a whole mark from 1 to 10"}
}

// marks are the settings a gas oven's dial has.
var marks = [...]number{ratio(1, 4), ratio(1, 2), whole(1), whole(2), whole(3), whole(4), whole(5), whole(6), whole(7), whole(8), whole(9), whole(10)}

// MarkError is a temperature that falls between the marks of a gas oven.
type MarkError struct {
	Celsius *big.Rat
	Nearest Quantity // the nearest mark
	At      Quantity // its temperature in C
}

func (e *MarkError) Error() string {
	at, _ := e.At.Decimal()
	return "no gas mark is exactly " + formatNumber(fromRat(e.Celsius)) + " C; the nearest is " + e.Nearest.String() + ", " + at.Round(1).String() + " C"
}

// markOfCelsius is the mark of that heat exactly, or a *MarkError.
func markOfCelsius(celsius number) (number, error) {
	nearest, at := marks[0], markQuarter
	for _, mark := range marks {
		heat, _ := celsiusOfMark(mark)
		if off(heat, celsius).cmp(off(at, celsius)) < 0 {
			nearest, at = mark, heat
		}
	}
	if at.cmp(celsius) == 0 {
		return nearest, nil
	}
	return number{}, &MarkError{Celsius: celsius.rat(), Nearest: exactly(nearest, GasMark), At: exactly(at, Celsius)}
}

// off is the distance between two numbers.
func off(a, b number) number {
	d := a.sub(b)
	if d.sign() < 0 {
		return d.neg()
	}
	return d
}
