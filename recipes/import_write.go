package recipes

import (
	"fmt"
	"math/big"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"trencher/recipes/saved"
	"trencher/units"
	"trencher/units/measures"
)

// nameFor is the dish's name: the recipe's, else its file's.
func nameFor(name, file string) string {
	name = strings.Join(strings.Fields(name), " ")
	if name == "" {
		name = strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
	}
	if letters := []rune(name); len(letters) > longestName {
		name = strings.TrimSpace(string(letters[:longestName]))
	}
	return name
}

// longestName is how long the name of an imported dish is made: it stands on
// labels.
const longestName = 60

// dishFile writes the dish file of a recipe that has been read.
func (im *importer) dishFile() string {
	var out strings.Builder
	w := dishWriter{&out}
	w.line("# Read from %s. Lines marked \"check\" were not in it.", filepath.Base(im.file))
	for _, l := range im.result.Lines {
		if l.As == AsHeading && (!l.Sure() || saved.IsAside(l.Text)) {
			w.line("# %s", oneLine(l.Text))
		}
	}
	w.line("name: %s", scalar(im.result.Name))
	w.line("portions: %d%s", im.result.Portions, im.marked("portions"))
	w.line("served: %s%s", im.result.Served, im.marked("served"))
	w.line("smallest: 1                  # check: fewest and most portions worth making at once")
	w.line("largest: %d", min(4*max(im.result.Portions, 1), MaxPortions))
	w.line("crops:")
	for _, d := range im.crops {
		w.crop(d)
	}
	im.writeOthers(w)
	im.writeMethod(w)
	return out.String()
}

// marked is the comment beside a key that the recipe does not settle.
func (im *importer) marked(key string) string {
	for _, c := range im.result.Checks {
		if c.Key == key {
			return "   # check: " + c.Accepted
		}
	}
	return ""
}

type dishWriter struct{ out *strings.Builder }

func (w dishWriter) line(format string, values ...any) {
	fmt.Fprintf(w.out, format+"\n", values...)
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// crop writes a weighed crop, its line beside it as the recipe has it.
func (w dishWriter) crop(d *cropDraft) {
	weight := "   # " + oneLine(d.line.Text)
	if d.rough != "" {
		weight += "; check: " + d.rough
	}
	w.line("  - crop: %s", scalar(d.crop))
	w.line("    amount: %s%s", scalar(d.weight.String()), weight)
	if d.prepared != "" {
		w.line("    prepared: %s   # check: weighed so, or before", scalar(d.prepared))
	} else {
		w.line("    prepared: %s   # check: %s", AsLifted, strings.Join(Preparations(d.crop), " | "))
	}
	if d.texture != "" {
		w.line("    texture: %s", d.texture)
	}
	switch {
	case d.cut == "" && d.cooking.How == "raw":
	case d.cut == "":
		w.line("    cut: whole   # check: %s", cutForms)
	case !d.sized:
		w.line("    cut: %s   # check: the size", d.cut)
	default:
		w.line("    cut: %s", d.cut)
	}
	w.cooking(d)
}

func (w dishWriter) cooking(d *cropDraft) {
	check := ""
	if d.loose {
		check = "   # check: steam | boil | blanch | raw | own"
	}
	c := d.cooking
	w.line("    cook: %s%s", c.How, check)
	switch c.How {
	case "steam":
		if c.Until == "" {
			w.line("    until: tender   # check: just-tender | tender | soft")
		} else {
			w.line("    until: %s", c.Until)
		}
	case "boil", "blanch", "own":
		w.line("    takes: %d min", c.Minutes)
		w.line("    uses: %s", orNothing(c.Uses))
	}
}

func orNothing(uses string) string {
	if uses == "" {
		return "nothing"
	}
	return uses
}

// writtenOther is an ingredient on its way to the dish file.
type writtenOther struct {
	item, state string
	amount      units.Quantity
	remark      string
	optional    bool
	fromPlot    bool
	scales      string
	instead     []writtenOther
}

// writeOthers writes the ingredients that are no weighed crops; one that stands
// twice is added up where it can be, and kept apart where it cannot.
func (im *importer) writeOthers(w dishWriter) {
	var others []writtenOther
	at, parts := map[string]int{}, map[string]int{}
	for _, l := range im.result.Lines {
		if l.As != AsOther {
			continue
		}
		o := im.other(l)
		first, twice := at[o.key()]
		if twice {
			if sum, err := others[first].amount.Add(o.amount); err == nil && len(o.instead) == 0 {
				others[first].amount = sum
				others[first].remark = strings.TrimSpace(others[first].remark + " + " + oneLine(l.Text))
				continue
			}
			parts[o.key()]++
			o.state = strings.TrimPrefix(fmt.Sprintf("%s, part %d", o.state, parts[o.key()]+1), ", ")
		}
		at[o.key()] = len(others)
		others = append(others, o)
	}
	if len(others) > 0 {
		w.line("others:")
	}
	for _, o := range others {
		w.other("  - ", "    ", o)
	}
}

func (o writtenOther) key() string { return fold(o.item) + "\n" + fold(o.state) }

// other is one ingredient as the dish file has it. One that could not be read
// keeps its words as its name, so that nobody takes the dish for cleared of what
// they may hold, and has no amount.
func (im *importer) other(l ImportedLine) writtenOther {
	read := l.Read
	o := writtenOther{item: oneLine(read.Item), state: oneLine(withNote(read.State, read.Note)), amount: read.Amount, optional: read.Optional}
	if !usable(o.amount) || o.item == "" {
		return writtenOther{item: oneLine(l.Text), amount: units.ToTaste(), remark: "check: not read; " + l.Why()}
	}
	if !l.Sure() {
		o.remark = joined(oneLine(l.Text), "check: "+l.Why())
	}
	if crop, _ := cropOf(read); crop != "" && im.options.Grown != nil && im.grows(crop) {
		o.fromPlot = true
	}
	o.scales = scalesOf(read, o)
	for _, other := range read.Instead {
		alternative := writtenOther{item: oneLine(other.Item), state: oneLine(other.State), amount: other.Amount}
		if !usable(alternative.amount) {
			alternative.amount = o.amount
		}
		if alternative.item == "" || fold(alternative.item) == fold(o.item) && alternative.state == o.state {
			continue
		}
		o.instead = append(o.instead, alternative)
	}
	return o
}

// withNote is a state with what else its line said, so that nothing a line says of
// an ingredient is lost, nor what it may hold.
func withNote(state, note string) string {
	if note == "" || strings.Contains(fold(state), fold(note)) {
		return state
	}
	return strings.Trim(state+", "+note, ", ")
}

func joined(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), "; ")
}

