package planner

import (
	"math/big"
	"slices"
)

// A band asks that a sum of whole multiples end between two bounds that lie
// close together: low ≤ Σ steps[k]·x[cols[k]] ≤ high. Linear relaxations are
// blind to which sums whole numbers can make, so bands are filtered by the sums
// themselves (M. A. Trick, A dynamic programming approach for consistency and
// propagation for knapsack constraints, Annals of Operations Research 118,
// 2003). They follow from what must come from lots to be used today.
type band struct {
	cols  []int
	steps []uint
	gain  int      // whose piece this is
	unit  *big.Int // what one step is worth
	rest  *big.Int // gain ≤ rest + unit × sum
	high  int64
}

// addBands lists the bands of all gains and the most each gain can reach.
func (p *program) addBands() {
	p.reach = make([]*big.Int, len(p.gains))
	for g := range p.gains {
		for i := range p.gains[g] {
			piece := &p.gains[g][i]
			most := p.mostOf(piece)
			if b, ok := newBand(g, piece, most); ok {
				p.bands = append(p.bands, b)
			}
			if most.Add(most, piece.limit); p.reach[g] == nil || most.Cmp(p.reach[g]) < 0 {
				p.reach[g] = most
			}
		}
	}
}

// mostOf is the most the sum of a gain's piece can come to, by the columns'
// domains and by the row that bounds the same sum.
func (p *program) mostOf(piece *row) *big.Int {
	most := new(big.Int)
	var term big.Int
	for k, c := range piece.coefs {
		most.Sub(most, term.Mul(c, term.SetInt64(p.columns[piece.cols[k]].most)))
	}
	if limit := p.limitOf(piece); limit != nil && limit.Cmp(most) < 0 {
		return limit
	}
	return most
}

// newBand makes the band of a gain's piece; ok is false when it has but one
// column or too many sums to list.
func newBand(g int, piece *row, most *big.Int) (b band, ok bool) {
	if len(piece.cols) < 2 {
		return band{}, false
	}
	unit := new(big.Int)
	for _, c := range piece.coefs {
		unit.GCD(nil, nil, unit, c)
	}
	high := new(big.Int).Quo(most, unit)
	if !high.IsInt64() || high.Int64() > mostSums {
		return band{}, false
	}
	b = band{cols: piece.cols, gain: g, unit: unit, rest: piece.limit, high: high.Int64()}
	for _, c := range piece.coefs {
		step := new(big.Int).Quo(c, unit)
		if !step.IsInt64() || step.Int64() < -mostSums {
			return band{}, false
		}
		b.steps = append(b.steps, uint(-step.Int64()))
	}
	return b, true
}

// limitOf finds the tightest row that bounds the same sum as the piece, and gives
// its limit in the piece's units; nil when there is none.
func (p *program) limitOf(piece *row) *big.Int {
	var best *big.Int
	for i := range p.rows {
		r := &p.rows[i]
		if !r.alongside(piece) {
			continue
		}
		limit := new(big.Int).Mul(r.limit, piece.coefs[0])
		limit.Quo(limit.Neg(limit), r.coefs[0])
		if best == nil || limit.Cmp(best) < 0 {
			best = limit
		}
	}
	return best
}

// alongside reports whether the row is a positive multiple of the piece's sum,
// whose coefficients are negative.
func (r *row) alongside(piece *row) bool {
	if len(piece.cols) == 0 || !slices.Equal(r.cols, piece.cols) || r.coefs[0].Sign() <= 0 {
		return false
	}
	var a, b big.Int
	for k := range r.cols {
		if a.Mul(r.coefs[k], piece.coefs[0]).Cmp(b.Mul(piece.coefs[k], r.coefs[0])) != 0 {
			return false
		}
	}
	return true
}

// filter narrows the node's box to what the bands allow; it reports false when
// a band cannot be met. What one gain must come to follows from what a floor, or
// the value to exceed, asks of all and from the most the others can reach.
func (s *search) filter(t *tableau) bool {
	for f := range s.prog.floors {
		least := s.prog.floors[f].least
		if s.worth != nil && len(s.goal.gains) > 0 && s.worth.Cmp(least) >= 0 {
			least = new(big.Int).Add(s.worth, big.NewInt(1))
		}
		spare := new(big.Int).Neg(least)
		for _, g := range s.prog.floors[f].gains {
			spare.Add(spare, s.prog.reach[g])
		}
		if spare.Sign() < 0 {
			return false
		}
		for i := range s.prog.bands {
			b := &s.prog.bands[i]
			low := new(big.Int).Sub(s.prog.reach[b.gain], spare)
			if !b.narrow(t, b.sumFor(low)) {
				return false
			}
		}
	}
	return true
}

// sumFor is the least sum with which the band's gain comes to value.
func (b *band) sumFor(value *big.Int) int64 {
	v := new(big.Int).Sub(b.rest, value)
	v.Div(v, b.unit) // rounds down, so that its negative is rounded up
	if v.Sign() >= 0 {
		return 0
	}
	return -v.Int64()
}

// narrow filters the columns of the band by the sums that end in low…high.
func (b *band) narrow(t *tableau, low int64) bool {
	if low > b.high {
		return false
	}
	widest, open := uint(0), false
	for k, j := range b.cols {
		if t.low[j] < t.high[j] {
			open, widest = true, max(widest, b.steps[k])
		}
	}
	if !open || uint(b.high-low) >= widest {
		return true // the relaxation sees as much
	}
	room := uint(b.high) + 1
	full := ones(room)
	ahead := []*big.Int{big.NewInt(1)} // ahead[k]: the sums of the first k columns
	for k, j := range b.cols {
		ahead = append(ahead, t.domain(j).sums(ahead[k], full, b.steps[k], room))
	}
	goal := new(big.Int).Lsh(ones(uint(b.high-low)+1), uint(low))
	if new(big.Int).And(ahead[len(b.cols)], goal).Sign() == 0 {
		return false
	}
	for k := len(b.cols) - 1; k >= 0; k-- {
		j := b.cols[k]
		t.trim(j, ahead[k], goal, b.steps[k])
		goal = t.domain(j).before(goal, b.steps[k])
	}
	return true
}

// trim narrows column j to the values with which one of the sums ahead ends in
// the goal. There is one.
func (t *tableau) trim(j int, ahead, goal *big.Int, step uint) {
	var hit big.Int
	fits := func(v int64) bool {
		return hit.And(hit.Lsh(ahead, uint(v)*step), goal).Sign() != 0
	}
	low, high := t.low[j], t.high[j]
	batch := t.shape.prog.columns[j].batch
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

// ones is the set of 0…n-1.
func ones(n uint) *big.Int {
	set := new(big.Int).Lsh(big.NewInt(1), n)
	return set.Sub(set, big.NewInt(1))
}

// domain is column j as the node has it.
func (t *tableau) domain(j int) column {
	c := t.shape.prog.columns[j]
	c.least, c.most = t.low[j], t.high[j]
	return c
}

// before is the set of sums from which the column's values reach the goal.
func (c column) before(goal *big.Int, step uint) *big.Int {
	set := new(big.Int)
	var part big.Int
	if c.least == 0 {
		set.Set(goal)
	}
	for v := max(c.least, c.batch, 1); v <= c.most; v++ {
		part.Rsh(goal, uint(v)*step)
		if part.Sign() == 0 {
			break
		}
		set.Or(set, &part)
	}
	return set
}
