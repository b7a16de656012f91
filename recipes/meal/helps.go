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
	q.patience = quickLook
	for _, trial := range trials(q, t.Loaded) {
		with, err := LoadUp(trial.q, Scaled{Dishes: trial.dishes})
		if err != nil {
			continue // what heat cannot reckon helps nobody
		}
		other, err := timetableOf(ctx, trial.q, with)
		if err != nil {
			return nil, err
		}
		change := trial.change
		if change.Saves = t.Allow - other.Allow; change.Saves >= worthIt {
			change.Serve = nextMinute(q.Now).Add(other.Allow)
			found = append(found, change)
		}
	}
	slices.SortStableFunc(found, func(a, b Change) int { return cmp.Compare(b.Saves, a.Saves) })
	return found[:min(mostHelps, len(found))], nil
}

// trial is a change with the question and the dishes that it leads to.
type trial struct {
	change Change
	q      Question
	dishes []Dish
}

func trials(q Question, l Loaded) []trial {
	helped := q
	helped.Kitchen.Hands = max(1, q.Kitchen.Hands) + 1
	all := []trial{{Change{Kind: MoreHands}, helped, unloaded(l.Dishes)}}
	for d, dish := range l.Dishes {
		if dish.Recipe.Served == recipes.Cold {
			warm := unloaded(l.Dishes)
			warm[d].Recipe.Served = recipes.Warm
			all = append(all, trial{Change{Kind: ServeWarm, Dish: dish.Name()}, q, warm})
		}
		if less, size, ok := cutSmaller(l, d); ok {
			all = append(all, trial{Change{Kind: CutSmaller, Dish: dish.Name(), SizeMM: size}, q, less})
		}
		if len(l.Dishes) > 1 {
			all = append(all, trial{Change{Kind: LeaveOut, Dish: dish.Name()}, q, slices.Delete(unloaded(l.Dishes), d, d+1)})
		}
	}
	return all
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
