package tables

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"trencher/harvest"
	"trencher/units/measures"
)

// body are the rows below the head that are none of titles, heads or totals.
func (r *reader) body() []rawRow {
	var body []rawRow
	for _, row := range r.rows[r.head+1:] {
		if !isTotal(row.cells) && !slices.Equal(row.cells, r.rows[r.head].cells) {
			body = append(body, row)
		}
	}
	return body
}

// findMarks settles the order of dates and the decimal mark, by the cells that
// leave no choice.
func (r *reader) findMarks() {
	var m marks
	body := r.body()
	for i, c := range r.columns {
		if c.kind == "day" {
			m.date(c.day, c.head)
		}
		for _, row := range body {
			m.cell(c, row.cell(i))
		}
	}
	r.settleDates(m)
	r.settleDecimal(m)
}

// marks are what the cells of a table show of how its dates and weights are written.
type marks struct {
	dayFirst, monthFirst bool
	openDate             string // the first date that may be either
	noYear               bool
	comma, point         bool
	openWeight           string // the first weight that may be either
	openGrams            string // the first of those in grams, which no kitchen scale parts
}

func (m *marks) cell(c column, text string) {
	switch {
	case c.kind == "date":
		if d, ok := readDate(text); ok {
			m.date(d, text)
		}
	case holdsWeight(c.kind):
		comma, point, open := decimalMarks(text)
		m.comma, m.point = m.comma || comma, m.point || point
		if open && m.openWeight == "" {
			m.openWeight = text
		}
		if open && c.unit == "g" && m.openGrams == "" {
			m.openGrams = text
		}
	}
}

func (m *marks) date(d date, text string) {
	switch d.shows() {
	case DayFirst:
		m.dayFirst = true
	case MonthFirst:
		m.monthFirst = true
	case AnyOrder:
		if d.order == AnyOrder && !d.week && m.openDate == "" && d.parts[0] != d.parts[1] {
			m.openDate = text
		}
	}
	if d.order != YearFirst && d.parts[2] == 0 {
		m.noYear = true
	}
}

func holdsWeight(kind string) bool { return isWeight(kind) || kind == "day" || kind == "named" }

func (r *reader) settleDates(m marks) {
	layout := &r.table.Layout
	if m.noYear && layout.Year == 0 {
		r.ask("year", "", "the table does not say of which year its dates are", "the year, as 2031")
	}
	switch {
	case layout.Dates != AnyOrder:
	case m.dayFirst && m.monthFirst:
		r.ask("dates", "", "some dates have the day first, others the month", "dmy or mdy, for those that may be either; the others are left out")
	case m.dayFirst:
		layout.Dates = DayFirst
	case m.monthFirst:
		layout.Dates = MonthFirst
	case m.openDate != "":
		r.ask("dates", m.openDate, "day or month first?", "dmy for day/month/year, or mdy for month/day/year")
	}
}

func (r *reader) settleDecimal(m marks) {
	layout := &r.table.Layout
	switch text := m.openWeight; {
	case layout.Decimal != 0:
	case m.comma && !m.point:
		layout.Decimal = ','
	case m.comma:
		r.ask("decimal", "", "some weights have a decimal comma, others a point", "point or comma, and mend the others")
	case m.point || text == "":
		layout.Decimal = '.'
	case strings.Contains(text, ".") && m.openGrams == "":
		layout.Decimal = '.' // 1.250 with no comma anywhere: a scale's three places
	default:
		r.ask("decimal", cmp.Or(m.openGrams, text), "one and a bit, or more than a thousand?", "comma if that is a decimal comma, else point")
	}
}

// readRows turns the rows into weighings.
func (r *reader) readRows() {
	above := make([]string, len(r.columns))
	for _, row := range r.rows[r.head:] {
		if len(r.table.Rows)+len(r.table.Bad) > MostRows {
			return // more than is taken
		}
		text := joined(row)
		switch {
		case slices.Equal(row.cells, r.rows[r.head].cells):
			r.table.Passed = append(r.table.Passed, Passed{row.line, IsHead, text})
			continue
		case isTotal(row.cells) || r.isSum(row):
			r.table.Passed = append(r.table.Passed, Passed{row.line, IsTotal, text})
			continue
		}
		takeDittos(row, above)
		before := len(r.table.Rows) + len(r.table.Bad) + len(r.open)
		r.readRow(row)
		if before == len(r.table.Rows)+len(r.table.Bad)+len(r.open) {
			r.table.Passed = append(r.table.Passed, Passed{row.line, IsEmpty, text})
		}
	}
}

