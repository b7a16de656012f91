package measures

import (
	"errors"
	"strings"

	"trencher/units"
	"trencher/units/pattern"
)

var (
	bullets = pattern.New(`^(?:[\s*•·▢☐◦‣–—-]|\[ ?\])+`)
	hedges  = pattern.New(`(?i)^(about|abt\.?|approx\.?|approximately|roughly|around|circa|ca\.?|c\.|~|up to|at least|a good|a generous|generous|good|a scant|scant|a full|just over|just under|nearly|barely|max\.?|min\.?)\s+(.+)$`)
	partOf  = pattern.New(`(?i)^(?:the )?((?:(?:finely|freshly|coarsely) )?(?:(?:grated|squeezed|pared|strained) )?(?:juice (?:and|&) (?:grated )?zest|(?:grated )?zest (?:and|&) juice|juice and rind|rind and juice|juice|zest|rind|peel|leaves|seeds|whites?|yolks?|flesh|pulp|kernels))(?: only)? (?:of|from) (.+)$`)
	joined  = pattern.New(`([A-Za-z])\s*/\s*(\d)`)
	headed  = pattern.New(`(?i)^(for|to make|to) the [^,]+$`)
)

// plainSpaces makes every kind of space one.
func plainSpaces(text string) string {
	return strings.Join(strings.Fields(strings.NewReplacer("\u00a0", " ", "\u2009", " ", "\u202f", " ", "\u200b", "", "\ufeff", "").Replace(text)), " ")
}

// isHeading tells the title of a part of the list from an ingredient.
func isHeading(text string) bool {
	return strings.HasSuffix(text, ":") && !strings.ContainsAny(text, "0123456789½¼¾⅓⅔") || headed.MatchString(text) && !strings.ContainsAny(text, "0123456789")
}

// amount reads the amount at the start of a line and returns what follows.
func (l *Line) amount(text string, s units.System) (rest string) {
	text = l.inWords(text, s)
	if m := hedges.FindStringSubmatch(text); m != nil {
		if _, _, err := leadingAmount(m[2], s); err == nil {
			l.note(m[1])
			text = m[2]
		}
	}
	if m := partOf.FindStringSubmatch(text); m != nil {
		l.state(m[1])
		text = m[2]
	}
	text = joined.ReplaceAllString(text, "$1 / $2")
	if vagueLead.MatchString(text) {
		return text
	}
	q, rest, err := leadingAmount(text, s)
	if ambiguous(err) {
		q, rest, err = settledByOther(text, err)
	}
	if errors.Is(err, errNoAmount) && !l.Amount.IsValid() {
		if one, after, wrong := leadingAmount("1 "+text, s); wrong == nil && one.Unit() != units.Piece && (!one.Unit().IsSize() || startsPart(after, s)) {
			q, rest, err = one, after, nil // "handful of parsley", "small handful of parsley"
		}
	}
	switch {
	case err == nil:
		l.take(q, strings.TrimSpace(strings.TrimSuffix(text, rest)), s)
		return l.sized(rest, s)
	case errors.Is(err, errNoAmount):
		return text
	}
	wrong := units.InField("amount", text, err)
	var told *units.FieldError
	if errors.As(wrong, &told) {
		l.Doubts = append(l.Doubts, told)
	}
	return rest
}

// take keeps an amount, the same said again beside it, and its packs.
func (l *Line) take(q units.Quantity, written string, s units.System) {
	l.Amount = q
	if before, other, ok := cutOther(written); ok {
		if again, err := units.Parse(other, s); err == nil && again.Unit() != units.Piece {
			l.again(again, q.Unit() == units.Piece && !strings.Contains(before, "/") || q.Unit().IsPack())
		}
	}
	if packs, ok := packsIn(written, q, s); ok {
		l.Packs = packs
		if packs.Unit().Name() == "tin" {
			l.state("tinned")
		}
	}
}

// cutOther parts an amount from the same in other units behind a stroke or in a
// bracket.
func cutOther(written string) (before, other string, ok bool) {
	before, other, ok = strings.Cut(written, " / ")
	if !ok {
		before, other, ok = strings.Cut(written, "(")
	}
	return before, strings.TrimSpace(aboutWords.ReplaceAllString(strings.Trim(other, "/() "), "")), ok
}

// again keeps an amount said beside the first. Behind a bare number, and behind
// packs, it is that of each: "2 (6 oz) fillets", "2 tins (400 g)".
func (l *Line) again(q units.Quantity, each bool) {
	if each && !l.Amount.IsRange() && (l.each || !aboutInBracket.MatchString(l.Text)) {
		q = q.Scale(l.Amount.Rat())
		l.taken = !l.each
	}
	l.Also = append(l.Also, q)
}

var aboutInBracket = pattern.New(`(?i)\((about|approx|roughly|around|c\.|~|total)`)

var (
	aboutWords = pattern.New(`(?i)^(?:(?:about|(?:a )?scant|(?:a )?generous|(?:a )?good|just (?:over|under)|nearly|almost|abt\.?|approx\.?|approximately|roughly|around|circa|ca\.?|c\.|or|i\.e\.|weighing|total weight(?: of)?|drained weight)\s+|~\s*)+`)
	packWords  = pattern.New(`(?i)^(\S+(?: \d+/\d+)?)\s*(?:x|×|\()?.*?([a-z]+)$`)
)

