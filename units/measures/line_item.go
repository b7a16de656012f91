package measures

import (
	"math/big"
	"strings"

	"trencher/units"
	"trencher/units/pattern"
)

var (
	bracketed = pattern.New(`[(\[]([^()\[\]]*)[)\]]`)
	optional  = pattern.New(`(?i)[,;]?\s*\boptional\b:?\s*`)
	taste     = pattern.New(`(?i)[,;]?\s*\b((?:as per|according to|to) taste|as needed|to season|for seasoning|as required|if liked|if you like|if needed)\b[.]?`)
	purpose   = pattern.New(`(?i)[,;]?\s*\b((?:plus (?:a little |some )?(?:extra|more)(?: .*)?)|(?:(?:to|for) (?:serve|serving|garnish|garnishing|decorate|decoration|finish|finishing|grease|greasing|dust|dusting|fry|frying|brush|brushing|drizzle|drizzling|sprinkle|sprinkling|coat|coating|roll|rolling|deep-frying|shallow frying|the tin|the pan|the top|the water)\b(?: [^,;]*)?))`)
	// weightSaid is the weight of what is counted before it: "4 leeks (400 g trimmed weight)".
	weightSaid = pattern.New(`(?i)^([^a-z]+ ?(?:g|kg|grams|lb|lbs|oz))[,.]? (?:(?:in )?(?:total|net|gross)?|(?:total |net )?(trimmed|prepared|peeled|podded|shelled|cleaned|untrimmed|unpeeled)|(?:when|after|once) (trimmed|prepared|peeled|podded|shelled|cleaned)|(?:without|minus|excluding|less) ((?:the |its |their )?(?:stalks?|stems?|leaves|tops|skins?|stones?|pods?|peel))) ?(?:weight)?$`)
	weighedSo  = pattern.New(`(?i)^((?:podded|shelled|trimmed|prepared|peeled|cleaned|cooked|drained|net|gross|unpodded|untrimmed) weight)(?: of)? (.+)$`)
	inAll      = pattern.New(`(?i)\s+(?:in (?:all|total)|total|altogether)$`)
	vagueLead  = pattern.New(`(?i)^(a little|a bit of|plenty of|lots of|extra)\s+`)
	plusMore   = pattern.New(`(?i)[,;]?\s+(?:plus|\+) (\S.*)$`)
	plusFor    = pattern.New(`(?i)[,;]?\s+(?:plus|\+) ([\d½¼¾⅓⅔]\S* .*\b(?:for|to) .*)$`)
)

// asides takes out what stands in brackets: optional, the same amount again, or
// a remark. A bracket that belongs to the amount stays.
func (l *Line) asides(text string, s units.System) string {
	text = bracketed.ReplaceAllStringFunc(text, func(whole string) string {
		inner := inAll.ReplaceAllString(strings.TrimSpace(bracketed.FindStringSubmatch(whole)[1]), "")
		at := strings.Index(text, whole)
		switch {
		case strings.EqualFold(inner, "optional"):
			l.Optional = true
			return " "
		case inLength.MatchString(inner) && at > 0 && inAmount(text[:at]) && isUnit(strings.Trim(firstOf(strings.TrimSpace(text[at+len(whole):])), ","), s) && !strings.HasPrefix(strings.TrimSpace(text[at+len(whole):]), "piece"):
			l.note(inner) // "2 (1 cm thick) slices of bread"
			return " "
		case at > 0 && inAmount(text[:at]) && startsAmount(inner) && !namesFood(lastOf(strings.TrimSpace(text[:at]))):
			return "(" + aboutWords.ReplaceAllString(inner, "") + ")"
		case units.System(systemOf(inner)) != units.NoSystem:
			return whole
		}
		if q, err := units.Parse(aboutWords.ReplaceAllString(inner, ""), s); err == nil && usable(q) && q.Unit() != units.Piece {
			l.Also = append(l.Also, q)
			return " "
		}
		if l.weightOfAll(inner, text) {
			return " "
		}
		l.purpose = l.purpose || purpose.MatchString(inner)
		l.note(inner)
		return " "
	})
	if optional.MatchString(text) {
		l.Optional = true
		text = optional.ReplaceAllString(text, " ")
	}
	return strings.TrimSpace(plainSpaces(strings.ReplaceAll(text, " ,", ",")))
}

