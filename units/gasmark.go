package units

import "math/big"

// The dial of a gas oven, in degrees Celsius: marks 1
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

// halfMark is half the way between two marks, in degrees Celsius.
var halfMark = ratio(125, 18)

// IsNear tells whether the nearest mark will do: the temperature lies between
// two marks of the dial, or within half a mark of its ends.
func (e *MarkError) IsNear() bool {
	return off(e.At.low, fromRat(e.Celsius)).cmp(halfMark) <= 0
}

// Hint says what the dial covers.
func (e *MarkError) Hint() string {
	return "a gas oven's marks run from 1/4 (107 C) to 10 (260 C)"
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
