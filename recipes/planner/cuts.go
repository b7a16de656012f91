package planner

import (
	"math/big"
	"slices"
)

// Cuts tighten the relaxation at the root. Each comes from a row of the tableau
// whose basic column is not whole, by mixed-integer rounding (Nemhauser and
// Wolsey, Integer and Combinatorial Optimization, Wiley 1988, II.1.7): from
// Σ a·x ≤ b + s with whole x ≥ 0 and s ≥ 0 follows
//
//	Σ (⌊a⌋ + max(0, frac a − f)/(1 − f))·x ≤ ⌊b⌋ + s/(1 − f),  f = frac b.
//
// The row is put together anew in exact integers from the multipliers the
// tableau suggests, so a cut holds whatever rounding the tableau has suffered.

const (
	cutRounds   = 15
	cutsARound  = 24
	cutBits     = 24 // how finely a cut's coefficients are kept
	leastPart   = one / 200
	leastGain   = one / 500 // how far a cut must cut off the relaxation's point
	leastFall   = one >> 8  // a round that lowers the bound less has stalled
	mostStalled = 2
	mostCutRows = 100
)

// gomory adds cuts to the root's relaxation until the bound meets the incumbent
// or does not move any more.
func (s *session) gomory(worth *big.Int) {
	t := s.base
	stalled, before := 0, room
	for range cutRounds {
		status := t.reoptimise(s.work)
		bound, cut := s.cert.judge(t, status, worth)
		if status != optimal || cut || bound == nil || len(s.prog.cuts) >= mostCutRows {
			return
		}
		if before-t.claims() < leastFall {
			stalled++
		}
		if before = t.claims(); stalled == mostStalled {
			return
		}
		added := 0
		for _, r := range t.fractionalRows() {
			c, ok := s.cert.roundingCut(t, r)
			if !ok || !t.cutsOff(&c) || s.prog.parallel(&c) {
				continue
			}
			s.prog.cuts = append(s.prog.cuts, c)
			if added++; added == cutsARound {
				break
			}
		}
		if added == 0 {
			return
		}
		first := len(s.prog.cuts) - added
		for i := first; i < len(s.prog.cuts); i++ {
			t.append(&s.prog.cuts[i])
			s.cert.multiplier = append(s.cert.multiplier, big.Int{})
		}
	}
}

// fractionalRows lists the rows whose basic column should be whole and is not,
// the most fractional first.
func (t *tableau) fractionalRows() []int {
	columns := t.shape.prog.columns
	part := func(i int) fixed {
		p := t.at[i] & (one - 1)
		return min(p, one-p)
	}
	var rows []int
	for i, k := range t.basic {
		if k < len(columns) && part(i) > leastPart {
			rows = append(rows, i)
		}
	}
	slices.SortStableFunc(rows, func(a, b int) int { return int(signed(1, part(b)-part(a), 1)) })
	return rows
}

// roundingCut makes the rounding cut of row r of the tableau, in exact integers.
func (c *certifier) roundingCut(t *tableau, r int) (row, bool) {
	scale, ok := c.fromRow(t, r)
	if !ok || !c.sumRow(t) {
		return row{}, false
	}
	// Now Σ reduced·x + Σ multiplier·slack = total, all times 2^scale, and every
	// slack is at least 0. Complement the columns that stand at their upper bound.
	columns := t.shape.prog.columns
	unit := new(big.Int).Lsh(big.NewInt(1), uint(scale))
	b := new(big.Int).Set(&c.total)
	high := make([]bool, len(columns))
	var term big.Int
	for j := range columns {
		at := columns[j].least
		if v := t.value(j); v-at*one > columns[j].most*one-v {
			high[j], at = true, columns[j].most
		}
		b.Sub(b, term.Mul(&c.reduced[j], term.SetInt64(at)))
	}
	whole, part := new(big.Int).DivMod(b, unit, new(big.Int))
	room := new(big.Int).Sub(unit, part) // (1 − f) × 2^scale
	if lo := new(big.Int).Rsh(unit, 5); part.Cmp(lo) < 0 || room.Cmp(lo) < 0 {
		return row{}, false
	}
	coefs := make([]*big.Int, len(columns))
	limit := new(big.Int).Mul(whole, room)
	for j := range columns {
		a := new(big.Int).Set(&c.reduced[j])
		at := columns[j].least
		if high[j] {
			a.Neg(a)
			at = columns[j].most
		}
		f := roundedDown(a, unit, part, room)
		if high[j] {
			f.Neg(f)
		}
		coefs[j] = f
		limit.Add(limit, term.Mul(f, term.SetInt64(at)))
	}
	c.addSlacks(t, coefs, limit)
	return coarse(coefs, limit), true
}

