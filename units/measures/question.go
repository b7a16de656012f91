package measures

import (
	"errors"
	"strings"

	"trencher/units"
)

// Question asks for an amount in another unit, in a cook's words.
type Question struct {
	Words []string // the amount and the unit, each as one word or spread over several
	Of    string   // the ingredient, to cross between mass, volume and count; it may stand in the words
	State string   // the ingredient's state: chopped, melted ...
}

// Asked is a question understood.
type Asked struct {
	Amount units.Quantity
	To     units.Unit
	Of     string
	State  string
}

// Read takes a question's words apart: "2 lb 4 oz" and "kg"; "2 lb 4 oz to kg";
// "3 eggs" and "g"; "a knob of butter" alone, or "2 cups" and "flour", which
// leave the unit to us: grams where the ingredient can be weighed, else
// [PlainUnit]. Regional words are those of s. Its error
// is that of the reading that splits the words latest.
func (t Table) Read(q Question, s units.System) (Asked, error) {
	if len(q.Words) == 1 {
		return t.readAlone(q, q.Words[0], s)
	}
	var first error
	var bare *Asked
	for i := len(q.Words) - 1; i > 0; i-- {
		asked, err := t.readSplit(q, strings.Join(q.Words[:i], " "), strings.Join(q.Words[i:], " "), s)
		if err == nil && !asked.isBare() {
			return asked, nil
		}
		if first == nil {
			first = err
		}
		if err == nil {
			bare = &asked
		}
	}
	text := strings.Join(q.Words, " ")
	_, whole := units.Parse(text, s)
	if asked, err := t.readAlone(q, text, s); err == nil && q.Of == "" && (asked.Of != "" || whole == nil) {
		return asked, nil
	}
	if bare != nil {
		return *bare, nil
	}
	return Asked{}, first
}

// isBare tells a number alone that is asked for in no count: 2 kg may be one amount.
func (asked Asked) isBare() bool {
	return asked.Of == "" && asked.Amount.Unit() == units.Piece && asked.To.Dimension() != units.Count
}

// readAlone reads one text: an amount with "= ml" after it, or an amount alone.
func (t Table) readAlone(q Question, text string, s units.System) (Asked, error) {
	if amount, unit, ok := strings.Cut(text, " = "); ok {
		return t.readSplit(q, amount, unit, s)
	}
	for _, into := range []string{" in ", " to ", " into "} {
		at := strings.LastIndex(text, into)
		if at < 0 {
			continue
		}
		if asked, err := t.readSplit(q, text[:at], text[at+len(into):], s); err == nil {
			return asked, nil
		}
	}
	asked, err := t.readAmount(q, text, s)
	asked.To = PlainUnit(asked.Amount.Dimension())
	if _, weighs := t.Convert(asked.Amount, units.Gram, asked.Of, asked.State); err == nil && asked.Of != "" && weighs == nil {
		asked.To = units.Gram
	}
	return asked, err
}

func (t Table) readSplit(q Question, amount, unit string, s units.System) (Asked, error) {
	asked, err := t.readAmount(q, amount, s)
	if err != nil {
		return Asked{}, err
	}
	for _, into := range []string{"to ", "in ", "into "} {
		if rest, ok := strings.CutPrefix(unit, into); ok && rest != "" {
			unit = rest
			break
		}
	}
	asked.To, err = units.ParseUnit(unit, s)
	return asked, err
}

// readAmount reads an amount and what it is of, where the question does not
// say that apart.
func (t Table) readAmount(q Question, text string, s units.System) (Asked, error) {
	asked := Asked{Of: q.Of, State: q.State}
	var err error
	if q.Of != "" {
		asked.Amount, err = units.Parse(text, s)
		return asked, err
	}
	asked.Amount, asked.Of, err = t.ReadAmount(text, s)
	return asked, err
}

// ReadAmount reads an amount and the ingredient that may follow it: "250 g",
// "3 eggs", "2 tbsp mayonnaise", "a knob of butter". Without an "of" the
// ingredient must be one that the table knows. An amount that does not read
// for a reason of its own ("a tin of peas") is refused for that reason.
func (t Table) ReadAmount(text string, s units.System) (q units.Quantity, of string, err error) {
	q, err = units.Parse(text, s)
	if err == nil {
		return q, "", nil
	}
	fields := strings.Fields(text)
	for i := len(fields) - 1; i > 0; i-- {
		q, inner := units.Parse(strings.Join(fields[:i], " "), s)
		of, named := strings.CutPrefix(strings.Join(fields[i:], " "), "of ")
		switch {
		case inner == nil && of != "" && (named || t.Has(of)) && (usable(q) || q.IsToTaste()):
			return q, of, nil
		case inner != nil && errors.Is(err, units.ErrUnknownUnit):
			err = inner
		}
	}
	if line := ReadLine(text, s); t.index != nil && line.Sure() && line.Known && line.Amount.IsValid() && !line.Amount.IsToTaste() {
		return line.Amount, t.of(line), nil
	}
	return units.Quantity{}, "", err
}

// of is what a line's amount is of, with what of its state the table has rows
// for; "juice of ½ lemon" is half a lemon's lemon juice.
func (t Table) of(l Line) string {
	if l.State == "juice" || l.State == "zest" {
		return l.Food.Food.Name + " " + l.State
	}
	of := l.Item
	key, ok := t.index.find(l.Item)
	for state := range strings.SplitSeq(l.State, ", ") {
		if ok && state != "" && t.index.knowsState(key, state) {
			of += ", " + state
		}
	}
	return of
}

// PlainUnit is the unit a cook would want an amount of that dimension in, where
// none is named: grams, millilitres, centimetres, °C.
func PlainUnit(d units.Dimension) units.Unit {
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
