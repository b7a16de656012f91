package recipes

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"sync"

	"trencher/units"
)

// raw.csv lists the crops that are not eaten raw, why, and who says so.
//
//go:embed raw.csv
var rawData []byte

// NotRaw is why a crop is not eaten raw.
type NotRaw struct {
	Because string
	units.Provenance
}

var notRaw = sync.OnceValue(func() map[string]NotRaw {
	records, err := csv.NewReader(bytes.NewReader(rawData)).ReadAll()
	if err != nil {
		panic("raw.csv: " + err.Error())
	}
	table := map[string]NotRaw{}
	for _, r := range records[1:] {
		table[CropName(r[0])] = NotRaw{r[1], units.Provenance{Source: r[3], KnownBy: r[4]}}
	}
	return table
})

// EatenRaw tells whether a crop, by any of its names, may be eaten raw; if not,
// why. A crop the table does not list may.
func EatenRaw(crop string) (why NotRaw, may bool) {
	why, not := notRaw()[CropName(crop)]
	return why, !not
}
