package planner

import (
	"cmp"
	"context"
	"errors"
	"math/big"
	"slices"
)

// An Explanation says what held a plan back, and who is short and why.
type Explanation struct {
	Bounds []Bound
	Shorts []Short
	// Partly says that patience ran out before everything was tried: what is
	// told is true, and there may be more.
	Partly bool
}

// A Bound is a cause that bounds a plan: relaxing it alone makes a better one.
// That is found by solving again.
type Bound struct {
	Cause
	Improves Level    // the first level that is then better
	Amount   *big.Rat // the smallest amount that does it: whole grams of a crop, whole layers or dishes; nil where it is no matter of amounts
	More     []int    // with it, the dishes that have more portions
	Then     Levels   // and what the plan comes to
}

// A Short is a group of guests of whom some have fewer helpings than Sides.
type Short struct {
	Group    int
	People   int
	Helpings int // short, over all of them
	Suiting  int // dishes of the problem that suit them
	Made     int // of these, dishes that are made or could be made alone
	// Mend is the smallest relaxing of one cause that leaves none of them
	// short; nil where no one cause does.
	Mend *Mend
}

// A Mend is one cause relaxed; Amount is as in a Bound.
type Mend struct {
	Cause
	Amount *big.Rat
}

// explainNodes is the patience of all solves of one explanation together, in nodes, where
// the problem has none of its own.
const explainNodes = 20_000

// explaining is an explanation in the making.
type explaining struct {
	*Problem
	ctx    context.Context
	plan   Plan
	left   int // nodes
	partly bool
	solved map[relaxing]relaxed // what was solved before
}

// A relaxing is a cause relaxed by an amount; "" is wholly.
type relaxing struct {
	Cause
	amount string
}

// A relaxed is the best plan with a cause relaxed, where that was proven.
type relaxed struct {
	plan   Plan
	proven bool
}

// Explain finds what bound a plan that Solve gave for the problem. A cause is
// named if and only if relaxing it alone improves a level (ties are none). The
// only error is the context's.
func Explain(ctx context.Context, p Problem, plan Plan) (Explanation, error) {
	p.sorted = p.sort()
	x := &explaining{Problem: &p, ctx: ctx, plan: plan, left: p.patience(explainNodes, 40, 4_000)}
	var e Explanation
	for _, causes := range p.groups() {
		e.Bounds = append(e.Bounds, x.boundsAmong(causes)...)
	}
	for g := range p.Guests {
		if short, ok := x.short(g); ok {
			short.Mend = x.mend(short, e.Bounds)
			e.Shorts = append(e.Shorts, short)
		}
	}
	e.Partly = x.partly
	return e, ctx.Err()
}

// levels finds a plan of a relaxed problem that comes to more than the one explained, if
// there is one, else one that comes to as much: no cause is named for a tie.
func (x *explaining) levels(p Problem) (Plan, bool) {
	p.anyOfEqual = true
	return x.within(p, func(p Problem) (Plan, error) { return p.outdo(x.ctx, x.plan) })
}

// boundsAmong finds which of several causes bound the plan. Where all of them together
// make no better plan, none alone does. Else a better plan shows which batches it leans on:
// the others may be asked about by themselves, and one that it leans on alone is a bound.
func (x *explaining) boundsAmong(causes []Cause) []Bound {
	if len(causes) == 0 || x.isOut() {
		return nil
	}
	plan, ok := x.levels(x.withAll(causes))
	switch {
	case ok && !x.better(plan):
		return nil
	case len(causes) == 1 && ok:
		return []Bound{x.boundBy(causes[0], plan)}
	case len(causes) == 1:
		return nil
	}
	needed, others := causes, []Cause(nil)
	if ok && causes[0].isBatch() {
		needed, others = x.parted(causes, plan)
	}
	var bounds []Bound
	if half := len(needed) / 2; half == 0 {
		bounds = append(bounds, x.boundBy(needed[0], plan))
	} else {
		bounds = append(x.boundsAmong(needed[:half]), x.boundsAmong(needed[half:])...)
	}
	bounds = append(bounds, x.boundsAmong(others)...)
	slices.SortFunc(bounds, func(a, b Bound) int {
		return cmp.Compare(slices.Index(causes, a.Cause), slices.Index(causes, b.Cause))
	})
	return bounds
}

