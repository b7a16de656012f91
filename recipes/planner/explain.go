package planner

import (
	"context"
	"errors"
	"math/big"
	"slices"

	"github.com/shopspring/decimal"
)

// An Explanation says what held a plan back, and what would buy more.
type Explanation struct {
	Bounds []Bound
	Extras []Extra
}

// A Bound says why a dish has no portion more than it has, all else staying as
// it is: the first of these that holds. Short is what one portion more would
// lack of Of; nil when the dish is at its largest batch.
type Bound struct {
	Dish  int
	Of    string // the crop or the limited ingredient; "" at the largest batch
	Limit bool   // Of is a limited ingredient
	Unit  string
	Short *big.Rat
}

// An Extra is the smallest amount of one scarce thing, in whole grams (of a
// limit: in 64ths of what a portion would lack), with which the best plan has
// one portion more (at a table: one helping more). It is found by solving
// again.
type Extra struct {
	Of     string
	Limit  bool
	Unit   string
	Amount *big.Rat
	More   []int // the dishes that then have more portions
}

// explainNodes is the patience of all solves of one explanation together, in
// nodes. What cannot be proven within it is not told.
const explainNodes = 20_000

// explaining is an explanation in the making.
type explaining struct {
	*Problem
	plan Plan
	left int // nodes
}

// Explain finds what bound a plan that Solve gave for the problem: for every
// dish, and for every scarce thing by solving again with more of it. The only
// error is the context's.
func Explain(ctx context.Context, p Problem, plan Plan) (Explanation, error) {
	var e Explanation
	for d := range p.Dishes {
		if plan.Portions[d] > 0 {
			e.Bounds = append(e.Bounds, p.bound(plan.Portions, d))
		}
	}
	asking := &explaining{Problem: &p, plan: plan, left: explainNodes}
	for _, thing := range p.scarce(plan) {
		extra, err := asking.smallestExtra(ctx, thing)
		if err != nil {
			return Explanation{}, err
		}
		if extra != nil {
			e.Extras = append(e.Extras, *extra)
		}
	}
	return e, nil
}

// bound tests one portion more of a dish.
func (p *Problem) bound(portions []int, d int) Bound {
	b := Bound{Dish: d}
	if portions[d] >= p.Dishes[d].Largest {
		return b
	}
	more := slices.Clone(portions)
	more[d]++
	for _, l := range p.Limits {
		if short := p.overLimit(l, more); short.Sign() > 0 {
			return Bound{Dish: d, Of: l.Item, Limit: true, Unit: l.Unit, Short: short}
		}
	}
	for _, n := range p.Dishes[d].Needs {
		if short := p.lacking(n.Crop, more); short.Sign() > 0 {
			return Bound{Dish: d, Of: n.Crop, Unit: "g", Short: short}
		}
	}
	return b
}

// overLimit is by how much portions break a limit; 0 or less when they do not.
func (p *Problem) overLimit(l Limit, portions []int) *big.Rat {
	sum := new(big.Rat).Neg(l.Amount)
	for d, dish := range p.Dishes {
		for _, o := range dish.Others {
			if o.Item == l.Item {
				sum.Add(sum, new(big.Rat).Mul(o.PerPortion, ratInt(portions[d])))
			}
		}
	}
	return sum
}

// lacking is how many grams of a crop, of any size, the lots lack for the
// portions.
func (p *Problem) lacking(crop string, portions []int) *big.Rat {
	s := p.fullStore(crop)
	n := newNetwork(s, portions)
	n.fill(s.all())
	unmet := new(big.Int)
	for _, w := range n.wanted {
		unmet.Add(unmet, w)
	}
	short := new(big.Rat).SetFrac(unmet, n.unit)
	spare := new(big.Rat).Neg(p.keptBack(crop))
	for _, supply := range s.supply {
		spare.Add(spare, supply)
	}
	for _, d := range s.demands {
		spare.Sub(spare, new(big.Rat).Mul(d.per, ratInt(portions[d.dish])))
	}
	if over := spare.Neg(spare); over.Cmp(short) > 0 {
		return over
	}
	return short
}

func (p *Problem) keptBack(crop string) *big.Rat {
	sum := new(big.Rat)
	for _, k := range p.KeepBack {
		if k.Crop == crop {
			sum.Add(sum, k.Grams)
		}
	}
	return sum
}

// scarceThing is a crop or a limit, with an amount that is surely enough for
// one portion more of some dish.
type scarceThing struct {
	of     string
	limit  int // index into Limits, or -1 for a crop
	unit   string
	enough *big.Rat
}

// scarce lists the crops in alphabetical order, then the limits, that one
// portion more of some dish would run short of, and nothing else.
func (p *Problem) scarce(plan Plan) []scarceThing {
	var things []scarceThing
	for _, s := range p.stores(func(int) bool { return true }) {
		things = p.addScarce(things, plan, scarceThing{of: s.crop, limit: -1, unit: "g"})
	}
	for i, l := range p.Limits {
		things = p.addScarce(things, plan, scarceThing{of: l.Item, limit: i, unit: l.Unit})
	}
	return things
}

