package meal

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"time"

	"trencher/recipes/heat"
	"trencher/recipes/schedule"
)

// Timetable is the steps of a meal with their times.
type Timetable struct {
	Steps    []Step
	Loaded   Loaded        // with the fillings that the timetable is for
	Allow    time.Duration // from the first step to serving
	ServeAt  time.Time
	Took     Took
	Timing   Timing
	Supplies Supplies
	Box      Box
	Late     *Lateness // nil where the serving time can be met
	cool     coolings
}

// supper is the serving time of another day than today.
const supper = 18 * time.Hour

// Schedule gives every step its time. With a serving time all is ready then;
// with none the first step is at the start asked for, or now, and serving as soon
// as it can be. Parts alike share a filling; those that are served differently
// only do so where that makes the better timetable. A time that cannot be met is
// told, with the earliest that can and what would bring it nearer. Its errors
// are the context's, and a circle of steps, which is a fault of ours.
func Schedule(ctx context.Context, q Question, l Loaded) (Timetable, error) {
	t := Timetable{Loaded: l, ServeAt: q.ServeAt}
	if len(l.Dishes) == 0 {
		return t, nil
	}
	t, err := timetableOf(ctx, q, l)
	if err != nil {
		return t, err
	}
	t.settle(q)
	if late := q.Now.Sub(t.Steps[0].At); late > 0 && t.Took == AsAsked {
		helps, err := changes(ctx, q, t)
		if err != nil {
			return t, err
		}
		t.Late = &Lateness{Start: t.Steps[0].At, By: late, Earliest: nextMinute(q.Now).Add(t.Allow), Passed: q.ServeAt.Before(q.Now), Helps: helps}
	}
	return t, nil
}

// timetableOf is the timetable with fillings that mix what is served differently,
// where that saves a filling and lets no dish wait too long, or costs less; else
// that without, on the time axis of a serving time that is not yet settled.
func timetableOf(ctx context.Context, q Question, l Loaded) (Timetable, error) {
	best, err := placeTiedOrSplit(ctx, q, l)
	if err != nil {
		return best, err
	}
	mixed, err := loadUp(q, Scaled{Dishes: unloaded(l.Dishes)}, whatever)
	if err != nil || len(mixed.Runs) >= len(l.Runs) {
		return best, err
	}
	other, err := placeTiedOrSplit(ctx, q, mixed)
	if err == nil && q.Rounds > 0 && len(l.Runs) > q.Rounds && other.Timing.Cost.Over <= best.Timing.Cost.Over {
		return other, nil // so few fillings were asked for
	}
	saves := other.Timing.Cost.Over <= best.Timing.Cost.Over && len(waitsOf(other.Loaded, other)) <= len(waitsOf(l, best))
	if err == nil && (saves || other.Timing.Cost.Compare(best.Timing.Cost) < 0) {
		best = other
	}
	return best, err
}

// placeTiedOrSplit is the timetable in which the fillings of a dish follow each
// other at once, or that in which others may come between, where it costs less.
func placeTiedOrSplit(ctx context.Context, q Question, l Loaded) (Timetable, error) {
	tied, err := place(ctx, q, l, false)
	if err != nil || !l.canSplit() {
		return tied, err
	}
	split, err := place(ctx, q, l, true)
	if err == nil && split.Timing.Cost.Compare(tied.Timing.Cost) < 0 {
		return split, nil
	}
	if !split.Timing.Proven { // what may come between the fillings was not tried to the end
		if split.Timing.Bound.Compare(tied.Timing.Bound) < 0 {
			tied.Timing.Bound = split.Timing.Bound
		}
		tied.Timing.Proven = tied.Timing.Cost == tied.Timing.Bound
	}
	return tied, err
}

// canSplit tells that another filling could come between those of a dish.
func (l Loaded) canSplit() bool {
	for d := range l.Dishes {
		of := 0
		for _, run := range l.Runs {
			if slices.ContainsFunc(run.Parts, func(at PartAt) bool { return at.Dish == d }) {
				of++
			}
		}
		if of > 1 && of < len(l.Runs) {
			return true
		}
	}
	return false
}

// settle moves the timetable to where it belongs.
func (t *Timetable) settle(q Question) {
	serve := q.ServeAt
	switch {
	case !serve.IsZero():
	case !q.Start.IsZero():
		t.Took, serve = FromThen, nextMinute(q.Start).Add(t.Allow)
	case q.On.Format(time.DateOnly) == q.Now.In(q.On.Location()).Format(time.DateOnly):
		t.Took, serve = FromNow, nextMinute(q.Now.In(q.On.Location())).Add(t.Allow)
	default:
		t.Took, serve = AtSix, q.On.Add(supper)
	}
	moved := serve.Sub(t.ServeAt)
	t.ServeAt = serve
	for i := range t.Steps {
		t.Steps[i].At = t.Steps[i].At.Add(moved).In(serve.Location())
	}
}

