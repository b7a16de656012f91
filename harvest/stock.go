package harvest

import (
	"slices"
	"strings"
	"time"

	"trencher/units"
)

// StockList is what is on hand, in the order to use it: what must go first on
// top; what is past twice its life, and green and rotten lots, set aside, at the
// end.
type StockList struct {
	On       time.Time
	Lots     []*Lot
	Lasting  []Lasts // how long each crop lasts at the household's own pace, where it has one
	Warnings []Warning
}

// Stock lists the lots of the account that are on hand.
func (a *Account) Stock() StockList {
	var lots []*Lot
	for _, l := range a.Lots {
		if l.Weight.Sign() > 0 {
			lots = append(lots, l)
		}
	}
	sortLots(lots)
	list := StockList{On: a.On, Lots: lots, Lasting: a.lasting(lots), Warnings: slices.Clone(a.Warnings)}
	if old := pastKeeping(lots, a.On); len(old) > 0 {
		list.Warnings = append(list.Warnings, PastKeeping{old})
	}
	return list
}

// pastKeeping names the lots that are past the longest they keep raw.
func pastKeeping(lots []*Lot, on time.Time) (old []string) {
	for _, l := range lots {
		if l.isPastKeeping(on) {
			old = append(old, l.Name)
		}
	}
	return old
}

// Find finds the lot on hand that a name means: its ID, its short name, or the
// beginning of one that no other lot shares. Its error is a [units.FieldError]
// of lot, which lists the names there are.
func (s StockList) Find(name string) (*Lot, error) {
	var exact, begins []*Lot
	for _, l := range s.Lots {
		switch {
		case l.ID == name || l.Name == name:
			exact = append(exact, l)
		case l.Planting.ID == name || strings.HasPrefix(l.ID, name) || strings.HasPrefix(l.Name, name):
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
		return nil, units.WrongField("lot", name, "nothing of that name is on hand", lotNames(s.Lots))
	}
	return nil, units.WrongField("lot", name, "more than one lot goes by that name", lotNames(found))
}

func lotNames(lots []*Lot) string {
	if len(lots) == 0 {
		return "(there is nothing on hand)"
	}
	var names []string
	for _, l := range lots {
		names = append(names, l.Name)
	}
	return "one of " + strings.Join(names, ", ")
}
