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

// absent is where a slack is whose row does not stand in the tableau.
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
	columns []int32    // scratch: where the pivot row's cells are not zero
	values  []float64  // scratch: and what they are
	able    []int      // scratch: columns that can mend a row
	skip    []int      // scratch: rows that have only small cells to mend them
	point   []float64  // scratch: the value of each column and minimum
	ways    []interval // scratch: what a span's columns may still be
	upward  bool       // the stuck row lacks (true) or exceeds (false)
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
		st := t.dual(work, 20*(len(t.basic)+t.width()))
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
		t.pivot(r, q, upward)
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
// a small cell. Without any cell (q < 0) the row is impossible; r < 0 says that
// all bounds are kept.
func (t *tableau) choose() (r, q int, upward bool) {
	t.skip = t.skip[:0]
	small, smallUp := -1, false
	for {
		r, upward = t.leaving()
		if r < 0 {
			break
		}
		if q = t.entering(r, upward, pivotMin); q >= 0 {
			return r, q, upward
		}
		if t.entering(r, upward, pivotLeast) < 0 {
			return r, -1, upward
		}
		if small < 0 {
			small, smallUp = r, upward
		}
		t.skip = append(t.skip, r)
	}
	if small >= 0 {
		return small, t.entering(small, smallUp, pivotLeast), smallUp
	}
	return -1, -1, false
}

// leaving picks the basic unknown furthest outside its bounds, or -1.
func (t *tableau) leaving() (r int, upward bool) {
	r, worst := -1, tolerance/16
	for i, v := range t.at {
		k := t.basic[i]
		d, up := t.lo[k]-v, true
		if e := v - t.hi[k]; e > d {
			d, up = e, false
		}
		if d > worst && !slices.Contains(t.skip, i) {
			r, worst, upward = i, d, up
		}
	}
	return r, upward
}

// entering picks the column that can mend row r and keeps all prices right but
// for a hair (P. M. J. Harris, Pivot selection methods of the Devex LP code,
// Mathematical Programming 5, 1973): among the smallest |price / cell|, the
// largest cell.
func (t *tableau) entering(r int, upward bool, least float64) int {
	w := t.width()
	cells := t.cells[r*w : (r+1)*w]
	allowed := math.Inf(1)
	able := t.able[:0]
	for j, c := range cells {
		if t.mends(j, c, upward, least) {
			able = append(able, j)
			allowed = min(allowed, (math.Abs(t.price[j])+hair)/math.Abs(c))
		}
	}
	t.able = able
	best, size := -1, 0.0
	for _, j := range able {
		if m := math.Abs(cells[j]); m > size && math.Abs(t.price[j])/m <= allowed {
			best, size = j, m
		}
	}
	return best
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

// pivot swaps the basic unknown of row r with the outside one of column q.
func (t *tableau) pivot(r, q int, upward bool) {
	w := t.width()
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
		}
	}
	eliminate(t.price, columns, values, q)
	t.basic[r], t.outside[q] = t.outside[q], leaving
	t.where[t.basic[r]], t.where[leaving] = r, ^q
	t.at[r], t.atHigh[q] = entered, !upward
	if tooBig(inverse) || tooBig(entered) {
		t.broken = true
	}
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
		v := cells[j] - float64(f*values[k])
		if v < nothing && v > -nothing {
			v = 0
		}
		cells[j] = v
	}
}
