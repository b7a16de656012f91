package tables

import (
	"fmt"
	"slices"
	"strings"

	"trencher/harvest"
	"trencher/units"
	"trencher/units/measures"
)

// Order is the order of day, month and year in a date of numbers.
type Order uint8

// The orders.
const (
	AnyOrder   Order = iota // not known yet
	DayFirst                // 12/7/2031 is in July
	MonthFirst              // 7/12/2031 is in July
	YearFirst               // 2031-07-12
)

// String is the order as a layout's words have it: dmy, mdy or ymd.
func (o Order) String() string { return [...]string{"", "dmy", "mdy", "ymd"}[o] }

// Layout is how a table is written. The zero value leaves everything to what
// the table shows.
type Layout struct {
	Separator rune   // between cells
	Dates     Order  // of dates in numbers
	Decimal   rune   // '.' or ',' in weights
	Unit      string // of weights that do not say theirs: kg, g, lb or oz
	Year      int    // of dates and weeks that do not say theirs

	Plantings map[string]string // the planting's id by the table's name for it, folded
	Columns   map[string]string // what a column holds by its head, folded
}

// Words are a layout as it is told.
type Words struct {
	Separator, Dates, Decimal, Unit string
	Year                            int
	Plantings, Columns              []string // "Row 3=bed-3", "picked by=says"
	Charset                         string   // the character set of the file; "" = as it shows, else UTF-8
}

// Answer takes the answer to an open question. Its errors are those of Layout.
func (w *Words) Answer(open *units.FieldError, text string, plantings []harvest.Planting) error {
	with := *w
	switch open.Field {
	case "dates":
		with.Dates = text
	case "decimal":
		with.Decimal = text
	case "unit":
		with.Unit = text
	case "year":
		if with.Year = number(text); with.Year == 0 {
			with.Year = -1 // no year, and not "none given"
		}
	case "planting":
		with.Plantings = append(slices.Clip(w.Plantings), open.Value+"="+text)
	}
	_, err := with.Layout(plantings)
	if err == nil {
		*w = with
	}
	return err
}

// kinds are what a column may hold.
var kinds = []string{"date", "planting", "weight", "gross", "tare", "sizes", "count", "condition", "says", "nothing"}

// WeightUnits are the units of weights.
func WeightUnits() []string { return []string{"kg", "g", "lb", "oz"} }

// Layout reads the words. Its errors are [units.FieldError]s of separator,
// dates, decimal, unit, year, planting and column.
func (w Words) Layout(plantings []harvest.Planting) (Layout, error) {
	l := Layout{Unit: w.Unit, Year: w.Year, Plantings: map[string]string{}, Columns: map[string]string{}}
	var ok bool
	if l.Separator, ok = map[string]rune{"": 0, ",": ',', "comma": ',', ";": ';', "semicolon": ';', "tab": '\t', "\t": '\t'}[w.Separator]; !ok {
		return l, units.WrongField("separator", w.Separator, "nothing that parts cells here", "comma, semicolon or tab")
	}
	if l.Dates, ok = map[string]Order{"": AnyOrder, "dmy": DayFirst, "mdy": MonthFirst, "ymd": YearFirst}[strings.ToLower(w.Dates)]; !ok {
		return l, units.WrongField("dates", w.Dates, "no order of a date", "dmy for day/month/year, mdy for month/day/year, or ymd")
	}
	if l.Decimal, ok = map[string]rune{"": 0, ".": '.', "point": '.', ",": ',', "comma": ','}[w.Decimal]; !ok {
		return l, units.WrongField("decimal", w.Decimal, "no decimal mark", "point or comma")
	}
	if w.Unit != "" && !slices.Contains(WeightUnits(), w.Unit) {
		return l, units.WrongField("unit", w.Unit, "no unit of a scale", strings.Join(WeightUnits(), ", "))
	}
	if w.Year != 0 && (w.Year < 1900 || w.Year > 2999) {
		return l, units.WrongField("year", fmt.Sprint(w.Year), "no year of a harvest", "the year as 2031")
	}
	for _, text := range w.Plantings {
		name, id, named := strings.Cut(text, "=")
		if !named { // the one planting of a table that names none
			name, id = "", text
		}
		found, err := harvest.FindPlanting(plantings, strings.TrimSpace(id))
		if err != nil {
			return l, units.WrongField("planting", text, "whose name is that here?", "the table's name and the planting's, as Row 3="+first(harvest.IDs(plantings), "bed-3"))
		}
		l.Plantings[fold(name)] = found
	}
	return l, w.readColumns(l.Columns)
}

// readColumns reads what columns hold by their heads.
func (w Words) readColumns(columns map[string]string) error {
	for _, text := range w.Columns {
		head, kind, _ := strings.Cut(text, "=")
		if kind = strings.TrimSpace(kind); !slices.Contains(kinds, kind) {
			return units.WrongField("column", text, "what does that column hold?", "its head and one of "+strings.Join(kinds, ", ")+", as picked by=says")
		}
		columns[measures.Fold(head)] = kind
	}
	return nil
}

func first(list []string, otherwise string) string {
	if len(list) == 0 {
		return otherwise
	}
	return list[0]
}

// Open are the questions a table leaves open, each a field of [Words] with what
// would answer it.
type Open []*units.FieldError

// Error lists the questions, one on a line.
func (o Open) Error() string {
	lines := make([]string, len(o))
	for i, one := range o {
		lines[i] = one.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap is the list, for errors.As.
func (o Open) Unwrap() []error {
	list := make([]error, len(o))
	for i, one := range o {
		list[i] = one
	}
	return list
}
