package meal

import (
	"math"
	"slices"
	"time"

	"trencher/recipes"
	"trencher/recipes/schedule"
)

// lying is what lies in a filling of one class: the tiers of it, and from which
// minute to which of the steaming.
type lying struct {
	tier     int
	parts    []PartAt
	from, to int
	test     int // the minute of the first knife test
}

// run adds one filling of the steamer: the water boils, it is loaded, steams,
// is tested, and all is taken out. What needs less goes in later, or, where it
// only has to cool, comes out earlier. Fillings with a dish in common follow
// each other at once, for its parts age together, unless the timetable splits them.
func (w *work) run(run Run, last map[int]string) {
	dishes := w.dishesOf(run.Parts)
	in := func(kind schedule.Kind) schedule.Step {
		return schedule.Step{Kind: kind, Run: run.ID, Ring: theRing, Steamer: true, Dishes: dishes}
	}
	boil := in(schedule.Boil)
	follows := w.afterLast(&boil, run, last)
	lead := w.heat(run.ID, boil, w.pan.reboil())
	if w.pan.topUp && run.ID != w.first {
		w.add(schedule.Step{Kind: schedule.TopUp, Run: run.ID, Hands: 1, Dishes: dishes, Beside: lead}, topUpPan)
	}
	all := w.lying(run)
	// What is done to a filling while it steams leaves ring and tier to it.
	aside := func(kind schedule.Kind) schedule.Step {
		return schedule.Step{Kind: kind, Run: run.ID, Hands: 1, Dishes: dishes}
	}
	load := in(schedule.Load)
	load.Hands, load.AtOnce = 1, lead
	steamed := w.steam(all, w.loadFirst(all, load), in, aside)
	w.takeOut(all, in, aside, steamed, last)
	if follows != "" {
		w.tails[follows] = last[run.Parts[0].Dish]
	}
}

// afterLast lets the boil of a filling wait for the fillings before that share a dish
// with it, and gives which step it follows at once; "" where it follows none.
func (w *work) afterLast(boil *schedule.Step, run Run, last map[int]string) (follows string) {
	for _, at := range run.Parts {
		switch before := last[at.Dish]; {
		case before == "":
		case w.split:
			boil.After = append(boil.After, before)
		default:
			boil.AtOnce = before
		}
	}
	for w.tails[boil.AtOnce] != "" { // something follows that at once already
		boil.AtOnce = w.tails[boil.AtOnce]
	}
	follows = boil.AtOnce
	if w.boil != "" {
		boil.After = append(boil.After, w.boil)
	}
	return follows
}

// loadFirst adds loading what lies in the steamer from the start.
func (w *work) loadFirst(all []lying, load schedule.Step) string {
	var first []PartAt
	for _, l := range all {
		if l.from == 0 {
			first = append(first, l.parts...)
		}
	}
	for _, at := range first {
		load.After = append(load.After, w.prepared[at])
	}
	load.Crop, load.Dishes = w.cropOf(first), w.dishesOf(first)
	return w.add(load, loadSteamer, first...)
}

// steam adds the steaming of each class of a filling, with what goes in later and the
// knife tests. It gives the step of the class that lies there longest.
func (w *work) steam(all []lying, loaded string, in, aside func(schedule.Kind) schedule.Step) (steamed string) {
	for i, l := range all {
		steam := in(schedule.Steam)
		steam.Tier, steam.Crop, steam.Dishes = l.tier, w.cropOf(l.parts), w.dishesOf(l.parts)
		// beside is a step about the same, so many minutes after the first goes in.
		beside := func(kind schedule.Kind, minute int) schedule.Step {
			step := aside(kind)
			step.Crop, step.Dishes = steam.Crop, steam.Dishes
			step.Beside, step.Offset = steamed, time.Duration(minute)*time.Minute
			return step
		}
		switch {
		case l.from == 0 && i == 0:
			steam.AtOnce = loaded
		case l.from == 0:
			steam.Beside = steamed
		default:
			later := beside(schedule.Load, l.from-1)
			for _, at := range l.parts {
				later.After = append(later.After, w.prepared[at])
			}
			steam.AtOnce = w.add(later, 1, l.parts...)
		}
		id := w.add(steam, float64(l.to-l.from), l.parts...)
		if i == 0 {
			steamed = id
		}
		if l.test > 0 {
			w.add(beside(schedule.Test, l.test), 1, l.parts...)
		}
		for _, at := range l.parts {
			w.lags = append(w.lags, w.lagsOf(at, id)...)
		}
	}
	return steamed
}

// takeOut adds lifting out what is done early, taking out the rest, and what has
// to follow at once.
func (w *work) takeOut(all []lying, in, aside func(schedule.Kind) schedule.Step, steamed string, last map[int]string) {
	end := all[0].to
	for _, l := range all {
		if l.to < end {
			out := aside(schedule.LiftOut)
			out.Crop, out.Dishes = w.cropOf(l.parts), w.dishesOf(l.parts)
			out.Beside, out.Offset = steamed, time.Duration(l.to)*time.Minute
			w.coolAfter(w.add(out, unloadSteamer, l.parts...), l.parts)
		}
	}
	var rest []PartAt
	for _, l := range all {
		if l.to == end {
			rest = append(rest, l.parts...)
		}
	}
	out := in(schedule.Unload)
	out.Hands, out.AtOnce, out.Crop, out.Dishes = 1, steamed, w.cropOf(rest), w.dishesOf(rest)
	id := w.add(out, unloadSteamer, rest...)
	id = w.coolAfter(id, rest)
	for _, l := range all {
		for _, at := range l.parts {
			last[at.Dish] = id
		}
	}
}

