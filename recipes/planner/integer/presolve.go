package integer

import (
	"math/big"
	"slices"
)

// mostSums is the largest sum that rows are tightened to.
const mostSums = 1 << 17

// presolve returns the model with its domains and rows as tight as whole
// numbers allow, without the rows that cannot bind, and reports false when one
// of them cannot be kept at all.
func (m *Model) presolve() (*Model, bool) {
	tight := *m
	tight.Columns = make([]Column, len(m.Columns))
	for j, c := range m.Columns {
		if c.Most < c.Batch {
			c.Most = 0 // not even one batch
		}
		if c.Least > 0 {
			c.Least = max(c.Least, c.Batch)
		}
		if c.Least > c.Most {
			return nil, false
		}
		tight.Columns[j] = c
	}
	tight.Rows = nil
	for _, r := range m.Rows {
		r.Terms = withoutZeros(r.Terms)
		r.Limit = tight.reachable(r)
		if tight.binds(r) {
			tight.Rows = append(tight.Rows, r)
			if len(r.Terms) == 0 {
				return nil, false
			}
		}
	}
	return &tight, true
}

// withoutZeros leaves out what counts for nothing; the terms given stay as they are.
func withoutZeros(terms []Term) []Term {
	isZero := func(t Term) bool { return t.Coef.Sign() == 0 }
	if !slices.ContainsFunc(terms, isZero) {
		return terms
	}
	return slices.DeleteFunc(slices.Clone(terms), isZero)
}

// binds reports whether the box holds a point that breaks the row.
func (m *Model) binds(r Row) bool {
	var sum, term big.Int
	for _, t := range r.Terms {
		at := m.Columns[t.Column].Least
		if t.Coef.Sign() > 0 {
			at = m.Columns[t.Column].Most
		}
		sum.Add(&sum, term.Mul(t.Coef, term.SetInt64(at)))
	}
	return sum.Cmp(r.Limit) > 0
}

// reachable is the largest sum up to the row's limit that whole numbers can
// make (the subset-sum recursion; Martello and Toth, Knapsack Problems, Wiley
// 1990, 4.2), or the limit itself when a coefficient is negative or there are
// too many sums to list.
func (m *Model) reachable(r Row) *big.Int {
	for _, t := range r.Terms {
		if t.Coef.Sign() < 0 {
			return r.Limit
		}
	}
	unit := r.unit()
	if unit.Sign() == 0 || r.Limit.Sign() < 0 {
		return r.Limit
	}
	limit := new(big.Int).Quo(r.Limit, unit)
	if !limit.IsInt64() || limit.Int64() > mostSums {
		return r.Limit
	}
	size := uint(limit.Int64()) + 1
	sums := m.sumsOf(r, unit, size)
	if sums == nil || sums.empty() {
		return r.Limit
	}
	return unit.Mul(unit, big.NewInt(int64(sums.highest())))
}

// sumsOf are the sums below size, in units, that whole numbers can make of a row; nil
// where a column that has to be above nought makes larger ones alone.
func (m *Model) sumsOf(r Row, unit *big.Int, size uint) bitset {
	sums, with := bitsetOf(size), bitsetOf(size)
	sums.add(0)
	var step big.Int
	for _, t := range r.Terms {
		c := m.Columns[t.Column]
		if step.Quo(t.Coef, unit); !step.IsInt64() || step.Int64() >= int64(size) {
			if c.Least > 0 {
				return nil
			}
			continue
		}
		clear(with)
		c.sums(with, sums, uint64(step.Int64()))
		sums, with = with, sums
	}
	sums.cut(size)
	return sums
}

// groups splits the columns into groups that share no row and no goal that
// cannot be taken apart. What Repair and Separate do is not known, so with
// either there is one group.
func (m *Model) groups() [][]int {
	leader := make([]int, len(m.Columns))
	for j := range leader {
		leader[j] = j
	}
	find := func(j int) int {
		for leader[j] != j {
			j = leader[j]
		}
		return j
	}
	tie := func(a, b int) {
		a, b = find(a), find(b)
		leader[max(a, b)] = min(a, b)
	}
	whole := m.Repair != nil || m.Separate != nil
	for j := range leader {
		if whole {
			tie(0, j)
		}
	}
	for _, terms := range m.bonds() {
		for _, t := range terms {
			tie(terms[0].Column, t.Column)
		}
	}
	groups := make([][]int, len(leader))
	for j := range leader {
		groups[find(j)] = append(groups[find(j)], j)
	}
	return groups
}

// bonds lists the columns that belong together.
func (m *Model) bonds() [][]Term {
	var bonds [][]Term
	for _, r := range m.Rows {
		bonds = append(bonds, r.Terms)
	}
	for _, l := range m.Levels {
		switch g := l.Goal.(type) {
		case Linear:
			if g.Enough != nil {
				bonds = append(bonds, g.Terms)
			}
		case Concave:
			var all []Term
			for _, minimum := range g.Minima {
				bonds = append(bonds, minimum.terms())
				all = append(all, minimum.terms()...)
			}
			if g.Whole != nil {
				bonds = append(bonds, all)
			}
		}
	}
	return bonds
}

// terms lists the terms of all rows of the minimum.
func (m Minimum) terms() []Term {
	var all []Term
	for _, r := range m {
		all = append(all, r.Terms...)
	}
	return all
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
