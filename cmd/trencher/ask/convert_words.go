package ask

import (
	"errors"
	"strings"

	"trencher/units"
)

// read finds the amount, the unit and, where the amount names it, the
// ingredient in the question's words.
func (c *conversion) read() error {
	if len(c.Words) == 1 {
		return c.readAmountAlone()
	}
	var first error
	for i := len(c.Words) - 1; i > 0; i-- {
		err := c.readSplit(strings.Join(c.Words[:i], " "), strings.Join(c.Words[i:], " "))
		if err == nil {
			return nil
		}
		if first == nil {
			first = err
		}
	}
	return first
}

func (c *conversion) readSplit(amount, unit string) error {
	if err := c.readAmount(amount); err != nil {
		return err
	}
	for _, into := range []string{"to ", "in ", "into "} {
		if rest, ok := strings.CutPrefix(unit, into); ok && rest != "" {
			unit = rest
			break
		}
	}
	to, err := units.ParseUnit(unit, c.kitchen.Measures)
	if err == nil {
		c.to = to
	}
	return err
}

// readAmountAlone takes the plainest unit of the amount's dimension.
func (c *conversion) readAmountAlone() error {
	if before, after, ok := strings.Cut(c.Words[0], " = "); ok {
		return c.readSplit(before, after)
	}
	if err := c.readAmount(c.Words[0]); err != nil {
		return err
	}
	c.to = plainUnit(c.answer.Asked.Dimension())
	return nil
}

func plainUnit(d units.Dimension) units.Unit {
	switch d {
	case units.Volume:
		return units.Millilitre
	case units.Length:
		return units.Centimetre
	case units.Area:
		return units.SquareMetre
	case units.Temperature:
		return units.Celsius
	case units.Power:
		return units.Watt
	case units.Time:
		return units.Minute
	case units.Energy:
		return units.Kilojoule
	case units.Pressure:
		return units.Pascal
	}
	return units.Gram
}

// readAmount reads "3 eggs" and "a knob of butter" too: what follows the
// amount is then the ingredient. An amount that does not read for a reason of
// its own ("a tin of peas") is refused for that reason.
func (c *conversion) readAmount(text string) error {
	q, err := units.Parse(text, c.kitchen.Measures)
	if err == nil {
		c.answer.Asked = q
		return nil
	}
	fields := strings.Fields(text)
	for i := len(fields) - 1; i > 0 && c.Of == ""; i-- {
		q, inner := units.Parse(strings.Join(fields[:i], " "), c.kitchen.Measures)
		of, named := strings.CutPrefix(strings.Join(fields[i:], " "), "of ")
		switch {
		case inner == nil && of != "" && (named || c.kitchen.Table.Has(of)):
			c.answer.Asked, c.Of = q, of
			return nil
		case errors.Is(err, units.ErrUnknownUnit) && inner != nil:
			err = inner
		}
	}
	return err
}

// UnitNames lists what a unit may be called, for a shell to complete.
func UnitNames() []string {
	var names []string
	for _, u := range units.All() {
		if u.Symbol() != "" {
			names = append(names, u.Symbol())
		}
	}
	return names
}

// SystemNames lists the systems of measures.
func SystemNames() []string {
	return []string{units.Metric.String(), units.UK.String(), units.US.String(), units.AU.String()}
}

// IngredientNames lists the ingredients the kitchen's table weighs; none if
// the kitchen cannot be read.
func IngredientNames(w PlotRef) []string {
	_, kitchen, err := openKitchen(w)
	if err != nil {
		return nil
	}
	return kitchen.Table.Ingredients()
}

// StateNames lists the states of one ingredient.
func StateNames(w PlotRef, ingredient string) []string {
	_, kitchen, err := openKitchen(w)
	if err != nil {
		return nil
	}
	return kitchen.Table.States(ingredient)
}
