package saved

import (
	"slices"
	"strconv"
	"strings"
	"trencher/units"
	"trencher/units/pattern"
	"unicode"
)

// manyAmounts parts ingredients that stand one behind the other on a line, each with
// its amount: "Pastry: 175 g flour, 85 g butter, 1 egg yolk". nil where it is no such
// line.
func manyAmounts(text string) []string {
	head, rest := "", text
	if before, after, ok := strings.Cut(text, ":"); ok && len(strings.Fields(before)) <= 4 && !strings.ContainsAny(before, "0123456789(") && !titleMark.MatchString(text) && !methodHead.MatchString(heading(before)) {
		head, rest = before+":", strings.TrimSpace(after)
	}
	rest = strings.TrimSuffix(rest, ".")
	if !startsAmount(rest) || len(rest) > 4*longestRow || strings.ContainsAny(rest, "!?") || strings.Contains(rest, ". ") {
		return nil
	}
	parts, semicolons := apart(rest)
	with := 0
	for _, part := range parts {
		if startsAmount(part) && !purposeOnly.MatchString(part) && len(strings.Fields(part)) > 1 {
			with++
		}
	}
	if with < 2 || with < len(parts) && !semicolons && with < 3 {
		return nil
	}
	var items []string
	if head != "" {
		items = append(items, head)
	}
	return append(items, withRemarks(parts, semicolons)...)
}

// withRemarks puts what is only said of an ingredient to it again.
func withRemarks(parts []string, semicolons bool) (items []string) {
	for _, part := range parts {
		if n := len(items); n > 0 && !startsAmount(part) && !semicolons && (len(strings.Fields(part)) > 2 || cutWord.MatchString(part)) {
			items[n-1] += ", " + part
			continue
		}
		items = append(items, part)
	}
	return items
}

// apart parts a list at its semicolons, else at its commas, but for those in brackets.
func apart(text string) (parts []string, semicolons bool) {
	semicolons = strings.Contains(text, ";")
	depth, start := 0, 0
	for i, c := range text {
		switch {
		case c == '(':
			depth++
		case c == ')':
			depth--
		case depth > 0:
		case c == ';', c == ',' && !semicolons:
			parts = append(parts, strings.TrimSpace(text[start:i]))
			start = i + 1
		}
	}
	return append(parts, strings.TrimSpace(text[start:])), semicolons
}

var (
	purposeOnly = pattern.New(`(?i)^[\d½¼¾⅓⅔./ -]+(?:inch|in|cm|mm|"|″)\b|^\S+ ?(?:\pL+ )?(?:for|to|each|extra|more|of which|in all|total)\b|^\S+ (?:\pL+ed|cut|whole)\b|^(?:about |approx\.? |around |roughly |~ ?)?[\d½¼¾⅓⅔.,/]+ ?\pL*\.?(?: or so| or thereabouts| in weight)?(?: ?\(\d[^)]*\))?$`)
	cutWord     = pattern.New(`(?i)(?:ed|ly|ped|cut|beaten|torn)\b`)
)

// headedInLine parts a heading from what stands behind it on its line:
// "Ingredients: 500 g carrots, 2 tbsp oil", "Method: boil them".
func headedInLine(text string) (head plainLine, items []string, ok bool) {
	name, rest, found := strings.Cut(text, ":")
	rest = strings.TrimSpace(rest)
	switch {
	case !found || rest == "":
		return head, nil, false
	case timeLine.MatchString(text):
		return head, nil, false
	case methodHead.MatchString(heading(name)) && len(strings.Fields(rest)) > 3:
		return plainLine{text: name + ":"}, []string{rest}, true
	case !ingredientsHead.MatchString(heading(name)):
		return head, nil, false
	}
	return plainLine{text: name + ":"}, runOn(rest), true
}

// runOn parts ingredients that stand one behind the other on a line: at each comma
// before an amount, or before what needs none.
func runOn(text string) []string {
	var all []string
	for _, piece := range strings.FieldsFunc(text, func(c rune) bool { return c == ',' || c == ';' }) {
		piece = strings.TrimSpace(piece)
		switch {
		case piece == "":
		case len(all) == 0 || amountStart.MatchString(piece) || startsAmount(piece):
			all = append(all, strings.TrimSuffix(piece, "."))
		default:
			all[len(all)-1] += ", " + strings.TrimSuffix(piece, ".")
		}
	}
	return all
}

// longestSignature is how many lines may stand below "--" at the end of a message.
const longestSignature = 6

var bareNumber = pattern.New(`^(\d{1,2})\s+(\pL+)\b`)

// startsBareStep tells the next of steps that are numbered without a dot: "1 Boil
// the beetroot." A word that counts something is no step: "1 slice bread".
func startsBareStep(text string, next int) bool {
	m := bareNumber.FindStringSubmatch(text)
	if m == nil || m[1] != strconv.Itoa(next) || !doing[strings.ToLower(m[2])] || !unicode.IsUpper([]rune(m[2])[0]) || len(strings.Fields(text)) < 4 {
		return false
	}
	_, err := units.ParseUnit(m[2], units.Metric)
	return err != nil || next > 2 // they are numbered already: "3 Drizzle with the vinegar"
}

