package keeping

import (
	"cmp"
	"slices"
	"time"
)

// Judge gives the verdict on a batch by the rules of an authority at the
// moment now. A history that cannot be is a [*units.FieldError]; a missing fact
// that decides is the verdict Unknown, naming it.
//
// The order of decision: poison, what is never judged, missing facts, eaters,
// then all that throws out (cooling, time out, power cuts, freezing too late,
// reheating, life), of which the first in time is told, then what may be eaten
// now, then the rest. A discard is never softened by a later step, and wins
// over a missing fact.
func Judge(b Batch, a Authority, now time.Time) (Verdict, error) {
	a, err := ParseAuthority(string(a))
	if err != nil {
		return Verdict{}, err
	}
	j, err := decide(b, a, now)
	if err != nil {
		return Verdict{}, err
	}
	j.explain()
	return j.verdict, nil
}

// decide comes to the verdict, without what is told besides.
func decide(b Batch, a Authority, now time.Time) (*judging, error) {
	j := new(judging)
	return j, j.decideOn(b, a, now)
}

// decideOn is decide in the room of a judging that nobody uses any more.
func (j *judging) decideOn(b Batch, a Authority, now time.Time) error {
	if err := b.Check(now); err != nil {
		return err
	}
	b.Probes = slices.SortedFunc(slices.Values(b.Probes), func(p, q Probe) int { return cmp.Or(p.At.Compare(q.At), cmp.Compare(p.C, q.C)) })
	*j = judging{Batch: b, given: b, limits: LimitsOf(a), now: now}
	j.verdict = Verdict{At: now, Authority: a, Cautions: Cautions(b.Vulnerable)}
	if b.Food != "" {
		if err := j.takeFoods(a); err != nil {
			return err
		}
	}
	j.chilled = j.chilledAt()
	j.decide()
	return nil
}

// judging is one batch under judgement.
type judging struct {
	Batch
	given    Batch  // as it was told, before a power cut thawed it
	food     Food   // the one that names it
	foods    []Food // all that are in it, that one first
	reheats  bool   // every part of it can be heated up
	timing   timing
	limits   Limits
	now      time.Time
	start    time.Time // when the cooling began; not yet while stillHot
	stillHot bool
	chilled  time.Time // when the fridge began to cool it; zero when not yet
	spent    *clock    // all the time out of the fridge since
	hotTold  bool      // the counting of hot minutes has been told
	warmed   []Spell   // power cuts that a reading showed to have been time out
	fullAt   time.Time // when the power cut going on will have been too long
	turnsAt  time.Time // when the freezer's cut going on will change the verdict
	softened bool      // a power cut counts as its thawing
	lacks    Fact      // of the freezer's cut
	wrongs   []wrong
	verdict  Verdict
}

// wrong is one reason to throw a batch out, and since when.
type wrong struct {
	since    time.Time
	sentence string
	rules    []string
}

// decide takes the steps in order until one of them decides.
func (j *judging) decide() {
	for _, step := range []func() bool{
		j.poisoned, j.referred, j.missing, j.wrongEater, j.reheatedTooOften, j.missingLater, j.begin,
		j.notTimed, j.cooling, j.condemned, j.missingFreezer, j.outNow, j.stillFrozen,
	} {
		if step() {
			return
		}
	}
	j.keeps()
}

// condemned looks for everything that throws the batch out and tells what came
// first.
func (j *judging) condemned() bool {
	if j.timing != lifeOnly {
		j.powerOut()
		j.freezerOff()
		j.probedTooWarm()
		j.outTooLong()
	}
	j.frozenTooLate()
	j.lifeIsOver()
	if len(j.wrongs) == 0 {
		return false
	}
	first := slices.MinFunc(j.wrongs, func(a, b wrong) int { return a.since.Compare(b.since) })
	return j.discard(first.since, first.sentence, first.rules)
}

// condemn notes a reason to throw the batch out.
func (j *judging) condemn(since time.Time, sentence string, rules []string) {
	j.wrongs = append(j.wrongs, wrong{since, sentence, rules})
}

// poisoned is about poison that no cooking and no cold takes away.
func (j *judging) poisoned() bool {
	switch {
	case j.Tubers == TubersBitter:
		return j.discard(time.Time{}, "Bitter potatoes hold a poison that cooking does not take away.", []string{"green-bitter-discard"})
	case j.Tubers == TubersGreen:
		return j.discard(time.Time{}, "Green, shrivelled or strongly sprouted potatoes hold a poison that cooking does not take away.", []string{"green-bitter-discard"})
	case j.Bitter:
		return j.discard(time.Time{}, "A bitter courgette, squash or cucumber is poisonous, and cooking does not help.", []string{"cucurbit-bitter"})
	}
	return false
}

// referred is about food that only an authority can speak on.
func (j *judging) referred() bool {
	for _, f := range j.foods {
		if f.refer != "" {
			j.unknown(FactFood)
			v := &j.verdict
			v.Referred = true
			v.Head = "No verdict on home jars; ask your national food authority."
			v.Sentence = "One that bulges, leaks, spurts or foams goes, untasted."
			j.verdict.Reasons = nil
			j.decided(v.Sentence, []string{f.refer})
			return true
		}
	}
	return false
}

