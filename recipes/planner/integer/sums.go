package integer

import (
	"math"
	"math/big"
	"slices"
)

// A span asks that a sum of whole multiples end between two bounds that lie
// close together: low ≤ Σ steps[k]·x[cols[k]] ≤ high. Linear relaxations are
// blind to which sums whole numbers can make, so spans are filtered by the sums
// themselves (M. A. Trick, A dynamic programming approach for consistency and
// propagation for knapsack constraints, Annals of Operations Research 118,
// 2003), where these are few enough to list. They follow from what a concave goal
// must still come to.
type span struct {
	floor, minimum int // whose row this is
	cols           []int
	steps          []int64
	unit           int64 // what one step is worth
	rest           int64 // minimum ≤ rest + unit × sum
	high           int64
	ways           listing
}

// The bit lengths of the largest values and steps that spans reckon with.
const (
	mostCounted = 55
	mostStep    = 40
)

// addSpans lists the spans of all floors whose numbers are small enough, and the
// most that their minima can reach.
func (p *program) addSpans() {
	p.reach, p.listed = make([]int64, len(p.minima)), make([]bool, len(p.columns))
	for f := range p.floors {
		spans, ok := p.spansOf(f)
		if ok {
			p.spans = append(p.spans, spans...)
		}
	}
}

// spansOf lists the spans of one floor; false where its numbers are too large.
func (p *program) spansOf(f int) (spans []span, ok bool) {
	for _, g := range p.floors[f].minima {
		for i := range p.minima[g] {
			row := &p.minima[g][i]
			most := p.mostOf(row)
			if most.BitLen() > mostCounted || row.Limit.BitLen() > mostCounted {
				return nil, false
			}
			if b, ok := newSpan(row, most.Int64()); ok {
				b.floor, b.minimum = f, g
				spans = append(spans, b)
			}
			if value := most.Int64() + row.Limit.Int64(); i == 0 || value < p.reach[g] {
				p.reach[g] = value
			}
		}
	}
	return spans, true
}

// mostOf is the most that −Σ Coef·x of a minimum's row can come to, by the
// columns' domains and by the row that bounds the same sum.
func (p *program) mostOf(row *Row) *big.Int {
	_, most := p.slackRange(row)
	most.Sub(most, row.Limit)
	if limit := p.limitOf(row); limit != nil && limit.Cmp(most) < 0 {
		return limit
	}
	return most
}

// newSpan makes the span of a minimum's row; ok is false when it has no column or
// falls with any.
func newSpan(row *Row, most int64) (b span, ok bool) {
	unit := row.unit()
	if unit.Sign() == 0 || !unit.IsInt64() || !row.rises() || most < 0 {
		return span{}, false
	}
	b = span{unit: unit.Int64(), rest: row.Limit.Int64(), ways: listing{tried: -1}}
	b.high = most / b.unit
	for _, t := range row.Terms {
		step := new(big.Int).Quo(t.Coef, unit)
		if step.BitLen() > mostStep {
			return span{}, false
		}
		b.cols = append(b.cols, t.Column)
		b.steps = append(b.steps, -step.Int64())
	}
	return b, true
}

// sumFor is the least sum with which the span's minimum comes to value.
func (b *span) sumFor(value int64) int64 { return max(0, (value-b.rest+b.unit-1)/b.unit) }

// worth is the most the span's minimum comes to with a sum.
func (b *span) worth(sum int64) int64 { return b.rest + b.unit*sum }

// rises reports whether the row's slack falls with no column.
func (r *Row) rises() bool {
	return !slices.ContainsFunc(r.Terms, func(t Term) bool { return t.Coef.Sign() > 0 })
}

// unit is the greatest common divisor of the row's coefficients.
func (r *Row) unit() *big.Int {
	small := int64(0)
	for _, t := range r.Terms {
		if !t.Coef.IsInt64() || t.Coef.Int64() == math.MinInt64 {
			return r.largeUnit()
		}
		for a := t.Coef.Int64(); a != 0; {
			small, a = a, small%a
		}
	}
	return big.NewInt(max(small, -small))
}

// largeUnit is unit for coefficients of any size.
func (r *Row) largeUnit() *big.Int {
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
	if s.work.nodes < s.work.listing {
		return true
	}
	for f := range s.prog.floors {
		if !s.filterFloor(t, f) {
			return false
		}
	}
	return true
}

// filterFloor is filter for one floor. It goes round for as long as less can be
// reached than was thought.
func (s *search) filterFloor(t *tableau, f int) bool {
	reach := make([]int64, len(s.prog.minima))
	least := s.leastOf(f)
	if least.BitLen() > mostCounted {
		return true
	}
	spare := -least.Int64()
	for _, g := range s.prog.floors[f].minima {
		reach[g] = s.prog.reach[g]
		spare += reach[g]
	}
	for again := true; again && spare >= 0; {
		again = false
		for i := range s.prog.spans {
			if s.prog.spans[i].floor != f || spare < 0 {
				continue
			}
			less, ok := s.filterSpan(t, &s.prog.spans[i], reach, spare)
			if !ok {
				return false
			}
			spare, again = spare-less, again || less > 0
		}
	}
	return spare >= 0
}

// filterSpan narrows one span's columns to what its floor can spare, and takes from
// what can be reached what that shows to be too much; false where nothing is left.
func (s *search) filterSpan(t *tableau, b *span, reach []int64, spare int64) (less int64, ok bool) {
	low := b.sumFor(reach[b.minimum] - spare)
	tried, short := b.ways.tried, b.ways.short
	s.prog.atLength = s.work.nodes >= s.work.length
	full := s.prog.list(b, low)
	if b.ways.tried != tried || b.ways.short != short {
		s.work.listed++
	}
	if !full {
		return 0, true
	}
	best, ok := b.keep(t, low)
	if !ok {
		return 0, false
	}
	less = max(0, reach[b.minimum]-b.worth(best))
	reach[b.minimum] -= less
	return less, true
}

// leastOf is what the minima of a floor must come to: for a solution, or for a
// better one than the incumbent.
func (s *search) leastOf(f int) *big.Int {
	least := s.prog.floors[f].least
	if s.worth != nil && s.goal.minima != nil && s.goal.floor == f && s.worth.Cmp(least) >= 0 {
		return s.goal.above(s.worth)
	}
	return least
}
