package planner

import "math/big"

// A shape is how a program's numbers are scaled for the relaxation: by powers
// of two, so that the exact multipliers can be had back by shifting.
type shape struct {
	prog     *program
	rows     []*row // program rows, then the pieces of its gains, then nil for each floor
	gainOf   []int  // by row: the gain a piece belongs to, or -1
	floorOf  []int  // by row: the floor, or -1
	rowBits  []int  // a row's coefficients are divided by 2^rowBits
	gainBits int    // gains are counted in units of 2^gainBits
	goal     objective
	goalBits int
	start    []*big.Int // by row: its limit when the tableau was built
}

// newTableau builds the relaxation of p with the slacks as its basis.
func newTableau(p *program) *tableau {
	s := &shape{prog: p}
	for i := range p.rows {
		s.addRow(&p.rows[i], -1, -1)
	}
	for g := range p.gains {
		for i := range p.gains[g] {
			s.addRow(&p.gains[g][i], g, -1)
		}
	}
	for f := range p.floors {
		s.addRow(nil, -1, f)
	}
	for i := range p.cuts {
		s.addRow(&p.cuts[i], -1, -1)
	}
	s.scaleGains()
	t := &tableau{shape: s}
	for _, c := range p.columns {
		most := c.most
		if most < c.batch {
			most = 0 // not even one batch
		}
		t.low, t.high = append(t.low, c.least), append(t.high, most)
		t.lo, t.hi = append(t.lo, c.least*one), append(t.hi, most*one)
	}
	for g := range p.gains {
		low, high := s.gainRange(g)
		t.lo = append(t.lo, scaled(low, -s.gainBits)-one)  // out of the way: only
		t.hi = append(t.hi, scaled(high, -s.gainBits)+one) // the pieces may bind
	}
	s.fill(t)
	return t
}

func (s *shape) addRow(r *row, gain, floor int) {
	s.rows = append(s.rows, r)
	s.gainOf = append(s.gainOf, gain)
	s.floorOf = append(s.floorOf, floor)
	limit := new(big.Int)
	if r != nil {
		limit = r.limit
	} else {
		limit.Neg(s.prog.floors[floor].least)
	}
	s.start = append(s.start, limit)
}

// scaleGains chooses each gain's unit and each row's divisor.
func (s *shape) scaleGains() {
	for i, r := range s.rows {
		if s.gainOf[i] >= 0 {
			s.gainBits = max(s.gainBits, widest(r.coefs), r.limit.BitLen()-12)
		}
	}
	for i, r := range s.rows {
		bits := 0
		switch {
		case r == nil || s.gainOf[i] >= 0:
			bits = s.gainBits
		default:
			bits = widest(r.coefs)
		}
		s.rowBits = append(s.rowBits, bits)
	}
}

// widest is the bit length of the largest number of the list.
func widest(numbers []*big.Int) int {
	bits := 0
	for _, n := range numbers {
		bits = max(bits, n.BitLen())
	}
	return bits
}

// scaled is n × 2^shift in fixed point, to the nearest, kept within room.
func scaled(n *big.Int, shift int) fixed {
	var v big.Int
	if up := places + shift; up >= 0 {
		v.Lsh(n, uint(up))
	} else {
		v.Lsh(big.NewInt(1), uint(-up-1))
		v.Add(&v, n).Rsh(&v, uint(-up))
	}
	if !v.IsInt64() || tooBig(v.Int64()) {
		if n.Sign() < 0 {
			return -room
		}
		return room
	}
	return v.Int64()
}

// gainRange bounds a gain over the program's box.
func (s *shape) gainRange(g int) (low, high *big.Int) {
	for i := range s.prog.gains[g] {
		least, most := s.slackRange(&s.prog.gains[g][i])
		if i == 0 || least.Cmp(low) < 0 {
			low = least
		}
		if i == 0 || most.Cmp(high) < 0 {
			high = most
		}
	}
	return low, high
}

