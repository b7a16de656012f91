package measures

import (
	"errors"
	"math/big"
	"strings"

	"trencher/units"
)

// Answer is what an amount comes to, and what that rests on.
type Answer struct {
	Asked   units.Quantity
	Of      string // the ingredient, where it was needed
	Given   units.Quantity
	Exact   bool           // by definitions alone, and with a finite decimal
	Row     *Row           // what it went by, where it crossed
	Via     *Row           // and the second row, from count to volume
	Remarks []Remark       // what was assumed, and cautions
	Kitchen units.Measured // the same in measures a kitchen has
	System  units.System   // of that kitchen
	Reasons []units.Reason
}

// Remark is one thing a cook should know of an answer.
type Remark struct {
	Kind    RemarkKind
	Off     *units.MarkError // with OffTheDial
	Assumed []Assumption     // with Assumed
	Letter  string           // with LetterRead: as it was written
	Unit    units.Unit       // with LetterRead and Caution
	Row     *Row             // with Basis
}

// RemarkKind is what a remark is about.
type RemarkKind uint8

const (
	// OffTheDial: the nearest mark of a gas oven is given.
	OffTheDial RemarkKind = iota + 1
	// Assumed: something the question left open was taken for granted.
	Assumed
	// LetterRead: T or t was read as a spoon.
	LetterRead
	// OunceIsWeight: an ounce was asked for in a measure of volume.
	OunceIsWeight
	// Caution: the unit has other readings, by its [units.Unit.Caution].
	Caution
	// Rough: a pinch or a handful is a guide.
	Rough
	// Basis: the row that a weighed answer rests on.
	Basis
)

// Answer answers a question for a kitchen. Within a dimension the answer is
// exact; across mass, volume and count it goes by a row of the table, which it
// names, and without one it is an error of [Table.Convert]. Where only the
// ingredient would lead across, and none is named, the error is a
// [*units.FieldError] for the field "of".
func (t Table) Answer(q Question, kitchen units.Kitchen) (Answer, error) {
	asked, err := t.Read(q, kitchen.System)
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Asked: asked.Amount, System: kitchen.System}
	done, off, err := t.convert(asked, kitchen)
	if err != nil {
		return Answer{}, err
	}
	a.Given = done.Quantity
	a.Exact = isFinite(done.Quantity) && !done.Crossed && !asked.Amount.IsRough() && off == nil
	if done.Crossed {
		a.Of, a.Row = asked.Of, &done.Row
		if done.Via.Measure.IsValid() {
			a.Via = &done.Via
		}
	}
	a.Remarks = a.remarks(asked.To, off, done.Assumed)
	a.Reasons = a.reasons(asked.To)
	a.Kitchen = a.measured(asked.To, kitchen)
	return a, nil
}

// convert converts what was asked; a temperature that falls between the marks
// of a gas oven's dial is given as the nearest, with the error that names it.
func (t Table) convert(asked Asked, kitchen units.Kitchen) (Conversion, *units.MarkError, error) {
	done, err := t.Convert(asked.settled(kitchen), asked.To, asked.Of, asked.State)
	var off *units.MarkError
	if errors.As(err, &off) && off.IsNear() {
		return Conversion{Quantity: off.Nearest}, off, nil
	}
	var wrong *units.DimensionError
	if errors.As(err, &wrong) && asked.Of == "" && wrong.Crosses() {
		err = &units.FieldError{Field: "of", Problem: "not named, and " + err.Error(), Accepted: "the ingredient, such as butter", Cause: err}
	}
	return done, nil, err
}

// settled gives a pinch or a handful its size in this kitchen, unless the
// ingredient may have a row of its own for it.
func (asked Asked) settled(kitchen units.Kitchen) units.Quantity {
	unit := asked.Amount.Unit()
	if !unit.IsRough() || unit == asked.To || unit.Dimension() == units.Count && asked.Of != "" {
		return asked.Amount
	}
	if size, ok := kitchen.Size(asked.Amount); ok {
		return size
	}
	return asked.Amount
}

