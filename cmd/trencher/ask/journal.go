package ask

import (
	"context"
	"io"

	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/harvest/tables"
	"trencher/units/strict"
)

// TableQuestion asks for an old table of weights to be brought into the
// journal.
type TableQuestion struct {
	PlotRef
	tables.Words
	Table string // the file
	Write bool   // write what is in it; a table in the journal's own columns needs no leave
}

// ImportTable brings a table of weights into the journal. An old table is only
// read, unless the question says to write it. Its error names every bad row;
// the good ones are in the journal all the same, and the answer says how many.
func ImportTable(ctx context.Context, q TableQuestion) (journal.Imported, error) {
	plot, err := openMeasures(q.PlotRef)
	if err != nil {
		return journal.Imported{}, err
	}
	data, err := strict.ReadFile(q.Table, journal.LargestTable)
	if err != nil {
		return journal.Imported{}, err
	}
	source, options := journal.Source{File: q.Table, Data: data}, q.options(plot.Kitchen.Measures)
	answer, err := plot.folder.Look(ctx, source, q.Words, options, q.Now)
	if err == nil && (q.Write || !answer.Old) {
		answer, err = plot.folder.Import(ctx, source, q.Words, options, q.Now)
	}
	if err == nil && len(answer.Bad) > 0 {
		err = append(strict.Errors{}, answer.Bad...)
	}
	return answer, err
}

// ExportTable writes seasons of the journal as comma-separated values: those
// named, or all.
func ExportTable(ctx context.Context, to io.Writer, w PlotRef, seasons ...int) error {
	plot, err := openMeasures(w)
	if err != nil {
		return err
	}
	return plot.folder.Export(ctx, to, w.options(plot.Kitchen.Measures), seasons...)
}

// Void strikes out an entry, which stays on the disk.
func Void(ctx context.Context, w PlotRef, file, because string) (*harvest.Void, error) {
	_, ledger, err := openToWrite(w)
	if err != nil {
		return nil, err
	}
	return ledger.Void(ctx, file, because, w.Now)
}

// Ledger opens a plot's ledger to add to it.
func Ledger(w PlotRef) (*harvest.Ledger, error) {
	w.SkipDamaged = true // no damaged entry keeps a mistake in
	_, ledger, err := openToWrite(w)
	return ledger, err
}

// Mend settles what the journals of several devices left open.
func Mend(ctx context.Context, w PlotRef) (journal.Mended, error) {
	plot, err := openMeasures(w)
	if err != nil {
		return journal.Mended{}, err
	}
	return plot.folder.Mend(ctx, w.options(plot.Kitchen.Measures), w.Now)
}

// CheckAnswer is the state of the whole plot folder.
type CheckAnswer struct {
	journal.Checked
	Dishes int
}

// Check reads every file of the plot and settles every season. Its error names
// all that is wrong.
func Check(ctx context.Context, w PlotRef) (CheckAnswer, error) {
	p, err := Open(w)
	if err != nil {
		return CheckAnswer{}, err
	}
	answer := CheckAnswer{Dishes: len(p.Dishes())}
	answer.Checked, err = p.folder.Check(ctx, w.options(p.Kitchen.Measures), p.On)
	p.note(err)
	return answer, p.Err()
}
