package meal

import (
	"slices"
	"time"

	"trencher/recipes"
)

// Severity is how grave a warning is, as scripts read it.
type Severity string

// The severities, the gravest first.
const (
	Danger      Severity = "danger" // somebody could be harmed
	Shortcoming Severity = "short"  // the plan falls short of what was asked
	Notice      Severity = "note"
)

// Concern is what a warning is about.
type Concern uint8

// The concerns.
const (
	ClockBroken      Concern = iota // a dish may not be eaten any more when it is served
	SteamIsNotEnough                // a crop would be steamed that has to be boiled first
	Poisonous                       // something in a dish can poison
	AskGuest                        // what to ask a guest back
	SetApart                        // a dish that some at the table must not have as it is made
	CutSmall                        // a dish that a child of untold age has cut or ground
	Amiss                           // the plan contradicts itself: see Check
	Unproven                        // a better plan may exist
	Late                            // the serving time cannot be met
	Waits                           // a hot or a warm dish waits longer than it should
	NotCold                         // a dish meant cold is not: see NotColdCause
	MoreRounds                      // the steamer is filled more often than was asked for
	BoxWarms                        // the ice in the cold box is gone before serving
	CanisterEmpties                 // a full canister does not last for one thing on the stove
	OutOfWater                      // more is needed than is carried
	Untimed                         // nobody knows how long a crop steams
	RawUnknown                      // nobody here knows whether a crop may be eaten raw
	Remark                          // something odd about the plot's files
)

// Warning is what needs attention before starting.
type Warning struct {
	Severity Severity
	Concern  Concern
	Dish     string // "" where it is about all
	Crop     string // Untimed, SteamIsNotEnough, RawUnknown
	Rule     string // the keeping rule it rests on, or ""
	Clock    Clock  // ClockBroken
	Late     Lateness
	NotCold  NotColdCause   // NotCold: why
	Rounds   int            // MoreRounds: so many were asked for
	Waited   time.Duration  // Waits: between the heat and serving
	Boil     time.Duration  // SteamIsNotEnough: the least that it is boiled
	Poison   recipes.Poison // Poisonous
	Guest    recipes.Guests // AskGuest, SetApart, CutSmall
	Apart    Apart          // SetApart, ClockBroken: what of the dish is set apart; zero where nothing is
	Says     string         // Amiss, Unproven, Remark: as it was found
}

// NotColdCause is why a dish meant cold is not.
type NotColdCause uint8

// The causes.
const (
	NotInTime          NotColdCause = iota // it is not cool enough for the fridge in time
	NoColdPlace                            // there is none
	OnlyABox                               // there is a cold box, which chills nothing
	FridgeTooWarm                          // it never makes food cold
	FridgeKeepsNothing                     // its time runs on in the fridge, and ends before it is cold
)

// Lateness is by how much a serving time cannot be met.
type Lateness struct {
	Start time.Time     // when the work would have begun
	By    time.Duration // how long ago that is
	// Earliest is the earliest serving time that can be met, and Passed tells
	// that the one asked for lies behind us.
	Earliest time.Time
	Passed   bool
	Helps    []Change // what would bring it nearer, the most first
}

// ChangeKind is a way to bring the start nearer.
type ChangeKind uint8

// The ways.
const (
	ServeWarm ChangeKind = iota
	CutSmaller
	LeaveOut
	MoreHands // one more who helps
)

// Change is a change to one dish that would save time, planned in full.
type Change struct {
	Kind   ChangeKind
	Dish   string
	SizeMM float64 // CutSmaller
	Saves  time.Duration
	Serve  time.Time // the earliest serving time with it
}

// rank orders severities, the gravest first.
func (s Severity) rank() int { return slices.Index([]Severity{Danger, Shortcoming, Notice}, s) }

// sortWarnings puts the gravest first and keeps their order otherwise.
func sortWarnings(warnings []Warning) {
	slices.SortStableFunc(warnings, func(a, b Warning) int { return a.Severity.rank() - b.Severity.rank() })
}
