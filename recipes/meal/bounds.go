package meal

import (
	"context"

	"trencher/recipes/planner"
)

// explained is what held a plan back, and who is short of it.
type explained struct {
	bounds []Bound
	extras []Extra
	short  []Shortfall
}

// explain says what bound each dish, for each scarce thing the smallest extra
// amount that would buy one more portion, and at a table who is short. What more
// would buy is only known beside the best plan: of an unproven one nothing is
// said. The error is the context's.
func explain(ctx context.Context, q Question, s Solved) (explained, error) {
	var e explained
	if !s.Sharing.Proven {
		return e, nil
	}
	explanation, err := planner.Explain(ctx, s.Problem, s.Sharing)
	if err != nil {
		return e, err
	}
	for _, extra := range explanation.Extras {
		more := Extra{Of: extra.Of, Amount: extra.Amount, Unit: extra.Unit}
		for _, d := range extra.More {
			more.More = append(more.More, q.Dishes[d].Name)
		}
		e.extras = append(e.extras, more)
	}
	for _, bound := range explanation.Bounds {
		e.addBound(Bound{Cause: causeOf(bound, q), Of: bound.Of, Dishes: []string{q.Dishes[bound.Dish].Name}})
	}
	e.short = shortfalls(q, s, e.extras)
	return e, nil
}

// addBound adds a bound, to the dishes of the same cause where there are some.
func (e *explained) addBound(bound Bound) {
	for i, known := range e.bounds {
		if known.Cause == bound.Cause && known.Of == bound.Of {
			e.bounds[i].Dishes = append(known.Dishes, bound.Dishes...)
			return
		}
	}
	e.bounds = append(e.bounds, bound)
}

func causeOf(bound planner.Bound, q Question) Cause {
	switch {
	case bound.Of != "" && bound.Limit:
		return LimitReached
	case bound.Of != "":
		return RanOut
	case q.Guests == nil:
		return LargestBatch
	}
	return NobodyEatsMore
}

// shortfalls names the guests who get fewer helpings than the table has sides.
func shortfalls(q Question, s Solved, extras []Extra) []Shortfall {
	var list []Shortfall
	for g, group := range q.Guests {
		short := Shortfall{Guest: group, Sides: q.Sides}
		for _, plate := range s.Sharing.Plates {
			if plate.Group == g && plate.Short > 0 {
				short.Helpings += plate.Short
				short.People++
			}
		}
		if short.Helpings == 0 {
			continue
		}
		for d, suits := range s.Problem.Guests[g].Suits {
			if suits {
				short.Suiting++
			} else {
				short.Not = append(short.Not, NotFor{Dish: q.Dishes[d].Name, Why: s.Problem.Guests[g].Why[d]})
			}
		}
		if len(extras) > 0 && short.Suiting >= q.Sides {
			short.Extra = &extras[0]
		}
		list = append(list, short)
	}
	return list
}

// platesOf lists what every guest gets, guests with the same plate together, in
// the order of the groups.
func platesOf(q Question, s Solved) []Plate {
	var plates []Plate
	for _, one := range s.Sharing.Plates {
		plate := Plate{Guest: q.Guests[one.Group], Number: 1, Short: one.Short}
		for _, d := range one.Dishes {
			plate.Dishes = append(plate.Dishes, q.Dishes[d].Name)
		}
		plates = addPlate(plates, plate)
	}
	return plates
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
	levels := s.Sharing.Levels
	return Levels{Fed: levels.Fed, UseFirst: levels.UseFirst, Balance: levels.Balance, Portions: levels.Portions,
		Proven: s.Sharing.Proven, Nodes: s.Sharing.Effort.Nodes}
}
