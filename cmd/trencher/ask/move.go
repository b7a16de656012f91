package ask

import (
	"context"
	"fmt"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"trencher/harvest"
	"trencher/units"
	"trencher/units/strict"
)

// MoveQuestion takes grams out of a lot, as it was typed.
type MoveQuestion struct {
	PlotRef
	To       string // harvest.KindUse, KindGive, KindCompost or KindStore
	Lot      string // its ID, its short name, or a planting with one lot on hand
	Weight   string // "" = all there is
	At       string // "" = now
	Dish     string
	Whom     string
	Lies     string
	Reason   string
	Replaces string // the file of the entry this one corrects
}

// MoveAnswer is the entry as written and what is left of the lot.
type MoveAnswer struct {
	Move     *harvest.Move
	File     string
	Grams    decimal.Decimal
	Lot      *harvest.Lot // as it was before
	Left     decimal.Decimal
	Warnings []string
}

// Move writes what left a lot to the journal.
func Move(ctx context.Context, q MoveQuestion) (MoveAnswer, error) {
	b, err := openToWrite(q.PlotRef)
	if err != nil {
		return MoveAnswer{}, err
	}
	m := &harvest.Move{To: q.To, Dish: q.Dish, Whom: q.Whom, Where: q.Lies, Reason: q.Reason}
	m.Replaces = q.Replaces
	original, _, err := b.original(ctx, q.PlotRef, q.To, q.Replaces)
	if err != nil {
		return MoveAnswer{}, err
	}
	if original != nil && q.At == "" {
		q.At = original.When().Format(time.RFC3339)
	}
	if m.At, err = q.clock().momentOrDay("at", q.At); err != nil {
		return MoveAnswer{}, err
	}
	stock, err := b.stockWithout(ctx, m.At, original, q.PlotRef)
	if err != nil {
		return MoveAnswer{}, err
	}
	lot, err := findLot(stock.Lots, q.Lot)
	if err != nil {
		return MoveAnswer{}, err
	}
	warnings, err := checkMoment(m.At, lot, q)
	if err != nil {
		return MoveAnswer{}, err
	}
	if original != nil && lot.Lifted.Year() != seasonOf(original) {
		return MoveAnswer{}, units.WrongField("replaces", q.Replaces, "of another season's lot", "void it and log the new one by itself")
	}
	m.Lot = lot.ID
	grams, err := weigh(m, lot, q.Weight, b.system)
	if err != nil {
		return MoveAnswer{}, err
	}
	file, err := b.folder.Write(m)
	if err != nil {
		return MoveAnswer{}, err
	}
	return MoveAnswer{Move: m, File: file, Grams: grams, Lot: lot, Left: lot.Weight.Sub(grams), Warnings: append(b.Warnings, warnings...)}, nil
}

// stockWithout is the stock a move at a moment may draw on: the lots of its year
// and the year before with everything that ever left them, but without the move
// it corrects.
func (b *books) stockWithout(ctx context.Context, at time.Time, original harvest.Entry, w PlotRef) (harvest.StockList, error) {
	for _, year := range []int{at.Year() - 1, at.Year()} {
		if err := b.readSeason(ctx, year, w); err != nil {
			return harvest.StockList{}, err
		}
	}
	b.on = lastOf(b.entries, at)
	if original != nil {
		v := &harvest.Void{Voids: original.Head().File}
		v.At, v.File = at, harvest.Beside(original.Head().File, "not-yet-written")
		b.entries = append(b.entries, v)
	}
	account, err := b.settle(w)
	if err != nil {
		return harvest.StockList{}, err
	}
	return account.Stock(), nil
}

// checkMoment keeps a move between the lift and the clock. Where the lot was
// lifted after the clock, the clock is plainly not the plot's.
func checkMoment(at time.Time, lot *harvest.Lot, q MoveQuestion) (warnings []string, err error) {
	day := lot.Lifted.Format(time.DateOnly)
	switch {
	case at.Format(time.DateOnly) < day:
		return nil, units.WrongField("at", at.Format(time.DateOnly), "before "+lot.Name+" was lifted, on "+day, "a time after that, as "+day+"T18:00")
	case !q.clock().isAhead(at):
		return nil, nil
	case lot.Lifted.After(q.Now):
		return []string{fmt.Sprintf("this machine's clock says %s, before %s was lifted; the time given was taken as it is",
			q.Now.Format(time.DateOnly), lot.Name)}, nil
	}
	return nil, q.clock().stillToCome("at", q.At, "when it left the plot")
}

// weigh settles how much leaves the lot: what was given, or all there is.
func weigh(m *harvest.Move, lot *harvest.Lot, text string, system units.System) (decimal.Decimal, error) {
	if m.To == harvest.KindUse && !lot.Condition.Edible() {
		return decimal.Zero, fmt.Errorf("%s is %s: it never goes to the kitchen, only to the compost", lot.Name, lot.Condition)
	}
	if text == "" {
		m.Weight = units.New(lot.Weight, units.Gram)
		return lot.Weight, nil
	}
	weight, err := harvest.ParseWeight(text, system)
	if err != nil {
		return decimal.Zero, err
	}
	grams, _ := harvest.Grams(weight)
	switch {
	case grams.Sign() <= 0:
		return decimal.Zero, fmt.Errorf("%q is no weight to take; write what leaves %s, such as 800 g", text, lot.Name)
	case grams.Cmp(lot.Weight) > 0:
		return decimal.Zero, fmt.Errorf("%s is more than the %s g there is of %s; leave the weight out to take it all", text, lot.Weight, lot.Name)
	}
	m.Weight = weight
	return grams, nil
}

// findLot finds the lot on hand that a name means: its ID, its short name, or
// the beginning of one that no other lot shares.
func findLot(lots []*harvest.Lot, name string) (*harvest.Lot, error) {
	var exact, begins []*harvest.Lot
	for _, l := range lots {
		switch {
		case l.ID == name || l.Name == name:
			exact = append(exact, l)
		case l.Planting == name || strings.HasPrefix(l.ID, name) || strings.HasPrefix(l.Name, name) || strings.HasPrefix(l.ShortName(), name):
			begins = append(begins, l)
		}
	}
	found := exact
	if len(found) == 0 {
		found = begins
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return nil, &strict.Error{File: "lot " + name, Problem: "nothing of that name is on hand", Accepted: lotNames(lots)}
	}
	return nil, &strict.Error{File: "lot " + name, Problem: "more than one lot goes by that name", Accepted: lotNames(found)}
}

func lotNames(lots []*harvest.Lot) string {
	if len(lots) == 0 {
		return "(there is nothing on hand)"
	}
	var names []string
	for _, l := range lots {
		names = append(names, l.Name)
	}
	return "one of " + strings.Join(names, ", ")
}
