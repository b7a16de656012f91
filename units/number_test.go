package units

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// The small numbers against math/big, on figures that fit, that nearly do not
// and that do not.
func TestNumberAgreesWithRat(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	pick := func() (number, *big.Rat) {
		n := int64(random.Uint64()) >> random.IntN(63)
		d := int64(random.Uint64()>>1)>>random.IntN(62) + 1
		if d <= 0 {
			d = math.MaxInt64
		}
		r := new(big.Rat).SetFrac(big.NewInt(n), big.NewInt(d))
		if random.IntN(4) == 0 { // beyond an int64
			r.Mul(r, big.NewRat(math.MaxInt64, 3))
			return fromRat(r), r
		}
		return ratio(n, d), r
	}
	for range Cases(8_000, 20_000) {
		a, ra := pick()
		b, rb := pick()
		same := func(what string, got number, want *big.Rat) {
			t.Helper()
			require.Zero(t, got.rat().Cmp(want), "%s of %s and %s is %s, not %s", what, ra, rb, got.rat(), want)
			require.Equal(t, fromRat(want), got, "%s is not in its one form", what)
		}
		same("sum", a.add(b), new(big.Rat).Add(ra, rb))
		same("difference", a.sub(b), new(big.Rat).Sub(ra, rb))
		same("product", a.mul(b), new(big.Rat).Mul(ra, rb))
		if rb.Sign() != 0 {
			same("quotient", a.quo(b), new(big.Rat).Quo(ra, rb))
		}
		require.Equal(t, ra.Cmp(rb), a.cmp(b), "%s and %s", ra, rb)
		same("negative", a.neg(), new(big.Rat).Neg(ra))
		require.Zero(t, a.rat().Cmp(ra), "an operation changed its operand")
		require.Equal(t, 0, a.cmp(fromRat(ra)))
		require.Equal(t, ra.Sign(), a.sign())
		require.Equal(t, ra.IsInt(), a.isWhole())
		low := new(big.Rat).SetInt(new(big.Int).Div(ra.Num(), ra.Denom()))
		same("floor", floor(a), low)
	}
	require.Equal(t, 0, number{}.cmp(whole(0)), "the zero value is nought")
	require.Equal(t, "-9223372036854775808", whole(math.MinInt64).rat().RatString())
}

// Decimals: all digits where they end, else the nearest of 16.
func TestNumberAsDecimal(t *testing.T) {
	for _, row := range []struct {
		n, digits string
		exact     bool
	}{
		{"0", "0", true},
		{"3/8", "0.375", true},
		{"-1/8", "-0.125", true},
		{"1/3", "0.3333333333333333", false},
		{"2/3", "0.6666666666666667", false},
		{"-2/3", "-0.6666666666666667", false},
		{"250/3", "83.33333333333333", false},
		{"1/1024", "0.0009765625", true},
		{"1/3000000000000000000000", "0.0000000000000000000003333333333333333", false},
		{"99999999999999999999/7", "14285714285714290000", false},
		{"29999999999999999999999/3", "9999999999999999999999.666666666667", false},
		{"1/1267650600228229401496703205376", "0.0000000000000000000000000000007888609052210118054117285652827862296732064351090230047702789306640625", true},
	} {
		r, _ := new(big.Rat).SetString(row.n)
		d, exact := fromRat(r).decimal()
		want := row.digits
		if row.n == "29999999999999999999999/3" {
			want = "10000000000000000000000" // sixteen nines round up a place
		}
		require.Equal(t, want, d.String(), row.n)
		require.Equal(t, row.exact, exact, row.n)
	}
}

// Rounding to 16 digits against the printing of math/big at full length.
func TestRoundingToSignificantDigits(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for range 5_000 {
		r := big.NewRat(1+random.Int64N(math.MaxInt64-1), 1+random.Int64N(1<<random.IntN(62)))
		d := roundSignificant(r, significantDigits)
		off := new(big.Rat).Sub(d.Rat(), r)
		off.Abs(off)
		// Half a unit in the last of 16 digits is at most 5e-16 of the value.
		bound := new(big.Rat).Mul(r, big.NewRat(5, 10_000_000_000_000_000))
		require.LessOrEqual(t, off.Cmp(bound), 0, "%s became %s", r, d)
		require.LessOrEqual(t, len(d.Coefficient().String()), significantDigits)
	}
}
