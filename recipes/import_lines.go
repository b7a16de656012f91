package recipes

import (
	"cmp"
	"errors"
	"fmt"
	"math/big"
	"regexp"
	"strings"

	"trencher/units"
)

// importLine is one ingredient of a recipe as far as it could be read.
type importLine struct {
	text     string // as the recipe has it
	amount   units.Quantity
	item     string
	state    []string // chopped, peeled, cube 25 mm ...
	optional bool
	instead  []importLine
	weight   units.Quantity // a weight in brackets: "4 potatoes (about 600 g)"
	remark   string         // what else stood in brackets
}

var (
	brackets = regexp.MustCompile(`\(([^()]*)\)`)
	bullet   = regexp.MustCompile(`^[\s*•·▢☐–-]+`)
	toTaste  = regexp.MustCompile(`(?i)[,\s]*\b(to taste|as needed|to serve)\b[,\s]*`)
	about    = regexp.MustCompile(`(?i)^(about|approx\.?|approximately|roughly|around|ca\.?|~)\s*`)
	partOf   = regexp.MustCompile(`(?i)^((?:finely |freshly )?(?:grated |squeezed )?(?:juice and zest|zest and juice|juice|zest|rind|leaves)) (?:of|from) (.+)$`)
	twice    = regexp.MustCompile(`([A-Za-z])\s*/\s*(\d)`) // 500g/1lb
)

// line reads an ingredient; what is wrong with it goes to im.fail.
func (im *importer) line(raw string) (importLine, bool) {
	l := importLine{text: raw}
	text := bullet.ReplaceAllString(raw, "")
	for _, match := range brackets.FindAllStringSubmatch(text, -1) {
		l.bracket(strings.TrimSpace(match[1]), im.options.System)
	}
	text = twice.ReplaceAllString(text, "$1 / $2")
	text = strings.Join(strings.Fields(brackets.ReplaceAllString(text, " ")), " ")
	if rest, ok := strings.CutSuffix(strings.ToLower(text), ", optional"); ok {
		l.optional, text = true, text[:len(rest)]
	}
	parts := strings.Split(text, ", or ")
	if !im.amount(&l, parts[0]) {
		return l, false
	}
	for _, part := range parts[1:] {
		other := importLine{text: raw}
		if !im.amount(&other, part) {
			return l, false
		}
		l.instead = append(l.instead, other)
	}
	return l, true
}

// bracket takes in what stands in brackets: optional, a weight, a remark.
func (l *importLine) bracket(text string, system units.System) {
	if strings.EqualFold(text, "optional") {
		l.optional = true
		return
	}
	q, err := units.Parse(about.ReplaceAllString(text, ""), system)
	if err == nil && q.Dimension() == units.Mass && !q.IsRange() && q.Sign() > 0 && !l.weight.IsValid() {
		l.weight = q
	}
	if l.remark == "" {
		l.remark = text
	}
}

// amount reads the amount in front of a line and the item after it.
func (im *importer) amount(l *importLine, text string) bool {
	if q, ok := im.answered(l.text); ok {
		_, rest, _ := leadingAmount(text, im.options.System)
		l.amount = q
		return im.item(l, rest)
	}
	if toTaste.MatchString(text) {
		l.amount = units.ToTaste()
		return im.item(l, toTaste.ReplaceAllString(text, ""))
	}
	if of := partOf.FindStringSubmatch(text); of != nil {
		l.state, text = []string{strings.ToLower(of[1])}, of[2]
	}
	q, rest, err := leadingAmount(text, im.options.System)
	if err != nil {
		im.fail(l.text, fmt.Sprintf("%q: %s", l.text, err), cmp.Or(acceptedBy(err),
			`an amount in front, or "to taste" after it; or give the line its amount: salt=to taste`))
		return false
	}
	l.amount = q
	if also, ok := strings.CutPrefix(rest, "/ "); ok { // the same in other units
		if _, item, err := leadingAmount(also, im.options.System); err == nil {
			rest = item
		}
	}
	if q.Unit().IsPack() && l.weight.IsValid() {
		l.amount = l.weight.Scale(q.Rat())
	}
	return im.item(l, rest)
}

