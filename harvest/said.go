package harvest

import (
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"trencher/units"
)

// ScaleUnit is the unit a kitchen's scale is read in where nobody says one.
func ScaleUnit(system units.System) string {
	if system == units.US {
		return "lb"
	}
	return "kg"
}

// SaidWeighing is a bowl as it is said across the scale, made into a weighing as
// [ParseWeighing] reads it: a number without a unit is in the scale's own, and a
// full bowl alone has the tare of the bowl before, which is "" where there was
// none. It returns the tare for the next bowl too. A number that would be more
// than anybody lifts is asked about: it is grams, most likely.
func SaidWeighing(text, unit, tare string, system units.System) (weighing, nextTare string, err error) {
	parts := minus.Split(strings.TrimSpace(text), -1)
	if !strings.ContainsFunc(text, isLetter) {
		for i := range parts {
			parts[i] = strings.TrimSpace(parts[i]) + " " + unit
		}
	}
	parts = oneUnit(parts)
	if len(parts) == 1 && tare != "" {
		parts = append(parts, tare)
	}
	weighing = strings.Join(parts, " - ")
	w, err := ParseWeighing(weighing, system)
	if err != nil {
		return "", tare, err
	}
	if grams(w.Gross).GreaterThan(heaviestSaid) && !strings.ContainsFunc(text, isLetter) {
		return "", tare, units.WrongField("weighing", text, weighing+" is more than anybody lifts", "the unit with it, as 820 g")
	}
	if len(parts) == 2 {
		tare = strings.TrimSpace(parts[1])
	}
	return weighing, tare, nil
}

// heaviestSaid is more than a bowl of crop that one person puts on a scale, in
// grams: common practice, no source.
var heaviestSaid = decimal.NewFromInt(50_000)

// isLetter tells a letter of a unit's name from figures.
func isLetter(r rune) bool { return 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' }

// IsEmptiedAtOnce tells a planting that a lift empties, where nobody says
// otherwise: a tub is tipped out, a bed is lifted bit by bit.
func (p Planting) IsEmptiedAtOnce() bool { return (&Lift{}).emptied(p) }

// LiftOrder lists the plantings that a lift may be of, each once, as they are
// offered: what is due or over first, then what stands, then the rest in the
// order of plantings.yaml.
func (r ReadyList) LiftOrder(plantings []Planting) (order []Planting) {
	add := func(p Planting) {
		if !slices.ContainsFunc(order, func(o Planting) bool { return o.ID == p.ID }) {
			order = append(order, p)
		}
	}
	for _, due := range []bool{true, false} {
		for _, one := range r.List {
			if (one.State != Early) == due {
				add(one.Planting)
			}
		}
	}
	for _, id := range IDs(plantings) {
		i := len(plantings) - 1
		for plantings[i].ID != id {
			i--
		}
		add(plantings[i])
	}
	return order
}
