package integer

import (
	"context"
	"maps"
	"math/big"
	"slices"
)

// A session is one program taken through the levels, each one's answer held fast
// before the next.
type session struct {
	ctx     context.Context
	prog    *program
	base    *tableau // the relaxation at the root, kept warm from level to level
	cert    *certifier
	work    *budget
	spare   []*tableau // scratch: of the searches
	top     tableau    // scratch: the root of a search
	x       []int64    // the incumbent, which keeps all levels held so far
	age     int        // the pivots spent when base was built
	open    *big.Int   // after a search that had to stop: what it could still have given
	closely bool       // the searches are for something that was not soon found
	pulls   []pull
}

// newSession starts from x, which must be a solution, or nil.
func newSession(ctx context.Context, prog *program, work *budget, x []int64) *session {
	s := &session{ctx: ctx, prog: prog, work: work, x: x}
	s.rebuild()
	return s
}

// rebuild makes the root's relaxation afresh, free of rounding.
func (s *session) rebuild() {
	s.base = newTableau(s.prog)
	s.cert = newCertifier(s.base.shape)
	s.age = s.work.pivots
	s.work.afresh++
}

// climb finds the best value above worth, and whether there is one; x is a solution
// that has it, if any is known.
func (s *session) climb(o objective, x []int64, worth *big.Int) (best *big.Int, found bool, err error) {
	run := s.search(o)
	run.best, run.worth = x, worth
	s.work.asked++
	root := s.root(run)
	run.polish()
	err = run.explore(root, 0)
	s.open = run.open
	if run.best == nil {
		return worth, false, err
	}
	s.x = run.best
	if err == nil && !run.allows(s.x) {
		err = errCorrupt
	}
	return run.worth, true, err
}

// root is where a search starts: the relaxation's best for its goal, of which a
// copy is kept for the next.
func (s *session) root(run *search) *tableau {
	s.purge()
	if s.base.broken || s.work.pivots-s.age > mostPivots {
		s.rebuild()
	}
	run.cert, run.shape = s.cert, s.base.shape
	s.base.aim(run.goal)
	if s.base.reoptimise(s.work) == optimal {
		s.base.shed()
	}
	s.top.copyFrom(s.base)
	s.top.leaveOutFixed()
	return &s.top
}

// promise bounds what the objective can come to, without searching.
func (s *session) promise(o objective) *big.Int {
	s.purge()
	s.base.aim(o)
	s.base.reoptimise(s.work)
	return o.counts(s.cert.boxBound(s.base))
}

func (s *session) search(o objective) *search {
	return &search{ctx: s.ctx, prog: s.prog, columns: s.prog.columns, goal: o, work: s.work, spare: &s.spare, closely: s.closely}
}

// mostCuts is how many cuts a relaxation may carry from one question to the next;
// beyond it those that it does not lean on are dropped. Separate finds them again
// where they are broken.
const mostCuts = 200

// mostPivots is how many pivots a relaxation is carried through before it is made
// afresh.
const mostPivots = 20_000

// purge drops the cuts that the last relaxation did not lean on, when there have
// come to be many.
func (s *session) purge() {
	s.base.catchUp()
	if len(s.prog.cuts) < mostCuts {
		return
	}
	first := len(s.base.lo) - len(s.prog.cuts)
	var kept []Row
	for i, c := range s.prog.cuts {
		if s.base.where[first+i] < 0 {
			kept = append(kept, c)
		}
	}
	s.prog.cuts = kept
	s.rebuild()
}

// holdAll narrows columns and rows from now on.
func (s *session) holdAll(to narrowing) {
	for _, j := range slices.Sorted(maps.Keys(to.columns)) {
		s.hold(j, to.columns[j])
	}
	s.write(s.base, to.rows)
}

// hold makes column j what it is given from now on, which must be narrower.
func (s *session) hold(j int, c Column) {
	if s.prog.columns[j] == c {
		return
	}
	s.prog.columns[j] = c
	s.base.confine(j, c)
}

// confine gives column j another domain.
func (t *tableau) confine(j int, c Column) {
	t.shape.batch[j] = c.Batch
	t.restrict(j, c.Least, c.Most)
}

// holdRow sets the limit of row i, which must not loosen it.
func (s *session) holdRow(i int, limit *big.Int) {
	s.prog.rows[i].Limit = limit
	s.base.tighten(i, limit)
}

// holdFloor sets how much the minima of floor f must reach.
func (s *session) holdFloor(f int, least *big.Int) {
	s.prog.floors[f].least = least
	i := slices.Index(s.base.shape.floorOf, f)
	s.base.tighten(i, new(big.Int).Neg(least))
}