// nextMinute is the next whole minute, or this one.
func nextMinute(t time.Time) time.Time {
	if whole := t.Truncate(time.Minute); whole.Before(t) {
		return whole.Add(time.Minute)
	}
	return t
}

// later leaves what is done beside a step that now begins sooner where it is.
func (t *Timetable) later(id string, longer time.Duration) {
	for i := range t.Steps {
		if t.Steps[i].Beside == id {
			t.Steps[i].Offset += longer
		}
	}
}

// mostPlacings is how often a meal is placed anew for what the placing before
// showed: which filling comes first, and where the gas runs out.
const mostPlacings = 8

// anyFilling stands for the first filling where the timetable may not rest on
// which it is.
const anyFilling = "any"

// place lists the steps of a meal and times them. Where the gas runs out the
// canister is changed before what it would not last for.
func place(ctx context.Context, q Question, l Loaded, split bool) (Timetable, error) {
	k := newKitchen(q)
	cool, err := coolAll(q, l.Dishes)
	if err != nil {
		return Timetable{}, err
	}
	t := Timetable{Loaded: l, ServeAt: q.On.Add(supper), cool: cool}
	w, placed := &work{loaded: l, cool: cool, pan: panOf(k, l), split: split, changes: map[string]bool{}}, false
	for placing := range mostPlacings {
		w = &work{loaded: l, cool: cool, pan: w.pan, split: split, changes: w.changes, first: w.first}
		w.list()
		solved, err := schedule.Solve(ctx, schedule.Problem{Steps: w.steps, Serve: t.ServeAt, Lags: w.lags, NodeLimit: cmp.Or(q.patience, q.NodeLimit),
			Have: schedule.Have{Hands: q.Kitchen.Hands, Rings: q.Kitchen.Stove.Rings}})
		if err != nil {
			return t, err
		}
		t.Timing = Timing{solved.Cost, solved.Bound, solved.Proven}
		t.Steps = nil
		for _, step := range solved.Steps {
			t.Steps = append(t.Steps, Step{Timed: step, Parts: w.parts[step.ID], Do: w.does[step.ID]})
		}
		t.dropFirstTopUp()
		t.joinFirstBoil(w.boil)
		t.stretch(w)
		t.keepCold(w, q)
		t.Supplies = suppliesOf(w.pan, t.Steps, q.Kitchen.Stove.CanisterG)
		first, more := firstRun(t.Steps), false
		more, t.Supplies.TooLong = w.runsOut(t.Steps, q.Kitchen.Stove.CanisterG)
		switch {
		case !more && (first == w.first || w.first == anyFilling || !w.pan.topUp):
			placed = true
		case placing < mostPlacings/2:
			w.first = first
		default: // each filling first because the other was: every one is topped up for
			w.first = anyFilling
		}
		if placed {
			break
		}
	}
	t.Supplies.TooLong = t.Supplies.TooLong || !placed // a canister is empty too soon, somewhere
	t.Allow = t.ServeAt.Sub(t.Steps[0].At)
	return t, nil
}

// firstRun is the filling that is first in time; "" where there is none.
func firstRun(steps []Step) string {
	for _, step := range steps {
		if step.Kind == schedule.Steam {
			return step.Run
		}
	}
	return ""
}

// dropFirstTopUp takes out the topping up before the first filling: its water is
// in the pan.
func (t *Timetable) dropFirstTopUp() {
	first := slices.IndexFunc(t.Steps, func(s Step) bool { return s.Kind == schedule.Boil && s.Run != "" })
	if first < 0 {
		return
	}
	run := t.Steps[first].Run
	t.Steps = slices.DeleteFunc(t.Steps, func(s Step) bool { return s.Kind == schedule.TopUp && s.Run == run })
}

// joinFirstBoil makes one step of bringing the water to the boil and the first
// filling's own boil, where one follows the other.
func (t *Timetable) joinFirstBoil(id string) {
	at := slices.IndexFunc(t.Steps, func(s Step) bool { return s.ID == id })
	if at < 0 {
		return
	}
	shared := t.Steps[at]
	own := slices.IndexFunc(t.Steps, func(s Step) bool {
		return s.Kind == schedule.Boil && s.Run != "" && s.At.Equal(shared.End()) && s.Ring == shared.Ring
	})
	if own < 0 {
		return
	}
	first := &t.Steps[own]
	first.At, first.Length = shared.At, first.Length+shared.Length
	for i := range t.Steps {
		t.Steps[i].After = slices.Clone(t.Steps[i].After)
		for j, before := range t.Steps[i].After {
			if before == id {
				t.Steps[i].After[j] = first.ID
			}
		}
	}
	first.After = slices.DeleteFunc(first.After, func(before string) bool { return before == first.ID })
	t.Steps = slices.Delete(t.Steps, at, at+1)
	slices.SortStableFunc(t.Steps, func(a, b Step) int { return a.At.Compare(b.At) })
}