// answered finds the amount the caller gave for a line.
func (im *importer) answered(text string) (units.Quantity, bool) {
	for key, q := range im.options.Amounts {
		if strings.Contains(fold(text), fold(key)) {
			im.used[key] = true
			return q, true
		}
	}
	return units.Quantity{}, false
}

// acceptedBy is what an error over an amount says to write instead.
func acceptedBy(err error) string {
	var wrong *units.FieldError
	errors.As(units.InField("", "", err), &wrong)
	return wrong.Accepted
}

var errNoAmount = errors.New("no amount")

// leadingAmount splits a line after the longest start that is an amount.
func leadingAmount(text string, system units.System) (units.Quantity, string, error) {
	words := strings.Fields(text)
	var ambiguous *units.AmbiguousError
	for n := min(len(words), 7); n > 0; n-- {
		q, err := units.Parse(strings.Join(words[:n], " "), system)
		if errors.As(err, &ambiguous) {
			return units.Quantity{}, text, ambiguous
		}
		if err != nil || !usable(q) {
			continue
		}
		return q, strings.Join(words[n:], " "), nil
	}
	return units.Quantity{}, text, errNoAmount
}

func usable(q units.Quantity) bool {
	switch q.Dimension() {
	case units.Mass, units.Volume, units.Count, units.Length:
		return q.Sign() > 0
	}
	return q.IsToTaste()
}

var stateWords = map[string]bool{"chopped": true, "diced": true, "sliced": true, "grated": true, "crushed": true, "melted": true,
	"softened": true, "ground": true, "peeled": true, "scrubbed": true, "cooked": true, "shredded": true, "beaten": true, "cubed": true, "shelled": true, "podded": true, "trimmed": true, "halved": true, "quartered": true,
	"dried": true, "toasted": true,
	"finely": true, "roughly": true, "thinly": true, "freshly": true}

// item takes what follows the amount apart into the item and its states.
func (im *importer) item(l *importLine, text string) bool {
	text = strings.TrimPrefix(strings.TrimSpace(text), "of ")
	head, rest, _ := strings.Cut(text, ",")
	words := strings.Fields(head)
	var lead []string
	for len(words) > 1 && stateWords[strings.ToLower(words[0])] {
		lead, words = append(lead, strings.ToLower(words[0])), words[1:]
	}
	if len(lead) > 0 {
		l.state = append(l.state, strings.Join(lead, " "))
	}
	for _, one := range strings.Split(rest, ",") {
		if one = strings.TrimSpace(one); one != "" {
			l.state = append(l.state, fold(one))
		}
	}
	l.item = strings.Join(words, " ")
	if l.item == "" {
		im.fail(l.text, fmt.Sprintf("%q: an amount of what?", l.text), "an amount, then the ingredient")
		return false
	}
	return true
}

// cropOf names the crop a line's item is, with its texture if it says so.
func cropOf(item string) (crop, texture string) {
	var words []string
	for _, word := range strings.Fields(fold(item)) {
		switch {
		case word == "waxy" || word == "floury":
			texture = word
		case !plainWords[word]:
			words = append(words, word)
		}
	}
	known := yieldTable().crops
	for start := 0; start < len(words) && start < 3; start++ {
		name := CropName(strings.Join(words[start:], " "))
		if known[name] {
			return name, texture
		}
	}
	return "", ""
}

// weighed is the line's weight: its amount, or the weight in brackets beside a
// count; no amount when there is neither.
func (l importLine) weighed() units.Quantity {
	switch {
	case l.amount.Dimension() == units.Mass && !l.amount.IsRange() && !l.amount.IsRough():
		return l.amount
	case l.amount.Dimension() == units.Count:
		return l.weight
	}
	return units.Quantity{}
}

// grams is a line's weight; nil when it is not weighed.
func (l importLine) grams() *big.Rat {
	q, err := l.weighed().In(units.Gram)
	if err != nil {
		return nil
	}
	return q.Rat()
}
