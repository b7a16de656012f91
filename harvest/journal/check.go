package journal

import (
	"context"
	"fmt"
	"time"

	"trencher/harvest"
	"trencher/units"
)

// Checked is a sound journal as a whole.
type Checked struct {
	Entries  int
	Seasons  []int
	Warnings []harvest.Warning
}

// Check reads the plantings and every season, and settles them all. Its error
// is all that is wrong with them, as [strict.Errors].
func (f *Folder) Check(ctx context.Context, o Options, on time.Time) (Checked, error) {
	seasons, err := f.Seasons()
	if err != nil {
		return Checked{}, err
	}
	ledger, err := f.Ledger(ctx, o, on, seasons...)
	if err != nil {
		return Checked{}, err
	}
	account, err := ledger.Account()
	if err != nil {
		return Checked{}, err
	}
	left, err := f.Unfinished()
	checked := Checked{Entries: len(ledger.Entries), Seasons: seasons, Warnings: account.Warnings}
	for _, file := range left {
		checked.Warnings = append(checked.Warnings, harvest.Unfinished{File: file})
	}
	return checked, err
}

// Reasons says what a check read.
func (c Checked) Reasons() []units.Reason {
	return []units.Reason{
		units.Why("read", "kitchen.yaml, plantings.yaml, dishes, and the journal of every season", "this plot's files, by the same reader as every command", "computed"),
		units.Why("settled", fmt.Sprintf("%d entries", c.Entries), "no lot gives more than was lifted, no entry names what is not there", "computed"),
	}
}
