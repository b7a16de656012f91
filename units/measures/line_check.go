package measures

import (
	"math/big"
	"slices"
	"strings"

	"trencher/units"
	"trencher/units/pattern"
)

// Once a line is read, what was read is held against its words: each number must
// stand in the amount or in something a cook says of size, and nothing that is
// said of the ingredient may be an ingredient itself. What does not fit is a
// doubt.

var (
	// harmlessNumbers are numbers that are no amount of the ingredient: a size, a
	// strength, a time, so many parts it is cut in, a kind of flour.
	harmlessNumbers = pattern.New(`(?i)(?:[` + numberSigns + `][` + numberSigns + `./,]*(?:\s?(?:-|–|to|x|×)\s?[` + numberSigns + `./,]+)?|\d+ \d/\d)\s?-?(?:mm|cm|inch(?:es)?|in\b|"|″|%|percent|°|minutes?|mins?|hours?|hrs?|days?|weeks?|years?|months?)|\b(?:in|into|in to) (?:about )?(?:\d+|two|three|four|six|eight|half|halves)\b|\b0{1,3}\b|\btype \d+\b|\bmade (?:up )?(?:with|from|using) .*|\bno\.? ?\d+\b|\bsize \d+\b|\bfrom an? [` + numberSigns + `.]+[ -]?\pL+\.?`)
	anyNumber       = pattern.New(`[` + numberSigns + `]`)
	numberInWords   = pattern.New(`(?i)\b(?:one|two|three|four|five|six|seven|eight|nine|ten|twelve|dozen|double|twice)\b`)
	theOne          = pattern.New(`(?i)\b(?:the [\pL-]+ one|(?:a|one) [\pL]+ one|one of each|in one piece|all in one)\b`)
	countBeside     = pattern.New(`(?i)^(?:about |approx\.? |roughly |around |or |~ ?)?[` + numberSigns + `]+(?:\s?(?:-|–|to|or)\s?[` + numberSigns + `]+)?(?: (?:small|medium|large|medium-sized|big|of them|nos?\.?))?(?: [\pL-]+){0,2}$`)
)

// accounted doubts what the line's words leave over.
func (l *Line) accounted(s units.System) {
	if slices.ContainsFunc(l.Doubts, func(d *units.FieldError) bool { return d.Field != "item" }) {
		return
	}
	l.sameAmounts()
	if !l.Sure() {
		l.strangeItem()
		return
	}
	for _, left := range append(strings.Split(l.State, ","), l.notes...) {
		left = strings.TrimSpace(left)
		if l.countedToo(left) {
			continue
		}
		if rest := harmlessNumbers.ReplaceAllString(theOne.ReplaceAllString(left, " "), " "); anyNumber.MatchString(rest) || numberInWords.MatchString(rest) {
			l.doubt("amount", left, "a second number: "+left, "one amount, or a line for each", nil)
			return
		}
	}
	l.oneThing(s)
	l.countable()
	l.ofAVariety()
	l.eachOrAll()
}

// strangeItem doubts the amount before a name that no table has where the name
// holds a number, or begins as if the amount went on: "1 c. à s. oil" is no cup.
func (l *Line) strangeItem() {
	switch rest := harmlessNumbers.ReplaceAllString(l.Item, " "); {
	case anyNumber.MatchString(rest):
		l.doubt("amount", l.Item, "a second number: "+l.Item, "one amount, or a line for each", nil)
	case wentOn.MatchString(l.Item), l.Amount.Unit() == units.Piece && holdsUnit(l.Item):
		l.doubt("amount", l.Item, "the amount may go on: "+l.Item, "an amount, then the ingredient", nil)
	}
}

// holdsUnit tells a name among whose first words is a measure: "can of butter beans".
func holdsUnit(item string) bool {
	words := strings.Fields(item)
	for _, word := range words[:min(len(words)-1, 2)] {
		if unit, err := units.ParseUnit(word, units.NoSystem); err == nil && len(word) > 2 && !unit.IsSize() {
			return true
		}
	}
	return false
}

// wentOn is how a name begins that is none: a letter or a word cut short, or one
// that joins amounts.
var wentOn = pattern.New(`(?i)^(?:[\pL]{1,2}\.|[\pL] |[àa] [\pL]|(?:or|and|plus|by|less|heaped|level|each|per|to|de|à|au|of) )`)

// countedToo tells a count beside a weight, in brackets: "500 g carrots (about 4)".
func (l *Line) countedToo(text string) bool {
	if l.Amount.Dimension() != units.Mass && l.Amount.Dimension() != units.Volume || !countBeside.MatchString(text) {
		return false
	}
	q, _, err := leadingAmount(aboutWords.ReplaceAllString(text, "")+" of it", units.NoSystem)
	return err != nil || q.Dimension() == units.Count
}

