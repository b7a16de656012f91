package keeping

import (
	"fmt"
	"slices"
	"time"
)

// lifeEnd is the last moment of the batch's life in the fridge: freezing stops
// it, thawing gives back what was left, and no more than the limit after
// thawing. For a batch still frozen it is a moment in no calendar.
func (j *judging) lifeEnd() time.Time {
	end := j.CookedAt.Add(j.limits.Life.Most)
	if j.FrozenAt.IsZero() {
		return end
	}
	if j.ThawedAt.IsZero() {
		return j.now.AddDate(1000, 0, 0)
	}
	end = end.Add(j.ThawedAt.Sub(j.FrozenAt))
	if l := j.limits.Thawed; l.IsSet() && end.After(j.ThawedAt.Add(l.Most)) {
		end = j.ThawedAt.Add(l.Most)
	}
	return end
}

// lifeRules are the rules that set lifeEnd.
func (j *judging) lifeRules() []string {
	rules := j.limits.Life.Rules
	if !j.FrozenAt.IsZero() {
		rules = joined(rules, []string{"freeze-clock-stops"})
	}
	if !j.ThawedAt.IsZero() {
		rules = joined(rules, j.limits.Thawed.Rules)
	}
	return rules
}

func (j *judging) tooOld(end time.Time) bool {
	return j.discard(end, j.overLife(), j.lifeRules())
}

// overLife says that the life is over.
func (j *judging) overLife() string {
	if t := j.limits.Thawed; !j.ThawedAt.IsZero() && t.IsSet() && j.lifeEnd().Equal(j.ThawedAt.Add(t.Most)) {
		return fmt.Sprintf("Thawed it had %s, and that is over.", spanWords(t.Most))
	}
	return fmt.Sprintf("It had %s from the end of cooking, and that is over.", spanWords(j.limits.Life.Most))
}

func (j *judging) lifeIsOver() {
	if end := j.lifeEnd(); j.now.After(end) {
		j.condemn(end, j.overLife(), j.lifeRules())
	}
}

func (j *judging) frozenTooLate() {
	if j.FrozenAt.IsZero() || !j.limits.Life.Passed(j.FrozenAt.Sub(j.CookedAt)) {
		return
	}
	end := j.CookedAt.Add(j.limits.Life.Most)
	j.condemn(end, fmt.Sprintf("It was frozen after its %s were over, and freezing gives no time back.", spanWords(j.limits.Life.Most)), j.lifeRules())
}

func (j *judging) stillFrozen() bool {
	if j.FrozenAt.IsZero() || !j.given.ThawedAt.IsZero() {
		return false
	}
	if j.softened {
		end := j.lifeEnd()
		return j.fine(end, "Still cold; eat it by "+j.at(end)+", and do not freeze it again.",
			"The freezer was off for too long to be sure, and what is in it counts as thawed.", []string{"power-freezer-after", "power-freezer"}, j.lifeRules())
	}
	if j.now.After(j.FrozenAt.AddDate(0, 3, 0)) {
		j.warn("Its three months are over; it is safe, but no longer at its best.", "freezer-18c")
	}
	head := "Fine in the freezer; best within three months."
	switch {
	case !j.isOff():
	case !j.turnsAt.IsZero():
		head = "Its freezer has no power: fine in it, shut, until " + j.at(j.turnsAt) + "; then look for ice crystals."
	default:
		head = "Its freezer has no power: still cold; look for ice crystals again before you use it."
	}
	return j.fine(time.Time{}, head,
		fmt.Sprintf("Held at -18 °C it stays safe; once thawed it has %s left at the most.", spanWords(j.lifeLeft())), []string{"freezer-18c", "freeze-clock-stops"})
}

// isOff tells that the power is off at the moment.
func (j *judging) isOff() bool {
	return slices.ContainsFunc(j.PowerOff, func(s Spell) bool { return !s.From.After(j.now) && (s.To.IsZero() || s.To.After(j.now)) })
}

// lifeLeft is what a frozen batch will have after thawing.
func (j *judging) lifeLeft() time.Duration {
	left := j.limits.Life.Most - j.FrozenAt.Sub(j.CookedAt)
	if l := j.limits.Thawed; l.IsSet() {
		left = min(left, l.Most)
	}
	return left
}

func (j *judging) reheatedTooOften() bool {
	l := j.limits.Reheatings
	if len(l.Rules) == 0 || j.Reheated < l.Most {
		return false
	}
	return j.discard(time.Time{}, "It was heated up and cooled again; leftovers are heated up once, and what is left then goes.", l.Rules)
}

// keeps is the last step: what is not thrown out by now is eaten before the
// end of its life, heated through first where that is wanted.
func (j *judging) keeps() {
	v, end := &j.verdict, j.beforeFull(j.lifeEnd())
	v.Until = end
	sentence := fmt.Sprintf("In a cold fridge it has %s from the end of cooking.", spanWords(j.limits.Life.Most))
	thawed := !j.ThawedAt.IsZero()
	if end.Equal(j.fullAt) {
		v.Until = end
		sentence = "The fridge is without power; get it onto ice before then, or eat it."
	} else if thawed {
		sentence = "Thawed, it has the time it had left before freezing" + j.thawedMost() + "."
	}
	if j.eatenHot() {
		v.Kind = ReheatFirst
		v.Head = "Reheat it first; eat it by " + j.at(end) + "."
		v.Sentence = "Heat it to " + j.limits.ReheatWords + ". " + sentence
		j.decided(sentence, j.lifeRules(), j.limits.Reheat.Rules)
	} else {
		v.Kind, v.Head, v.Sentence = EatBy, "Eat it by "+j.at(end)+".", sentence
		j.decided(sentence, j.lifeRules())
	}
	j.lifeWarnings()
}

