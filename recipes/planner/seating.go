package planner

import (
	"context"
	"math/big"

	"trencher/recipes/planner/integer"
)

// seating decides who eats what of the portions of x: all helpings of level 1,
// and as evenly as they allow, so that nobody goes without a first helping while
// another has a second. It depends on the portions and the guests alone, and
// starts from what x itself says. It returns one number of helpings a taking.
func (m *model) seating(ctx context.Context, work *budget, x []int64) []int64 {
	p := integer.Model{Start: make([]int64, len(m.taken))}
	for i, t := range m.taken {
		p.Start[i] = x[t.column]
		p.Columns = append(p.Columns, integer.Column{Most: m.prog.Columns[t.column].Most})
	}
	m.seatDishes(&p, x)
	var all []integer.Term
	kinds := make([][]integer.Term, len(m.kinds))
	for i, t := range m.taken {
		all = append(all, integer.Times(1, i))
		kinds[t.kind] = append(kinds[t.kind], integer.Times(1, i))
	}
	p.Levels = append(p.Levels, integer.Level{Goal: integer.Linear{Terms: all}})
	for k, of := range m.kinds {
		p.Rows = append(p.Rows, integer.AtMost(int64(of.count)*int64(m.p.Sides), kinds[k]...))
	}
	for round := int64(1); round <= int64(min(m.p.Sides, len(m.dishes))); round++ {
		for k, of := range m.kinds {
			each := integer.Linear{Terms: kinds[k], Enough: big.NewInt(int64(of.count) * round)}
			p.Levels = append(p.Levels, integer.Level{Goal: each})
		}
	}
	if work.left() <= 0 {
		return p.Start
	}
	if seated, err := work.solve(ctx, p); err == nil || gaveUp(ctx, err) {
		return seated.X
	}
	return p.Start
}

// seatDishes writes that the portions cover the helpings and none is cooked
// beyond them.
func (m *model) seatDishes(p *integer.Model, x []int64) {
	for c, d := range m.dishes {
		var eaten []integer.Term
		for i, t := range m.taken {
			if t.dish == d {
				eaten = append(eaten, integer.Times(m.kinds[t.kind].halves(), i))
			}
		}
		p.Rows = append(p.Rows, integer.AtMost(2*x[c], eaten...))
		if x[c] > int64(m.p.Dishes[d].least()) {
			p.Rows = append(p.Rows, integer.AtLeast(2*x[c]-1, eaten...))
		}
	}
}