// takeDittos puts what stands above in the place of ditto marks.
func takeDittos(row rawRow, above []string) {
	for i := range row.cells[:min(len(row.cells), len(above))] {
		if isDitto(row.cells[i]) {
			row.cells[i] = above[i]
		}
		above[i] = row.cells[i]
	}
}

// readRow reads the weighings of one row: one, or one for each day or planting
// that has a column.
func (r *reader) readRow(row rawRow) {
	common, when := r.common(row)
	if r.readWide(row, common, when) {
		return
	}
	for _, kind := range []string{"weight", "gross", "tare"} {
		var parts []string
		for i, c := range r.columns {
			if text := row.cell(i); c.kind == kind && !isNothing(text) {
				parts = append(parts, r.weight(row, i, c))
				common.From[kind] = row.column(i)
			}
		}
		if len(parts) > 0 {
			common.Cells[kind] = strings.Join(parts, " ")
		}
	}
	if common.Cells["weight"]+common.Cells["gross"] != "" {
		r.settle(common, when, row)
	}
}

// rowDate is the date of a row.
type rowDate struct {
	day    date
	column int
	there  bool
}

// common reads what holds for all weighings of a row.
func (r *reader) common(row rawRow) (common Row, when rowDate) {
	common = Row{Line: row.line, Cells: map[string]string{}, From: map[string]int{}}
	for i, c := range r.columns {
		text := row.cell(i)
		if text == "" {
			continue
		}
		switch c.kind {
		case "date":
			when.column = i
			when.day, when.there = readDate(text)
		case "planting":
			common.Name = strings.TrimSpace(common.Name + " " + text)
			common.From["planting"] = row.column(i)
		case "remark":
			r.says(&common, row, i, c.head+": "+text)
		case "says":
			r.says(&common, row, i, text)
		case "sizes", "count", "condition":
			common.Cells[c.kind], common.From[c.kind] = text, row.column(i)
		}
	}
	return common, when
}

// readWide reads the weighings in the columns of days or plantings, and tells whether
// there are any.
func (r *reader) readWide(row rawRow, common Row, when rowDate) (wide bool) {
	for i, c := range r.columns {
		if c.kind != "day" && c.kind != "named" || isNothing(row.cell(i)) {
			continue
		}
		wide = true
		one, on := common.copied(), when
		if c.kind == "day" {
			on.day, on.there = c.day, true
		} else {
			one.Name = c.name
		}
		one.Cells["weight"], one.From["weight"] = r.weight(row, i, c), row.column(i)
		r.settle(one, on, row)
	}
	return wide
}

func (r *reader) says(row *Row, raw rawRow, i int, text string) {
	if row.Cells["says"] != "" {
		text = row.Cells["says"] + "; " + text
	}
	row.Cells["says"], row.From["says"] = text, raw.column(i)
}

func (row Row) copied() Row {
	other := Row{Line: row.Line, Name: row.Name, Cells: map[string]string{}, From: map[string]int{}}
	for key, value := range row.Cells {
		other.Cells[key] = value
	}
	for key, value := range row.From {
		other.From[key] = value
	}
	return other
}

// weight is a cell of a weight with its unit.
func (r *reader) weight(row rawRow, i int, c column) string {
	text := settled(row.cell(i), r.table.Layout.Decimal)
	if !isNumber(text) {
		return text
	}
	unit := c.unit
	if unit == "" {
		unit = r.table.Layout.Unit
	}
	if unit == "" {
		unit = r.unitOfTitles()
	}
	if unit == "" {
		r.ask("unit", text, "the table does not say in which unit its weights are", strings.Join(WeightUnits(), ", "))
		return text
	}
	return text + " " + unit
}

// unitOfTitles is the one unit that the titles and the corner of a table name:
// "Harvest 2031 (kg)".
func (r *reader) unitOfTitles() string {
	found := map[string]bool{}
	for _, row := range r.rows[:r.head+1] {
		for i, cell := range row.cells {
			if row.line == r.rows[r.head].line && i > 0 {
				break
			}
			if u := headUnit.FindStringSubmatch(strings.ToLower(cell)); u != nil {
				found[unitWord(u[2])] = true
			}
		}
	}
	if len(found) != 1 {
		return ""
	}
	for unit := range found {
		r.table.Layout.Unit = unit
	}
	return r.table.Layout.Unit
}