// weightOfAll reads what a bracket says that so many pieces weigh, and how they are
// then: "4 leeks (400 g trimmed weight)".
func (l *Line) weightOfAll(inner, text string) bool {
	m := weightSaid.FindStringSubmatch(inner)
	if m == nil {
		return false
	}
	q, err := units.Parse(aboutWords.ReplaceAllString(m[1], ""), units.NoSystem)
	if count, _, none := leadingAmount(text, units.NoSystem); err != nil || none != nil || count.Dimension() != units.Count {
		return false
	}
	l.Also = append(l.Also, q)
	if l.state(m[2] + m[3]); m[4] != "" {
		l.state("without " + m[4])
	}
	return true
}

// inLength is a thickness or a width, no amount.
var inLength = pattern.New(`(?i)^[` + numberSigns + `./ –-]+(?:cm|mm|in|inch(?:es)?|")(?:\b|[- ])`)

func lastOf(text string) string { return text[strings.LastIndexByte(text, ' ')+1:] }

func systemOf(word string) units.System {
	s, err := units.ParseSystem(strings.ToLower(word))
	if err != nil {
		return units.NoSystem
	}
	return s
}

// inAmount tells that nothing but an amount stands before a bracket.
func inAmount(before string) bool {
	_, err := units.Parse(strings.TrimSpace(before), units.US)
	return err == nil
}

func startsAmount(text string) bool {
	text = aboutWords.ReplaceAllString(text, "")
	return text != "" && startsNumber(strings.Fields(text)[0])
}

// purposes takes out "to taste" and what the ingredient is for.
func (l *Line) purposes(text string) string {
	if taste.MatchString(text) {
		text = taste.ReplaceAllString(text, " ")
		l.Amount = units.ToTaste()
	}
	if m := plusFor.FindStringSubmatch(text); m != nil {
		l.plus(m[1], units.NoSystem)
		text = strings.TrimSuffix(text, m[0])
	}
	for _, m := range purpose.FindAllString(text, -1) {
		l.purpose = true
		l.note(strings.Trim(m, " ,;"))
	}
	return strings.TrimSpace(strings.Trim(plainSpaces(purpose.ReplaceAllString(text, " ")), " ,;:–-"))
}

// item takes what follows the amount apart into the ingredient and what is done
// to it.
func (l *Line) item(text string, s units.System) {
	for _, start := range []string{"of ", "x ", "piece of ", "pieces of ", "piece ", "the "} {
		text = strings.TrimPrefix(text, start)
	}
	if m := weighedSo.FindStringSubmatch(text); m != nil {
		l.state(m[1])
		text = m[2]
	}
	if m := vagueLead.FindString(text); m != "" && !l.Amount.IsValid() {
		l.note(strings.TrimSpace(m))
		l.Amount = units.ToTaste()
		text = text[len(m):]
	}
	if m := plusMore.FindStringSubmatch(text); m != nil {
		text = strings.TrimSuffix(text, m[0])
		l.plus(m[1], s)
	}
	head, rest := cutHead(text)
	if joined, ok := joinSeasonings(text); ok && !l.Amount.IsValid() {
		head, rest = joined, ""
	} else if rest != "" && isSeasoning(text) && !allBeside(rest) {
		head, rest = text, ""
	}
	if first, other, ok := strings.Cut(head, " or "); ok {
		head = l.either(first, other, s)
	} else if m := namesBeside.FindStringSubmatch(head); m != nil {
		head = l.twoNames(m[1], m[2], s)
	}
	for _, part := range strings.Split(rest, ",") {
		l.behind(part, s)
	}
	l.name(head, s)
}

// behind reads what stands behind a comma: another choice, the weight of what is
// counted, or what is done to it.
func (l *Line) behind(part string, s units.System) {
	if other, ok := strings.CutPrefix(strings.TrimSpace(part), "or "); ok {
		l.instead(other, s)
		return
	}
	if q, err := units.Parse(aboutWords.ReplaceAllString(strings.TrimSpace(part), ""), units.NoSystem); err == nil && q.Dimension() == units.Mass && q.Sign() > 0 && l.Amount.Dimension() == units.Count {
		l.Also = append([]units.Quantity{q}, l.Also...) // "1 head broccoli, 350 g"
		return
	}
	if q, of, err := leadingAmount(part, s); err == nil && namesFood(of) && q.IsValid() {
		l.doubt("line", l.Text, "more than one thing in a line", "a line for each", nil)
	}
	l.state(part)
}

var including = pattern.New(`(?i),? (incl\.|including|made into) `)

// cutHead parts an item from what is said after a comma or a dash; a name of the
// table that has a comma of its own stays whole.
func cutHead(text string) (head, rest string) {
	text = strings.ReplaceAll(text, " - ", ", ")
	text = including.ReplaceAllString(strings.ReplaceAll(text, " – ", ", "), ", $1 ")
	if i := strings.IndexByte(text, ';'); i > 0 {
		text = text[:i] + "," + text[i+1:]
	}
	head, rest, _ = strings.Cut(text, ",")
	return strings.TrimSpace(head), rest
}

