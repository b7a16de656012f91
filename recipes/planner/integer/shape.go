package integer

import "math/big"

// A shape is how a program's numbers are scaled for the relaxation: by powers
// of two, so that the exact multipliers can be had back by shifting.
type shape struct {
	prog        *program
	batch       []int64    // by column: what it is at least if it is not 0
	rows        []*Row     // the program's, then those of its minima, then nil for each floor, then the cuts
	minimumOf   []int      // by row: the minimum it belongs to, or -1
	floorOf     []int      // by row: the floor, or -1
	rowBits     []int      // a row's coefficients are divided by 2^rowBits
	start       []*big.Int // by row: its limit when the tableau was built
	minimumBits int        // minima are counted in units of 2^minimumBits
	goal        objective
	goalBits    int
}

// newTableau builds the relaxation of p with the slacks as its basis.
func newTableau(p *program) *tableau {
	s := &shape{prog: p}
	for i := range p.rows {
		s.addRow(&p.rows[i], -1, -1)
	}
	for g := range p.minima {
		for i := range p.minima[g] {
			s.addRow(&p.minima[g][i], g, -1)
		}
	}
	for f := range p.floors {
		s.addRow(nil, -1, f)
	}
	for i := range p.cuts {
		s.addRow(&p.cuts[i], -1, -1)
	}
	s.scaleRows()
	t := &tableau{shape: s}
	for _, c := range p.columns {
		most := c.Most
		if most < c.Batch {
			most = 0 // not even one batch
		}
		s.batch = append(s.batch, c.Batch)
		t.low, t.high = append(t.low, c.Least), append(t.high, most)
		t.lo, t.hi = append(t.lo, c.Least*one), append(t.hi, most*one)
	}
	for g := range p.minima {
		low, high := p.minimumRange(p.minima[g])
		t.lo = append(t.lo, scaled(low, -s.minimumBits)-one)  // out of the way: only
		t.hi = append(t.hi, scaled(high, -s.minimumBits)+one) // the rows may bind
	}
	s.fill(t)
	return t
}

func (s *shape) addRow(r *Row, minimum, floor int) {
	s.rows = append(s.rows, r)
	s.minimumOf = append(s.minimumOf, minimum)
	s.floorOf = append(s.floorOf, floor)
	limit := new(big.Int)
	if r != nil {
		limit = r.Limit
	} else {
		limit.Neg(s.prog.floors[floor].least)
	}
	s.start = append(s.start, limit)
}

// scaleRows chooses the minima's unit and each row's divisor.
func (s *shape) scaleRows() {
	for i, r := range s.rows {
		if s.minimumOf[i] >= 0 {
			s.minimumBits = max(s.minimumBits, bitsOf(r.Terms), r.Limit.BitLen()-12)
		}
	}
	for i, r := range s.rows {
		bits := s.minimumBits
		if r != nil && s.minimumOf[i] < 0 {
			bits = bitsOf(r.Terms)
		}
		s.rowBits = append(s.rowBits, bits)
	}
}

// fill writes the cells of the slack basis.
func (s *shape) fill(t *tableau) {
	n := len(s.prog.columns)
	w := n + len(s.prog.minima)
	t.cells = make([]fixed, len(s.rows)*w)
	for j := range w {
		t.outside = append(t.outside, j)
		t.where = append(t.where, ^j)
	}
	t.atHigh = make([]bool, w)
	t.price = make([]fixed, w)
	for i, r := range s.rows {
		cells := t.cells[i*w : (i+1)*w]
		if r == nil {
			for _, g := range s.prog.floors[s.floorOf[i]].minima {
				cells[n+g] = -one
			}
		} else {
			for _, term := range r.Terms {
				cells[term.Column] = scaled(term.Coef, -s.rowBits[i])
			}
			if g := s.minimumOf[i]; g >= 0 {
				cells[n+g] = one
			}
		}
		t.addSlack(i, cells)
	}
}