// packsIn is how many packs an amount of packs of a stated size is.
func packsIn(written string, q units.Quantity, s units.System) (units.Quantity, bool) {
	m := packWords.FindStringSubmatch(written)
	if m == nil || q.Dimension() == units.Count {
		return units.Quantity{}, false
	}
	packs, err := units.Parse(m[1]+" "+m[2], s)
	if err != nil || packs.Dimension() != units.Count {
		packs, err = units.Parse("1 "+m[2], s)
	}
	if err != nil || packs.Dimension() != units.Count {
		return units.Quantity{}, false
	}
	return packs, true
}

// sized puts a size before a part of a plant into the state: "2 large cloves
// garlic" are two cloves.
func (l *Line) sized(rest string, s units.System) string {
	if !l.Amount.Unit().IsSize() {
		return rest
	}
	first, after, _ := strings.Cut(rest, " ")
	if !startsPart(rest, s) {
		return rest
	}
	l.inParts(first, s)
	return after
}

// startsPart tells a part of a plant or a handful, and something for it to be of.
func startsPart(rest string, s units.System) bool {
	first, _, more := strings.Cut(rest, " ")
	return more && isPart(first, s)
}

func isPart(word string, s units.System) bool {
	unit, err := units.ParseUnit(word, s)
	return err == nil && unit.Dimension() == units.Count && !unit.IsSize() && unit.Kind() != units.Piece.Kind() && len(word) > 2
}

// inParts counts in parts what was counted in pieces; a size goes to the state.
func (l *Line) inParts(part string, s units.System) {
	unit, err := units.ParseUnit(part, s)
	if err != nil {
		return
	}
	if l.Amount.Unit().IsSize() {
		l.state(l.Amount.Unit().Name())
	}
	low, high := l.Amount.Ends()
	l.Amount = units.FromRange(low, high, unit)
}

var errNoAmount = errors.New("no amount")

// leadingAmount splits a line after the longest start that is an amount and
// leaves something for it to be of.
func leadingAmount(text string, s units.System) (units.Quantity, string, error) {
	words := strings.Fields(text)
	var first error
	var longest units.Quantity
	var after string
	for n := min(len(words)-1, 12); n > 0; n-- {
		q, err := units.Parse(strings.Join(words[:n], " "), s)
		rest := strings.Join(words[n:], " ")
		switch {
		case ambiguous(err):
			return units.Quantity{}, rest, err
		case err == nil && usable(q) && namesFood(rest) && !partOfName(words, n, s):
			return q, rest, nil
		case err == nil && usable(q) && !longest.IsValid():
			longest, after = q, rest
		case err != nil && first == nil && !errors.Is(err, units.ErrUnknownUnit) && startsNumber(words[0]):
			first = err
		}
	}
	switch {
	case longest.IsValid():
		return longest, after, nil
	case first != nil:
		return units.Quantity{}, text, first
	}
	return units.Quantity{}, text, errNoAmount
}

// partOfName tells whether the last word of an amount belongs to the name behind it,
// which is another food without it: "500 g leaf beet" is no beet by the leaf.
func partOfName(words []string, n int, s units.System) bool {
	if n < 2 || !isPart(words[n-1], s) {
		return false
	}
	if q, err := units.Parse(strings.Join(words[:n-1], " "), s); err != nil || !usable(q) {
		return false
	}
	head := func(words []string) string {
		text, _, _ := strings.Cut(strings.Join(words, " "), ",")
		return text
	}
	long, named := FoodNamed(head(words[n-1:]))
	short, ok := FoodNamed(head(words[n:]))
	return named && ok && long.Food.Family != short.Food.Family && lookupKey(long.Food.Name) != lookupKey(short.Food.Name)
}

// ambiguous tells the error of a regional measure without its region.
func ambiguous(err error) bool {
	var regional *units.AmbiguousError
	return errors.As(err, &regional)
}

// namesFood tells whether what follows an amount begins with a food of the
// table: "1 star anise" is not a star of anise.
func namesFood(rest string) bool {
	head, _, _ := strings.Cut(strings.TrimPrefix(rest, "of "), ",")
	_, ok := FoodNamed(head)
	return ok
}

func startsNumber(word string) bool {
	return strings.ContainsAny(word, "0123456789½¼¾⅓⅔⅛⅜⅝⅞⅕⅖⅗⅘⅙⅚")
}

// usable tells an amount that an ingredient can have.
func usable(q units.Quantity) bool {
	switch q.Dimension() {
	case units.Mass, units.Volume, units.Count, units.Length:
		return q.Sign() > 0
	}
	return false
}

// settledByOther reads a regional measure by the amount in other units beside
// it: "1 pint/600 ml" is a British pint.
func settledByOther(text string, regional error) (units.Quantity, string, error) {
	var found units.Quantity
	var rest string
	for _, s := range []units.System{units.UK, units.US, units.Metric, units.AU} {
		q, after, err := leadingAmount(text, s)
		if err != nil || !strings.ContainsAny(strings.TrimSuffix(text, after), "/(") {
			continue
		}
		if found.IsValid() && !found.Equal(q) {
			return units.Quantity{}, rest, regional
		}
		found, rest = q, after
	}
	if !found.IsValid() {
		_, rest, _ = leadingAmount(text, units.NoSystem)
		return units.Quantity{}, rest, regional
	}
	return found, rest, nil
}
