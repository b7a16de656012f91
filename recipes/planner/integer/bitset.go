package integer

import "math/bits"

// A bitset is a set of whole numbers below 64 times its length: bit i%64 of word
// i/64 says whether i is in it.
type bitset []uint64

// bitsetOf is an empty set that has room for the numbers below size.
func bitsetOf(size uint) bitset { return make(bitset, (size+63)/64) }

func (b bitset) add(i uint) { b[i/64] |= 1 << (i % 64) }

func (b bitset) empty() bool {
	for _, w := range b {
		if w != 0 {
			return false
		}
	}
	return true
}

// highest is the largest number of the set, which must not be empty.
func (b bitset) highest() uint {
	i := len(b) - 1
	for b[i] == 0 {
		i--
	}
	return uint(i)*64 + 63 - uint(bits.LeadingZeros64(b[i]))
}

// apart splits a distance into words and bits; one that leads out of the set is all
// its words.
func (b bitset) apart(n uint64) (words int, by uint) {
	if n/64 >= uint64(len(b)) {
		return len(b), 0
	}
	return int(n / 64), uint(n % 64)
}

// cut takes out the numbers from size on.
func (b bitset) cut(size uint) {
	if size%64 > 0 {
		b[len(b)-1] &= 1<<(size%64) - 1
	}
}

// word is word i of the set with all its numbers raised by 64·words + by; by < 64.
func (b bitset) word(i, words int, by uint) uint64 {
	i -= words
	if i < 0 || by == 0 {
		if i < 0 {
			return 0
		}
		return b[i]
	}
	w := b[i] << by
	if i > 0 {
		w |= b[i-1] >> (64 - by)
	}
	return w
}

// raise adds the set's own numbers raised by n, as far as there is room.
func (b bitset) raise(n uint64) {
	words, by := b.apart(n)
	for i := len(b) - 1; i >= words; i-- { // downwards: what is read is not yet changed
		b[i] |= b.word(i, words, by)
	}
}

// setRaised makes b the numbers of o raised by n, as far as there is room.
func (b bitset) setRaised(o bitset, n uint64) {
	words, by := b.apart(n)
	for i := range b {
		b[i] = o.word(i, words, by)
	}
}

// join adds the numbers of o.
func (b bitset) join(o bitset) {
	for i, w := range o {
		b[i] |= w
	}
}

// meet leaves of the set what is in o too; o may be the longer.
func (b bitset) meet(o bitset) {
	for i := range b {
		b[i] &= o[i]
	}
}

// leaveOut takes the numbers of o out of the set; o may be the longer.
func (b bitset) leaveOut(o bitset) {
	for i := range b {
		b[i] &^= o[i]
	}
}

// meets reports whether a number is in both sets; o may be the longer.
func (b bitset) meets(o bitset) bool {
	for i, w := range b {
		if w&o[i] != 0 {
			return true
		}
	}
	return false
}

// isIn reports whether all numbers are in o, which may be the longer.
func (b bitset) isIn(o bitset) bool {
	for i, w := range b {
		if w&^o[i] != 0 {
			return false
		}
	}
	return true
}

// lowest is the smallest number of the set, which must not be empty.
func (b bitset) lowest() uint {
	i := 0
	for b[i] == 0 {
		i++
	}
	return uint(i)*64 + uint(bits.TrailingZeros64(b[i]))
}
