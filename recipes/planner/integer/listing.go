package integer

import (
	"cmp"
	"slices"
)

const (
	mostListed = 3_000  // ways to come to a sum, for a listing to pay
	mostHalves = 15_000 // ways to choose half the columns that are looked at for it
)

// A listing is every way in which whole numbers make a span's sum end between its
// bounds, the largest sums first.
type listing struct {
	full   bool // false: none, there were too many ways
	tried  int64
	sums   []int64
	values []int32 // by way and column of the span
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
	b.ways = listing{full: true, sums: make([]int64, len(ways)), values: make([]int32, len(ways)*len(b.cols))}
	for w, y := range ways {
		b.ways.sums[w] = y.sum
		values := b.ways.values[w*len(b.cols):]
		one.choice(y.a, values)
		other.choice(y.b, values)
	}
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

// isLeft tells values of the span's columns that are in the node's box.
func (b *span) isLeft(t *tableau, values []int32) bool {
	for k, j := range b.cols {
		if v := int64(values[k]); v < t.low[j] || v > t.high[j] || v > 0 && v < t.shape.batch[j] {
			return false
		}
	}
	return true
}

// keep narrows the span's columns at the node to the ways that are left with a sum
// of at least low, and returns the largest of these sums; false when none is left.
func (b *span) keep(t *tableau, low int64) (best int64, ok bool) {
	n := len(b.cols)
	t.ways = slices.Grow(t.ways[:0], n)[:n]
	for k, j := range b.cols {
		t.ways[k] = interval{t.high[j], t.low[j]}
	}
	for w, sum := range b.ways.sums {
		if sum < low {
			break
		}
		values := b.ways.values[w*n : (w+1)*n]
		if !b.isLeft(t, values) {
			continue
		}
		if !ok {
			best, ok = sum, true
		}
		for k, v := range values {
			t.ways[k] = interval{min(t.ways[k].low, int64(v)), max(t.ways[k].high, int64(v))}
		}
	}
	if ok {
		b.restrict(t)
	}
	return best, ok
}

// restrict narrows the span's columns at the node to the ways found.
func (b *span) restrict(t *tableau) {
	for k, j := range b.cols {
		if is := t.ways[k]; is.low > t.low[j] || is.high < t.high[j] {
			t.restrict(j, is.low, is.high)
		}
	}
}