// coolAfter adds, straight after a step, spreading out what is to be cold,
// cooling and chilling, and tells each dish what it has to wait for. It returns
// the last step for hands.
func (w *work) coolAfter(id string, parts []PartAt) string {
	var done []int
	for _, at := range parts {
		if slices.Contains(done, at.Dish) {
			continue
		}
		done = append(done, at.Dish)
		dish := w.loaded.Dishes[at.Dish]
		tray, ok := w.cool.of(dish)
		if dish.Recipe.Served != recipes.Cold || !ok {
			w.ready[at.Dish] = append(w.ready[at.Dish], id)
			continue
		}
		var own []PartAt
		for _, part := range parts {
			if part.Dish == at.Dish {
				own = append(own, part)
			}
		}
		name, crop := []string{dish.Name()}, w.cropOf(own)
		id = w.add(schedule.Step{Kind: schedule.Spread, Hands: 1, Tray: 1, AtOnce: id, Dishes: name, Crop: crop}, spreadOnTray, own...)
		cold := w.add(schedule.Step{Kind: schedule.Cool, Tray: 1, AtOnce: id, Dishes: name, Crop: crop}, tray.onTray(), own...)
		if tray.chill > 0 {
			cold = w.add(schedule.Step{Kind: schedule.Chill, AtOnce: cold, Dishes: name, Crop: crop}, tray.chill, own...)
		}
		w.ready[at.Dish] = append(w.ready[at.Dish], cold)
	}
	return id
}

// cropOf is the crop that parts are of; "" where they are of several.
func (w *work) cropOf(parts []PartAt) string {
	crop := ""
	for i, at := range parts {
		if of := w.loaded.part(at).Line.Crop; i == 0 {
			crop = of
		} else if of != crop {
			return ""
		}
	}
	return crop
}

// lying settles when each class of a filling goes in and comes out, the longest
// first. One pair of hands loads, lifts out and tests, a minute each.
func (w *work) lying(run Run) []lying {
	var all []lying
	for t, tier := range run.Tiers {
		same := slices.IndexFunc(all, func(l lying) bool { return slices.Contains(l.parts, tier[0]) })
		if same < 0 {
			same = len(all)
			all = append(all, lying{tier: t + 1})
		}
		all[same].parts = slices.Compact(append(all[same].parts, tier...))
	}
	for i := range all {
		longest, low := 0.0, math.Inf(1)
		for _, at := range all[i].parts {
			steam := w.loaded.part(at).Steam
			longest, low = max(longest, steam.Longest()), min(low, steam.Estimate.ComeUp+steam.Low)
		}
		all[i].to, all[i].test = int(math.Ceil(longest-1e-9)), int(low)
	}
	slices.SortStableFunc(all, func(a, b lying) int { return b.to - a.to })
	h := handful{end: all[0].to}
	for i := range all[1:] {
		l := &all[i+1]
		w.early(l, &h)
	}
	for i := range all {
		l := &all[i]
		for l.test > l.from && h.busy(l.test, 1) {
			l.test--
		}
		if l.test <= l.from || l.test >= l.to {
			l.test = 0
			continue
		}
		h.take(l.test, 1)
	}
	return all
}

// early settles when a class that needs less than the longest goes in or comes
// out: where hands are free for it, else with the longest.
func (w *work) early(l *lying, h *handful) {
	needs := l.to
	l.to = h.end
	if h.end-needs < worthMinding {
		return
	}
	if w.allCold(l.parts) {
		takes := int(unloadSteamer + spreadOnTray*float64(len(w.dishesOf(l.parts))))
		if needs+takes <= h.end && !h.busy(needs, takes) {
			l.to = needs
			h.take(needs, takes)
		}
		return
	}
	for from := h.end - needs; from > 0; from-- {
		if !h.busy(from-1, 1) {
			h.take(from-1, 1)
			l.from, l.test = from, l.test+from
			return
		}
	}
}

// worthMinding is how many minutes less a class has to need for it to be worth
// opening the lid.
const worthMinding = 3

// handful is the minutes of a filling in which hands are busy with it.
type handful struct {
	end   int
	taken map[int]bool
}

func (h *handful) busy(from, length int) bool {
	for m := range length {
		if h.taken[from+m] {
			return true
		}
	}
	return false
}

func (h *handful) take(from, length int) {
	if h.taken == nil {
		h.taken = map[int]bool{}
	}
	for m := range length {
		h.taken[from+m] = true
	}
}

func (w *work) allCold(parts []PartAt) bool {
	return !slices.ContainsFunc(parts, func(at PartAt) bool { return w.loaded.served(at) != recipes.Cold })
}

// lagsOf is what it does to the meal that a part leaves the heat long before
// serving.
func (w *work) lagsOf(at PartAt, steam string) []schedule.Lag {
	dish := w.loaded.Dishes[at.Dish]
	var lags []schedule.Lag
	switch dish.Recipe.Served {
	case recipes.Hot:
		lags = append(lags, schedule.Lag{Step: steam, Goal: schedule.HotWaits})
	case recipes.Warm:
		lags = append(lags, schedule.Lag{Step: steam, Goal: schedule.WarmWaits, Most: warmWait})
	}
	if most, ok := w.cool.lasts[dish.Name()]; ok {
		lags = append(lags, schedule.Lag{Step: steam, Goal: schedule.KeepsClock, Most: most})
	}
	return lags
}

// How long dishes may wait between the heat and the table.
const (
	hotWait  = 10 * time.Minute
	warmWait = 30 * time.Minute
)
