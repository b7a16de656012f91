package ask

import (
	"errors"
	"math/big"
	"strings"

	"trencher/recipes"
	"trencher/units"
	"trencher/units/measures"
)

// ConvertQuestion asks for an amount in another unit. Words are the amount
// and the unit, each as one word or spread over several.
type ConvertQuestion struct {
	PlotRef
	Words    []string
	Of       string // the ingredient, to cross between mass, volume and count
	State    string
	Measures string // the system; "" = the kitchen's, else metric
}

// ConvertAnswer is the amount asked about and what it comes to.
type ConvertAnswer struct {
	Asked   units.Quantity
	Of      string // the ingredient, where it was needed
	System  units.System
	Given   units.Quantity
	Exact   bool           // by definitions alone, and with a finite decimal
	Row     *measures.Row  // what it went by, where it crossed
	Via     *measures.Row  // and the second row, from count to volume
	Remarks []string       // what was assumed, and cautions
	Kitchen units.Measured // the same in measures a kitchen has
	Reasons []units.Reason
}

// Convert converts an amount. Within a dimension the answer is exact; across
// mass, volume and count it goes by a row of the measures table, which it
// names, and without one it is an error.
func Convert(q ConvertQuestion) (ConvertAnswer, error) {
	kitchen, err := q.kitchen()
	if err != nil {
		return ConvertAnswer{}, err
	}
	c := conversion{ConvertQuestion: q, kitchen: kitchen}
	if err := c.read(); err != nil {
		return ConvertAnswer{}, err
	}
	c.settleRough()
	if err := c.convert(); err != nil {
		return ConvertAnswer{}, err
	}
	c.remark()
	c.measure()
	return c.answer, nil
}

// kitchen is the plot's, where there is one; the flag outranks its measures.
func (q ConvertQuestion) kitchen() (recipes.Kitchen, error) {
	_, kitchen, err := openKitchen(q.PlotRef)
	if err != nil || q.Measures == "" {
		return kitchen, err
	}
	system, err := units.ParseSystem(q.Measures)
	if err != nil {
		return kitchen, units.WrongField("measures", q.Measures, "not a system of measures", "metric, uk, us or au")
	}
	kitchen.Measures, kitchen.Measure.System = system, system
	kitchen.Table = kitchen.Table.For(system)
	return kitchen, nil
}

// conversion is a question being answered.
type conversion struct {
	ConvertQuestion
	kitchen recipes.Kitchen
	from    units.Quantity // the amount, a rough one at its size in this kitchen
	to      units.Unit
	answer  ConvertAnswer
}

// settleRough gives a pinch or a handful its size in this kitchen, unless the
// ingredient has a row of its own for it.
func (c *conversion) settleRough() {
	c.from = c.answer.Asked
	unit := c.from.Unit()
	if !unit.IsRough() || unit == c.to {
		return
	}
	if unit.Dimension() == units.Count && c.Of != "" {
		return
	}
	if size, ok := c.kitchen.Measure.Size(c.from); ok {
		c.from = size
	}
}

func (c *conversion) convert() error {
	done, err := c.kitchen.Table.Convert(c.from, c.to, c.Of, c.State)
	var off *units.MarkError
	if errors.As(err, &off) && off.IsNear() {
		done, err = measures.Conversion{Quantity: off.Nearest}, nil
		c.answer.Remarks = append(c.answer.Remarks, off.Error())
	}
	var wrong *units.DimensionError
	if errors.As(err, &wrong) && c.Of == "" && wrong.Crosses() {
		return needsIngredient{wrong}
	}
	if err != nil {
		return err
	}
	_, exact := done.Quantity.Decimal()
	_, highExact := done.Quantity.High().Decimal()
	a := &c.answer
	a.Given, a.System = done.Quantity, c.kitchen.Measures
	a.Exact = exact && highExact && !done.Crossed && !a.Asked.IsRough() && off == nil
	if done.Crossed {
		a.Of, a.Row = c.Of, &done.Row
		if done.Via.Measure.IsValid() {
			a.Via = &done.Via
		}
		if done.Remark != "" {
			a.Remarks = append(a.Remarks, done.Remark)
		}
	}
	a.Reasons = reasonsFor(a.Asked.Unit(), c.to, a.Row, a.Via)
	return nil
}

