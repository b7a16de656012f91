package integer

import (
	"math"
	"math/big"
)

// shift moves the outside unknown of column j by step.
func (t *tableau) shift(j int, step float64) {
	if step == 0 {
		return
	}
	w := t.width()
	for i := range t.at {
		if c := t.cells[i*w+j]; c != 0 {
			t.at[i] -= float64(c * step)
		}
	}
}

// rebound sets the scaled bounds of unknown k.
func (t *tableau) rebound(k int, lo, hi float64) {
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
	t.rebound(j, float64(low), float64(high))
}

// tighten tells the relaxation that the limit of its row i has changed.
func (t *tableau) tighten(i int, limit *big.Int) {
	var less big.Int
	less.Sub(t.shape.start[i], limit)
	k := len(t.shape.prog.columns) + len(t.shape.prog.minima) + i
	lo := scaled(&less, -t.shape.rowBits[i])
	t.rebound(k, lo, max(lo, t.hi[k]))
}

// setBack gives the program's columns wider bounds that they had before. A column that
// was fixed may have come to a price that asks for its other bound.
func (t *tableau) setBack(low, high []int64) {
	for j := range low {
		if t.low[j] != low[j] || t.high[j] != high[j] {
			t.restrict(j, low[j], high[j])
		}
	}
	t.standRight()
}

// standRight moves every outside unknown to the bound its price asks for.
func (t *tableau) standRight() {
	for j, d := range t.price {
		if d > 0 != t.atHigh[j] && d != 0 {
			t.flip(j)
		}
	}
}

// value is where the relaxation's point has unknown k, a column or a minimum.
func (t *tableau) value(k int) float64 {
	switch i := t.where[k]; {
	case i == absent:
		return t.lo[k]
	case i >= 0:
		return t.at[i]
	default:
		return t.bound(^i)
	}
}

// rounded is the point with bias added and cut to whole numbers in the domain.
func (t *tableau) rounded(bias float64) []int64 {
	x := make([]int64, len(t.low))
	for j := range x {
		v := int64(math.Floor(t.value(j) + bias))
		v = max(t.low[j], min(t.high[j], v))
		if v > 0 && v < t.shape.batch[j] {
			v = 0
		}
		x[j] = v
	}
	return x
}

// An interval is a range of whole numbers, ends included.
type interval struct{ low, high int64 }

// split cuts the domain of column j at v in two, the side nearer to v first.
func (t *tableau) split(j int, v float64) (first, second interval) {
	low, high := t.low[j], t.high[j]
	cut := max(low, min(high-1, int64(math.Floor(v))))
	down, up := interval{low, cut}, interval{cut + 1, high}
	batch := t.shape.batch[j]
	if low == 0 && batch > 1 && cut < batch {
		down, up = interval{0, 0}, interval{batch, high}
		cut = 0
		v /= float64(batch)
	}
	if v-float64(cut) > 0.5 {
		return up, down
	}
	return down, up
}
