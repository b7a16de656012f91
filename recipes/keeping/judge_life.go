package keeping

import (
	"fmt"
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
	return j.discard(end, fmt.Sprintf("It had %s from the end of cooking, and that is over.", spanWords(j.limits.Life.Most)), j.lifeRules())
}

func (j *judging) lifeIsOver() bool {
	end := j.lifeEnd()
	return j.now.After(end) && j.tooOld(end)
}

func (j *judging) frozenTooLate() bool {
	if j.FrozenAt.IsZero() || !j.limits.Life.Passed(j.FrozenAt.Sub(j.CookedAt)) {
		return false
	}
	end := j.CookedAt.Add(j.limits.Life.Most)
	return j.discard(end, fmt.Sprintf("It was frozen after its %s were over, and freezing gives no time back.", spanWords(j.limits.Life.Most)), j.lifeRules())
}

func (j *judging) stillFrozen() bool {
	if j.FrozenAt.IsZero() || !j.ThawedAt.IsZero() {
		return false
	}
	if j.now.After(j.FrozenAt.AddDate(0, 3, 0)) {
		j.warn("Its three months are over; it is safe, but no longer at its best.", "freezer-18c")
	}
	return j.fine(time.Time{}, "Fine in the freezer; best within three months.",
		fmt.Sprintf("Held at -18 °C it stays safe; once thawed it has %s left at the most.", spanWords(j.lifeLeft())), []string{"freezer-18c", "freeze-clock-stops"})
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
	v, end := &j.verdict, j.lifeEnd()
	v.Until = end
	sentence := fmt.Sprintf("In a cold fridge it has %s from the end of cooking.", spanWords(j.limits.Life.Most))
	thawed := !j.ThawedAt.IsZero()
	if thawed {
		sentence = "Thawed, it has the time it had left before freezing" + j.thawedMost() + "."
	}
	if j.eatenHot() {
		v.Kind = ReheatFirst
		v.Head = "Reheat it first; eat it by " + j.at(end) + "."
		v.Sentence = "Heat it to " + j.limits.ReheatWords + ". " + sentence
		if !j.food.Reheats {
			v.Sentence += " If this dish cannot be heated, throw it out."
		}
		j.decided(sentence, j.lifeRules(), j.limits.Reheat.Rules)
	} else {
		v.Kind, v.Head, v.Sentence = EatBy, "Eat it by "+j.at(end)+".", sentence
		j.decided(sentence, j.lifeRules())
	}
	j.lifeWarnings()
}

// eatenHot tells that it is to be heated through before it is eaten.
func (j *judging) eatenHot() bool {
	return !j.ThawedAt.IsZero() || j.Vulnerable && j.food.Reheats
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
	if j.Vulnerable && !j.food.Reheats {
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
	if len(j.food.Cites) > 0 {
		j.because("Rules for "+j.food.Name+" in particular.", j.food.Cites)
	}
	for _, w := range j.food.Warnings {
		if v.Kind != Discard && (!w.Cooling || j.chilled.IsZero()) {
			v.Warnings = append(v.Warnings, w.Reason)
		}
	}
	if j.food.Ours != "" {
		j.ours(j.food.Ours)
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

// airMatters tells that the verdict rests on air that was not given: in hot
// air it would be another.
func (j *judging) airMatters() bool {
	if !j.limits.HotAir.IsSet() || j.verdict.Kind == Discard || j.Air.Known {
		return false
	}
	hot := j.Batch
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
	strict, err := decide(j.Batch, Strictest, j.now)
	if err == nil && differ(strict.verdict, *v) {
		says += " By the strictest of all: " + uncapital(strict.verdict.Head)
	}
	j.warn(says)
}

// differ tells that two verdicts ask for different things.
func differ(a, b Verdict) bool { return a.Kind != b.Kind || !a.Until.Equal(b.Until) }
