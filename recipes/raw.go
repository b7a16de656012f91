package recipes

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"slices"
	"strconv"
	"sync"
	"time"

	"trencher/units"
)

// raw.csv is the one table of what is eaten raw: every crop as it counts in
// the kitchen, and a few bought ones; where not, why, and how long what steam does
// not make safe is boiled.
//
//go:embed raw.csv
var rawData []byte

// NotRaw is why a crop is not eaten raw.
type NotRaw struct {
	Because string
	// Boil is how long it is boiled in water at least, because steam is not
	// trusted to take its poison away; 0 where steam does. Rule is the keeping
	// rule that says so.
	Boil time.Duration
	Rule string
}

// RawRow is a row of the table of what is eaten raw.
type RawRow struct {
	Crop string
	May  bool
	Why  NotRaw // where it may not
	units.Provenance
}

// RawRows lists the table of what is eaten raw, in its order.
func RawRows() []RawRow { return slices.Clone(rawRows()) }

var rawRows = sync.OnceValue(func() []RawRow {
	records, err := csv.NewReader(bytes.NewReader(rawData)).ReadAll()
	if err != nil {
		panic("raw.csv: " + err.Error())
	}
	var rows []RawRow
	for _, r := range records[1:] {
		row := RawRow{Crop: CropName(r[0]), May: r[1] == "yes", Why: NotRaw{Because: r[2], Rule: r[4]}, Provenance: units.Provenance{Source: r[5], KnownBy: r[6]}}
		if r[3] != "" {
			minutes, err := strconv.Atoi(r[3])
			if err != nil {
				panic("raw.csv: " + err.Error())
			}
			row.Why.Boil = time.Duration(minutes) * time.Minute
		}
		rows = append(rows, row)
	}
	return rows
})

var rawByCrop = sync.OnceValue(func() map[string]RawRow {
	table := map[string]RawRow{}
	for _, row := range rawRows() {
		table[row.Crop] = row
	}
	return table
})

// EatenRaw tells whether a crop, by any of its names, may be eaten raw; if not,
// why. A crop the table does not list may.
func EatenRaw(crop string) (row RawRow, may bool) {
	row, known := rawByCrop()[CropName(crop)]
	return row, row.May || !known
}

// RawIsKnown tells whether the table says of a crop, by any of its names, whether
// it may be eaten raw. Of another nobody here knows: cassava and taro poison raw.
func RawIsKnown(crop string) bool {
	_, known := rawByCrop()[CropName(crop)]
	return known
}

// MustBoil tells whether a crop, by any of its names, is boiled in water first
// because steam alone is not trusted to make it safe; and how long, by the
// strictest published rule.
func MustBoil(crop string) (why NotRaw, must bool) {
	why = rawByCrop()[CropName(crop)].Why
	return why, why.Boil > 0
}