func (p *Problem) addScarce(things []scarceThing, plan Plan, thing scarceThing) []scarceThing {
	for d := range p.Dishes {
		short := p.shortOnlyOf(plan, d, thing)
		if short != nil && (thing.enough == nil || short.Cmp(thing.enough) < 0) {
			thing.enough = short
		}
	}
	if thing.enough == nil {
		return things
	}
	return append(things, thing)
}

// shortOnlyOf is what one portion more of a dish (or its smallest batch, when
// it has none) lacks of a thing, or nil when it lacks something else too, or
// nothing.
func (p *Problem) shortOnlyOf(plan Plan, d int, thing scarceThing) *big.Rat {
	more := slices.Clone(plan.Portions)
	more[d] = max(more[d]+1, p.Dishes[d].least())
	if more[d] > p.Dishes[d].Largest || p.Guests != nil && !p.suitsAnybody(d) {
		return nil
	}
	var short *big.Rat
	for i, l := range p.Limits {
		switch over := p.overLimit(l, more); {
		case over.Sign() > 0 && thing.limit == i:
			short = over
		case over.Sign() > 0:
			return nil
		}
	}
	for _, n := range p.Dishes[d].Needs {
		switch lack := p.lacking(n.Crop, more); {
		case lack.Sign() > 0 && thing.limit < 0 && thing.of == n.Crop:
			short = lack
		case lack.Sign() > 0:
			return nil
		}
	}
	return short
}

func (p *Problem) suitsAnybody(d int) bool {
	return slices.ContainsFunc(p.Guests, func(g Guest) bool { return g.Count > 0 && g.Suits[d] })
}

// doublings is how often what would be enough by itself is doubled before a
// thing is given up: what comes first in the order of the levels, such as a
// better balance, may take the first of it.
const doublings = 3

// smallestExtra finds the smallest amount that buys one more, by doubling and
// then bisecting; nil when nothing does, or nothing that can be proven.
func (p *explaining) smallestExtra(ctx context.Context, thing scarceThing) (*Extra, error) {
	step := big.NewRat(1, 1)
	if thing.limit >= 0 {
		step = new(big.Rat).Quo(thing.enough, big.NewRat(64, 1))
	}
	steps := new(big.Rat).Quo(thing.enough, step)
	high := new(big.Int).Quo(steps.Num(), steps.Denom()).Int64()
	if !steps.IsInt() {
		high++
	}
	low := int64(0)
	var best *Extra
	for range doublings + 1 {
		found, err := p.withExtra(ctx, thing, stepsOf(step, high))
		if err != nil {
			return nil, err
		}
		if best = found; best != nil {
			break
		}
		low, high = high, 2*high
	}
	if best == nil {
		return nil, nil
	}
	for high-low > 1 {
		middle := (low + high) / 2
		found, err := p.withExtra(ctx, thing, stepsOf(step, middle))
		if err != nil {
			return nil, err
		}
		if found == nil {
			low = middle
			continue
		}
		high, best = middle, found
	}
	return best, nil
}

func stepsOf(step *big.Rat, n int64) *big.Rat { return new(big.Rat).Mul(step, big.NewRat(n, 1)) }

// withExtra solves again with that much more of a thing; nil when it buys
// nothing, or nothing that is proven.
func (p *explaining) withExtra(ctx context.Context, thing scarceThing, amount *big.Rat) (*Extra, error) {
	if p.left <= 0 {
		return nil, nil
	}
	again, plan := *p.Problem, p.plan
	again.NodeLimit = p.left
	if thing.limit >= 0 {
		again.Limits = slices.Clone(p.Limits)
		again.Limits[thing.limit].Amount = new(big.Rat).Add(p.Limits[thing.limit].Amount, amount)
	} else {
		again.Lots = append(slices.Clone(p.Lots), Lot{ID: "\x00extra", Crop: thing.of, Supply: decimal.NewFromBigInt(amount.Num(), 0)})
	}
	more, err := Solve(ctx, again)
	p.left -= more.Effort.Nodes
	var unproven *NotProvenError
	switch {
	case errors.As(err, &unproven) && ctx.Err() == nil, errors.Is(err, ErrNothingFits):
		return nil, nil
	case err != nil:
		return nil, err
	case p.Guests == nil && more.Levels.Portions <= plan.Levels.Portions, p.Guests != nil && more.Levels.Fed <= plan.Levels.Fed:
		return nil, nil
	}
	extra := &Extra{Of: thing.of, Limit: thing.limit >= 0, Unit: thing.unit, Amount: amount}
	for d := range more.Portions {
		if more.Portions[d] > plan.Portions[d] {
			extra.More = append(extra.More, d)
		}
	}
	return extra, nil
}
