package planner

import (
	"context"
	"errors"

	"trencher/recipes/planner/integer"
)

// outdo finds a plan that comes to more than one that keeps the problem's rules too, or
// returns that one when there is none: a question that is sooner answered than which is
// best. It is better at the first level at which any is. Ties are not looked at. The
// error is that of [Solve].
func (p *Problem) outdo(ctx context.Context, than Plan) (Plan, error) {
	if err := p.Validate(); err != nil {
		return Plan{}, err
	}
	most, _ := p.eligible()
	if len(most) == 0 || len(than.Portions) == 0 {
		return decide(ctx, *p)
	}
	return p.attempts(ctx, wanting{most: most}, func(a *attempt, w wanting) (Plan, *cuts, error) { return a.outdo(w, than) })
}

// outdo asks at every level whether there is more, from the plan to be outdone on.
func (a *attempt) outdo(w wanting, than Plan) (Plan, *cuts, error) {
	if a.Guests == nil {
		m := a.newModel(w)
		return a.beyond(m, m.sharePoint(m.portionsOf(than)), than)
	}
	w.fed = a.everybodyFed(w.most)
	if m := a.newModel(w); integer.Keeps(m.prog, m.point(m.eatingOf(than))) {
		return a.beyond(m, m.point(m.eatingOf(than)), than)
	}
	w.fed = nil
	first := a.newModel(w)
	eaten := first.eatingOf(than)
	plan, missing, err := a.beyond(first, first.point(eaten), than)
	if missing != nil || err != nil || plan.Levels.firstAbove(than.Levels, a.Problem) <= Over {
		return plan, missing, err
	}
	w.fed, w.over, w.fewest = first.fedBy(eaten), eaten.over(), true
	second := a.newModel(w)
	return a.beyond(second, second.point(eaten), plan)
}

// beyond looks for a better solution of a model than the point at which a plan stands.
// Where the plan is no solution, as it seldom is, the problem is solved.
func (a *attempt) beyond(m *model, start []int64, than Plan) (Plan, *cuts, error) {
	if !integer.Keeps(m.prog, start) {
		plan, err := decide(a.ctx, *a.Problem)
		a.work.Nodes, a.work.Pivots = a.work.Nodes+plan.Effort.Nodes, a.work.Pivots+plan.Effort.Pivots
		return plan, nil, err
	}
	plan, missing := a.complete(m, integer.Solution{X: start, Levels: make([]integer.Reached, len(m.levels))})
	if missing != nil {
		return Plan{}, missing, nil
	}
	if plan.Levels.Compare(than.Levels, a.Problem) > 0 { // with a smaller batch, say
		than = plan
	}
	m.prog.Start = start
	found, err := a.work.search(a.ctx, m.prog, integer.Limits{Nodes: max(1, a.work.left()), Better: true})
	switch {
	case errors.Is(err, integer.ErrBetter):
		plan, missing = a.complete(m, found)
		return plan, missing, nil
	case err == nil: // but the rows may promise too much of the plan itself
		_, missing = a.complete(m, found)
		return than, missing, nil
	case gaveUp(a.ctx, err):
		return than, nil, m.stopped(found, err)
	}
	return Plan{}, nil, err
}

// portionsOf is how much of the model's dishes is made in a plan.
func (m *model) portionsOf(plan Plan) []int64 {
	portions := make([]int64, len(m.dishes))
	for i, c := range m.dishes {
		portions[i] = int64(plan.Portions[c.dish])
	}
	return portions
}

// eatingOf is what of the model's dishes is cooked and taken in a plan.
func (m *model) eatingOf(plan Plan) eating {
	e := eating{make([]int64, len(m.dishes)), make([]int64, len(m.dishes)), make([]int64, len(m.dishes))}
	at := map[int]int{}
	for i, c := range m.dishes {
		at[c.dish] = i
	}
	for _, plate := range plan.Plates {
		helpings := e.adults
		if m.p.Guests[plate.Group].Child {
			helpings = e.children
		}
		for _, d := range plate.Dishes {
			helpings[at[d]]++
		}
	}
	for i, c := range m.dishes {
		if e.eaten(i) > 0 {
			e.portions[i] = max(c.least, e.eaten(i))
		}
	}
	return e
}
