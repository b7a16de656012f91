package units

import (
	"math/big"

	"github.com/shopspring/decimal"
)

// DecimalOf is the decimal of a ratio: exact where it terminates, else to 16
// significant digits.
func DecimalOf(r *big.Rat) decimal.Decimal {
	d, _ := wideDecimal(r)
	return d
}

// FlooredDecimal is the decimal of a ratio, exact where it terminates, else cut
// off at a number of places: never more than the ratio.
func FlooredDecimal(r *big.Rat, places int32) decimal.Decimal {
	if d, exact := wideDecimal(r); exact {
		return d
	}
	shift := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)
	shifted := new(big.Rat).Mul(r, new(big.Rat).SetInt(shift))
	return decimal.NewFromBigInt(new(big.Int).Div(shifted.Num(), shifted.Denom()), -places)
}

// RatioText writes a ratio as a decimal where it terminates, else as a fraction.
func RatioText(r *big.Rat) string {
	if d, exact := wideDecimal(r); exact {
		return d.String()
	}
	return r.RatString()
}

// CeilTo rounds up to a whole number of steps.
func CeilTo(r, step *big.Rat) *big.Rat {
	steps := new(big.Rat).Quo(r, step)
	whole := new(big.Int).Div(steps.Num(), steps.Denom())
	if !steps.IsInt() {
		whole.Add(whole, big.NewInt(1))
	}
	return new(big.Rat).Mul(new(big.Rat).SetInt(whole), step)
}
