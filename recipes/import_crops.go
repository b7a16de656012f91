package recipes

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"trencher/recipes/heat"
	"trencher/units"
	"trencher/units/measures"
	"trencher/units/pattern"
)

// cropDraft is a line that becomes a weighed crop, with what its recipe says of
// it.
type cropDraft struct {
	line     *ImportedLine
	crop     string
	texture  string
	weight   units.Quantity // exact
	rough    string         // how the weight was come by, where the line has none
	doubt    string         // what is to check about the weight; "" where the line has it
	prepared string         // "" = not said
	cut      string         // "" = not said
	sized    bool           // the cut's size is the recipe's own
	cooking  Cooking
	told     bool // the cooking is the cook's own answer
	loose    bool // the cooking was said of the dish, not of the crop
}

// chooseCrops picks the lines the dish is built on: those of crops that the
// plot grows or has on hand, by weight the heaviest, any other of at least a
// quarter of it, whatever the recipe itself weighs at 100 g or more, and whole
// pieces that its steps steam or boil. What the cook says a line is comes first.
func (im *importer) chooseCrops() {
	drafts, unweighed := im.cropDrafts()
	heaviest := new(big.Rat)
	for _, d := range drafts {
		if g := d.grams(); g.Cmp(heaviest) > 0 {
			heaviest = g
		}
	}
	least := new(big.Rat).Mul(heaviest, big.NewRat(1, 4))
	for _, d := range drafts {
		if d.grams().Cmp(least) < 0 && (d.rough != "" || d.grams().Cmp(weighedAnyway) < 0) && im.options.As[d.line.Number] != AsCrop && !im.cookedWhole(d) {
			continue
		}
		im.crops = append(im.crops, d)
		d.line.As = AsCrop
		if d.doubt != "" {
			d.line.doubt("amount", d.line.Text, d.doubt, "its weight")
		}
	}
	if len(im.crops) == 0 {
		im.askForCrop(unweighed)
	}
	im.joinCrops()
}

// cropDrafts are the lines that may be weighed crops; unweighed is the first that
// would be one if its weight were known. What goes in by the handful is none that nobody
// weighs.
func (im *importer) cropDrafts() (drafts []*cropDraft, unweighed *cropDraft) {
	for i := range im.result.Lines {
		l := &im.result.Lines[i]
		if l.As != AsOther || im.options.As[l.Number] == AsOther {
			continue
		}
		d := cropDraft{line: l}
		d.crop, d.texture = cropOf(l.Read)
		if d.crop == "" || !im.grows(d.crop) && im.options.As[l.Number] != AsCrop {
			continue
		}
		d.weigh(measures.Default())
		switch {
		case byTheHandful[d.crop] && im.options.As[l.Number] != AsCrop && (d.rough != "" || !d.weight.IsValid()):
		case d.weight.IsValid():
			drafts = append(drafts, &d)
		default:
			unweighed = cmp.Or(unweighed, &d)
		}
	}
	return drafts, unweighed
}

// byTheHandful are herbs and the like, of which a recipe weighs none (common practice, no
// source).
var byTheHandful = map[string]bool{"chives": true, "parsley": true, "coriander leaf": true, "dill": true, "chervil": true, "basil": true, "mint": true, "thyme": true, "rosemary": true, "sage": true,
	"oregano": true, "tarragon": true, "lemon balm": true, "savory": true, "sorrel": true, "lovage": true, "garlic": true, "chilli": true}

// weighedAnyway is from where what a recipe weighs of a crop is part of the dish,
// in grams: below it is a seasoning.
var weighedAnyway = big.NewRat(100, 1)

// cookedWhole tells whole pieces of a crop that the steps name and cook by steam or
// water for a time they tell, and that are no mere seasoning: the two carrots of a
// pan of potatoes.
func (im *importer) cookedWhole(d *cropDraft) bool {
	unit := d.line.Read.Amount.Unit()
	if unit != units.Piece && !unit.IsSize() || d.grams().Cmp(leastOfPieces) < 0 || flavouring[d.crop] {
		return false
	}
	own, _, _, _ := im.cookedAsSaid(d)
	minutes := 0
	for _, one := range own {
		if minutes += one.minutes; one.how != "steam" && one.how != "boil" && one.how != "blanch" {
			return false
		}
	}
	return len(own) > 0 && (minutes > 0 || own[0].how == "steam")
}

