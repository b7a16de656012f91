package journal

import (
	"bytes"
	"encoding/csv"
	"slices"
	"strings"

	"trencher/harvest"
	"trencher/harvest/tables"
	"trencher/units/charset"
	"trencher/units/pattern"
)

// isOwn tells a table in the journal's own columns and words: its first row
// names them, and its second has a day and a planting as the journal writes
// them.
func (t *importing) isOwn(data []byte) bool {
	in := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))))
	head, err := in.Read()
	if err != nil {
		return false
	}
	row, err := in.Read()
	for i, name := range head {
		name = strings.ToLower(strings.TrimSpace(name))
		if name == "date" {
			name = "at"
		}
		if !slices.Contains(Columns, name) && !weightColumn.MatchString(name) {
			return false
		}
		if err == nil && i < len(row) && !t.isOwnCell(name, strings.TrimSpace(row[i])) {
			return false
		}
	}
	return true
}

// isOwnCell tells that a cell of a column may be the journal's own.
func (t *importing) isOwnCell(column, cell string) bool {
	switch column {
	case "at":
		return ownDay.MatchString(cell)
	case "planting":
		return cell == "" || slices.Contains(harvest.IDs(t.plantings), cell)
	}
	return true
}

// ownDay is a day as the journal writes it.
var ownDay = pattern.New(`^\d{4}-\d{2}-\d{2}`)

// readOld reads a table kept elsewhere into groups of one row.
func (t *importing) readOld(data []byte, words tables.Words) error {
	layout, err := words.Layout(t.plantings)
	if err != nil {
		return err
	}
	text, err := charset.Text(t.file, data, words.Charset)
	if err != nil {
		return err
	}
	table, err := tables.Read(t.file, text, layout, t.plantings)
	if err != nil {
		return err
	}
	t.result.Old, t.result.Layout, t.result.Passed = true, table.Layout, table.Passed
	t.result.Bad = append(t.result.Bad, table.Bad...)
	for _, row := range table.Rows {
		cells := tableRow{line: row.Line, cells: csvRow{"at": row.At}, column: row.From}
		for key, value := range row.Cells {
			cells.cells[key] = value
		}
		t.groups = append(t.groups, &rowGroup{rows: []tableRow{cells}})
	}
	return nil
}
