package planner

import (
	"context"
	"errors"
	"fmt"
	"math/big"
)

// A Plan is the best way to share out a Problem. Every list that is "by dish"
// or "by lot" is indexed like the Problem's.
type Plan struct {
	Portions []int // by dish; 0 for a dish left out
	Flows    []Flow
	Left     []*big.Rat // by lot: the grams not used
	LeftOut  []LeftOut  // the dishes with no portion, in dish order
	Levels   Levels
	Plates   []Plate // table: who eats what, every guest once
	Effort   Effort
	Proven   bool // false only in the plan a NotProvenError carries
}

// A Flow is what one need of one dish takes from one lot, in as-lifted grams,
// exact. Flows are listed by dish, then need, then lot.
type Flow struct {
	Lot, Dish, Need int
	Grams           *big.Rat
}

// Levels are the values the optimum is ordered by.
type Levels struct {
	Fed      int      // helpings served; 0 for share
	UseFirst *big.Rat // grams taken from lots to be used today
	Balance  *big.Rat // the smallest portions ÷ wish over the dishes that can be made
	Portions int
}

// Effort says what the search did.
type Effort struct {
	Nodes  int // nodes of branch and bound, over all levels
	Pivots int // steps of the relaxation
}

// Reason says why a dish has no portions.
type Reason string

// The reasons a dish is left out.
const (
	NoLot        Reason = "no lot"        // nothing on hand that it accepts
	TooLittle    Reason = "too little"    // not even its smallest batch, made alone
	LimitReached Reason = "limit reached" // a limit does not allow its smallest batch
	SuitsNobody  Reason = "suits nobody"  // table: no guest may eat it
	Outweighed   Reason = "outweighed"    // it could be made, but what comes first goes further without it
)

// A LeftOut is a dish without portions and why. For TooLittle and LimitReached,
// Short is how much more of Of its smallest batch would need, by itself.
type LeftOut struct {
	Dish   int
	Reason Reason
	Of     string   // the crop or the ingredient that is short
	Unit   string   // the unit of Short
	Short  *big.Rat // nil when nothing is short
}

// NotProvenError is what Solve returns when it had to stop before the optimum
// was proven: the node limit was reached or the context ended.
type NotProvenError struct {
	Plan  Plan     // the best plan found; it keeps every rule
	Level string   // the level at which it stopped: fed, use first, balance, portions or ties
	Best  *big.Rat // that level's value in Plan; for portions at a table negative, fewer being better
	Bound *big.Rat // no plan can do better than this; nil when nothing is known
	Cause error    // the context's error, or nil for the node limit
}

// Gap is how far the best plan's level may be from the optimum, or nil.
func (e *NotProvenError) Gap() *big.Rat {
	if e.Bound == nil {
		return nil
	}
	return new(big.Rat).Sub(e.Bound, e.Best)
}

// Error says "not proven best" and by how much at most.
func (e *NotProvenError) Error() string {
	gap := "the gap is not known"
	if g := e.Gap(); g != nil {
		gap = fmt.Sprintf("%s could be better by at most %s", e.Level, g.FloatString(1))
	}
	why := fmt.Sprintf("stopped after %d steps of the search", e.Plan.Effort.Nodes)
	if e.Cause != nil {
		why = e.Cause.Error()
	}
	return fmt.Sprintf("not proven best: %s; %s", why, gap)
}

// Unwrap gives the context's error, if that is what ended the search.
func (e *NotProvenError) Unwrap() error { return e.Cause }

// cuts are rows and pieces that were found missing when flows were drawn.
type cuts struct{ rows, pieces []ratRow }

// Solve finds the best plan: of all plans that keep every rule, the one with
//
//  1. the most helpings served (table),
//  2. then the most grams taken from lots to be used today,
//  3. then the largest t with portions ≥ t × wish for every dish that could be
//     made alone,
//  4. then the most portions (table: the fewest),
//  5. then more of the dish that stands first, then of the next.
//
// It is exact and the same for every order of the lots. Errors: *ProblemError
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
			return plan.proven(err)
		}
		extra.rows = append(extra.rows, missing.rows...)
		extra.pieces = append(extra.pieces, missing.pieces...)
	}
}

// proven closes the plan: proven best, or wrapped into the error that says not.
func (plan Plan) proven(err error) (Plan, error) {
	var stop *levelError
	if !errors.As(err, &stop) {
		plan.Proven = err == nil
		return plan, err
	}
	plan.Proven = false
	e := &NotProvenError{Plan: plan, Level: stop.level, Best: stop.best, Bound: stop.bound}
	if !errors.Is(stop.cause, errNodeLimit) {
		e.Cause = stop.cause
	}
	return plan, e
}

