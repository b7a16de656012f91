package journal

import (
	"strconv"
	"strings"

	"trencher/harvest"
	"trencher/units"
	"trencher/units/strict"
)

func (d *decoder) lift() *harvest.Lift {
	l := &harvest.Lift{
		Planting: d.m.Require("planting").Text(),
		Mothers:  d.weight(d.m.At("mothers")),
		Soil:     d.weight(d.m.At("soil")),
		Where:    d.m.At("where").Text(),
		Called:   d.m.At("called").Text(),
		Says:     d.m.At("says").Text(),
	}
	if d.m.Has("called") && !harvest.IsID(l.Called) {
		d.m.At("called").Fail("no word for a lot's name", "letters and digits, such as 19jul")
	}
	if d.m.Has("left") {
		l.Left = d.m.At("left").Choice(harvest.LeftSome, harvest.LeftNone)
	}
	for _, n := range d.m.Require("weighings").List() {
		w := n.Map("gross", "tare")
		l.Weighings = append(l.Weighings, harvest.Weighing{Gross: d.weight(w.Require("gross")), Tare: d.weight(w.At("tare"))})
	}
	for _, n := range d.m.At("grades").List() {
		l.Grades = append(l.Grades, d.grade(n.Map("sizes", "weight", "count", "condition")))
	}
	d.report(l)
	return l
}

func (d *decoder) grade(g strict.Map) harvest.Grade {
	grade := harvest.Grade{Weight: d.weight(g.Require("weight")), Condition: harvest.Sound}
	if g.Has("count") {
		grade.Count = g.At("count").Whole(1, 100_000)
	}
	if g.Has("condition") {
		if text := g.At("condition").Text(); text != "" {
			condition, err := harvest.ParseCondition(text)
			if err != nil {
				g.At("condition").Fail("not a condition known here", harvest.ConditionNames())
			}
			grade.Condition = condition
		}
	}
	if g.Has("sizes") {
		if text := g.At("sizes").Text(); text != "" {
			band, err := units.ParseBand(text)
			if err != nil {
				g.At("sizes").Fail(err.Problem, err.Accepted)
			}
			grade.Sizes = band
		}
	}
	return grade
}

// report puts the rules a lift breaks at their places. A lift whose parts could
// not be read is not judged as a whole.
func (d *decoder) report(l *harvest.Lift) {
	if d.reader.Err() != nil {
		return
	}
	for _, p := range l.Problems() {
		d.at(p.Key).Fail(p.Text, p.Accepted)
	}
}

// at is the node that a key such as "weighings[0].tare" names; the entry as a whole
// where nothing stands there.
func (d *decoder) at(key string) strict.Node {
	list, rest, listed := strings.Cut(key, "[")
	n := d.m.At(list)
	if number, field, within := strings.Cut(rest, "]"); listed && within {
		i, _ := strconv.Atoi(number)
		n = n.List()[i]
		if field != "" {
			n = n.AnyMap().At(field[1:])
		}
	}
	if !n.IsValid() {
		return d.root
	}
	return n
}

func (d *decoder) move(kind string) *harvest.Move {
	m := &harvest.Move{
		To:     kind,
		Lot:    d.m.Require("lot").Text(),
		Weight: d.used(d.m.Require("weight")),
		Dish:   d.m.At("dish").Text(),
		Whom:   d.m.At("whom").Text(),
		Where:  d.m.At("where").Text(),
		Air:    d.m.At("air").Quantity(d.System, units.Temperature),
		Reason: d.m.At("because").Text(),
	}
	return m
}

// planned reads a plan, and where each of its uses stands.
func (d *decoder) planned() *harvest.Planned {
	p := &harvest.Planned{ID: d.m.Require("plan").Text(), Stock: d.m.At("stock").Text()}
	for _, n := range d.m.At("makes").List() {
		m := n.Map("dish", "portions")
		p.Makes = append(p.Makes, harvest.Making{Dish: m.Require("dish").Text(), Portions: m.Require("portions").Whole(1, 100_000)})
	}
	for _, n := range d.m.Require("uses").List() {
		u := n.Map("lot", "weight", "dish")
		use := harvest.Use{Lot: u.Require("lot").Text(), Weight: d.used(u.Require("weight")), Dish: u.At("dish").Text()}
		d.isLot(u.At("lot"), use.Lot)
		p.Uses, p.Spots = append(p.Uses, use), append(p.Spots, spotOf(n))
	}
	for _, n := range d.m.At("asked").List() {
		a := n.Map("field", "says")
		p.Asked = append(p.Asked, harvest.Asked{Field: a.Require("field").Text(), Says: a.Require("says").Text()})
	}
	return p
}

