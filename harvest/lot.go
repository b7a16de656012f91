package harvest

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"trencher/units"
)

// Lot is what one lift gave of one size and one condition, with what became of
// it. Weights are exact grams as lifted.
type Lot struct {
	// ID never changes: planting, moment of the lift, size and condition, as
	// in "tub-3/2031-0712-1640/20-45-scabby".
	ID string
	// Name is what it is called, on sacks too: its ShortName, unless a lot
	// that was lifted before it has that; it stays, whatever comes after.
	Name      string
	Called    string // the word that tells its lift from others; "" for most
	*Planting        // what it grew as; shared, never changed
	Sizes     units.Band
	Condition Condition
	Count     int             // pieces when lifted, 0 when not counted
	Lifted    time.Time       // the moment
	Gave      decimal.Decimal // g when lifted
	Went      Went
	Weight    decimal.Decimal // g on hand, stored ones included; never below 0
	Supply    decimal.Decimal // g on hand after the trim of its condition
	// KeepsUntil is the last day it keeps raw; the zero time when no row of
	// the crop table tells.
	KeepsUntil time.Time
	Keeping    *KeepsRaw // the row KeepsUntil comes from, shared; nil: none tells
	// First tells a lot to be used first: damaged, at or past KeepsUntil, some of
	// it found rotten, or more than the household eats in time.
	First bool
	Past  bool // more than twice its life since it was last looked over: not planned on
	// Kept is where it lies, shared with other lots; nil: nobody said. See [Lot.Lies].
	Kept *Lying
}

// Went tells where the grams of a lot, a lift or a planting went. The six add
// up to what was lifted, exactly. OnHand is below zero when more was taken
// than there was, Dried when a later weighing found more.
type Went struct{ Kitchen, Stored, Given, Compost, Dried, OnHand decimal.Decimal }

// Sum adds the six up.
func (w Went) Sum() decimal.Decimal {
	return decimal.Sum(w.Kitchen, w.Stored, w.Given, w.Compost, w.Dried, w.OnHand)
}

// Add sums two accounts place by place.
func (w Went) Add(o Went) Went {
	return Went{w.Kitchen.Add(o.Kitchen), w.Stored.Add(o.Stored), w.Given.Add(o.Given),
		w.Compost.Add(o.Compost), w.Dried.Add(o.Dried), w.OnHand.Add(o.OnHand)}
}

// take moves grams to a fate. What leaves the plot is drawn from the loose part
// first and from the stored part when that is used up.
func (w *Went) take(to string, g decimal.Decimal) {
	w.OnHand = w.OnHand.Sub(g)
	switch to {
	case KindStore:
		w.Stored = w.Stored.Add(g)
		return
	case KindUse:
		w.Kitchen = w.Kitchen.Add(g)
	case KindGive:
		w.Given = w.Given.Add(g)
	case KindCompost:
		w.Compost = w.Compost.Add(g)
	}
	if short := w.OnHand.Neg(); short.Sign() > 0 && w.Stored.Sign() > 0 {
		drawn := decimal.Min(short, w.Stored)
		w.Stored = w.Stored.Sub(drawn)
		w.OnHand = w.OnHand.Add(drawn)
	}
}

// liftKey names a lift within all seasons: its year and file name, less the
// part that repeats the planting. For hand-named files it is the name itself.
func liftKey(file, planting string, at time.Time) string {
	stem := strings.Replace(stemOf(file), "-lift-"+planting, "", 1)
	return fmt.Sprintf("%d-%s", at.Year(), stem)
}

// Lots splits the lift into its lots: one for each grade, and one ungraded
// sound lot for the rest. root is the file whose lots these are: the lift's
// own, or the first of the lifts it corrects.
func (l *Lift) Lots(p Planting, root string) []*Lot {
	lots := l.lots(&p, root)
	for _, lot := range lots {
		lot.close(l.At, &figures{})
	}
	return lots
}

// lots are Lots of which nothing is worked out yet.
func (l *Lift) lots(p *Planting, root string) []*Lot {
	prefix := l.lotsBegin(root)
	grades := l.withRest()
	lots := make([]*Lot, 0, len(grades))
	var lies *Lying
	if l.Where != "" {
		lies = &Lying{Where: l.Where}
	}
	for _, g := range grades {
		id := prefix + bandKey(g.Sizes) + "-" + string(g.Condition)
		if n := 1 + alike(lots, g); n > 1 {
			id = fmt.Sprintf("%s-%d", id, n)
		}
		weight := grams(g.Weight)
		lots = append(lots, &Lot{ID: id, Planting: p, Sizes: g.Sizes, Condition: g.Condition, Called: l.Called, Count: g.Count,
			Lifted: l.At, Gave: weight, Went: Went{OnHand: weight}, Kept: lies})
	}
	return lots
}

