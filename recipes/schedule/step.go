package schedule

import "time"

// Kind is what sort of work a step is, as scripts read it.
type Kind string

// The kinds of steps.
const (
	Scrub    Kind = "scrub"    // wash a crop
	Peel     Kind = "peel"     // or shell it
	Cut      Kind = "cut"      // to even pieces
	Pick     Kind = "pick"     // herbs and salad from the plot
	Boil     Kind = "boil"     // bring water to the boil
	Load     Kind = "load"     // put food into the steamer
	Steam    Kind = "steam"    // food in steam
	BoilIn   Kind = "boil-in"  // food in boiling water
	Test     Kind = "test"     // the knife
	Unload   Kind = "unload"   // take all out of the steamer
	LiftOut  Kind = "lift-out" // take out what is done early
	Spread   Kind = "spread"   // out on a tray
	Cool     Kind = "cool"     // to hand-warm, in the air
	Chill    Kind = "chill"    // in the fridge
	ColdBox  Kind = "cold-box" // in a box with ice
	Warm     Kind = "warm"     // milk, on a ring
	Melt     Kind = "melt"     // butter, on a ring
	Dress    Kind = "dress"    // with what goes over it
	Finish   Kind = "finish"   // crush, butter, dish up
	Serve    Kind = "serve"    // put on the table
	TopUp    Kind = "top-up"   // boiling water into the pan
	Canister Kind = "canister" // change it
	Own      Kind = "own"      // the grower's own way of cooking, or own step
)

// Kinds lists every kind, in the order a meal goes through them.
func Kinds() []Kind {
	return []Kind{Scrub, Peel, Cut, Pick, Boil, Load, Steam, BoilIn, Test, Unload, LiftOut, Spread, Cool,
		Chill, ColdBox, Warm, Melt, Dress, Finish, Serve, TopUp, Canister, Own}
}

// Step is one thing to do. Lengths are whole minutes.
type Step struct {
	ID     string
	Kind   Kind
	Dishes []string // whose work it is; none where it is everybody's
	Crop   string   // the crop it is about, or ""
	Run    string   // the filling of the steamer it belongs to, or ""
	Length time.Duration
	Hands  int // how many people it keeps busy
	// Ring is the ring of the stove it keeps busy, from 1; 0 = none. What a
	// problem gives only says that it wants one: [Solve] numbers them.
	Ring int
	Tier int // the tier of the steamer it is in, from 1, the lowest; 0 = none
	Tray int // how many trays it keeps
	// Steamer tells that it keeps the steamer. Steps that are tied to each
	// other in time share steamer and ring.
	Steamer bool
	// Soon tells a step that is better done early than late, once the rest has
	// its place: it moves into free time of its hands. It is for steps that
	// keep nothing else busy and that no other is tied to.
	Soon bool
	// Place is what else it keeps busy, by name, of which there is one: an
	// oven; "" = nothing.
	Place string
	// After are the steps that must have ended before it begins.
	After []string
	// AtOnce is the step it follows without a gap; "" where it may wait.
	AtOnce string
	// Beside is the step it begins Offset after the beginning of; "" = none.
	Beside string
	Offset time.Duration
}

// Timed is a step with its place in time.
type Timed struct {
	Step
	At time.Time
}

// End is when the step is over.
func (t Timed) End() time.Time { return t.At.Add(t.Length) }
