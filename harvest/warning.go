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

// SaidLeftOut says of each entry that it is left out, and why.
func SaidLeftOut(list []LeftOut) (says []string) {
	for _, one := range list {
		says = append(says, fmt.Sprintf("left out %s: %v", one.File, one.Err))
	}
	return says
}

// Copied is why a file is left out that a sync program, or a copy by hand, made
// of another entry.
type Copied struct{ File, Of string }

// Error names both files and what settles it.
func (c *Copied) Error() string {
	return fmt.Sprintf("%s: a second copy of %s, left by whatever copies this folder; `trencher journal mend` moves it out of the way", c.File, c.Of)
}

// Conflict is an entry that several devices corrected, each in its own way. One
// correction counts; mending the journal makes it the only one.
type Conflict struct {
	Entry   string   // the file that was corrected
	Counts  string   // the correction that counts
	Instead []string // the corrections that do not
	Voided  bool     // it was struck out as well
}

// Waiting is an entry that came before what it rests on, as in half a copy of
// the journal. It is not counted, or counts by itself, until the rest is here.
type Waiting struct{ File, For string }

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
func (Conflict) warning()    {}
func (Waiting) warning()     {}
func (Overdrawn) warning()   {}
func (PastKeeping) warning() {}
func (Untold) warning()      {}
func (ClockBehind) warning() {}
func (Unfinished) warning()  {}

// String names the file and what is wrong with it.
func (w LeftOut) String() string { return fmt.Sprintf("left out %s: %v", w.File, w.Err) }

// String names the entry, what counts and what settles it.
func (w Conflict) String() string {
	return fmt.Sprintf("%s was corrected on several devices: %s counts; `trencher journal mend` makes that final, or strike that one out first with `trencher journal void`", w.Entry, w.Counts)
}

// String names both.
func (w Waiting) String() string {
	return fmt.Sprintf("%s waits for %s, which is not here: copy the rest of the journal, or strike it out with `trencher journal void %s`", w.File, w.For, w.File)
}

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

// Said are warnings in words.
func Said(warnings []Warning) (texts []string) {
	for _, w := range warnings {
		texts = append(texts, w.String())
	}
	return texts
}
