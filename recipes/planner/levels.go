package planner

import (
	"context"
	"errors"
	"fmt"
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

// maximiseFromAbove is maximise by asking first for what the bound promises, and
// then for less and less, until there is a solution: near the bound there is
// least to search, most of all where few sums of whole portions come close to
// what lots hold. Each question is larger by step, and by growth times that.
func (s *session) maximiseFromAbove(o objective, step *big.Int, growth int64) (*big.Int, error) {
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
		err := s.run(run, len(o.gains) == 0)
		if errors.Is(err, errSpoilt) {
			break // the plain search knows what to do
		}
		if err != nil {
			s.open = top
			return have, err
		}
		if run.best != nil {
			s.x = run.best
			return run.worth, nil
		}
		top = below
		slack.Mul(slack, big.NewInt(growth))
		slack.Add(slack, step)
	}
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
	x, err := s.anySolution(&raised, low, goal)
	if errors.Is(err, errSpoilt) {
		s.prog.cuts, raised.cuts = nil, nil
		s.rebuild()
		x, err = s.anySolution(&raised, low, goal)
	}
	if x == nil {
		return false, err
	}
	s.x = x
	return true, nil
}

// anySolution looks for a solution of the program with the columns named raised.
func (s *session) anySolution(raised *program, low map[int]int64, goal objective) ([]int64, error) {
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
	s.gomory(run.worth)
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

func sortedKeys[V any](m map[int]V) []int {
	keys := make([]int, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

// levelError says at which level the search stopped.
type levelError struct {
	level string
	best  *big.Rat
	bound *big.Rat // nil when nothing is known
	cause error
}

func (e *levelError) Error() string { return fmt.Sprintf("%s: %v", e.level, e.cause) }
func (e *levelError) Unwrap() error { return e.cause }

// A part is a piece of the problem that shares nothing with the other pieces
// but the levels.
type part struct {
	*model
	*session
}

// A climb takes the parts of a problem through the five levels together.
type climb []part

// to the top: it returns the levels' values, and a levelError when the search
// had to stop, with every part's incumbent in place.
func (c climb) toTheTop() (Levels, error) {
	err := c.each(part.feed)
	if err == nil {
		err = c.each(part.useFirst)
	}
	if err == nil {
		err = c.balance()
	}
	if err == nil {
		err = c.each(part.count)
	}
	if err == nil {
		err = c.each(part.breakTies)
	}
	return c.levels(), err
}

// each takes every part through a level that is the sum of its parts' values.
func (c climb) each(level func(part) error) error {
	for _, p := range c {
		if err := level(p); err != nil {
			return err
		}
	}
	return nil
}

// levels are the values of all levels at the incumbents.
func (c climb) levels() Levels {
	l := Levels{UseFirst: new(big.Rat)}
	for _, p := range c {
		p.read(p.x, &l)
	}
	return l
}

// balance is level 3: the largest t with x ≥ t × wish for every dish. That is
// the least of what the parts can reach, and every part is then held to it.
func (c climb) balance() error {
	var t *big.Rat
	for _, p := range c {
		reached, err := p.balance()
		if err != nil {
			return err
		}
		if t == nil || reached.Cmp(t) < 0 {
			t = reached
		}
	}
	for _, p := range c {
		low := p.floorsAt(t)
		for _, j := range sortedKeys(low) {
			p.hold(j, low[j], p.model.prog.columns[j].most)
		}
	}
	return nil
}

// feed is level 1: the most helpings served.
func (p part) feed() error {
	if p.fedRow < 0 {
		return nil
	}
	fed, err := p.maximiseFromAbove(p.helpings(), big.NewInt(1), 1)
	if err != nil {
		return p.stopped("fed", fed, big.NewInt(1), err)
	}
	p.holdRow(p.fedRow, new(big.Int).Neg(fed))
	return nil
}

// useFirst is level 2: the most grams from lots to be used today.
func (p part) useFirst() error {
	if p.useFloor < 0 {
		return nil
	}
	used, err := p.maximiseFromAbove(objective{gains: p.useGains}, p.gramUnit, 8)
	if err != nil {
		return p.stopped("use first", used, p.gramUnit, err)
	}
	p.holdFloor(p.useFloor, used)
	return nil
}

// balance finds the part's own largest t. Only the values portions ÷ wish can
// be t, so it is found by halving among them.
func (p part) balance() (*big.Rat, error) {
	have := p.balanceOf(p.x)
	steps := p.balanceSteps(have)
	for len(steps) > 0 {
		mid := len(steps) / 2
		ok, err := p.canRaise(p.floorsAt(steps[mid]), objective{})
		if err != nil {
			return nil, &levelError{"balance", have, steps[len(steps)-1], err}
		}
		if !ok {
			steps = steps[:mid]
			continue
		}
		have = p.balanceOf(p.x)
		for len(steps) > 0 && steps[0].Cmp(have) <= 0 {
			steps = steps[1:]
		}
	}
	return have, nil
}

// balanceOf is the smallest portions ÷ wish over the dishes.
func (m *model) balanceOf(x []int64) *big.Rat {
	var t *big.Rat
	for k, w := range m.wish {
		q := new(big.Rat).SetInt64(x[k])
		if q.Quo(q, w); t == nil || q.Cmp(t) < 0 {
			t = q
		}
	}
	return t
}

// balanceSteps lists, rising, the values above have that t could take.
func (m *model) balanceSteps(have *big.Rat) []*big.Rat {
	var most *big.Rat
	for k, w := range m.wish {
		q := new(big.Rat).SetInt64(m.prog.columns[k].most)
		if q.Quo(q, w); most == nil || q.Cmp(most) < 0 {
			most = q
		}
	}
	var steps []*big.Rat
	for k, w := range m.wish {
		c := m.prog.columns[k]
		for n := max(1, c.batch); n <= c.most; n++ {
			q := new(big.Rat).SetInt64(n)
			if q.Quo(q, w); q.Cmp(have) > 0 && q.Cmp(most) <= 0 {
				steps = append(steps, q)
			}
		}
	}
	slices.SortFunc(steps, (*big.Rat).Cmp)
	return slices.CompactFunc(steps, func(a, b *big.Rat) bool { return a.Cmp(b) == 0 })
}

// floorsAt is the fewest portions of each dish that a balance of t asks for.
func (m *model) floorsAt(t *big.Rat) map[int]int64 {
	low := map[int]int64{}
	if t.Sign() <= 0 {
		return low
	}
	for k, w := range m.wish {
		n := ceiling(new(big.Rat).Mul(t, w))
		low[k] = max(n, m.prog.columns[k].batch)
	}
	return low
}

// ceiling is the smallest whole number not below r.
func ceiling(r *big.Rat) int64 {
	n := new(big.Int).Add(r.Num(), r.Denom())
	n.Sub(n, big.NewInt(1))
	return n.Div(n, r.Denom()).Int64()
}

// count is level 4: the most portions, or at a table the fewest.
func (p part) count() error {
	n, err := p.maximiseFromAbove(p.portions(), big.NewInt(1), 1)
	if err != nil {
		return p.stopped("portions", n, big.NewInt(1), err)
	}
	p.holdRow(p.countRow, new(big.Int).Neg(n))
	return nil
}

// breakTies is level 5: more of the dish that stands first, then the next.
func (p part) breakTies() error {
	for k := range p.dishes {
		n, err := p.mostOf(k)
		if err != nil {
			most := p.model.prog.columns[k].most
			return &levelError{"ties", new(big.Rat).SetInt64(n), new(big.Rat).SetInt64(most), err}
		}
		p.hold(k, n, n)
	}
	return nil
}

// mostOf is the most portions column k can have, found by asking for one more
// until there is none: mostly the incumbent has them already.
func (p part) mostOf(k int) (int64, error) {
	goal := p.portions()
	for p.x[k] < p.model.prog.columns[k].most {
		more := max(p.x[k]+1, p.model.prog.columns[k].batch)
		raised, err := p.canRaise(map[int]int64{k: more}, goal)
		if err != nil || !raised {
			return p.x[k], err
		}
	}
	return p.x[k], nil
}

// stopped is the error of a level that was interrupted, its values divided by unit.
func (p part) stopped(level string, best, unit *big.Int, cause error) error {
	e := &levelError{level: level, best: new(big.Rat).SetFrac(best, unit), cause: cause}
	if p.open != nil {
		e.bound = new(big.Rat).SetFrac(p.open, unit)
	}
	return e
}
