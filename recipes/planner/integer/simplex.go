package integer

import (
	"math"
	"slices"
)

type status uint8

const (
	unknown    status = iota // the relaxation gave up: its bound may be loose
	optimal                  // the point is the relaxation's best
	infeasible               // row `stuck` of the tableau cannot be mended
	closed                   // nothing better is left under the node
)

// absent is where a slack is whose row does not stand in the tableau, or a column that is
// fixed and left out.
const absent = math.MaxInt32

// A tableau is the condensed tableau of the relaxation's dual simplex with
// bounds on every unknown: basic[i] + Σ cells[i][j]·outside[j] is constant.
// Unknowns 0…n-1 are the program's columns, then its minima, then one slack a
// row. Rows that do not bind need not stand in it. Every unknown is boxed, so a start is always at hand: each outside
// unknown stands on the bound its price asks for.
type tableau struct {
	shape   *shape
	low     []int64 // exact bounds of the program's columns at this node
	high    []int64
	lo, hi  []float64 // bounds of all unknowns, scaled
	basic   []int     // the unknown of each row
	outside []int     // the unknown of each column
	where   []int     // by unknown: its row i, or its column j as ^j
	atHigh  []bool    // by column: which bound it stands on
	cells   []float64 // rows × columns
	price   []float64 // by column: what one more of it adds to the objective
	at      []float64 // by row: the basic unknown's value
	broken  bool      // an overflow: start afresh or give up
	stuck   int
	columns []int32     // scratch: where the pivot row's cells are not zero
	values  []float64   // scratch: and what they are
	able    []int       // scratch: columns that can mend a row
	flips   []int       // columns that are to go to their other bound before the next pivot
	group   []int       // scratch: columns that can mend a row at the same price
	out     []int       // scratch: rows whose basic unknowns are outside their bounds
	brought []brokenRow // scratch: rows to be brought in
	skip    []int       // scratch: rows that have only small cells to mend them
	point   []float64   // scratch: the value of each column and minimum
	left    bitset      // scratch: the ways to a span's sum that are left
	upward  bool        // the stuck row lacks (true) or exceeds (false)
}

// width is the number of columns of the tableau.
func (t *tableau) width() int { return len(t.outside) }

// copyFrom makes t a copy of o, reusing t's memory.
func (t *tableau) copyFrom(o *tableau) {
	t.shape = o.shape
	t.low = append(t.low[:0], o.low...)
	t.high = append(t.high[:0], o.high...)
	t.lo = append(t.lo[:0], o.lo...)
	t.hi = append(t.hi[:0], o.hi...)
	t.basic = append(t.basic[:0], o.basic...)
	t.outside = append(t.outside[:0], o.outside...)
	t.where = append(t.where[:0], o.where...)
	t.atHigh = append(t.atHigh[:0], o.atHigh...)
	if cap(t.cells) < len(o.cells) {
		t.cells = make([]float64, 0, len(o.cells)+len(o.cells)/2) // rows will come in
	}
	t.cells = append(t.cells[:0], o.cells...)
	t.price = append(t.price[:0], o.price...)
	t.at = append(t.at[:0], o.at...)
	t.broken, t.stuck, t.upward = o.broken, o.stuck, o.upward
}

// bound is the value of the outside unknown in column j.
func (t *tableau) bound(j int) float64 {
	if t.atHigh[j] {
		return t.hi[t.outside[j]]
	}
	return t.lo[t.outside[j]]
}

// reoptimise runs the dual simplex from where t stands, until all rows written
// are kept.
func (t *tableau) reoptimise(work *budget) status {
	t.catchUp()
	for {
		st := t.dual(work, 20*(1+len(t.basic)+t.width()))
		if st != optimal || !t.bringIn() {
			return st
		}
	}
}

// dual runs the dual simplex for at most so many pivots. Its objective never
// rises on the way, so what it claims is a bound whenever it stops.
func (t *tableau) dual(work *budget, turns int) status {
	patience := 50 + len(t.basic)
	for turn := range turns {
		if t.broken {
			break
		}
		if turn%patience == patience-1 {
			t.nudge()
		}
		r, q, upward := t.choose()
		if r < 0 {
			return optimal
		}
		if q < 0 {
			t.stuck, t.upward = r, upward
			return infeasible
		}
		work.cells += t.pivot(r, q, upward)
		work.pivots++
	}
	return unknown
}