// parted are the batches that a plan leans on, and the others.
func (x *explaining) parted(batches []Cause, plan Plan) (needed, others []Cause) {
	for _, c := range batches {
		if x.leansOn(plan, c) {
			needed = append(needed, c)
		} else {
			others = append(others, c)
		}
	}
	if len(needed) == 0 { // the plan explained is not the best
		return batches, nil
	}
	return needed, others
}

// atLeast is levels for a cause relaxed by an amount.
func (x *explaining) atLeast(c Cause, amount *big.Rat) (Plan, bool) {
	return x.levels(x.with(c, amount))
}

// best solves the problem with a cause relaxed by an amount: once, as it is asked of
// many guests what would serve them.
func (x *explaining) best(c Cause, amount *big.Rat) (Plan, bool) {
	key := relaxing{Cause: c}
	if amount != nil {
		key.amount = amount.RatString()
	}
	if r, ok := x.solved[key]; ok {
		return r.plan, r.proven
	}
	plan, ok := x.within(x.with(c, amount), func(p Problem) (Plan, error) { return decide(x.ctx, p) })
	if x.solved == nil {
		x.solved = map[relaxing]relaxed{}
	}
	x.solved[key] = relaxed{plan, ok}
	return plan, ok
}

// within answers about a relaxed problem within the patience that is left; false when
// that proves nothing.
func (x *explaining) within(p Problem, answer func(Problem) (Plan, error)) (Plan, bool) {
	if x.isOut() {
		return Plan{}, false
	}
	p.NodeLimit = x.left
	plan, err := answer(p)
	many := len(p.Dishes) / 100 // of hundreds of dishes, to ask takes long too
	x.left -= max(plan.Effort.Nodes, many*many)
	if errors.Is(err, ErrNothingFits) {
		return plan, true
	}
	x.partly = x.partly || err != nil
	return plan, err == nil
}

// isOut reports whether patience is out.
func (x *explaining) isOut() bool {
	out := x.left <= 0 || x.ctx.Err() != nil
	x.partly = x.partly || out
	return out
}

// boundBy tells of a cause what relaxing it comes to, of which a plan is known that is
// better than the one explained.
func (x *explaining) boundBy(c Cause, wholly Plan) Bound {
	b := Bound{Cause: c}
	least, amount := x.smallest(c, &wholly, x.atLeast, x.better)
	if least == nil {
		least, amount = &wholly, nil
	}
	with, ok := x.then(c, amount, *least)
	if !ok { // out of patience: another that is better, of which so much may be said
		with, amount = *least, nil
	}
	b.Amount, b.Then, b.Improves = amount, with.Levels, with.Levels.firstAbove(x.plan.Levels, x.Problem)
	for d, n := range with.Portions {
		if n > x.plan.Portions[d] {
			b.More = append(b.More, d)
		}
	}
	return b
}

// then is the best plan with a cause relaxed by an amount, of which a plan is known that
// is better at the first level at which any is. Who is served by it is asked only where
// more are fed.
func (x *explaining) then(c Cause, amount *big.Rat, better Plan) (Plan, bool) {
	if x.Guests != nil && better.Levels.firstAbove(x.plan.Levels, x.Problem) <= Over {
		return x.best(c, amount)
	}
	return x.within(x.with(c, amount), func(p Problem) (Plan, error) {
		most, _ := p.eligible()
		start := p.goodStart(x.ctx, most)
		if len(start.Portions) == 0 || start.Levels.Compare(better.Levels, &p) < 0 {
			better.Effort, start = start.Effort, better
		}
		return p.attempts(x.ctx, wanting{most: most, start: start, wellFed: true}, (*attempt).run)
	})
}

// better reports whether a plan is better than the one explained.
func (x *explaining) better(plan Plan) bool { return plan.Levels.Compare(x.plan.Levels, x.Problem) > 0 }

// firstAbove is the first level at which l and o differ.
func (l Levels) firstAbove(o Levels, p *Problem) Level {
	switch {
	case slices.Compare(l.Fed, o.Fed) != 0:
		return Fed
	case l.Over != o.Over:
		return Over
	case l.UseFirst.Cmp(o.UseFirst) != 0:
		return UseFirst
	case l.Dishes != o.Dishes:
		return Dishes
	case p.Guests != nil && l.Portions != o.Portions:
		return Portions
	case l.Balance.Cmp(o.Balance) != 0:
		return Balance
	case l.Portions != o.Portions:
		return Portions
	}
	return Ties
}
