package journal

import (
	"bytes"
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"trencher/harvest"
	"trencher/harvest/tables"
	"trencher/units"
	"trencher/units/pattern"
	"trencher/units/strict"
)

// Imported tells what became of a table.
type Imported struct {
	Table   string   // the file
	Written []string // the files of the new entries
	Already int      // entries that were in the journal before

	Old     bool            // the table was not in the journal's own columns
	Layout  tables.Layout   // how an old table was read
	Passed  []tables.Passed // the rows of it that hold no weighing
	Entries []harvest.Entry // the new entries, written or about to be
	Lines   []int           // where in the table each of them stands
	Bad     strict.Errors   // what is wrong with each row left out, by line
}

// LargestTable bounds the size, in bytes, of a table to bring in.
const LargestTable = 4 << 20

// Import reads a table of Columns, or an old table by its layout, and writes what
// is not in the journal yet. Bad rows are named and left out; the good ones go in.
// A second import of the same table writes nothing. An entry that the table has
// twice is written twice.
//
// It returns an error when nothing could be read at all, the layout has to say
// more ([tables.Open]), or the disk refuses.
func (f *Folder) Import(ctx context.Context, source Source, layout tables.Words, o Options, now time.Time) (Imported, error) {
	if !f.Writable() {
		return Imported{}, f.readOnly()
	}
	t, err := f.readTable(ctx, source, layout, o, now)
	if err != nil {
		return Imported{}, err
	}
	if err := f.writeAll(t); err != nil {
		return t.result, err
	}
	return t.result, nil
}

// writeAll writes the new entries of a table, all of them or none.
func (f *Folder) writeAll(t *importing) error {
	fresh := slices.DeleteFunc(slices.Clone(t.records), func(r *record) bool { return r.already })
	files, written := make([]newFile, len(fresh)), make([]string, len(fresh))
	err := forEach(len(fresh), func(i int) error {
		file, data, err := f.readBack(fresh[i].entry, fresh[i].stem)
		files[i] = newFile{filepath.Join(f.dir, filepath.FromSlash(path.Dir(file))), path.Base(file), data}
		written[i] = file
		return err
	})
	if err != nil {
		return err
	}
	for i, file := range files {
		if i == 0 || files[i-1].folder != file.folder {
			if err := f.makeSeason(filepath.Base(file.folder)); err != nil {
				return err
			}
		}
	}
	switch err := placeAll(f.disk, files); {
	case errors.Is(err, fs.ErrExist):
		return units.WrongField("", "", fmt.Sprintf("somebody else wrote to the journal just now; import %s again: what is in stays in once", t.file), "")
	case err != nil:
		return notWritten(t.file, err)
	}
	t.result.Written = written
	return nil
}

// Look reads a table as Import does, and writes nothing.
func (f *Folder) Look(ctx context.Context, source Source, layout tables.Words, o Options, now time.Time) (Imported, error) {
	t, err := f.readTable(ctx, source, layout, o, now)
	if err != nil {
		return Imported{}, err
	}
	return t.result, nil
}

// readTable reads a table up to the entries that are not in the journal yet.
func (f *Folder) readTable(ctx context.Context, source Source, layout tables.Words, o Options, now time.Time) (*importing, error) {
	t := &importing{folder: f, file: source.File, options: o, now: now, result: Imported{Table: source.File}}
	var err error
	if t.plantings, err = f.Plantings(o.System); err != nil {
		return nil, err
	}
	own := t.isOwn(source.Data)
	if _, err := layout.Layout(t.plantings); own && err != nil {
		return nil, err // though its own columns need none of it
	}
	if own {
		err = t.read(source.Data)
	} else {
		err = t.readOld(source.Data, layout)
	}
	if err != nil {
		return nil, err
	}
	t.decode()
	if err := t.settle(ctx); err != nil {
		return nil, err
	}
	for _, r := range t.records {
		if r.already {
			t.result.Already++
			continue
		}
		t.result.Entries, t.result.Lines = append(t.result.Entries, r.entry), append(t.result.Lines, r.line)
	}
	slices.SortStableFunc(t.result.Bad, func(a, b *strict.Error) int { return a.Line - b.Line })
	return t, nil
}

// importing is one table on its way into the journal.
type importing struct {
	folder    *Folder
	file      string
	options   Options
	now       time.Time
	plantings []harvest.Planting
	groups    []*rowGroup
	records   []*record
	result    Imported
}

// rowGroup is the rows of one entry.
type rowGroup struct {
	name string // the entry column, or ""
	rows []tableRow
}

// tableRow is one row: its cells by column and where each stands.
type tableRow struct {
	line   int
	cells  csvRow
	column map[string]int
}

// record is an entry read from the table.
type record struct {
	entry   harvest.Entry
	line    int
	stem    string
	already bool
}

func (t *importing) bad(line, column int, problem, accepted string) {
	t.result.Bad = append(t.result.Bad, &strict.Error{File: t.file, Line: line, Column: column, Problem: problem, Accepted: accepted})
}

