package meal

import (
	"math"
	"slices"
	"time"

	"trencher/recipes/schedule"
)

// suppliesOf adds up what the timetable burns and boils away.
func suppliesOf(p pan, steps []Step, canister float64) Supplies {
	topUps := 0
	for _, step := range steps {
		if step.Kind == schedule.TopUp {
			topUps++
		}
	}
	s := Supplies{WaterML: p.waterML(topUps), StartML: p.startML, IceG: p.iceG}
	for _, rings := range burning(steps) {
		s.GasG += p.gasG * float64(rings)
	}
	if canister > 0 && s.GasG > 0 {
		s.Canisters = int(math.Ceil(s.GasG/canister - 1e-9))
	}
	return s
}

// burning counts the rings that burn in every minute of the timetable, from its
// first step on.
func burning(steps []Step) []int {
	if len(steps) == 0 {
		return nil
	}
	type flame struct{ ring, minute int }
	var rings []int
	lit := map[flame]bool{}
	for _, step := range steps {
		if !burns(step) {
			continue
		}
		from := int(step.At.Sub(steps[0].At) / time.Minute)
		for minute := from; minute < from+int(step.Length/time.Minute); minute++ {
			for len(rings) <= minute {
				rings = append(rings, 0)
			}
			if f := (flame{step.Ring, minute}); !lit[f] {
				lit[f] = true
				rings[minute]++
			}
		}
	}
	return rings
}

// burns tells that the flame is on.
func burns(step Step) bool { return step.Ring > 0 && step.Kind != schedule.Canister }

// runsOut adds the changes of a canister that the timetable still lacks: before
// what is on the stove when one is empty. It tells whether it has added any, and
// whether a full one does not last for something from its beginning to its end.
func (w *work) runsOut(steps []Step, canister float64) (more, tooLong bool) {
	if canister <= 0 {
		return false, false
	}
	used := 0.0
	for minute, rings := range burning(steps) {
		now := steps[0].At.Add(time.Duration(minute) * time.Minute)
		for _, step := range steps {
			if step.Kind == schedule.Canister && step.At.Equal(now) {
				used = 0
			}
		}
		if used += w.pan.gasG * float64(rings); rings == 0 || used <= canister {
			continue
		}
		key := w.lastLit(steps, now)
		if w.changes[key] {
			tooLong, used = true, w.pan.gasG*float64(rings)
			continue
		}
		w.changes[key], more = true, true
		used = w.burnt(steps, key, minute)
	}
	return more, tooLong
}

// burnt is the gas that burns from the beginning of something up to a minute of
// the timetable, that minute included.
func (w *work) burnt(steps []Step, key string, until int) (grams float64) {
	at := slices.IndexFunc(steps, func(s Step) bool { return burns(s) && w.heats[s.ID] == key })
	from := int(w.began(steps, steps[at]).Sub(steps[0].At) / time.Minute)
	for _, rings := range burning(steps)[from : until+1] {
		grams += w.pan.gasG * float64(rings)
	}
	return grams
}

// lastLit is what was put on the stove last of what burns at a moment.
func (w *work) lastLit(steps []Step, now time.Time) (key string) {
	var since time.Time
	for _, step := range steps {
		if !burns(step) || step.At.After(now) || !step.End().After(now) {
			continue
		}
		if began := w.began(steps, step); key == "" || began.After(since) {
			key, since = w.heats[step.ID], began
		}
	}
	return key
}

// began is when the first step of what a step belongs to begins.
func (w *work) began(steps []Step, of Step) time.Time {
	first := of.At
	for _, step := range steps {
		if w.heats[step.ID] == w.heats[of.ID] && step.At.Before(first) {
			first = step.At
		}
	}
	return first
}

// heat adds a step on a ring as part of something that heats, after changing the
// canister where that would run out meanwhile.
func (w *work) heat(key string, step schedule.Step, minutes float64, parts ...PartAt) string {
	if w.changes[key] {
		change := schedule.Step{Kind: schedule.Canister, Run: step.Run, Ring: step.Ring, Steamer: step.Steamer, Hands: 1,
			Dishes: step.Dishes, Crop: step.Crop, AtOnce: step.AtOnce, After: step.After}
		step.AtOnce, step.After = w.add(change, changeGas, parts...), nil
	}
	id := w.add(step, minutes, parts...)
	w.heats[id] = key
	return id
}
