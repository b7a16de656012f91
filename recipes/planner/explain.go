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

// explainNodes is the patience of all solves of one explanation together, where the
// problem has none of its own, in
// nodes.
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

// smallest finds the smallest amount by which a cause must be relaxed to get a
// plan that is good, as the one with the cause relaxed wholly is, and that plan; nil
// where the cause is no matter of amounts, or nothing can be proven.
func (x *explaining) smallest(c Cause, wholly *Plan, solve func(Cause, *big.Rat) (Plan, bool), good func(Plan) bool) (*Plan, *big.Rat) {
	step, most := x.step(c)
	if step == nil {
		return nil, nil
	}
	t := trying{x, c, step, solve, good}
	low, high, best := t.grown(most, wholly)
	if best == nil {
		return nil, nil
	}
	return t.shrunk(low, high, best)
}

// trying is a search for the smallest amount, in steps, by which a cause must be
// relaxed for a good plan.
type trying struct {
	*explaining
	cause Cause
	step  *big.Rat
	solve func(Cause, *big.Rat) (Plan, bool)
	good  func(Plan) bool
}

// with is the plan with so many steps more.
func (t trying) with(n int64) (Plan, bool) {
	return t.solve(t.cause, steps(t.step, n))
}

// grown finds an amount that gives a good plan, and one that does not: ever larger
// ones are tried, up to what the plan with the cause relaxed wholly makes do with. Of a
// crop the first may be large, as the plan found with it tells how little it makes do
// with too.
func (t trying) grown(most int64, wholly *Plan) (low, high int64, best *Plan) {
	first := int64(1)
	if t.cause.Kind == CropShort {
		first = 64
	}
	most = t.enough(t.cause, *wholly, 0, most)
	for high = first; high < most; high *= 8 {
		plan, ok := t.with(high)
		switch {
		case !ok:
			return 0, 0, nil
		case t.good(plan):
			return low, high, &plan
		}
		low = high
	}
	return low, most, wholly
}

// shrunk finds the smallest amount above low that gives a good plan, as high does.
// A plan mostly makes do with less than it was given: then one step below that is
// asked for, and halves of what is in doubt only where that rules out less than a
// third of it.
func (t trying) shrunk(low, high int64, best *Plan) (*Plan, *big.Rat) {
	high = t.enough(t.cause, *best, low, high)
	for next := high - 1; high-low > 1; {
		plan, ok := t.with(next)
		if !ok {
			return nil, nil
		}
		doubt := high - low
		if t.good(plan) {
			high, best = t.enough(t.cause, plan, low, next), &plan
		} else {
			low = next
		}
		if next = high - 1; high-low > doubt*2/3 {
			next = (low + high) / 2
		}
	}
	return best, steps(t.step, high)
}

// enough is the smallest amount above low, and at most high, with which a plan
// that is best with high grams of a crop can still be had as it is: it is then
// best with so much too. Any need takes of what there would be more of, and none of it
// has to be used first: it is what the lots there are leave wanting. Of other causes
// it is all of high.
func (x *explaining) enough(c Cause, plan Plan, low, high int64) int64 {
	held := slices.ContainsFunc(x.KeepBack, func(k KeepBack) bool { return k.Crop == c.Of })
	if c.Kind != CropShort || held {
		return high
	}
	return min(high, max(low+1, roundedUp(x.wanting(c.Of, plan.Portions))))
}

func steps(step *big.Rat, n int64) *big.Rat { return new(big.Rat).Mul(step, big.NewRat(n, 1)) }

// short counts what a group of guests is short of.
func (x *explaining) short(g int) (Short, bool) {
	s := Short{Group: g}
	s.People, s.Helpings = shortOf(x.plan, g)
	if s.Helpings == 0 {
		return s, false
	}
	most, _ := x.eligible()
	for d, suits := range x.Guests[g].Suits {
		if suits {
			s.Suiting++
			if _, ok := most[d]; ok {
				s.Made++
			}
		}
	}
	return s, true
}

// shortOf counts the people of a group who are short, and by how many helpings.
func shortOf(plan Plan, g int) (people, helpings int) {
	for _, plate := range plan.Plates {
		if plate.Group == g && plate.Short > 0 {
			people++
			helpings += plate.Short
		}
	}
	return people, helpings
}

// mend finds which cause, relaxed alone, leaves none of a group short. Of causes
// measured alike the smallest amount is best; crops come before counts.
func (x *explaining) mend(short Short, bounds []Bound) *Mend {
	if short.Suiting < x.Sides {
		return nil
	}
	served := func(plan Plan) bool {
		_, helpings := shortOf(plan, short.Group)
		return len(plan.Plates) > 0 && helpings == 0
	}
	var best *Mend
	for _, b := range bounds {
		if !b.mayMend(best) {
			continue
		}
		wholly, ok := x.best(b.Cause, nil)
		if !ok || !served(wholly) {
			continue
		}
		plan, amount := x.smallest(b.Cause, &wholly, x.best, served)
		if step, _ := x.step(b.Cause); plan == nil && step != nil {
			continue
		}
		if m := (&Mend{b.Cause, amount}); best == nil || m.isLess(best) {
			best = m
		}
	}
	return best
}

// mayMend reports whether a cause could mend what is short, and better than another does:
// what is measured otherwise is no better.
func (b Bound) mayMend(best *Mend) bool {
	return b.Improves == Fed && (best == nil || best.Unit == b.Unit)
}

// isLess tells a smaller amount of what is measured alike.
func (m *Mend) isLess(o *Mend) bool {
	return m.Unit == o.Unit && m.Amount != nil && o.Amount != nil && m.Amount.Cmp(o.Amount) < 0
}

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