// leastOfPieces is from where pieces of a crop are more than seasoning, in grams: a
// carrot weighs more. What flavours a pan, however much of it goes in, is in
// flavouring (both common practice, no source).
var (
	leastOfPieces = big.NewRat(50, 1)
	flavouring    = map[string]bool{"onion": true, "shallot": true, "garlic": true, "spring onion": true, "Welsh onion": true, "chilli": true, "celery": true}
)

// askForCrop asks for the weighed crop a dish cannot be without.
func (im *importer) askForCrop(unweighed *cropDraft) {
	switch {
	case unweighed != nil:
		item := fold(unweighed.line.Read.Item)
		im.ask("amount", "", fmt.Sprintf("%q: how much does it weigh?", unweighed.line.Text), "its weight, as: "+item[strings.LastIndexByte(item, ' ')+1:]+"=900 g")
	case len(im.options.Grown) > 0:
		im.ask("amount", "", "none of what this plot grows is weighed in this recipe", "the weight of the crop it is built on, as: potatoes=900 g; this plot grows "+strings.Join(im.options.Grown, ", "))
	default:
		im.ask("amount", "", "no crop is weighed in this recipe", "the weight of the crop it is built on, as: potatoes=900 g")
	}
}

// grows tells whether a crop may be weighed in this plot.
func (im *importer) grows(crop string) bool {
	if im.options.Grown == nil {
		_, known := measures.CropNamed(crop)
		return known
	}
	return slices.Contains(im.options.Grown, crop)
}

// cropOf names the crop an ingredient is, fresh and whole, with its texture if
// the line says so; "" where it is none.
func cropOf(l measures.Line) (crop, texture string) {
	if !l.Known || l.Food.Food.Kind == measures.FormOfFood {
		return "", ""
	}
	states := freshOr.ReplaceAllString(fold(l.State), " ")
	for _, word := range append(strings.Fields(states), l.Food.States...) {
		if shopForms[word] {
			return "", ""
		}
	}
	for _, word := range strings.Fields(fold(l.Item)) {
		if word == "waxy" || word == "floury" {
			texture = word
		}
	}
	for _, name := range []string{l.Food.Food.Name, l.Food.Food.Family} { // a gooseberry is a crop of its own, and kin to the strawberry
		if known, ok := measures.CropNamed(name); ok {
			return known.InKitchen().Name, texture
		}
	}
	return "", ""
}

// freshOr are states of which one is fresh from the plot.
var freshOr = pattern.New(`\bfresh or (?:frozen|tinned|dried)\b|\b(?:frozen|tinned) or fresh\b`)

// shopForms are states in which a crop does not come from the plot.
var shopForms = map[string]bool{"tinned": true, "canned": true, "dried": true, "frozen": true, "pickled": true, "cooked": true, "juice": true, "zest": true, "jarred": true, "puree": true}

// weigh finds the crop's weight: the line's own, the one in its brackets, else
// what so many pieces weigh by the table, to be checked.
func (d *cropDraft) weigh(table measures.Table) {
	for _, q := range append([]units.Quantity{d.line.Read.Amount}, d.line.Read.Also...) {
		if q.IsValid() && q.Dimension() == units.Mass && !q.IsRough() {
			d.weight = q
			if q.IsRange() {
				d.weight, d.rough = q.Low(), fmt.Sprintf("the less of %s", q)
				d.doubt = "a crop is weighed exactly: the less of both is taken"
			}
			return
		}
	}
	q := d.line.Read.Amount
	if !q.IsValid() || q.IsToTaste() || q.Dimension() != units.Count && q.Dimension() != units.Volume || d.line.As == AsCrop {
		return
	}
	done, err := table.Convert(q.Low(), units.Gram, d.line.Read.Item, "")
	if err != nil {
		done, err = table.Convert(q.Low(), units.Gram, d.crop, "")
	}
	if err != nil {
		return
	}
	g := done.Quantity.Low().Rat()
	tens := new(big.Rat).Quo(g, big.NewRat(10, 1))
	whole := new(big.Int).Quo(new(big.Int).Add(tens.Num(), new(big.Int).Rsh(tens.Denom(), 1)), tens.Denom())
	if whole.Sign() <= 0 {
		return
	}
	d.weight = units.FromRat(new(big.Rat).SetInt(new(big.Int).Mul(whole, big.NewInt(10))), units.Gram)
	d.rough = fmt.Sprintf("%s by the table of measures", q)
	d.doubt = fmt.Sprintf("no weight: about %s by the table of measures", d.weight)
}