// nudge sets prices of 0 a little apart: a relaxation with many best points may
// go round in circles among them. Bounds do not rest on it.
func (t *tableau) nudge() {
	for j, d := range t.price {
		h := uint32(t.outside[j]+1) * 2654435761 // Fibonacci hashing
		by := hair * (10 + float64(h>>16))
		switch {
		case d > by || d < -by:
		case t.atHigh[j]:
			t.price[j] += by
		default:
			t.price[j] -= by
		}
	}
}

// choose picks the next pivot: the basic unknown furthest outside its bounds
// that a cell of good size can mend, and only when there is none such, one with
// a small cell. A row that no cells mend (q < 0) is impossible; r < 0 says that
// all bounds are kept.
func (t *tableau) choose() (r, q int, upward bool) {
	t.skip = t.skip[:0]
	small, smallUp := -1, false
	for {
		r, upward = t.leaving()
		if r < 0 {
			break
		}
		good, enough := t.entering(r, upward, pivotMin)
		if enough {
			return r, good, upward
		}
		if _, enough = t.entering(r, upward, pivotLeast); !enough {
			return r, -1, upward
		}
		if good >= 0 {
			q, _ = t.entering(r, upward, pivotMin)
			return r, q, upward
		}
		if small < 0 {
			small, smallUp = r, upward
		}
		t.skip = append(t.skip, r)
	}
	if small < 0 {
		return -1, -1, false
	}
	q, _ = t.entering(small, smallUp, pivotLeast)
	return small, q, smallUp
}

// mostMeasured is among how many basic unknowns outside their bounds rows are measured.
const mostMeasured = 30

// leaving picks the basic unknown that is furthest outside its bounds, where these are
// not many for the length of its row (steepest edge; D. Goldfarb and J. K. Reid, A
// practicable steepest-edge simplex algorithm, Mathematical Programming 12, 1977), or -1.
func (t *tableau) leaving() (r int, upward bool) {
	t.out = t.out[:0]
	for i, v := range t.at {
		k := t.basic[i]
		if max(t.lo[k]-v, v-t.hi[k]) > tolerance/16 && !slices.Contains(t.skip, i) {
			t.out = append(t.out, i)
		}
	}
	r, best, w := -1, 0.0, t.width()
	for _, i := range t.out {
		k, v := t.basic[i], t.at[i]
		d, up := t.lo[k]-v, true
		if e := v - t.hi[k]; e > d {
			d, up = e, false
		}
		if d *= d; len(t.out) <= mostMeasured {
			d /= length(t.cells[i*w : (i+1)*w])
		}
		if d > best {
			r, best, upward = i, d, up
		}
	}
	return r, upward
}

// length is one more than the square of a row's length.
func length(cells []float64) float64 {
	sum := 1.0
	for _, c := range cells {
		sum += float64(c * c)
	}
	return sum
}

// entering picks the column that can mend row r and keeps all prices right but
// for a hair (P. M. J. Harris, Pivot selection methods of the Devex LP code,
// Mathematical Programming 5, 1973): among the smallest |price / cell|, the
// largest cell. Columns that do not mend the row by going all the way to their
// other bound are to do so, and the next are looked at (I. Maros, Computational
// Techniques of the Simplex Method, Kluwer 2003, 10.2.2). It is not enough when all
// together do not mend it.
func (t *tableau) entering(r int, upward bool, least float64) (q int, enough bool) {
	w := t.width()
	cells := t.cells[r*w : (r+1)*w]
	t.able, t.group, t.flips = t.able[:0], t.group[:0], t.flips[:0]
	for j, c := range cells {
		if t.mends(j, c, upward, least) {
			t.able = append(t.able, j)
		}
	}
	lacks := t.lo[t.basic[r]] - t.at[r]
	if !upward {
		lacks = t.at[r] - t.hi[t.basic[r]]
	}
	for q = -1; len(t.able) > 0; {
		t.flips = append(t.flips, t.group...)
		gain := 0.0
		q, gain = t.cheapest(cells)
		if lacks -= gain; lacks <= tolerance/16 {
			return q, true
		}
	}
	return q, false
}

