package planner

import (
	"context"
	"errors"
	"math/big"
	"slices"
)

// A session is one integer program taken through the levels, each one's answer
// held fast before the next.
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

// newSession starts from x, which must be a solution.
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
		s.prog.cuts = nil
		s.rebuild()
		run.cert = s.cert
		err = s.run(run, false)
	}
	s.x, s.open = run.best, run.open
	if err == nil && !s.prog.holds(s.x) {
		err = errCorrupt
	}
	return run.worth, err
}

// run explores from the root for the search's goal.
func (s *session) run(run *search, withCuts bool) error {
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
// least to search, most of all where few sums of whole portions come close to
// what lots hold. Each question is larger by step, and by growth times that. A
// question that takes too much of the budget is left to the plain search.
func (s *session) maximiseFromAbove(o objective, step *big.Int, growth int64) (*big.Int, error) {
	if have, err := s.dive(o); !errors.Is(err, errNodeLimit) {
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
		err := s.run(run, len(o.gains) == 0)
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
		top = below
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
	bound, cut := s.cert.judge(s.base, s.base.reoptimise(s.work), have)
	if cut || bound == nil || len(o.gains) == 0 {
		return bound
	}
	reach := new(big.Int)
	for _, g := range o.gains {
		reach.Add(reach, s.prog.reach[g])
	}
	if reach.Cmp(bound) < 0 {
		return reach
	}
	return bound
}

func (s *session) search(o objective) *search {
	return &search{ctx: s.ctx, prog: s.prog, goal: o, work: s.work, cert: s.cert}
}

// purge drops the cuts that the last level's relaxation did not lean on, when
// there have come to be many.
func (s *session) purge() {
	if len(s.prog.cuts) < mostCutRows/2 {
		return
	}
	first := len(s.base.lo) - len(s.prog.cuts)
	var kept []row
	for i, c := range s.prog.cuts {
		if s.base.where[first+i] < 0 {
			kept = append(kept, c)
		}
	}
	s.prog.cuts = kept
	s.rebuild()
}

// canRaise reports whether there is a solution with x[j] ≥ low[j] for the
// columns named and an objective of at least goal's present value; if so it
// becomes the incumbent.
func (s *session) canRaise(low map[int]int64, goal objective) (bool, error) {
	raised := *s.prog
	raised.columns = slices.Clone(s.prog.columns)
	for j, l := range low {
		c := &raised.columns[j]
		if c.least = max(c.least, l); c.least > c.most {
			return false, nil
		}
	}
	x, err := s.anySolution(&raised, low, goal, true)
	if errors.Is(err, errSpoilt) {
		s.prog.cuts, raised.cuts = nil, nil
		s.rebuild()
		x, err = s.anySolution(&raised, low, goal, false)
	}
	if x == nil {
		return false, err
	}
	s.x = x
	return true, nil
}

// anySolution looks for a solution of the program with the columns named raised.
func (s *session) anySolution(raised *program, low map[int]int64, goal objective, withCuts bool) ([]int64, error) {
	s.purge()
	if s.base.broken || s.work.pivots-s.age > 2000 {
		s.rebuild()
	}
	run := s.search(goal)
	run.any = true
	if goal.coefs != nil {
		run.worth = s.prog.value(goal, s.x)
		run.worth.Sub(run.worth, big.NewInt(1))
	}
	s.base.aim(goal)
	columns := sortedKeys(low)
	for _, j := range columns {
		s.base.restrict(j, raised.columns[j].least, raised.columns[j].most)
	}
	if withCuts {
		s.gomory(run.worth)
	} else {
		s.base.reoptimise(s.work)
	}
	raised.cuts, run.prog = s.prog.cuts, raised
	root := &tableau{}
	root.copyFrom(s.base)
	for _, j := range columns {
		s.base.restrict(j, s.prog.columns[j].least, s.prog.columns[j].most)
	}
	err := run.explore(root, 0)
	return run.best, err
}

// hold makes column j at least low and at most high from now on.
func (s *session) hold(j int, low, high int64) {
	c := &s.prog.columns[j]
	if low <= c.least && high >= c.most {
		return
	}
	c.least, c.most = max(c.least, low), min(c.most, high)
	s.base.restrict(j, c.least, c.most)
}

// holdRow sets the limit of row i, which must not loosen it.
func (s *session) holdRow(i int, limit *big.Int) {
	s.prog.rows[i].limit = limit
	s.base.tighten(i, limit)
}

// holdFloor sets how much the gains of floor f must reach.
func (s *session) holdFloor(f int, least *big.Int) {
	s.prog.floors[f].least = least
	i := slices.Index(s.base.shape.floorOf, f)
	s.base.tighten(i, new(big.Int).Neg(least))
}
