package ask

import (
	"context"
	"slices"
	"strings"

	"trencher/harvest"
	"trencher/units/strict"
)

// NoteQuestion is a tasting note against a dish.
type NoteQuestion struct {
	PlotRef
	Dish, Says, At string
}

// NoteAnswer is the note as written.
type NoteAnswer struct {
	Note *harvest.Note
	File string
}

// WriteNote writes a tasting note; it is shown when the dish is next made.
func WriteNote(_ context.Context, q NoteQuestion) (NoteAnswer, error) {
	b, err := openToWrite(q.PlotRef)
	if err != nil {
		return NoteAnswer{}, err
	}
	names, err := dishNames(b.folder)
	if err != nil {
		return NoteAnswer{}, err
	}
	i := slices.IndexFunc(names, func(name string) bool { return strings.EqualFold(name, q.Dish) })
	if i < 0 {
		return NoteAnswer{}, &strict.Error{File: "dish " + q.Dish, Problem: "no dish of that name", Accepted: "one of " + strings.Join(names, ", ")}
	}
	if strings.TrimSpace(q.Says) == "" {
		return NoteAnswer{}, &strict.Error{File: "note", Problem: "the note is empty", Accepted: "what to remember, such as \"less salt\""}
	}
	n := &harvest.Note{Dish: names[i], Says: q.Says}
	if n.At, err = q.clock().momentOrDay("at", q.At); err != nil {
		return NoteAnswer{}, err
	}
	file, err := b.folder.Write(n)
	return NoteAnswer{Note: n, File: file}, err
}

// recallNotes reads this season and the last for their tasting notes alone, for
// an answer that rests on no other entry: what is damaged is passed over.
func (p *Plot) recallNotes() {
	options := p.options(p.where)
	options.SkipDamaged = true
	for _, year := range []int{p.on.Year() - 1, p.on.Year()} {
		if season, _, err := p.folder.Season(context.Background(), year, options); err == nil {
			p.entries = append(p.entries, season...)
		}
	}
}
