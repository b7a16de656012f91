package integer

import (
	"math"
	"slices"
)

const (
	trials      = 6  // how many columns are tried before one is branched on
	probePivots = 20 // and for how long

	farFall = 1e6 // how much an impossible branch is taken to lower the bound
)

// branchOn picks the column to branch on and the relaxation's value there: of
// the columns of the lowest rank that are fractional (or stand in the gap below
// a batch) the one whose two branches promise to lower the bound most, and at
// last any column that is not yet fixed. It returns -1 when all are fixed.
func (s *search) branchOn(t *tableau, status status) (int, float64) {
	asking, fallback := s.asking(t)
	if status == unknown || len(asking) == 0 {
		if fallback < 0 {
			return -1, 0
		}
		return fallback, t.value(fallback)
	}
	best, score := asking[0], -1.0
	if len(asking) > 1 {
		for _, j := range asking[:min(len(asking), trials)] {
			if g := s.probe(t, j); g > score {
				best, score = j, g
			}
		}
	}
	return best, t.value(best)
}

// asking lists the columns of the lowest rank that ask to be branched on, the
// most urgent first, and a column that is not fixed, or -1.
func (s *search) asking(t *tableau) (list []int, fallback int) {
	fallback = -1
	urgent := s.urgent[:0]
	for j, c := range s.columns {
		if t.low[j] == t.high[j] {
			continue
		}
		if fallback < 0 || s.rank(j) < s.rank(fallback) {
			fallback = j
		}
		if len(list) > 0 && s.rank(j) > s.rank(list[0]) {
			continue
		}
		w := urgency(c, t.value(j), t.low[j])
		if w == 0 {
			continue
		}
		if len(list) > 0 && s.rank(j) < s.rank(list[0]) {
			list, urgent = list[:0], urgent[:0]
		}
		at := placeOf(w, urgent)
		list, urgent = slices.Insert(list, at, j), slices.Insert(urgent, at, w)
	}
	s.urgent = urgent
	return list, fallback
}

// placeOf is where a figure goes among others, the largest first and those alike in
// the order they came.
func placeOf(w float64, falling []float64) int {
	at := len(falling)
	for at > 0 && falling[at-1] < w {
		at--
	}
	return at
}

// rank is the order in which column j is branched on: one whose sums are listed no later
// than those of rank 0, among which are the signs that say what there is at all. Before
// these its sums would have to be gone through again for every choice of them.
func (s *search) rank(j int) int {
	if s.prog.listed[j] {
		return min(0, s.columns[j].Rank)
	}
	return s.columns[j].Rank
}

// probe tries both branches of column j for a few pivots and returns how much
// they would lower the bound: mostly the lesser fall, and a little the greater
// (strong branching; T. Achterberg, T. Koch and A. Martin, Branching rules
// revisited, Operations Research Letters 33, 2005).
func (s *search) probe(t *tableau, j int) float64 {
	s.work.probed++
	here := t.claims()
	first, second := t.split(j, t.value(j))
	falls := [2]float64{}
	for i, side := range [2]interval{first, second} {
		child := s.child(t)
		child.restrict(j, side.low, side.high)
		falls[i] = farFall
		if child.dual(s.work, probePivots) != infeasible {
			falls[i] = max(0, min(farFall, here-child.claims()))
		}
	}
	return min(falls[0], falls[1]) + max(falls[0], falls[1])/8
}

// urgency says how much a column asks to be branched on at the value v.
func urgency(c Column, v float64, low int64) float64 {
	part := v - math.Floor(v)
	if part > 0.5 {
		part = 1 - part
	}
	if part <= tolerance {
		part = 0
	}
	if low == 0 && v > tolerance && v < float64(c.Batch)-tolerance {
		return part + 0.25
	}
	return part
}
