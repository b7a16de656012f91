package ask

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"trencher/cmd/trencher/demo"
	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/units/strict"
)

// PlotRef names the plot a question is about and the day it is asked for.
type PlotRef struct {
	Dir         string    // the plot folder; "" = the current one
	Demo        bool      // the built-in plot instead
	On          string    // a civil date; "" = today
	SkipDamaged bool      // go on without damaged journal entries
	Now         time.Time // the clock; its zone is the plot's
}

// Plot is an opened plot: the kitchen and the plantings are read, dishes and
// journal on demand. What is wrong in a file is gathered, so that a question
// can report every file's errors together; see Err.
type Plot struct {
	*books
	Name    string // the folder as given, or the demo's name
	On      time.Time
	Kitchen recipes.Kitchen

	where    PlotRef
	problems []error
	learned  map[string]heat.Learned // by crop, once reckoned
}

// Open opens a plot. Its error means that there is none to read; errors in its
// files wait for Err.
func Open(w PlotRef) (*Plot, error) {
	folder, err := openFolder(w)
	if err != nil {
		return nil, err
	}
	if w.Demo {
		w.Now = demo.Day().Add(12 * time.Hour)
	}
	day, err := w.day()
	if err != nil {
		return nil, err
	}
	p := &Plot{books: &books{folder: folder, on: day}, where: w, Name: plotName(w, folder), On: midnight(day)}
	p.Kitchen, err = readWhole(folder)
	p.note(err)
	p.system = p.Kitchen.Measures
	p.plantings, err = folder.Plantings(p.system)
	p.note(err)
	return p, nil
}

// plotName is what answers call the plot: the folder as given, nothing for the
// current one.
func plotName(w PlotRef, folder *journal.Folder) string {
	if !w.Demo && filepath.Clean(w.Dir) == "." {
		return ""
	}
	return folder.Name()
}

func midnight(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, t.Location())
}

// note keeps an error for Err.
func (p *Plot) note(err error) {
	if err != nil {
		p.problems = append(p.problems, err)
	}
}

// Err returns everything found wrong in the plot's files so far, or nil.
func (p *Plot) Err() error { return strict.Join(p.problems...) }

// Dishes reads every dish, in file-name order. Errors wait for Err.
func (p *Plot) Dishes() []recipes.Dish {
	sources, err := p.folder.Dishes()
	p.note(err)
	var dishes []recipes.Dish
	named := map[string]string{}
	for _, source := range sources {
		dish, err := recipes.LoadDish(source.File, source.Data, p.Kitchen)
		if err != nil {
			p.note(err)
			continue
		}
		if first, taken := named[dish.Name]; taken {
			p.note(&strict.Error{File: source.File, Line: 1, Column: 1,
				Problem:  fmt.Sprintf("the name %q stands in %s too", dish.Name, first),
				Accepted: "a name of its own for every dish"})
			continue
		}
		named[dish.Name] = source.File
		dishes = append(dishes, dish)
	}
	return dishes
}

// notesOn are the tasting notes written against a dish, the latest first, from
// the seasons that were read.
func (p *Plot) notesOn(dish string) []string {
	standing, _, err := harvest.Correct(p.entries)
	if err != nil {
		return nil // an account that could not be settled has said so already
	}
	var notes []string
	for _, entry := range slices.Backward(standing) {
		if note, ok := entry.(*harvest.Note); ok && strings.EqualFold(note.Dish, dish) {
			notes = append(notes, note.At.Format("2 January")+": "+note.Says)
		}
	}
	return notes
}

// Account draws up the lots of the day asked for: this season's, and last
// season's that are still in store. Errors wait for Err; the account is then
// empty.
func (p *Plot) Account(ctx context.Context) *harvest.Account {
	empty := &harvest.Account{On: p.on}
	for _, year := range []int{p.on.Year() - 1, p.on.Year()} {
		p.note(p.readSeason(ctx, year, p.where))
	}
	if p.Err() != nil {
		return empty
	}
	if err := p.checkClock(ctx, p.where); err != nil {
		p.note(err)
		return empty
	}
	account, err := p.settle(p.where)
	if err != nil {
		p.note(err)
		return empty
	}
	p.Warnings = append(p.Warnings, account.Stock().Warnings...)
	return account
}
