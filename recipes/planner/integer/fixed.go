package integer

import (
	"math/big"
	"math/bits"
)

// fixed is a number in fixed point: 40 binary places.
type fixed = int64

const (
	places     = 40
	one        = fixed(1) << places
	tolerance  = fixed(1) << (places - 20) // what counts as whole, about 1e-6
	pivotMin   = fixed(1) << (places - 10) // a good size for a pivot
	pivotLeast = fixed(1) << (places - 20) // smaller ones count as nothing
	hair       = fixed(1) << (places - 30) // how far a price may be off
	mulRoom    = int64(room) >> (64 - places)
	room       = fixed(1) << 61 // beyond it the relaxation gives up
)

// mul multiplies two fixed numbers; overflow gives a huge number of the right sign.
func mul(a, b fixed) fixed {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	high := int64(hi) - a>>63&b - b>>63&a // the signed product's upper half
	if high >= mulRoom || high < -mulRoom {
		return signed(room, a, b)
	}
	return high<<(64-places) | int64(lo>>places)
}

// div divides two fixed numbers, b ≠ 0; overflow as in mul.
func div(a, b fixed) fixed {
	n, d := magnitude(a), magnitude(b)
	hi, lo := n>>(64-places), n<<places
	if hi >= d {
		return signed(room, a, b)
	}
	q, _ := bits.Div64(hi, lo, d)
	if q > uint64(room) {
		q = uint64(room)
	}
	return signed(fixed(q), a, b)
}

func magnitude(a fixed) uint64 {
	if a < 0 {
		return uint64(-a)
	}
	return uint64(a)
}

func signed(m, a, b fixed) fixed {
	if (a < 0) != (b < 0) {
		return -m
	}
	return m
}

func tooBig(a fixed) bool { return a >= room || a <= -room }

func clamp(v fixed) fixed { return max(-room, min(room, v)) }

// scaled is n × 2^shift in fixed point, to the nearest, kept within room.
func scaled(n *big.Int, shift int) fixed {
	var v big.Int
	if up := places + shift; up >= 0 {
		v.Lsh(n, uint(up))
	} else {
		v.Lsh(big.NewInt(1), uint(-up-1))
		v.Add(&v, n).Rsh(&v, uint(-up))
	}
	if !v.IsInt64() || tooBig(v.Int64()) {
		if n.Sign() < 0 {
			return -room
		}
		return room
	}
	return v.Int64()
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
