package integer

import (
	"context"
	"errors"
	"math/big"
	"slices"
)

// How often one node's point may bring in new rows, at the root and below.
const (
	rootSeparations = 20
	separations     = 6
)

var (
	// ErrNodeLimit says that a level was not proven for lack of nodes.
	ErrNodeLimit = errors.New("node limit reached")

	errCorrupt = errors.New("integer: a solution failed its own check")
)

// A search is one run of branch and bound for one objective.
type search struct {
	ctx     context.Context
	prog    *program
	columns []Column // the program's, or narrower
	goal    objective
	best    []int64  // the incumbent; nil while there is none
	worth   *big.Int // the incumbent's value
	any     bool     // stop at the first solution
	open    *big.Int // after an interruption: the largest bound left unexplored
	work    *budget
	cert    *certifier
	shape   *shape
	spare   *[]*tableau // copies, reused by one search after the other
	copies  int         // how many of them are of nodes above
	urgent  []float64   // scratch
	closely bool        // rows are rounded at the root
	fault   error       // what Separate got wrong
	// what is better than worth, and the worth it was reckoned from
	aimed, aimedFrom *big.Int
}

// A budget counts the nodes of all searches of one Solve.
type budget struct {
	patience
	tally
	nodes, pivots, limit int
	cells                int  // of tableaus gone through
	better               bool // see [Limits]
}

// A tally counts what a Solve did besides nodes and pivots: a change that makes the
// search work more shows in one of these.
type tally struct {
	asked   int // searches for any solution at all, or for any that is better
	probed  int // branches tried for a few pivots
	drawn   int // relaxations whose prices drew columns in
	written int // rows that follow by rounding, or that Separate gave
	listed  int // sums of a span listed
	afresh  int // tableaus made afresh
	judged  int // exact bounds of nodes
	found   [sources]int
}

// A source is what an incumbent came from.
type source uint8

const (
	nearest  source = iota // the relaxation's point, rounded to the nearest
	downward               // or downwards
	leaf                   // all columns fixed
	bettered               // the incumbent before, by one column
	sources
)

// capped limits the budget to so many more nodes, and returns what lifts that.
func (b *budget) capped(nodes int) (lift func()) {
	limit := b.limit
	b.limit = min(limit, b.steps()+nodes)
	return func() { b.limit = limit }
}

// spent reports whether no node is left.
func (b *budget) spent() bool { return b.steps() >= b.limit }

// cellsPerStep is how many cells of tableaus are gone through for a node before it counts
// for more than one: some dozens of columns take fewer, thousands far more.
const cellsPerStep = 200_000

// steps is the nodes taken, or what large tableaus take instead.
func (b *budget) steps() int { return max(b.nodes, b.cells/cellsPerStep) }

// spend takes one node from the budget; it fails when none is left or when the
// caller has given up.
func (b *budget) spend(ctx context.Context) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	if b.spent() {
		return ErrNodeLimit
	}
	b.nodes++
	return nil
}

// explore solves the node whose bounds stand in t. When it returns nil, no
// solution under t is better than the incumbent.
func (s *search) explore(t *tableau, depth int) error {
	if err := s.work.spend(s.ctx); err != nil {
		s.leaveOpen(t)
		return err
	}
	if !s.propagate(t) || !s.filter(t) {
		return nil
	}
	status, bound, err := s.settle(t, depth)
	if err != nil || status == closed {
		return err
	}
	if bound != nil && s.worth != nil {
		s.cert.squeeze(t, s.target())
	}
	if status == optimal {
		t.shed()
	}
	j, at := s.branchOn(t, status)
	if j < 0 {
		s.offer(slices.Clone(t.low), leaf) // as it is, whatever Repair made of it
		return s.fault
	}
	worth := s.worth
	first, second := t.split(j, at)
	if err := s.exploreFirst(t, j, first, depth); err != nil {
		s.leaveOpen(t)
		return err
	}
	if s.overtaken(t, status, bound, worth) {
		return nil
	}
	t.restrict(j, second.low, second.high)
	return s.explore(t, depth)
}

// exploreFirst explores one branch of the node and leaves t as it was: on a copy, or,
// where the copies of the nodes above are large, on t itself, whose bounds are then set
// back; any basis does for them.
func (s *search) exploreFirst(t *tableau, j int, branch interval, depth int) error {
	if (s.copies+1)*len(t.cells) <= s.work.copied {
		child := s.child(t)
		child.restrict(j, branch.low, branch.high)
		s.copies++
		defer func() { s.copies-- }()
		return s.explore(child, depth+1)
	}
	low, high := slices.Clone(t.low), slices.Clone(t.high)
	t.restrict(j, branch.low, branch.high)
	err := s.explore(t, depth+1)
	t.setBack(low, high)
	return err
}