// notTimed is about food that no clock is kept for, and such that is judged
// from the fridge on.
func (j *judging) notTimed() bool {
	switch {
	case j.timing == untimed:
		return j.fine(time.Time{}, "Fine, washed; no clock runs for whole raw vegetables.", "They keep as the crop does; once cut they are a salad.", []string{"power-cut-foods", "wash-veg"})
	case j.timing == readyCold && j.chilled.IsZero() && !j.lifeOver():
		return j.unknown(FactChilled)
	}
	return false
}

// missing names the fact without which nothing can be said.
func (j *judging) missing() bool {
	switch {
	case j.Batch.Food == "":
		return j.unknown(FactFood)
	case j.CookedAt.IsZero():
		return j.unknown(FactCooked)
	}
	return false
}

// missingLater names a fact that what is told of a later time rests on, unless
// the batch is too old whatever was done with it.
func (j *judging) missingLater() bool {
	late := len(j.Out) > 0 || !j.ThawedAt.IsZero() || j.Reheated > 0 || j.HeatedUp
	switch {
	case j.lifeOver():
		return false
	case !j.ThawedAt.IsZero() && j.FrozenAt.IsZero():
		return j.unknown(FactFrozen)
	case !j.HotAt.Known && !j.HotUntil.IsZero():
		return j.unknown(FactHotAt)
	case j.HotAt.Known && j.HotUntil.IsZero() && !j.firstCold().IsZero():
		return j.unknown(FactHotUntil)
	case late && j.firstCold().IsZero():
		return j.unknown(FactChilled)
	}
	return false
}

// lifeOver tells that the batch was never frozen and is too old.
func (j *judging) lifeOver() bool {
	return j.FrozenAt.IsZero() && j.ThawedAt.IsZero() && j.limits.Life.Passed(j.now.Sub(j.CookedAt))
}

func (j *judging) wrongEater() bool {
	if !j.Vulnerable {
		return false
	}
	for _, f := range j.foods {
		if f.notVulnerable == "" || f.rawEgg && j.eggsSuit() {
			continue
		}
		j.discard(time.Time{}, notForThem(f)+" the others at the table may have it within its times.", []string{f.notVulnerable})
		j.verdict.Head = "Not for them, however fresh."
		j.verdict.NotForThem = true
		return true
	}
	return false
}

// notForThem says of what food it is that vulnerable eaters do not get it.
func notForThem(f Food) string { return "It has " + f.Name + ", which is not for this eater;" }

// eggsSuit tells that raw eggs of this sort are for vulnerable eaters: pasteurised
// ones, and in the UK those of its schemes, but for people of low immunity.
func (j *judging) eggsSuit() bool {
	return j.Eggs == EggsPasteurised || j.Eggs == EggsScheme && j.verdict.Authority == UnitedKingdom && !j.LowImmunity
}

// until is the earlier of a moment and the end of life.
func (j *judging) until(t time.Time) time.Time {
	if end := j.CookedAt.Add(j.limits.Life.Most); end.Before(t) {
		return end
	}
	return t
}

func (j *judging) discard(since time.Time, sentence string, rules []string) bool {
	v := &j.verdict
	v.Kind, v.Since, v.Until, v.Sentence = Discard, since, time.Time{}, sentence
	v.Warnings = nil // what would keep it longer is of no more use
	v.Head = "Throw it out."
	if !since.IsZero() && since.Before(j.now) {
		v.Head = "Throw it out; its time ran out at " + clockTime(since, j.now) + "."
	}
	j.decided(sentence, rules)
	j.because("Neither heating it up nor a good smell makes it good.", []string{"reheat-no-rescue", "no-sniff-test"})
	return true
}

func (j *judging) unknown(fact Fact) bool {
	v := &j.verdict
	v.Kind, v.Missing = Unknown, fact
	v.Head = fact.AskFor(string(fact))
	v.Sentence = "Find it out and ask again; if you cannot, throw it out, for smell and looks do not tell."
	j.decided(v.Sentence, []string{"no-sniff-test"})
	return true
}

func (j *judging) fine(until time.Time, head, sentence string, rules ...[]string) bool {
	v := &j.verdict
	v.Kind, v.Until, v.Head, v.Sentence = FineNow, until, head, sentence
	j.decided(sentence, rules...)
	return true
}

// decided puts the deciding reason before all others.
func (j *judging) decided(sentence string, rules ...[]string) {
	reason := Reason{Says: sentence, Rules: joined(nil, rules...)}
	j.verdict.Reasons = slices.Insert(j.verdict.Reasons, 0, reason)
}

// because adds a reason that took part in the decision.
func (j *judging) because(says string, rules ...[]string) {
	j.verdict.Reasons = append(j.verdict.Reasons, Reason{Says: says, Rules: joined(nil, rules...)})
}

// ours adds a reason that no source gives.
func (j *judging) ours(says string, rules ...string) {
	j.verdict.Reasons = append(j.verdict.Reasons, Reason{Says: says, Rules: rules, Ours: true})
}

// warn adds something to mind besides.
func (j *judging) warn(says string, rules ...string) {
	j.verdict.Warnings = append(j.verdict.Warnings, Reason{Says: says, Rules: rules})
}

func (j *judging) at(t time.Time) string { return clockTime(t, j.now) }