// settle gives a weighing its day and its planting.
func (r *reader) settle(row Row, when rowDate, raw rawRow) {
	column := raw.column(when.column)
	if !when.there {
		if text := raw.cell(when.column); text != "" {
			r.bad(row.Line, column, fmt.Sprintf("%q: not a day", text), "a day, as 12/7/2031, 2031-07-12 or 12 July 2031")
		} else {
			r.bad(row.Line, column, "no day", "the day of the weighing, or the ditto mark \" for the one above")
		}
		return
	}
	on, text, ok := when.day.in(r.table.Layout.Dates, r.table.Layout.Year)
	if !ok {
		r.bad(row.Line, column, fmt.Sprintf("%q: no such day%s", raw.cell(when.column), r.readAs()), "a day there is, or the other order of dates")
		return
	}
	id, ok := r.planting(row.Name, on, row.Line, row.From["planting"])
	if !ok {
		return
	}
	row.At, row.Cells["planting"] = text, id
	r.table.Rows = append(r.table.Rows, row)
}

// means lists the plantings a name of the table may mean: as it is told, else
// by its id, crop, variety or both.
func (r *reader) means(name string) []harvest.Planting {
	if known, ok := r.meant[name]; ok {
		return known
	}
	var found []harvest.Planting
	folded := fold(strings.ReplaceAll(name, ",", " "))
	told := r.table.Layout.Plantings[folded]
	for _, p := range r.plantings {
		crop := fold(p.Crop)
		named := spaced(folded) == spaced(fold(p.ID)) || folded == fold(p.Variety) || folded == crop+" "+fold(p.Variety) || folded == fold(p.Variety)+" "+crop ||
			measures.CropID(name) == measures.CropID(p.Crop) || strings.HasSuffix(spaced(folded), " "+spaced(fold(p.ID))) || cropAndVariety(folded, p)
		if told == p.ID || told == "" && named && name != "" {
			found = append(found, p)
		}
	}
	if r.meant == nil {
		r.meant = map[string][]harvest.Planting{}
	}
	r.meant[name] = found
	return found
}

// readAs is how dates in numbers were read; "" where none had to be.
func (r *reader) readAs() string {
	if order := r.table.Layout.Dates.String(); order != "" {
		return " with the dates read as " + order
	}
	return ""
}

// spaced is an id as it is said: "bed 3" for bed-3.
func spaced(id string) string { return strings.NewReplacer("-", " ", "_", " ", ".", " ").Replace(id) }

// named tells whether the table has a column of plantings.
func (r *reader) named() bool {
	return slices.ContainsFunc(r.columns, func(c column) bool { return c.kind == "planting" })
}

// cropAndVariety tells "Quayside Pearl potatoes" for a planting of that variety and
// crop.
func cropAndVariety(name string, p harvest.Planting) bool {
	variety := fold(p.Variety)
	rest := strings.TrimSpace(strings.TrimSuffix(strings.TrimPrefix(name, variety+" "), " "+variety))
	return variety != "" && rest != name && measures.CropID(rest) == measures.CropID(p.Crop)
}

// planting is the one planting that a name means on a day: of those in the
// ground by then, the ones planted last.
func (r *reader) planting(name string, on time.Time, line, column int) (id string, ok bool) {
	all := r.means(name)
	var standing []harvest.Planting
	for _, p := range all {
		switch {
		case p.Planted.After(on.AddDate(0, 0, 1)):
		case len(standing) > 0 && p.Planted.Year() > standing[0].Planted.Year():
			standing = []harvest.Planting{p}
		case len(standing) == 0 || p.Planted.Year() == standing[0].Planted.Year():
			standing = append(standing, p)
		}
	}
	ids := harvest.IDs(standing)
	if len(ids) == 1 {
		return ids[0], true
	}
	switch {
	case len(ids) > 0:
		r.ask("planting", name, "several plantings may be meant", "which, as "+name+"="+ids[0]+"; those it may be: "+strings.Join(ids, ", "))
	case name == "" && r.named():
		r.bad(line, column, "no planting", "one of "+strings.Join(harvest.IDs(r.plantings), ", "))
	case name == "":
		r.ask("planting", "", "the table does not say what was weighed", "the planting: one of "+strings.Join(harvest.IDs(r.plantings), ", "))
	case len(all) > 0:
		r.bad(line, column, fmt.Sprintf("%s was in no bed by %s", name, on.Format(time.DateOnly)), "a day after it was planted")
	default:
		r.ask("planting", name, "no planting is called that", "which it is, as "+name+"="+first(harvest.IDs(r.plantings), "bed-3")+"; there are "+strings.Join(harvest.IDs(r.plantings), ", "))
	}
	return "", false
}
