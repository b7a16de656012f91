package ask

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/units"
	"trencher/units/strict"
)

// BatchEventQuestion logs one event in the life of a cooked batch, as typed.
type BatchEventQuestion struct {
	PlotRef
	Event  string // harvest.KindCooked, KindChilled, KindOut, KindReheated, KindEaten or KindBinned
	Name   string // the batch
	At     string // "" = now
	Food   string // cooked
	Dish   string // cooked
	Amount string // cooked, eaten, binned; "" = all of it
	Until  string // out
	Air    string // out
	Says   string
}

// BatchEventAnswer is the event as written, and what to do with the batch now;
// Batch is nil when nothing is left of it.
type BatchEventAnswer struct {
	Event    *harvest.Batch
	File     string
	Batch    *KeptBatch
	Warnings []string
}

// LogBatchEvent writes an event to the journal. Apart from cooked, the batch
// must be one that was cooked and is not gone.
func LogBatchEvent(ctx context.Context, q BatchEventQuestion) (BatchEventAnswer, error) {
	keep := KeepQuestion{PlotRef: q.PlotRef}
	if err := keep.settle(); err != nil {
		return BatchEventAnswer{}, err
	}
	b, err := openToWrite(q.PlotRef)
	if err != nil {
		return BatchEventAnswer{}, err
	}
	event, err := q.read(b)
	if err != nil {
		return BatchEventAnswer{}, err
	}
	if err := b.readBatches(ctx, event.At, q.PlotRef); err != nil {
		return BatchEventAnswer{}, err
	}
	if err := keep.fits(b, event); err != nil {
		return BatchEventAnswer{}, err
	}
	file, err := b.folder.Write(event)
	if err != nil {
		return BatchEventAnswer{}, err
	}
	answer := BatchEventAnswer{Event: event, File: file, Warnings: b.Warnings}
	answer.Batch, err = keep.find(append(b.entries, event), event.Name)
	return answer, err
}

// readBatches reads the seasons in which the batches of a moment can stand. A
// damaged entry is named and left out: it never keeps a new one out.
func (b *books) readBatches(ctx context.Context, at time.Time, w PlotRef) error {
	w.SkipDamaged = true
	for _, year := range []int{at.Year() - 1, at.Year()} {
		if err := b.readSeason(ctx, year, w); err != nil {
			return err
		}
	}
	return nil
}

// read makes the entry of what was typed.
func (q *BatchEventQuestion) read(b *books) (*harvest.Batch, error) {
	e := &harvest.Batch{Event: q.Event, Name: strings.TrimSpace(q.Name), Says: q.Says, Dish: q.Dish}
	if e.Name == "" {
		return nil, &strict.Error{File: q.Event, Problem: "the batch has no name", Accepted: `a name to know it by, such as "potato salad"`}
	}
	var err error
	if e.At, err = q.clock().past("at", q.At); err != nil {
		return nil, err
	}
	if q.Until != "" {
		if e.Until, err = q.clock().past("until", q.Until); err != nil {
			return nil, err
		}
		if e.Until.Before(e.At) {
			return nil, units.WrongField("until", q.Until, "before it came out", "when it went back into the fridge")
		}
	}
	if err := q.readAmounts(e, b.system); err != nil {
		return nil, err
	}
	if q.Event != harvest.KindCooked {
		return e, nil
	}
	return e, q.readFood(e, b)
}

func (q *BatchEventQuestion) readAmounts(e *harvest.Batch, system units.System) error {
	var err error
	if q.Amount != "" {
		if e.Amount, err = units.Parse(q.Amount, system); err != nil {
			return units.WrongField("amount", q.Amount, "not an amount", `portions, as "4", or a weight, as "1.2 kg"`)
		}
		if e.Amount.Sign() <= 0 || e.Amount.IsRange() || e.Amount.IsToTaste() {
			return units.WrongField("amount", q.Amount, "not an amount", `portions, as "4", or a weight, as "1.2 kg"`)
		}
	}
	if q.Air != "" {
		if _, err = celsiusOf("air", q.Air); err != nil {
			return err
		}
		e.Air = units.MustParse(q.Air)
	}
	return nil
}

