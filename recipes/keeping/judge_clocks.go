package keeping

import (
	"fmt"
	"slices"
	"time"
)

// weightIn is how much a minute in the air counts: 2 in hot air, 0 in a box as
// cold as the fridge should be, else 1. Air that is not known counts as mild.
func (j *judging) weightIn(air Temperature) int {
	switch {
	case !air.Known:
		return 1
	case j.limits.HotAir.IsSet() && air.C > j.limits.HotAir.C:
		return 2
	case air.C <= j.limits.Fridge.C:
		return 0
	}
	return 1
}

// weightOf is how much a minute of a spell out counts. Packs of a cool box speak
// where no thermometer does.
func (j *judging) weightOf(s Spell) int {
	switch {
	case s.Air.Known:
		return j.weightIn(s.Air)
	case j.Box == PacksFrozen:
		return 0
	case j.Box == PacksMelted:
		return max(1, j.weightIn(j.Air))
	}
	return j.weightIn(j.Air)
}

// becauseOfBox tells what the packs of a cool box, or nobody's having looked at
// them, say of spells without a thermometer.
func (j *judging) becauseOfBox() {
	switch {
	case !slices.ContainsFunc(j.Out, func(s Spell) bool { return !s.Air.Known }):
	case j.Box == PacksFrozen:
		j.ours("Packs still partly frozen at the opening kept it cold.", "coolbox-clock", "coolbox-pack", "coolbox-holds-only")
	case j.Box == PacksMelted:
		j.ours("With the packs melted it has been out since it was packed.", "coolbox-clock", "coolbox-pack")
	case !j.Air.Known:
		j.ours("A cool box without a thermometer, at whose packs nobody looked, counts as out since it was packed.", "coolbox-clock")
	}
}

// begin settles when the cooling began, and what the probe foretells of it.
func (j *judging) begin() bool {
	j.start, j.stillHot = j.coolingStart()
	if !j.stillHot && j.timing == timed {
		j.foresee()
	}
	return false
}

// cooling judges the way from the stove to the fridge.
func (j *judging) cooling() bool {
	switch {
	case j.timing == readyCold || j.timing == lifeOnly:
		return false
	case j.stillHot:
		return j.keptHot()
	}
	start := j.start
	weight := j.coolingWeight()
	if weight == 2 {
		j.becauseHotAir()
	}
	c := clock{}
	c.add(stretch{from: start, weight: weight}, start)
	if j.chilled.IsZero() {
		return j.stillOut(&c)
	}
	used := c.used(j.chilled)
	if j.limits.Cooling.Passed(used) {
		j.condemn(c.reaches(j.limits.Cooling.Most),
			fmt.Sprintf("It took %s to get into the fridge; %s is the most.", j.counted(used, weight), spanWords(j.limits.Cooling.Most)),
			joined(j.limits.Cooling.Rules, j.limits.Back.Rules))
		return false
	}
	j.because(fmt.Sprintf("It took %s to get into the fridge; %s it may.", j.counted(used, weight), j.limits.Cooling.words()), j.limits.Cooling.Rules)
	if j.limits.CoolingAim.Passed(used) {
		j.warn(fmt.Sprintf("It cooled slowly; aim for %s.", spanWords(j.limits.CoolingAim.Most)), j.limits.CoolingAim.Rules...)
	}
	return false
}

// coolingWeight is how much a minute of cooling counts; cold air, such as a
// winter night's, is no fridge.
func (j *judging) coolingWeight() int { return max(1, j.weightIn(j.Air)) }

// counted writes a span, and says so when its minutes counted twice.
func (j *judging) counted(used time.Duration, weight int) string {
	if weight == 2 {
		return fmt.Sprintf("%s in hot air (counted as %s)", spanWords(used/2), spanWords(used))
	}
	return spanWords(used)
}

// coolingStart is the end of cooking, or of keeping hot where it was hot
// enough; stillHot tells that it is being kept hot now.
func (j *judging) coolingStart() (start time.Time, stillHot bool) {
	hot := j.limits.Hot
	if !j.HotAt.Known {
		return j.CookedAt, false
	}
	if j.HotAt.C < hot.C {
		j.because(fmt.Sprintf("Kept at %s it was not hot enough, %s is the least; so it has been cooling since it was cooked.", degrees(j.HotAt.C), degrees(hot.C)), hot.Rules)
		return j.CookedAt, false
	}
	j.because(fmt.Sprintf("Kept hot at %s, at or above %s, no cooling time ran.", degrees(j.HotAt.C), degrees(hot.C)), hot.Rules)
	if aim := j.limits.HotAim; aim.IsSet() && j.HotAt.C < aim.C {
		j.warn(fmt.Sprintf("At home keep it at %s or hotter.", degrees(aim.C)), aim.Rules...)
	}
	return j.HotUntil, j.HotUntil.IsZero() && j.firstCold().IsZero()
}

