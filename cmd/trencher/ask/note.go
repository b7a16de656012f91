package ask

import (
	"context"
	"slices"
	"strings"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/units"
)

// NoteQuestion is a tasting note against a dish.
type NoteQuestion struct {
	PlotRef
	Dish, Says, At string
}

// WriteNote writes a tasting note; it is shown when the dish is next made.
func WriteNote(_ context.Context, q NoteQuestion) (*harvest.Note, error) {
	plot, ledger, err := openToWrite(q.PlotRef)
	if err != nil {
		return nil, err
	}
	names := recipes.NamesOf(plot.Dishes())
	i := slices.IndexFunc(names, func(name string) bool { return strings.EqualFold(name, q.Dish) })
	switch {
	case i < 0 && plot.Err() != nil:
		return nil, plot.Err()
	case i < 0:
		return nil, units.WrongField("dish", q.Dish, "no dish of that name", "one of "+strings.Join(names, ", "))
	case strings.TrimSpace(q.Says) == "":
		return nil, units.WrongField("note", "", "the note is empty", "what to remember, such as \"less salt\"")
	}
	n := &harvest.Note{Dish: names[i], Says: q.Says}
	if n.At, err = q.clock().MomentOrDay("at", q.At); err != nil {
		return nil, err
	}
	return n, ledger.Write(n)
}
