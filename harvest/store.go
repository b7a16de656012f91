package harvest

import (
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"trencher/units"
)

// StoreRow is what a crop loses in a place of store, by published figures.
type StoreRow struct {
	ID               string      `yaml:"crop"`
	Crop             string      `yaml:"-"`
	Place            Keeping     `yaml:"place"`
	Dries            []LossPoint `yaml:"dries"`  // of the weight
	Spoils           []LossPoint `yaml:"spoils"` // of what has not dried away
	units.Provenance `yaml:",inline"`
}

// LossPoint is the share that is lost after so many days.
type LossPoint struct{ Days, Share float64 }

// StoreRows is the embedded table of losses. It is shared: nobody changes it.
func StoreRows() []StoreRow { return storeTable }

// StoreLoss is the row of a crop in a place; ok is false where nothing is
// published of it.
func StoreLoss(crop string, place Keeping) (row StoreRow, ok bool) {
	rows := StoreRows()
	i := slices.IndexFunc(rows, func(r StoreRow) bool { return r.Crop == crop && r.Place == place })
	if i < 0 {
		return StoreRow{}, false
	}
	return rows[i], true
}

// shareAt is the share lost after some days: on straight lines through the
// points, from nothing, and on as before beyond the last one.
func shareAt(points []LossPoint, days float64) float64 {
	before := LossPoint{}
	slope := 0.0
	for _, p := range points {
		slope = (p.Share - before.Share) / (p.Days - before.Days)
		if days <= p.Days {
			break
		}
		before = p
	}
	return min(1, before.Share+slope*(days-before.Days))
}

// Dried is the share of the weight that is gone after some days.
func (r StoreRow) Dried(days float64) float64 { return shareAt(r.Dries, days) }

// Fit is the share that is still there and fit to eat after some days.
func (r StoreRow) Fit(days float64) float64 {
	return (1 - shareAt(r.Dries, days)) * (1 - shareAt(r.Spoils, days))
}

// warmStore is the air, in Celsius, from which a cool store is none: it keeps
// as a room does. Common practice, no source.
const warmStore = 14

// placeOf is the kind of place a lot lies in: by its name or a part of it, as
// in "shed, paper sack", unless the air there is too warm for that.
func placeOf(where string, air units.Quantity) (Keeping, bool) {
	for part := range strings.SplitSeq(where, ",") {
		place, ok := KeepingPlace(part)
		if !ok {
			continue
		}
		if celsius, err := air.Float64(units.Celsius); air.IsValid() && err == nil && celsius >= warmStore && place != InFridge {
			return InRoom, true
		}
		return place, true
	}
	return "", false
}

// Expected is what is likely left of a lot on a day, if nobody takes from it.
type Expected struct {
	On               time.Time
	Grams, Low, High decimal.Decimal // g fit to eat, rounded to whole grams
}

// mostMonths is how far ahead a store is told.
const mostMonths = 6

// Lying is where a lot lies, and what the scale said of it since it was lifted.
type Lying struct {
	Where  string
	Air    units.Quantity // how warm it is there; none: nobody said
	Place  Keeping        // the kind of place that is; "" where its name tells none
	Looked time.Time      // when it was last on the scale; zero: not since it was lifted
	Rot    bool           // some of it was rotten then
	Loss   *StoreRow      // what it loses there, shared; nil where nothing is published
}

// Lies is where the lot lies, and what the scale said of it since.
func (l *Lot) Lies() Lying {
	if l.Kept == nil {
		return Lying{}
	}
	return *l.Kept
}

// move lets the lot lie otherwise than those it shared its place with.
func (l *Lot) move(to Lying) { l.Kept = &to }

// lastWeighed is when the lot was last on the scale.
func (l *Lot) lastWeighed() time.Time {
	if looked := l.Lies().Looked; !looked.IsZero() {
		return looked
	}
	return l.Lifted
}

// Loss is what the lot loses where it lies, shared; nil where nothing is published
// or nothing is left to be eaten.
func (l *Lot) Loss() *StoreRow {
	if !l.Condition.Edible() || l.Weight.Sign() <= 0 {
		return nil
	}
	return l.Lies().Loss
}

// Expect tells how a lot in store shrinks, at the beginning of each month from a
// day on, by published figures; nothing where there are none of its place. The
// band is half the loss to half as much again: common practice, no source.
func (l *Lot) Expect(on time.Time) (months []Expected) {
	row := l.Loss()
	if row == nil {
		return nil
	}
	on = dayOf(on)
	now := l.storedDays(on)
	for i := range mostMonths {
		day := time.Date(on.Year(), on.Month()+time.Month(i+1), 1, 0, 0, 0, 0, time.UTC)
		lost := 1 - row.Fit(l.storedDays(day))/row.Fit(now)
		left := func(share float64) decimal.Decimal {
			return l.Weight.Mul(decimal.NewFromFloat(max(0, 1-share))).Round(0)
		}
		months = append(months, Expected{day, left(lost), left(lost * 1.5), left(lost / 2)})
		if row.Fit(l.storedDays(day)) < 0.5 {
			break
		}
	}
	return months
}

// storedDays is how long a lot has lain in store on a day.
func (l *Lot) storedDays(on time.Time) float64 {
	return dayOf(on).Sub(dayOf(l.Lifted)).Hours() / 24
}