// needsIngredient says that only the ingredient leads across.
type needsIngredient struct{ error }

func (e needsIngredient) Unwrap() error { return e.error }

// Hint names the flag.
func (e needsIngredient) Hint() string { return "name the ingredient: --of butter" }

// remark adds what a cook should know of the words used.
func (c *conversion) remark() {
	a := &c.answer
	if word := lastWord(a.Asked.Written()); word == "T" || word == "t" {
		a.Remarks = append(a.Remarks, "read "+word+" as "+a.Asked.Unit().Name()+"; tbsp and tsp cannot be mistaken")
	}
	if a.Asked.Unit() == units.Ounce && a.Given.Dimension() == units.Volume {
		a.Remarks = append(a.Remarks, "oz is a weight here, not a fluid ounce")
	}
	for _, u := range []units.Unit{a.Asked.Unit(), c.to} {
		if note := u.Caution(); note != "" && a.Row == nil {
			a.Remarks = append(a.Remarks, u.Name()+": "+note)
		}
	}
	if a.Asked.IsRough() && a.Asked.Unit() != c.to {
		a.Remarks = append(a.Remarks, "a rough measure: take it as a guide")
	}
	for _, row := range []*measures.Row{a.Row, a.Via} {
		if row != nil {
			a.Remarks = append(a.Remarks, basis(*row))
		}
	}
}

// basis is what a weighed answer rests on, on one line.
func basis(row measures.Row) string {
	origin := row.Source
	if row.Record != "" {
		origin = row.Record + ", " + row.KnownBy
	}
	size := row.Measure.Format(units.Metric)
	if row.Size != "" {
		size += " (" + row.Size + ")"
	}
	text := "from: " + size + " = " + units.FromRat(row.Grams, units.Gram).String() + " (" + origin
	if row.Note != "" {
		text += "; " + row.Note
	}
	return text + ")"
}

func lastWord(text string) string {
	fields := strings.Fields(text)
	if len(fields) == 0 {
		return ""
	}
	return strings.Trim(fields[len(fields)-1], "0123456789./½¼¾⅓⅔")
}

// measure adds what the answer is in measures of the kitchen whose unit was
// asked for.
func (c *conversion) measure() {
	kitchen := c.kitchen.Measure
	if s := c.to.System(); s != units.NoSystem {
		kitchen.System = s
	} else if c.to == units.Ounce || c.to == units.Pound {
		kitchen.System = units.UK
	}
	given := c.answer.Given
	if !forKitchen(given) {
		return
	}
	if m := kitchen.Measure(given, units.MeasureOptions{}); !m.Flag && !m.Value.Equal(given) {
		c.answer.Kitchen = m
	}
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

// reasonsFor gives the source of every figure a conversion used.
func reasonsFor(from, to units.Unit, rows ...*measures.Row) []units.Reason {
	var list []units.Reason
	for i, u := range []units.Unit{from, to} {
		if i == 1 && u == from {
			continue
		}
		if u.IsBase() {
			continue
		}
		list = append(list, units.Reason{Figure: "1 " + u.Name(), Value: u.Definition(), Provenance: u.Origin()})
	}
	for _, row := range rows {
		if row == nil {
			continue
		}
		grams := units.FromRat(row.Grams, units.Gram)
		source := row.Source
		if row.Record != "" {
			source += ", " + row.Record
		}
		list = append(list, units.Reason{Figure: rowName(*row), Value: grams.String(), Provenance: units.Provenance{Source: source, KnownBy: row.KnownBy}})
	}
	return list
}

func rowName(row measures.Row) string {
	name := row.Measure.String() + " of " + row.Ingredient
	for _, part := range []string{row.State, row.Size} {
		if part != "" {
			name += ", " + part
		}
	}
	return name
}
