package integer

import (
	"context"
	"errors"
	"maps"
	"math/big"
	"slices"
)

// A session is one program taken through the levels, each one's answer held fast
// before the next.
type session struct {
	ctx   context.Context
	prog  *program
	base  *tableau // the relaxation at the root, kept warm from level to level
	cert  *certifier
	work  *budget
	spare []*tableau // scratch: of the searches
	top   tableau    // scratch: the root of a search
	x     []int64    // the incumbent, which keeps all levels held so far
	age   int        // the pivots spent when base was built
	open  *big.Int
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
}

// firstTry is how many nodes a goal of which only whole multiples count is looked
// for in the common way.
const firstTry = 100

// maximise finds the best value of the objective, exactly. Where only whole
// multiples count, and it is not soon found, the largest that the relaxation allows
// are asked for by themselves: little of the box comes to so much.
func (s *session) maximise(o objective) (*big.Int, error) {
	worth := s.prog.value(o, s.x)
	if o.whole == nil {
		worth, _, err := s.climb(o, s.x, worth)
		return worth, err
	}
	lift := s.work.capped(firstTry)
	worth, _, err := s.climb(o, s.x, worth)
	lift()
	if !errors.Is(err, ErrNodeLimit) || s.work.spent() {
		return worth, err
	}
	top := s.open
	for step := o.whole; ; step = new(big.Int).Lsh(step, 1) {
		below := new(big.Int).Sub(top, step)
		if below.Cmp(worth) <= 0 {
			worth, _, err = s.climb(o, s.x, worth)
			return worth, err
		}
		best, found, err := s.climb(o, nil, below)
		switch {
		case found:
			return best, err
		case err != nil:
			s.open = top
			return worth, err
		}
	}
}

// climb finds the best value above worth, and whether there is one; x is a solution
// that has it, if any is known.
func (s *session) climb(o objective, x []int64, worth *big.Int) (best *big.Int, found bool, err error) {
	run := s.search(o)
	run.best, run.worth = x, worth
	err = run.explore(s.root(run), 0)
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
	return &search{ctx: s.ctx, prog: s.prog, columns: s.prog.columns, goal: o, work: s.work, spare: &s.spare}
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

// A narrowing is columns as they are to be, within what they are, and rows as they
// are to read instead of saying nothing.
type narrowing struct {
	columns map[int]Column
	rows    map[int]Row
}

// canNarrow reports whether there is a solution with what is named narrowed; if so
// it becomes the incumbent. The objective only guides the search.
func (s *session) canNarrow(to narrowing, guide objective) (bool, error) {
	run := s.search(guide)
	run.columns, run.any = slices.Clone(s.prog.columns), true
	for j, c := range to.columns {
		if c.Least > c.Most {
			return false, nil
		}
		run.columns[j] = c
	}
	root := s.root(run)
	names := slices.Sorted(maps.Keys(to.columns))
	for _, j := range names {
		root.confine(j, run.columns[j])
	}
	lift := s.write(root, to.rows)
	err := run.explore(root, 0)
	lift()
	for _, j := range names {
		root.shape.batch[j] = s.prog.columns[j].Batch
	}
	if run.best == nil {
		return false, err
	}
	s.x = run.best
	return true, nil
}

// write makes rows that said nothing read as given, for a relaxation in which they
// do not stand yet, and returns what makes them say nothing again.
func (s *session) write(t *tableau, rows map[int]Row) (lift func()) {
	said := map[int]Row{}
	for i, row := range rows {
		said[i] = s.prog.rows[i]
		s.prog.rows[i] = row
		t.reread(i)
	}
	return func() {
		for i, row := range said {
			s.prog.rows[i] = row
			t.reread(i)
		}
	}
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
