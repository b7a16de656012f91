package keeping

import (
	"fmt"
	"math"
	"slices"
	"time"
)

// Ranges that are accepted; beyond them a figure is a slip of the pen.
const (
	leastFridge, mostFridge = -5, 12
	leastAir, mostAir       = -40, 60
	leastHot, mostHot       = 0, 120
	leastProbe              = -30
	mostReheated            = 100
)

// Check tells whether the history can be true at the moment now: times in
// order, none in the future, spells not negative, temperatures in range. The
// first thing wrong is returned as a [*units.FieldError].
func (b Batch) Check(now time.Time) error {
	for _, check := range []func(time.Time) error{b.checkFuture, b.checkOrder, b.checkSpells, b.checkFigures, b.checkProbes} {
		if err := check(now); err != nil {
			return err
		}
	}
	return nil
}

type moment struct {
	fact Fact
	at   time.Time
}

func (b Batch) checkFuture(now time.Time) error {
	if now.IsZero() {
		return FactNow.wrong("", "no time given", "the moment to judge at")
	}
	moments := []moment{{FactCooked, b.CookedAt}, {FactHotUntil, b.HotUntil}, {FactChilled, b.ChilledAt}, {FactFrozen, b.FrozenAt}, {FactThawed, b.ThawedAt}}
	for _, s := range b.Out {
		moments = append(moments, moment{FactOut, s.From}, moment{FactOut, s.To})
	}
	for _, s := range b.PowerOff {
		moments = append(moments, moment{FactPower, s.From}, moment{FactPower, s.To})
	}
	for _, m := range moments {
		if m.at.After(now) {
			return m.fact.wrong(stamp(m.at), "lies in the future, after "+stamp(now), "a time that has been")
		}
	}
	return nil
}

func (b Batch) checkOrder(time.Time) error {
	chain := []moment{{FactCooked, b.CookedAt}, {FactHotUntil, b.HotUntil}, {FactChilled, b.ChilledAt}, {FactFrozen, b.FrozenAt}, {FactThawed, b.ThawedAt}}
	var last moment
	for _, m := range chain {
		if m.at.IsZero() {
			continue
		}
		if m.at.Before(last.at) {
			return m.fact.wrong(stamp(m.at), fmt.Sprintf("comes before %s %s", last.fact, stamp(last.at)),
				"cooked_at, hot_until, chilled_at, frozen_at, thawed_at in this order")
		}
		last = m
	}
	return nil
}

func (b Batch) checkSpells(time.Time) error {
	for _, s := range b.Out {
		if err := s.check(FactOut); err != nil {
			return err
		}
		if cold := b.firstCold(); s.From.Before(cold) {
			return FactOut.wrong(stamp(s.From), "begins before it was in the fridge, "+stamp(cold),
				"a spell after chilled_at; time before it is the cooling and counts by itself")
		}
		if err := inRange(FactAir, s.Air, leastAir, mostAir); err != nil {
			return err
		}
	}
	for _, s := range b.PowerOff {
		if err := s.check(FactPower); err != nil {
			return err
		}
	}
	return nil
}

const spellAccepted = "FROM..TO, or FROM.. while it lasts"

func (s Spell) check(fact Fact) error {
	if s.From.IsZero() {
		return fact.wrong("", "a spell with no beginning", spellAccepted)
	}
	if !s.To.IsZero() && s.To.Before(s.From) {
		return fact.wrong(stamp(s.From)+".."+stamp(s.To), "ends before it begins", spellAccepted)
	}
	return nil
}

func (b Batch) checkFigures(time.Time) error {
	if err := inRange(FactFridge, b.Fridge, leastFridge, mostFridge); err != nil {
		return err
	}
	if err := inRange(FactAir, b.Air, leastAir, mostAir); err != nil {
		return err
	}
	if err := inRange(FactHotAt, b.HotAt, leastHot, mostHot); err != nil {
		return err
	}
	if b.Reheated < 0 || b.Reheated > mostReheated {
		return FactReheated.wrong(fmt.Sprint(b.Reheated), "cannot be", fmt.Sprintf("a count from 0 to %d", mostReheated))
	}
	return b.checkWords()
}

// checkWords holds the facts that are one word of a few.
func (b Batch) checkWords() error {
	for _, one := range []struct {
		fact     Fact
		word     string
		known    []string
		accepted string
	}{
		{FactTubers, string(b.Tubers), []string{string(TubersGreen), string(TubersBitter)}, "green (also strongly sprouted or shrivelled) or bitter; leave it out for sound ones"},
		{FactFreezer, string(b.Freezer), []string{string(FillFull), string(FillHalf)}, "full or half; leave it out where nobody knows"},
		{FactEggs, string(b.Eggs), []string{string(EggsScheme), string(EggsPasteurised), string(EggsOther)}, "scheme (British Lion, Laid in Britain), pasteurised or other"},
		{FactBox, string(b.Box), []string{string(PacksFrozen), string(PacksMelted)}, "frozen (the packs still were, in part) or melted"},
	} {
		if one.word != "" && !slices.Contains(one.known, one.word) {
			return one.fact.wrong(one.word, "not known", one.accepted)
		}
	}
	return nil
}

// firstCold is when it came into the cold: the fridge, or straight from the
// tray into the freezer. Zero where it never did.
func (b Batch) firstCold() time.Time {
	if b.ChilledAt.IsZero() {
		return b.FrozenAt
	}
	return b.ChilledAt
}

func inRange(fact Fact, t Temperature, least, most float64) error {
	if !t.Known {
		return nil
	}
	if math.IsNaN(t.C) || t.C < least || t.C > most {
		accepted := fmt.Sprintf("a temperature from %g to %g °C", least, most)
		if fact == FactFridge {
			accepted += "; at a warmer one it is out of the fridge, in a freezer frozen"
		}
		return fact.wrong(degrees(t.C), "cannot be right", accepted)
	}
	return nil
}

func (b Batch) checkProbes(now time.Time) error {
	for _, p := range b.Probes {
		if p.At.After(now) {
			return FactProbe.wrong(stamp(p.At), "lies in the future, after "+stamp(now), "a time that has been")
		}
		if p.At.IsZero() || p.At.Before(b.CookedAt) {
			return FactProbe.wrong(stamp(p.At), "comes before it was cooked", "a reading of the cooked food")
		}
		if err := inRange(FactProbe, Celsius(p.C), leastProbe, mostHot); err != nil {
			return err
		}
	}
	return nil
}