// keptHot judges a dish that is being kept hot now.
func (j *judging) keptHot() bool {
	end := j.CookedAt.Add(j.limits.Life.Most)
	if j.now.After(end) {
		return j.tooOld(end)
	}
	return j.fine(end, fmt.Sprintf("Fine while it stays at %s or hotter; eat it by %s at the latest.", degrees(j.limits.Hot.C), j.at(end)),
		fmt.Sprintf("Once it falls below %s it has %s to be in the fridge.", degrees(j.limits.Hot.C), spanWords(j.limits.Cooling.Most)),
		j.limits.Hot.Rules, j.limits.Cooling.Rules)
}

// stillOut judges a dish that has not been in the fridge yet.
func (j *judging) stillOut(c *clock) bool {
	l, used := j.limits, c.used(j.now)
	if !l.Cooling.Passed(used) {
		until := j.until(c.reaches(l.Cooling.Most))
		if j.now.After(until) {
			return j.tooOld(until)
		}
		j.verdict.KeepBy = until
		return j.fine(until, j.hurry()+"into the fridge by "+j.at(until)+", or eaten.",
			fmt.Sprintf("Cooked food to be kept has %s from the stove to the fridge.", spanWords(l.Cooling.Most)), l.Cooling.Rules)
	}
	for _, s := range inOrder(j.Out) { // out of a fridge without power, and back into it
		if !s.To.IsZero() && l.Back.Passed(c.used(s.To)) {
			return j.discard(s.To, fmt.Sprintf("It went back into a fridge that does not cool, %s after cooking.", spanWords(c.used(s.To))), joined(l.Back.Rules, l.StillOut.Rules))
		}
	}
	until := j.until(c.reaches(l.StillOut.Most))
	if l.StillOut.Passed(used) || j.now.After(until) {
		return j.discard(until, fmt.Sprintf("It has stood for %s without being cooled; %s is the most.", spanWords(used), spanWords(l.StillOut.Most)), joined(l.StillOut.Rules, l.Cooling.Rules, l.Back.Rules))
	}
	return j.fine(until, "Eat it now, by "+j.at(until)+"; do not keep it.",
		fmt.Sprintf("It was not in the fridge within %s, so what is not eaten goes.", spanWords(l.Cooling.Most)), l.Back.Rules, l.StillOut.Rules, l.Cooling.Rules)
}

// chilledAt is when the fridge began to cool: ChilledAt, or the end of a power
// cut that was on at that moment; zero when it has not begun. What needs no cooling
// is in the fridge from when it was put there.
func (j *judging) chilledAt() time.Time {
	cold := j.firstCold()
	for _, cut := range merged(j.PowerOff) {
		if cold.IsZero() || cut.From.After(cold) || j.timing == readyCold {
			continue
		}
		if cut.To.IsZero() || cut.To.After(cold) {
			j.ours("A fridge without power does not cool; it counts as in the fridge from the end of the power cut.", "power-cut-4h")
			return cut.To
		}
	}
	if j.ChilledAt.IsZero() && !cold.IsZero() {
		j.because("It went from the tray into the freezer, which ends the cooling as the fridge does.", []string{"freeze-from-tray"})
	}
	return cold
}

// hurry is the word before the hour a dish that is still out has.
func (j *judging) hurry() string {
	if j.limits.CoolingAim.IsSet() && j.limits.CoolingAim.Most <= time.Hour && j.food.coolingAim.IsSet() {
		return "Fine now; an hour is meant, "
	}
	return "Fine now; "
}

func (j *judging) becauseHotAir() {
	if j.hotTold {
		return
	}
	j.hotTold = true
	hot := j.limits.HotAir
	j.because(fmt.Sprintf("In air above %s the two hours are one.", degrees(hot.C)), hot.Rules)
	j.ours("A minute in such air is counted as two, so that hot and mild spells can be added.", hot.Rules...)
}

// outTooLong judges all the time out of the fridge since it was first in it.
func (j *judging) outTooLong() {
	c := j.outClock()
	j.spent = c
	l, used := j.limits, c.used(j.now)
	if l.Eat.Passed(used) {
		j.condemn(c.reaches(l.Eat.Most), fmt.Sprintf("It has been out of the fridge for %s in all; %s is the most.", spanWords(used), spanWords(l.Eat.Most)), joined(l.Eat.Rules, l.Back.Rules))
	}
	for _, at := range c.putBack() {
		if l.Back.Passed(c.used(at)) {
			j.condemn(at, fmt.Sprintf("It went back into the fridge after %s out in all; only %s may it be kept.", spanWords(c.used(at)), l.Back.words()), joined(l.Back.Rules, l.Eat.Rules))
			return
		}
	}
}

