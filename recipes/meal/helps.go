package meal

import (
	"cmp"
	"context"
	"math"
	"slices"
	"time"

	"trencher/recipes"
	"trencher/recipes/heat"
)

const (
	mostHelps = 3
	worthIt   = 5 * time.Minute // a change that saves less is not told
	quickLook = 300             // orders that a change's timetable is looked for in
	smaller   = 0.8             // of a cube's edge: the smaller cut that is tried
)

// changes tries what would bring serving nearer: a second pair of hands, and dish
// by dish serving it warm, cutting it smaller, leaving it out. Each is planned
// again in full; those that bring the most are told.
func changes(ctx context.Context, q Question, t Timetable) ([]Change, error) {
	var found []Change
	l := t.Loaded
	q.patience = quickLook
	try := func(change Change, q Question, dishes []Dish) error {
		with, err := LoadUp(q, Scaled{Dishes: dishes})
		if err != nil {
			return nil // what heat cannot reckon helps nobody
		}
		other, err := timetableOf(ctx, q, with)
		if err != nil {
			return err
		}
		if change.Saves = t.Allow - other.Allow; change.Saves >= worthIt {
			change.Serve = nextMinute(q.Now).Add(other.Allow)
			found = append(found, change)
		}
		return nil
	}
	helped := q
	helped.Kitchen.Hands = max(1, q.Kitchen.Hands) + 1
	if err := try(Change{Kind: MoreHands}, helped, unloaded(l.Dishes)); err != nil {
		return nil, err
	}
	for d, dish := range l.Dishes {
		if dish.Recipe.Served == recipes.Cold {
			warm := unloaded(l.Dishes)
			warm[d].Recipe.Served = recipes.Warm
			if err := try(Change{Kind: ServeWarm, Dish: dish.Name()}, q, warm); err != nil {
				return nil, err
			}
		}
		if less, size, ok := cutSmaller(l, d); ok {
			if err := try(Change{Kind: CutSmaller, Dish: dish.Name(), SizeMM: size}, q, less); err != nil {
				return nil, err
			}
		}
		if len(l.Dishes) > 1 {
			if err := try(Change{Kind: LeaveOut, Dish: dish.Name()}, q, slices.Delete(unloaded(l.Dishes), d, d+1)); err != nil {
				return nil, err
			}
		}
	}
	slices.SortStableFunc(found, func(a, b Change) int { return cmp.Compare(b.Saves, a.Saves) })
	return found[:min(mostHelps, len(found))], nil
}

// cutSmaller is the meal with the cubes of one dish four fifths as large, and
// how large that is; ok is false where nothing in it is cut to cubes.
func cutSmaller(l Loaded, d int) (dishes []Dish, size float64, ok bool) {
	dishes = unloaded(l.Dishes)
	for p, part := range l.Dishes[d].Parts {
		if part.Steam != nil && part.Piece.Cut.Shape == heat.Cube {
			size, ok = math.Round(part.Piece.Cut.SizeMM*smaller), true
			dishes[d].Parts[p].Line.Cut = heat.Cut{Shape: heat.Cube, SizeMM: size}.String()
		}
	}
	return dishes, size, ok
}

// unloaded are the dishes as they were before they were loaded.
func unloaded(dishes []Dish) []Dish {
	dishes = slices.Clone(dishes)
	for d := range dishes {
		dishes[d].Parts = slices.Clone(dishes[d].Parts)
		for p := range dishes[d].Parts {
			part := &dishes[d].Parts[p]
			part.Piece, part.Steam, part.Pot, part.Cuts, part.Uneven = Piece{}, nil, nil, nil, Uneven{}
		}
	}
	return dishes
}
