package ask

import (
	"context"
	"io"

	"trencher/harvest/journal"
	"trencher/units"
	"trencher/units/strict"
)

// Parcel tells what a parcel of the plot would carry now.
func Parcel(ctx context.Context, w PlotRef, which journal.Parcelled) (journal.Parcel, error) {
	plot, err := openMeasures(w)
	if err != nil {
		return journal.Parcel{}, err
	}
	return plot.folder.Contents(ctx, which, w.options(plot.Kitchen.Measures))
}

// Pack writes a parcel of the plot and returns what it carries.
func Pack(ctx context.Context, to io.Writer, w PlotRef, which journal.Parcelled) (journal.Parcel, error) {
	plot, err := openMeasures(w)
	if err != nil {
		return journal.Parcel{}, err
	}
	parcel, err := plot.folder.Contents(ctx, which, w.options(plot.Kitchen.Measures))
	if err != nil {
		return parcel, err
	}
	return parcel, plot.folder.Pack(to, parcel)
}

// Taken notes that a parcel has been given away.
func Taken(w PlotRef, parcel journal.Parcel) error {
	folder, err := openFolder(w)
	if err != nil {
		return err
	}
	return folder.Taken(parcel)
}

// BringFile takes in the parcel of a file; see [Bring].
func BringFile(ctx context.Context, w PlotRef, file string) (journal.Brought, error) {
	data, err := strict.ReadFile(file, journal.LargestParcel)
	if err != nil {
		return journal.Brought{}, err
	}
	return Bring(ctx, w, data, journal.KeepOwn)
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

// Unpack makes a plot of a parcel that holds a whole one, or brings the one
// that is there up to date with it. Entries of it that cannot be read are left
// out: the plot they come from names them.
func Unpack(ctx context.Context, w PlotRef, data []byte) error {
	_, err := journal.Unpack(ctx, w.Dir, data, w.options(units.Metric))
	return err
}
