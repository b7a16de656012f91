package meal

import (
	"context"
	"slices"

	"trencher/recipes/planner"
)

// explained is what held a plan back, and who is short of it.
type explained struct {
	bounds []Bound
	partly bool
	short  []Shortfall
}

// explain says which causes held the plan back, each with the smallest amount
// that would make a better one, and who is short and why. That is only known of
// the best plan: of an unproven one only who is short is told. The error is the
// context's.
func explain(ctx context.Context, q Question, s Solved) (explained, error) {
	var e explained
	var explanation planner.Explanation
	var err error
	if s.Sharing.Proven {
		if explanation, err = planner.Explain(ctx, s.Problem, s.Sharing); err != nil {
			return e, err
		}
	}
	e.partly = explanation.Partly || !s.Sharing.Proven
	for _, b := range explanation.Bounds {
		bound := Bound{Cause: causeOf(b.Cause, q), Improves: b.Improves, Amount: b.Amount, Then: b.Then}
		for _, d := range b.More {
			bound.More = append(bound.More, q.Dishes[d].Name)
		}
		e.bounds = append(e.bounds, bound)
	}
	e.short = shortfalls(q, s, explanation.Shorts)
	return e, nil
}

func causeOf(c planner.Cause, q Question) Cause {
	cause := Cause{Kind: c.Kind, Of: c.Of, Unit: c.Unit}
	if c.Kind == planner.LargestBatch || c.Kind == planner.SmallestBatch {
		cause.Of = q.Dishes[c.Dish].Name
	}
	return cause
}

// shortfalls names the guests who get fewer helpings than they might take.
func shortfalls(q Question, s Solved, shorts []planner.Short) []Shortfall {
	var list []Shortfall
	for g := range q.Guests {
		short := shortfall(q, s, g)
		if short.Helpings == 0 {
			continue
		}
		for _, known := range shorts {
			if known.Group == g && known.Mend != nil {
				short.Mend = &Mend{causeOf(known.Mend.Cause, q), known.Mend.Amount}
			}
		}
		list = append(list, short)
	}
	return list
}

// shortfall counts what a group is short of, and the dishes that are and are not for
// them.
func shortfall(q Question, s Solved, g int) Shortfall {
	short := Shortfall{Guest: q.Guests[g], Sides: q.Sides}
	for _, plate := range s.Sharing.Plates {
		if plate.Group == g && plate.Short > 0 {
			short.Helpings += plate.Short
			short.People++
		}
	}
	for d, suits := range s.Problem.Guests[g].Suits {
		if suits {
			short.Suiting++
		} else {
			short.Not = append(short.Not, NotFor{Dish: q.Dishes[d].Name, Why: s.Problem.Guests[g].Why[d]})
		}
	}
	return short
}

// platesOf lists what every guest gets, guests with the same plate together, in
// the order of the groups. Nobody gets a portion set apart who could have had
// another dish as it is made of somebody who could have had this one.
func platesOf(q Question, s Solved) []Plate {
	var plates []Plate
	shares := s.Sharing.Plates
	for i := range shares {
		for _, d := range slices.Clone(shares[i].Dishes) {
			s.exchange(q, shares, i, d)
		}
	}
	for _, one := range shares {
		plate := Plate{Guest: q.Guests[one.Group], Number: 1, Short: one.Short}
		for _, d := range one.Dishes {
			if s.suits[one.Group][d].asMade {
				plate.Dishes = append(plate.Dishes, q.Dishes[d].Name)
			} else {
				plate.Apart = append(plate.Apart, q.Dishes[d].Name)
			}
		}
		plates = addPlate(plates, plate)
	}
	return plates
}

// exchange gives a dish of one guest to another for one of theirs, where the first
// then has as it is made what would have to be set apart for them.
func (s Solved) exchange(q Question, shares []planner.Plate, i, d int) {
	asMade := func(share, dish int) bool { return s.suits[shares[share].Group][dish].asMade }
	if asMade(i, d) {
		return
	}
	mine := shares[i].Dishes
	for o := range shares {
		theirs := shares[o].Dishes
		if q.Guests[shares[o].Group].Child != q.Guests[shares[i].Group].Child || slices.Contains(theirs, d) || !asMade(o, d) {
			continue
		}
		for at, e := range theirs {
			if !slices.Contains(mine, e) && asMade(i, e) {
				theirs[at], mine[slices.Index(mine, d)] = d, e
				slices.Sort(theirs)
				slices.Sort(mine)
				return
			}
		}
	}
}

func addPlate(plates []Plate, plate Plate) []Plate {
	for i := range plates {
		if plates[i].isLike(plate) {
			plates[i].Number++
			return plates
		}
	}
	return append(plates, plate)
}

// leftOutOf lists the dishes that are not made, each with its reason.
func leftOutOf(q Question, s Solved) []LeftOut {
	var list []LeftOut
	for _, out := range s.Sharing.LeftOut {
		dish := q.Dishes[out.Dish]
		left := LeftOut{Dish: dish.Name, Reason: out.Reason, Of: out.Of, Unit: out.Unit, Short: out.Short, Smallest: max(1, dish.Smallest)}
		for _, lot := range s.Problem.Lots {
			left.OnHand = left.OnHand || lot.Crop == out.Of
		}
		list = append(list, left)
	}
	return list
}

func levelsOf(s Solved) Levels {
	return Levels{Levels: s.Sharing.Levels, Proven: s.Sharing.Proven, Nodes: s.Sharing.Effort.Nodes}
}
