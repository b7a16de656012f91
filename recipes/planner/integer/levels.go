package integer

import "math/big"

// sum takes every part through a level that is the sum of the parts' values.
// After a part that had to stop, the others are only bounded.
func (c *climb) sum(i int, enough *big.Int) error {
	var stopped error
	bound := new(big.Int)
	for _, p := range c.parts {
		a := &p.aims[i]
		if a.empty() {
			continue
		}
		best := p.prog.value(a.objective, p.x)
		switch {
		case p.settled[a.row]:
			bound.Add(bound, best)
			continue
		case stopped != nil:
			bound.Add(bound, p.promise(a.objective))
		default:
			best, stopped = p.maximise(a.objective)
			bound.Add(bound, p.bestLeft(best, stopped))
		}
		p.keep(a, best, enough, stopped == nil)
	}
	c.reached[i].Bound = new(big.Rat).SetInt(bound)
	return stopped
}

// bestLeft bounds an objective that has reached best, and did or did not stop.
func (p *part) bestLeft(best *big.Int, stopped error) *big.Int {
	if stopped == nil || p.open == nil || p.open.Cmp(best) < 0 {
		return best
	}
	return p.open
}

// keep holds a linear or concave goal at what it has reached, or at enough.
func (p *part) keep(a *aim, best, enough *big.Int, proven bool) {
	if a.floor >= 0 {
		p.holdFloor(a.floor, best)
		return
	}
	if enough != nil && best.Cmp(enough) > 0 {
		best, proven = enough, false
	}
	p.settled[a.row] = proven
	if limit := new(big.Int).Neg(best); limit.Cmp(p.prog.rows[a.row].Limit) < 0 {
		p.holdRow(a.row, limit)
	}
}

// share finds the largest t of a [MaxMin] goal: the least of what the parts can
// reach, and every part is then held to it.
func (c *climb) share(i int, g MaxMin) error {
	var stopped error
	var bound *big.Rat
	top := g.top(c.model.Columns)
	for _, p := range c.parts {
		if len(p.aims[i].shares) == 0 || stopped != nil {
			continue
		}
		f := newFairness(p.aims[i].shares, g.OrZero, top)
		f.links = p.aims[i].links
		var most *big.Rat
		if most, stopped = p.fairest(f); bound == nil || most.Cmp(bound) < 0 {
			bound = most
		}
	}
	c.reached[i].Bound = bound
	t := g.at(c.model, c.x())
	for _, p := range c.parts {
		shares := p.aims[i].shares
		f := newFairness(shares, g.OrZero, top)
		f.links = p.aims[i].links
		p.tie(f, t)
		to := f.narrowed(p.prog.columns, t)
		for _, s := range shares {
			if column, ok := to[s.Column]; ok {
				p.hold(s.Column, column)
			}
		}
	}
	return stopped
}

// A fairness is a [MaxMin] goal over the columns of one part.
type fairness struct {
	shares []Share
	orZero bool
	top    *big.Rat // what it comes to when all columns are 0
	unit   *big.Int // t is a whole multiple of 1/unit
	links  []int    // by share: see aim
}

// newFairness writes the goal. As the columns are whole, t is a multiple of one
// over the common multiple of the weights, or the top, whose share may lie in
// another part.
func newFairness(shares []Share, orZero bool, top *big.Rat) fairness {
	f := fairness{shares: shares, orZero: orZero, top: top, unit: new(big.Int).Set(top.Denom())}
	var gcd big.Int
	for _, s := range shares {
		gcd.GCD(nil, nil, f.unit, s.Weight)
		f.unit = new(big.Int).Mul(f.unit, new(big.Int).Quo(s.Weight, &gcd))
	}
	return f
}

// at is the largest t that x allows.
func (f fairness) at(x []int64) *big.Rat {
	t := f.top
	for _, s := range f.shares {
		if f.orZero && x[s.Column] == 0 {
			continue
		}
		if q := s.ratio(x[s.Column]); q.Cmp(t) < 0 {
			t = q
		}
	}
	return t
}

// steps is t in units, rounded down.
func (f fairness) steps(t *big.Rat) *big.Int {
	n := new(big.Int).Mul(t.Num(), f.unit)
	return n.Quo(n, t.Denom())
}

// highest is the most t could come to if nothing but the columns' own bounds
// stood in the way.
func (f fairness) highest(columns []Column) *big.Rat {
	t := f.top
	for _, s := range f.shares {
		if q := s.ratio(columns[s.Column].Most); !f.orZero && q.Cmp(t) < 0 {
			t = q
		}
	}
	return t
}