// grams is the draft's weight.
func (d *cropDraft) grams() *big.Rat {
	g, err := d.weight.In(units.Gram)
	if err != nil {
		return new(big.Rat)
	}
	return g.Rat()
}

// joinCrops makes one line of a crop that stands twice, prepared and cut
// alike.
func (im *importer) joinCrops() {
	var once []*cropDraft
	for _, d := range im.crops {
		d.readStates()
		first := slices.IndexFunc(once, func(o *cropDraft) bool {
			return o.crop == d.crop && o.texture == d.texture && o.prepared == d.prepared && o.cut == d.cut
		})
		if first < 0 {
			once = append(once, d)
			continue
		}
		if sum, err := once[first].weight.Add(d.weight); err == nil {
			once[first].weight = sum
		}
	}
	im.crops = once
}

// said is what a line says of its crop, phrase by phrase.
func (d *cropDraft) said() string {
	read := d.line.Read
	return read.Item + ", " + read.State + ", " + read.Note + ", " + strings.Join(read.Food.States, ", ")
}

// readStates finds what a line says of preparing and cutting its crop: in whole
// phrases, then word by word.
func (d *cropDraft) readStates() {
	said := d.said()
	for _, state := range strings.FieldsFunc(said, func(c rune) bool { return c == ',' || c == ';' }) {
		for _, phrase := range append([]string{strings.TrimSpace(state)}, strings.Fields(state)...) {
			if y, err := YieldOf(d.crop, phrase); phrase != "" && err == nil && d.prepared == "" && y.Prepared != AsLifted {
				d.prepared = y.Prepared
			}
		}
	}
	d.cut, d.sized = cutIn(said)
	if cut := sizedCutIn(d.line.Text); !d.sized && cut != "" { // "diced (1 cm)"
		d.cut, d.sized = cut, true
	}
}

// saysMore tells whether a crop's line says more of it than its weight, cut and
// preparation: that must stand in the dish too.
func (d *cropDraft) saysMore() bool {
	said := d.line.Read.State + "," + d.line.Read.Note
	for _, phrase := range strings.FieldsFunc(strings.ReplaceAll(said, " and ", ","), func(c rune) bool { return c == ',' || c == ';' }) {
		phrase = strings.TrimSpace(phrase)
		_, err := YieldOf(d.crop, phrase)
		if _, plain := measures.FoodNamed(phrase + " " + d.crop); plain {
			continue // words that may stand beside any name
		}
		if cut, _ := cutIn(phrase); phrase != "" && err != nil && (cut == "" || len(strings.Fields(phrase)) > 6) {
			return true
		}
	}
	return false
}

// lengthSaid is a length: its number, and its unit.
const lengthSaid = `(\d+(?:[.,]\d+)?(?: ?[½¼¾]| \d/\d)?|[¼½¾⅛]|\d/\d)\s*-?\s*(mm|cm|in\b|inch(?:es)?|")`

var (
	cutSized = pattern.New(`(?i)(` + lengthSaid + `)[- ]*(?:thick |long |wide )?\s*(dice|cubes?|chunks?|pieces?|slices?|rounds?|discs?|batons?|sticks?|chips?|matchsticks?|strips?)`)
	cutThick = pattern.New(`(?i)\b(slice[ds]?|rounds|discs)\b.{0,20}?(` + lengthSaid + `)`)
	cutLast  = pattern.New(`(?i)\b(diced?|cube[ds]?|chunks|pieces|batons|sticks|strips)\b[^;.]{0,12}?(` + lengthSaid + `)[- ]*(?:thick|long|wide|square|across|each|or so)?\s*(?:$|[,;.)])`)
)