// eatenHot tells that it is to be heated through before it is eaten.
func (j *judging) eatenHot() bool {
	return (!j.ThawedAt.IsZero() || j.Vulnerable) && j.reheats
}

func (j *judging) thawedMost() string {
	if !j.limits.Thawed.IsSet() {
		return ""
	}
	return ", " + spanWords(j.limits.Thawed.Most) + " at the most"
}

func (j *judging) lifeWarnings() {
	l := j.limits
	used := j.now.Sub(j.CookedAt) - j.ThawedAt.Sub(j.FrozenAt)
	if l.LifeAim.IsSet() && l.LifeAim.Most < l.Life.Most && l.LifeAim.Passed(used) {
		j.warn(fmt.Sprintf("Better eaten within %s of cooking; that is past.", spanWords(l.LifeAim.Most)), l.LifeAim.Rules...)
		j.ours("Where a source gives a range, its lower end warns and its upper end decides.", l.LifeAim.Rules...)
	}
	if aim := l.FridgeAim; aim.IsSet() && j.Fridge.Known && j.Fridge.C > aim.C {
		j.warn(fmt.Sprintf("The fridge is at %s; turn it down to %s or colder.", degrees(j.Fridge.C), degrees(aim.C)), joined(l.Fridge.Rules, aim.Rules)...)
	}
	if j.Vulnerable && !j.reheats {
		j.warn("These eaters are told to leave ready-made cold salads alone.", "au-vulnerable-24h")
	}
	if j.Reheated > 0 {
		j.warn("Heated up before: no more than once is advised elsewhere.", "uk-reheat-once", "au-reheat-75")
	}
}

// explain adds what every verdict on a known food carries besides.
func (j *judging) explain() {
	if j.verdict.Kind == Unknown || j.verdict.Food.ID == "" {
		j.narrowed()
		return
	}
	v := &j.verdict
	if j.Called != "" {
		says := fmt.Sprintf("No rule knows %q; it has the strictest limits there are. Ask your food authority.", j.Called)
		v.Warnings = slices.Insert(v.Warnings, 0, Reason{Says: says, Rules: []string{"anything-else"}})
	}
	for _, f := range j.foods {
		j.explainFood(f)
	}
	if len(j.foods) > 1 {
		j.ours("Of a mixed dish the strictest part sets each limit.", "mix-strictest-part", "mix-oldest-ingredient")
	}
	if v.NotForThem {
		j.narrowed()
		return
	}
	if j.noHotFigure() {
		j.warn(fmt.Sprintf("Very hot air; elsewhere a minute above %s counts as two.", degrees(LimitsOf(Strictest).HotAir.C)), LimitsOf(Strictest).HotAir.Rules...)
	}
	if j.Vulnerable && v.Authority == UnitedKingdom {
		j.warn("Australia and New Zealand would give these eaters 24 h.", "au-vulnerable-24h", "vulnerable-uk-rules")
	}
	if !j.chilled.IsZero() && !j.Fridge.Known && v.Kind != Discard {
		j.warn(fmt.Sprintf("The fridge is taken to be at %s or colder.", degrees(j.limits.Fridge.C)), j.limits.Fridge.Rules...)
	}
	if j.airMatters() {
		j.warn(fmt.Sprintf("The air is taken to be no warmer than %s; hotter air halves the time out.", degrees(j.limits.HotAir.C)), j.limits.HotAir.Rules...)
	}
	j.ours("The life is counted from the end of cooking of the oldest part; most sources do not say from when.")
	j.ours("The cooling is judged by itself and not added to later time out.")
	j.narrowed()
}

// explainFood tells what is particular to one food in it.
func (j *judging) explainFood(f Food) {
	v := &j.verdict
	if len(f.Cites) > 0 {
		j.because("Rules for "+f.Name+" in particular.", f.Cites)
	}
	for _, w := range f.Warnings {
		if v.Kind != Discard && (!w.Cooling || j.chilled.IsZero()) {
			v.Warnings = append(v.Warnings, w.Reason)
		}
	}
	if f.Ours != "" {
		j.ours(f.Ours)
	}
}

// noHotFigure tells that some air was very hot and the authority has no figure
// for it.
func (j *judging) noHotFigure() bool {
	if j.limits.HotAir.IsSet() || j.verdict.Kind == Discard {
		return false
	}
	hot := LimitsOf(Strictest).HotAir.C
	return j.Air.Known && j.Air.C > hot || slices.ContainsFunc(j.Out, func(s Spell) bool { return s.Air.Known && s.Air.C > hot })
}

// airMatters tells that the verdict rests on air that was not given: in hot
// air it would be another.
func (j *judging) airMatters() bool {
	if !j.limits.HotAir.IsSet() || j.verdict.Kind == Discard || j.Air.Known {
		return false
	}
	hot := j.given
	hot.Air = Celsius(mostAir)
	other, err := decide(hot, j.verdict.Authority, j.now)
	return err == nil && differ(other.verdict, j.verdict)
}

// narrowed says so when one authority's rules were used, and what the
// strictest would say.
func (j *judging) narrowed() {
	v := &j.verdict
	if v.Authority == Strictest {
		return
	}
	says := "Narrowed to the rules of " + v.Authority.name() + "."
	strict, err := decide(j.given, Strictest, j.now)
	if err == nil && differ(strict.verdict, *v) {
		says += " By the strictest of all: " + uncapital(strict.verdict.Head)
	}
	j.warn(says)
}

// differ tells that two verdicts ask for different things.
func differ(a, b Verdict) bool { return a.Kind != b.Kind || !a.Until.Equal(b.Until) }
