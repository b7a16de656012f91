package integer

import (
	"math"
	"math/big"
)

// A certifier turns the relaxation's advice into bounds that hold exactly. For
// any multipliers λ ≥ 0 on the rows, weak duality gives
//
//	objective ≤ Σ λ·limit + Σ_j max over the column's domain of (c_j − λ·A_j)·x_j
//
// (Nemhauser and Wolsey, Integer and Combinatorial Optimization, Wiley 1988,
// II.3.6, Lagrangian relaxation), whatever λ is; so it may come from inexact
// arithmetic, as long as this sum is exact. It is, in big integers.
type certifier struct {
	multiplier []big.Int // by row of the shape
	reduced    []big.Int // by column
	balance    []big.Int // by minimum
	total      big.Int
	scale      uint // total and reduced are the true values times 2^scale
	term       big.Int
	// scratch of squeeze
	spare, steps, price big.Int
}

// newCertifier makes the scratch numbers for programs of shape s.
func newCertifier(s *shape) *certifier {
	return &certifier{
		multiplier: make([]big.Int, len(s.rows)),
		reduced:    make([]big.Int, len(s.prog.columns)),
		balance:    make([]big.Int, len(s.prog.minima)),
	}
}

// fit makes room for the multipliers of rows written since.
func (c *certifier) fit(t *tableau) {
	t.catchUp()
	for len(c.multiplier) < len(t.shape.rows) {
		c.multiplier = append(c.multiplier, big.Int{})
	}
}

// judge bounds the node t. It says to shut the node when nothing under it can be
// feasible or better than worth (nil: no incumbent). The bound is nil when
// there is none.
func (c *certifier) judge(t *tableau, st status, worth *big.Int) (bound *big.Int, shut bool) {
	c.fit(t)
	if st == infeasible {
		c.fromStuckRow(t)
		if c.sum(t, 0, false) && c.total.Sign() < 0 {
			return nil, true
		}
	}
	c.scale = uint(c.fromPrices(t))
	if !c.sum(t, int(c.scale), true) {
		return nil, false
	}
	bound = new(big.Int).Rsh(&c.total, c.scale) // rounds down
	return bound, worth != nil && t.shape.goal.counts(bound).Cmp(worth) <= 0
}

// squeeze narrows the node's box to where the objective can still come to least,
// by the bound judge has just computed: moving a column off the bound on which
// it stands costs its reduced price a step.
func (c *certifier) squeeze(t *tableau, least *big.Int) {
	spare, steps, price := &c.spare, &c.steps, &c.price
	spare.Lsh(least, c.scale)
	spare.Sub(&c.total, spare)
	if spare.Sign() < 0 {
		return
	}
	for j, batch := range t.shape.batch {
		low, high := t.low[j], t.high[j]
		if low == high || c.reduced[j].Sign() == 0 {
			continue
		}
		steps.Quo(spare, price.Abs(&c.reduced[j]))
		if !steps.IsInt64() || steps.Int64() >= high-low {
			continue
		}
		if c.reduced[j].Sign() < 0 {
			high = low + steps.Int64()
		} else {
			low = high - steps.Int64()
		}
		restrictBatch(t, j, low, high, batch)
	}
}

// restrictBatch narrows a column that is nought or at least a batch.
func restrictBatch(t *tableau, j int, low, high, batch int64) {
	if high < batch {
		high = 0
	}
	if low > 0 {
		low = max(low, batch)
	}
	t.restrict(j, low, high)
}

// held says how many columns are nearly held by how little the objective has to spare,
// where squeeze has just left it.
func (c *certifier) held(t *tableau, least *big.Int) float64 {
	spare := new(big.Int).Lsh(least, c.scale)
	spare.Sub(&c.total, spare)
	if spare.Sign() <= 0 {
		return 0
	}
	all, _ := new(big.Float).SetInt(spare).Float64()
	sum := 0.0
	for j := range c.reduced {
		if n := t.high[j] - t.low[j]; n > 0 {
			f, _ := new(big.Float).SetInt(&c.reduced[j]).Float64()
			sum += min(1, math.Abs(f)*float64(n)/all)
		}
	}
	return sum
}

// boxBound bounds the objective by the columns' domains alone.
func (c *certifier) boxBound(t *tableau) *big.Int {
	if bound, _ := c.judge(t, optimal, nil); bound != nil {
		return bound
	}
	for i := range c.multiplier {
		c.multiplier[i].SetInt64(0)
	}
	c.sum(t, 0, true)
	return new(big.Int).Set(&c.total)
}

