package integer

import (
	"math"
	"math/big"
	"slices"
)

const (
	mostSums   = 1 << 17 // the largest sum that lists of sums go to
	coarseSums = 1 << 14 // and where they are counted coarsely
	// coarseAfter is how many nodes are spent before coarse sums are looked at, which
	// cost more than a node and are seldom needed.
	coarseAfter = 100
)

// A span asks that a sum of whole multiples end between two bounds that lie
// close together: low ≤ Σ steps[k]·x[cols[k]] ≤ high. Linear relaxations are
// blind to which sums whole numbers can make, so spans are filtered by the sums
// themselves (M. A. Trick, A dynamic programming approach for consistency and
// propagation for knapsack constraints, Annals of Operations Research 118,
// 2003). They follow from what a concave goal must still come to. Sums too many to
// list are counted in coarse units: each column's multiple is rounded down, and what
// that loses at most is taken off the lower bound.
type span struct {
	cols    []int
	steps   []uint64
	minimum int        // whose row this is
	unit    *big.Int   // what one step is worth
	lost    []*big.Int // by column, where coarse: what of its coefficient the steps leave out
	rest    *big.Int   // minimum ≤ rest + unit × sum
	high    int64
}

// addSpans lists the spans of all minima and the most each can reach.
func (p *program) addSpans() {
	p.reach = make([]*big.Int, len(p.minima))
	for g := range p.minima {
		for i := range p.minima[g] {
			row := &p.minima[g][i]
			most := p.mostOf(row)
			if b, ok := newSpan(g, row, most); ok {
				p.spans = append(p.spans, b)
			}
			if most.Add(most, row.Limit); p.reach[g] == nil || most.Cmp(p.reach[g]) < 0 {
				p.reach[g] = most
			}
		}
	}
}

// mostOf is the most that −Σ Coef·x of a minimum's row can come to, by the
// columns' domains and by the row that bounds the same sum.
func (p *program) mostOf(row *Row) *big.Int {
	most := new(big.Int)
	var term big.Int
	for _, t := range row.Terms {
		at := p.columns[t.Column].Most
		if t.Coef.Sign() > 0 {
			at = p.columns[t.Column].Least
		}
		most.Sub(most, term.Mul(t.Coef, term.SetInt64(at)))
	}
	if limit := p.limitOf(row); limit != nil && limit.Cmp(most) < 0 {
		return limit
	}
	return most
}

// newSpan makes the span of a minimum's row; ok is false when it has but one
// column, falls with any of them, or has too many sums to list.
func newSpan(g int, row *Row, most *big.Int) (b span, ok bool) {
	if len(row.Terms) < 2 || !row.rises() {
		return span{}, false
	}
	unit := row.unit()
	high := new(big.Int).Quo(most, unit)
	if high.Sign() < 0 {
		return span{}, false
	}
	b = span{minimum: g, unit: unit, rest: row.Limit}
	coarse := high.Cmp(big.NewInt(mostSums)) > 0
	if coarse {
		b.unit = new(big.Int).Rsh(most, 14)
		b.unit.Add(b.unit, big.NewInt(1))
		high.Quo(most, b.unit)
	}
	b.high = high.Int64()
	for _, t := range row.Terms {
		step, lost := new(big.Int).QuoRem(new(big.Int).Neg(t.Coef), b.unit, new(big.Int))
		if !step.IsInt64() || step.Int64() > mostSums {
			return span{}, false
		}
		b.cols = append(b.cols, t.Column)
		b.steps = append(b.steps, uint64(step.Int64()))
		if coarse {
			b.lost = append(b.lost, lost)
		}
	}
	return b, true
}

// rises reports whether the row's slack falls with no column.
func (r *Row) rises() bool {
	return !slices.ContainsFunc(r.Terms, func(t Term) bool { return t.Coef.Sign() > 0 })
}

// unit is the greatest common divisor of the row's coefficients.
func (r *Row) unit() *big.Int {
	unit := new(big.Int)
	for _, t := range r.Terms {
		unit.GCD(nil, nil, unit, t.Coef)
	}
	return unit
}

// limitOf finds the tightest row that bounds −Σ Coef·x of a minimum's row, and
// gives its limit in that sum's units; nil when there is none.
func (p *program) limitOf(row *Row) *big.Int {
	if !row.rises() || len(row.Terms) == 0 {
		return nil
	}
	var best *big.Int
	for i := range p.rows {
		r := &p.rows[i]
		if !r.against(row) {
			continue
		}
		limit := new(big.Int).Mul(r.Limit, row.Terms[0].Coef)
		limit.Quo(limit.Neg(limit), r.Terms[0].Coef)
		if best == nil || limit.Cmp(best) < 0 {
			best = limit
		}
	}
	return best
}

// against reports whether the row is a negative multiple of a row that rises.
func (r *Row) against(o *Row) bool {
	if len(r.Terms) != len(o.Terms) || r.Terms[0].Coef.Sign() <= 0 {
		return false
	}
	var a, b big.Int
	for k, t := range r.Terms {
		if t.Column != o.Terms[k].Column ||
			a.Mul(t.Coef, o.Terms[0].Coef).Cmp(b.Mul(o.Terms[k].Coef, r.Terms[0].Coef)) != 0 {
			return false
		}
	}
	return true
}