// stretch lets the water be brought back to the boil in a long pause, and what
// is chilled stay cold until it is dressed.
func (t *Timetable) stretch(w *work) {
	for i := range t.Steps {
		if t.Steps[i].Kind == schedule.Boil && t.Steps[i].Run != "" {
			t.boilLonger(&t.Steps[i], w.pan)
		}
	}
	for i := range t.Steps {
		if t.Steps[i].Kind == schedule.Chill {
			t.chillLonger(&t.Steps[i])
		}
	}
	t.sort()
}

// boilLonger gives a boil after a long pause as much of the time a cold pan takes as
// its ring is free for.
func (t *Timetable) boilLonger(step *Step, pan pan) {
	before, free := time.Time{}, time.Time{}
	for _, other := range t.Steps {
		if !(other.Ring == step.Ring || other.Steamer) || other.End().After(step.At) {
			continue
		}
		free = later(free, other.End())
		if other.Steamer {
			before = later(before, other.End())
		}
	}
	if before.IsZero() || step.At.Sub(before) <= coolsAfter {
		return
	}
	longer := min(step.At.Sub(free), wholeMinutes(pan.toBoil)-step.Length)
	if step.AtOnce == "" && longer > 0 {
		step.At, step.Length = step.At.Add(-longer), step.Length+longer
		t.later(step.ID, longer)
	}
}

// chillLonger leaves what is chilled in the fridge until what waits for it.
func (t *Timetable) chillLonger(step *Step) {
	for _, other := range t.Steps {
		if slices.Contains(other.After, step.ID) {
			step.Length = other.At.Sub(step.At)
		}
	}
}

// keepCold puts what was dressed cold into the cold box, where there is one that
// is cold enough and whose ice lasts, until it is served. The box keeps cold what
// is cold already and chills nothing.
func (t *Timetable) keepCold(w *work, q Question) {
	box := q.Kitchen.ColdBox
	t.Box = Box{}
	if !box.There || box.HoldsC > coldC {
		return
	}
	serve := slices.IndexFunc(t.Steps, func(s Step) bool { return s.Kind == schedule.Serve })
	var dressed []Step
	for _, step := range t.Steps {
		if step.Kind == schedule.Dress && t.isChilled(step) && step.End().Before(t.Steps[serve].At) {
			dressed = append(dressed, step)
			t.Box.FoodG += boxPerGram * w.cookedGrams(step.Dishes)
		}
	}
	if len(dressed) == 0 {
		return
	}
	t.Box.IceG, t.Box.Lasts = box.IceG, heat.ColdBox{IceG: box.IceG, HoldsC: box.HoldsC}.Lasts(t.Box.FoodG, coldC, q.AirC)
	t.Box.Needed = t.Steps[serve].At.Sub(t.Steps[0].At).Minutes() // the ice melts from when the work begins
	if t.Box.Warms() {
		return
	}
	for _, step := range dressed {
		box := schedule.Step{ID: fmt.Sprintf("s%d", len(w.steps)+1), Kind: schedule.ColdBox, Dishes: step.Dishes, AtOnce: step.ID, Length: t.Steps[serve].At.Sub(step.End())}
		w.steps = append(w.steps, box)
		t.Steps = append(t.Steps, Step{Timed: schedule.Timed{Step: box, At: step.End()}})
		t.Steps[serve].After = append(slices.Clone(t.Steps[serve].After), box.ID)
	}
	t.sort()
}

// boxPerGram is what a dressed dish weighs for each gram of its cooked crops
// before they are cooked (common practice, no source).
const boxPerGram = 1.25

// cookedGrams is what the cooked crops of dishes weigh, prepared.
func (w *work) cookedGrams(dishes []string) (grams float64) {
	for _, dish := range w.loaded.Dishes {
		for _, part := range dish.Parts {
			if slices.Contains(dishes, dish.Name()) && part.IsCooked() {
				grams += part.Prepared.InexactFloat64()
			}
		}
	}
	return grams
}

// isChilled tells a step that follows chilling.
func (t *Timetable) isChilled(step Step) bool {
	return slices.ContainsFunc(t.Steps, func(s Step) bool { return s.Kind == schedule.Chill && slices.Contains(step.After, s.ID) })
}

func (t *Timetable) sort() {
	slices.SortStableFunc(t.Steps, func(a, b Step) int { return a.At.Compare(b.At) })
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

// coolsAfter is how long a steamer may stand between fillings before it has to
// be brought back to the boil (common practice, no source).
const coolsAfter = 10 * time.Minute
