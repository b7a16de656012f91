package harvest

import (
	"time"

	"trencher/units"
)

// damagedKeeping caps every crop's keeping when the lot is damaged: used
// within days, never beside sound ones.
var damagedKeeping = KeepsRaw{Days: Range{3, 3}, Where: "use today; never beside sound ones",
	Provenance: units.Practice}

// RawKeeping is how long a crop of a class keeps raw in a condition. ok is
// false when no row tells: the crop is not in the table, or the lot is not fit
// to eat at all.
func RawKeeping(crop, class string, condition Condition) (k KeepsRaw, ok bool) {
	if !condition.Edible() {
		return KeepsRaw{}, false
	}
	row, known := LookupCrop(crop)
	if known {
		k, ok = row.keeping(class)
	}
	if condition == Damaged && (!ok || k.Days.Low > damagedKeeping.Days.Low) {
		return damagedKeeping, true
	}
	return k, ok
}

// setKeeping dates the lot: the last day it keeps raw, counted with the low end
// of the row, and whether it is to be used first on the given day.
func (l *Lot) setKeeping(on time.Time) {
	if k, ok := RawKeeping(l.Crop, l.Class, l.Condition); ok {
		l.KeepsUntil = dayOf(l.Lifted).AddDate(0, 0, k.Days.Low)
		l.Keeping = k
	}
	late := !l.KeepsUntil.IsZero() && !on.Before(l.KeepsUntil)
	l.First = l.Condition.Edible() && (l.Condition == Damaged || late)
}

// isPastKeeping tells whether a lot is past even the high end of its row.
func (l *Lot) isPastKeeping(on time.Time) bool {
	return !l.KeepsUntil.IsZero() && on.After(l.KeepsUntil.AddDate(0, 0, l.Keeping.Days.High-l.Keeping.Days.Low))
}
