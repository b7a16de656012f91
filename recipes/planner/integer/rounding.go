package integer

import (
	"math"
	"math/big"
	"slices"
)

// What a relaxation does not see of a row Σ a·x ≤ b is that some of its columns
// are 0 unless a 0/1 column is 1, and that all are whole. Both follow from
// complemented mixed-integer rounding (H. Marchand and L. A. Wolsey, Aggregation
// and mixed integer rounding to solve MIPs, Operations Research 49, 2001): where
// x ≤ u·z, write x = u·z − t with t ≥ 0; count some whole columns down from their
// greatest; then, for any d above 0, with f = b mod d,
//
//	Σ (⌊a/d⌋·(d−f) + max(0, a mod d − f))·y + Σ over c < 0 of c·t ≤ ⌊b/d⌋·(d−f)
//
// for whole y ≥ 0 and t ≥ 0. Flow covers are among these rows (M. W. Padberg,
// T. J. Van Roy and L. A. Wolsey, Valid linear inequalities for fixed charge
// problems, Operations Research 33, 1985). Floating point chooses which; the row
// itself is reckoned in whole numbers.

// A lid says that a column is at most most × the 0/1 column sign; most is 0 where
// there is none.
type lid struct {
	sign int
	most int64
}

// addLids finds the columns with lids, and the rows that can be rounded.
func (p *program) addLids() {
	p.lids = make([]lid, len(p.columns))
	for i := range p.rows {
		r := &p.rows[i]
		if len(r.Terms) > 2 && !r.empty() {
			p.sources = append(p.sources, roundable{row: i})
		}
		if j, l := p.lidOf(r); l.most > 0 && (p.lids[j].most == 0 || l.most < p.lids[j].most) {
			p.lids[j] = l
		}
	}
	for i := range p.sources {
		p.sources[i].scale(p)
	}
}

// A roundable is a row that can be rounded, as floating point has it.
type roundable struct {
	row    int
	bits   int       // coefficients are divided by 2^bits
	coefs  []float64 // by term
	widest float64   // the largest that a column can have for its coefficient, lids or none
}

// scale reads the row, whose coefficients stay as they are.
func (s *roundable) scale(p *program) {
	row := &p.rows[s.row]
	s.bits = bitsOf(row.Terms)
	at := make([]float64, len(p.columns))
	for _, t := range row.Terms {
		a := scaled(t.Coef, -s.bits)
		s.coefs = append(s.coefs, a)
		at[t.Column] += math.Abs(a)
		if l := p.lids[t.Column]; l.most > 0 {
			at[l.sign] += math.Abs(a) * float64(l.most)
		}
	}
	s.widest = slices.Max(at)
}

// isLoose reports whether a point that keeps the lids leaves so much of the row that it
// breaks no rounding of it: rounding by d takes less than d from the limit.
func (s *roundable) isLoose(row *Row, point []float64) bool {
	left := scaled(row.Limit, -s.bits)
	for k, t := range row.Terms {
		left -= s.coefs[k] * point[t.Column]
	}
	return left > s.widest
}

// lidOf reads the row as a lid of a column; its most is 0 where it is none.
func (p *program) lidOf(r *Row) (column int, l lid) {
	if len(r.Terms) != 2 || r.Limit.Sign() != 0 {
		return 0, lid{}
	}
	x, z := r.Terms[0], r.Terms[1]
	if x.Coef.Sign() < 0 {
		x, z = z, x
	}
	if x.Coef.Sign() <= 0 || z.Coef.Sign() >= 0 || p.columns[z.Column].Most != 1 {
		return 0, lid{}
	}
	most := new(big.Int).Neg(z.Coef)
	if most.Quo(most, x.Coef); !most.IsInt64() || most.Int64() > MostValue {
		return 0, lid{}
	}
	return x.Column, lid{z.Column, most.Int64()}
}

// empty reports whether the row says nothing for now.
func (r *Row) empty() bool {
	for _, t := range r.Terms {
		if t.Coef.Sign() != 0 {
			return false
		}
	}
	return true
}

// A rounding is a choice of what to round of one row.
type rounding struct {
	p       *program
	point   []float64
	row     int
	lidded  []bool    // by term: written as u·z − t
	dropped []bool    // by term: x ≥ 0 is all that counts of it
	coefs   []float64 // by column: of the whole ones
	whole   []int     // the columns with a coefficient
	in      []bool    // by column: it is in whole
	flipped []bool    // by column: counted down from its greatest
	limit   float64
	slack   float64 // what the continuous ones with a falling coefficient come to
	of      int     // the column of whose coefficient the divisor is a part; -1: none
	part    int     // the how-manieth part
	gain    float64 // how far the point breaks the rounded row
}