// fromPrices reads the multipliers off the slacks' prices. The multipliers come
// out multiplied by 2^scale.
func (c *certifier) fromPrices(t *tableau) (scale int) {
	s := t.shape
	for _, bits := range s.rowBits {
		scale = max(scale, bits-s.goalBits)
	}
	first := len(s.prog.columns) + len(s.prog.minima)
	for i := range c.multiplier {
		l := 0.0
		if j := ^t.where[first+i]; j >= 0 {
			l = -t.price[j]
		}
		m := c.multiplier[i].SetInt64(multiplier(l))
		m.Lsh(m, uint(scale+s.goalBits-s.rowBits[i]))
	}
	return scale + places
}

// fromStuckRow reads the multipliers that show the stuck row impossible.
func (c *certifier) fromStuckRow(t *tableau) {
	s := t.shape
	widestRow := 0
	for _, bits := range s.rowBits {
		widestRow = max(widestRow, bits)
	}
	first := len(s.prog.columns) + len(s.prog.minima)
	w := t.width()
	for i := range c.multiplier {
		l := 0.0
		switch at := t.where[first+i]; {
		case at == t.stuck:
			l = 1
		case at < 0:
			l = t.cells[t.stuck*w+^at]
		}
		if !t.upward {
			l = -l
		}
		m := c.multiplier[i].SetInt64(multiplier(l))
		m.Lsh(m, uint(widestRow-s.rowBits[i]))
	}
}

// sum computes the bound's exact value times 2^scale into c.total, for the
// objective or, to show a node infeasible, for none. It reports false when the
// minima's multipliers cannot be made to balance.
func (c *certifier) sum(t *tableau, scale int, withGoal bool) bool {
	s := t.shape
	c.clear()
	if withGoal {
		for j, coef := range s.goal.coefs {
			c.reduced[j].Lsh(coef, uint(scale))
		}
		for _, g := range s.goal.minima {
			c.balance[g].Lsh(big.NewInt(1), uint(scale))
		}
	}
	if !c.addRows(s) {
		return false
	}
	for j := range c.reduced {
		r := &c.reduced[j]
		at := t.low[j]
		if r.Sign() > 0 {
			at = t.high[j]
		}
		if at != 0 {
			c.total.Add(&c.total, c.term.Mul(r, c.term.SetInt64(at)))
		}
	}
	return true
}

func (c *certifier) clear() {
	c.total.SetInt64(0)
	for j := range c.reduced {
		c.reduced[j].SetInt64(0)
	}
	for g := range c.balance {
		c.balance[g].SetInt64(0)
	}
}

// addRows adds all rows, as often as their multipliers say, and balances the
// minima.
func (c *certifier) addRows(s *shape) bool {
	for i := range s.rows {
		if c.multiplier[i].Sign() != 0 {
			c.addRow(s, i)
		}
	}
	return c.balanceMinima(s)
}

// addRow adds row i of the shape, as often as its multiplier says.
func (c *certifier) addRow(s *shape, i int) {
	m := &c.multiplier[i]
	if f := s.floorOf[i]; f >= 0 {
		c.total.Sub(&c.total, c.term.Mul(m, s.prog.floors[f].least))
		for _, g := range s.prog.floors[f].minima {
			c.balance[g].Add(&c.balance[g], m)
		}
		return
	}
	if g := s.minimumOf[i]; g >= 0 {
		c.balance[g].Sub(&c.balance[g], m)
	}
	c.addLinear(s.rows[i], m)
}

// addLinear adds m times the row to the sum.
func (c *certifier) addLinear(r *Row, m *big.Int) {
	c.total.Add(&c.total, c.term.Mul(m, r.Limit))
	for _, t := range r.Terms {
		c.reduced[t.Column].Sub(&c.reduced[t.Column], c.term.Mul(m, t.Coef))
	}
}

// balanceMinima corrects the multipliers so that each minimum, which has no
// bounds of its own, cancels exactly: the largest of its rows takes the
// difference. It reports false when that would make a multiplier negative.
func (c *certifier) balanceMinima(s *shape) bool {
	for g := range c.balance {
		if c.balance[g].Sign() == 0 {
			continue
		}
		largest := c.largestOf(s, g)
		m := &c.multiplier[largest]
		if m.Add(m, &c.balance[g]).Sign() < 0 {
			return false
		}
		c.addLinear(s.rows[largest], &c.balance[g])
	}
	return true
}

// largestOf is the row of the minimum that has the largest multiplier.
func (c *certifier) largestOf(s *shape, g int) int {
	largest := -1
	for i, of := range s.minimumOf {
		if of == g && (largest < 0 || c.multiplier[i].Cmp(&c.multiplier[largest]) > 0) {
			largest = i
		}
	}
	return largest
}
