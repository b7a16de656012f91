package harvest

import (
	"fmt"
	"time"

	"github.com/shopspring/decimal"
)

// Warning is something to look into that stops no answer. A program goes by its
// type; String is one sentence for a person.
type Warning interface {
	fmt.Stringer
	warning()
}

// LeftOut is an entry that is not counted: damaged, or resting on what is.
type LeftOut struct {
	File string
	Err  error // why
}

// Overdrawn is an entry that takes more out of a lot than there was, as when
// two people used it at the same time. Both entries stand.
type Overdrawn struct {
	File, Lot string
	Took, Had decimal.Decimal // g
}

// PastKeeping names lots that are past the longest they keep raw: eaten and not
// logged, or gone.
type PastKeeping struct{ Lots []string }

// Untold is a planting that no row tells about.
type Untold struct{ Planting, Why string }

// ClockBehind tells that this machine's clock stands before what an entry rests
// on: it is plainly not the plot's, and the time given was taken as it is.
type ClockBehind struct {
	Clock time.Time
	Since string // what came before: "tub-3 was planted"
}

// Unfinished is a file that was still being written when something stopped it.
type Unfinished struct{ File string }

func (LeftOut) warning()     {}
func (Overdrawn) warning()   {}
func (PastKeeping) warning() {}
func (Untold) warning()      {}
func (ClockBehind) warning() {}
func (Unfinished) warning()  {}

// String names the file and what is wrong with it.
func (w LeftOut) String() string { return fmt.Sprintf("left out %s: %v", w.File, w.Err) }

// String names the entry, the lot and both weights.
func (w Overdrawn) String() string {
	return fmt.Sprintf("%s takes %s g from %s, which had %s g left: weigh what is there, or void one of the entries", w.File, w.Took, w.Lot, w.Had)
}

// String names the lots.
func (w PastKeeping) String() string {
	return fmt.Sprintf("past the longest they keep raw: %s; look them over, log what was eaten with use and what is gone with compost", orNone(w.Lots))
}

// String names the planting and why.
func (w Untold) String() string { return w.Planting + ": " + w.Why }

// String gives the clock's day.
func (w ClockBehind) String() string {
	return fmt.Sprintf("this machine's clock says %s, before %s; the time given was taken as it is", w.Clock.Format(time.DateOnly), w.Since)
}

// String names the file.
func (w Unfinished) String() string {
	return w.File + " was being written when something stopped it; what it holds is in no account"
}
