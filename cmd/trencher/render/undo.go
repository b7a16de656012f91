package render

import (
	"fmt"
	"io"
	"strings"

	"trencher/harvest"
)

// UndoText tells what was taken back, and where that stands.
func UndoText(w io.Writer, a harvest.Undone) error {
	var p page
	p.wrapped("", "taken back: "+EntryWords(a.Entry))
	if a.With.Kind() != harvest.KindVoid {
		p.wrapped("", "it stands again as it was: "+EntryWords(a.With))
	}
	p.line("written to " + a.With.Head().File)
	return p.writeTo(w)
}

// UndoJSON writes the same for scripts.
func UndoJSON(w io.Writer, a harvest.Undone) error {
	return writeJSON(w, struct {
		Kind  string `json:"kind"`
		Entry string `json:"entry"`
		File  string `json:"file"`
	}{a.Entry.Kind(), a.Entry.Head().File, a.With.Head().File})
}

// EntryWords tells an entry in a line: what, how much, when.
func EntryWords(e harvest.Entry) string {
	return entryWhat(e) + ", " + e.When().Format("Mon 2 Jan 15:04")
}

func entryWhat(e harvest.Entry) string {
	switch e := e.(type) {
	case *harvest.Lift:
		return "lift of " + e.Planting + ", " + grams(e.Net())
	case *harvest.Move:
		g, _ := harvest.Grams(e.Weight)
		return fmt.Sprintf("%s of %s %s", grams(g), e.Lot, moveVerbs[e.To])
	case *harvest.Reweighed:
		return e.Lot + " weighed again"
	case *harvest.BatchEvent:
		return joinNonEmpty(", ", e.Name+" "+e.Event, batchAmount(e))
	case *harvest.Planned:
		var dishes []string
		for _, m := range e.Makes {
			dishes = append(dishes, fmt.Sprintf("%s %d", m.Dish, m.Portions))
		}
		return "plan " + e.ID + ": " + strings.Join(dishes, ", ")
	case *harvest.Note:
		return "note on " + e.Dish + ": " + e.Says
	case *harvest.Told:
		return joinNonEmpty(" ", tellingWords[e.What], "in the cooking of plan "+e.Plan)
	case *harvest.Steamed:
		return fmt.Sprintf("knife test of %s, %s, %s after %g min", e.Crop, e.Cut, saidWords(*e), e.Minutes)
	}
	return e.Kind()
}

// tellingWords are what a cook said of a step.
var tellingWords = map[harvest.Telling]string{harvest.ToldDone: "a step done", harvest.ToldNotYet: "not yet tender", harvest.ToldOver: "past tender",
	harvest.ToldFiveLate: "five minutes late"}
