package keeping

import (
	"strings"

	"trencher/units"
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
	FactBitter    Fact = "bitter"
	FactFreezer   Fact = "freezer"
	FactIce       Fact = "ice"
	FactEggs      Fact = "eggs"
	FactBox       Fact = "box"
	FactEater     Fact = "eater"
	FactAuthority Fact = "authority"
	FactNow       Fact = "now"
)

// Field is the name of the field a fact is asked for in, as errors have it:
// "cooked-at".
func (f Fact) Field() string { return strings.ReplaceAll(string(f), "_", "-") }

// FactIn is the fact asked for in a field, the way back from [Fact.Field].
func FactIn(field string) Fact { return Fact(strings.ReplaceAll(field, "-", "_")) }

// asked says what one has to know to give a fact.
var asked = map[Fact]string{
	FactFood:     "what it is",
	FactCooked:   "when it was cooked",
	FactChilled:  "when it was in the fridge",
	FactFrozen:   "when it was frozen",
	FactHotAt:    "how hot it was kept",
	FactHotUntil: "until when it was kept hot",
	FactFreezer:  "how full the freezer was",
	FactProbe:    "how cold it still is, by a thermometer or by ice crystals in it",
}

// AskFor says that nothing can be said without a fact, which is called by the
// name given: a script's, a flag's or a box's.
func (f Fact) AskFor(name string) string {
	return "Cannot say without knowing " + asked[f] + " (" + name + ")."
}

// wrong is the error for a fact that cannot be.
func (f Fact) wrong(value, problem, accepted string) error {
	return units.WrongField(f.Field(), value, problem, accepted)
}
