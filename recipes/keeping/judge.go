package keeping

import (
	"slices"
	"time"
)

// Judge gives the verdict on a batch by the rules of an authority at the
// moment now. A history that cannot be is a [*units.FieldError]; a missing fact
// that decides is the verdict Unknown, naming it.
//
// The order of decision: tubers, missing facts, eaters, cooling, then all that
// throws out (time out, freezing too late, reheating, life), then what may be
// eaten now, then the rest. A discard is never softened by a later step.
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
	if err := b.Check(now); err != nil {
		return nil, err
	}
	j := &judging{Batch: b, limits: LimitsOf(a), now: now}
	j.verdict = Verdict{Authority: a, Cautions: Cautions(b.Vulnerable)}
	if b.Food != "" {
		var err error
		if j.food, err = LookupBatchFood(b.Food); err != nil {
			return nil, err
		}
		j.verdict.Food = j.food
		j.narrow()
	}
	j.chilled = j.chilledAt()
	j.decide()
	return j, nil
}

// judging is one batch under judgement.
type judging struct {
	Batch
	food     Food
	limits   Limits
	now      time.Time
	start    time.Time // when the cooling began; not yet while stillHot
	stillHot bool
	chilled  time.Time // when the fridge began to cool it; zero when not yet
	spent    *clock    // all the time out of the fridge since
	hotTold  bool      // the counting of hot minutes has been told
	verdict  Verdict
}

// narrow takes the food's own limits into the authority's.
func (j *judging) narrow() {
	l, f := &j.limits, j.food
	if f.out.IsSet() {
		l.Eat, l.Back = shorter(l.Eat, f.out), shorter(l.Back, f.out)
	}
	l.Fridge, l.Hot = colder(l.Fridge, f.fridge), hotter(l.Hot, f.hot)
	l.CoolingAim = shorter(l.CoolingAim, f.coolingAim)
	switch {
	case f.lifeInstead && l.LifeVulnerable.Most == l.Life.Most:
		l.Life, l.LifeVulnerable = f.life, f.life
	case f.lifeInstead:
		l.Life, l.LifeVulnerable = f.life, shorter(l.LifeVulnerable, f.life)
	default:
		l.Life, l.LifeVulnerable = shorter(l.Life, f.life), shorter(l.LifeVulnerable, f.life)
	}
	if j.Vulnerable {
		l.Life = shorter(l.Life, l.LifeVulnerable)
	}
}

// decide takes the steps in order until one of them decides.
func (j *judging) decide() {
	for _, step := range []func() bool{
		j.badTubers, j.missing, j.wrongEater, j.reheatedTooOften, j.missingLater, j.begin,
		j.cooling, j.probedTooWarm, j.outTooLong, j.frozenTooLate, j.lifeIsOver,
		j.outNow, j.stillFrozen,
	} {
		if step() {
			return
		}
	}
	j.keeps()
}

func (j *judging) badTubers() bool {
	if j.Tubers == TubersSound {
		return false
	}
	what := "Green, shrivelled or strongly sprouted"
	if j.Tubers == TubersBitter {
		what = "Bitter"
	}
	return j.discard(time.Time{}, what+" potatoes hold a poison that cooking does not take away.", []string{"green-bitter-discard"})
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
	late := len(j.Out) > 0 || !j.FrozenAt.IsZero() || !j.ThawedAt.IsZero() || j.Reheated > 0 || j.HeatedUp
	switch {
	case j.lifeOver():
		return false
	case !j.ThawedAt.IsZero() && j.FrozenAt.IsZero():
		return j.unknown(FactFrozen)
	case !j.HotAt.Known && !j.HotUntil.IsZero():
		return j.unknown(FactHotAt)
	case j.HotAt.Known && j.HotUntil.IsZero() && !j.ChilledAt.IsZero():
		return j.unknown(FactHotUntil)
	case late && j.ChilledAt.IsZero():
		return j.unknown(FactChilled)
	}
	return false
}

// lifeOver tells that the batch was never frozen and is too old.
func (j *judging) lifeOver() bool {
	return j.FrozenAt.IsZero() && j.ThawedAt.IsZero() && j.limits.Life.Passed(j.now.Sub(j.CookedAt))
}

func (j *judging) wrongEater() bool {
	if !j.Vulnerable || j.food.notVulnerable == "" {
		return false
	}
	return j.discard(time.Time{}, "A dish with raw egg is not for this eater, however fresh.", []string{j.food.notVulnerable})
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
