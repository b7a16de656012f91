package integer

import (
	"cmp"
	"math"
	"math/big"
	"slices"
)

// A shape is how a program's numbers are scaled for the relaxation: by powers
// of two, so that the exact multipliers can be had back by shifting.
type shape struct {
	prog        *program
	batch       []int64       // by column: what it is at least if it is not 0
	rows        []*Row        // the program's, then those of its minima, then nil for each floor, then the cuts
	minimumOf   []int         // by row: the minimum it belongs to, or -1
	floorOf     []int         // by row: the floor, or -1
	rowBits     []int         // a row's coefficients are divided by 2^rowBits
	start       []*big.Int    // by row: its limit when the shape was made
	entries     [][]entry     // by row: it as the relaxation has it
	limits      []float64     // by row: start, scaled
	whole       [][]wholeTerm // by row of the program: its terms, where they fit
	minimumBits int           // minima are counted in units of 2^minimumBits
	goal        objective
	goalBits    int
}

// An entry is a scaled coefficient of a column or minimum in a row.
type entry struct {
	unknown int32
	coef    float64
}

// newShape scales the numbers of p.
func newShape(p *program) *shape {
	s := &shape{prog: p}
	for g := range p.minima {
		for i := range p.minima[g] {
			r := &p.minima[g][i]
			s.minimumBits = max(s.minimumBits, bitsOf(r.Terms), r.Limit.BitLen()-12)
		}
	}
	for _, c := range p.columns {
		s.batch = append(s.batch, c.Batch)
	}
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
	return s
}

// addRow adds a row of the program, of one of its minima, or (nil) a floor.
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
	s.rowBits = append(s.rowBits, 0)
	s.entries = append(s.entries, nil)
	s.limits = append(s.limits, 0)
	s.whole = append(s.whole, nil)
	s.rescale(len(s.rows) - 1)
}

// rescale reads row i, which may have come to say something else.
func (s *shape) rescale(i int) {
	n, bits := len(s.prog.columns), s.minimumBits
	r, minimum, floor := s.rows[i], s.minimumOf[i], s.floorOf[i]
	if r != nil && minimum < 0 {
		bits = bitsOf(r.Terms)
	}
	var entries []entry
	if r != nil {
		for _, t := range r.Terms {
			entries = append(entries, entry{int32(t.Column), scaled(t.Coef, -bits)})
		}
	}
	if minimum >= 0 {
		entries = append(entries, entry{int32(n + minimum), 1})
	}
	if floor >= 0 {
		for _, g := range s.prog.floors[floor].minima {
			entries = append(entries, entry{int32(n + g), -1})
		}
	}
	if i < len(s.prog.rows) {
		s.whole[i] = s.prog.wholeTerms(r)
	}
	s.rowBits[i], s.entries[i], s.limits[i] = bits, entries, scaled(s.start[i], -bits)
}

// slack is the unknown of the row's slack.
func (s *shape) slack(row int) int { return len(s.prog.columns) + len(s.prog.minima) + row }

// newTableau builds the relaxation of p without any of its rows, which come in as
// they are broken.
func newTableau(p *program) *tableau {
	s := newShape(p)
	t := &tableau{shape: s}
	for _, c := range p.columns {
		most := c.Most
		if most < c.Batch {
			most = 0 // not even one batch
		}
		t.low, t.high = append(t.low, c.Least), append(t.high, most)
		t.lo, t.hi = append(t.lo, float64(c.Least)), append(t.hi, float64(most))
	}
	for g := range p.minima {
		low, high := p.minimumRange(p.minima[g])
		t.lo = append(t.lo, scaled(low, -s.minimumBits)-1)  // out of the way: only
		t.hi = append(t.hi, scaled(high, -s.minimumBits)+1) // the rows may bind
	}
	t.where = make([]int, len(t.lo))
	t.clear()
	t.catchUp()
	return t
}

// clear takes all rows out of the tableau; bounds stay as they are.
func (t *tableau) clear() {
	w := len(t.shape.prog.columns) + len(t.shape.prog.minima)
	t.basic, t.at, t.cells, t.outside = t.basic[:0], t.at[:0], t.cells[:0], t.outside[:0]
	for k := range t.where {
		t.where[k] = absent
	}
	for k := range w {
		t.where[k] = ^k
		t.outside = append(t.outside, k)
	}
	t.atHigh = make([]bool, w)
	t.price = make([]float64, w)
	t.broken = false
}

// catchUp takes note of the rows that were written since.
func (t *tableau) catchUp() {
	s := t.shape
	for i := len(t.where) - s.slack(0); i < len(s.rows); i++ {
		t.where = append(t.where, absent)
		t.lo = append(t.lo, 0)
		t.hi = append(t.hi, t.beyond(i))
	}
}

// beyond is more than the slack of row i can come to.
func (t *tableau) beyond(i int) float64 {
	most := t.shape.limits[i]
	for _, e := range t.shape.entries[i] {
		most -= min(float64(e.coef*t.lo[e.unknown]), float64(e.coef*t.hi[e.unknown]))
	}
	return max(0, most) + 1
}

// reread takes note that row i, which stands outside the tableau, says something
// else now.
func (t *tableau) reread(i int) {
	t.shape.start[i] = t.shape.prog.rows[i].Limit
	t.shape.rescale(i)
	t.hi[t.shape.slack(i)] = t.beyond(i)
}

// mostBrought is how many rows are brought in at once: of more most do not bind in the
// end.
const mostBrought = 100

