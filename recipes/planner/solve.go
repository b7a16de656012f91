package planner

import (
	"context"
	"errors"
	"math/big"
	"slices"

	"trencher/recipes/planner/integer"
)

// cuts are rows and pieces that were found missing when flows were drawn.
type cuts struct{ rows, pieces []ratRow }

// A budget counts what all searches of one Solve take together.
type budget struct {
	Effort
	limit int
}

// left is how many nodes may still be taken.
func (b *budget) left() int { return b.limit - b.Nodes }

// fewDishes is of how many a node takes little time.
const fewDishes = 30

// patience is how many nodes may be taken where the problem does not say: the usual, but a
// part of it, and some at least, where there are more dishes than so many and a few.
func (p *Problem) patience(usual, dishes, least int) int {
	if p.NodeLimit > 0 {
		return p.NodeLimit
	}
	return max(least, usual*dishes/max(dishes, len(p.Dishes)-fewDishes))
}

// levelShare is how many levels may each spend all they are given: seldom is more
// than one hard.
const levelShare = 3

// solve searches with what is left, every level with a share of it.
func (b *budget) solve(ctx context.Context, m integer.Model) (integer.Solution, error) {
	left := max(1, b.left())
	for i := range m.Levels {
		m.Levels[i].Nodes = max(1, left/levelShare)
	}
	return b.search(ctx, m, integer.Limits{Nodes: left})
}

// search takes at most so many nodes.
func (b *budget) search(ctx context.Context, m integer.Model, limits integer.Limits) (integer.Solution, error) {
	found, err := integer.Solve(ctx, m, limits)
	b.Nodes += found.Nodes
	b.Pivots += found.Pivots
	return found, err
}

// gaveUp reports whether a search only ran out of patience.
func gaveUp(ctx context.Context, err error) bool {
	return errors.Is(err, integer.ErrNodeLimit) || err != nil && ctx.Err() != nil
}

// Solve finds the best plan: of all plans that keep every rule, with guests the
// one with
//
//  1. the most guests who have at least one helping; then the most who have two,
//     and so on up to Sides,
//  2. then the fewest whole portions that nobody eats,
//  3. then the most grams taken from lots to be used today, in steps of UseStep,
//  4. then the fewest dishes, or with ManyDishes the most,
//  5. then the fewest portions,
//  6. then the largest t with portions ≥ t × wish for every dish made,
//  7. then more of the dish that stands first in Ties, then of the next.
//
// A dish with guests has as many portions as are eaten of it, or its smallest
// batch; a dish that nobody takes is not made. Without guests the levels are use
// first, the most dishes, balance, the most portions, and ties.
//
// It is exact and the same for every order of the lots and guests. Errors:
// *units.FieldError when the problem cannot be asked; ErrNothingFits, with a plan
// that says why; *NotProvenError, which carries the best plan found.
func Solve(ctx context.Context, p Problem) (Plan, error) {
	p.sorted = p.sort()
	plan, err := decide(ctx, p)
	if len(plan.Portions) == 0 || errors.Is(err, ErrNothingFits) {
		return plan, err
	}
	plan.Flows = p.draw(plan.Portions, plan.Levels.UseFirst)
	plan.Left = p.left(plan.Flows)
	return plan.closed(err)
}

// decide is Solve without saying which lot each dish draws on: all that its
// levels and portions rest on.
func decide(ctx context.Context, p Problem) (Plan, error) {
	if err := p.Validate(); err != nil {
		return Plan{}, err
	}
	most, out := p.eligible()
	if len(most) == 0 {
		return p.emptyPlan(out), ErrNothingFits
	}
	plan, err := p.attempts(ctx, wanting{most: most, start: p.goodStart(ctx, most)}, (*attempt).run)
	plan.LeftOut = p.leftOut(plan.Portions, out)
	return plan, err
}

// attempts tries until nothing is missing.
func (p *Problem) attempts(ctx context.Context, w wanting, run func(*attempt, wanting) (Plan, *cuts, error)) (Plan, error) {
	least := 4_000
	if p.Guests == nil { // a node is then soon gone through
		least = 16_000
	}
	work := &budget{Effort: w.start.Effort, limit: w.start.Effort.Nodes + p.patience(DefaultNodeLimit, 10, least)}
	for {
		plan, missing, err := run(&attempt{Problem: p, ctx: ctx, work: work}, w)
		if missing == nil {
			plan.Effort = work.Effort
			return plan, err
		}
		w.extra.rows = append(w.extra.rows, missing.rows...)
		w.extra.pieces = append(w.extra.pieces, missing.pieces...)
	}
}

