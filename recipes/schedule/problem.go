package schedule

import (
	"cmp"
	"errors"
	"time"
)

// Problem is the steps of a meal, what there is to do them with, and when it is
// to be on the table.
type Problem struct {
	Steps []Step
	Serve time.Time
	Have  Have
	// Lags are the times between a step's end and serving that matter.
	Lags []Lag
	// NodeLimit is the search's patience; 0 = [DefaultNodes].
	NodeLimit int
}

// DefaultNodes is how many orders the search tries before it hands out the best
// it has.
const DefaultNodes = 12000

// Have is what there is of everything that steps keep busy. A figure under 1
// counts as 1; of trays, as enough.
type Have struct {
	Hands, Rings, Trays int
}

// Goal says what a lag between a step and serving does to a timetable.
type Goal uint8

// The goals, the weightiest first.
const (
	KeepsClock Goal = iota // beyond its most, food may not be eaten any more
	HotWaits               // hot food gets cold
	WarmWaits              // warm food gets colder than it should
	goals
)

// Lag is the time from the end of a step to serving. What is beyond Most counts
// against the timetable.
type Lag struct {
	Step string
	Most time.Duration
	Goal Goal
}

// Cost is what a timetable is judged by, in minutes; each field counts before
// those after it.
type Cost struct {
	Over   int // past the limits, over all of them
	Hot    int // hot food waits, over all dishes
	Warm   int // warm food waits beyond what it may
	Length int // from the first step to serving
}

// Compare is negative where c is the better timetable's.
func (c Cost) Compare(o Cost) int {
	return cmp.Or(cmp.Compare(c.Over, o.Over), cmp.Compare(c.Hot, o.Hot), cmp.Compare(c.Warm, o.Warm), cmp.Compare(c.Length, o.Length))
}

// goals are the fields in their order.
func (c *Cost) goals() []*int { return []*int{&c.Over, &c.Hot, &c.Warm, &c.Length} }

// Timetable is the answer of [Solve].
type Timetable struct {
	Steps  []Timed // in the order of their starts
	Cost   Cost
	Proven bool // no timetable costs less
	Bound  Cost // none can cost less than this
	Nodes  int  // orders tried
}

// ErrCircle is wrapped when steps wait for each other.
var ErrCircle = errors.New("steps wait for each other")

// ErrUnknownStep is wrapped when a step or a lag names one that is not there.
var ErrUnknownStep = errors.New("no such step")

// ErrTooLittle is wrapped when a step wants more of something than there is.
var ErrTooLittle = errors.New("a step wants more than there is")