// bringIn takes the rows into the tableau that its point breaks, or those it breaks
// most, and reports whether there are any.
func (t *tableau) bringIn() bool {
	s := t.shape
	first := s.slack(0)
	point := t.point[:0]
	for k := range first {
		point = append(point, t.value(k))
	}
	t.point = point
	brought := t.brought[:0]
	for i, entries := range s.entries[:len(t.where)-first] {
		if t.where[first+i] != absent {
			continue
		}
		slack := s.limits[i]
		for _, e := range entries {
			slack -= float64(e.coef * point[e.unknown])
		}
		if slack < t.lo[first+i]-tolerance/16 {
			brought = append(brought, brokenRow{i, slack})
		}
	}
	t.brought = brought
	if len(brought) > mostBrought {
		slices.SortStableFunc(brought, func(a, b brokenRow) int { return cmp.Compare(a.slack, b.slack) })
		brought = brought[:mostBrought]
	}
	for _, b := range brought {
		t.take(b.row, b.slack)
	}
	return len(brought) > 0
}

// A brokenRow is a row outside the tableau that its point breaks.
type brokenRow struct {
	row   int
	slack float64
}

// take brings row i in, with its slack basic.
func (t *tableau) take(i int, slack float64) {
	w, r := t.width(), len(t.at)
	for range w {
		t.cells = append(t.cells, 0)
	}
	cells := t.cells[r*w:]
	for _, e := range t.shape.entries[i] {
		at := t.where[e.unknown]
		if at == absent {
			continue
		}
		if at < 0 {
			cells[^at] += e.coef
			continue
		}
		for j, c := range t.cells[at*w : (at+1)*w] {
			cells[j] -= float64(e.coef * c)
		}
	}
	k := t.shape.slack(i)
	t.where[k] = r
	t.basic = append(t.basic, k)
	t.at = append(t.at, slack)
}

// shed takes the rows out of the tableau that do not bind.
func (t *tableau) shed() {
	first, w := t.shape.slack(0), t.width()
	for r := len(t.basic) - 1; r >= 0; r-- {
		k := t.basic[r]
		if k < first || t.at[r] < t.lo[k]+tolerance {
			continue
		}
		last := len(t.basic) - 1
		t.where[k] = absent
		if r != last {
			copy(t.cells[r*w:(r+1)*w], t.cells[last*w:])
			t.basic[r], t.at[r] = t.basic[last], t.at[last]
			t.where[t.basic[r]] = r
		}
		t.basic, t.at, t.cells = t.basic[:last], t.at[:last], t.cells[:last*w]
	}
}

// fewFixed is what part of the columns has to be fixed for them to be worth leaving out.
const fewFixed = 8

// leaveOutFixed takes out the columns of the tableau whose unknowns are fixed, and so will
// never come in again: they stand where they are fixed, for as long as they are.
func (t *tableau) leaveOutFixed() {
	w, kept := t.width(), t.able[:0]
	for j, k := range t.outside {
		if k >= len(t.low) || t.low[k] != t.high[k] {
			kept = append(kept, j)
		}
	}
	t.able = kept
	if (w-len(kept))*fewFixed < w {
		return
	}
	for _, k := range t.outside {
		t.where[k] = absent
	}
	cells := t.cells[:0]
	for i := range t.at {
		row := t.cells[i*w : (i+1)*w]
		for _, j := range kept {
			cells = append(cells, row[j]) // never past what is still to be read
		}
	}
	for n, j := range kept {
		t.outside[n], t.atHigh[n], t.price[n] = t.outside[j], t.atHigh[j], t.price[j]
		t.where[t.outside[n]] = ^n
	}
	n := len(kept)
	t.cells, t.outside, t.atHigh, t.price = cells, t.outside[:n], t.atHigh[:n], t.price[:n]
}

// refresh makes the tableau afresh with the bounds it has.
func (t *tableau) refresh() {
	t.clear()
	t.aim(t.shape.goal)
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
	worth := make([]float64, len(t.lo))
	for j, c := range o.coefs {
		worth[j] = scaled(c, -s.goalBits)
	}
	for _, g := range o.minima {
		worth[n+g] = math.Ldexp(1, s.minimumBits-s.goalBits)
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
			t.price[j] -= float64(worth[k] * c)
		}
	}
	t.standRight()
}

// claims is the objective's value at the tableau's point, in its scaled units.
func (t *tableau) claims() float64 {
	o := t.shape.goal
	z := 0.0
	for j, c := range o.coefs {
		if c.Sign() != 0 {
			z += float64(scaled(c, -t.shape.goalBits) * t.value(j))
		}
	}
	n := len(t.shape.prog.columns)
	for _, g := range o.minima {
		z += math.Ldexp(t.value(n+g), t.shape.minimumBits-t.shape.goalBits)
	}
	return z
}

// agrees reports whether a certified bound is about what the tableau claims.
func (t *tableau) agrees(bound *big.Int) bool {
	if bound == nil {
		return false
	}
	return scaled(bound, -t.shape.goalBits)-t.claims() < 1.0/256
}

// isFarFrom reports whether the relaxation's point, as far as floating point can tell,
// is so much better than a value that neither would an exact bound rule the node out nor
// could any column be narrowed by it.
func (t *tableau) isFarFrom(value *big.Int) bool {
	spare := t.claims() - scaled(value, -t.shape.goalBits)
	if spare -= float64(farness * (1 + math.Abs(spare))); spare <= 0 {
		return false
	}
	for j, d := range t.price {
		if k := t.outside[j]; k < len(t.low) && math.Abs(d)*(t.hi[k]-t.lo[k]) >= spare {
			return false
		}
	}
	return true
}
