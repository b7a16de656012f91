package integer

import (
	"math"
	"slices"
	"sort"
)

// mostListed is how many ways to come to a sum are worth listing.
const mostListed = 3_000

// A listing is every way in which whole numbers make a span's sum end between its
// bounds, the largest sums first.
type listing struct {
	full  bool // false: none, there were too many ways
	tried int64
	short bool // it was tried in short, and more might be listed at length
	sums  []int64
	upTo  []choices // by column of the span
}

// Choices are the values a column takes in a listing's ways, rising, each with the ways
// in which the column comes to no more.
type choices struct {
	values []int64
	ways   []bitset
}

// list lists all ways to a sum of at least low, where it can, and again once a good
// part of what was too many is ruled out, or once there is time for it. Columns whose
// sums are listed are branched on early: every way is then looked at once.
func (p *program) list(b *span, low int64) bool {
	switch tried := b.ways.tried; {
	case b.ways.full && low >= tried:
		return true
	case b.ways.full: // for more than is asked now
		b.ways = listing{tried: -1}
	case tried >= 0 && low <= tried+(b.high-tried)/2 && !(b.ways.short && p.atLength):
		return false
	}
	b.ways.short = false
	p.listWays(b, low)
	b.ways.tried = low
	if b.ways.full {
		for _, j := range b.cols {
			p.listed[j] = true
		}
	}
	return b.ways.full
}

// choicesOf sorts the ways by what column k of n comes to in them.
func choicesOf(values []int32, k, n int) choices {
	most := int32(0)
	for at := k; at < len(values); at += n {
		most = max(most, values[at])
	}
	place := make([]int, most+1) // by value: 1 + its place, where it occurs
	for at := k; at < len(values); at += n {
		place[values[at]] = 1
	}
	var c choices
	ways := uint(len(values) / n)
	for v, occurs := range place {
		if occurs > 0 {
			c.values, c.ways = append(c.values, int64(v)), append(c.ways, bitsetOf(ways))
			place[v] = len(c.values)
		}
	}
	for w := range ways {
		c.ways[place[values[int(w)*n+k]]-1].add(w)
	}
	for i := 1; i < len(c.ways); i++ {
		c.ways[i].join(c.ways[i-1])
	}
	return c
}

// keep narrows the span's columns at the node to the ways that are left with a sum
// of at least low, and returns the largest of these sums; false when none is left.
func (b *span) keep(t *tableau, low int64) (best int64, ok bool) {
	enough := sort.Search(len(b.ways.sums), func(w int) bool { return b.ways.sums[w] < low })
	left := t.left[:0]
	for range bitsetOf(uint(enough)) {
		left = append(left, math.MaxUint64)
	}
	t.left = left
	if enough > 0 {
		left.cut(uint(enough))
	}
	for k, j := range b.cols {
		b.ways.upTo[k].within(left, t.low[j], t.high[j], t.shape.batch[j])
	}
	if left.empty() {
		return 0, false
	}
	for k, j := range b.cols {
		if low, high := b.ways.upTo[k].span(left, t.low[j], t.high[j]); low > t.low[j] || high < t.high[j] {
			t.restrict(j, low, high)
		}
	}
	return b.ways.sums[left.lowest()], true
}

// place is where the values above v begin.
func (c *choices) place(v int64) int {
	i, _ := slices.BinarySearch(c.values, v+1)
	return i
}

// within takes out of a set of ways those in which the column is not between the bounds,
// or is above 0 and below a batch.
func (c *choices) within(left bitset, low, high, batch int64) {
	if low > 0 {
		low = max(low, batch)
	}
	c.leaveOut(left, -1, low-1)
	c.leaveOut(left, 0, batch-1)
	if i := c.place(high); i == 0 {
		clear(left)
	} else if i < len(c.ways) {
		left.meet(c.ways[i-1])
	}
}

// leaveOut takes out of a set of ways those in which the column is above one value and
// not above another.
func (c *choices) leaveOut(left bitset, above, upTo int64) {
	i, n := c.place(above), c.place(upTo)
	switch {
	case n <= i:
	case i == 0:
		left.leaveOut(c.ways[n-1])
	default:
		for w := range left {
			left[w] &^= c.ways[n-1][w] &^ c.ways[i-1][w]
		}
	}
}

// span is the least and the greatest value the column has in a set of ways, in which
// it is between the bounds.
func (c *choices) span(left bitset, low, high int64) (int64, int64) {
	first, last := c.place(low-1), c.place(high)-1
	for first < last && !left.meets(c.ways[first]) {
		first++
	}
	for last > first && left.isIn(c.ways[last-1]) {
		last--
	}
	return c.values[first], c.values[last]
}
