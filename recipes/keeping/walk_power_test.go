package keeping_test

import (
	"slices"

	"trencher/recipes/keeping"
)

// cutGroup are cuts that add up, as minutes: from the first of them that the food
// spent in the place to the last.
type cutGroup struct {
	from, to int // to is -1 while the power is off
	minutes  []int
}

// cuts are the stretches without power as minutes, joined where they touch.
func (w *walk) cuts() (cuts [][2]int) {
	for m := -5000; m <= w.now; m++ {
		if !w.off(m) {
			continue
		}
		if n := len(cuts); n > 0 && cuts[n-1][1] == m {
			cuts[n-1][1] = m + 1
		} else if m < w.now {
			cuts = append(cuts, [2]int{m, m + 1})
		}
	}
	return cuts
}

// groupsOf are the cuts while the food was in a place; a reading that shows it
// cold, or twelve hours of power, part them. A cut while it was in another place
// adds no minute, and is yet no power.
func (w *walk) groupsOf(place func(int) bool, cold float64) (groups []cutGroup) {
	back := -1 << 20
	for _, cut := range w.cuts() {
		good, bad := w.readings(back, cut[0], cold)
		if len(groups) == 0 || cut[0]-back >= afresh || good && !bad {
			groups = append(groups, cutGroup{from: cut[0]})
		}
		back = cut[1]
		g := &groups[len(groups)-1]
		before := len(g.minutes)
		for m := cut[0]; m < cut[1] && m < w.now; m++ {
			if place(m) {
				g.minutes = append(g.minutes, m)
			}
		}
		switch {
		case len(g.minutes) == before:
			continue
		case before == 0:
			g.from = cut[0]
		}
		g.to = cut[1]
		if cut[1] > w.now {
			g.to = -1
		}
	}
	return slices.DeleteFunc(groups, func(g cutGroup) bool { return len(g.minutes) == 0 })
}

func (w *walk) readings(from, to int, cold float64) (good, bad bool) {
	for _, p := range w.b.Probes {
		if m := w.at(p.At); m >= from && m <= to {
			good, bad = good || p.C <= cold, bad || p.C > cold
		}
	}
	return good, bad
}

// fridgeCuts judges the fridge without power; held tells that a reading clears the
// food at this very minute, with the power still off.
func (w *walk) fridgeCuts(fridge func(int) bool) (kind keeping.Kind, held bool) {
	cold := min(5, w.l.fridge)
	for _, g := range w.groupsOf(fridge, cold) {
		looked := w.now
		if g.to >= 0 {
			looked = g.to + lookWithin
		}
		_, bad := w.readings(g.from, looked, cold)
		after, _ := w.readings(g.to, looked, cold)
		switch {
		case bad:
			for _, m := range g.minutes {
				w.moved[m] = true
			}
			if g.to < 0 { // it is off still: nothing has come back into the cold
				w.moved[w.now] = true
			}
		case g.to >= 0 && after:
		case g.to < 0 && w.readNow(cold):
			held = true
		case len(g.minutes) > fridgeOff:
			return keeping.Discard, false
		}
	}
	return "", held
}

func (w *walk) readNow(cold float64) bool {
	good, bad := w.readings(w.now, w.now, cold)
	return good && !bad
}

// freezerCuts judges the freezer without power; softened is the minute from which
// what is still cold counts as thawed, -1 where it does not.
func (w *walk) freezerCuts(freezer func(int) bool) (kind keeping.Kind, softened int) {
	softened = -1
	for _, g := range w.groupsOf(freezer, 4.4) {
		holds := freezerHalf
		if w.b.Freezer == keeping.FillFull {
			holds = freezerFull
		}
		looked := w.now
		if g.to >= 0 {
			looked = g.to + lookWithin
		}
		if _, bad := w.readings(g.from, looked, 4.4); bad {
			return keeping.Discard, -1
		}
		if len(g.minutes) <= holds {
			continue
		}
		over := g.minutes[holds-1] + 1
		since := over // a reading speaks for what came before it only
		if len(g.minutes) > freezerFull {
			since = g.minutes[freezerFull-1] + 1
		}
		good, _ := w.readings(since, w.now, 4.4)
		if !good && !w.b.Ice {
			kind = keeping.Unknown
			if w.b.Freezer == keeping.FillUnknown { // at best it was full
				over = 1 << 20
				if len(g.minutes) > freezerFull {
					over = g.minutes[freezerFull-1] + 1
				}
			}
		}
		// At best it is still cold: what is over by that is over.
		if !w.l.refreeze && over <= w.now && (softened < 0 || over < softened) {
			softened = over
		}
	}
	return kind, softened
}

// probedTooWarm is the two-stage cooling by probe: 21 °C within two hours, 5 °C
// within six in all, where Australia and New Zealand count four from the first.
func (w *walk) probedTooWarm(start, cold, frozen int) bool {
	if !w.l.stages {
		return false
	}
	first := 1 << 20
	for _, p := range w.b.Probes {
		m := w.at(p.At)
		if m < start || frozen >= 0 && m > frozen || w.ofACut(m, cold) ||
			slices.ContainsFunc(w.b.Out, func(s keeping.Spell) bool { return m > w.at(s.From) }) {
			continue
		}
		if p.C <= 21 {
			first = min(first, m)
		}
	}
	for _, p := range w.b.Probes {
		m := w.at(p.At)
		if m < start || frozen >= 0 && m > frozen || w.ofACut(m, cold) ||
			slices.ContainsFunc(w.b.Out, func(s keeping.Spell) bool { return m > w.at(s.From) }) {
			continue
		}
		by := start + 360
		if w.a != keeping.UnitedStates {
			by = min(by, first+240)
		}
		if p.C > 21 && m >= start+120 || p.C > 5 && m >= by {
			return true
		}
	}
	return false
}

// ofACut tells that a reading is about a cut that came after the cooling.
func (w *walk) ofACut(m, cold int) bool {
	for _, s := range w.b.PowerOff {
		if w.at(s.From) >= cold && m > w.at(s.From) && (s.To.IsZero() || m <= w.at(s.To)+lookWithin) {
			return true
		}
	}
	return false
}
