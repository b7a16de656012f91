package keeping

import (
	"fmt"
	"slices"
	"time"
)

// cutsTogether are power cuts that count together: nothing between them starts
// the count afresh.
type cutsTogether struct {
	cuts  []Spell // as told, merged
	parts []Spell // what of them the food spent in the cold place
}

// last is the latest cut.
func (g cutsTogether) last() Spell { return g.cuts[len(g.cuts)-1] }

// length is all their time up to a moment.
func (g cutsTogether) length(now time.Time) time.Duration {
	var sum time.Duration
	for _, p := range g.parts {
		if end := endOf(p, now); end.After(p.From) {
			sum += end.Sub(p.From)
		}
	}
	return sum
}

// full is the moment at which the limit is used up; zero where it never is.
// An open part is taken to go on.
func (g cutsTogether) full(limit time.Duration) time.Time {
	for _, p := range g.parts {
		if p.To.IsZero() || p.To.Sub(p.From) > limit {
			return p.From.Add(limit)
		}
		limit -= p.To.Sub(p.From)
	}
	return time.Time{}
}

func endOf(s Spell, now time.Time) time.Time {
	if s.To.IsZero() || s.To.After(now) {
		return now
	}
	return s.To
}

// groups puts the cuts together that count together: those not parted by power
// for long enough, nor by a cold reading between them. A cut that the food spent
// elsewhere counts nothing, and yet is no time with power.
func (j *judging) groups(within func(Spell) []Spell, cold float64) []cutsTogether {
	var groups []cutsTogether
	cuts := merged(j.PowerOff)
	for i, cut := range cuts {
		if i == 0 || j.parted(cuts[i-1], cut, cold) {
			groups = append(groups, cutsTogether{})
		}
		if parts := within(cut); len(parts) > 0 {
			g := &groups[len(groups)-1]
			g.cuts, g.parts = append(g.cuts, cut), append(g.parts, parts...)
		}
	}
	return slices.DeleteFunc(groups, func(g cutsTogether) bool { return len(g.parts) == 0 })
}

// parted tells that the count starts afresh between two cuts: the power was
// back for long enough, or a reading showed the cold place cold again.
func (j *judging) parted(before, after Spell, cold float64) bool {
	if before.To.IsZero() {
		return false
	}
	if after.From.Sub(before.To) >= j.limits.PowerAfresh.Most {
		return true
	}
	good, bad := j.readings(before.To, after.From, cold)
	return len(good) > 0 && len(bad) == 0
}

// readings are those from one moment up to another, the cold and the warm ones.
func (j *judging) readings(from, to time.Time, cold float64) (good, bad []Probe) {
	for _, p := range j.Probes {
		switch {
		case p.At.Before(from) || p.At.After(to):
		case p.C <= cold:
			good = append(good, p)
		default:
			bad = append(bad, p)
		}
	}
	return good, bad
}

// fridgeSpells are the parts of a cut from when food that is in the fridge began
// to cool: a fridge that was off is not cold the moment food goes in, and were
// it counted from then only, food would gain by going in late. No time out of
// it, not even in the cold, stops the count: more time out never does a batch
// good.
func (j *judging) fridgeSpells(cut Spell) []Spell {
	if j.ChilledAt.IsZero() && j.ThawedAt.IsZero() {
		return nil
	}
	var parts []Spell
	if !j.ChilledAt.IsZero() && !j.chilled.IsZero() {
		parts = append(parts, clip(cut, j.start, j.FrozenAt)...)
	}
	if !j.ThawedAt.IsZero() {
		parts = append(parts, clip(cut, j.ThawedAt, time.Time{})...)
	}
	return parts
}

// clip is the part of a spell from one moment to another; a zero end is none.
func clip(s Spell, from, to time.Time) []Spell {
	if s.From.Before(from) {
		s.From = from
	}
	if !to.IsZero() && (s.To.IsZero() || s.To.After(to)) {
		s.To = to
	}
	if !s.To.IsZero() && !s.To.After(s.From) {
		return nil
	}
	return []Spell{{From: s.From, To: s.To}}
}

