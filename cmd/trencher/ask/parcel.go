package ask

import (
	"context"
	"io"

	"trencher/harvest/journal"
	"trencher/units/strict"
)

// Pack writes a parcel of the plot and returns what it carries.
func Pack(ctx context.Context, to io.Writer, w PlotRef, which journal.Parcelled) (journal.Parcel, error) {
	plot, err := openMeasures(w)
	if err != nil {
		return journal.Parcel{}, err
	}
	return plot.folder.Pack(ctx, to, which, w.options(plot.Kitchen.Measures))
}

// Taken notes that a parcel has been given away.
func Taken(w PlotRef, parcel journal.Parcel) error {
	folder, err := openFolder(w)
	if err != nil {
		return err
	}
	return folder.Taken(parcel)
}

// Bring takes in a parcel. Its error names every file that could not be taken;
// the others are in the journal all the same, and the answer says how many.
func Bring(ctx context.Context, w PlotRef, data []byte, renew journal.Renewing) (journal.Brought, error) {
	plot, err := openMeasures(w)
	if err != nil {
		return journal.Brought{}, err
	}
	answer, err := plot.folder.Bring(ctx, data, renew, w.options(plot.Kitchen.Measures))
	if err == nil {
		err = strict.Join(answer.Damaged...)
	}
	return answer, err
}
