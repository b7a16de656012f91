package integer

import (
	"cmp"
	"iter"
	"slices"
	"sort"
)

// How many ways to choose half the columns of a span are looked at for a listing: in
// short, and once a search has gone on for long.
const (
	mostHalves = 15_000
	longHalves = 200_000
)

// A half is the ways to choose some of a span's columns.
type half struct {
	of   []int // which of the span's columns
	sums []int64
	made [][]extension // by column of the half: the ways to choose it and those before it
	next []int64       // scratch
}

// An extension is a way to choose one column more.
type extension struct {
	of    int32 // the way it makes longer
	value int32 // of the column
}

// fill lists the choices of the half's columns that come to at most the span's highest
// sum; false when they are more than most.
func (h *half) fill(b *span, columns []Column, most int) bool {
	h.sums = append(h.sums[:0], 0)
	for len(h.made) < len(h.of) {
		h.made = append(h.made, nil)
	}
	for n, k := range h.of {
		h.made[n], h.next = h.made[n][:0], h.next[:0]
		for w := range h.sums {
			h.extend(n, int32(w), columns[b.cols[k]], b.steps[k], b.high)
			if len(h.next) > most {
				return false
			}
		}
		h.sums, h.next = h.next, h.sums
	}
	return true
}

// extend makes way w of the first n columns longer by every value of a column.
func (h *half) extend(n int, w int32, c Column, step, highest int64) {
	for v := range c.values() {
		sum := h.sums[w] + v*step
		if sum > highest {
			break
		}
		h.made[n], h.next = append(h.made[n], extension{w, int32(v)}), append(h.next, sum)
	}
}

// values are what a column may come to, rising.
func (c Column) values() iter.Seq[int64] {
	return func(yield func(int64) bool) {
		if c.Least == 0 && !yield(0) {
			return
		}
		for v := max(c.Least, c.Batch, 1); v <= c.Most && yield(v); v++ {
		}
	}
}

// write writes way w of the half into the values of all columns of the span.
func (h *half) write(w int32, values []int32) {
	for n := len(h.of) - 1; n >= 0; n-- {
		x := h.made[n][w]
		values[h.of[n]], w = x.value, x.of
	}
}

// A halfSum is what way at of a half comes to.
type halfSum struct {
	sum int64
	at  int32
}

// rising is the ways of a half, those with small sums first.
func (h *half) rising() []halfSum {
	list := make([]halfSum, len(h.sums))
	for i, sum := range h.sums {
		list[i] = halfSum{sum, int32(i)}
	}
	slices.SortFunc(list, func(x, y halfSum) int {
		if x.sum != y.sum {
			return cmp.Compare(x.sum, y.sum)
		}
		return cmp.Compare(x.at, y.at)
	})
	return list
}

// part deals the columns out to two halves that can be chosen in about as many ways.
func (b *span) part(columns []Column, halves *[2]half) {
	ways := make([]float64, len(b.cols))
	order := make([]int, len(b.cols))
	for k, j := range b.cols {
		c := columns[j]
		ways[k] = float64(1 + max(0, min(c.Most, b.high/b.steps[k])-max(c.Least, c.Batch-1)))
		order[k] = k
	}
	slices.SortStableFunc(order, func(x, y int) int { return cmp.Compare(ways[y], ways[x]) })
	total := [2]float64{1, 1}
	halves[0].of, halves[1].of = halves[0].of[:0], halves[1].of[:0]
	for _, k := range order {
		side := 0
		if total[1] < total[0] {
			side = 1
		}
		halves[side].of = append(halves[side].of, k)
		total[side] *= ways[k]
	}
}

// listWays finds all ways to a sum from low up, by meeting in the middle (E. Horowitz
// and S. Sahni, Computing partitions with applications to the knapsack problem,
// Journal of the ACM 21, 1974), unless there are clearly too many.
func (p *program) listWays(b *span, low int64) {
	if b.about(p.columns, low) > 2*mostListed {
		return
	}
	most := mostHalves
	if p.atLength {
		most = longHalves
	}
	b.part(p.columns, &p.halves)
	one, other := &p.halves[0], &p.halves[1]
	if !one.fill(b, p.columns, most) || !other.fill(b, p.columns, most) {
		b.ways.short = !p.atLength
		return
	}
	if len(one.sums) < len(other.sums) {
		one, other = other, one
	}
	if ways, ok := joined(one, other, low, b.high); ok {
		b.keepWays(ways, one, other)
	}
}

// A way chooses both halves.
type way struct {
	sum        int64
	one, other int32
}

// joined are the ways of two halves together to a sum between low and high, the largest
// first; false where they are too many.
func joined(one, other *half, low, high int64) (ways []way, ok bool) {
	rising := other.rising()
	for w, sum := range one.sums {
		at := sort.Search(len(rising), func(i int) bool { return rising[i].sum >= low-sum })
		for _, o := range rising[at:] {
			if sum+o.sum > high {
				break
			}
			ways = append(ways, way{sum + o.sum, int32(w), o.at})
		}
		if len(ways) > mostListed {
			return nil, false
		}
	}
	slices.SortStableFunc(ways, func(x, y way) int { return cmp.Compare(y.sum, x.sum) })
	return ways, true
}

// keepWays lists the ways, and by column what it comes to in them.
func (b *span) keepWays(ways []way, one, other *half) {
	n := len(b.cols)
	values := make([]int32, len(ways)*n)
	b.ways.full, b.ways.sums, b.ways.upTo = true, make([]int64, len(ways)), make([]choices, n)
	for i, w := range ways {
		b.ways.sums[i] = w.sum
		one.write(w.one, values[i*n:])
		other.write(w.other, values[i*n:])
	}
	for k := range n {
		b.ways.upTo[k] = choicesOf(values, k, n)
	}
}

// buckets is how finely sums are told apart to say about how many ways there are.
const buckets = 128

// about is roughly how many ways there are to a sum from low up: those to each bucket
// of sums are counted, and of the highest buckets the share that is asked for is taken.
func (b *span) about(columns []Column, low int64) float64 {
	wide := b.high/buckets + 1
	top := b.high / wide
	count, next := make([]float64, top+1), make([]float64, top+1)
	count[0] = 1
	for k, j := range b.cols {
		c := columns[j]
		if c.Most-c.Least > mostHalves {
			return 0 // soon found to be too many
		}
		clear(next)
		for v := range c.values() {
			by := (v*b.steps[k] + wide/2) / wide
			if by > top {
				break
			}
			addTo(next[by:], count)
		}
		count, next = next, count
	}
	from := max(0, min(low/wide, top-2))
	sum := 0.0
	for _, ways := range count[from:] {
		sum += ways
	}
	return sum * float64(b.high-low+1) / float64(b.high+1-from*wide)
}

// addTo adds the numbers of one list to those of another, as far as that goes.
func addTo(list, more []float64) {
	for i := range list {
		list[i] += more[i]
	}
}