// plus reads a second amount of the same: "1 cup sugar plus 2 tbsp".
func (l *Line) plus(text string, s units.System) {
	if more, err := units.Parse(text, s); err == nil && usable(more) {
		if sum, err := l.Amount.Add(more); err == nil {
			l.Amount = sum
			return
		}
	}
	l.note("plus " + text)
	if startsAmount(text) {
		l.doubt("amount", text, "a second amount: "+text, "one amount, or a line for each", nil)
	}
}

// either reads "butter or margarine": the second is an alternative if both are
// foods, or if it has an amount of its own.
func (l *Line) either(first, other string, s units.System) string {
	if allBeside(first) { // "fresh or frozen peas"
		return first + " or " + other
	}
	if strings.Contains(other, " or ") {
		l.doubt("item", first+" or "+other, "one of several things", "one ingredient; or an amount before each of two", nil)
		return first + " or " + other
	}
	for rest := other; !startsAmount(other); { // "chicken or vegetable stock" is chicken stock or vegetable stock
		_, tail, more := strings.Cut(rest, " ")
		if !more {
			break
		}
		if _, ok := FoodNamed(first + " " + tail); ok {
			first += " " + tail
			break
		}
		rest = tail
	}
	if _, ok := FoodNamed(first); !ok {
		l.doubt("item", first+" or "+other, "one of two things", "one ingredient; or an amount before each", nil)
		return first + " or " + other
	}
	l.instead(other, s)
	return first
}

func (l *Line) instead(text string, s units.System) {
	other := Line{Text: text}
	other.readIngredient(text, s)
	if !other.Amount.IsValid() || other.Amount.IsToTaste() && !l.Amount.IsToTaste() {
		other.Amount, other.Also = l.Amount, l.Also
		other.Doubts = nil
	}
	l.Instead = append(l.Instead, other)
	l.Doubts = append(l.Doubts, other.Doubts...)
}

// seasonings are what a line may name without an amount.
var seasonings = map[string]bool{"salt": true, "black pepper": true, "white pepper": true, "salt and pepper": true, "water": true, "nutmeg": true}

// joinSeasonings writes seasonings that are listed some other way with "and" before
// the last: "salt, freshly ground black pepper".
func joinSeasonings(text string) (joined string, ok bool) {
	parts := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(",;/", r) })
	for i, part := range parts {
		parts[i] = strings.TrimPrefix(strings.TrimSpace(part), "and ")
		if parts[i] == "" || allBeside(parts[i]) {
			return "", false
		}
	}
	if len(parts) < 2 {
		return "", false
	}
	last := len(parts) - 1
	joined = strings.Join(parts[:last], ", ") + " and " + parts[last]
	return joined, isSeasoning(joined)
}

// isSeasoning tells seasonings, one or joined by "and".
func isSeasoning(item string) bool {
	if m, ok := FoodNamed(item); ok && seasonings[m.Food.Family] {
		return true
	}
	for part := range strings.SplitSeq(strings.NewReplacer(" & ", " and ", ", ", " and ").Replace(item), " and ") {
		if lookupKey(part) == "pepper" && strings.Contains(lookupKey(item), "salt") {
			continue
		}
		if m, ok := FoodNamed(part); !ok || !seasonings[m.Food.Family] {
			return false
		}
	}
	return true
}

// settle looks at the whole: what has no amount, no item, or a word before the
// item that is neither unit nor name.
func (l *Line) settle(s units.System) {
	if !l.Amount.IsValid() && len(l.Also) > 0 && len(l.Doubts) == 0 { // "shaved Berkswell (about 25 g)"
		l.Amount, l.Also = l.Also[0], l.Also[1:]
	}
	switch {
	case strings.HasPrefix(l.Item, "each ") || strings.Contains(" "+l.Text+" ", " each ") && !l.each:
		l.doubt("amount", l.Text, "so much of each", "a line for each", nil)
	case l.Item == "" && len(l.Doubts) == 0:
		l.doubt("item", l.Text, "an amount of what?", "an amount, then the ingredient", nil)
	case len(l.Doubts) > 0:
	case !l.Amount.IsValid() && dittoSaid.MatchString(l.State+" "+l.Item):
		l.doubt("amount", l.Text, "ditto: as the line above?", "the amount in figures", nil)
	case !l.Amount.IsValid() && (isSeasoning(l.Item) || lookupKey(l.Item) == "pepper" && milled.MatchString(l.State) || l.Known && l.purpose):
		l.Amount = units.ToTaste()
	case !l.Amount.IsValid():
		l.doubt("amount", l.Text, "no amount", `an amount in front, or "to taste" after it`, nil)
	case !l.Known && isSeasoning(l.Item):
	case !l.Known && l.glossed():
	case !l.Known && strings.Contains(" "+l.Item+" ", " and "):
		l.doubt("item", l.Item, "more than one thing in a line", "a line for each", nil)
	case !l.Known:
		l.unknownWord(s)
	}
	l.lone()
	l.groundPepper()
	l.wholePacks()
	l.accounted(s)
}

