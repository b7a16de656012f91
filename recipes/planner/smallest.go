package planner

import (
	"math/big"
	"slices"
)

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