// filter narrows the node's box to what the spans allow; it reports false when
// one cannot be met. What one minimum must come to follows from what its floor,
// or the value to exceed, asks of all and from the most the others can reach.
func (s *search) filter(t *tableau) bool {
	for f := range s.prog.floors {
		floor := &s.prog.floors[f]
		least := floor.least
		if s.worth != nil && s.goal.minima != nil && s.goal.floor == f && s.worth.Cmp(least) >= 0 {
			least = s.goal.above(s.worth)
		}
		spare := new(big.Int).Neg(least)
		for _, g := range floor.minima {
			spare.Add(spare, s.prog.reach[g])
		}
		if spare.Sign() < 0 {
			return false
		}
		for i := range s.prog.spans {
			b := &s.prog.spans[i]
			if !slices.Contains(floor.minima, b.minimum) || b.lost != nil && s.work.nodes < coarseAfter {
				continue
			}
			low := new(big.Int).Sub(s.prog.reach[b.minimum], spare)
			if !b.narrow(t, b.sumFor(low.Sub(low, b.loss(t)))) {
				return false
			}
		}
	}
	return true
}

// sumFor is the least sum with which the span's minimum comes to value.
func (b *span) sumFor(value *big.Int) int64 {
	v := new(big.Int).Sub(b.rest, value)
	v.Div(v, b.unit) // rounds down, so that its negative is rounded up
	switch {
	case v.Sign() >= 0:
		return 0
	case !v.IsInt64():
		return math.MaxInt64
	}
	return -v.Int64()
}

// loss is the most that the node's columns leave out of a coarse sum.
func (b *span) loss(t *tableau) *big.Int {
	sum := new(big.Int)
	var part big.Int
	for k, lost := range b.lost {
		sum.Add(sum, part.Mul(lost, part.SetInt64(t.high[b.cols[k]])))
	}
	return sum
}

// narrow filters the columns of the span by the sums that end in low…high.
func (b *span) narrow(t *tableau, low int64) bool {
	if low > b.high {
		return false
	}
	widest, open := uint64(0), false
	for k, j := range b.cols {
		if t.low[j] < t.high[j] {
			open, widest = true, max(widest, b.steps[k])
		}
	}
	if !open || uint64(b.high-low) >= widest {
		return true // the relaxation sees as much
	}
	size := uint(b.high) + 1
	ahead := make([]bitset, len(b.cols)+1) // ahead[k]: the sums of the first k columns
	for k := range ahead {
		ahead[k] = t.room(size, k)
	}
	ahead[0].add(0)
	for k, j := range b.cols {
		t.domain(j).sums(ahead[k+1], ahead[k], b.steps[k])
	}
	goal, before := t.room(size, len(ahead)), t.room(size, len(ahead)+1)
	goal.addRange(uint(low), uint(b.high))
	if !goal.meets(ahead[len(b.cols)], 0) {
		return false
	}
	for k := len(b.cols) - 1; k >= 0; k-- {
		j := b.cols[k]
		t.trim(j, ahead[k], goal, b.steps[k])
		t.domain(j).before(before, goal, b.steps[k])
		goal, before = before, goal
	}
	return true
}

// room is the scratch set of number k, emptied, for the numbers below size.
func (t *tableau) room(size uint, k int) bitset {
	sets := t.shape.sets
	for len(sets) <= k {
		sets = append(sets, nil)
	}
	t.shape.sets = sets
	if words := int(size+63) / 64; cap(sets[k]) < words {
		sets[k] = bitsetOf(size)
	} else {
		sets[k] = sets[k][:words]
		clear(sets[k])
	}
	return sets[k]
}

// trim narrows column j to the values with which one of the sums ahead ends in
// the goal. There is one.
func (t *tableau) trim(j int, ahead, goal bitset, step uint64) {
	fits := func(v int64) bool { return goal.meets(ahead, uint64(v)*step) }
	low, high := t.low[j], t.high[j]
	batch := t.shape.batch[j]
	for low < high && !fits(low) {
		if low++; low < batch {
			low = min(high, batch)
		}
	}
	for high > low && !fits(high) {
		if high--; high < batch {
			high = 0
		}
	}
	if low != t.low[j] || high != t.high[j] {
		t.restrict(j, low, high)
	}
}

// domain is column j as the node has it.
func (t *tableau) domain(j int) Column {
	return Column{Least: t.low[j], Most: t.high[j], Batch: t.shape.batch[j]}
}

// sums makes with what the column's values, times step, make of each of the sums.
func (c Column) sums(with, sums bitset, step uint64) {
	if first := max(1, c.Batch, c.Least); first <= c.Most {
		with.setRaised(sums, uint64(first)*step)
		more := uint64(c.Most - first)
		for n := uint64(1); more > 0; n *= 2 {
			n = min(n, more)
			more -= n
			with.raise(n * step)
		}
	}
	if c.Least == 0 {
		with.join(sums)
	}
}

// before makes set the sums from which the column's values reach the goal.
func (c Column) before(set, goal bitset, step uint64) {
	clear(set)
	if first := max(1, c.Batch, c.Least); first <= c.Most {
		set.setLowered(goal, uint64(first)*step)
		more := uint64(c.Most - first)
		for n := uint64(1); more > 0; n *= 2 {
			n = min(n, more)
			more -= n
			set.lower(n * step)
		}
	}
	if c.Least == 0 {
		set.join(goal)
	}
}
