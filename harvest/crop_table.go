package harvest

import (
	_ "embed" // the table
	"strings"
	"sync"

	"gopkg.in/yaml.v3"

	"trencher/units/measures"
)

//go:embed crops.yaml
var cropRows string

// rowBegins is what each row of crops.yaml begins with, at the start of a line.
const rowBegins = "\n- crop: "

// A cropText is a row of the table as it is written. Most questions are about
// two or three crops: the others are not decoded.
type cropText struct {
	id  string
	row func() CropRow
}

// cropTable cuts the table into its rows, once.
var cropTable = sync.OnceValue(func() []cropText {
	var rows []cropText
	for _, text := range strings.Split(cropRows, rowBegins)[1:] {
		id, _, _ := strings.Cut(text, "\n")
		rows = append(rows, cropText{id: id, row: sync.OnceValue(func() CropRow { return decodeCrop(rowBegins + text) })})
	}
	return rows
})

// cropsByID says where each crop's row stands in cropTable.
var cropsByID = sync.OnceValue(func() map[string]int {
	byID := map[string]int{}
	for at, row := range cropTable() {
		byID[row.id] = at
	}
	return byID
})

// decodeCrop reads one row. It is our own data: a fault in it is our bug, and
// the package's tests read every row.
func decodeCrop(text string) CropRow {
	var rows []CropRow
	d := yaml.NewDecoder(strings.NewReader(text))
	d.KnownFields(true)
	if err := d.Decode(&rows); err != nil || len(rows) != 1 {
		panic("harvest: crops.yaml: " + text + ": " + errorText(err))
	}
	rows[0].Crop = measures.MustCrop(rows[0].ID).Name
	return rows[0]
}

func errorText(err error) string {
	if err == nil {
		return "more than one row"
	}
	return err.Error()
}

// Crops is the embedded table, in its own order. Nobody changes what a row
// points to.
func Crops() []CropRow {
	var rows []CropRow
	for _, each := range cropTable() {
		rows = append(rows, each.row())
	}
	return rows
}

// LookupCrop finds a crop by any of its names. A name that covers several rows
// is the first of them: French beans are dwarf ones, lettuce makes heads.
func LookupCrop(name string) (CropRow, bool) {
	row, ok := rowNamed(name)
	if !ok {
		return CropRow{}, false
	}
	return row.row(), true
}

func rowNamed(name string) (cropText, bool) {
	crop, ok := measures.CropNamed(name)
	if !ok {
		return cropText{}, false
	}
	for _, each := range crop.Kin() {
		if at, ok := cropsByID()[each.ID]; ok {
			return cropTable()[at], true
		}
	}
	return cropText{}, false
}