// powerOut judges the time in a fridge without power.
func (j *judging) powerOut() {
	l := j.limits
	cold := min(l.PowerCold.C, l.Fridge.C)
	groups := j.groups(j.fridgeSpells, cold)
	defer j.ourCounting(groups)
	for _, g := range groups {
		length, ended := g.length(j.now), !g.last().To.IsZero()
		good, bad := j.readings(g.cuts[0].From, j.looked(g), cold)
		rules := slices.Clone(l.PowerShut.Rules)
		if len(g.cuts) > 1 {
			rules = append(rules, "power-cut-adds-up")
		}
		after := slices.ContainsFunc(good, func(p Probe) bool { return ended && !p.At.Before(g.last().To) })
		full := g.full(l.PowerShut.Most)
		switch {
		case len(bad) > 0:
			j.warmed = append(j.warmed, g.parts...)
			j.because(fmt.Sprintf("A thermometer read %s after the power cut, so the whole of it counts as time out.", degrees(bad[0].C)), []string{"power-cut-reading"}, rules)
			j.ourHour()
		case after:
			j.because(fmt.Sprintf("A thermometer read %s when the power came back, so the cut counts for nothing.", degrees(good[len(good)-1].C)), []string{"power-cut-reading"}, rules)
			j.ourHour()
			if good[len(good)-1].C > l.FridgeAim.C && l.FridgeAim.IsSet() {
				j.warn(fmt.Sprintf("Colder than %s would be better.", degrees(l.FridgeAim.C)), "power-cut-reading")
			}
		case l.PowerShut.Passed(length) && !j.readNow(good, ended):
			j.condemn(full, fmt.Sprintf("The fridge was off for %s in all; %s is the most.", spanWords(length), spanWords(l.PowerShut.Most)), rules)
		default:
			j.becauseOfCut(length, ended, full, rules)
		}
	}
}

// ourHour tells that no source says how soon a reading is taken.
func (j *judging) ourHour() {
	j.ours("A reading speaks for the cut when it is taken within an hour of its end.", "power-cut-reading")
}

// ourCounting tells that no source says how several cuts are counted; once, of the
// fridge and the freezer.
func (j *judging) ourCounting(groups []cutsTogether) {
	cuts := 0
	for _, g := range groups {
		cuts += len(g.cuts)
	}
	says := fmt.Sprintf("Power cuts are added up until a cold reading, or %s of power, parts them.", spanWords(j.limits.PowerAfresh.Most))
	told := slices.ContainsFunc(j.verdict.Reasons, func(r Reason) bool { return r.Says == says })
	if cuts > 1 && !told {
		j.ours(says, "power-cut-adds-up")
	}
}

// looked is until when a reading speaks for a group of cuts.
func (j *judging) looked(g cutsTogether) time.Time {
	if g.last().To.IsZero() {
		return j.now
	}
	return g.last().To.Add(j.limits.PowerReading.Most)
}

// readNow tells that a thermometer clears the food at this very moment, with the
// power still off: it may be eaten, and no more.
func (j *judging) readNow(good []Probe, ended bool) bool {
	now := !ended && len(good) > 0 && good[len(good)-1].At.Equal(j.now)
	if now {
		j.fullAt = j.now
		j.ours("A good reading while the power is off lets it be eaten or put on ice now; the count runs on.", "power-cut-reading")
	}
	return now
}

// becauseOfCut tells of a cut within its limit.
func (j *judging) becauseOfCut(length time.Duration, ended bool, full time.Time, rules []string) {
	l := j.limits
	j.because(fmt.Sprintf("The fridge was without power for %s in all; %s it may be, kept shut.", spanWords(length), l.PowerShut.words()), rules)
	if length >= l.PowerCheck.Most {
		j.warn(fmt.Sprintf("Irish advice lets food go after %s without power; put a thermometer in.", spanWords(l.PowerCheck.Most)), l.PowerCheck.Rules...)
	}
	cleared := full.Before(j.now) // by a reading at this moment, which sets its own end
	if !ended && !full.IsZero() && !cleared && (j.fullAt.IsZero() || full.Before(j.fullAt)) {
		j.fullAt = full
	}
}

// beforeFull is the earlier of a moment and the end of what a fridge without
// power holds.
func (j *judging) beforeFull(t time.Time) time.Time {
	if !j.fullAt.IsZero() && j.fullAt.Before(t) {
		return j.fullAt
	}
	return t
}

// addWarmed counts power cuts after which a reading was too warm as time out, all
// of them from when the food began to cool: were the cooling left out, food would
// gain by going into the dead fridge late.
func (j *judging) addWarmed(c *clock) {
	weight := max(1, j.weightIn(j.Air))
	if weight == 2 && len(j.warmed) > 0 {
		j.becauseHotAir()
	}
	for _, s := range j.warmed {
		c.add(stretch{s.From, s.To, weight, true}, j.start)
	}
}