// cutForm is the word of a cut in a recipe as a dish file has it, with the size
// that is taken where the recipe names none; 0 = it needs none.
var cutForm = []struct {
	word, form string
	mm         int
}{
	{"eighths", "eighths", 0}, {"wedges", "eighths", 0}, {"quartered", "quarters", 0}, {"quarters", "quarters", 0}, {"halved", "halves", 0}, {"halves", "halves", 0}, {"in half", "halves", 0},
	{"matchstick", "baton", 4}, {"baton", "baton", 10}, {"sticks", "baton", 10}, {"chips", "baton", 12}, {"strips", "baton", 8},
	{"finely diced", "cube", 5}, {"finely chopped", "cube", 5}, {"diced", "cube", 15}, {"dice", "cube", 15}, {"cubed", "cube", 20}, {"cubes", "cube", 20},
	{"chunks", "cube", 30}, {"chopped", "cube", 20}, {"pieces", "cube", 25},
	{"thinly sliced", "slice", 3}, {"finely sliced", "slice", 3}, {"sliced", "slice", 5}, {"slices", "slice", 5}, {"rounds", "slice", 5}, {"discs", "slice", 5},
	{"whole", "whole", 0},
}

// cutIn finds a cut in a recipe's words, "cut into 2 cm cubes"; sized tells that
// its size is said too, or that it needs none.
func cutIn(text string) (cut string, sized bool) {
	text = strings.ToLower(text)
	for _, state := range strings.FieldsFunc(text, func(c rune) bool { return c == ',' || c == ';' }) {
		if parsed, err := heat.ParseCut(strings.TrimSpace(state)); err == nil && state != "" {
			return parsed.String(), true
		}
	}
	if cut = sizedCutIn(text); cut != "" {
		return cut, true
	}
	for _, known := range cutForm {
		switch {
		case !strings.Contains(text, known.word):
		case known.mm == 0:
			return known.form, true
		default:
			return fmt.Sprintf("%s %d mm", known.form, known.mm), false
		}
	}
	return "", false
}

// sizedCutIn is a cut whose size the words say; "" where they say none.
func sizedCutIn(text string) string {
	for _, said := range []struct {
		*pattern.Pattern
		length, form int // their parts of the match
	}{{cutSized, 1, 4}, {cutThick, 2, 1}, {cutLast, 2, 1}} {
		m := said.FindStringSubmatch(text)
		if m == nil {
			continue
		}
		form, mm := formOf(m[said.form]), millimetres(m[said.length+1], m[said.length+2])
		if form != "" && form != "whole" && mm != "" {
			return form + " " + mm + " mm"
		}
	}
	return ""
}

func formOf(word string) string {
	for _, known := range cutForm {
		if strings.HasPrefix(known.word, strings.TrimSuffix(word, "s")) && known.mm > 0 {
			return known.form
		}
	}
	return ""
}

// millimetres is a length in whole millimetres, as a dish file has it; "" where
// it is none that can be cut.
func millimetres(number, unit string) string {
	if unit == `"` || strings.HasPrefix(unit, "in") {
		unit = "in"
	}
	q, err := units.Parse(strings.ReplaceAll(number, ",", ".")+" "+unit, units.Metric)
	if err != nil {
		return ""
	}
	mm, err := q.In(units.Millimetre)
	if err != nil {
		return ""
	}
	whole, _ := mm.Rat().Float64()
	if whole < 1 || whole > 200 {
		return ""
	}
	return fmt.Sprintf("%.0f", whole)
}

var amountLast = pattern.New(`^([\pL][\pL '’-]*?)(?:\s*[,:–-]\s*|\s+)((?:about |approx\.? )?[\d½¼¾⅓⅔].*)$`)

// amountInFront turns "butter 50 g" into "50 g butter".
func amountInFront(text string) (string, bool) {
	m := amountLast.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return "", false
	}
	return m[2] + " " + m[1], true
}
