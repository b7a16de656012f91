package keeping

import (
	"fmt"
	"math"
	"strings"
	"time"
)

// Batch is the history of one cooked batch. The zero value of a part means
// that it did not happen or is not known.
type Batch struct {
	Food      string // as LookupFood reads it
	CookedAt  time.Time
	HotAt     Temperature // how hot it was kept after cooking
	HotUntil  time.Time   // zero with HotAt: it is still kept hot
	ChilledAt time.Time   // in the fridge, shallow; zero: it is still out
	Fridge    Temperature
	Air       Temperature // where it cooled and stood out
	Out       []Spell     // out of the fridge after ChilledAt
	PowerOff  []Spell     // the fridge without power, its door shut
	FrozenAt  time.Time
	ThawedAt  time.Time
	Reheated  int     // how often it was heated up and cooled again
	HeatedUp  bool    // heated up since and not cooled again: it is on the table
	Probes    []Probe // readings while it cooled
	Tubers    Tubers
	// Vulnerable eaters are pregnant, under 5, over 65 or of low immunity.
	Vulnerable bool
}

// Spell is a stretch of time; a zero To means that it is still going on. Air,
// where known, stands in the place of the batch's.
type Spell struct {
	From, To time.Time
	Air      Temperature
}

// Temperature is a temperature in °C that may be unknown, as its zero value is.
type Temperature struct {
	C     float64
	Known bool
}

// Celsius is a known temperature.
func Celsius(c float64) Temperature { return Temperature{C: c, Known: true} }

// Tubers says what was wrong with the raw tubers.
type Tubers string

// What can be wrong with tubers so that no dish of them is eaten.
const (
	TubersSound  Tubers = ""
	TubersGreen  Tubers = "green"  // green, shrivelled or strongly sprouted
	TubersBitter Tubers = "bitter" // the dish tastes bitter
)

// Fact names a part of a batch's history, as scripts do.
type Fact string

// The facts.
const (
	FactFood      Fact = "food"
	FactCooked    Fact = "cooked_at"
	FactChilled   Fact = "chilled_at"
	FactOut       Fact = "out"
	FactAir       Fact = "air"
	FactFridge    Fact = "fridge"
	FactFrozen    Fact = "frozen_at"
	FactThawed    Fact = "thawed_at"
	FactReheated  Fact = "reheated"
	FactHotAt     Fact = "hot_at"
	FactHotUntil  Fact = "hot_until"
	FactPower     Fact = "power_off"
	FactProbe     Fact = "probe"
	FactTubers    Fact = "tubers"
	FactAuthority Fact = "authority"
	FactNow       Fact = "now"
)

// InputError is a fact that cannot be: what is wrong with it and what is
// accepted.
type InputError struct {
	Fact              Fact
	Value             string // as given, where there is one
	Problem, Accepted string
}

// Error says which fact is wrong and why.
func (e *InputError) Error() string {
	if e.Value == "" {
		return fmt.Sprintf("%s: %s", e.Fact, e.Problem)
	}
	return fmt.Sprintf("%s %q: %s", e.Fact, e.Value, e.Problem)
}

// Hint says what is accepted.
func (e *InputError) Hint() string { return e.Accepted }

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
// first thing wrong is returned as an *InputError.
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
		return &InputError{Fact: FactNow, Problem: "no time given", Accepted: "the moment to judge at"}
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
			return &InputError{Fact: m.fact, Value: stamp(m.at), Problem: "lies in the future, after " + stamp(now), Accepted: "a time that has been"}
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
			return &InputError{
				Fact: m.fact, Value: stamp(m.at),
				Problem:  fmt.Sprintf("comes before %s %s", last.fact, stamp(last.at)),
				Accepted: "cooked_at, hot_until, chilled_at, frozen_at, thawed_at in this order",
			}
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
		if !b.ChilledAt.IsZero() && s.From.Before(b.ChilledAt) {
			return &InputError{
				Fact: FactOut, Value: stamp(s.From),
				Problem:  "begins before it was in the fridge, " + stamp(b.ChilledAt),
				Accepted: "a spell after chilled_at; time before it is the cooling and counts by itself",
			}
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

func (s Spell) check(fact Fact) error {
	if s.From.IsZero() {
		return &InputError{Fact: fact, Problem: "a spell with no beginning", Accepted: "FROM..TO, or FROM.. while it lasts"}
	}
	if !s.To.IsZero() && s.To.Before(s.From) {
		return &InputError{
			Fact: fact, Value: stamp(s.From) + ".." + stamp(s.To),
			Problem: "ends before it begins", Accepted: "FROM..TO, or FROM.. while it lasts",
		}
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
		return &InputError{Fact: FactReheated, Value: fmt.Sprint(b.Reheated), Problem: "cannot be", Accepted: fmt.Sprintf("a count from 0 to %d", mostReheated)}
	}
	switch b.Tubers {
	case TubersSound, TubersGreen, TubersBitter:
		return nil
	}
	return &InputError{Fact: FactTubers, Value: string(b.Tubers), Problem: "not known", Accepted: "green (also strongly sprouted or shrivelled) or bitter; leave it out for sound ones"}
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
		return &InputError{Fact: fact, Value: degrees(t.C), Problem: "cannot be right", Accepted: accepted}
	}
	return nil
}

func degrees(c float64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", c), ".0") + " °C" }

// stamp writes a moment in full for an error.
func stamp(t time.Time) string { return t.Format("2006-01-02 15:04 MST") }
