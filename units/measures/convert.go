package measures

import (
	"math/big"
	"slices"

	"trencher/units"
)

// Conversion is a quantity in the unit asked for, and how it got there.
type Conversion struct {
	Quantity units.Quantity
	Crossed  bool // by weighed measures, not by arithmetic alone
	Row      Row  // the row it went by, where it crossed
	Via      Row  // the second row, where it crossed twice: count to spoon
	Assumed  []Assumption
}

// Convert is q in another unit. Within a dimension it is arithmetic, exact,
// and needs no ingredient. Between mass, volume and count it goes by what a
// measure of the ingredient in that state weighs, and is as good as that
// figure. Its error is a [*units.FieldError]: for "of", an ingredient that is not
// in the table; for "state", one that is not known or not settled; else a measure
// that no row gives, or a bushel of something.
func (t Table) Convert(q units.Quantity, to units.Unit, ingredient, state string) (Conversion, error) {
	exact, err := q.In(to)
	if err == nil {
		return Conversion{Quantity: exact}, nil
	}
	if ingredient == "" || !crosses(q.Dimension()) || !crosses(to.Dimension()) {
		return Conversion{}, err
	}
	if bulk := bulkOf(q.Unit(), to); bulk != "" {
		return Conversion{}, inBulk(bulk, ingredient)
	}
	p, err := t.pantry(ingredient, state)
	if err != nil {
		return Conversion{}, err
	}
	p.asBought = state == "" && (q.Dimension() == units.Mass || to.Dimension() == units.Mass)
	grams, first, err := p.weigh(q)
	if err != nil {
		return Conversion{}, err
	}
	out, second, err := p.measure(grams, to)
	if err != nil {
		return Conversion{}, err
	}
	c := Conversion{Quantity: out, Crossed: true, Row: first.row, Via: second.row, Assumed: first.assumed}
	for _, a := range second.assumed {
		if !slices.Contains(c.Assumed, a) {
			c.Assumed = append(c.Assumed, a)
		}
	}
	if c.Row.Measure.Unit() == (units.Unit{}) {
		c.Row, c.Via = second.row, Row{}
	}
	return c, nil
}

// Assumption is what was taken for granted where the question left it open.
type Assumption struct {
	Kind AssumptionKind
	What string // a state or a size in the table's words, or "a bulb"
}

// AssumptionKind is which part of the question was left open.
type AssumptionKind uint8

const (
	// TakenAs: of this state or size, where the table has several.
	TakenAs AssumptionKind = iota + 1
	// CountedAs: by this part of the plant, where plain pieces were asked for.
	CountedAs
	// WeighedAs: the row's piece was weighed so, without its peel or shell.
	WeighedAs
)

// Density is how many grams a millilitre of an ingredient weighs, and the row
// that says so.
func (t Table) Density(ingredient, state string) (*big.Rat, Row, error) {
	p, err := t.pantry(ingredient, state)
	if err != nil {
		return nil, Row{}, err
	}
	found, err := p.density()
	if err != nil {
		return nil, Row{}, err
	}
	return found.perUnit(units.Millilitre), found.row, nil
}

// bulkOf names the unit that a crop is traded in by the container: what a cup
// of cut crop weighs says nothing of a bushel of it whole, and in the US trade
// a bushel of a named crop is a weight set by law.
func bulkOf(from, to units.Unit) string {
	for _, u := range []units.Unit{from, to} {
		switch u.Code() {
		case "[bu_br]", "[bu_us]":
			return "bushel"
		case "[pk_br]", "[pk_us]":
			return "peck"
		case "coomb":
			return "coomb"
		}
	}
	return ""
}

func crosses(d units.Dimension) bool {
	return d == units.Mass || d == units.Volume || d == units.Count
}

// choice is the row an amount goes by, and what was assumed in taking it.
type choice struct {
	row     Row
	assumed []Assumption
}

// perUnit is how many grams one of u weighs by the row.
func (c choice) perUnit(u units.Unit) *big.Rat {
	in, err := c.row.Measure.In(u)
	if err != nil || in.Sign() <= 0 {
		return new(big.Rat)
	}
	return new(big.Rat).Quo(c.row.Grams, in.Rat())
}

// weigh is any amount of the ingredient in grams.
func (p pantry) weigh(q units.Quantity) (units.Quantity, choice, error) {
	if q.Dimension() == units.Mass {
		grams, err := q.In(units.Gram)
		return grams, choice{}, err
	}
	found, unit, err := p.rowFor(q.Unit())
	if err != nil {
		return units.Quantity{}, choice{}, err
	}
	in, err := q.In(unit)
	if err != nil {
		return units.Quantity{}, choice{}, err
	}
	low, high := in.Ends()
	each := found.perUnit(found.row.unitLike(unit))
	return units.FromRange(low.Mul(low, each), high.Mul(high, each), units.Gram), found, nil
}

// measure is grams of the ingredient in any unit.
func (p pantry) measure(grams units.Quantity, to units.Unit) (units.Quantity, choice, error) {
	if to.Dimension() == units.Mass {
		out, err := grams.In(to)
		return out, choice{}, err
	}
	found, unit, err := p.rowFor(to)
	if err != nil {
		return units.Quantity{}, choice{}, err
	}
	low, high := grams.Ends()
	each := found.perUnit(found.row.unitLike(unit))
	out, err := units.FromRange(low.Quo(low, each), high.Quo(high, each), unit).In(to)
	return out, found, err
}

// unitLike is the unit a row's measure is asked in: the row's own kind of
// piece where a medium one stands in for a plain piece.
func (r Row) unitLike(u units.Unit) units.Unit {
	if u.Dimension() == units.Count && r.Measure.Unit().Kind() != u.Kind() {
		return r.Measure.Unit()
	}
	return u
}

// rowFor is the row for a unit, and the plain unit of the row's dimension to
// convert in.
func (p pantry) rowFor(u units.Unit) (choice, units.Unit, error) {
	if u.Dimension() == units.Volume {
		found, err := p.density()
		return found, units.Millilitre, err
	}
	found, err := p.each(u)
	if u.Kind() == units.Piece.Kind() {
		u = units.Piece
	}
	return found, u, err
}