// settle relaxes the node, again while that brings rows to light that were not
// written before, and offers what rounding makes of its point. The status is
// closed when nothing better is left under the node.
func (s *search) settle(t *tableau, depth int) (status, *big.Int, error) {
	for round := 0; ; round++ {
		worth := s.worth
		st, bound, shut := s.relax(t)
		if shut {
			return closed, bound, nil
		}
		known := len(s.prog.cuts)
		if st == optimal && round < roundsAt(depth) {
			s.separate(t, depth)
		}
		if len(s.prog.cuts) == known || depth+round == 0 {
			s.try(t) // which may write rows too
		}
		switch {
		case s.fault != nil:
			return st, bound, s.fault
		case s.overtaken(t, st, bound, worth):
			return closed, bound, nil
		case len(s.prog.cuts) == known || round == roundsAt(depth):
			return st, bound, nil
		}
	}
}

// roundsAt is how often a node is relaxed anew at most.
func roundsAt(depth int) int {
	if depth == 0 {
		return rootSeparations
	}
	return separations
}

// relax solves the node's relaxation and judges it. When rounding has spoilt the
// tableau, which shows in a bound that falls short of what the tableau claims,
// it is made afresh once.
func (s *search) relax(t *tableau) (st status, bound *big.Int, shut bool) {
	st = t.reoptimise(s.work)
	if st == optimal && (s.worth == nil || t.isFarFrom(s.target())) {
		return st, nil, false
	}
	bound, shut = s.judge(t, st)
	if shut || st == optimal && t.agrees(bound) {
		return st, bound, shut
	}
	s.work.afresh++
	t.refresh()
	st = t.reoptimise(s.work)
	bound, shut = s.judge(t, st)
	return st, bound, shut
}

// judge bounds the node exactly.
func (s *search) judge(t *tableau, st status) (bound *big.Int, shut bool) {
	s.work.judged++
	return s.cert.judge(t, st, s.worth)
}

// target is the least value that is better than the incumbent.
func (s *search) target() *big.Int {
	if s.aimed == nil || s.aimedFrom != s.worth {
		s.aimed, s.aimedFrom = s.goal.above(s.worth), s.worth
	}
	return s.aimed
}

// done reports whether nothing better than the incumbent can be left under a
// node with this bound (nil: unknown).
func (s *search) done(bound *big.Int) bool {
	if s.any && s.best != nil {
		return true
	}
	return s.worth != nil && bound != nil && s.goal.counts(bound).Cmp(s.worth) <= 0
}

// overtaken reports whether nothing better is left under a node since the incumbent had
// the worth given, when the node was judged.
func (s *search) overtaken(t *tableau, st status, bound, worth *big.Int) bool {
	if bound == nil && st == optimal && s.worth != nil && s.worth != worth {
		bound, _ = s.judge(t, st)
	}
	return s.done(bound)
}

// leaveOpen remembers what an abandoned node could still have given.
func (s *search) leaveOpen(t *tableau) {
	b := s.goal.counts(s.cert.boxBound(t))
	if s.open == nil || b.Cmp(s.open) > 0 {
		s.open = b
	}
}

// child copies t into a spare tableau that no node above is kept in.
func (s *search) child(t *tableau) *tableau {
	for len(*s.spare) <= s.copies {
		*s.spare = append(*s.spare, &tableau{})
	}
	s.work.cells += len(t.cells)
	child := (*s.spare)[s.copies]
	child.copyFrom(t)
	child.leaveOutFixed()
	return child
}

// try rounds the relaxation's point, to the nearest and downwards, and keeps
// the result when it is a solution better than the incumbent.
func (s *search) try(t *tableau) {
	for from, bias := range [...]float64{nearest: 0.5, downward: tolerance} {
		x := t.rounded(bias)
		if s.prog.repair != nil {
			s.prog.repair(x)
		}
		s.offer(x, source(from))
	}
}

// offer makes x the incumbent if it is a better solution, and betters it if any will not
// do.
func (s *search) offer(x []int64, from source) {
	if s.improve(x, from) && !s.any {
		s.polish()
	}
}

// improve makes x the incumbent if it is a better solution.
func (s *search) improve(x []int64, from source) bool {
	v := s.prog.value(s.goal, x)
	if s.worth != nil && v.Cmp(s.worth) <= 0 || !s.allows(x) || s.refused(x) {
		return false
	}
	s.best, s.worth = x, v
	s.work.found[from]++
	return true
}

// allows reports whether x keeps its columns' domains and all rows written.
func (s *search) allows(x []int64) bool {
	for j, c := range s.columns {
		if !c.holds(x[j]) {
			return false
		}
	}
	return s.prog.keeps(x)
}
