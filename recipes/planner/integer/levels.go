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
		case enough != nil && best.Cmp(enough) >= 0:
			bound.Add(bound, best)
		case stopped != nil:
			bound.Add(bound, p.promise(a.objective))
		default:
			best, stopped = p.maximise(a)
			bound.Add(bound, p.bestLeft(best, stopped))
		}
		p.keep(a, best, enough, stopped == nil)
		if stopped == nil {
			if enough != nil && best.Cmp(enough) > 0 {
				best = enough
			}
			p.pull(a, best)
		}
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
		f := newFairness(&p.aims[i], g.OrZero, top)
		var most *big.Rat
		if most, stopped = p.fairest(f, c.work.better && len(c.parts) == 1); bound == nil || most.Cmp(bound) < 0 {
			bound = most
		}
	}
	c.reached[i].Bound = bound
	t := g.at(c.model, c.x())
	for _, p := range c.parts {
		f := newFairness(&p.aims[i], g.OrZero, top)
		p.holdAll(f.narrowed(p.prog, t))
	}
	return stopped
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
// mostly settles it, and then by halving. Once asks for no more than a little more.
func (p *part) fairest(f fairness, once bool) (most *big.Rat, err error) {
	low, high := f.steps(f.at(p.x)), f.steps(f.highest(p.prog.columns))
	thrift := p.thrift(f)
	middle := new(big.Int).Add(low, big.NewInt(1))
	for low.Cmp(high) < 0 {
		ok, err := p.canNarrow(f.narrowed(p.prog, new(big.Rat).SetFrac(middle, f.unit)), thrift)
		if err != nil {
			return new(big.Rat).SetFrac(high, f.unit), err
		}
		if ok && once {
			break
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
		raised, err := p.canNarrow(narrowing{columns: map[int]Column{k: more}}, guide)
		if err != nil || !raised {
			return err
		}
	}
	return nil
}