// leastRounding is how far a point must break a rounded row, by the size of its
// coefficients, for the row to be reckoned.
const leastRounding = 0.003

// roundings lists rows that follow and that the point breaks.
func (p *program) roundings(point []float64) []Row {
	var rows []Row
	r := &rounding{p: p, point: point, coefs: make([]float64, len(p.columns)), in: make([]bool, len(p.columns)), flipped: make([]bool, len(p.columns))}
	for i := range p.sources {
		s := &p.sources[i]
		if s.row == p.asked || s.isLoose(&p.rows[s.row], point) {
			continue
		}
		for _, lids := range [...]bool{true, false} {
			if !r.choose(s, lids) {
				continue
			}
			if row, ok := r.exact(); ok {
				rows = append(rows, row)
			}
		}
	}
	return rows
}

// choose looks for the best rounding of a row, seen with lids or with none; false
// where none pays.
func (r *rounding) choose(s *roundable, lids bool) bool {
	r.read(s, lids)
	r.flip()
	r.gain, r.of = leastRounding, -1
	for _, j := range r.whole {
		if r.between(j) {
			r.tryPart(j, 1)
		}
	}
	if r.of < 0 {
		return false
	}
	for _, part := range [...]int{2, 4, 8} {
		r.tryPart(r.of, part)
	}
	d := math.Abs(r.coefs[r.of]) / float64(r.part)
	for _, j := range r.whole {
		if j == r.of || !r.between(j) {
			continue
		}
		r.turn(j)
		if g := r.gainOf(d); g > r.gain {
			r.gain = g
		} else {
			r.turn(j)
		}
	}
	return true
}

// between reports whether the point has a column clearly off its bounds.
func (r *rounding) between(j int) bool {
	y := r.at(j)
	return r.coefs[j] != 0 && y > 1e-5 && y < r.span(j)-1e-5
}

// tryPart keeps a part of a column's coefficient as the divisor if it gains more.
func (r *rounding) tryPart(j, part int) {
	if g := r.gainOf(math.Abs(r.coefs[j]) / float64(part)); g > r.gain {
		r.gain, r.of, r.part = g, j, part
	}
}

// span is how far a column can go.
func (r *rounding) span(j int) float64 { return float64(r.p.columns[j].Most - r.p.columns[j].Least) }

// at is where the point has a whole column, counted as chosen.
func (r *rounding) at(j int) float64 {
	if r.flipped[j] {
		return float64(r.p.columns[j].Most) - r.point[j]
	}
	return r.point[j] - float64(r.p.columns[j].Least)
}

// turn counts a column the other way.
func (r *rounding) turn(j int) {
	r.limit -= r.coefs[j] * r.span(j)
	r.coefs[j] = -r.coefs[j]
	r.flipped[j] = !r.flipped[j]
}

// read writes the row with lids where the point is nearer to them than to 0.
func (r *rounding) read(s *roundable, lids bool) {
	for _, j := range r.whole {
		r.coefs[j], r.in[j], r.flipped[j] = 0, false, false
	}
	r.whole = r.whole[:0]
	row := &r.p.rows[s.row]
	r.row = s.row
	r.limit, r.slack = scaled(row.Limit, -s.bits), 0
	n := len(row.Terms)
	r.lidded, r.dropped = append(r.lidded[:0], make([]bool, n)...), append(r.dropped[:0], make([]bool, n)...)
	add := func(j int, a float64) {
		if !r.in[j] {
			r.in[j] = true
			r.whole = append(r.whole, j)
		}
		r.coefs[j] += a
		r.limit -= a * float64(r.p.columns[j].Least)
	}
	for k, t := range row.Terms {
		a, j := s.coefs[k], t.Column
		l := r.p.lids[j]
		if l.most == 0 || !lids {
			add(j, a)
			continue
		}
		u := float64(l.most)
		rest := u*r.point[l.sign] - r.point[j]
		if rest <= r.point[j] {
			r.lidded[k] = true
			add(l.sign, a*u)
			if a > 0 {
				r.slack -= a * rest
			}
			continue
		}
		r.dropped[k] = true
		if a < 0 {
			r.slack += a * r.point[j]
		}
	}
}