// closed is the plan as proven best, or put into the error that says not.
func (plan Plan) closed(err error) (Plan, error) {
	var stop *NotProvenError
	if errors.As(err, &stop) {
		stop.Plan = plan
	}
	plan.Proven = err == nil
	return plan, err
}

// An attempt solves the problem with the rows known so far.
type attempt struct {
	*Problem
	ctx  context.Context
	work *budget
	stop error // the first level that was not proven
}

// firstLook is how many nodes are spent on finding out whether everybody can
// have all helpings with nothing over, which is mostly so.
const firstLook = 30

// run solves. When the rows turn out not to say all there is
// to say, it returns what is missing.
func (a *attempt) run(w wanting) (Plan, *cuts, error) {
	if a.Guests == nil {
		m := a.newModel(w)
		m.begin(m.sharePoint(m.startShares(w.start)))
		return a.finish(m)
	}
	if w.wellFed {
		w.fed, w.over, w.fewest = w.start.fedSoFar(), int64(w.start.Levels.Over), true
		m := a.newModel(w)
		m.begin(m.point(m.eatingOf(w.start)))
		return a.finish(m)
	}
	w.fed = a.everybodyFed(w.most)
	m := a.newModel(w)
	greedy := m.startEating(w.start)
	if x := m.point(greedy); integer.Keeps(m.prog, x) {
		m.prog.Start = x
		return a.finish(m)
	}
	easy := m.prog
	easy.Levels = nil
	if found, err := a.work.search(a.ctx, easy, integer.Limits{Nodes: min(firstLook, max(1, a.work.left()))}); err == nil {
		m.prog.Start = found.X
		return a.finish(m)
	}
	w.fed = nil
	first := a.newModel(w)
	first.begin(first.point(greedy))
	found, err := a.work.solve(a.ctx, first.prog)
	if err != nil && !gaveUp(a.ctx, err) {
		return Plan{}, nil, err
	}
	a.stop = first.stopped(found, err)
	eaten := first.meal(found.X)
	w.fed, w.over, w.fewest = first.fedBy(eaten), eaten.over(), err == nil
	second := a.newModel(w)
	second.begin(second.point(eaten))
	return a.finish(second)
}

// fedSoFar is how many helpings a plan has, by round, and those of the rounds before.
func (plan *Plan) fedSoFar() []int64 {
	var list []int64
	sum := int64(0)
	for _, fed := range plan.Levels.Fed {
		sum += int64(fed)
		list = append(list, sum)
	}
	return list
}

// everybodyFed is what is fed in all, by round, when everybody has a helping of
// every dish that could be made and suits them, up to Sides.
func (p *Problem) everybodyFed(most map[int]int64) []int64 {
	fed := make([]int64, p.Sides)
	for _, g := range p.Guests {
		suiting := 0
		for d := range most {
			if g.Suits[d] {
				suiting++
			}
		}
		for r := range fed {
			fed[r] += int64(g.Count * min(r+1, suiting))
		}
	}
	return fed
}

// finish takes a model that has a start through its levels.
func (a *attempt) finish(m *model) (Plan, *cuts, error) {
	found, err := a.work.solve(a.ctx, m.prog)
	if err != nil && !gaveUp(a.ctx, err) {
		return Plan{}, nil, err
	}
	if a.stop == nil {
		a.stop = m.stopped(found, err)
	}
	plan, missing := a.complete(m, found)
	if missing != nil {
		return Plan{}, missing, nil
	}
	return plan, nil, a.stop
}

// complete is the plan that a solution stands for, or what its rows do not say.
func (a *attempt) complete(m *model, found integer.Solution) (Plan, *cuts) {
	plan := Plan{Portions: make([]int, len(a.Dishes))}
	for _, c := range m.dishes {
		plan.Portions[c.dish] = int(found.X[c.portions])
	}
	used, missing := a.canDraw(plan.Portions)
	if missing == nil && m.firstAt(found) != nil && used.Cmp(m.firstAt(found)) < 0 {
		missing = a.missingPiece(plan.Portions)
	}
	if missing != nil {
		return Plan{}, missing
	}
	if a.Guests != nil {
		plan.Plates = m.plates(found.X)
	}
	plan.Levels = a.levelsOf(plan, used)
	plan.Effort = a.work.Effort
	return plan, nil
}

// firstAt is what the solution says is used first, in whole steps; nil where
// nothing is.
func (m *model) firstAt(found integer.Solution) *big.Rat {
	i := slices.Index(m.levels, UseFirst)
	if i < 0 {
		return nil
	}
	return m.scaled(UseFirst, found.Levels[i].Value)
}

