package integer

import (
	"cmp"
	"math"
	"slices"
	"sort"
)

const (
	mostListed = 3_000  // ways to come to a sum, for a listing to pay
	mostHalves = 15_000 // ways to choose half the columns that are looked at for it
)

// A listing is every way in which whole numbers make a span's sum end between its
// bounds, the largest sums first.
type listing struct {
	full  bool // false: none, there were too many ways
	tried int64
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
// part of what was too many is ruled out. Columns whose sums are listed are branched
// on first: every way is then looked at once.
func (p *program) list(b *span, low int64) bool {
	switch tried := b.ways.tried; {
	case b.ways.full && low >= tried:
		return true
	case b.ways.full: // for more than is asked now
		b.ways = listing{tried: -1}
	case tried >= 0 && low <= tried+(b.high-tried)/2:
		return false
	}
	b.list(p.columns, low, &p.halves)
	b.ways.tried = low
	if b.ways.full {
		for _, j := range b.cols {
			p.listed[j] = true
		}
	}
	return b.ways.full
}

// A half is the ways to choose some of a span's columns.
type half struct {
	of         []int // which of the span's columns
	sums       []int64
	values     []int32
	nextSums   []int64 // scratch
	nextValues []int32 // scratch
}

// fill lists the choices of the columns of that come to at most the span's highest
// sum; false when they are too many.
func (h *half) fill(b *span, of []int, columns []Column) bool {
	h.of, h.sums, h.values = of, append(h.sums[:0], 0), h.values[:0]
	for n, k := range of {
		c, step := columns[b.cols[k]], b.steps[k]
		h.nextSums, h.nextValues = h.nextSums[:0], h.nextValues[:0]
		for w, sum := range h.sums {
			h.choose(c, step, sum, b.high, h.values[w*n:(w+1)*n])
			if len(h.nextSums) > mostHalves {
				return false
			}
		}
		h.sums, h.values, h.nextSums, h.nextValues = h.nextSums, h.nextValues, h.sums, h.values
	}
	return true
}

// choose lists one way with every value of one column more.
func (h *half) choose(c Column, step, sum, highest int64, values []int32) {
	for v := c.Least; v <= c.Most && sum+v*step <= highest; v++ {
		if v > 0 && v < c.Batch {
			v = c.Batch - 1
			continue
		}
		h.nextSums = append(h.nextSums, sum+v*step)
		h.nextValues = append(append(h.nextValues, values...), int32(v))
	}
}

// list finds all ways to a sum from low up, by meeting in the middle (E. Horowitz
// and S. Sahni, Computing partitions with applications to the knapsack problem,
// Journal of the ACM 21, 1974).
func (b *span) list(columns []Column, low int64, halves *[2]half) {
	var sides [2][]int
	for k := range b.cols {
		sides[k%2] = append(sides[k%2], k)
	}
	one, other := &halves[0], &halves[1]
	if !one.fill(b, sides[0], columns) || !other.fill(b, sides[1], columns) {
		return
	}
	type way struct {
		sum  int64
		a, b int
	}
	var ways []way
	rising := other.rising()
	for a, sum := range one.sums {
		at, _ := slices.BinarySearchFunc(rising, low-sum, func(i int, least int64) int { return cmp.Compare(other.sums[i], least) })
		for _, i := range rising[at:] {
			if sum+other.sums[i] > b.high {
				break
			}
			ways = append(ways, way{sum + other.sums[i], a, i})
		}
		if len(ways) > mostListed {
			return
		}
	}
	slices.SortStableFunc(ways, func(x, y way) int { return cmp.Compare(y.sum, x.sum) })
	b.ways = listing{full: true, sums: make([]int64, len(ways)), upTo: make([]choices, len(b.cols))}
	values := make([]int32, len(ways)*len(b.cols))
	for w, y := range ways {
		b.ways.sums[w] = y.sum
		one.choice(y.a, values[w*len(b.cols):])
		other.choice(y.b, values[w*len(b.cols):])
	}
	for k := range b.cols {
		b.ways.upTo[k] = choicesOf(values, k, len(b.cols))
	}
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

// rising is the ways of a half, those with small sums first.
func (h *half) rising() []int {
	order := make([]int, len(h.sums))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(x, y int) int { return cmp.Or(cmp.Compare(h.sums[x], h.sums[y]), cmp.Compare(x, y)) })
	return order
}

// choice writes way w of the half into the values of all columns of the span.
func (h *half) choice(w int, values []int32) {
	for i, k := range h.of {
		values[k] = h.values[w*len(h.of)+i]
	}
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
