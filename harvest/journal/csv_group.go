package journal

import (
	"encoding/json"
	"slices"
	"strings"

	"trencher/harvest"
)

// groupText is one entry of a table written as the YAML of an entry, one value
// a line, with the cell each line came from.
type groupText struct {
	yaml   strings.Builder
	places []cell
}

type cell struct{ line, column int }

func (t *groupText) add(row tableRow, column, text string) {
	t.yaml.WriteString(text + "\n")
	t.places = append(t.places, cell{row.line, max(row.column[column], 1)})
}

// pair adds `key: "value"`; a JSON string is a YAML one.
func (t *groupText) pair(row tableRow, column, lead, key, value string) {
	quoted, _ := json.Marshal(value) // a string always marshals
	t.add(row, column, lead+key+": "+string(quoted))
}

// partColumns belong to one bowl or grade; the others to the entry.
var partColumns = map[string][]string{
	partBowl:  {"gross", "tare"},
	partGrade: {"sizes", "weight", "count", "condition"},
	partMake:  {"dish", "portions"},
	partUse:   {"lot", "weight", "dish"},
	partAsked: {"field", "says"},
}

// writeGroup writes the rows of one entry as YAML. A plain row, with neither an
// entry nor a part, is a lift of one bowl, and of one grade where it names
// sizes, a count or a condition.
func writeGroup(g *rowGroup) *groupText {
	t := &groupText{}
	first := g.rows[0]
	kind := first.cells["kind"]
	if kind == "" {
		kind = harvest.KindLift
	}
	t.pair(first, "kind", "", "kind", kind)
	for _, column := range Columns {
		value := first.cells[column]
		if value == "" || column == "entry" || column == "part" || column == "kind" || isPart(kind, column) {
			continue
		}
		if column == "at" && len(value) == len("2031-07-12") {
			value += " 12:00" // a table of days: noon
		}
		t.pair(first, column, "", column, value)
	}
	switch kind {
	case harvest.KindLift:
		t.lift(g)
		return t
	case harvest.KindPlan:
		t.parts(g, "makes:", partMake)
		t.parts(g, "uses:", partUse)
		t.parts(g, "asked:", partAsked)
		return t
	}
	if value, column := first.weight("weight"); column != "weight" && value != "" {
		t.pair(first, column, "", "weight", value)
	}
	return t
}

// partsOf are the parts that entries of a kind are spread over.
var partsOf = map[string][]string{
	harvest.KindLift: {partBowl, partGrade},
	harvest.KindPlan: {partMake, partUse, partAsked},
}

// isPart tells whether a column is of a part of such an entry.
func isPart(kind, column string) bool {
	return slices.ContainsFunc(partsOf[kind], func(part string) bool { return slices.Contains(partColumns[part], column) })
}

// parts adds the rows of one part as a list under a heading.
func (t *groupText) parts(g *rowGroup, heading, part string) {
	headed := false
	for _, row := range g.rows {
		if row.cells["part"] != part {
			continue
		}
		if !headed {
			t.add(row, "part", heading)
			headed = true
		}
		t.list(row, partColumns[part])
	}
}

func (t *groupText) lift(g *rowGroup) {
	t.add(g.rows[0], "gross", "weighings:")
	for _, row := range g.rows {
		if gross, _ := row.weight("gross"); gross != "" {
			t.list(row, partColumns[partBowl])
			continue
		}
		if weight, column := row.weight("weight"); weight != "" && row.cells["part"] == "" {
			t.pair(row, column, "  - ", "gross", weight)
		}
	}
	headed := false
	for _, row := range g.rows {
		if !row.isGrade() {
			continue
		}
		if !headed {
			t.add(row, "weight", "grades:")
			headed = true
		}
		t.list(row, partColumns[partGrade])
	}
}

// isGrade tells whether the row describes a grade.
func (r tableRow) isGrade() bool {
	return r.cells["part"] == partGrade || r.cells["sizes"]+r.cells["count"]+r.cells["condition"] != ""
}

// list adds the row's columns as one element of a list.
func (t *groupText) list(row tableRow, columns []string) {
	lead := "  - "
	for _, key := range columns {
		value, column := row.weight(key)
		if value != "" {
			t.pair(row, column, lead, key, value)
			lead = "    "
		}
	}
	if lead == "  - " {
		t.add(row, columns[0], lead+"{}")
	}
}

// weight is the cell of a column, or of the column of bare numbers that stands
// for it, with its unit; other columns are as they are.
func (r tableRow) weight(key string) (value, column string) {
	if value := r.cells[key]; value != "" {
		return value, key
	}
	for name, value := range r.cells {
		if m := weightColumn.FindStringSubmatch(name); m != nil && m[1] == key && value != "" {
			return value + " " + m[2], name
		}
	}
	return "", key
}