// freezerOff judges the time in a freezer without power. What it leaves cold but
// not surely frozen counts as thawed from when the freezer's time was over; the
// US lets it freeze again.
func (j *judging) freezerOff() {
	if j.FrozenAt.IsZero() {
		return
	}
	l, thawed := j.limits, j.ThawedAt
	cold := l.FreezerCold.C
	in := func(cut Spell) []Spell { return clip(cut, j.FrozenAt, thawed) }
	groups := j.groups(in, cold)
	defer j.ourCounting(groups)
	for _, g := range groups {
		h := j.holdOf(g)
		_, bad := j.readings(g.cuts[0].From, j.looked(g), cold)
		switch {
		case len(bad) > 0:
			j.condemn(bad[0].At, fmt.Sprintf("A thermometer read %s in it; thawed food above %s is not kept.", degrees(bad[0].C), degrees(cold)), []string{"power-freezer-after", "power-freezer"})
		case !isOver(h.over, j.now):
			j.because(fmt.Sprintf("The freezer was without power for %s in all; kept shut it holds that long.", spanWords(g.length(j.now))), l.FreezerFull.Rules)
			j.turns(h.over)
		case j.seenCold(h):
			j.stillCold(h)
		default:
			j.lack(g.length(j.now) > l.FreezerFull.Most)
			j.turns(h.full)
			if !l.Refreeze {
				j.thawedSince(h.best) // at best it is still cold: what is over by that is over
			}
		}
	}
}

// freezerHold is until when a freezer kept shut holds through some cuts.
type freezerHold struct {
	full time.Time // a full one
	over time.Time // this one, taken for half full where nobody said
	best time.Time // this one, taken for full where nobody said
}

func (j *judging) holdOf(g cutsTogether) freezerHold {
	half, full := g.full(j.limits.FreezerHalf.Most), g.full(j.limits.FreezerFull.Most)
	switch j.Freezer {
	case FillFull:
		return freezerHold{full, full, full}
	case FillHalf:
		return freezerHold{full, half, half}
	}
	return freezerHold{full, half, full}
}

// isOver tells a moment that has been; the zero one never comes.
func isOver(at, now time.Time) bool { return !at.IsZero() && now.After(at) }

// seenCold tells that ice, or a reading once the freezer's time was over, shows the
// food cold: a reading speaks for what came before it only.
func (j *judging) seenCold(h freezerHold) bool {
	since := h.over
	if isOver(h.full, j.now) {
		since = h.full
	}
	good, _ := j.readings(since, j.now, j.limits.FreezerCold.C)
	return j.Ice || len(good) > 0
}

// stillCold judges food that is cold after the freezer's time was over.
func (j *judging) stillCold(h freezerHold) {
	if !j.limits.Refreeze {
		j.because("Still cold, it counts as thawed since the freezer’s time was over, and is not frozen again.", []string{"power-freezer-after", "power-freezer"})
		j.thawedSince(h.over)
		return
	}
	if !j.Ice { // a reading speaks for no longer than a full freezer holds
		j.turns(h.full)
	}
	j.because("Ice crystals, or a cold reading, show it still cold; it may freeze again.", []string{"power-freezer-after", "power-freezer", "refreeze-us-ok"})
}

// thawedSince has what is in the freezer count as thawed from a moment that has
// been, unless it was thawed before.
func (j *judging) thawedSince(at time.Time) {
	if at.IsZero() || at.After(j.now) || !j.ThawedAt.IsZero() && !at.Before(j.ThawedAt) {
		return
	}
	j.softened = j.given.ThawedAt.IsZero()
	j.ThawedAt = at
}

// turns notes a moment ahead at which the freezer's cut changes the verdict.
func (j *judging) turns(at time.Time) {
	if !at.IsZero() && !at.Before(j.now) && (j.turnsAt.IsZero() || at.Before(j.turnsAt)) {
		j.turnsAt = at
	}
}

// lack names what one has to know of a freezer that was off for too long.
func (j *judging) lack(longest bool) {
	if j.Freezer == FillUnknown && !longest {
		j.lacks = FactFreezer
		return
	}
	j.lacks = FactProbe
}

func (j *judging) missingFreezer() bool {
	if j.lacks == "" {
		return false
	}
	if c := j.spent; c != nil && c.running() > 0 {
		j.turns(c.reaches(j.limits.Eat.Most))
	}
	if !j.ThawedAt.IsZero() {
		j.turns(j.lifeEnd())
	}
	j.unknown(j.lacks)
	v := &j.verdict
	v.Sentence = "Look into the freezer: with ice crystals in it, use it; if it is soft or you cannot tell, it goes."
	v.Reasons = nil
	j.decided(v.Sentence, []string{"power-freezer", "power-freezer-after"})
	return true
}