// milled is what is done to pepper, the spice.
var milled = pattern.New(`(?i)\b(?:ground|milled|cracked|crushed)\b`)

// glossed takes a name that no table has for what a bracket says it is: "400 g palak
// (spinach)". It is still to be checked.
func (l *Line) glossed() bool {
	if len(l.notes) != 1 {
		return false
	}
	m, ok := FoodNamed(l.notes[0])
	if !ok || m.Food.Kind == FormOfFood || len(m.Qualities)+len(m.States) > 0 {
		return false
	}
	l.Food, l.Known = m, true
	l.doubt("item", l.Item, l.Item+" is not a name the table knows: taken for "+m.Food.Name, "a name it knows, or leave it so", nil)
	return true
}

// dittoSaid are the signs for what stands in the line above.
var dittoSaid = pattern.New(`(?i)(?:^|\s)(?:ditto|do\.?|same again|the same|as above|"|″|〃|''|,,)(?:\s|$)`)

// groundPepper takes pepper by the spoon or the pinch for the spice, not the
// vegetable.
func (l *Line) groundPepper() {
	if l.Food.Food.Name != "pepper" || l.Amount.Dimension() != units.Volume && !l.Amount.IsToTaste() && l.Amount.Unit().Kind() != "turn" {
		return
	}
	if spice, ok := FoodNamed("black pepper"); ok {
		l.Food.Food = spice.Food
	}
}

// wholePacks gives packs whose size stands behind the ingredient that size: "1 tin
// sweetcorn (198 g)". Of several it may be that of each or of all.
func (l *Line) wholePacks() {
	if !l.Amount.Unit().IsPack() || len(l.Also) == 0 || l.Also[0].Dimension() != units.Mass && l.Also[0].Dimension() != units.Volume {
		return
	}
	if _, _, beside := cutOther(l.Text); l.Amount.Rat().Cmp(big.NewRat(1, 1)) > 0 && !(beside && strings.Index(l.Text, "(") < strings.Index(l.Text, l.Item)) {
		l.doubt("amount", l.Also[0].String(), l.Also[0].String()+": each, or together?", "2 x 400 g, or their weight together", nil)
		return
	}
	if l.Amount.Unit().Name() == "tin" {
		l.state("tinned")
	}
	l.Packs, l.Amount, l.Also = l.Amount, l.Also[0], l.Also[1:]
}

// unknownWord doubts an item that the table of names does not know; where its
// first word stands as a unit would, in the words of convert: "2 smoots flour" is
// not two of "smoots flour".
func (l *Line) unknownWord(s units.System) {
	first, rest, more := strings.Cut(l.Item, " ")
	if measure, of, ok := strings.Cut(l.Item, " of "); ok {
		first, rest = measure, of
	}
	if more && l.Amount.Unit() == units.Piece && endsInFood(rest) && !allBeside(first) {
		if _, err := units.Parse("1 "+first, s); err != nil {
			l.Amount = units.Quantity{}
			l.doubt("amount", first, err.Error(), "a unit that is known, or a name the table has", err)
			return
		}
	}
	l.doubt("item", l.Item, "not an ingredient the table knows", "a name it knows, or leave it so", nil)
}

// endsInFood tells a text whose last words are a food.
func endsInFood(text string) bool {
	words := strings.Fields(text)
	for n := range min(len(words), mostOfFood) {
		if _, ok := FoodNamed(strings.Join(words[len(words)-n-1:], " ")); ok {
			return true
		}
	}
	return false
}

// mostOfFood is how many words at the end of an unknown name may be a food's.
const mostOfFood = 3

// lone doubts "2 cloves" of nothing: of garlic, or the spice?
func (l *Line) lone() {
	if lookupKey(l.Item) == "cloves" && l.Amount.Unit() == units.Piece && l.State == "" {
		l.doubt("line", l.Item, "of garlic, or the spice?", "2 cloves of garlic, or 2 whole cloves", nil)
	}
}
