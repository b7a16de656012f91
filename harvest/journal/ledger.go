package journal

import (
	"context"
	"fmt"
	"time"

	"trencher/harvest"
	"trencher/units/strict"
)

// Ledger opens the plot's ledger for a question about a day: the plantings, and
// the seasons that day's account rests on (see [harvest.Ledger.Read]), or those
// named. All that is wrong in the files is told at once, as [strict.Errors];
// beside an error the ledger holds what could be read.
func (f *Folder) Ledger(ctx context.Context, o Options, on time.Time, seasons ...int) (*harvest.Ledger, error) {
	plantings, err := f.Plantings(o.System)
	ledger := harvest.NewLedger(shelf{f, o}, plantings, o.SkipDamaged)
	return ledger, strict.Join(err, ledger.Read(ctx, on, seasons...))
}

// LedgerToWrite opens the plot's ledger to add to it: the plantings, but no
// entry that the new one does not rest on, so that a damaged file in the
// journal never keeps a new weight out. On an embedded plot it returns
// [ErrReadOnly].
func (f *Folder) LedgerToWrite(o Options) (*harvest.Ledger, error) {
	if !f.Writable() {
		return nil, f.readOnly()
	}
	plantings, err := f.Plantings(o.System)
	return harvest.NewLedger(shelf{f, o}, plantings, o.SkipDamaged), err
}

func (f *Folder) readOnly() error { return fmt.Errorf("%s: %w", f.name, ErrReadOnly) }

// shelf is the folder's journal, read with one set of options.
type shelf struct {
	*Folder
	options Options
}

// Season reads the entries of one year.
func (s shelf) Season(ctx context.Context, year int) ([]harvest.Entry, []harvest.LeftOut, error) {
	return s.Folder.Season(ctx, year, s.options)
}
