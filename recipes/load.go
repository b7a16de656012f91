package recipes

import (
	"fmt"
	"math/big"
	"strings"
	"unicode/utf8"

	"github.com/shopspring/decimal"

	"trencher/units"
	"trencher/units/strict"
)

// MaxPortions is the most portions a dish file may speak of; more is a slip
// of the finger.
const MaxPortions = 500

// LoadDish reads a dish file for a kitchen, whose measures say what a bare
// cup is and whose own yields come first. All that is wrong with the file is
// returned together, as strict.Errors; the dish is then empty.
//
// Left out, these are assumed and listed in Dish.Assumed: served (hot when a
// crop is cooked, else cold), smallest (1), largest (four times the portions),
// wish (1), and of a crop line prepared (as-lifted), cut (whole), cook
// (steam) and until (tender).
func LoadDish(file string, data []byte, k Kitchen) (Dish, error) {
	r := strict.Parse(file, data)
	defer r.Done()
	l := dishLoader{kitchen: k}
	d := l.dish(r.Root())
	if err := r.Err(); err != nil {
		return Dish{}, err
	}
	d.File, d.Remarks = file, remarksIn(data)
	return d, nil
}

// dishLoader reads one dish file and keeps what it had to assume.
type dishLoader struct {
	kitchen Kitchen
	assumed []string
}

func (l *dishLoader) assume(format string, values ...any) {
	l.assumed = append(l.assumed, fmt.Sprintf(format, values...))
}

func (l *dishLoader) dish(root strict.Node) Dish {
	m := root.Map("name", "portions", "served", "smallest", "largest", "wish", "crops", "others", "method", "steps")
	d := Dish{Name: l.name(m.Require("name")), Portions: m.Require("portions").Whole(1, MaxPortions)}
	l.batch(m, &d)
	d.Wish = l.wish(m)
	d.Crops = l.crops(m)
	d.Served = l.served(m, d.Crops)
	d.Others = l.others(m)
	for _, step := range m.At("method").List() {
		d.Method = append(d.Method, step.Text())
	}
	d.Steps = ownSteps(m)
	d.Assumed = l.assumed
	if !m.Has("served") {
		d.omitted |= noServed
	}
	return d
}

func (l *dishLoader) name(n strict.Node) string {
	name := strings.Join(strings.Fields(n.Text()), " ")
	if isLongName(name) {
		n.Fail(longName, shorterName)
	}
	return name
}

const longName, shorterName = "the name is too long for a label", "a name of up to 120 letters"

// isLongName tells a name that no label of a sheet has room for.
func isLongName(name string) bool { return utf8.RuneCountInString(name) > 120 }

func (l *dishLoader) batch(m strict.Map, d *Dish) {
	d.Smallest, d.Largest = 1, min(4*d.Portions, MaxPortions)
	if m.Has("smallest") {
		d.Smallest = m.At("smallest").Whole(1, MaxPortions)
	} else {
		l.assume("smallest batch 1 portion")
		d.omitted |= noSmallest
	}
	if m.Has("largest") {
		d.Largest = m.At("largest").Whole(1, MaxPortions)
	} else {
		d.Largest = max(d.Largest, d.Smallest)
		l.assume("largest batch %d portions, four times the recipe", d.Largest)
		d.omitted |= noLargest
	}
	if d.Smallest > d.Largest && d.Largest > 0 {
		m.At("smallest").Fail(fmt.Sprintf("above largest, which is %d", d.Largest),
			"the fewest and the most portions worth making at once")
	}
}

func (l *dishLoader) wish(m strict.Map) decimal.Decimal {
	if !m.Has("wish") {
		return decimal.NewFromInt(1)
	}
	n := m.At("wish")
	wish := n.Decimal()
	if !wish.IsPositive() || wish.GreaterThan(decimal.NewFromInt(100)) {
		n.Fail("out of range", "a number above 0, up to 100; 2 asks for twice as many portions")
	}
	return wish
}

func (l *dishLoader) served(m strict.Map, crops []CropLine) Served {
	if m.Has("served") {
		return Served(m.At("served").Choice("hot", "warm", "cold"))
	}
	served := Cold
	for _, c := range crops {
		if !c.IsRaw() {
			served = Hot
		}
	}
	l.assume("served %s", served)
	return served
}

// The most lines of a dish: more than anybody cooks, and few enough that any file
// is planned in a moment.
const (
	mostCrops  = 50
	mostOthers = 1000
)

func tooMany(n strict.Node, lines []strict.Node, most int) bool {
	if len(lines) <= most {
		return false
	}
	n.Fail("too many lines for a dish", fmt.Sprintf("at most %d", most))
	return true
}

func (l *dishLoader) crops(m strict.Map) []CropLine {
	n := m.Require("crops")
	nodes := n.List()
	if tooMany(n, nodes, mostCrops) {
		return nil
	}
	if m.Has("crops") && len(nodes) == 0 {
		n.Fail("the dish has no crop", "at least one weighed crop: - crop: potato, with its amount")
	}
	var lines []CropLine
	for _, node := range nodes {
		line := l.crop(node)
		for _, earlier := range lines {
			if line.Crop != "" && line.Crop == earlier.Crop && line.Cut == earlier.Cut && line.Prepared == earlier.Prepared &&
				line.Sizes == earlier.Sizes && line.Texture == earlier.Texture && line.Until == earlier.Until {
				node.Fail(fmt.Sprintf("%s stands twice, prepared and cut alike", line.Crop), "one line with the sum of both")
			}
		}
		lines = append(lines, line)
	}
	return lines
}

