package journal

import (
	"context"
	"encoding/csv"
	"io"
	"path"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"trencher/harvest"
	"trencher/harvest/tables"
	"trencher/units"
)

// Columns is the header of a journal as comma-separated values (RFC 4180), in
// the order Export writes them. Each is the key of an entry, but for three:
//
//   - entry: the entry's season and file name, 2031/0712-1640-lift-tub-3. Rows
//     of one entry share it.
//   - part: bowl or grade, for the rows of a lift that hold one of its bowls
//     (gross, tare) or grades (weight, sizes, count, condition); make or use,
//     for the rows of a plan that hold one of its dishes (dish, portions),
//     one of its uses (lot, weight, dish); asked, for those of what was asked
//     for (field, says).
//   - at: a moment, or a bare date.
//
// An old table of weights needs three columns alone: at (or date), planting and
// weight. Its rows are lifts of one bowl; sizes, condition and count make them
// lifts of one grade. A column named weight_g, weight_kg, weight_lb or
// weight_oz holds numbers in that unit.
var Columns = []string{"entry", "kind", "at", "planting", "part", "gross", "tare", "weight", "sizes", "count", "condition",
	"lot", "dish", "portions", "plan", "stock", "whom", "where", "because", "says", "mothers", "soil", "left", "called", "rotten",
	"batch", "food", "also", "amount", "until", "air", "crop", "texture", "cut", "minutes", "load", "voids", "replaces", "by", "logged", "step", "form", "field"}

// TableHead is how every table written by [Export] begins.
func TableHead() string { return strings.Join(Columns[:3], ",") }

// The rows a lift, and a plan, is spread over.
const (
	partBowl  = "bowl"
	partGrade = "grade"
	partMake  = "make"
	partUse   = "use"
	partAsked = "asked"
)

// Export writes entries as comma-separated values under Columns, one row for an
// entry, but one for each bowl and each grade of a lift, and each part of a
// plan. A cell that a spreadsheet would run is guarded ([tables.Guarded]); Import
// takes the guard off. What an entry says is
// all in it; the layout and comments of files written by hand are not.
func Export(w io.Writer, entries []harvest.Entry) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	if err := out.Write(Columns); err != nil {
		return err
	}
	for _, e := range entries {
		for _, row := range rowsOf(e) {
			if err := out.Write(row.fields()); err != nil {
				return err
			}
		}
	}
	out.Flush()
	return out.Error()
}

// Export writes seasons of the journal as comma-separated values, as [Export]
// does: those named, or all.
func (f *Folder) Export(ctx context.Context, w io.Writer, o Options, seasons ...int) error {
	if err := harvest.CheckSeasons(seasons...); err != nil {
		return err
	}
	if len(seasons) == 0 {
		var err error
		if seasons, err = f.Seasons(); err != nil {
			return err
		}
	}
	var entries []harvest.Entry
	for _, year := range seasons {
		season, _, err := f.Season(ctx, year, o)
		if err != nil {
			return err
		}
		entries = append(entries, season...)
	}
	return Export(w, entries)
}

// TableReasons says what form a table of the journal has.
func TableReasons() []units.Reason {
	return []units.Reason{units.Why("form", "a header, then a row for each entry", "RFC 4180, comma-separated values", "read")}
}

// Reasons says how a table was read.
func (i Imported) Reasons() []units.Reason {
	return append(TableReasons(), units.Why("weights without a unit", "by the column's name, else by the plot's measures", "weight_kg, weight_g, weight_lb or weight_oz in the header; kitchen.yaml", "given"))
}

// csvRow is one row by column name.
type csvRow map[string]string

func (r csvRow) fields() []string {
	fields := make([]string, len(Columns))
	for i, name := range Columns {
		fields[i] = tables.Guarded(r[name])
	}
	return fields
}

// rowsOf spreads an entry over its rows: its keys in the first, its bowls and
// grades one a row.
func rowsOf(e harvest.Entry) []csvRow {
	m, err := mappingOf(e)
	if err != nil {
		return nil
	}
	season := strconv.Itoa(seasonOf(e))
	if e.Head().File != "" {
		season = path.Base(path.Dir(e.Head().File))
	}
	common := csvRow{"entry": season + "/" + e.Head().Stem(), "kind": e.Kind()}
	first := csvRow{}
	rows := []csvRow{first}
	for pair := range slices.Chunk(m.content, 2) {
		key, value := pair[0].Value, pair[1]
		if value.Kind == yaml.ScalarNode {
			first[key] = value.Value
			continue
		}
		for _, each := range value.Content {
			rows = append(rows, partRow(strings.TrimSuffix(key, "s"), each))
		}
	}
	if len(rows) > 1 {
		bowl := rows[1]
		for key, value := range first {
			bowl[key] = value
		}
		rows = rows[1:]
	}
	for _, row := range rows {
		for key, value := range common {
			row[key] = value
		}
		row["at"], row["planting"] = first["at"], first["planting"]
	}
	return rows
}

// partRow is one bowl or grade as a row.
func partRow(key string, node *yaml.Node) csvRow {
	row := csvRow{"part": key}
	if key == "weighing" {
		row["part"] = partBowl
	}
	for pair := range slices.Chunk(node.Content, 2) {
		row[pair[0].Value] = pair[1].Value
	}
	return row
}
