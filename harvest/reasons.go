package harvest

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"trencher/units"
)

// given is known_by of what the grower typed or the plot's files say.
const given = "given"

// greenTubers is who says that green tubers are never eaten.
var greenTubers = units.Provenance{KnownBy: "read",
	Source: "Bundesinstitut für Risikobewertung (Germany): Recommendations on glycoalkaloids in potatoes (2018)"}

// WhenReason says where the time of an entry comes from.
func WhenReason(at time.Time) units.Reason {
	return units.Why("when", at.Format("2006-01-02 15:04 -07:00"), "the time given, else this machine's clock", given)
}

// keepingReason says how long a lot keeps raw and who says so; ok is false when
// no figure is known.
func (l *Lot) keepingReason() (reason units.Reason, ok bool) {
	if l.KeepsUntil.IsZero() || l.Keeping == nil {
		return units.Reason{}, false
	}
	return units.Reason{Figure: fmt.Sprintf("%s, %s: keeps raw", strings.TrimSpace(l.Class+" "+l.Crop), l.Condition),
		Value:      l.Keeping.Days.String() + " days, " + l.Keeping.Where + "; the account counts with the lower",
		Provenance: l.Keeping.Provenance}, true
}

// trimReason is what the kitchen gets of a lot; ok is false where that is all
// of it, or plainly nothing.
func (l *Lot) trimReason() (reason units.Reason, ok bool) {
	switch l.Condition {
	case Green:
		return units.Reason{Figure: "green: to the kitchen", Value: "nothing", Provenance: greenTubers}, true
	case Damaged:
		return units.Reason{Figure: "damaged: to the kitchen", Value: damagedTrim.Shift(2).String() + " % after trimming", Provenance: units.Practice}, true
	}
	return units.Reason{}, false
}

// reasons says what the figures of a lot rest on.
func (l *Lot) reasons() []units.Reason {
	var list []units.Reason
	if r, ok := l.keepingReason(); ok {
		list = append(list, r)
	}
	if r, ok := l.trimReason(); ok {
		list = append(list, r)
	}
	return list
}

// once drops reasons for a figure that has one already.
func once(list []units.Reason) []units.Reason {
	seen := map[string]bool{}
	var kept []units.Reason
	for _, r := range list {
		if !seen[r.Figure] {
			seen[r.Figure] = true
			kept = append(kept, r)
		}
	}
	return kept
}

// Reasons says what a lift's figures and defaults rest on.
func (l LoggedLift) Reasons() []units.Reason {
	list := []units.Reason{
		units.Why("net weight", l.Net().String()+" g", "each bowl less its tare, added up exactly", "computed"),
		WhenReason(l.At),
	}
	for _, lot := range l.Lots {
		list = append(list, lot.reasons()...)
	}
	return once(list)
}

// Reasons says what a move's figures and defaults rest on.
func (m LoggedMove) Reasons() []units.Reason {
	return append([]units.Reason{
		units.Why("weight", m.Grams.String()+" g", "as given, else all the journal has of the lot: "+m.From.Weight.String()+" g", given),
		WhenReason(m.At),
	}, m.From.reasons()...)
}

// Reasons says what striking out does.
func (v *Void) Reasons() []units.Reason {
	return []units.Reason{units.Why("struck out", v.Voids, "the entry's file stays; the new entry names it, and the account passes it over", "computed")}
}

// Reasons says what a note rests on.
func (n *Note) Reasons() []units.Reason {
	return []units.Reason{units.Why("dish", n.Dish, "the name in the plot's dishes folder", given), WhenReason(n.At)}
}

// Reasons says how long each kind of lot keeps raw.
func (s StockList) Reasons() []units.Reason {
	var list []units.Reason
	for _, l := range s.Lots {
		if r, ok := l.keepingReason(); ok {
			list = append(list, r)
		}
		if l.Loss() != nil {
			list = append(list, l.lossReason())
		}
	}
	for _, c := range s.Lasting {
		list = append(list, units.Why(c.Crop+": pace", fmt.Sprintf("%.0f g a day", c.Pace), "what went to the kitchen since "+c.Since.Format(time.DateOnly)+", by the journal", "computed"))
	}
	return once(list)
}

// Reasons gives the windows and the signs of every planting listed.
func (r ReadyList) Reasons() []units.Reason {
	var list []units.Reason
	for _, each := range r.List {
		name := strings.TrimSpace(each.Window.Class + " " + each.Crop.Crop)
		list = append(list, units.Reason{Figure: name + ": fit to " + string(each.Crop.Verb), Value: each.Window.When(), Provenance: each.Window.Provenance})
		if each.Crop.Frost.Ends != EndsNever {
			list = append(list, units.Reason{Figure: name + ": what frost ends it", Value: "the " + string(each.Crop.Frost.Ends) + " one of autumn", Provenance: each.Crop.Frost.Provenance})
		}
		for _, s := range slices.Concat(each.Crop.Signs, []Saying{each.Crop.Left}) {
			list = append(list, units.Reason{Figure: each.Crop.Crop, Value: s.Says, Provenance: s.Provenance})
		}
	}
	return list
}

// Reasons gives the usual yields shown, and what spent compost is good for.
func (t Tally) Reasons() []units.Reason {
	list := []units.Reason{{Figure: "spent compost", Value: "a mulch, or with feed another family; not the same family again", Provenance: units.Practice}}
	for _, season := range t.Seasons {
		for _, y := range season.Rows {
			if y.Usual.Per != "" {
				list = append(list, units.Reason{Figure: fmt.Sprintf("%s: usual yield of %s", y.Planting.ID, y.Planting.Crop),
					Value: y.Usual.Grams.String() + " g a " + y.Usual.Per, Provenance: y.Usual.Provenance})
			}
		}
	}
	return list
}
