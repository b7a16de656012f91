package harvest

import (
	"slices"
	"strings"
	"time"

	"trencher/units"
	"trencher/units/measures"
)

// damagedKeeping caps every crop's keeping when the lot is damaged: used
// within days, never beside sound ones.
var damagedKeeping = KeepsRaw{Days: Range{3, 3}, Where: "use today; never beside sound ones",
	Provenance: units.Practice}

// Keeping is a kind of place that things keep in.
type Keeping string

// The places there are figures for.
const (
	InRoom      Keeping = "room"
	InFridge    Keeping = "fridge"
	CoolDark    Keeping = "cool dark"  // a cellar, a shed without frost
	InSand      Keeping = "sand"       // damp
	InClamp     Keeping = "clamp"      // straw and earth
	InGround    Keeping = "ground"     // where it grew
	InColdStore Keeping = "cold store" // a trade's, cold and humid
)

// placeWords are the words a place goes by: common usage, no source.
var placeWords = map[string]Keeping{
	"room": InRoom, "kitchen": InRoom, "larder": InRoom, "pantry": InRoom,
	"fridge": InFridge, "refrigerator": InFridge,
	"cool dark": CoolDark, "cool and dark": CoolDark, "cellar": CoolDark, "shed": CoolDark, "garage": CoolDark,
	"sand": InSand, "damp sand": InSand, "clamp": InClamp, "ground": InGround, "cold store": InColdStore,
}

// KeepingPlace is the kind of place that a person's name for one means; ok is
// false for a name that could be any.
func KeepingPlace(where string) (place Keeping, ok bool) {
	place, ok = placeWords[measures.Fold(where)]
	return place, ok
}

// KeptRaw is how long a crop of a class keeps raw in a condition in a place; "" is the
// usual one. ok is false when no row tells: the crop is not in the table, or the lot is
// not fit to eat at all.
func KeptRaw(crop, class string, condition Condition, place Keeping) (k KeepsRaw, ok bool) {
	if !condition.Edible() {
		return KeepsRaw{}, false
	}
	row, known := LookupCrop(crop)
	if known {
		k, ok = row.keeping(class, place)
	}
	if condition == Damaged && (!ok || k.Days.Low > damagedKeeping.Days.Low) {
		return damagedKeeping, true
	}
	return k, ok
}

// keeping finds how long a class keeps in a place. A crop whose classes keep
// for different times keeps nowhere longer than its class does; where nothing
// tells of the usual place it is the fridge, then a room, then the first.
func (c CropRow) keeping(class string, place Keeping) (KeepsRaw, bool) {
	there, told := c.keptIn(place)
	usual, known := c.keptAsUsual(class)
	classed := slices.ContainsFunc(c.Keeps, func(k KeepsRaw) bool { return k.Class != "" })
	switch {
	case told && (!known || !classed || there.Days.Low < usual.Days.Low):
		return there, true
	case known:
		return usual, true
	}
	for _, next := range []Keeping{InFridge, InRoom} {
		if k, ok := c.keptIn(next); ok {
			return k, true
		}
	}
	if len(c.Keeps) == 0 {
		return KeepsRaw{}, false
	}
	return c.Keeps[0], true
}

// keptIn is the row of a place.
func (c CropRow) keptIn(place Keeping) (KeepsRaw, bool) {
	i := slices.IndexFunc(c.Keeps, func(k KeepsRaw) bool { return place != "" && k.Place == place })
	if i < 0 {
		return KeepsRaw{}, false
	}
	return c.Keeps[i], true
}

// keptAsUsual is the row of a class, else that for all classes, that names no
// place.
func (c CropRow) keptAsUsual(class string) (KeepsRaw, bool) {
	of := func(class string) int {
		return slices.IndexFunc(c.Keeps, func(k KeepsRaw) bool { return k.Place == "" && strings.EqualFold(k.Class, class) })
	}
	i := of(class)
	if i < 0 {
		i = of("")
	}
	if i < 0 {
		return KeepsRaw{}, false
	}
	return c.Keeps[i], true
}

// setKeeping dates the lot: the last day it keeps raw where it is, counted with
// the low end of the row, whether it is to be used first on the given day, and
// whether it is past twice its life and was not looked over since.
func (l *Lot) setKeeping(on time.Time, f *figures) {
	if k := f.keeping(l); k != nil {
		l.KeepsUntil = dayOf(l.Lifted).AddDate(0, 0, k.Days.Low)
		l.Keeping = k
	}
	late := !l.KeepsUntil.IsZero() && !on.Before(l.KeepsUntil)
	l.First = l.Condition.Edible() && (l.Condition == Damaged || late || l.Lies().Rot)
	l.Past = l.Condition.Edible() && l.IsLongPast(on)
}

// IsLongPast tells whether a lot is older than twice the time it keeps raw, counted
// from when it was last looked over: such a lot may still be good, but nobody
// should plan on it unseen.
func (l *Lot) IsLongPast(on time.Time) bool {
	return !l.KeepsUntil.IsZero() && dayOf(on).After(l.pastTwice())
}

// pastTwice is the day after which a lot is twice past its life, counted from
// when it was lifted or last looked over.
func (l *Lot) pastTwice() time.Time {
	since := l.Lifted
	if looked := l.Lies().Looked; looked.After(since) {
		since = looked
	}
	return dayOf(since).AddDate(0, 0, 2*l.keptFor().Low)
}

// goneBy tells whether nobody would eat what is left of a lot on a day.
func (l *Lot) goneBy(day time.Time) bool { return l.isPastKeeping(day) && l.IsLongPast(day) }

// isPastKeeping tells whether a lot is past even the high end of its row.
func (l *Lot) isPastKeeping(on time.Time) bool {
	return !l.KeepsUntil.IsZero() && on.After(l.KeepsUntil.AddDate(0, 0, l.keptFor().High-l.keptFor().Low))
}

// keptFor is the days a lot keeps raw; none where no row tells.
func (l *Lot) keptFor() Range {
	if l.Keeping == nil {
		return Range{}
	}
	return l.Keeping.Days
}