// roundedDown is (⌊a⌋ + max(0, frac a − f)/(1 − f)) × (1 − f) for a in units.
func roundedDown(a, unit, part, room *big.Int) *big.Int {
	whole, rest := new(big.Int).DivMod(a, unit, new(big.Int))
	whole.Mul(whole, room)
	if rest.Cmp(part) > 0 {
		whole.Add(whole, rest.Sub(rest, part))
	}
	return whole
}

// addSlacks puts the slacks with negative multipliers into the cut, written as
// limit − Σ coefs·x of their rows.
func (c *certifier) addSlacks(t *tableau, coefs []*big.Int, limit *big.Int) {
	var term big.Int
	for i := range c.multiplier {
		m := &c.multiplier[i]
		if m.Sign() >= 0 {
			continue
		}
		r := t.shape.rows[i]
		limit.Sub(limit, term.Mul(m, r.limit))
		for k, j := range r.cols {
			coefs[j].Sub(coefs[j], term.Mul(m, r.coefs[k]))
		}
	}
}

// coarse keeps about cutBits of the coefficients, rounding so that no whole
// point with x ≥ 0 is lost: coefficients down, the limit up.
func coarse(coefs []*big.Int, limit *big.Int) row {
	shift := max(0, widest(coefs)-cutBits)
	var r row
	for j, c := range coefs {
		if c.Rsh(c, uint(shift)); c.Sign() != 0 {
			r.cols = append(r.cols, j)
			r.coefs = append(r.coefs, c)
		}
	}
	up := new(big.Int).Neg(limit)
	r.limit = up.Neg(up.Rsh(up, uint(shift)))
	return r
}

// fromRow reads the multipliers that make row r of the tableau out of the
// program's rows, times 2^scale. A cut cannot speak of gains, so the slacks of
// their rows must have no negative multiplier: if need be the row is turned
// round; ok is false when their signs are mixed.
func (c *certifier) fromRow(t *tableau, r int) (scale int, ok bool) {
	s := t.shape
	for _, bits := range s.rowBits {
		scale = max(scale, bits)
	}
	first := len(s.prog.columns) + len(s.prog.gains)
	w := t.width()
	plus, minus := false, false
	for i := range c.multiplier {
		l := fixed(0)
		if j := ^t.where[first+i]; j >= 0 && magnitude(t.cells[r*w+j]) > uint64(hair) {
			l = t.cells[r*w+j]
		}
		if s.gainOf[i] >= 0 || s.floorOf[i] >= 0 {
			plus, minus = plus || l > 0, minus || l < 0
		}
		m := c.multiplier[i].SetInt64(l)
		m.Lsh(m, uint(scale-s.rowBits[i]))
	}
	if minus {
		for i := range c.multiplier {
			c.multiplier[i].Neg(&c.multiplier[i])
		}
	}
	return scale + places, !(plus && minus)
}

// sumRow adds the rows up as their multipliers say: Σ multiplier·coefs to
// reduced, Σ multiplier·limit to total. Rounding leaves gains that do not quite
// cancel; a piece of each takes the difference, and it reports false when that
// would make its multiplier negative.
func (c *certifier) sumRow(t *tableau) bool {
	s := t.shape
	c.total.SetInt64(0)
	for j := range c.reduced {
		c.reduced[j].SetInt64(0)
	}
	for g := range c.balance {
		c.balance[g].SetInt64(0)
	}
	for i := range s.rows {
		m := &c.multiplier[i]
		if m.Sign() == 0 {
			continue
		}
		if f := s.floorOf[i]; f >= 0 {
			c.total.Sub(&c.total, c.term.Mul(m, s.prog.floors[f].least))
			for _, g := range s.prog.floors[f].gains {
				c.balance[g].Add(&c.balance[g], m)
			}
			continue
		}
		if g := s.gainOf[i]; g >= 0 {
			c.balance[g].Sub(&c.balance[g], m)
		}
		c.total.Add(&c.total, c.term.Mul(m, s.rows[i].limit))
		for k, j := range s.rows[i].cols {
			c.reduced[j].Add(&c.reduced[j], c.term.Mul(m, s.rows[i].coefs[k]))
		}
	}
	return c.cancelGains(s)
}

