package harvest

import (
	"cmp"
	"path"
	"slices"
	"strings"
	"time"
	"unique"

	"trencher/units"
	"trencher/units/strict"
)

// Entry is one line of the journal: something that was weighed, used, cooked
// or noticed at a moment. Entries are never changed; a later one corrects an
// earlier one by naming its file.
type Entry interface {
	Kind() string
	When() time.Time
	Head() *Header
}

// Header is what every entry has.
type Header struct {
	At       time.Time
	Replaces string    // the file of the entry this one corrects, or ""
	By       string    // the device it was written on, "" where that is not known
	Logged   time.Time // when it was written; zero is at At
	Form     string    // what it was written by, so that it is not written twice; see [Ledger.WrittenBy]
	File     string    // journal/2031/0712-1640-lift-tub-3.yaml; "" until written
	Places   Places    // where each key stands in the file
}

// When is the moment the entry is about.
func (h *Header) When() time.Time { return h.At }

// Head gives access to the header through the Entry interface.
func (h *Header) Head() *Header { return h }

// Stem is the entry's file name without folder and ending.
func (h *Header) Stem() string { return stemOf(h.File) }

func stemOf(file string) string {
	name := path.Base(file)
	return strings.TrimSuffix(strings.TrimSuffix(name, ".yaml"), ".yml")
}

// Place is a spot in a file.
type Place struct {
	File         string
	Line, Column int
}

// Spot is a place in an entry's own file.
type Spot struct{ Line, Column int }

// Places are where keys of an entry ("at", "lot") stand in its file. A journal has
// many entries, most of them laid out alike: those share their places.
type Places struct{ at unique.Handle[keyPlaces] }

// keyPlaces are as many as any kind of entry has; what is unused is zero.
type keyPlaces [6]KeyPlace

// KeyPlace is where one key stands; the empty key is the entry as a whole.
type KeyPlace struct {
	Key string
	Spot
}

// PlacesAt are places of six keys at most.
func PlacesAt(keys ...KeyPlace) Places {
	var at keyPlaces
	copy(at[:], keys)
	return Places{unique.Make(at)}
}

// Of is where a key stands, and whether that is known.
func (p Places) Of(key string) (at Spot, known bool) {
	if p == (Places{}) {
		return Spot{}, false
	}
	for _, one := range p.at.Value() {
		if one.Key == key && one.Spot != (Spot{}) {
			return one.Spot, true
		}
	}
	return Spot{}, false
}

// wrong makes the error for one key of an entry.
func (h *Header) wrong(key, problem, accepted string) *strict.Error {
	at, ok := h.Places.Of(key)
	if !ok {
		at, _ = h.Places.Of("")
	}
	return &strict.Error{File: h.File, Line: at.Line, Column: at.Column, Problem: problem, Accepted: accepted}
}

// is tells whether a fault of the entry is about what stands at the spot.
func (s Spot) is(fault *strict.Error) bool { return s == Spot{fault.Line, fault.Column} }

// The kinds of entry.
const (
	KindLift      = "lift"
	KindUse       = "use"
	KindGive      = "give"
	KindCompost   = "compost"
	KindStore     = "store"
	KindReweighed = "reweighed"
	KindCooked    = "cooked"
	KindChilled   = "chilled"
	KindOut       = "out"
	KindReheated  = "reheated"
	KindEaten     = "eaten"
	KindBinned    = "binned"
	KindNote      = "note"
	KindSteamed   = "steamed"
	KindVoid      = "void"
	KindPlan      = "plan"
	KindStep      = "step"
)

// Kinds lists every kind of entry.
func Kinds() []string {
	return []string{KindLift, KindPlan, KindUse, KindGive, KindCompost, KindStore, KindReweighed, KindCooked, KindChilled,
		KindOut, KindReheated, KindEaten, KindBinned, KindNote, KindSteamed, KindStep, KindVoid}
}

// Move takes grams out of a lot: to the kitchen (use), to somebody (give), to
// the heap (compost), or sets them by for later (store). Weights are as lifted,
// before any trimming.
type Move struct {
	Header
	To     string // KindUse, KindGive, KindCompost or KindStore
	Lot    string // the lot's ID
	Weight units.Quantity
	Dish   string         // use: the dish it went into, or ""
	Whom   string         // give: who had it
	Where  string         // store: where it lies
	Air    units.Quantity // store: how warm it is there; none: nobody said
	Reason string         // compost: why
}

// Kind is where the grams went.
func (m *Move) Kind() string { return m.To }

// BatchEvent is one event in the life of a cooked batch.
type BatchEvent struct {
	Header
	Event  string   // KindCooked, KindChilled, KindOut, KindReheated, KindEaten or KindBinned
	Name   string   // the batch's name; the events of one batch share it
	Food   string   // cooked: what it is to food safety, such as boiled-potatoes
	Also   []string // cooked: what else is in it, of which the strictest counts
	Dish   string   // cooked: which dish
	Plan   string   // cooked: the ID of the plan it was made by
	Amount units.Quantity
	Until  time.Time      // out: back in the fridge at
	Air    units.Quantity // out: how warm it was
	Says   string
}

// Kind is the event.
func (b *BatchEvent) Kind() string { return b.Event }

// Note is a tasting note against a dish, shown when the dish is next made.
type Note struct {
	Header
	Dish string
	Says string
}

// Kind is "note".
func (*Note) Kind() string { return KindNote }

// Steamed is a knife test: a piece of this size was this far done after so
// many minutes of full steam. What it was made under is told since it counts; an
// entry of before does not.
type Steamed struct {
	Header
	Crop     string
	Texture  string // waxy, floury or ""
	Cut      string // as on the command line: "cube 25 mm"
	Until    string // just-tender, tender or soft
	Said     string // not-yet or over; "" is just right
	Minutes  float64
	Load     units.Quantity // weight in the steamer at once; none = as usual, 500 g
	Start    units.Quantity // how warm the pieces went in; none = as usual
	Altitude units.Quantity // above the sea; none = the kitchen's
	Power    units.Quantity // heat that became steam; none = the kitchen's
	Tier     int            // that the piece lay on, 1 the lowest; 0 = the uppermost in use
}

// Kind is "steamed".
func (*Steamed) Kind() string { return KindSteamed }

// Told is what a cook said of a step of a recorded plan while cooking it.
type Told struct {
	Header
	Plan string // the ID of the plan
	Step string // the ID of its step; "" where it is of none
	What Telling
}

// Kind is "step".
func (*Told) Kind() string { return KindStep }

// Telling is what a cook says.
type Telling string

// What a cook can say. NotYet and Over are what a knife says of food on the heat;
// FiveLate is of no step: the rest is to be five minutes later.
const (
	ToldDone     Telling = "done"
	ToldNotYet   Telling = "not-yet"
	ToldOver     Telling = "over"
	ToldFiveLate Telling = "five-late"
)

// Tellings lists what a cook can say.
func Tellings() []Telling { return []Telling{ToldDone, ToldNotYet, ToldOver, ToldFiveLate} }

// Void strikes out the entry it names, which stays on the disk.
type Void struct {
	Header
	Voids  string
	Reason string
}

// Kind is "void".
func (*Void) Kind() string { return KindVoid }

// SortEntries orders entries by moment, then by file, so that the order they
// were read in does not matter.
func SortEntries(entries []Entry) {
	slices.SortStableFunc(entries, func(a, b Entry) int {
		if c := a.When().Compare(b.When()); c != 0 {
			return c
		}
		return cmp.Compare(strings.TrimSuffix(a.Head().File, ".yaml"), strings.TrimSuffix(b.Head().File, ".yaml"))
	})
}