// usable tells an amount that a dish's ingredient may have.
func usable(q units.Quantity) bool {
	switch {
	case !q.IsValid():
		return false
	case q.IsToTaste():
		return true
	}
	switch q.Dimension() {
	case units.Mass, units.Volume, units.Count, units.Length:
		_, high := q.Ends()
		return high.Sign() > 0 && !tooHeavy(q) && (q.Dimension() != units.Count || high.Cmp(mostPieces) <= 0)
	}
	return false
}

// scalesOf says how an ingredient grows with the portions: salt and spice with
// care, the oil of a pan not at all.
func scalesOf(read measures.Line, o writtenOther) string {
	family := fold(read.Food.Food.Family)
	switch {
	case o.amount.IsToTaste():
		return ""
	case strings.Contains(fold(read.Note+" "+read.State), "frying") && strings.Contains(family, "oil"):
		return "fixed"
	case seasonings[family] || strings.Contains(family, "chilli"):
		return "seasoning"
	}
	return ""
}

// mostPieces is the most pieces one dish may hold.
var mostPieces = big.NewRat(10000, 1)

// seasonings do not grow in step with the portions (common practice, no
// source).
var seasonings = map[string]bool{"salt": true, "pepper": true, "black pepper": true, "white pepper": true, "cayenne": true, "paprika": true, "cumin": true, "turmeric": true,
	"curry powder": true, "nutmeg": true, "mace": true, "cinnamon": true, "allspice": true, "ginger, ground": true, "ground ginger": true, "coriander seed": true, "mustard powder": true, "garam masala": true,
	"caraway": true, "fennel seed": true, "cloves": true, "clove": true, "star anise": true, "cardamom": true, "saffron": true, "five spice": true, "mixed spice": true, "sumac": true,
	"baking powder": true, "bicarbonate of soda": true, "bay leaf": true, "bay": true}

func (w dishWriter) other(start, indent string, o writtenOther) {
	remark := ""
	if o.remark != "" {
		remark = "   # " + oneLine(o.remark)
	}
	w.line("%sitem: %s", start, scalar(o.item))
	w.line("%samount: %s%s", indent, scalar(o.amount.String()), remark)
	if o.state != "" {
		w.line("%sstate: %s", indent, scalar(o.state))
	}
	if o.fromPlot {
		w.line("%sfrom: plot", indent)
	}
	if o.optional {
		w.line("%soptional: true", indent)
	}
	if o.scales != "" {
		w.line("%sscales: %s", indent, o.scales)
	}
	if len(o.instead) > 0 {
		w.line("%sinstead:", indent)
		for _, other := range o.instead {
			w.other(indent+"  - ", indent+"    ", other)
		}
	}
}

func (im *importer) writeMethod(w dishWriter) {
	var steps []string
	for _, d := range im.crops {
		if d.saysMore() {
			steps = append(steps, oneLine(d.line.Text))
		}
	}
	for _, l := range im.result.Lines {
		if l.As == AsStep && oneLine(l.Text) != "" {
			steps = append(steps, oneLine(l.Text))
		}
	}
	if len(steps) == 0 {
		return
	}
	w.line("method:")
	for _, step := range steps {
		w.line("  - %s", scalar(step))
	}
}

// scalar writes a text as YAML, quoted where it must be.
func scalar(text string) string {
	out, err := yaml.Marshal(text)
	if err != nil {
		return strconv.Quote(text)
	}
	one := strings.TrimSuffix(string(out), "\n")
	if strings.Contains(one, "\n") {
		return strconv.Quote(text)
	}
	return one
}
