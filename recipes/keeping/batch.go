package keeping

import "time"

// Batch is the history of one cooked batch. The zero value of a part means
// that it did not happen or is not known.
type Batch struct {
	Food string // as LookupFood reads it
	// Called is the word for a food no rule knows; "" for all others.
	Called string
	// Also are further foods in the dish: the strictest of all sets each limit.
	Also      []string
	CookedAt  time.Time
	HotAt     Temperature // how hot it was kept after cooking
	HotUntil  time.Time   // zero with HotAt: it is still kept hot
	ChilledAt time.Time   // in the fridge, shallow; zero: it is still out
	Fridge    Temperature
	Air       Temperature // where it cooled and stood out
	Out       []Spell     // out of the fridge after ChilledAt
	PowerOff  []Spell     // the fridge or freezer without power, its door shut
	FrozenAt  time.Time
	ThawedAt  time.Time
	Reheated  int     // how often it was heated up and cooled again
	HeatedUp  bool    // heated up since and not cooled again: it is on the table
	Probes    []Probe // readings while it cooled, and about a power cut
	Tubers    Tubers
	Bitter    bool  // a courgette, squash or cucumber in it tasted bitter
	Freezer   Fill  // how full it was when it lost its power
	Ice       bool  // ice crystals were still in the food after that
	Eggs      Eggs  // of what sort raw ones are
	Box       Packs // how the packs of the cool box were, for a spell without a thermometer
	// Vulnerable eaters are pregnant, under 5, over 65 or of low immunity.
	Vulnerable bool
	// LowImmunity is one of them whom no raw egg suits, whatever its mark.
	LowImmunity bool
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

// Fill is how full a freezer is.
type Fill string

// How full a freezer can be. One of which nobody knows holds as half a one.
const (
	FillUnknown Fill = ""
	FillFull    Fill = "full"
	FillHalf    Fill = "half"
)

// Eggs is the sort of eggs that were used raw.
type Eggs string

// The sorts of eggs the rules tell apart.
const (
	EggsUnknown     Eggs = ""
	EggsScheme      Eggs = "scheme" // hen eggs of the British Lion or Laid in Britain schemes
	EggsPasteurised Eggs = "pasteurised"
	EggsOther       Eggs = "other"
)

// Packs is how the packs of a cool box were when it was opened.
type Packs string

// How packs can be. Packs nobody looked at count as melted.
const (
	PacksUnknown Packs = ""
	PacksFrozen  Packs = "frozen" // partly, still
	PacksMelted  Packs = "melted"
)