func (l *dishLoader) crop(n strict.Node) CropLine {
	m := n.Map("crop", "amount", "prepared", "texture", "sizes", "cut", "cook", "takes", "uses", "until", "contains")
	c := CropLine{Crop: CropName(m.Require("crop").Text()), Cook: "steam"}
	c.Amount = weighed(m.Require("amount"), l.kitchen.Measures)
	c.yield = l.prepared(m, c.Crop)
	c.Prepared = c.yield.Prepared
	if m.Has("texture") {
		c.Texture = m.At("texture").Choice("any", "waxy", "floury")
		if c.Texture == "any" {
			c.Texture = ""
		}
	}
	if m.Has("sizes") {
		c.Sizes = readBand(m.At("sizes"))
	}
	if m.Has("cook") {
		c.Cook = m.At("cook").Choice("steam", "boil", "blanch", "raw", "own")
		if row, may := EatenRaw(c.Crop); c.Cook == "raw" && !may {
			m.At("cook").Fail(fmt.Sprintf("%s is not eaten raw: %s (%s)", c.Crop, row.Why.Because, row.Source), "a way of cooking it")
		}
	}
	ownMinutes(m, &c)
	l.cut(m, &c)
	c.stated = readContains(m, c.Crop, "")
	for key, bit := range map[string]omitted{"prepared": noPrepared, "cut": noCut, "until": noUntil} {
		if !m.Has(key) {
			c.omitted |= bit
		}
	}
	return c
}

// weighed reads an exact weight: no range, no vague word, not nothing.
func weighed(n strict.Node, sys units.System) units.Quantity {
	q := n.Quantity(sys, units.Mass)
	switch {
	case !q.IsValid():
	case q.IsRange():
		n.Fail("a crop is weighed: its amount must be exact", "one weight, such as 720 g or 1 lb 9 oz")
	case q.Sign() <= 0:
		n.Fail("a crop of no weight", "a weight above 0 g")
	case tooHeavy(q):
		n.Fail("more than a tonne in one dish", "a weight up to 1000 kg")
	}
	return q
}

func tooHeavy(q units.Quantity) bool {
	kilograms, err := q.In(units.Kilogram)
	return err == nil && kilograms.Rat().Cmp(big.NewRat(1000, 1)) > 0
}

func (l *dishLoader) prepared(m strict.Map, crop string) Yield {
	table := l.kitchen.yieldRows()
	if !m.Has("prepared") {
		if crop != "" {
			l.assume("%s weighed as lifted: the file does not say how it is prepared", crop)
		}
		y, _ := table.yield(crop, AsLifted)
		return y
	}
	n := m.At("prepared")
	word := n.Text()
	y, err := table.yield(crop, word)
	if err != nil && crop != "" && word != "" {
		accepted := strings.Join(table.preparations(crop), " | ") + "; or your own figure under `yields` in kitchen.yaml"
		if other := meant(crop, table.cropNames()); other != "" && len(table.preparations(crop)) == 1 {
			accepted = fmt.Sprintf("crop: %s, if that is meant; else %s", other, accepted)
		}
		n.Fail(fmt.Sprintf("no yield is known for %s prepared so", crop), accepted)
	}
	return y
}

func readBand(n strict.Node) units.Band {
	const accepted = "two riddle sizes, smaller first: 20-45 mm"
	q := n.Quantity(units.Metric, units.Length)
	if !q.IsValid() {
		return units.Band{}
	}
	mm, err := q.In(units.Millimetre)
	if err != nil || !q.IsRange() {
		n.Fail("one size is no band", accepted)
		return units.Band{}
	}
	low, high := mm.Ends()
	if !low.IsInt() || !high.IsInt() || high.Cmp(big.NewRat(300, 1)) > 0 {
		n.Fail("sizes are whole millimetres, up to 300", accepted)
		return units.Band{}
	}
	band := units.Band{Low: int(low.Num().Int64()), High: int(high.Num().Int64())}
	if band.Low >= band.High {
		n.Fail("the sizes run backwards", accepted)
	}
	return band
}

func (l *dishLoader) cut(m strict.Map, c *CropLine) {
	if m.Has("cut") {
		n := m.At("cut")
		cut, wrong := checkCut(n.Text())
		if wrong != nil {
			n.Fail(wrong.Problem, wrong.Accepted)
		}
		c.Cut = cut
	} else if !c.IsRaw() {
		c.Cut = "whole"
		l.assume("%s left whole", c.Crop)
	}
	switch {
	case c.IsRaw() && m.Has("until"):
		m.At("until").Fail("a raw crop is not cooked until anything", "no `until` here, or `cook: steam`")
	case c.IsRaw():
	case m.Has("until"):
		c.Until = m.At("until").Choice("just-tender", "tender", "soft")
	default:
		c.Until = "tender"
		if c.IsSteamed() {
			l.assume("%s steamed until tender", c.Crop)
		}
	}
}
