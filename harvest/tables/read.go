package tables

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"trencher/harvest"
	"trencher/units"
	"trencher/units/measures"
	"trencher/units/strict"
)

// Row is one weighing of a table, in the words of a journal entry.
type Row struct {
	Line  int               // in the file
	At    string            // 2031-07-12, with a time of day where the table has one
	Name  string            // the planting as the table calls it
	Cells map[string]string // planting, weight, gross, tare, sizes, count, condition, says
	From  map[string]int    // the column in the file each of them came from
}

// Reason is why a row of a table holds no weighing.
type Reason uint8

// The reasons.
const (
	IsTitle Reason = iota // above the head of the table
	IsHead                // the head itself, or again
	IsTotal               // a sum of other rows
	IsEmpty               // nothing was weighed
)

// Passed is a row that holds no weighing, and why.
type Passed struct {
	Line int
	Why  Reason
	Text string
}

// Table is an old table as it was read.
type Table struct {
	Layout Layout
	Rows   []Row
	Passed []Passed
	Bad    strict.Errors // rows that should hold a weighing and cannot be read
}

// What bounds a table, of any kind: its rows, the weighings they hold, and the
// columns of one row. Ten years of a plot weighed every week are some 2,000 rows; a
// column for every week of a year is well within the columns.
const (
	MostRows    = 2_500
	MostColumns = 80
)

// TooMany is the error of a table that is larger than that.
func TooMany(file string) error {
	return &strict.Error{File: file, Problem: fmt.Sprintf("more than %d rows or weighings", MostRows), Accepted: "a table of a few seasons at a time"}
}

// TooWide is the error of a row of more columns than that.
func TooWide(file string, line int) error {
	return &strict.Error{File: file, Line: line, Column: 1, Problem: fmt.Sprintf("more than %d columns", MostColumns), Accepted: "a table of fewer columns, one season at a time"}
}

// Read reads an old table. Its error is [Open], where the layout has to say
// more; or a [strict.Error], where no table can be found.
func Read(file, text string, layout Layout, plantings []harvest.Planting) (Table, error) {
	r := reader{file: file, plantings: plantings, table: Table{Layout: layout}}
	if err := r.split(text); err != nil {
		return Table{}, err
	}
	if err := r.findHead(); err != nil {
		return Table{}, err
	}
	r.findYear()
	r.findMarks()
	if len(r.open) == 0 {
		r.readRows()
	}
	if len(r.table.Rows)+len(r.table.Bad) > MostRows {
		return Table{}, TooMany(file)
	}
	if len(r.open) > 0 {
		return Table{}, r.open
	}
	return r.table, nil
}

// reader is a table on its way to rows.
type reader struct {
	file      string
	plantings []harvest.Planting
	table     Table
	rows      []rawRow
	head      int // the row of heads
	columns   []column
	open      Open
	asked     map[string]bool               // what was asked already
	meant     map[string][]harvest.Planting // by the table's name for them
}

type rawRow struct {
	line    int
	cells   []string
	columns []int
}

func (r *reader) ask(field, value, problem, accepted string) {
	if r.asked == nil {
		r.asked = map[string]bool{}
	}
	key := field + "\n" + value
	if field == "unit" {
		key = field // one answer is for all
	}
	if !r.asked[key] {
		r.asked[key] = true
		r.open = append(r.open, units.WrongField(field, value, problem, accepted))
	}
}

func (r *reader) bad(line, column int, problem, accepted string) {
	if n := len(r.table.Bad); n > 0 && r.table.Bad[n-1].Line == line && r.table.Bad[n-1].Problem == problem {
		return // said already, of another cell of the row
	}
	r.table.Bad = append(r.table.Bad, &strict.Error{File: r.file, Line: line, Column: max(column, 1), Problem: problem, Accepted: accepted})
}

// split takes the text apart into cells.
func (r *reader) split(text string) error {
	if r.table.Layout.Separator == 0 {
		r.table.Layout.Separator = separatorOf(text)
	}
	in := csv.NewReader(strings.NewReader(text))
	in.Comma, in.FieldsPerRecord, in.LazyQuotes = r.table.Layout.Separator, -1, true
	for {
		cells, err := in.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		var broken *csv.ParseError
		if errors.As(err, &broken) {
			if r.bad(broken.Line, broken.Column, broken.Err.Error(), "cells in straight quotes, or none"); len(r.table.Bad) > MostRows {
				return TooMany(r.file)
			}
			continue
		}
		row := rawRowOf(in, cells)
		switch {
		case len(r.rows) >= MostRows:
			return TooMany(r.file)
		case len(cells) > MostColumns:
			return TooWide(r.file, row.line)
		case strings.Join(row.cells, "") != "":
			r.rows = append(r.rows, row)
		}
	}
}

// rawRowOf is the row that was read last.
func rawRowOf(in *csv.Reader, cells []string) (row rawRow) {
	row.line, _ = in.FieldPos(0)
	for i, cell := range cells {
		_, at := in.FieldPos(i)
		row.cells, row.columns = append(row.cells, Plain(strings.Join(strings.Fields(cell), " "))), append(row.columns, at)
	}
	return row
}

// separatorOf is what parts the cells of most of the first lines.
func separatorOf(text string) rune {
	best, most := ',', 0
	for _, mark := range []rune{'\t', ';', '|', ','} {
		n, lines := 0, 0
		for line := range strings.Lines(text) {
			if lines++; lines > 30 {
				break
			}
			if strings.ContainsRune(line, mark) {
				n++
			}
		}
		if n > most {
			best, most = mark, n
		}
	}
	return best
}

