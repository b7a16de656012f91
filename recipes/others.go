package recipes

import (
	"fmt"
	"math/big"
	"strings"

	"trencher/units"
	"trencher/units/strict"
)

// stated is what a dish file says an ingredient contains.
type stated struct {
	said     bool
	contains marks
}

func (l *dishLoader) others(m strict.Map) []OtherLine {
	var lines []OtherLine
	there := map[string]bool{}
	nodes := m.At("others").List()
	if tooMany(m.At("others"), nodes, mostOthers) {
		return nil
	}
	for _, node := range nodes {
		line := l.other(node)
		key := fold(line.Item) + "\n" + line.State
		if line.Item != "" && there[key] {
			node.Fail(fmt.Sprintf("%s stands twice", line.Item), "one line with the sum of both")
		}
		there[key] = true
		lines = append(lines, line)
	}
	return lines
}

func (l *dishLoader) other(n strict.Node) OtherLine {
	m := n.Map("item", "amount", "state", "from", "instead", "optional", "scales", "contains")
	o := OtherLine{Item: itemName(m.Require("item")), Amount: l.amount(m.Require("amount"))}
	if m.Has("state") {
		o.State = fold(m.At("state").Text())
	}
	if m.Has("from") {
		o.FromPlot = m.At("from").Choice("plot", "shop") == "plot"
	}
	if m.Has("optional") {
		o.Optional = m.At("optional").Bool()
	}
	o.Scales = ScalesAs(o.Item, o.State)
	if m.Has("scales") {
		o.Scales = readScaling(m.At("scales").Choice("linear", "seasoning", "fixed"))
	}
	o.stated = readContains(m, o.Item, o.State)
	for _, node := range m.At("instead").List() {
		o.Instead = append(o.Instead, l.alternative(node, o))
	}
	return o
}

func (l *dishLoader) alternative(n strict.Node, main OtherLine) Alternative {
	m := n.Map("item", "amount", "state", "contains")
	a := Alternative{Item: itemName(m.Require("item")), Amount: l.amount(m.Require("amount"))}
	if m.Has("state") {
		a.State = fold(m.At("state").Text())
	}
	if a.Item != "" && fold(a.Item) == fold(main.Item) && a.State == main.State {
		n.Fail(fmt.Sprintf("%s instead of itself", a.Item), "another ingredient that does the same")
	}
	a.stated = readContains(m, a.Item, a.State)
	return a
}

func itemName(n strict.Node) string {
	return strings.Join(strings.Fields(n.Text()), " ")
}

func readScaling(word string) Scaling {
	switch word {
	case "seasoning":
		return Seasoning
	case "fixed":
		return Fixed
	}
	return Linear
}

// amount reads what goes into a dish: a weight, a volume, a number of pieces,
// a length (of ginger), "to taste" or a vague word.
func (l *dishLoader) amount(n strict.Node) units.Quantity {
	q := n.Quantity(l.kitchen.Measures)
	if !q.IsValid() || q.IsToTaste() {
		return q
	}
	switch q.Dimension() {
	case units.Mass, units.Volume, units.Count, units.Length:
	default:
		n.Fail("no amount of an ingredient", "a weight, a volume, a number of pieces, or to taste")
		return units.Quantity{}
	}
	_, high := q.Ends()
	if high.Sign() <= 0 {
		n.Fail("nothing of it", "an amount above 0, or drop the line")
	} else if tooHeavy(q) || q.Dimension() == units.Count && high.Cmp(big.NewRat(10000, 1)) > 0 {
		n.Fail("more than one dish can hold", "an amount for all the dish's portions")
	}
	return q
}

// readContains reads `contains: none` or a list of allergens, "meat" and
// "honey". What the table knows for certain stays on top of a list and cannot
// be denied: such an ingredient needs a name of its own.
func readContains(m strict.Map, item, state string) stated {
	if !m.Has("contains") {
		return stated{}
	}
	n := m.At("contains")
	s := stated{said: true}
	if n.IsList() {
		for _, node := range n.List() {
			s.contains |= readMark(node)
		}
		if s.contains == 0 {
			n.Fail("an empty list", "none, or a list of: "+markList())
		}
	} else if fold(n.Text()) != "none" {
		s.contains = readMark(n)
	}
	if sure := stateOf(item, state, stated{}); s.contains == 0 && sure.contains != 0 && item != "" {
		n.Fail(fmt.Sprintf("%s contains %s%s", strings.TrimSpace(item+" "+state), strings.Join(sure.contains.words(), ", "), saidAt(m, sure)),
			"no `contains` here, or a name without that word for what you use")
	}
	return s
}

// saidAt names the other place of a contradiction: the key and line whose word
// names what the file denies.
func saidAt(m strict.Map, made Composition) string {
	key := "item"
	if !m.Has(key) {
		key = "crop"
	}
	if m.Has("state") && len(made.spoken) > 0 && hasWords(m.At("state").Text(), made.spoken[0].words) {
		key = "state"
	}
	_, line, column := m.At(key).Place()
	return fmt.Sprintf(", by its %s at %d:%d", key, line, column)
}

func readMark(n strict.Node) marks {
	word := fold(n.Text())
	if word == "nuts" || word == "nut" {
		return mark(Nuts)
	}
	m, ok := parseMark(word)
	if !ok && word != "" {
		n.Fail("not an allergen known here", "none, or a list of: "+markList())
	}
	return m
}
