package integer

import (
	"math"
	"math/big"
)

// The relaxation reckons in floating point. It only advises, see [certifier], but
// its advice is the same on every machine: a product is rounded before it is
// added, float64(a*b), so that no compiler fuses the two.

const (
	tolerance  = 1e-6  // what counts as whole
	pivotMin   = 1e-3  // a good size for a pivot
	pivotLeast = 1e-6  // smaller ones count as nothing
	hair       = 1e-9  // how far a price may be off
	nothing    = 1e-11 // a cell that small is what rounding has left of 0
	room       = 1e12  // beyond it the relaxation gives up
	farness    = 1e-3  // how far off a bound may be in floating point, to be sure of what it is
	places     = 40    // binary places of a multiplier
)

// nothing, and the sign of a number, by their bits.
const (
	nothingBits = 0x3DA5FD7FE1796495
	signBit     = 1 << 63
)

// cleared is v, or 0 where v is below nothing. It is told by the bits, without a branch:
// which it is cannot be foreseen, and a processor that guesses wrong begins again.
func cleared(v float64) float64 {
	bits := math.Float64bits(v)
	below := int64(bits&^signBit-nothingBits) >> 63 // all ones, or nought
	return math.Float64frombits(bits &^ uint64(below))
}

func tooBig(a float64) bool { return !(a < room && a > -room) }

// scaled is n × 2^shift.
func scaled(n *big.Int, shift int) float64 {
	if n.IsInt64() {
		return math.Ldexp(float64(n.Int64()), shift)
	}
	f, _ := new(big.Float).SetInt(n).Float64()
	return math.Ldexp(f, shift)
}

// multiplier is v in whole parts of 2^-places, or 0 where it is below.
func multiplier(v float64) int64 {
	if !(v > 0) {
		return 0
	}
	return int64(math.Round(math.Ldexp(min(v, 1<<20), places)))
}

// widest is the bit length of the largest number of the list.
func widest(numbers []*big.Int) int {
	bits := 0
	for _, n := range numbers {
		bits = max(bits, n.BitLen())
	}
	return bits
}

// bitsOf is the bit length of the largest coefficient of the terms.
func bitsOf(terms []Term) int {
	bits := 0
	for _, t := range terms {
		bits = max(bits, t.Coef.BitLen())
	}
	return bits
}