// attempt solves the program as written so far and draws the flows. When the
// rows turn out not to say all there is to say, it returns what is missing.
func (p *Problem) attempt(ctx context.Context, most map[int]int64, extra cuts, work *budget) (Plan, *cuts, error) {
	whole := p.newModel(most, extra)
	var parts climb
	groups := whole.parts()
	for _, dishes := range groups {
		some := map[int]int64{}
		for _, d := range dishes {
			some[d] = most[d]
		}
		m := whole
		if len(groups) > 1 {
			m = p.newModel(some, extra)
		}
		parts = append(parts, part{m, newSession(ctx, m.prog, work, make([]int64, len(m.prog.columns)))})
	}
	levels, stopped := parts.toTheTop()
	if stopped != nil && errors.Is(stopped, errCorrupt) {
		return Plan{}, nil, stopped
	}
	plan := Plan{Portions: make([]int, len(p.Dishes)), Levels: levels}
	for _, part := range parts {
		for c, d := range part.dishes {
			plan.Portions[d] = int(part.x[c])
		}
	}
	flows, used, missing := p.draw(plan.Portions)
	if missing == nil && used.Cmp(levels.UseFirst) != 0 {
		missing = p.missingPiece(plan.Portions)
	}
	if missing != nil {
		return Plan{}, missing, nil
	}
	plan.Flows, plan.Left = flows, p.left(flows)
	if p.Guests != nil {
		plan.Plates = parts[0].plates(parts[0].seating(ctx, work, parts[0].x))
	}
	plan.Effort = Effort{work.nodes, work.pivots}
	return plan, nil, stopped
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

// eligible finds the dishes that could be made alone, with the most portions
// each could have by itself, and why the others are out.
func (p *Problem) eligible() (most map[int]int64, out map[int]LeftOut) {
	most, out = map[int]int64{}, map[int]LeftOut{}
	limits := p.limitRows()
	for d := range p.Dishes {
		dish := &p.Dishes[d]
		eaters, suits := p.eaters(d)
		if !suits {
			out[d] = LeftOut{Dish: d, Reason: SuitsNobody}
			continue
		}
		top := dish.Largest
		if p.Guests != nil {
			top = min(top, max(dish.least(), eaters))
		}
		tight := p.tightest(d, limits)
		if tight.limit != nil {
			top = int(min(int64(top), tight.most))
		}
		if top < dish.least() {
			out[d] = p.whyOut(d, tight)
			continue
		}
		most[d] = int64(top)
	}
	return most, out
}

// eaters is how many whole portions the guests whom the dish suits could eat
// of it, and whether it suits anyone; a share has no such bound.
func (p *Problem) eaters(d int) (portions int, suits bool) {
	if p.Guests == nil {
		return p.Dishes[d].Largest, true
	}
	halves := 0
	for _, g := range p.Guests {
		switch {
		case !g.Suits[d]:
		case g.Child:
			halves += g.Count
		default:
			halves += 2 * g.Count
		}
	}
	return (halves + 1) / 2, halves > 0
}

// A tightness is the row that bounds a dish made alone most.
type tightness struct {
	ratRow
	most int64
}

// tightest finds the row that allows the fewest portions of dish d by itself.
func (p *Problem) tightest(d int, limits []ratRow) tightness {
	var tight tightness
	rows := limits
	for _, s := range p.stores(func(o int) bool { return o == d }) {
		rows = append(rows[:len(rows):len(rows)], s.supplyRows()...)
	}
	for _, r := range rows {
		per := r.coefs[d]
		if per == nil || per.Sign() == 0 {
			continue
		}
		q := new(big.Rat).Quo(r.limit, per)
		n := new(big.Int).Quo(q.Num(), q.Denom())
		if !n.IsInt64() {
			continue
		}
		if tight.limit == nil || n.Int64() < tight.most {
			tight = tightness{r, n.Int64()}
		}
	}
	return tight
}

// whyOut puts the tightest row into a reason.
func (p *Problem) whyOut(d int, tight tightness) LeftOut {
	o := LeftOut{Dish: d, Reason: TooLittle, Of: tight.crop, Unit: "g"}
	if tight.item != "" {
		o.Reason, o.Of, o.Unit = LimitReached, tight.item, tight.unit
	}
	needed := new(big.Rat).Mul(tight.coefs[d], ratInt(p.Dishes[d].least()))
	o.Short = needed.Sub(needed, tight.limit)
	if tight.item == "" && tight.limit.Sign() == 0 {
		o.Reason = NoLot
	}
	return o
}
