package harvest

import (
	"slices"

	"trencher/units/measures"
)

// crops.yaml holds what is known of each crop, and stores.yaml what a crop loses in
// store. library.go is what they come to (cropTable, storeTable), so that no program
// reads them when it starts: `go generate ./harvest` makes it anew
// (library_made_test.go), and TestLibraryIsMade fails until it is.
//
//go:generate go test -run ^TestLibraryIsMade$ -update .

// Crops is the table of crops, in its own order. Nobody changes what a row points to.
func Crops() []CropRow { return slices.Clone(cropTable) }

// LookupCrop finds a crop by any of its names. A name that covers several rows
// is the first of them: French beans are dwarf ones, lettuce makes heads.
func LookupCrop(name string) (CropRow, bool) {
	crop, ok := measures.CropNamed(name)
	if !ok {
		return CropRow{}, false
	}
	for _, each := range crop.Kin() {
		if at := slices.IndexFunc(cropTable, func(row CropRow) bool { return row.ID == each.ID }); at >= 0 {
			return cropTable[at], true
		}
	}
	return CropRow{}, false
}