// mostTitles is how many rows may stand above the head.
const mostTitles = 20

// findHead finds the row that says what the columns hold.
func (r *reader) findHead() error {
	for i, row := range r.rows[:min(len(r.rows), mostTitles)] {
		columns := make([]column, len(row.cells))
		for c, cell := range row.cells {
			columns[c] = readHead(cell, r.table.Layout.Columns)
		}
		if !r.isHead(columns) && !(r.dateByCells(i, columns) && r.isHead(columns)) {
			continue
		}
		r.head, r.columns = i, columns
		for _, title := range r.rows[:i] {
			r.table.Passed = append(r.table.Passed, Passed{title.line, IsTitle, joined(title)})
		}
		return r.checkColumns(row)
	}
	first := 1
	if len(r.rows) > 0 {
		first = r.rows[0].line
	}
	return &strict.Error{File: r.file, Line: first, Column: 1, Problem: "no head of a table: no row names a column of dates and one of weights",
		Accepted: "a row such as date, planting, kg; or say what a column holds, as: when it was=date"}
}

// dateByCells takes the one column for that of dates whose cells are dates, where no
// head says it is: "Harvested" may stand over days or over weights.
func (r *reader) dateByCells(head int, columns []column) (found bool) {
	if head+1 >= len(r.rows) || slices.ContainsFunc(columns, func(c column) bool { return c.kind == "date" || c.kind == "day" }) {
		return false
	}
	for i := range columns {
		if kind := columns[i].kind; kind != "" && kind != "weight" || columns[i].unit != "" || columns[i].head == "" {
			continue
		}
		if _, ok := readDate(r.rows[head+1].cell(i)); ok {
			columns[i].kind = "date"
			return true
		}
	}
	return false
}

// isHead tells a row of heads: a date and something to weigh, or a planting and
// days.
func (r *reader) isHead(columns []column) bool {
	n := map[string]int{}
	for i := range columns {
		n[columns[i].kind]++
	}
	switch {
	case n["date"] == 1 && n["weight"]+n["gross"] > 0:
		return true
	case n["day"] >= 2:
		if n["planting"] == 0 && (columns[0].kind == "" || columns[0].kind == "weight") {
			columns[0].kind = "planting" // the corner of the table says something else, or nothing
		}
		return columns[0].kind == "planting" || n["planting"] == 1
	}
	return n["date"] == 1 && r.nameColumns(columns)
}

// nameColumns takes columns whose heads are none of the words known for plantings,
// where one of them at least is the name of one; named tells whether it is so.
func (r *reader) nameColumns(columns []column) (named bool) {
	other := func(c column) bool { return c.kind == "" && c.head != "" }
	if !slices.ContainsFunc(columns, func(c column) bool { return other(c) && r.means(c.head) != nil }) {
		return false
	}
	for i := range columns {
		if other(columns[i]) {
			columns[i].kind, columns[i].name = "named", columns[i].head
		}
	}
	return true
}

// checkColumns asks about columns that leave open which of them counts.
func (r *reader) checkColumns(row rawRow) error {
	var weights []string
	for i := range r.columns {
		if r.columns[i].kind == "weight" {
			weights = append(weights, r.columns[i].unit)
		}
		if r.columns[i].kind == "" && r.columns[i].head != "" {
			r.columns[i].kind = "remark"
		}
	}
	slices.Sort(weights)
	if len(weights) > 1 && !slices.Equal(weights, []string{"lb", "oz"}) {
		return &strict.Error{File: r.file, Line: row.line, Column: 1, Problem: fmt.Sprintf("%d columns of weights: which of them counts?", len(weights)),
			Accepted: "what the others hold, as: kg=nothing"}
	}
	return nil
}

// findYear finds the one year the titles name, for dates and weeks without.
func (r *reader) findYear() {
	if r.table.Layout.Year != 0 {
		return
	}
	years := map[string]bool{}
	for _, row := range r.rows[:r.head+1] {
		for _, cell := range row.cells {
			if _, isDate := readDate(cell); isDate {
				continue
			}
			for _, year := range yearAlone.FindAllString(cell, -1) {
				years[year] = true
			}
		}
	}
	if len(years) == 1 {
		for year := range years {
			r.table.Layout.Year = number(year)
		}
	}
}

// cell is one cell of a row; "" past its end.
func (row rawRow) cell(i int) string {
	if i >= len(row.cells) {
		return ""
	}
	return row.cells[i]
}

func (row rawRow) column(i int) int {
	if i >= len(row.columns) {
		return 1
	}
	return row.columns[i]
}

// Plain takes off the mark that keeps a spreadsheet from running a cell; see
// [Guarded].
func Plain(cell string) string {
	if len(cell) > 1 && cell[0] == '\'' && strings.IndexByte(runs+"'", cell[1]) >= 0 {
		return cell[1:]
	}
	return cell
}

// runs are the characters by which a spreadsheet takes a cell for a formula.
const runs = "=+-@\t\r"

// Guarded is a cell that a spreadsheet shows and does not run: one that begins
// with = + - @ or a tab has an apostrophe before it. [Plain] takes it off.
func Guarded(cell string) string {
	if cell != "" && strings.IndexByte(runs+"'", cell[0]) >= 0 {
		return "'" + cell
	}
	return cell
}

// fold brings a name to the form names are compared in.
func fold(name string) string {
	return strings.NewReplacer("'", "", "’", "").Replace(measures.Fold(name)) // Millers Dusk is Miller's Dusk
}

// joined is a row as one text.
func joined(row rawRow) string {
	return strings.Join(strings.Fields(strings.Join(row.cells, " ")), " ")
}
