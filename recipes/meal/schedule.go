package meal

import (
	"cmp"
	"math"
	"slices"
	"time"

	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/schedule"
)

// Timetable is the steps of a meal with their times.
type Timetable struct {
	Steps []Step        // none without a serving time
	Allow time.Duration // from the first step to serving
	Late  *Lateness     // nil where the serving time can be met
	cool  coolings
}

// supper is the serving time reckoned with where none is wanted, only to say
// how long to allow.
const supper = 18 * time.Hour

// Schedule gives every step its time, backward from serving. With no serving
// time it only says how long to allow. A start that is past already is told,
// with what would help. Its error is a circle of steps, which is a fault of
// ours.
func Schedule(q Question, l Loaded) (Timetable, error) {
	t := Timetable{cool: coolAll(q, l.Dishes)}
	if len(l.Dishes) == 0 {
		return t, nil
	}
	serve := q.ServeAt
	if serve.IsZero() {
		serve = q.On.Add(supper)
	}
	steps, err := place(l, t.cool, serve)
	if err != nil {
		return t, err
	}
	t.Allow = serve.Sub(steps[0].At)
	if q.ServeAt.IsZero() {
		return t, nil
	}
	t.Steps = steps
	if late := q.Now.Sub(steps[0].At); late > 0 {
		helps, err := changes(q, l, t.cool, steps[0].At)
		if err != nil {
			return t, err
		}
		t.Late = &Lateness{Start: steps[0].At, By: late, Helps: helps}
	}
	return t, nil
}

// place lists the steps and times them, with the parts each is about.
func place(l Loaded, cool coolings, serve time.Time) ([]Step, error) {
	list, parts := stepsOf(l, cool)
	timed, err := schedule.Backward(schedule.Problem{Steps: list, Serve: serve, Reboil: wholeMinutes(longestBoil(l.Dishes))})
	if err != nil {
		return nil, err
	}
	steps := make([]Step, len(timed))
	for i, step := range timed {
		steps[i] = Step{Timed: step, Parts: parts[step.ID]}
	}
	return steps, nil
}

const (
	mostHelps = 3
	worthIt   = 5 * time.Minute // a change that saves less is not told
	smaller   = 0.8             // of a cube's edge: the smaller cut that is tried
)

// changes tries, dish by dish, what would bring the start later: serving it
// warm, cutting it smaller, leaving it out. Each is planned again in full; those
// that bring the most are told.
func changes(q Question, l Loaded, cool coolings, start time.Time) ([]Change, error) {
	var found []Change
	try := func(change Change, with Loaded, coolings coolings) error {
		steps, err := place(with, coolings, q.ServeAt)
		if err == nil {
			if change.Saves = steps[0].At.Sub(start); change.Saves >= worthIt {
				found = append(found, change)
			}
		}
		return err
	}
	for d, dish := range l.Dishes {
		if dish.Recipe.Served == recipes.Cold {
			if err := try(Change{Kind: ServeWarm, Dish: dish.Name()}, servedWarm(l, d), cool); err != nil {
				return nil, err
			}
		}
		if less, size, ok := cutSmaller(q, l, d); ok {
			if err := try(Change{Kind: CutSmaller, Dish: dish.Name(), SizeMM: size}, less, coolAll(q, less.Dishes)); err != nil {
				return nil, err
			}
		}
		if len(l.Dishes) > 1 {
			less, err := leftOut(q, l, d)
			if err == nil {
				err = try(Change{Kind: LeaveOut, Dish: dish.Name()}, less, cool)
			}
			if err != nil {
				return nil, err
			}
		}
	}
	slices.SortStableFunc(found, func(a, b Change) int { return cmp.Compare(b.Saves, a.Saves) })
	return found[:min(mostHelps, len(found))], nil
}

// servedWarm is the meal with one dish dressed warm.
func servedWarm(l Loaded, d int) Loaded {
	l.Dishes = slices.Clone(l.Dishes)
	l.Dishes[d].Recipe.Served = recipes.Warm
	return l
}

// leftOut is the meal without one dish, its place in the steamer given to the
// others.
func leftOut(q Question, l Loaded, d int) (Loaded, error) {
	return LoadUp(q, Scaled{Dishes: slices.Delete(unloaded(l.Dishes), d, d+1)})
}

// cutSmaller is the meal with the cubes of one dish four fifths as large, and
// how large that is; ok is false where nothing in it is cut to cubes.
func cutSmaller(q Question, l Loaded, d int) (less Loaded, size float64, ok bool) {
	dishes := unloaded(l.Dishes)
	for p, part := range l.Dishes[d].Parts {
		if part.Steam != nil && part.Piece.Cut.Shape == heat.Cube {
			size, ok = math.Round(part.Piece.Cut.SizeMM*smaller), true
			dishes[d].Parts[p].Line.Cut = heat.Cut{Shape: heat.Cube, SizeMM: size}.String()
		}
	}
	if !ok {
		return Loaded{}, 0, false
	}
	less, err := LoadUp(q, Scaled{Dishes: dishes})
	return less, size, err == nil
}

// unloaded is dishes as they were before they were loaded.
func unloaded(dishes []Dish) []Dish {
	dishes = slices.Clone(dishes)
	for d := range dishes {
		dishes[d].Parts = slices.Clone(dishes[d].Parts)
		for p := range dishes[d].Parts {
			part := &dishes[d].Parts[p]
			part.Piece, part.Steam, part.Cuts, part.Uneven = Piece{}, nil, nil, Uneven{}
		}
	}
	return dishes
}