// oneThing doubts a line in which another ingredient stands behind a comma.
func (l *Line) oneThing(s units.System) {
	for i, part := range append(slices.Clone(l.notes), strings.Split(l.State, ",")...) {
		part = strings.TrimPrefix(strings.TrimSpace(part), "and ")
		m, ok := FoodNamed(part)
		if !ok || part == "" || isPart(firstOf(part), s) || allBeside(part) || m.Food.Family == l.Food.Food.Family || partNames[lookupKey(part)] {
			continue
		}
		if _, whole := FoodNamed(part + " " + l.Item); whole && i >= len(l.notes) {
			continue // "chicken, leg"
		}
		l.doubt("line", part, "more than one thing in a line: "+part, "a line for each", nil)
		return
	}
}

// partNames are parts of an ingredient that are names of their own as well.
var partNames = map[string]bool{"juice": true, "zest": true, "rind": true, "peel": true, "seeds": true, "leaves": true, "leaves only": true, "stalks": true, "mince": true, "minced": true,
	"greens": true, "tops": true, "skin": true, "white": true, "whites": true, "yolks": true, "yolk": true, "stock": true, "crumbs": true}

// sameAmounts doubts an amount that is said again and is another: "500 g peas
// (1.5 kg)". Kitchens round: an ounce is 25 g there, and a pint 600 ml.
func (l *Line) sameAmounts() {
	for _, again := range l.Also {
		if l.Amount.IsToTaste() || again.IsToTaste() || again.Dimension() != l.Amount.Dimension() || again.Dimension() == units.Count {
			continue
		}
		same, err := again.In(l.Amount.Unit())
		low, high := l.Amount.Ends()
		if err != nil || low.Sign() <= 0 {
			continue
		}
		less, more := same.Ends()
		if new(big.Rat).Mul(more, big.NewRat(4, 3)).Cmp(low) < 0 || less.Cmp(new(big.Rat).Mul(high, big.NewRat(4, 3))) > 0 {
			l.doubt("amount", again.String(), l.Amount.String()+" and "+again.String()+" are not the same", "one of them", nil)
			return
		}
	}
}

// What small children choke on is whole: nuts, grapes.
//
// countable doubts so many pieces of what the table only measures by the spoon or
// the cup: "1 chilli powder" lacks its measure.
func (l *Line) countable() {
	if l.Amount.Unit().Name() == "cube" && l.Food.Food.Family == "butter" {
		l.doubt("amount", l.Amount.String(), "a cube of butter: how much?", "its weight, or sticks", nil)
		return
	}
	if l.Amount.Unit() != units.Piece || !l.Known || !l.Sure() || l.Packs.IsValid() || len(l.Also) > 0 || l.isVegetable() || slices.Contains(l.Food.Food.Tags, "choke-under-5") {
		return
	}
	key, ok := Default().index.find(l.Item)
	if rows := Default().index.rows(key); !ok || len(rows) == 0 || slices.ContainsFunc(rows, func(row Row) bool { return row.Measure.Dimension() != units.Volume }) {
		return
	}
	l.doubt("amount", l.Amount.String(), l.Amount.String()+" of what: a spoon, a cup, a packet?", "an amount with its measure", nil)
}

// ofAVariety doubts so many pieces of what nobody counts in pieces, behind a word that
// no table has: "1/2 Bund parsley" is no parsley of the sort Bund.
func (l *Line) ofAVariety() {
	if l.Amount.Unit() != units.Piece || l.Food.Variety == "" || !l.Sure() {
		return
	}
	if len(l.Food.Variety) <= longestShort {
		l.doubt("amount", l.Food.Variety, l.Amount.String()+" "+l.Food.Variety+" of it?", "an amount with its measure", nil)
		return
	}
	key, ok := Default().index.find(l.Food.Food.Name)
	for _, row := range Default().index.rows(key) {
		if unit := row.Measure.Unit(); ok && (unit == units.Piece || unit.IsSize()) {
			return
		}
	}
	l.doubt("amount", l.Food.Variety, l.Amount.String()+" "+l.Food.Variety+" of it?", "an amount with its measure", nil)
}

// longestShort is how long a word is at most that may be a unit cut short: "½ Ib".
const longestShort = 4

// eachOrAll doubts the weight in a bracket right behind a number of vegetables:
// "3 (300 g) beetroot" may weigh 300 g or 900.
func (l *Line) eachOrAll() {
	if l.taken && l.Amount.Unit() == units.Piece && l.Amount.Rat().Cmp(big.NewRat(1, 1)) > 0 && l.Food.Food.isCrop() {
		l.doubt("amount", l.Also[0].String(), l.Also[0].String()+": each, or together?", "2 beetroot (300 g each), or their weight together", nil)
	}
}

// isVegetable tells a crop, or a sort that is called by one: a Savoy cabbage.
func (l *Line) isVegetable() bool {
	_, ok := CropNamed(l.Item[strings.LastIndexByte(l.Item, ' ')+1:])
	return ok || l.Food.Food.isCrop()
}