// narrowed is what the columns must be for t.
func (f fairness) narrowed(columns []Column, t *big.Rat) map[int]Column {
	to := map[int]Column{}
	if t.Sign() <= 0 {
		return to
	}
	for _, s := range f.shares {
		c := columns[s.Column]
		n := ceiling(new(big.Rat).Mul(t, new(big.Rat).SetInt(s.Weight)))
		switch {
		case !f.orZero || c.Least > 0:
			c.Least = max(c.Least, n, c.Batch)
		case n > c.Most:
			c.Most = 0
		default:
			c.Batch = max(c.Batch, n)
		}
		to[s.Column] = c
	}
	return to
}

// ceiling is the smallest whole number not below r, at most MostValue + 1.
func ceiling(r *big.Rat) int64 {
	n := new(big.Int).Add(r.Num(), r.Denom())
	n.Sub(n, big.NewInt(1)).Div(n, r.Denom())
	if !n.IsInt64() {
		return MostValue + 1
	}
	return min(n.Int64(), MostValue+1)
}

// tie writes into the rows that link signs and columns what t asks for: nothing
// for 0. The session's own relaxation takes none of them in before they stay.
func (p *part) tie(f fairness, t *big.Rat) {
	for i, row := range f.links {
		if row < 0 || !f.orZero {
			continue
		}
		sign, column := p.prog.rows[row].Terms[0].Column, p.prog.rows[row].Terms[1].Column
		n, one := int64(0), int64(0)
		if t.Sign() > 0 {
			n, one = ceiling(new(big.Rat).Mul(t, new(big.Rat).SetInt(f.shares[i].Weight))), 1
		}
		p.prog.rows[row].Terms = []Term{Times(n, sign), Times(-one, column)}
		p.base.reread(row)
	}
}

// thrift is the objective of as little as can be of the shares' columns: the
// relaxation then takes no more of any than is asked for.
func (p *part) thrift(f fairness) objective {
	var terms []Term
	for _, s := range f.shares {
		terms = append(terms, Times(-1, s.Column))
	}
	return over(len(p.prog.columns), terms)
}

// fairest finds the part's own largest t, and returns it, or, when it had to
// stop, what it cannot exceed: first by asking for a little more than it has, which
// mostly settles it, and then by halving.
func (p *part) fairest(f fairness) (most *big.Rat, err error) {
	low, high := f.steps(f.at(p.x)), f.steps(f.highest(p.prog.columns))
	thrift := p.thrift(f)
	middle := new(big.Int).Add(low, big.NewInt(1))
	for low.Cmp(high) < 0 {
		t := new(big.Rat).SetFrac(middle, f.unit)
		p.tie(f, t)
		ok, err := p.canNarrowBy(f.narrowed(p.prog.columns, t), thrift)
		p.tie(f, new(big.Rat))
		if err != nil {
			return new(big.Rat).SetFrac(high, f.unit), err
		}
		if ok {
			low = f.steps(f.at(p.x))
		} else {
			high = middle.Sub(middle, big.NewInt(1))
		}
		middle = new(big.Int).Add(low, high)
		middle.Add(middle, big.NewInt(1)).Rsh(middle, 1)
	}
	return f.at(p.x), nil
}

// order raises one column after the other, part by part.
func (c *climb) order(i int) error {
	var stopped error
	for _, p := range c.parts {
		guide := p.guide(i)
		for _, k := range p.aims[i].order {
			most := p.prog.columns[k].Most
			if stopped == nil {
				if stopped = p.raise(k, guide); stopped != nil {
					c.reached[i].Value = new(big.Rat).SetInt64(p.x[k])
					c.reached[i].Bound = new(big.Rat).SetInt64(most)
				}
			}
			p.hold(k, Column{Least: p.x[k], Most: p.x[k], Batch: p.prog.columns[k].Batch, Rank: p.prog.columns[k].Rank})
		}
	}
	return stopped
}

// guide is the last linear goal before level i that is at its best, and so is
// kept anyway: to steer by it finds solutions sooner.
func (p *part) guide(i int) objective {
	for i--; i >= 0; i-- {
		if p.settled[p.aims[i].row] {
			return p.aims[i].objective
		}
	}
	return objective{}
}

// raise makes column k as large as it can be, by asking for one more until there
// is none: mostly the incumbent has it already.
func (p *part) raise(k int, guide objective) error {
	for p.x[k] < p.prog.columns[k].Most {
		more := p.prog.columns[k]
		more.Least = max(p.x[k]+1, more.Batch)
		raised, err := p.canNarrow(map[int]Column{k: more}, guide)
		if err != nil || !raised {
			return err
		}
	}
	return nil
}