// cancelGains lets the largest piece of each gain take what is left of it.
func (c *certifier) cancelGains(s *shape) bool {
	for g := range c.balance {
		if c.balance[g].Sign() == 0 {
			continue
		}
		i := c.largestPiece(s, g)
		m := &c.multiplier[i]
		if m.Add(m, &c.balance[g]).Sign() < 0 {
			return false
		}
		c.total.Add(&c.total, c.term.Mul(&c.balance[g], s.rows[i].limit))
		for k, j := range s.rows[i].cols {
			c.reduced[j].Add(&c.reduced[j], c.term.Mul(&c.balance[g], s.rows[i].coefs[k]))
		}
	}
	return true
}

// cutsOff reports whether the relaxation's point breaks the cut clearly.
func (t *tableau) cutsOff(r *row) bool {
	bits := widest(r.coefs)
	if bits == 0 {
		return false
	}
	sum := -scaled(r.limit, -bits)
	for k, j := range r.cols {
		sum = clamp(sum + mul(scaled(r.coefs[k], -bits), t.value(j)))
	}
	return sum > leastGain
}

// parallel reports whether a cut there is already points almost the same way
// (the cosine of the angle between them is above about 0.95); two such rows
// would only make the tableau ill-conditioned.
func (p *program) parallel(c *row) bool {
	n := make([]int64, len(p.columns))
	size := norm(c)
	for k, j := range c.cols {
		n[j] = c.coefs[k].Int64()
	}
	for i := range p.cuts {
		o := &p.cuts[i]
		dot := int64(0)
		for k, j := range o.cols {
			dot += n[j] * o.coefs[k].Int64()
		}
		if dot <= 0 {
			continue
		}
		square := new(big.Int).Mul(big.NewInt(dot), big.NewInt(dot))
		bound := new(big.Int).Mul(size, norm(o))
		if square.Mul(square, big.NewInt(100)).Cmp(bound.Mul(bound, big.NewInt(97))) > 0 {
			return true
		}
	}
	return false
}

// norm is the sum of the squares of the row's coefficients.
func norm(r *row) *big.Int {
	sum := int64(0)
	for _, c := range r.coefs {
		sum += c.Int64() * c.Int64()
	}
	return big.NewInt(sum)
}

// append adds a row to the tableau, its slack basic.
func (t *tableau) append(r *row) {
	s := t.shape
	s.addRow(r, -1, -1)
	s.rowBits = append(s.rowBits, widest(r.coefs))
	i := len(s.rows) - 1
	direct := make([]fixed, len(t.lo))
	for k, j := range r.cols {
		direct[j] = scaled(r.coefs[k], -s.rowBits[i])
	}
	w := t.width()
	cells := make([]fixed, w)
	for j, k := range t.outside {
		cells[j] = direct[k]
	}
	value := scaled(r.limit, -s.rowBits[i])
	most := value
	for k := range direct {
		if direct[k] != 0 {
			value = clamp(value - mul(direct[k], t.value(k)))
			most = clamp(most - min(mul(direct[k], t.lo[k]), mul(direct[k], t.hi[k])))
		}
	}
	for row, k := range t.basic {
		if d := direct[k]; d != 0 {
			for j, c := range t.cells[row*w : (row+1)*w] {
				cells[j] = clamp(cells[j] - mul(d, c))
			}
		}
	}
	t.cells = append(t.cells, cells...)
	t.where = append(t.where, len(t.basic))
	t.basic = append(t.basic, len(t.lo))
	t.at = append(t.at, value)
	t.lo = append(t.lo, 0)
	t.hi = append(t.hi, max(0, most)+one)
}