// addSlack makes row i's slack basic, boxed, with its value at the present bounds.
func (t *tableau) addSlack(i int, cells []fixed) {
	limit := scaled(t.shape.start[i], -t.shape.rowBits[i])
	value, most := limit, limit
	for j, c := range cells {
		if c == 0 {
			continue
		}
		value -= mul(c, t.bound(j))
		most = clamp(most - min(mul(c, t.lo[j]), mul(c, t.hi[j])))
	}
	t.where = append(t.where, i)
	t.basic = append(t.basic, len(t.lo))
	t.at = append(t.at, clamp(value))
	t.lo = append(t.lo, 0)
	t.hi = append(t.hi, max(0, most)+one)
}

// catchUp appends the rows that were written since the tableau was made, each
// with its slack basic.
func (t *tableau) catchUp() {
	for i := len(t.basic); i < len(t.shape.rows); i++ {
		t.append(i)
	}
}

// append adds row i of the shape, which is a cut.
func (t *tableau) append(i int) {
	s := t.shape
	direct := make([]fixed, len(t.lo))
	for _, term := range s.rows[i].Terms {
		direct[term.Column] = scaled(term.Coef, -s.rowBits[i])
	}
	w := t.width()
	cells := make([]fixed, w)
	for j, k := range t.outside {
		cells[j] = direct[k]
	}
	value := scaled(s.rows[i].Limit, -s.rowBits[i])
	most := value
	for k, d := range direct {
		if d != 0 {
			value = clamp(value - mul(d, t.value(k)))
			most = clamp(most - min(mul(d, t.lo[k]), mul(d, t.hi[k])))
		}
	}
	for r, k := range t.basic {
		if d := direct[k]; d != 0 {
			for j, c := range t.cells[r*w : (r+1)*w] {
				cells[j] = clamp(cells[j] - mul(d, c))
			}
		}
	}
	t.cells = append(t.cells, cells...)
	t.where = append(t.where, i)
	t.basic = append(t.basic, len(t.lo))
	t.at = append(t.at, value)
	t.lo = append(t.lo, 0)
	t.hi = append(t.hi, max(0, most)+one)
}

// refresh makes the tableau afresh with the bounds it has.
func (t *tableau) refresh() {
	fresh := newTableau(t.shape.prog)
	for j := range t.low {
		fresh.restrict(j, t.low[j], t.high[j])
	}
	fresh.aim(t.shape.goal)
	shape := t.shape
	t.copyFrom(fresh)
	t.shape = shape
}

// aim makes o the objective: prices afresh, and every outside unknown moved to
// the bound its price asks for.
func (t *tableau) aim(o objective) {
	s := t.shape
	n := len(s.prog.columns)
	s.goal, s.goalBits = o, widest(o.coefs)
	if len(o.minima) > 0 {
		s.goalBits = max(s.goalBits, s.minimumBits)
	}
	worth := make([]fixed, len(t.lo))
	for j, c := range o.coefs {
		worth[j] = scaled(c, -s.goalBits)
	}
	for _, g := range o.minima {
		worth[n+g] = one >> (s.goalBits - s.minimumBits)
	}
	w := t.width()
	for j, k := range t.outside {
		t.price[j] = worth[k]
	}
	for i, k := range t.basic {
		if worth[k] == 0 {
			continue
		}
		for j, c := range t.cells[i*w : (i+1)*w] {
			t.price[j] = clamp(t.price[j] - mul(worth[k], c))
		}
	}
	for j, d := range t.price {
		if d > 0 != t.atHigh[j] && d != 0 {
			before := t.bound(j)
			t.atHigh[j] = d > 0
			t.shift(j, t.bound(j)-before)
		}
	}
}

// claims is the objective's value at the tableau's point, in its scaled units.
func (t *tableau) claims() fixed {
	o := t.shape.goal
	z := fixed(0)
	for j, c := range o.coefs {
		if c.Sign() != 0 {
			z = clamp(z + mul(scaled(c, -t.shape.goalBits), t.value(j)))
		}
	}
	n := len(t.shape.prog.columns)
	for _, g := range o.minima {
		z = clamp(z + t.value(n+g)>>(t.shape.goalBits-t.shape.minimumBits))
	}
	return z
}

// agrees reports whether a certified bound is about what the tableau claims.
func (t *tableau) agrees(bound *big.Int) bool {
	if bound == nil {
		return false
	}
	return scaled(bound, -t.shape.goalBits)-t.claims() < one>>12
}
