package planner

import "math/big"

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

// newBand makes a band of a gain's piece and the most its sum can reach; ok is
// false when there are too many sums to list.
func (p *program) newBand(g int, piece *row) (b band, ok bool) {
	unit := new(big.Int)
	most := new(big.Int)
	var term big.Int
	for k, c := range piece.coefs {
		unit.GCD(nil, nil, unit, c)
		most.Sub(most, term.Mul(c, term.SetInt64(p.columns[piece.cols[k]].most)))
	}
	if len(piece.cols) < 2 {
		return band{}, false
	}
	if limit := p.limitOf(piece); limit != nil && limit.Cmp(most) < 0 {
		most = limit
	}
	high := new(big.Int).Quo(most, unit)
	if !high.IsInt64() || high.Int64() > mostSums {
		return band{}, false
	}
	b = band{cols: piece.cols, gain: g, unit: unit, rest: piece.limit, high: high.Int64()}
	for _, c := range piece.coefs {
		step := term.Quo(c, unit)
		b.steps = append(b.steps, uint(-step.Int64()))
	}
	return b, true
}

// limitOf finds the row that bounds the same sum as the piece, and gives its
// limit in the piece's units.
func (p *program) limitOf(piece *row) *big.Int {
	var best *big.Int
	for i := range p.rows {
		r := &p.rows[i]
		if len(r.cols) != len(piece.cols) {
			continue
		}
		same := true
		var a, b big.Int
		for k := range r.cols {
			a.Mul(r.coefs[k], piece.coefs[0])
			b.Mul(piece.coefs[k], r.coefs[0])
			same = same && r.cols[k] == piece.cols[k] && a.Cmp(&b) == 0
		}
		if !same || r.coefs[0].Sign() <= 0 {
			continue
		}
		limit := a.Mul(r.limit, b.Neg(piece.coefs[0]))
		limit.Quo(limit, r.coefs[0])
		if best == nil || limit.Cmp(best) < 0 {
			best = new(big.Int).Set(limit)
		}
	}
	return best
}

// addBands lists the bands of all gains and the most each gain can reach.
func (p *program) addBands() {
	p.reach = make([]*big.Int, len(p.gains))
	for g := range p.gains {
		for i := range p.gains[g] {
			piece := &p.gains[g][i]
			most := new(big.Int)
			var term big.Int
			for k, c := range piece.coefs {
				most.Sub(most, term.Mul(c, term.SetInt64(p.columns[piece.cols[k]].most)))
			}
			if limit := p.limitOf0(piece); limit != nil && limit.Cmp(most) < 0 {
				most = limit
			}
			most.Add(most, piece.limit)
			if p.reach[g] == nil || most.Cmp(p.reach[g]) < 0 {
				p.reach[g] = most
			}
			if b, ok := p.newBand(g, piece); ok {
				p.bands = append(p.bands, b)
			}
		}
	}
}

func (p *program) limitOf0(piece *row) *big.Int {
	if len(piece.cols) == 0 {
		return nil
	}
	return p.limitOf(piece)
}

// filter narrows the node's box to what the bands allow; it reports false when
// a band cannot be met. least is what the gains of a floor must add up to.
func (s *search) filter(t *tableau) bool {
	for f := range s.prog.floors {
		least := s.prog.floors[f].least
		if s.worth != nil && len(s.goal.gains) > 0 && s.worth.Cmp(least) >= 0 {
			least = new(big.Int).Add(s.worth, big.NewInt(1))
		}
		spare := new(big.Int).Neg(least) // what the gains could give beyond it
		for _, g := range s.prog.floors[f].gains {
			spare.Add(spare, s.prog.reach[g])
		}
		if spare.Sign() < 0 {
			return false
		}
		for i := range s.prog.bands {
			b := &s.prog.bands[i]
			low := new(big.Int).Sub(s.prog.reach[b.gain], spare)
			low.Sub(low, b.rest)
			low.Sub(low, big.NewInt(1))
			low.Div(low, b.unit)
			low.Add(low, big.NewInt(1)) // rounded up
			if !b.narrow(t, max(0, low.Int64()), s) {
				return false
			}
		}
	}
	return true
}

// narrow filters the columns of the band by the sums that end in low…high.
func (b *band) narrow(t *tableau, low int64, s *search) bool {
	if low > b.high {
		return false
	}
	widest, open := uint(0), 0
	for k, j := range b.cols {
		if t.low[j] < t.high[j] {
			open++
			widest = max(widest, b.steps[k])
		}
	}
	if open == 0 || uint(b.high-low) >= widest {
		return true
	}
	n := len(b.cols)
	room := uint(b.high) + 1
	full := ones(room)
	ahead := make([]*big.Int, n+1) // ahead[k]: sums of the first k columns
	ahead[0] = big.NewInt(1)
	for k, j := range b.cols {
		ahead[k+1] = domainOf(s.prog, t, j).sums(ahead[k], full, b.steps[k], room)
	}
	goal := new(big.Int).Lsh(ones(uint(b.high-low)+1), uint(low))
	var hit big.Int
	if hit.And(ahead[n], goal).Sign() == 0 {
		return false
	}
	for k := n - 1; k >= 0; k-- {
		j := b.cols[k]
		lo, hi := t.low[j], t.high[j]
		fits := func(v int64) bool {
			return hit.And(hit.Lsh(ahead[k], uint(v)*b.steps[k]), goal).Sign() != 0
		}
		batch := s.prog.columns[j].batch
		for ; lo < hi && !fits(lo); lo++ {
			if lo == 0 && batch > 1 {
				lo = min(hi, batch) - 1
			}
		}
		for ; hi > lo && !fits(hi); hi-- {
			if hi == batch && lo == 0 {
				hi = 1
			}
		}
		if lo != t.low[j] || hi != t.high[j] {
			t.restrict(j, lo, hi)
		}
		goal = domainOf(s.prog, t, j).before(goal, b.steps[k])
	}
	return true
}

// ones is the set of 0…n-1.
func ones(n uint) *big.Int {
	set := new(big.Int).Lsh(big.NewInt(1), n)
	return set.Sub(set, big.NewInt(1))
}

// domainOf is column j as the node has it.
func domainOf(p *program, t *tableau, j int) column {
	c := p.columns[j]
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