// slackRange bounds limit − Σ coefs·x over the program's box.
func (s *shape) slackRange(r *row) (least, most *big.Int) {
	least, most = new(big.Int).Set(r.limit), new(big.Int).Set(r.limit)
	var term big.Int
	for k, j := range r.cols {
		low, high := s.prog.columns[j].least, s.prog.columns[j].most
		if r.coefs[k].Sign() < 0 {
			low, high = high, low
		}
		most.Sub(most, term.Mul(r.coefs[k], term.SetInt64(low)))
		least.Sub(least, term.Mul(r.coefs[k], term.SetInt64(high)))
	}
	return least, most
}

// fill writes the cells of the slack basis.
func (s *shape) fill(t *tableau) {
	n := len(s.prog.columns)
	w := n + len(s.prog.gains)
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
			for _, g := range s.prog.floors[s.floorOf[i]].gains {
				cells[n+g] = -one
			}
		} else {
			for k, j := range r.cols {
				cells[j] += scaled(r.coefs[k], -s.rowBits[i])
			}
			if g := s.gainOf[i]; g >= 0 {
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

func clamp(v fixed) fixed { return max(-room, min(room, v)) }

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
	if len(o.gains) > 0 {
		s.goalBits = max(s.goalBits, s.gainBits)
	}
	worth := make([]fixed, len(t.lo))
	for j, c := range o.coefs {
		worth[j] = scaled(c, -s.goalBits)
	}
	for _, g := range o.gains {
		worth[n+g] = one >> (s.goalBits - s.gainBits)
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
	for _, g := range o.gains {
		z = clamp(z + t.value(n+g)>>(t.shape.goalBits-t.shape.gainBits))
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

// shift moves the outside unknown of column j by step.
func (t *tableau) shift(j int, step fixed) {
	if step == 0 {
		return
	}
	w := t.width()
	for i := range t.at {
		if c := t.cells[i*w+j]; c != 0 {
			t.at[i] = clamp(t.at[i] - mul(c, step))
		}
	}
}

// rebound sets the scaled bounds of unknown k.
func (t *tableau) rebound(k int, lo, hi fixed) {
	j := ^t.where[k]
	if j < 0 {
		t.lo[k], t.hi[k] = lo, hi
		return
	}
	before := t.bound(j)
	t.lo[k], t.hi[k] = lo, hi
	t.shift(j, t.bound(j)-before)
}

// restrict narrows the program's column j to low…high at this node.
func (t *tableau) restrict(j int, low, high int64) {
	t.low[j], t.high[j] = low, high
	t.rebound(j, low*one, high*one)
}

// tighten tells the relaxation that the limit of its row i has changed.
func (t *tableau) tighten(i int, limit *big.Int) {
	var less big.Int
	less.Sub(t.shape.start[i], limit)
	k := len(t.shape.prog.columns) + len(t.shape.prog.gains) + i
	lo := scaled(&less, -t.shape.rowBits[i])
	t.rebound(k, lo, max(lo, t.hi[k]))
}

// value is where the relaxation's point has unknown k.
func (t *tableau) value(k int) fixed {
	if i := t.where[k]; i >= 0 {
		return t.at[i]
	}
	return t.bound(^t.where[k])
}

// rounded is the point with bias added and cut to whole numbers in the domain.
func (t *tableau) rounded(bias fixed) []int64 {
	x := make([]int64, len(t.low))
	for j, c := range t.shape.prog.columns {
		v := (t.value(j) + bias) >> places
		v = max(t.low[j], min(t.high[j], v))
		if v > 0 && v < c.batch {
			v = 0
		}
		x[j] = v
	}
	return x
}

// A span is a range of whole numbers, ends included.
type span struct{ low, high int64 }

// split cuts the domain of column j at v in two, the side nearer to v first.
func (t *tableau) split(j int, v fixed) (first, second span) {
	low, high := t.low[j], t.high[j]
	cut := max(low, min(high-1, v>>places))
	down, up := span{low, cut}, span{cut + 1, high}
	batch := t.shape.prog.columns[j].batch
	if low == 0 && batch > 1 && cut < batch {
		down, up = span{0, 0}, span{batch, high}
		cut = 0
		v /= batch
	}
	if v-cut*one > one/2 {
		return up, down
	}
	return down, up
}