// cheapest takes the columns with the smallest |price / cell| out of those that are able
// to mend a row. It returns the one with the largest cell, and how much all of them mend.
func (t *tableau) cheapest(cells []float64) (q int, gain float64) {
	allowed := math.Inf(1)
	for _, j := range t.able {
		allowed = min(allowed, (math.Abs(t.price[j])+hair)/math.Abs(cells[j]))
	}
	rest, size := t.able[:0], 0.0
	t.group, q = t.group[:0], -1
	for _, j := range t.able {
		m := math.Abs(cells[j])
		if math.Abs(t.price[j])/m > allowed {
			rest = append(rest, j)
			continue
		}
		if m > size {
			q, size = j, m
		}
		gain += t.mendsBy(j, m)
		t.group = append(t.group, j)
	}
	t.able = rest
	return q, gain
}

// mendsBy is how much of what a row lacks column j, whose cell is of size m, mends by
// going to its other bound; those of slacks and minima are too far to count.
func (t *tableau) mendsBy(j int, m float64) float64 {
	k := t.outside[j]
	if k >= len(t.low) {
		return math.Inf(1)
	}
	return float64(m * (t.hi[k] - t.lo[k]))
}

// flip moves column j to its other bound.
func (t *tableau) flip(j int) {
	before := t.bound(j)
	t.atHigh[j] = !t.atHigh[j]
	t.shift(j, t.bound(j)-before)
}

// mends reports whether moving column j off its bound mends a row in which its
// cell is c, of a size of at least least.
func (t *tableau) mends(j int, c float64, upward bool, least float64) bool {
	if c < least && c > -least || (c < 0) == (upward == t.atHigh[j]) {
		return false
	}
	k := t.outside[j]
	return t.lo[k] != t.hi[k]
}

// pivot swaps the basic unknown of row r with the outside one of column q, and says how
// many cells were gone through for it, about.
func (t *tableau) pivot(r, q int, upward bool) (cells int) {
	for _, j := range t.flips {
		t.flip(j)
	}
	w, rows := t.width(), 1
	pivotRow := t.cells[r*w : (r+1)*w]
	p := pivotRow[q]
	leaving := t.basic[r]
	goal := t.hi[leaving]
	if upward {
		goal = t.lo[leaving]
	}
	step := (t.at[r] - goal) / p
	entered := t.bound(q) + step
	inverse := 1 / p
	columns, values := t.columns[:0], t.values[:0]
	for j, c := range pivotRow {
		if c != 0 {
			c *= inverse
			pivotRow[j] = c
			columns, values = append(columns, int32(j)), append(values, c)
		}
	}
	pivotRow[q] = inverse
	values[slices.Index(columns, int32(q))] = inverse
	t.columns, t.values = columns, values
	for i := range t.at {
		if cells := t.cells[i*w : (i+1)*w]; i != r && cells[q] != 0 {
			t.at[i] -= float64(cells[q] * step)
			eliminate(cells, columns, values, q)
			rows++
		}
	}
	eliminate(t.price, columns, values, q)
	t.basic[r], t.outside[q] = t.outside[q], leaving
	t.where[t.basic[r]], t.where[leaving] = r, ^q
	t.at[r], t.atHigh[q] = entered, !upward
	if tooBig(inverse) || tooBig(entered) {
		t.broken = true
	}
	return w*(1+min(len(t.out), mostMeasured)) + len(t.at) + rows*len(columns)
}

// eliminate subtracts from one row what the pivot row brings in: its values at
// the columns where it is not zero.
func eliminate(cells []float64, columns []int32, values []float64, q int) {
	f := cells[q]
	if f == 0 {
		return
	}
	cells[q] = 0
	values = values[:len(columns)]
	for k, j := range columns {
		cells[j] = cleared(cells[j] - float64(f*values[k]))
	}
}
