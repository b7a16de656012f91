package recipes

import (
	_ "embed"
	"slices"
	"time"

	"trencher/units"
)

// NotRaw is why a crop is not eaten raw.
type NotRaw struct {
	Because string
	// Boil is how long it is boiled in water at least, because steam is not
	// trusted to take its poison away; 0 where steam does. Rule is the keeping
	// rule that says so.
	Boil time.Duration
	Rule string
}

// RawRow is a row of raw.csv, the one table of what is eaten raw: every crop as it
// counts in the kitchen, and a few bought ones; where not, why, and how long what
// steam does not make safe is boiled.
type RawRow struct {
	Crop string
	May  bool
	Why  NotRaw // where it may not
	units.Provenance
}

// RawRows lists the table of what is eaten raw, in its order.
func RawRows() []RawRow { return slices.Clone(rawRows) }

// rawRow is the row of a crop, by any of its names.
func rawRow(crop string) (RawRow, bool) {
	name := CropName(crop)
	at := slices.IndexFunc(rawRows, func(row RawRow) bool { return row.Crop == name })
	if at < 0 {
		return RawRow{}, false
	}
	return rawRows[at], true
}

// EatenRaw tells whether a crop, by any of its names, may be eaten raw; if not,
// why. A crop the table does not list may.
func EatenRaw(crop string) (row RawRow, may bool) {
	row, known := rawRow(crop)
	return row, row.May || !known
}

// RawIsKnown tells whether the table says of a crop, by any of its names, whether
// it may be eaten raw. Of another nobody here knows: cassava and taro poison raw.
func RawIsKnown(crop string) bool {
	_, known := rawRow(crop)
	return known
}

// MustBoil tells whether a crop, by any of its names, is boiled in water first
// because steam alone is not trusted to make it safe; and how long, by the
// strictest published rule.
func MustBoil(crop string) (why NotRaw, must bool) {
	row, _ := rawRow(crop)
	return row.Why, row.Why.Boil > 0
}
