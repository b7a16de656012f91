package ask

import (
	"context"
	"fmt"
	"io"
	"os"

	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/units"
	"trencher/units/strict"
)

// ImportTable brings a table of comma-separated values into the journal. Its
// error names every bad row; the good ones are in the journal all the same, and
// the answer says how many.
func ImportTable(ctx context.Context, w PlotRef, table string) (ImportAnswer, error) {
	plot, err := openMeasures(w)
	if err != nil {
		return ImportAnswer{}, err
	}
	data, err := os.ReadFile(table)
	if err != nil {
		return ImportAnswer{}, err // it names the file and the reason
	}
	answer, err := plot.folder.Import(ctx, journal.Source{File: table, Data: data}, w.options(plot.Kitchen.Measures), w.Now)
	if err == nil && len(answer.Bad) > 0 {
		err = append(strict.Errors{}, answer.Bad...)
	}
	return answer, err
}

// ImportAnswer is what came of a table of weights.
type ImportAnswer = journal.Imported

// ExportTable writes seasons of the journal as comma-separated values: those
// named, or all.
func ExportTable(ctx context.Context, to io.Writer, w PlotRef, seasons ...int) error {
	plot, err := openMeasures(w)
	if err != nil {
		return err
	}
	return plot.folder.Export(ctx, to, w.options(plot.Kitchen.Measures), seasons...)
}

// TableReasons says what form a table of the journal has.
func TableReasons() []units.Reason { return journal.TableReasons() }

// Void strikes out an entry, which stays on the disk.
func Void(ctx context.Context, w PlotRef, file, because string) (*harvest.Void, error) {
	_, ledger, err := openToWrite(w)
	if err != nil {
		return nil, err
	}
	return ledger.Void(ctx, file, because, w.Now)
}

// CheckAnswer is the state of the whole plot folder.
type CheckAnswer struct {
	Entries  int
	Seasons  []int
	Dishes   int
	Warnings []harvest.Warning
}

// Check reads every file of the plot and settles every season. Its error names
// all that is wrong.
func Check(ctx context.Context, w PlotRef) (CheckAnswer, error) {
	p, err := Open(w)
	if err != nil {
		return CheckAnswer{}, err
	}
	answer := CheckAnswer{Dishes: len(p.Dishes())}
	if answer.Seasons, err = p.folder.Seasons(); err != nil {
		return CheckAnswer{}, err
	}
	ledger, err := p.folder.Ledger(ctx, w.options(p.Kitchen.Measures), p.On, answer.Seasons...)
	p.note(err)
	if err := p.Err(); err != nil {
		return CheckAnswer{}, err
	}
	account, err := ledger.Account()
	if err != nil {
		return CheckAnswer{}, err
	}
	left, err := p.folder.Unfinished()
	answer.Entries, answer.Warnings = len(ledger.Entries), account.Warnings
	for _, file := range left {
		answer.Warnings = append(answer.Warnings, harvest.Unfinished{File: file})
	}
	return answer, err
}

// Reasons says what a check read.
func (a CheckAnswer) Reasons() []units.Reason {
	return []units.Reason{
		units.Why("read", "kitchen.yaml, plantings.yaml, dishes, and the journal of every season", "this plot's files, by the same reader as every command", "computed"),
		units.Why("settled", fmt.Sprintf("%d entries", a.Entries), "no lot gives more than was lifted, no entry names what is not there", "computed"),
	}
}
