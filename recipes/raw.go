package recipes

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"strconv"
	"sync"
	"time"

	"trencher/units"
)

// raw.csv lists the crops that are not eaten raw, why, how long those are boiled
// that steam does not make safe, and who says so.
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
	units.Provenance
}

var notRaw = sync.OnceValue(func() map[string]NotRaw {
	records, err := csv.NewReader(bytes.NewReader(rawData)).ReadAll()
	if err != nil {
		panic("raw.csv: " + err.Error())
	}
	table := map[string]NotRaw{}
	for _, r := range records[1:] {
		why := NotRaw{Because: r[1], Rule: r[3], Provenance: units.Provenance{Source: r[4], KnownBy: r[5]}}
		if r[2] != "" {
			minutes, err := strconv.Atoi(r[2])
			if err != nil {
				panic("raw.csv: " + err.Error())
			}
			why.Boil = time.Duration(minutes) * time.Minute
		}
		table[CropName(r[0])] = why
	}
	return table
})

// EatenRaw tells whether a crop, by any of its names, may be eaten raw; if not,
// why. A crop the table does not list may.
func EatenRaw(crop string) (why NotRaw, may bool) {
	why, not := notRaw()[CropName(crop)]
	return why, !not
}

// MustBoil tells whether a crop, by any of its names, is boiled in water first
// because steam alone is not trusted to make it safe; and how long, by the
// strictest published rule.
func MustBoil(crop string) (why NotRaw, must bool) {
	why = notRaw()[CropName(crop)]
	return why, why.Boil > 0
}