// outNow judges a dish that is out of the fridge now.
func (j *judging) outNow() bool {
	c, l := j.spent, j.limits
	if c == nil {
		return false
	}
	used := c.used(j.now)
	if c.running() == 0 {
		if len(c.stretches) > 0 {
			j.because(fmt.Sprintf("It has been out for %s in all; %s it may be.", spanWords(used), l.Back.words()), l.Back.Rules)
		}
		return false
	}
	until := j.lifeEnd()
	if eat := c.reaches(l.Eat.Most); eat.Before(until) {
		until = eat
	}
	until = j.beforeFull(until)
	if j.eatenHot() && !j.HeatedUp {
		j.warn(fmt.Sprintf("First heat it to %s.", l.ReheatWords), l.Reheat.Rules...)
	}
	if j.HeatedUp && len(l.Reheatings.Rules) > 0 && j.Reheated+1 >= l.Reheatings.Most {
		return j.fine(until, "Eat it now, by "+j.at(until)+"; what is left goes.", "Leftovers are heated up once.", l.Reheatings.Rules, l.Eat.Rules)
	}
	if l.Back.Passed(used) {
		return j.fine(until, "Eat it now, by "+j.at(until)+"; do not put it back.",
			fmt.Sprintf("It has been out for %s in all; after %s it is not kept.", spanWords(used), spanWords(l.Back.Most)), l.Eat.Rules, l.Back.Rules)
	}
	back := c.reaches(l.Back.Most)
	j.verdict.KeepBy = back
	if until.Before(back) {
		j.verdict.KeepBy = until
	}
	head := fmt.Sprintf("Fine now; eaten or back in a cold fridge %s %s.", l.Back.by(), j.at(until))
	if back.Before(until) {
		head = fmt.Sprintf("Fine now; back in a cold fridge %s %s, or eaten %s %s.", l.Back.by(), j.at(back), l.Eat.by(), j.at(until))
	}
	return j.fine(until, head, fmt.Sprintf("It has been out for %s in all.", spanWords(used)), l.Back.Rules, l.Eat.Rules)
}

// outClock adds up the spells out, a fridge that is too warm, and power cuts
// after which a reading was too warm.
func (j *judging) outClock() *clock {
	c := &clock{}
	j.becauseOfBox()
	for _, s := range inOrder(j.Out) {
		weight := j.weightOf(s)
		if weight == 2 {
			j.becauseHotAir()
		}
		if weight > 0 {
			c.add(stretch{s.From, s.To, weight, true}, j.firstCold())
		}
	}
	j.addWarmFridge(c)
	j.addWarmed(c)
	if l := &j.limits; j.hotTold && l.HotEat.IsSet() {
		l.Eat = shorter(l.Eat, l.HotEat)
	}
	j.neverCold()
	if j.HeatedUp {
		j.limits.Eat = shorter(j.limits.Eat, library.reheatedOut)
	}
	return c
}

// neverCold narrows the time out of food that did not leave the fridge cold: the
// UK's four hours are for what did (uk-party-4h, and the law it is read with). In a
// fridge that is too warm food is as food that was never in one. What a reading
// showed warm after a power cut goes when it may no longer go back: those who take
// the reading say so after two hours (power-cut-reading).
func (j *judging) neverCold() {
	l := &j.limits
	eat := l.Eat
	if j.isFridgeWarm() {
		l.Eat = shorter(l.Eat, l.StillOut)
	}
	if len(j.warmed) > 0 {
		l.Eat = shorter(l.Eat, l.Back)
	}
	if l.Eat.Most < eat.Most {
		j.because(fmt.Sprintf("It did not leave a cold fridge, so it has %s, not %s.", spanWords(l.Eat.Most), spanWords(eat.Most)), eat.Rules)
	}
}

// isFridgeWarm tells a fridge above its limit by a thermometer.
func (j *judging) isFridgeWarm() bool { return j.Fridge.Known && j.Fridge.C > j.limits.Fridge.C }

// addWarmFridge counts the time in a fridge above its limit as time out. Such
// a fridge never ended the cooling, so the time before it counts as well; were
// it not so, a batch would gain by going into the fridge late. The freezer's
// time is not the fridge's.
func (j *judging) addWarmFridge(c *clock) {
	l := j.limits
	if !j.isFridgeWarm() {
		return
	}
	j.because(fmt.Sprintf("A fridge at %s is warmer than %s, so the time in it is time out.", degrees(j.Fridge.C), degrees(l.Fridge.C)), l.Fridge.Rules)
	j.ours("It never ended the cooling, so the time before it counts with it.", l.Fridge.Rules...)
	c.add(stretch{from: j.start, to: j.chilled, weight: j.coolingWeight()}, j.start)
	if !j.ChilledAt.IsZero() {
		c.add(stretch{j.chilled, j.FrozenAt, 1, !j.FrozenAt.IsZero()}, j.chilled)
	}
	if thawed := j.given.ThawedAt; !thawed.IsZero() { // soft in the freezer it is not in the fridge yet
		c.add(stretch{from: thawed, weight: 1}, j.chilled)
	}
}
