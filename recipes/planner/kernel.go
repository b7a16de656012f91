package planner

import (
	"context"
	"errors"
	"math/big"
	"slices"
)

// The kernel is a small bounded integer program. It sees only integers: no
// dishes, no grams, no guests. It maximises an objective over whole numbers x
// with least ≤ x ≤ most (or x = 0, or at least one batch) under rows
// Σ coef·x ≤ limit, by branch and bound.
//
// The linear relaxation (relax.go) works in fixed-point integers and only
// advises where to look; every bound that prunes a branch is recomputed from
// its multipliers in exact integers (certify.go), and every solution that is
// kept has been checked row by row in exact integers (holds).

// A row says Σ coefs[k]·x[cols[k]] ≤ limit.
type row struct {
	cols  []int
	coefs []*big.Int
	limit *big.Int
}

// A column is one whole-number unknown.
type column struct {
	least, most int64
	batch       int64 // x is 0 or at least batch
	follows     int   // with indicator: the column this one follows
	above       int64 // with indicator: x is 1 exactly when the followed column exceeds above
	indicator   bool
	rank        int // branched on only when no column of a lower rank asks for it
}

// A gain is the smallest of its pieces: min over rows of limit − Σ coefs·x.
type gain []row

// A floor asks that the gains named add up to at least least.
type floor struct {
	gains []int
	least *big.Int
}

// A program is what the kernel solves.
type program struct {
	columns []column
	rows    []row
	gains   []gain
	floors  []floor
	reach   []*big.Int // by gain: the most it can come to
	bands   []band
	cuts    []row // rows that follow from the others: they only help the search
}

// An objective is a linear form over the columns plus the sum of some gains.
// It is maximised.
type objective struct {
	coefs []*big.Int // nil, or one a column
	gains []int
}

const (
	trials      = 8 // how many columns are tried before one is branched on
	probePivots = 8 // and for how long
	mostSpoilt  = 3 // bad relaxations before the cuts are given up
)

var (
	errNodeLimit = errors.New("node limit reached")
	errSpoilt    = errors.New("the cuts spoil the relaxation")
	errCorrupt   = errors.New("planner: a solution failed its own check")
)

// holds reports whether x keeps every column's domain, every row and every floor.
func (p *program) holds(x []int64) bool {
	for j, c := range p.columns {
		if x[j] < c.least || x[j] > c.most || x[j] != 0 && x[j] < c.batch {
			return false
		}
	}
	var sum, term big.Int
	for i := range p.rows {
		if slack(&p.rows[i], x, &sum, &term).Sign() < 0 {
			return false
		}
	}
	for _, f := range p.floors {
		if p.gained(f.gains, x).Cmp(f.least) < 0 {
			return false
		}
	}
	return true
}

// slack is limit − Σ coefs·x, written to sum.
func slack(r *row, x []int64, sum, term *big.Int) *big.Int {
	sum.Set(r.limit)
	for k, j := range r.cols {
		if x[j] != 0 {
			sum.Sub(sum, term.Mul(r.coefs[k], term.SetInt64(x[j])))
		}
	}
	return sum
}

// gained is the sum of the named gains at x.
func (p *program) gained(gains []int, x []int64) *big.Int {
	total := new(big.Int)
	var sum, term, lowest big.Int
	for _, g := range gains {
		for i := range p.gains[g] {
			s := slack(&p.gains[g][i], x, &sum, &term)
			if i == 0 || s.Cmp(&lowest) < 0 {
				lowest.Set(s)
			}
		}
		total.Add(total, &lowest)
	}
	return total
}

// value is the objective at x.
func (p *program) value(o objective, x []int64) *big.Int {
	total := p.gained(o.gains, x)
	var term big.Int
	for j, c := range o.coefs {
		if x[j] != 0 && c.Sign() != 0 {
			total.Add(total, term.Mul(c, term.SetInt64(x[j])))
		}
	}
	return total
}

// follow sets every indicator column to what its followed column says.
func (p *program) follow(x []int64) {
	for j, c := range p.columns {
		if !c.indicator {
			continue
		}
		x[j] = 0
		if x[c.follows] > c.above {
			x[j] = 1
		}
	}
}

// A search is one run of branch and bound for one objective.
type search struct {
	ctx    context.Context
	prog   *program
	goal   objective
	best   []int64  // the incumbent; nil while there is none
	worth  *big.Int // the incumbent's value
	any    bool     // stop at the first solution
	open   *big.Int // after an interruption: the largest bound left unexplored
	work   *budget
	cert   *certifier
	spare  []*tableau // one a depth, reused
	spoilt int        // relaxations that could not be mended
	urgent []fixed    // scratch
}

// A budget counts the nodes of all searches of one Solve.
type budget struct {
	nodes, pivots, refreshed, limit int
}

// capped limits the budget to so many more nodes, and returns what lifts that.
func (b *budget) capped(nodes int) (lift func()) {
	limit := b.limit
	b.limit = min(limit, b.nodes+nodes)
	return func() { b.limit = limit }
}

// spent reports whether no node is left.
func (b *budget) spent() bool { return b.nodes >= b.limit }

// spend takes one node from the budget; it fails when none is left or when the
// caller has given up.
func (b *budget) spend(ctx context.Context) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	if b.nodes >= b.limit {
		return errNodeLimit
	}
	b.nodes++
	return nil
}

