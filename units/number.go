package units

import (
	"math"
	"math/big"
	"math/bits"

	"github.com/shopspring/decimal"
)

// number is an exact rational. Nearly every kitchen figure fits two int64,
// which keeps conversions fast; a larger one lives in wide. The small form is
// always reduced, with den > 0; the zero value is 0.
type number struct {
	num, den int64
	wide     *big.Rat
}

func whole(n int64) number { return ratio(n, 1) }

// ratio is n/d in lowest terms; d must be above zero.
func ratio(n, d int64) number {
	if n == math.MinInt64 {
		return fromRat(new(big.Rat).SetFrac(big.NewInt(n), big.NewInt(d)))
	}
	if n == 0 {
		return number{}
	}
	g := int64(gcd(magnitude(n), uint64(d)))
	return number{num: n / g, den: d / g}
}

// fromRat copies r; nothing the caller does to r later shows in the number.
func fromRat(r *big.Rat) number {
	n, d := r.Num(), r.Denom()
	if n.IsInt64() && d.IsInt64() && n.Int64() != math.MinInt64 {
		if n.Sign() == 0 {
			return number{}
		}
		return number{num: n.Int64(), den: d.Int64()}
	}
	return number{wide: new(big.Rat).Set(r)}
}

// rat is a fresh *big.Rat of the same value.
func (a number) rat() *big.Rat {
	if a.wide != nil {
		return new(big.Rat).Set(a.wide)
	}
	return big.NewRat(a.num, a.below())
}

func (a number) below() int64 {
	if a.den == 0 {
		return 1
	}
	return a.den
}

func (a number) sign() int {
	switch {
	case a.wide != nil:
		return a.wide.Sign()
	case a.num < 0:
		return -1
	case a.num > 0:
		return 1
	}
	return 0
}

func (a number) isWhole() bool {
	if a.wide != nil {
		return a.wide.IsInt()
	}
	return a.below() == 1
}

func (a number) neg() number {
	if a.wide != nil {
		x := a.rat()
		return fromRat(x.Neg(x))
	}
	return number{num: -a.num, den: a.den}
}

func (a number) mul(b number) number {
	if a.wide == nil && b.wide == nil {
		if a.num == 0 || b.num == 0 {
			return number{}
		}
		left := int64(gcd(magnitude(a.num), uint64(b.below())))
		right := int64(gcd(magnitude(b.num), uint64(a.below())))
		n, fits := product(a.num/left, b.num/right)
		d, alsoFits := product(a.below()/right, b.below()/left)
		if fits && alsoFits {
			return number{num: n, den: d}
		}
	}
	x := a.rat()
	return fromRat(x.Mul(x, b.rat()))
}

// quo is a/b; b must not be zero.
func (a number) quo(b number) number {
	if b.wide == nil {
		if b.num < 0 {
			return a.neg().quo(b.neg())
		}
		return a.mul(number{num: b.below(), den: b.num})
	}
	x := a.rat()
	return fromRat(x.Quo(x, b.wide))
}

func (a number) add(b number) number {
	if a.wide == nil && b.wide == nil {
		left, ok1 := product(a.num, b.below())
		right, ok2 := product(b.num, a.below())
		d, ok3 := product(a.below(), b.below())
		sum := left + right
		overflows := (left > 0) == (right > 0) && (sum > 0) != (left > 0) && left != 0 && right != 0
		if ok1 && ok2 && ok3 && !overflows {
			return ratio(sum, d)
		}
	}
	x := a.rat()
	return fromRat(x.Add(x, b.rat()))
}

func (a number) sub(b number) number { return a.add(b.neg()) }

func (a number) cmp(b number) int {
	if a.wide != nil || b.wide != nil {
		return a.rat().Cmp(b.rat())
	}
	if s, t := a.sign(), b.sign(); s != t {
		return compareInts(s, t)
	}
	// Same sign: compare the 128-bit cross products.
	h1, l1 := bits.Mul64(magnitude(a.num), uint64(b.below()))
	h2, l2 := bits.Mul64(magnitude(b.num), uint64(a.below()))
	order := compareInts(h1, h2)
	if order == 0 {
		order = compareInts(l1, l2)
	}
	return order * a.sign()
}

