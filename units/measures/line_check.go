package measures

import (
	"math/big"
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
	harmlessNumbers = pattern.New(`(?i)(?:[` + numberSigns + `][` + numberSigns + `./,]*(?:\s?(?:-|–|to|x|×)\s?[` + numberSigns + `./,]+)?|\d+ \d/\d)\s?-?(?:mm|cm|inch(?:es)?|in\b|"|″|%|percent|°|minutes?|mins?|hours?|hrs?|days?|weeks?|years?|months?)|\b(?:in|into|in to) (?:about )?(?:\d+|two|three|four|six|eight|half|halves)\b|\b0{1,3}\b|\btype \d+\b|\bno\.? ?\d+\b|\bsize \d+\b`)
	anyNumber       = pattern.New(`[` + numberSigns + `]`)
	numberInWords   = pattern.New(`(?i)\b(?:one|two|three|four|five|six|seven|eight|nine|ten|twelve|dozen|double|twice)\b`)
	// countedToo is a count beside a weight, in brackets: "500 g carrots (about 4)".
	countedToo = pattern.New(`(?i)^(?:about |approx\.? |roughly |around |or |~ ?)?[` + numberSigns + `]+(?:\s?(?:-|–|to|or)\s?[` + numberSigns + `]+)?(?: (?:small|medium|large|medium-sized|big|of them))?(?: [\pL-]+){0,2}$`)
)

// accounted doubts what the line's words leave over.
func (l *Line) accounted(s units.System) {
	if !l.Sure() {
		return
	}
	l.sameAmounts()
	for _, left := range append(strings.Split(l.State, ","), l.notes...) {
		left = strings.TrimSpace(left)
		if weighed := l.Amount.Dimension() == units.Mass || l.Amount.Dimension() == units.Volume; weighed && countedToo.MatchString(left) {
			continue
		}
		if rest := harmlessNumbers.ReplaceAllString(left, " "); anyNumber.MatchString(rest) || numberInWords.MatchString(rest) {
			l.doubt("amount", left, "a second number: "+left, "one amount, or a line for each", nil)
			return
		}
	}
	if rest := harmlessNumbers.ReplaceAllString(l.Item, " "); anyNumber.MatchString(rest) && !l.Known {
		l.doubt("amount", l.Item, "a second number: "+l.Item, "one amount, or a line for each", nil)
		return
	}
	l.oneThing(s)
}

// oneThing doubts a line in which another ingredient stands behind a comma.
func (l *Line) oneThing(s units.System) {
	for _, part := range strings.Split(l.State, ",") {
		part = strings.TrimPrefix(strings.TrimSpace(part), "and ")
		m, ok := FoodNamed(part)
		if !ok || part == "" || isPart(firstOf(part), s) || allBeside(part) || m.Food.Family == l.Food.Food.Family || partNames[lookupKey(part)] {
			continue
		}
		if _, whole := FoodNamed(part + " " + l.Item); whole {
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