// explore solves the node whose bounds stand in t. When it returns nil, no
// solution under t is better than the incumbent. depth names the spare tableau
// its first child may overwrite.
func (s *search) explore(t *tableau, depth int) error {
	if err := s.work.spend(s.ctx); err != nil {
		s.leaveOpen(t)
		return err
	}
	if !s.filter(t) {
		return nil
	}
	status, bound, cut := s.relax(t)
	if cut {
		return nil
	}
	if s.spoilt > mostSpoilt && len(s.prog.cuts) > 0 {
		return errSpoilt
	}
	s.try(t)
	if s.done(bound) {
		return nil
	}
	if bound != nil && s.worth != nil {
		s.cert.squeeze(t, s.worth)
	}
	j, at := s.branchOn(t, status, depth)
	if j < 0 {
		return nil
	}
	child := s.child(t, depth)
	first, second := t.split(j, at)
	child.restrict(j, first.low, first.high)
	if err := s.explore(child, depth+1); err != nil {
		s.leaveOpen(t)
		return err
	}
	if s.done(bound) {
		return nil
	}
	t.restrict(j, second.low, second.high)
	return s.explore(t, depth)
}

// relax solves the node's relaxation and judges it. When rounding has spoilt the
// tableau, which shows in a bound that falls short of what the tableau claims,
// it is made afresh once.
func (s *search) relax(t *tableau) (st status, bound *big.Int, cut bool) {
	st = t.reoptimise(s.work)
	bound, cut = s.cert.judge(t, st, s.worth)
	if cut || st == optimal && t.agrees(bound) {
		return st, bound, cut
	}
	t.refresh()
	s.work.refreshed++
	st = t.reoptimise(s.work)
	bound, cut = s.cert.judge(t, st, s.worth)
	if !cut && !(st == optimal && t.agrees(bound)) {
		s.spoilt++
	}
	return st, bound, cut
}

// done reports whether nothing better than the incumbent can be left under a
// node with this bound (nil: unknown).
func (s *search) done(bound *big.Int) bool {
	if s.any && s.best != nil {
		return true
	}
	return s.worth != nil && bound != nil && bound.Cmp(s.worth) <= 0
}

// leaveOpen remembers what an abandoned node could still have given.
func (s *search) leaveOpen(t *tableau) {
	b := s.cert.boxBound(t)
	if s.open == nil || b.Cmp(s.open) > 0 {
		s.open = b
	}
}

// child copies t into the spare tableau of this depth.
func (s *search) child(t *tableau, depth int) *tableau {
	for len(s.spare) <= depth {
		s.spare = append(s.spare, &tableau{})
	}
	s.spare[depth].copyFrom(t)
	return s.spare[depth]
}

// try rounds the relaxation's point, to the nearest and downwards, and keeps
// the result when it is a solution better than the incumbent.
func (s *search) try(t *tableau) {
	for _, bias := range [...]fixed{one / 2, tolerance} {
		x := t.rounded(bias)
		s.prog.follow(x)
		s.offer(x)
	}
}

// offer makes x the incumbent if it is a better solution.
func (s *search) offer(x []int64) {
	v := s.prog.value(s.goal, x)
	if s.worth != nil && v.Cmp(s.worth) <= 0 || !s.prog.holds(x) {
		return
	}
	s.best, s.worth = x, v
}

// branchOn picks the column to branch on and the relaxation's value there: of
// the columns of the lowest rank that are fractional (or stand in the gap below
// a batch) the one whose two branches promise to lower the bound most, and at
// last any column that is not yet fixed. It returns -1 when all are fixed.
func (s *search) branchOn(t *tableau, status status, depth int) (int, fixed) {
	asking, fallback := s.asking(t)
	if status == unknown || len(asking) == 0 {
		if fallback < 0 {
			return -1, 0
		}
		return fallback, t.value(fallback)
	}
	best, score := asking[0], fixed(-1)
	if len(asking) > 1 {
		for _, j := range asking[:min(len(asking), trials)] {
			if g := s.probe(t, j, depth); g > score {
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
	for j, c := range s.prog.columns {
		if t.low[j] == t.high[j] {
			continue
		}
		if fallback < 0 || c.rank < s.prog.columns[fallback].rank {
			fallback = j
		}
		if len(list) > 0 && c.rank > s.prog.columns[list[0]].rank {
			continue
		}
		w := urgency(c, t.value(j), t.low[j])
		if w == 0 {
			continue
		}
		if len(list) > 0 && c.rank < s.prog.columns[list[0]].rank {
			list, urgent = list[:0], urgent[:0]
		}
		at := len(list)
		for at > 0 && urgent[at-1] < w {
			at--
		}
		list, urgent = slices.Insert(list, at, j), slices.Insert(urgent, at, w)
	}
	s.urgent = urgent
	return list, fallback
}

// probe tries both branches of column j for a few pivots and returns how much
// they would lower the bound: mostly the lesser fall, and a little the greater.
func (s *search) probe(t *tableau, j int, depth int) fixed {
	here := t.claims()
	first, second := t.split(j, t.value(j))
	falls := [2]fixed{}
	for i, side := range [2]span{first, second} {
		child := s.child(t, depth)
		child.restrict(j, side.low, side.high)
		falls[i] = room / 8
		if child.dual(s.work, probePivots) != infeasible {
			falls[i] = max(0, min(room/8, here-child.claims()))
		}
	}
	return min(falls[0], falls[1]) + max(falls[0], falls[1])/8
}

// urgency says how much a column asks to be branched on at the value v.
func urgency(c column, v fixed, low int64) fixed {
	part := v & (one - 1)
	if part > one/2 {
		part = one - part
	}
	if part <= tolerance {
		part = 0
	}
	if low == 0 && v > tolerance && v < fixed(c.batch)*one-tolerance {
		return part + one/4
	}
	return part
}