// stopped says at which level the search gave up, or nothing. A level it gave up may
// have come to its bound since, by what is best at the levels below: best among all
// plans that come to as much as it was held at, so among those at its bound as well.
func (m *model) stopped(found integer.Solution, err error) error {
	i := m.firstOpen(found)
	if err == nil || i < 0 {
		return nil
	}
	level, reached := m.levels[i], found.Levels[i]
	e := &NotProvenError{Level: level, Best: m.scaled(level, reached.Value), Bound: m.scaled(level, reached.Bound)}
	if !errors.Is(err, integer.ErrNodeLimit) {
		e.Cause = err
	}
	return e
}

// firstOpen is the first level that may come to more than it did; -1 where none may.
// The bound of the ties is that of one dish.
func (m *model) firstOpen(found integer.Solution) int {
	for i, r := range found.Levels {
		if !r.Proven && (m.levels[i] == Ties || r.Bound == nil || r.Bound.Cmp(r.Value) != 0) {
			return i
		}
	}
	return -1
}

// levelsOf counts what a plan comes to, from its portions and plates alone. used
// is what can be taken from the lots to be used today.
func (p *Problem) levelsOf(plan Plan, used *big.Rat) Levels {
	steps := new(big.Int).Quo(used.Num(), new(big.Int).Mul(used.Denom(), big.NewInt(UseStep)))
	l := Levels{UseFirst: new(big.Rat).SetInt(steps.Mul(steps, big.NewInt(UseStep))), Balance: new(big.Rat)}
	var over []int
	l.Fed, over = p.servedOf(plan)
	for d, n := range plan.Portions {
		if n == 0 {
			continue
		}
		l.Over += over[d]
		t := new(big.Rat).Quo(ratInt(n), p.Dishes[d].Wish.Rat())
		if l.Dishes == 0 || t.Cmp(l.Balance) < 0 {
			l.Balance = t
		}
		l.Dishes++
		l.Portions += n
	}
	return l
}

// helpingHalves is a helping of a guest in halves of a portion.
func helpingHalves(g Guest) int {
	if g.Child {
		return 1
	}
	return 2
}

// servedOf counts how many have a first helping, a second and so on, and of each dish
// the whole portions that nobody has; nil and nothing where nobody in particular eats.
func (p *Problem) servedOf(plan Plan) (fed, over []int) {
	over = make([]int, len(p.Dishes))
	if p.Guests == nil {
		return nil, over
	}
	fed = make([]int, p.Sides)
	halves := make([]int, len(p.Dishes))
	for _, plate := range plan.Plates {
		for r, d := range plate.Dishes {
			fed[r]++
			halves[d] += helpingHalves(p.Guests[plate.Group])
		}
	}
	for d, n := range plan.Portions {
		over[d] = (2*n - halves[d]) / 2
	}
	return fed, over
}

// left is what each lot keeps after the flows.
func (p *Problem) left(flows []Flow) []*big.Rat {
	left := make([]*big.Rat, len(p.Lots))
	for i, l := range p.Lots {
		left[i] = l.Supply.Rat()
	}
	for _, f := range flows {
		left[f.Lot].Sub(left[f.Lot], f.Grams)
	}
	return left
}

// emptyPlan is the plan in which no dish can be made.
func (p *Problem) emptyPlan(out map[int]LeftOut) Plan {
	plan := Plan{
		Portions: make([]int, len(p.Dishes)),
		Left:     p.left(nil),
		Proven:   true,
	}
	plan.LeftOut = p.leftOut(plan.Portions, out)
	if p.Guests != nil {
		plan.Plates = p.emptyPlates()
	}
	plan.Levels = p.levelsOf(plan, new(big.Rat))
	return plan
}

// leftOut lists the dishes without portions.
func (p *Problem) leftOut(portions []int, out map[int]LeftOut) []LeftOut {
	made := 0
	for _, n := range portions {
		if n > 0 {
			made++
		}
	}
	other := Outweighed
	switch {
	case p.MostDishes > 0 && made >= p.MostDishes:
		other = EnoughDishes
	case p.Guests != nil && !p.ManyDishes:
		other = NotNeeded
	}
	var list []LeftOut
	for d, n := range portions {
		if n > 0 {
			continue
		}
		o, ok := out[d]
		if !ok {
			o = LeftOut{Dish: d, Reason: other}
		}
		list = append(list, o)
	}
	return list
}
