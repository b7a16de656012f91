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
	ctx  context.Context
	prog *program
	base *tableau // the relaxation at the root, kept warm from level to level
	cert *certifier
	work *budget
	x    []int64 // the incumbent, which keeps all levels held so far
	age  int     // the pivots spent when base was built
	open *big.Int
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

// maximise finds the best value of the objective, exactly.
func (s *session) maximise(o objective) (*big.Int, error) {
	s.purge()
	if s.base.broken || s.work.pivots-s.age > 400 {
		s.rebuild()
	}
	run := s.search(o)
	run.best, run.worth = s.x, s.prog.value(o, s.x)
	err := s.run(run, true)
	if errors.Is(err, errSpoilt) {
		s.prog.dropCuts()
		s.rebuild()
		err = s.run(run, false)
	}
	s.x, s.open = run.best, run.open
	if err == nil && !run.allows(s.x) {
		err = errCorrupt
	}
	return run.worth, err
}

// run explores from the root for the search's goal.
func (s *session) run(run *search, withCuts bool) error {
	run.cert, run.shape = s.cert, s.base.shape
	s.base.aim(run.goal)
	if withCuts {
		s.gomory(run.worth)
	}
	root := &tableau{}
	root.copyFrom(s.base)
	return run.explore(root, 0)
}

// diveNodes is how long a first, rough search may take.
const diveNodes = 24

// maximiseFromAbove is maximise by asking first for what the bound promises, and
// then for less and less, until there is a solution: near the bound there is
// least to search, most of all where few sums of whole numbers come close to
// it. Each question is larger by step, and by growth times that. A question that
// takes too much of the budget is left to the plain search.
func (s *session) maximiseFromAbove(o objective, step *big.Int, growth int64) (*big.Int, error) {
	if have, err := s.dive(o); !errors.Is(err, ErrNodeLimit) {
		return have, err
	}
	have := s.prog.value(o, s.x)
	top := s.ceilingOf(o, have)
	slack := new(big.Int)
	for top != nil {
		below := new(big.Int).Sub(top, slack)
		if below.Sub(below, big.NewInt(1)).Cmp(have) <= 0 {
			break
		}
		run := s.search(o)
		run.worth = below
		lift := s.work.capped(s.work.limit / 4)
		err := s.run(run, o.minima == nil)
		lift()
		if run.best != nil {
			s.x = run.best
		}
		if err != nil && (errors.Is(err, errSpoilt) || !s.work.spent() && s.ctx.Err() == nil) {
			break // the plain search knows what to do
		}
		if err != nil {
			s.open = top
			return s.prog.value(o, s.x), err
		}
		if run.best != nil {
			return run.worth, nil
		}
		top = o.counts(below)
		slack.Mul(slack, big.NewInt(growth))
		slack.Add(slack, step)
	}
	return s.maximise(o)
}

// dive is maximise for a few nodes: it leaves a good incumbent behind, and is
// done when its error is nil.
func (s *session) dive(o objective) (*big.Int, error) {
	lift := s.work.capped(diveNodes)
	defer lift()
	return s.maximise(o)
}

// ceilingOf bounds the objective at the root; nil when nothing better than have
// can be left, or nothing is known.
func (s *session) ceilingOf(o objective, have *big.Int) *big.Int {
	s.purge()
	s.base.aim(o)
	bound, shut := s.cert.judge(s.base, s.base.reoptimise(s.work), have)
	if shut || bound == nil || o.minima == nil {
		if bound != nil {
			bound = o.counts(bound)
		}
		return bound
	}
	reach := new(big.Int)
	for _, g := range o.minima {
		reach.Add(reach, s.prog.reach[g])
	}
	if reach.Cmp(bound) < 0 {
		bound = reach
	}
	return o.counts(bound)
}

// promise bounds what the objective can come to, without searching.
func (s *session) promise(o objective) *big.Int {
	s.purge()
	s.base.aim(o)
	s.base.reoptimise(s.work)
	return o.counts(s.cert.boxBound(s.base))
}

func (s *session) search(o objective) *search {
	return &search{ctx: s.ctx, prog: s.prog, columns: s.prog.columns, goal: o, work: s.work}
}

// purge drops the cuts that the last level's relaxation did not lean on, when
// there have come to be many.
func (s *session) purge() {
	s.base.catchUp()
	if s.prog.helping() < mostCutRows/2 {
		return
	}
	first := len(s.base.lo) - len(s.prog.cuts)
	var kept []cut
	for i, c := range s.prog.cuts {
		if c.needed || s.base.where[first+i] < 0 {
			kept = append(kept, c)
		}
	}
	s.prog.cuts = kept
	s.rebuild()
}

// canNarrow reports whether there is a solution with the columns named as they
// are given, within what they are, and an objective of at least goal's present
// value; if so it becomes the incumbent.
func (s *session) canNarrow(to map[int]Column, goal objective) (bool, error) {
	columns := slices.Clone(s.prog.columns)
	for j, c := range to {
		if c.Least > c.Most {
			return false, nil
		}
		columns[j] = c
	}
	x, err := s.anySolution(columns, to, goal, true)
	if errors.Is(err, errSpoilt) {
		s.prog.dropCuts()
		s.rebuild()
		x, err = s.anySolution(columns, to, goal, false)
	}
	if x == nil {
		return false, err
	}
	s.x = x
	return true, nil
}

// anySolution looks for a solution with the columns named narrowed.
func (s *session) anySolution(columns []Column, to map[int]Column, goal objective, withCuts bool) ([]int64, error) {
	s.purge()
	if s.base.broken || s.work.pivots-s.age > 2000 {
		s.rebuild()
	}
	run := s.search(goal)
	run.columns, run.any = columns, true
	run.cert, run.shape = s.cert, s.base.shape
	if goal.coefs != nil {
		run.worth = s.prog.value(goal, s.x)
		run.worth.Sub(run.worth, big.NewInt(1))
	}
	s.base.aim(goal)
	names := slices.Sorted(maps.Keys(to))
	for _, j := range names {
		s.base.confine(j, columns[j])
	}
	if withCuts {
		s.gomory(run.worth)
	} else {
		s.base.reoptimise(s.work)
	}
	root := &tableau{}
	root.copyFrom(s.base)
	for _, j := range names {
		s.base.restrict(j, s.prog.columns[j].Least, s.prog.columns[j].Most)
	}
	err := run.explore(root, 0)
	for _, j := range names {
		s.base.shape.batch[j] = s.prog.columns[j].Batch
	}
	return run.best, err
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
