package ask

import (
	"context"
	"errors"
	"path/filepath"
	"time"

	"trencher/cmd/trencher/demo"
	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/recipes"
	"trencher/units"
	"trencher/units/strict"
)

// PlotRef names the plot a question is about and the day it is asked for.
type PlotRef struct {
	Dir         string    // the plot folder; "" = the current one
	Demo        bool      // the built-in plot instead
	On          string    // a civil date; "" = today
	SkipDamaged bool      // go on without damaged journal entries
	Sure        bool      // what is to be written is meant as it is, see harvest.Doubt
	Now         time.Time // the clock; its zone is the plot's

	Device func() string // the name of this device, asked for when something is written; nil is none
	Form   string        // what a new entry is written by, see harvest.FormOf
}

// zone is where times without a zone are local.
func (w PlotRef) zone() *time.Location {
	if w.Demo {
		return demo.Zone()
	}
	return w.Now.Location()
}

// Clock is where the plot's typed times are read.
func (w PlotRef) Clock() units.Clock { return units.Clock{Now: w.Now, Zone: w.zone()} }

// day is the civil day asked for, local midnight.
func (w PlotRef) day() (time.Time, error) {
	clock := w.Clock()
	if w.Demo {
		clock.Now = demo.Day()
	}
	return clock.Day("on", w.On)
}

// options is how the plot's files are read.
func (w PlotRef) options(measures units.System) journal.Options {
	return journal.Options{System: measures, Zone: w.zone(), SkipDamaged: w.SkipDamaged}
}

// openFolder opens the folder of the plot asked about.
func openFolder(w PlotRef) (*journal.Folder, error) {
	switch {
	case w.Demo:
		return journal.Embedded(demo.Plot(), demo.Name), nil
	case w.Dir == "":
		return journal.Open(".")
	}
	return journal.Open(w.Dir)
}

// Plot is an opened plot: its kitchen is read, the rest on demand. What is
// wrong in a file is gathered, so that a question can report every file's
// errors together; see Err.
type Plot struct {
	Name     string    // the folder as given, or the demo's name; "" for the current folder
	On       time.Time // the day asked for, local midnight
	Kitchen  recipes.Kitchen
	Warnings []string

	where    PlotRef
	folder   *journal.Folder
	guessed  bool            // kitchen.yaml tells no measures that can be read
	entries  []harvest.Entry // of the seasons read
	asOf     harvest.Entry   // the journal is read as it was when this one was written; nil: as it is
	problems []error
}

// Open opens a plot. Its error means that there is none to read; errors in its
// files wait for Err. Where kitchen.yaml tells no measures the rest of the plot
// is read by metric ones.
func Open(w PlotRef) (*Plot, error) {
	folder, err := openFolder(w)
	if err != nil {
		return nil, err
	}
	if w.Demo {
		w.Now = demo.Day().Add(12 * time.Hour)
	}
	p := &Plot{where: w, folder: folder, Name: folder.Name()}
	if p.On, err = w.day(); err != nil {
		return nil, err
	}
	if !w.Demo && filepath.Clean(w.Dir) == "." {
		p.Name = ""
	}
	source, err := folder.Kitchen()
	p.note(err)
	if err == nil {
		p.Kitchen, err = recipes.LoadKitchen(source.File, source.Data)
		p.note(err)
	}
	p.guessed = p.Kitchen.Measures == units.NoSystem
	if p.guessed {
		p.Kitchen.Measures = units.Metric
	}
	if p.Err() != nil {
		p.Kitchen = recipes.DefaultKitchen(p.Kitchen.Measures)
	}
	return p, nil
}

// openMeasures opens a plot of which the measures can be read. That is all that
// reading or writing a weight needs of kitchen.yaml: a slip elsewhere in it
// keeps no weight out.
func openMeasures(w PlotRef) (*Plot, error) {
	p, err := Open(w)
	if err == nil && p.guessed {
		err = p.Err()
	}
	return p, err
}

// author is who writes now.
func (w PlotRef) author() harvest.Author {
	author := harvest.Author{Now: w.Now, Form: w.Form}
	if w.Device != nil {
		author.Device = w.Device()
	}
	return author
}

// openToWrite opens a plot to add to its journal.
func openToWrite(w PlotRef) (*Plot, *harvest.Ledger, error) {
	p, err := openMeasures(w)
	if err != nil {
		return nil, nil, err
	}
	ledger, err := p.folder.LedgerToWrite(w.options(p.Kitchen.Measures))
	if ledger != nil {
		ledger.Sure, ledger.Author = w.Sure, w.author()
	}
	return p, ledger, err
}

// openKitchen opens the folder of the plot asked about and reads its kitchen.
// Where none is named and the current folder is none, the folder is nil and a
// metric kitchen stands in.
func openKitchen(w PlotRef) (*journal.Folder, recipes.Kitchen, error) {
	p, err := Open(w)
	if errors.Is(err, journal.ErrNoPlot) && w.Dir == "" {
		return nil, recipes.DefaultKitchen(units.Metric), nil
	}
	if err != nil {
		return nil, recipes.Kitchen{}, err
	}
	return p.folder, p.Kitchen, p.Err()
}

// note keeps an error for Err.
func (p *Plot) note(err error) {
	if err != nil {
		p.problems = append(p.problems, err)
	}
}

// Err returns everything found wrong in the plot's files so far, or nil.
func (p *Plot) Err() error { return strict.Join(p.problems...) }

// Ledger opens the ledger for the day asked for, or for seasons named. Its error
// is everything found wrong in the plot's files so far, else that the journal is
// ahead of the clock where no day was asked for.
func (p *Plot) Ledger(ctx context.Context, seasons ...int) (*harvest.Ledger, error) {
	ledger, err := p.folder.Ledger(ctx, p.where.options(p.Kitchen.Measures), p.On, seasons...)
	p.note(err)
	if err := p.Err(); err != nil {
		return nil, err
	}
	if len(seasons) == 0 && p.where.On == "" && !p.where.Demo {
		return ledger, ledger.CheckClock(ctx, p.where.Now)
	}
	return ledger, nil
}

// Account draws up the lots of the day asked for: this season's, and last
// season's that are still in store. Errors wait for Err; the account is then
// empty.
func (p *Plot) Account(ctx context.Context) *harvest.Account {
	ledger, err := p.Ledger(ctx)
	if err == nil && p.asOf != nil {
		ledger = ledger.AsOf(p.asOf)
	}
	if err == nil {
		var account *harvest.Account
		if account, err = ledger.Account(); err == nil {
			p.entries = ledger.Entries
			p.Warnings = append(p.Warnings, harvest.Said(account.Stock().Warnings)...)
			return account
		}
	}
	if p.Err() == nil {
		p.note(err)
	}
	return &harvest.Account{On: p.On}
}

// Dishes reads every dish, in file-name order. Errors wait for Err.
func (p *Plot) Dishes() []recipes.Dish {
	sources, err := p.folder.Dishes()
	p.note(err)
	var files []recipes.DishFile
	for _, source := range sources {
		files = append(files, recipes.DishFile(source))
	}
	dishes, wrong := recipes.LoadDishes(files, p.Kitchen)
	for _, err := range wrong {
		p.note(err)
	}
	return dishes
}

// recallNotes reads this season and the last for their tasting notes alone, for
// an answer that rests on no other entry: what is damaged is passed over.
func (p *Plot) recallNotes() {
	options := p.where.options(p.Kitchen.Measures)
	options.SkipDamaged = true
	ledger, _ := p.folder.Ledger(context.Background(), options, p.On)
	p.entries = ledger.Entries
}
