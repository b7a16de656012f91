package integer

import (
	"cmp"
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
		bound, shut := s.cert.judge(t, status, worth)
		if status != optimal || shut || bound == nil || s.prog.helping() >= mostCutRows {
			return
		}
		if before-t.claims() < leastFall {
			stalled++
		}
		if before = t.claims(); stalled == mostStalled {
			return
		}
		fresh := s.roundingCuts()
		if len(fresh) == 0 {
			return
		}
		for _, c := range fresh {
			t.shape.extend(c)
		}
	}
}

// roundingCuts makes the cuts of one round.
func (s *session) roundingCuts() []cut {
	var fresh []cut
	for _, r := range s.base.fractionalRows() {
		c, ok := s.cert.roundingCut(s.base, r)
		if !ok || !s.base.cutsOff(&c) || parallel(&c, s.prog.cuts) || parallel(&c, fresh) {
			continue
		}
		if fresh = append(fresh, cut{Row: c}); len(fresh) == cutsARound {
			break
		}
	}
	return fresh
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
	slices.SortStableFunc(rows, func(a, b int) int { return cmp.Compare(part(b), part(a)) })
	return rows
}

// roundingCut makes the rounding cut of row r of the tableau, in exact integers.
func (c *certifier) roundingCut(t *tableau, r int) (Row, bool) {
	scale, ok := c.fromRow(t, r)
	if c.clear(); !ok || !c.addRows(t.shape) {
		return Row{}, false
	}
	// Now Σ multiplier·slack − Σ reduced·x = total, all times 2^scale, and every
	// slack is at least 0. Columns are counted from the bound they stand near.
	at, high := t.nearest()
	unit := new(big.Int).Lsh(big.NewInt(1), uint(scale))
	b := new(big.Int).Set(&c.total)
	var term big.Int
	for j := range at {
		b.Add(b, term.Mul(&c.reduced[j], term.SetInt64(at[j])))
	}
	whole, part := new(big.Int).DivMod(b, unit, new(big.Int))
	left := new(big.Int).Sub(unit, part) // (1 − f) × 2^scale
	if lo := new(big.Int).Rsh(unit, 5); part.Cmp(lo) < 0 || left.Cmp(lo) < 0 {
		return Row{}, false
	}
	coefs := make([]*big.Int, len(at))
	limit := new(big.Int).Mul(whole, left)
	for j := range at {
		a := new(big.Int).Set(&c.reduced[j])
		if !high[j] {
			a.Neg(a)
		}
		coefs[j] = roundedDown(a, unit, part, left)
		if high[j] {
			coefs[j].Neg(coefs[j])
		}
		limit.Add(limit, term.Mul(coefs[j], term.SetInt64(at[j])))
	}
	c.addSlacks(t, coefs, limit)
	return coarse(coefs, limit), true
}

// nearest is the bound each of the program's columns stands nearer to, and
// whether that is the upper one.
func (t *tableau) nearest() (at []int64, high []bool) {
	columns := t.shape.prog.columns
	at, high = make([]int64, len(columns)), make([]bool, len(columns))
	for j, c := range columns {
		at[j] = c.Least
		if v := t.value(j); v-c.Least*one > c.Most*one-v {
			high[j], at[j] = true, c.Most
		}
	}
	return at, high
}

// roundedDown is (⌊a⌋ + max(0, frac a − f)/(1 − f)) × (1 − f) for a in units.
func roundedDown(a, unit, part, left *big.Int) *big.Int {
	whole, rest := new(big.Int).DivMod(a, unit, new(big.Int))
	whole.Mul(whole, left)
	if rest.Cmp(part) > 0 {
		whole.Add(whole, rest.Sub(rest, part))
	}
	return whole
}

// addSlacks puts the slacks with negative multipliers into the cut, written as
// Limit − Σ Coef·x of their rows.
func (c *certifier) addSlacks(t *tableau, coefs []*big.Int, limit *big.Int) {
	var term big.Int
	for i := range c.multiplier {
		m := &c.multiplier[i]
		if m.Sign() >= 0 {
			continue
		}
		r := t.shape.rows[i]
		limit.Sub(limit, term.Mul(m, r.Limit))
		for _, in := range r.Terms {
			coefs[in.Column].Sub(coefs[in.Column], term.Mul(m, in.Coef))
		}
	}
}

// coarse keeps about cutBits of the coefficients, rounding so that no whole
// point with x ≥ 0 is lost: coefficients down, the limit up.
func coarse(coefs []*big.Int, limit *big.Int) Row {
	shift := max(0, widest(coefs)-cutBits)
	var r Row
	for j, c := range coefs {
		if c.Rsh(c, uint(shift)); c.Sign() != 0 {
			r.Terms = append(r.Terms, Term{j, c})
		}
	}
	up := new(big.Int).Neg(limit)
	r.Limit = up.Neg(up.Rsh(up, uint(shift)))
	return r
}

// fromRow reads the multipliers that make row r of the tableau out of the
// program's rows, times 2^scale. A cut cannot speak of minima, so the slacks of
// their rows must have no negative multiplier: if need be the row is turned
// round; ok is false when their signs are mixed.
func (c *certifier) fromRow(t *tableau, r int) (scale int, ok bool) {
	s := t.shape
	for _, bits := range s.rowBits {
		scale = max(scale, bits)
	}
	first := len(s.prog.columns) + len(s.prog.minima)
	w := t.width()
	plus, minus := false, false
	for i := range c.multiplier {
		l := fixed(0)
		if j := ^t.where[first+i]; j >= 0 && magnitude(t.cells[r*w+j]) > uint64(hair) {
			l = t.cells[r*w+j]
		}
		if s.minimumOf[i] >= 0 || s.floorOf[i] >= 0 {
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

// cutsOff reports whether the relaxation's point breaks the row clearly.
func (t *tableau) cutsOff(r *Row) bool {
	bits := bitsOf(r.Terms)
	if bits == 0 {
		return false
	}
	sum := -scaled(r.Limit, -bits)
	for _, in := range r.Terms {
		sum = clamp(sum + mul(scaled(in.Coef, -bits), t.value(in.Column)))
	}
	return sum > leastGain
}

// parallel reports whether one of the cuts points almost the same way as r (the
// cosine of the angle between them is above about 0.98); two such rows would
// only make the tableau ill-conditioned.
func parallel(r *Row, cuts []cut) bool {
	n := map[int]int64{}
	for _, t := range r.Terms {
		n[t.Column] = t.Coef.Int64()
	}
	size := norm(r)
	for i := range cuts {
		if cuts[i].needed {
			continue
		}
		dot := int64(0)
		for _, t := range cuts[i].Terms {
			dot += n[t.Column] * t.Coef.Int64()
		}
		if dot <= 0 {
			continue
		}
		square := new(big.Int).Mul(big.NewInt(dot), big.NewInt(dot))
		bound := new(big.Int).Mul(size, norm(&cuts[i].Row))
		if square.Mul(square, big.NewInt(100)).Cmp(bound.Mul(bound, big.NewInt(97))) > 0 {
			return true
		}
	}
	return false
}

// norm is the sum of the squares of the row's coefficients.
func norm(r *Row) *big.Int {
	sum := int64(0)
	for _, t := range r.Terms {
		sum += t.Coef.Int64() * t.Coef.Int64()
	}
	return big.NewInt(sum)
}
