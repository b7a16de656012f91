package ask

import (
	"context"
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
	dish, err := recipes.FindAs("dish", plot.Dishes(), q.Dish)
	switch {
	case err != nil && plot.Err() != nil:
		return nil, plot.Err()
	case err != nil:
		return nil, err
	case strings.TrimSpace(q.Says) == "":
		return nil, units.WrongField("note", "", "the note is empty", "what to remember, such as \"less salt\"")
	}
	n := &harvest.Note{Dish: dish.Name, Says: q.Says}
	if n.At, err = q.Clock().MomentOrDay("at", q.At); err != nil {
		return nil, err
	}
	return n, ledger.Write(n)
}