// alike counts the lots of a grade's size and condition.
func alike(lots []*Lot, g Grade) (n int) {
	for _, lot := range lots {
		if lot.Sizes == g.Sizes && lot.Condition == g.Condition {
			n++
		}
	}
	return n
}

// lotsBegin is how the names of a lift's lots begin; root is as for Lots.
func (l *Lift) lotsBegin(root string) string {
	return l.Planting + "/" + liftKey(cmp.Or(root, l.File), l.Planting, l.At) + "/"
}

// withRest is the grades and, as a last one, what no grade names.
func (l *Lift) withRest() []Grade {
	grades := slices.Clip(l.Grades)
	if rest := l.rest(); rest.Sign() > 0 {
		grades = append(grades, Grade{Weight: rest, Condition: Sound})
	}
	return grades
}

// close works out what is on hand on a day and how long it keeps.
func (l *Lot) close(on time.Time, f *figures) {
	l.Weight = l.Went.OnHand
	if l.Went.Stored.Sign() != 0 {
		l.Weight = l.Weight.Add(l.Went.Stored)
	}
	l.Weight = decimal.Max(decimal.Zero, l.Weight)
	if l.Supply = l.Weight; !l.Condition.whole() {
		l.Supply = l.Weight.Mul(l.Condition.Trim())
	}
	if l.Kept != nil {
		l.Kept.Place, _ = placeOf(l.Kept.Where, l.Kept.Air)
		l.Kept.Loss = f.loss(l)
	}
	l.setKeeping(dayOf(on), f)
}

// figures are rows of the tables that were looked up already: thousands of lots
// share a few. The zero value has none.
type figures struct {
	keeps  map[keptLike]*KeepsRaw
	losses map[keptLike]*StoreRow
}

// keptLike is what a lot's rows depend on.
type keptLike struct {
	crop, class string
	condition   Condition
	place       Keeping
}

func (l *Lot) keptLike() keptLike { return keptLike{l.Crop, l.Class, l.Condition, l.Lies().Place} }

// keeping is how long a lot keeps where it is; nil where nothing tells.
func (f *figures) keeping(l *Lot) *KeepsRaw {
	row, known := f.keeps[l.keptLike()]
	if !known {
		if k, ok := KeptRaw(l.Crop, l.Class, l.Condition, l.Lies().Place); ok {
			row = &k
		}
		if f.keeps == nil {
			f.keeps = map[keptLike]*KeepsRaw{}
		}
		f.keeps[l.keptLike()] = row
	}
	return row
}

// loss is what a lot loses where it is; nil where nothing is published.
func (f *figures) loss(l *Lot) *StoreRow {
	row, known := f.losses[l.keptLike()]
	if !known {
		if r, ok := StoreLoss(l.Crop, l.Lies().Place); ok {
			row = &r
		}
		if f.losses == nil {
			f.losses = map[keptLike]*StoreRow{}
		}
		f.losses[l.keptLike()] = row
	}
	return row
}

// SeasonOf reads the year a lot was lifted from its ID.
func SeasonOf(lotID string) (year int, ok bool) {
	parts := strings.Split(lotID, "/")
	if len(parts) != 3 {
		return 0, false
	}
	_, err := fmt.Sscanf(parts[1], "%4d-", &year)
	return year, err == nil
}

// sortLots puts what to use first on top, then what keeps least, then by crop,
// planting and ID; what is past twice its life, and what is never eaten, at the
// end.
func sortLots(lots []*Lot) {
	slices.SortFunc(lots, func(a, b *Lot) int {
		return cmp.Or(
			compareBool(b.Condition.Edible(), a.Condition.Edible()),
			compareBool(a.Past, b.Past),
			compareBool(b.First, a.First),
			compareDay(a.KeepsUntil, b.KeepsUntil),
			cmp.Compare(a.Crop, b.Crop),
			cmp.Compare(a.Planting.ID, b.Planting.ID),
			cmp.Compare(a.ID, b.ID))
	})
}

func compareBool(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}

// compareDay puts an unknown day after every known one.
func compareDay(a, b time.Time) int {
	if a.IsZero() || b.IsZero() {
		return compareBool(a.IsZero(), b.IsZero())
	}
	return a.Compare(b)
}