func compareInts[T int | uint64](a, b T) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// significantDigits is how many a decimal keeps when it does not terminate.
const significantDigits = 16

// decimal is the value in decimal digits and whether they are all of them; a
// value without a finite decimal is rounded to the nearest of 16 significant
// digits.
func (a number) decimal() (d decimal.Decimal, exact bool) {
	if a.wide == nil {
		if places, ends := decimalPlaces(uint64(a.below())); ends {
			if up, ok := product(a.num, powersOfTen[places]/a.below()); ok && powersOfTen[places]%a.below() == 0 {
				return decimal.New(up, -int32(places)), true
			}
		}
	}
	return wideDecimal(a.rat())
}

// isDecimal tells whether the value ends in decimal digits.
func (a number) isDecimal() bool {
	if a.wide == nil {
		if _, ends := decimalPlaces(uint64(a.below())); ends {
			return true
		}
	}
	_, ends := a.rat().FloatPrec()
	return ends
}

// decimalPlaces is how many decimals 1/den has, if they end within an int64.
func decimalPlaces(den uint64) (places int, ends bool) {
	twos := bits.TrailingZeros64(den)
	den >>= twos
	fives := 0
	for den%5 == 0 {
		den /= 5
		fives++
	}
	places = max(twos, fives)
	return places, den == 1 && places < len(powersOfTen)
}

var powersOfTen = [...]int64{1, 10, 100, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18}

func wideDecimal(r *big.Rat) (d decimal.Decimal, exact bool) {
	if places, ends := r.FloatPrec(); ends {
		scaled := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)
		scaled.Mul(scaled, r.Num()).Quo(scaled, r.Denom())
		return decimal.NewFromBigInt(scaled, -int32(places)), true
	}
	return roundSignificant(r, significantDigits), false
}

// roundSignificant is r to so many significant digits, half away from zero.
func roundSignificant(r *big.Rat, digits int) decimal.Decimal {
	if r.Sign() == 0 {
		return decimal.Decimal{}
	}
	places := digits - (len(r.Num().String()) - len(r.Denom().String()))
	for {
		n := scaledHalfUp(r, places)
		length := len(new(big.Int).Abs(n).String())
		if length == digits {
			return decimal.NewFromBigInt(n, -int32(places))
		}
		places += digits - length
	}
}

// scaledHalfUp is r x 10^places rounded to an integer, half away from zero.
func scaledHalfUp(r *big.Rat, places int) *big.Int {
	power := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(max(places, -places))), nil)
	n, d := new(big.Int).Set(r.Num()), new(big.Int).Set(r.Denom())
	if places >= 0 {
		n.Mul(n, power)
	} else {
		d.Mul(d, power)
	}
	n.Abs(n).Lsh(n, 1).Add(n, d)
	n.Quo(n, d.Lsh(d, 1))
	if r.Sign() < 0 {
		n.Neg(n)
	}
	return n
}

func magnitude(n int64) uint64 {
	if n < 0 {
		return uint64(-n)
	}
	return uint64(n)
}

// product is a x b when it fits an int64 with room for a sign.
func product(a, b int64) (n int64, fits bool) {
	hi, lo := bits.Mul64(magnitude(a), magnitude(b))
	if hi != 0 || lo > math.MaxInt64 {
		return 0, false
	}
	if (a < 0) != (b < 0) {
		return -int64(lo), true
	}
	return int64(lo), true
}

// gcd is the greatest common divisor by halving (Stein's method).
func gcd(a, b uint64) uint64 {
	if a == 0 || b == 0 {
		return max(a|b, 1)
	}
	shift := bits.TrailingZeros64(a | b)
	a >>= bits.TrailingZeros64(a)
	for b != 0 {
		b >>= bits.TrailingZeros64(b)
		if a > b {
			a, b = b, a
		}
		b -= a
	}
	return a << shift
}