// used is a weight that left a lot.
func (d *decoder) used(n strict.Node) units.Quantity {
	w := d.weight(n)
	if w.IsValid() && w.Sign() == 0 {
		n.Fail("a weight of nothing", "the weight that left the lot, such as 800 g")
	}
	return w
}

func (d *decoder) reweighed() *harvest.Reweighed {
	return &harvest.Reweighed{
		Lot:    d.m.Require("lot").Text(),
		Weight: d.weight(d.m.Require("weight")),
		Rotten: d.weight(d.m.At("rotten")),
		Where:  d.m.At("where").Text(),
		Air:    d.m.At("air").Quantity(d.System, units.Temperature),
	}
}

func (d *decoder) batch(kind string) *harvest.BatchEvent {
	b := &harvest.BatchEvent{
		Event:  kind,
		Name:   d.m.Require("batch").Text(),
		Food:   d.m.At("food").Text(),
		Also:   listed(d.m.At("also").Text()),
		Dish:   d.m.At("dish").Text(),
		Plan:   d.m.At("plan").Text(),
		Amount: d.m.At("amount").Quantity(d.System, units.Mass, units.Volume, units.Count),
		Air:    d.m.At("air").Quantity(d.System, units.Temperature),
		Says:   d.m.At("says").Text(),
	}
	if d.m.Has("until") {
		b.Until = d.m.At("until").Time(d.Zone)
		if at := d.m.At("at").Time(d.Zone); !b.Until.IsZero() && b.Until.Before(at) {
			d.m.At("until").Fail("before the time it came out", "the moment it went back into the fridge")
		}
	}
	return b
}

// listed parts a text at its commas; none of an empty one.
func listed(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ' ' })
}

func (d *decoder) steamed() *harvest.Steamed {
	s := &harvest.Steamed{
		Crop:  harvest.CropName(d.m.Require("crop").Text()),
		Cut:   d.m.Require("cut").Text(),
		Until: d.m.Require("until").Choice("just-tender", "tender", "soft"),
	}
	if d.m.Has("texture") {
		s.Texture = d.m.At("texture").Choice(harvest.Textures()...)
	}
	minutes := d.m.Require("minutes").Decimal()
	if minutes.Sign() <= 0 || minutes.IntPart() > 600 {
		d.m.At("minutes").Fail("not a steaming time", "minutes from full steam, above 0 and up to 600")
	}
	s.Minutes = minutes.InexactFloat64()
	if d.m.Has("load") {
		s.Load = d.m.At("load").Quantity(d.System, units.Mass)
		if s.Load.IsValid() && (s.Load.IsRange() || s.Load.Sign() <= 0) {
			d.m.At("load").Fail("not a load", "the weight in the steamer at once, such as 600 g")
		}
	}
	d.madeUnder(s)
	return s
}

// madeUnder reads what a knife test says of how it was made.
func (d *decoder) madeUnder(s *harvest.Steamed) {
	if d.m.Has("said") {
		s.Said = d.m.At("said").Choice("not-yet", "over")
	}
	for _, one := range []struct {
		key       string
		dimension units.Dimension
		low, high float64
		unit      units.Unit
		accepted  string
		into      *units.Quantity
	}{
		{"start", units.Temperature, 0, 60, units.Celsius, "how warm the pieces went in, 0 to 60 C", &s.Start},
		{"altitude", units.Length, 0, 5500, units.Metre, "the height above the sea, 0 to 5500 m", &s.Altitude},
		{"power", units.Power, 50, 10000, units.Watt, "the heat that becomes steam, 50 to 10000 W", &s.Power},
	} {
		if !d.m.Has(one.key) {
			continue
		}
		q := d.m.At(one.key).Quantity(d.System, one.dimension)
		if !q.IsValid() {
			continue
		}
		if x, err := q.Float64(one.unit); err != nil || q.IsRange() || x < one.low || x > one.high {
			d.m.At(one.key).Fail("out of reach", one.accepted)
			continue
		}
		*one.into = q
	}
	if d.m.Has("tier") {
		s.Tier = d.m.At("tier").Whole(1, 6)
	}
}

// weight reads one weight with a finite number of decimals.
func (d *decoder) weight(n strict.Node) units.Quantity {
	q := n.Quantity(d.System, units.Mass)
	if !harvest.IsWeight(q) {
		n.Fail("not one weight a scale can show", "one weight in kg, g, lb or oz")
		return units.Quantity{}
	}
	return q
}
