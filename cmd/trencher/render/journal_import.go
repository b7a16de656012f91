package render

import (
	"fmt"
	"io"
	"strings"
	"time"

	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/harvest/tables"
	"trencher/units"
)

// ImportWords tells what came of a table of weights.
func ImportWords(a journal.Imported) string {
	text := fmt.Sprintf("%s: %s written", a.Table, count(len(a.Written), "entry", "entries"))
	if a.Already > 0 {
		text += fmt.Sprintf(", %d in the journal already", a.Already)
	}
	if len(a.Bad) > 0 {
		text += fmt.Sprintf(", %s left out", count(len(a.Bad), "row", "rows"))
	}
	return text
}

// ImportText tells what was written; of an old table also how it was read, and
// of one that is only looked at what would be.
func ImportText(w io.Writer, a journal.Imported) error {
	var p page
	if a.Old {
		p.line(fmt.Sprintf("%s, read as: %s", a.Table, layoutWords(a.Layout)))
		for i, e := range a.Entries {
			if i == mostListed {
				p.line(fmt.Sprintf("  ... and %d more; --json lists all", len(a.Entries)-i))
				break
			}
			if lift, ok := e.(*harvest.Lift); ok {
				p.line(fmt.Sprintf("  line %-4d %s  %-20s %10s", a.Lines[i], lift.When().Format("2006-01-02"), lift.Planting, Weight(lift.Net())))
			}
		}
		for _, row := range a.Passed {
			p.line(fmt.Sprintf("  line %-4d %s", row.Line, passedWords(row)))
		}
	}
	switch {
	case a.Old && len(a.Written) == 0 && len(a.Entries) > 0:
		p.line(fmt.Sprintf("%s to write, %d in the journal already. Nothing is written yet: add --write.", count(len(a.Entries), "entry", "entries"), a.Already))
	default:
		p.line(ImportWords(a))
	}
	return p.writeTo(w)
}

// mostListed is how many weighings of a table are shown.
const mostListed = 60

// layoutWords say how an old table was read.
func layoutWords(l tables.Layout) string {
	parts := []string{map[rune]string{',': "commas", ';': "semicolons", '\t': "tabs"}[l.Separator] + " between cells"}
	switch l.Dates {
	case tables.DayFirst:
		parts = append(parts, "day before month")
	case tables.MonthFirst:
		parts = append(parts, "month before day")
	}
	if l.Decimal == ',' {
		parts = append(parts, "decimal commas")
	}
	if l.Unit != "" {
		parts = append(parts, "weights in "+l.Unit)
	}
	if l.Year != 0 {
		parts = append(parts, fmt.Sprintf("of %d where no year stands; a week by its Sunday", l.Year))
	}
	return strings.Join(parts, ", ")
}

// passedWords say why a row holds no weighing.
func passedWords(row tables.Passed) string {
	why := map[tables.Reason]string{tables.IsTitle: "a title", tables.IsHead: "the head", tables.IsTotal: "a total", tables.IsEmpty: "nothing weighed"}[row.Why]
	return fmt.Sprintf("%s: %s", why, short(row.Text, 50))
}

// short is a text of at most so many letters.
func short(text string, most int) string {
	letters := []rune(text)
	if len(letters) <= most {
		return text
	}
	return string(letters[:most-3]) + "..."
}

// TableAsks is an open question of an old table, as a person is asked it.
func TableAsks(open *units.FieldError) string {
	about := ""
	if open.Value != "" {
		about = fmt.Sprintf("%q: ", open.Value)
	}
	return fmt.Sprintf("%s%s\n  %s? ", about, open.Problem, open.Accepted)
}

// ImportJSON writes what came of a table of weights.
func ImportJSON(w io.Writer, a journal.Imported) error {
	type line struct {
		Line     int    `json:"line"`
		At       string `json:"at"`
		Planting string `json:"planting,omitempty"`
		Net      string `json:"net_g,omitempty"`
	}
	lines := []line{}
	for i, e := range a.Entries {
		one := line{Line: a.Lines[i], At: e.When().Format(time.RFC3339)}
		if lift, ok := e.(*harvest.Lift); ok {
			one.Planting, one.Net = lift.Planting, lift.Net().String()
		}
		lines = append(lines, one)
	}
	passed := []int{}
	for _, row := range a.Passed {
		passed = append(passed, row.Line)
	}
	return writeJSON(w, struct {
		Table   string   `json:"table"`
		Written []string `json:"written"`
		Already int      `json:"already"`
		Old     bool     `json:"old"`
		Entries []line   `json:"entries"`
		Passed  []int    `json:"passed_lines"`
	}{a.Table, append([]string{}, a.Written...), a.Already, a.Old, lines, passed})
}