// read takes the table apart into rows and groups them by entry.
func (t *importing) read(data []byte) error {
	in := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))))
	in.FieldsPerRecord = -1
	header, err := t.header(in)
	if err != nil {
		return err
	}
	byName := map[string]*rowGroup{}
	rows := 0
	for {
		fields, err := in.Read()
		if err == io.EOF {
			return nil
		}
		var broken *csv.ParseError
		if errors.As(err, &broken) {
			if t.bad(broken.Line, broken.Column, broken.Err.Error(), "comma-separated values as RFC 4180 has them"); len(t.result.Bad) > tables.MostRows {
				return tables.TooMany(t.file)
			}
			continue
		}
		line, _ := in.FieldPos(0)
		if rows++; rows > tables.MostRows {
			return tables.TooMany(t.file)
		}
		if len(fields) != len(header) {
			t.bad(line, 1, fmt.Sprintf("%d cells where the header has %d", len(fields), len(header)), "a cell for every column, quoted if it holds a comma")
			continue
		}
		t.group(rowOf(in, header, fields), byName)
	}
}

// rowOf is the row that was read last, by the names of its columns.
func rowOf(in *csv.Reader, header, fields []string) tableRow {
	row := tableRow{cells: csvRow{}, column: map[string]int{}}
	row.line, _ = in.FieldPos(0)
	for i, name := range header {
		row.cells[name] = strings.TrimSpace(tables.Plain(fields[i]))
		_, row.column[name] = in.FieldPos(i)
	}
	return row
}

// group puts a row with the others of its entry; a row that names none is an entry
// of its own.
func (t *importing) group(row tableRow, byName map[string]*rowGroup) {
	if row.isEmpty() {
		return
	}
	group := byName[row.cells["entry"]]
	if group == nil || row.cells["entry"] == "" {
		group = &rowGroup{name: row.cells["entry"]}
		byName[group.name] = group
		t.groups = append(t.groups, group)
	}
	group.rows = append(group.rows, row)
}

func (r tableRow) isEmpty() bool {
	for _, cell := range r.cells {
		if cell != "" {
			return false
		}
	}
	return true
}

// weightColumn is a column of bare numbers in one unit.
var weightColumn = pattern.New(`^(gross|tare|weight)[ _]\(?(g|kg|lb|oz)\)?$`)

func (t *importing) header(in *csv.Reader) ([]string, error) {
	names, err := in.Read()
	if err != nil {
		return nil, strict.Errors{{File: t.file, Line: 1, Column: 1, Problem: "no header can be read", Accepted: "columns such as at,planting,weight"}}
	}
	var wrong strict.Errors
	seen := map[string]bool{}
	for i, name := range names {
		_, column := in.FieldPos(i)
		names[i] = strings.ToLower(strings.TrimSpace(name))
		if names[i] == "date" {
			names[i] = "at"
		}
		base, _, _ := strings.Cut(names[i], "_")
		if !slices.Contains(Columns, names[i]) && !weightColumn.MatchString(names[i]) {
			wrong = append(wrong, &strict.Error{File: t.file, Line: 1, Column: column, Problem: fmt.Sprintf("unknown column %q", name), Accepted: "one of date, " + strings.Join(Columns, ", ")})
		}
		if seen[base] {
			wrong = append(wrong, &strict.Error{File: t.file, Line: 1, Column: column, Problem: fmt.Sprintf("column %q stands twice", name), Accepted: "it once"})
		}
		seen[base] = true
	}
	if !seen["at"] {
		wrong = append(wrong, &strict.Error{File: t.file, Line: 1, Column: 1, Problem: "no column says when", Accepted: "a column named date or at"})
	}
	if len(wrong) > 0 {
		return nil, wrong
	}
	return names, nil
}

// decode turns each group into an entry through the same reader that entries
// on the disk go through, so that the same rules hold.
func (t *importing) decode() {
	for _, g := range t.groups {
		text := writeGroup(g)
		e, err := decodeEntry(Source{File: t.file, Data: []byte(text.yaml.String())}, 0, t.options)
		if err != nil {
			t.misread(text, err)
			continue
		}
		if t.toCome(e.When()) {
			t.bad(g.rows[0].line, g.rows[0].column["at"], e.When().Format(time.DateOnly)+" is still to come", "the day it was")
			continue
		}
		e.Head().Places = harvest.Places{} // they are places in no file of the plot
		t.records = append(t.records, &record{entry: e, line: g.rows[0].line, stem: stemIn(g, e)})
	}
}

// toCome tells whether a day is after the clock, which in a journal is a slip;
// but not where the plot itself was planted after it: then the clock is wrong.
func (t *importing) toCome(day time.Time) bool {
	if day.Format(time.DateOnly) <= t.now.Format(time.DateOnly) {
		return false
	}
	return !slices.ContainsFunc(t.plantings, func(p harvest.Planting) bool { return p.Planted.After(t.now) })
}

// stemIn is the file name the table gives the entry, or a new one.
func stemIn(g *rowGroup, e harvest.Entry) string {
	_, stem, named := strings.Cut(g.name, "/")
	if named && harvest.IsID(stem) {
		return stem
	}
	return stemFor(e)
}

// misread tells the faults of one group at their places in the table.
func (t *importing) misread(text *groupText, err error) {
	var several strict.Errors
	if !errors.As(err, &several) {
		t.bad(text.places[0].line, 1, err.Error(), "")
		return
	}
	for _, one := range several {
		at := text.places[min(max(one.Line, 1), len(text.places))-1]
		t.bad(at.line, at.column, one.Problem, one.Accepted)
	}
}