func isFinite(q units.Quantity) bool {
	_, low := q.Decimal()
	_, high := q.High().Decimal()
	return low && high
}

// remarks lists what a cook should know of the words used and the row taken.
func (a Answer) remarks(to units.Unit, off *units.MarkError, assumed []Assumption) []Remark {
	var list []Remark
	if off != nil {
		list = append(list, Remark{Kind: OffTheDial, Off: off})
	}
	if len(assumed) > 0 {
		list = append(list, Remark{Kind: Assumed, Assumed: assumed})
	}
	list = append(list, a.unitRemarks(to)...)
	for _, row := range []*Row{a.Row, a.Via} {
		if row != nil {
			list = append(list, Remark{Kind: Basis, Row: row})
		}
	}
	return list
}

// unitRemarks are those of the units asked about.
func (a Answer) unitRemarks(to units.Unit) []Remark {
	var list []Remark
	unit := a.Asked.Unit()
	if letter := lastWord(a.Asked.Written()); letter == "T" || letter == "t" {
		list = append(list, Remark{Kind: LetterRead, Letter: letter, Unit: unit})
	}
	if unit == units.Ounce && a.Given.Dimension() == units.Volume {
		list = append(list, Remark{Kind: OunceIsWeight})
	}
	for _, u := range []units.Unit{unit, to} {
		if u.Caution() != "" && a.Row == nil {
			list = append(list, Remark{Kind: Caution, Unit: u})
		}
	}
	if a.Asked.IsRough() && unit != to {
		list = append(list, Remark{Kind: Rough})
	}
	return list
}

// lastWord is the unit at the end of an amount as somebody wrote it.
func lastWord(text string) string {
	fields := strings.Fields(text)
	if len(fields) == 0 {
		return ""
	}
	return strings.Trim(fields[len(fields)-1], "0123456789./½¼¾⅓⅔")
}

// measured is the answer in measures of the kitchen whose unit was asked for;
// no text where that says nothing new.
func (a Answer) measured(to units.Unit, kitchen units.Kitchen) units.Measured {
	if s := to.System(); s != units.NoSystem {
		kitchen.System = s
	} else if to == units.Ounce || to == units.Pound {
		kitchen.System = units.UK
	}
	if !forKitchen(a.Given) {
		return units.Measured{}
	}
	m := kitchen.Measure(a.Given, units.MeasureOptions{})
	if m.Flag || m.Value.Equal(a.Given) {
		return units.Measured{}
	}
	return m
}

// forKitchen tells what a cook measures out from a cartload, and from a plot
// or a length.
func forKitchen(q units.Quantity) bool {
	for _, most := range []units.Quantity{units.FromRat(big.NewRat(10, 1), units.Kilogram), units.FromRat(big.NewRat(5, 1), units.Litre)} {
		if over, err := q.High().Compare(most); err == nil {
			return over <= 0
		}
	}
	return q.Dimension() == units.Count
}

// reasons gives the source of every figure the answer used.
func (a Answer) reasons(to units.Unit) []units.Reason {
	var list []units.Reason
	asked := a.Asked.Unit()
	for i, u := range []units.Unit{asked, to} {
		if u.IsBase() || i == 1 && u == asked {
			continue
		}
		list = append(list, units.Reason{Figure: "1 " + u.Name(), Value: u.Definition(), Provenance: u.Origin()})
	}
	for _, row := range []*Row{a.Row, a.Via} {
		if row != nil {
			list = append(list, units.Why(row.Name(), row.Weight().String(), row.Provenance.String(), row.KnownBy))
		}
	}
	return list
}

// Name is what was weighed: "1 cup US of flour, sifted".
func (r Row) Name() string {
	name := r.Measure.String() + " of " + r.Ingredient
	for _, part := range []string{r.State, r.Size} {
		if part != "" {
			name += ", " + part
		}
	}
	return name
}

// Weight is what the row's measure weighs.
func (r Row) Weight() units.Quantity { return units.FromRat(r.Grams, units.Gram) }