var yieldBehind = pattern.New(`(?i)^(\S.*?)(?:\s*([,;:–—/|~-]|\.{2,}|…)\s*|\s+)\(?((?:serves|feeds|makes|does|enough for|for|für|yields?)[:\s]+(?:about |abt\.? |around |approx\.? |up to )?(?:\d+(?:\s*(?:-|–|to)\s*\d+)?|one|two|three|four|five|six|eight|ten|twelve)(?:\s+(?:people|persons|Portionen|Personen|Pers\.?|portions?|servings?|helpings|as an? [\pL ]+))?|(?:\d+(?:\s*(?:-|–|to)\s*\d+)?|two|three|four|five|six|eight|ten|twelve) (?:portions?|servings?|people|persons|helpings|Portionen|Personen|[Pp]ers\.?|of us|slices|squares|pieces|buns|scones|muffins|biscuits|fritters|cakes)|\d+\s*(?:-|–|to)\s*\d+)\)?[.!:]?$`)

// withYieldApart parts a title from the yield on its line: "Pea salad (serves 4)",
// or set apart by a wide gap.
func withYieldApart(l plainLine, wide string, begins bool) []plainLine {
	if l.mark != noMark || len(l.text) > 100 {
		return []plainLine{l}
	}
	m := yieldBehind.FindStringSubmatch(l.text)
	if m == nil || portionsAlone.MatchString(l.text) || yieldLine.MatchString(l.text) || startsAmount(l.text) || strings.HasSuffix(m[1], ":") {
		return []plainLine{l}
	}
	if !strings.Contains(l.text, "("+m[3]+")") && bareRange.MatchString(m[3]) {
		return []plainLine{l}
	}
	apart := m[2] != "" || strings.Contains(l.text, "("+m[3]+")") || wideGap.MatchString(strings.TrimSpace(wide))
	if !apart && (doing[strings.ToLower(firstWord(l.text))] || strings.HasPrefix(strings.ToLower(m[3]), "for ") && !begins) {
		return []plainLine{l} // "Simmer for two", "Stock for 4"
	}
	first, second := titleAndYield(l, m, wide, begins)
	second.gap, second.role, second.settled = false, Yield, true
	return []plainLine{first, second}
}

// titleAndYield are the two lines of one, by where yieldBehind parts it.
func titleAndYield(l plainLine, m []string, wide string, begins bool) (first, second plainLine) {
	first, second = l, l
	first.text, second.text = strings.TrimRight(m[1], " (,;."), m[3]
	if head, makes, ok := cutGap(wide); ok && yieldLine.MatchString(makes) && strings.HasPrefix(first.text, strings.Join(strings.Fields(head), " ")) {
		first.text, second.text = strings.Join(strings.Fields(head), " "), strings.Join(strings.Fields(makes), " ")
	}
	if !begins && strings.HasSuffix(m[1], ".") && len(strings.Fields(m[1])) >= leastOfLine { // a sentence before it
		first.text, first.settled = m[1], true
	}
	if before, inside, open := strings.Cut(first.text, "("); open && !strings.Contains(inside, ")") && before != "" { // "Kale crisps (snack for 4)"
		first.text = strings.TrimSpace(before)
	}
	return first, second
}

var bareRange = pattern.New(`^[\d\s–to-]+$`)

var wideGap = pattern.New(`\S(?:\s{3,}|\t)\S`)

// dropNumber takes the number off a numbered step.
func dropNumber(text string) string {
	if rest := numbers.ReplaceAllString(text, ""); rest != "" && rest != text {
		return rest
	}
	if rest := stepWord.ReplaceAllString(text, ""); rest != "" {
		return rest
	}
	return text
}

// yieldBelow tells a line below the steps that says for how many they were.
func (p *plainReader) yieldBelow(i int) bool {
	text := p.lines[i].text
	return yieldAtEnd.MatchString(text) && len(text) < 60 || p.yieldAlone(i)
}

// yieldAlone tells a line below the steps, set apart or in brackets, that is nothing but a number of
// portions, where no line above told one: "(4 servings)".
func (p *plainReader) yieldAlone(i int) bool {
	l := p.lines[i]
	return (l.gap || strings.HasPrefix(l.text, "(")) && l.mark == noMark && portionsAlone.MatchString(l.text) &&
		!slices.ContainsFunc(p.lines[:i], func(l plainLine) bool { return l.role == Yield })
}

var portionsAlone = pattern.New(`(?i)^\(?(?:about |abt\.? |around )?(?:\d+(?:\s*(?:-|–|to)\s*\d+)?|two|three|four|five|six|eight|ten|twelve) (?:portions?|servings?|people|ppl|persons|helpings?)\)?\.?$`)