// flip counts the columns that are nearer to their greatest down from it.
func (r *rounding) flip() {
	for _, j := range r.whole {
		if r.at(j) > r.span(j)/2 {
			r.turn(j)
		}
	}
}

// gainOf is by how much the point breaks the row rounded by d, against the size of
// its coefficients.
func (r *rounding) gainOf(d float64) float64 {
	if d < 1e-6 {
		return 0
	}
	whole := math.Floor(r.limit/d + 1e-9)
	f := max(0, r.limit/d-whole)
	if f > 0.99 || f < 0.01 {
		return 0
	}
	sum, size := -whole, 0.0
	for _, j := range r.whole {
		a := r.coefs[j] / d
		n := math.Floor(a + 1e-9)
		c := n + max(0, a-n-f)/(1-f)
		sum += c * r.at(j)
		size += c * c
	}
	sum += r.slack / d / (1 - f)
	return sum / math.Sqrt(size+1)
}

// fineness is how many bits the coefficients of a rounded row are cut to.
const fineness = 30

// A sum is coefficients by column.
type sum map[int]*big.Int

func (s sum) add(j int, a *big.Int) {
	if s[j] == nil {
		s[j] = new(big.Int)
	}
	s[j].Add(s[j], a)
}

// exact reckons the chosen row in whole numbers; false where it says nothing. All is
// taken eight times, so that a part of the divisor is whole.
func (r *rounding) exact() (Row, bool) {
	whole, rest := r.parted()
	d := new(big.Int).Abs(whole[r.of])
	if d.Quo(d, big.NewInt(int64(r.part))); d.Sign() == 0 {
		return Row{}, false
	}
	limit := new(big.Int).Lsh(r.p.rows[r.row].Limit, 3)
	var term big.Int
	for j, a := range whole { // from the least up, or from the greatest down
		limit.Sub(limit, term.Mul(a, term.SetInt64(r.start(j))))
		if r.flipped[j] {
			a.Neg(a)
		}
	}
	times, f := new(big.Int).DivMod(limit, d, new(big.Int))
	left := new(big.Int).Sub(d, f)
	limit.Mul(times, left)
	for j, a := range whole {
		n, over := new(big.Int).DivMod(a, d, new(big.Int))
		n.Mul(n, left)
		if over.Sub(over, f); over.Sign() > 0 {
			n.Add(n, over)
		}
		if r.flipped[j] { // n·(most − x)
			n.Neg(n)
		}
		limit.Add(limit, term.Mul(n, term.SetInt64(r.start(j))))
		rest.add(j, n)
	}
	return trimmed(rest, limit, len(r.p.columns)), true
}

// start is where a whole column is counted from.
func (r *rounding) start(j int) int64 {
	if r.flipped[j] {
		return r.p.columns[j].Most
	}
	return r.p.columns[j].Least
}

// parted is what of the row is rounded, and what stays as it is: a·x = a·u·z − a·t,
// of which −a·t stays where a is above 0, written as a·x − a·u·z.
func (r *rounding) parted() (whole, rest sum) {
	whole, rest = sum{}, sum{}
	for k, t := range r.p.rows[r.row].Terms {
		a := new(big.Int).Lsh(t.Coef, 3)
		switch l := r.p.lids[t.Column]; {
		case r.lidded[k]:
			au := new(big.Int).Mul(a, big.NewInt(l.most))
			whole.add(l.sign, au)
			if a.Sign() > 0 {
				rest.add(t.Column, a)
				rest.add(l.sign, au.Neg(au))
			}
		case !r.dropped[k]:
			whole.add(t.Column, a)
		case a.Sign() < 0:
			rest.add(t.Column, a)
		}
	}
	return whole, rest
}

// trimmed is the row with shorter coefficients: rounded down, as no column is
// below 0.
func trimmed(coefs sum, limit *big.Int, columns int) Row {
	bits := 0
	for _, a := range coefs {
		bits = max(bits, a.BitLen())
	}
	cut := uint(max(0, bits-fineness))
	row := Row{Limit: limit.Rsh(limit, cut)}
	for j := range columns {
		if a := coefs[j]; a != nil {
			if a.Rsh(a, cut); a.Sign() != 0 {
				row.Terms = append(row.Terms, Term{j, a})
			}
		}
	}
	return row
}
