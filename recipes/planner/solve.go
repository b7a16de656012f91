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

// solve searches with what is left.
func (b *budget) solve(ctx context.Context, m integer.Model) (integer.Solution, error) {
	found, err := integer.Solve(ctx, m, integer.Limits{Nodes: max(1, b.left())})
	b.Nodes += found.Nodes
	b.Pivots += found.Pivots
	return found, err
}

// gaveUp reports whether a search only ran out of patience.
func gaveUp(ctx context.Context, err error) bool {
	return errors.Is(err, integer.ErrNodeLimit) || err != nil && ctx.Err() != nil
}

// Solve finds the best plan: of all plans that keep every rule, the one with
//
//  1. the most helpings served (table),
//  2. then the most grams taken from lots to be used today,
//  3. then the largest t with portions ≥ t × wish for every dish that could be
//     made alone,
//  4. then the most portions (table: the fewest),
//  5. then more of the dish that stands first, then of the next.
//
// It is exact and the same for every order of the lots. Errors: *units.FieldError
// when the problem cannot be asked; ErrNothingFits, with a plan that says why;
// *NotProvenError, which carries the best plan found.
func Solve(ctx context.Context, p Problem) (Plan, error) {
	if err := p.Validate(); err != nil {
		return Plan{}, err
	}
	most, out := p.eligible()
	if len(most) == 0 {
		return p.emptyPlan(out), ErrNothingFits
	}
	work := &budget{limit: p.NodeLimit}
	if work.limit <= 0 {
		work.limit = DefaultNodeLimit
	}
	var extra cuts
	for {
		plan, missing, err := p.attempt(ctx, most, extra, work)
		if missing == nil {
			plan.LeftOut = p.leftOut(plan.Portions, out)
			return plan.closed(err)
		}
		extra.rows = append(extra.rows, missing.rows...)
		extra.pieces = append(extra.pieces, missing.pieces...)
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

// attempt solves the program as written so far and draws the flows. When the
// rows turn out not to say all there is to say, it returns what is missing.
func (p *Problem) attempt(ctx context.Context, most map[int]int64, extra cuts, work *budget) (Plan, *cuts, error) {
	m := p.newModel(most, extra)
	found, err := work.solve(ctx, m.prog)
	if err != nil && !gaveUp(ctx, err) {
		return Plan{}, nil, err
	}
	plan := Plan{Portions: make([]int, len(p.Dishes)), Levels: m.read(found)}
	for c, d := range m.dishes {
		plan.Portions[d] = int(found.X[c])
	}
	flows, used, missing := p.draw(plan.Portions)
	if missing == nil && used.Cmp(plan.Levels.UseFirst) != 0 {
		missing = p.missingPiece(plan.Portions)
	}
	if missing != nil {
		return Plan{}, missing, nil
	}
	plan.Flows, plan.Left = flows, p.left(flows)
	if p.Guests != nil {
		plan.Plates = m.plates(m.seating(ctx, work, found.X))
	}
	plan.Effort = work.Effort
	return plan, nil, m.stopped(found, err)
}

// stopped says at which level the search gave up, or nothing.
func (m *model) stopped(found integer.Solution, err error) error {
	i := slices.IndexFunc(found.Levels, func(r integer.Reached) bool { return !r.Proven })
	if err == nil || i < 0 {
		return err
	}
	level, reached := m.levels[i], found.Levels[i]
	e := &NotProvenError{Level: level, Best: m.scaled(level, reached.Value), Bound: m.scaled(level, reached.Bound)}
	if !errors.Is(err, integer.ErrNodeLimit) {
		e.Cause = err
	}
	return e
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
		Levels:   Levels{UseFirst: new(big.Rat), Balance: new(big.Rat)},
		Left:     p.left(nil),
		Proven:   true,
	}
	plan.LeftOut = p.leftOut(plan.Portions, out)
	if p.Guests != nil {
		plan.Plates = p.emptyPlates()
	}
	return plan
}

// leftOut lists the dishes without portions.
func (p *Problem) leftOut(portions []int, out map[int]LeftOut) []LeftOut {
	var list []LeftOut
	for d, n := range portions {
		if n > 0 {
			continue
		}
		o, ok := out[d]
		if !ok {
			o = LeftOut{Dish: d, Reason: Outweighed}
		}
		list = append(list, o)
	}
	return list
}
