package integer

import (
	"context"
	"errors"
	"math"
	"math/big"
)

// ErrInfeasible says that no solution keeps all rows.
var ErrInfeasible = errors.New("no solution")

// Limits is a search's patience.
type Limits struct {
	Nodes int // of branch and bound, over all levels; 0 means no limit. One of many columns counts for several.

	// Better asks only for a solution that is better than the model's start: as good
	// at the levels before one, and better there. The first found comes with
	// ErrBetter; without, none is. InOrder is not looked at.
	Better bool
}

// ErrBetter says that a solution is better than the start; it need not be the best.
var ErrBetter = errors.New("better than the start")

// A Solution is the best that was found.
type Solution struct {
	X      []int64   // by column; nil when no solution was found
	Levels []Reached // by level
	Proven bool      // every level is
	Nodes  int       // nodes of branch and bound, over all levels; large ones count for more
	Pivots int       // steps of the relaxation
	did    tally     // what else
}

// Reached is how far a level got.
type Reached struct {
	Value  *big.Rat // of the goal at X
	Bound  *big.Rat // no solution that keeps the levels before does better; nil when nothing is known
	Proven bool     // Value is the best there is
}

// Solve finds the best solution of the model, level by level. What it returns
// is proven exactly when the error is nil. [ErrInfeasible] and [ErrModel] come
// without a solution; [ErrNodeLimit] and the context's error come with the best
// that was found, if anything was. A level that has used up nodes of its own is
// held at what it reached, and the next is taken up.
func Solve(ctx context.Context, m Model, limits Limits) (Solution, error) {
	return m.solve(ctx, limits, usual)
}

func (m *Model) solve(ctx context.Context, limits Limits, p patience) (Solution, error) {
	if err := m.check(); err != nil {
		return Solution{}, err
	}
	if m.Start != nil && !m.accepts(m.Start) {
		return Solution{}, wrong("its start is no solution")
	}
	if m.Start == nil && limits.Better {
		return Solution{}, wrong("nothing to be better than")
	}
	tight, possible := m.presolve()
	if !possible {
		return Solution{}, ErrInfeasible
	}
	c := &climb{model: tight, reached: make([]Reached, len(m.Levels)), work: &budget{limit: limits.Nodes, patience: p, better: limits.Better}}
	if limits.Nodes <= 0 {
		c.work.limit = math.MaxInt
	}
	for _, columns := range tight.groups() {
		if len(columns) > 0 {
			c.parts = append(c.parts, newPart(ctx, tight, columns, c.work))
		}
	}
	if err := c.begin(); err != nil {
		return Solution{Nodes: c.work.steps(), Pivots: c.work.pivots, did: c.work.tally}, err
	}
	err := c.run()
	s := c.solution()
	if !m.holds(s.X) {
		return Solution{}, errCorrupt
	}
	return s, err
}

// Keeps reports whether x is a solution of a well-formed model.
func Keeps(m Model, x []int64) bool { return len(x) == len(m.Columns) && m.accepts(x) }

// accepts reports whether x keeps all rows, written or not.
func (m *Model) accepts(x []int64) bool {
	if !m.holds(x) {
		return false
	}
	s := &search{prog: &program{separate: m.Separate}, columns: m.Columns, work: &budget{}}
	s.shape = &shape{prog: s.prog}
	return !s.refused(x)
}

// A climb takes the parts of a model through its levels together.
type climb struct {
	model   *Model
	parts   []*part
	reached []Reached
	work    *budget
}

// begin finds a solution to start from.
func (c *climb) begin() error {
	for _, p := range c.parts {
		if p.x != nil {
			continue
		}
		if found, err := p.canNarrow(narrowing{}, objective{}); err != nil {
			return err
		} else if !found {
			return ErrInfeasible
		}
	}
	return nil
}

// run goes to the top, or as far as the budget lasts.
func (c *climb) run() error {
	var stopped error
	for i := range c.model.Levels {
		err := c.level(i)
		if err == nil {
			continue
		}
		if stopped == nil {
			stopped = err
		}
		if !errors.Is(err, ErrNodeLimit) || c.work.spent() {
			break
		}
	}
	return stopped
}

// level brings one level to its best, and holds it.
func (c *climb) level(i int) error {
	level := c.model.Levels[i]
	if level.Nodes > 0 {
		lift := c.work.capped(level.Nodes)
		defer lift()
	}
	var err error
	switch g := level.Goal.(type) {
	case InOrder:
		if !c.work.better {
			err = c.order(i)
		}
	case Linear:
		err = c.sum(i, g.Enough)
	case Concave:
		err = c.sum(i, nil)
	case MaxMin:
		err = c.share(i, g)
	}
	if c.work.better && err == nil && level.Goal.at(c.model, c.x()).Cmp(level.Goal.at(c.model, c.model.Start)) > 0 {
		err, c.reached[i].Bound = ErrBetter, nil // what the first that is better comes to bounds nothing
	}
	c.reached[i].Proven = err == nil
	return err
}

// solution puts the parts together.
func (c *climb) solution() Solution {
	s := Solution{X: c.x(), Levels: c.reached, Proven: true, Nodes: c.work.steps(), Pivots: c.work.pivots, did: c.work.tally}
	for i := range s.Levels {
		r := &s.Levels[i]
		if r.Value == nil {
			r.Value = c.model.Levels[i].Goal.at(c.model, s.X)
		}
		if r.Proven {
			r.Bound = r.Value
		}
		s.Proven = s.Proven && r.Proven
	}
	return s
}

// x puts the parts' incumbents together.
func (c *climb) x() []int64 {
	x := make([]int64, len(c.model.Columns))
	for _, p := range c.parts {
		for k, j := range p.columns {
			x[j] = p.x[k]
		}
	}
	return x
}