// readFood settles what a cooked batch is: the food given, else the one the
// dish of that name falls under.
func (q *BatchEventQuestion) readFood(e *harvest.Batch, b *books) error {
	dish, found, err := b.dish(cmp.Or(q.Dish, e.Name))
	if err != nil {
		return err
	}
	if found {
		e.Dish = dish.Name
	}
	e.Food = q.Food
	if e.Food == "" && found {
		e.Food = FoodOf(dish)
	}
	if e.Food == "" {
		return units.WrongField("food", "", "missing; "+e.Name+" is no dish of this plot", "what it is: "+strings.Join(keeping.BatchFoods(), ", "))
	}
	food, err := keeping.LookupBatchFood(e.Food)
	if err != nil {
		return err
	}
	e.Food = food.ID
	return nil
}

// dish finds a dish of the plot by name.
func (b *books) dish(name string) (recipes.Dish, bool, error) {
	kitchen, err := readKitchen(b.folder)
	if err != nil {
		return recipes.Dish{}, false, err
	}
	sources, err := b.folder.Dishes()
	if err != nil {
		return recipes.Dish{}, false, err
	}
	for _, s := range sources {
		dish, err := recipes.LoadDish(s.File, s.Data, kitchen)
		if err == nil && strings.EqualFold(dish.Name, name) {
			return dish, true, nil
		}
	}
	return recipes.Dish{}, false, nil
}

// fits makes sure that an event is of a batch that is there, and can be true.
func (q *KeepQuestion) fits(b *books, event *harvest.Batch) error {
	standing, _, err := harvest.Correct(b.entries)
	if err != nil {
		return err
	}
	if event.Event != harvest.KindCooked {
		if err := named(histories(standing, q.Now), event); err != nil {
			return err
		}
	}
	authority, err := keeping.ParseAuthority(q.authority())
	if err != nil {
		return err
	}
	for _, h := range histories(append(standing, event), q.Now) {
		if !strings.EqualFold(h.name, event.Name) || h.gone() {
			continue
		}
		if _, err := keeping.Judge(h.batch, authority, q.Now); err != nil {
			return fmt.Errorf("%s %s at %s cannot be: %w", event.Name, event.Event, event.At.Format("15:04"), err)
		}
	}
	return nil
}

// named finds the batch an event is of, and gives the event its spelling.
func named(all []*history, event *harvest.Batch) error {
	var names []string
	for _, h := range slices.Backward(all) {
		cooked := h.batch.CookedAt
		switch same := strings.EqualFold(h.name, event.Name); {
		case h.gone() || cooked.IsZero():
		case same && event.At.Before(cooked):
			return units.WrongField("at", event.At.Format("2006-01-02 15:04"), "before "+h.name+" was cooked, "+cooked.Format("2006-01-02 15:04"), "a time after that")
		case same:
			event.Name = h.name
			return nil
		default:
			names = append(names, h.name)
		}
	}
	accepted := "the name of a batch, once it is logged as cooked"
	if len(names) > 0 {
		accepted = "one of " + strings.Join(names, ", ")
	}
	return &strict.Error{File: "batch " + event.Name, Problem: "no batch of that name is there", Accepted: accepted}
}

// find judges the newest batch of a name; nil when nothing is left of it.
func (q *KeepQuestion) find(entries []harvest.Entry, name string) (*KeptBatch, error) {
	kept, err := q.judgeAll(entries)
	if err != nil {
		return nil, err
	}
	slices.SortFunc(kept, func(a, b KeptBatch) int { return b.CookedAt.Compare(a.CookedAt) })
	for _, k := range kept {
		if k.Name == name {
			return &k, nil
		}
	}
	return nil, nil
}
