package measures

import (
	"math/big"
	"strings"

	"trencher/units"
	"trencher/units/pattern"
)

// A line need not begin with its amount in figures. What is put before it or
// behind it in words is brought to the front here, so that one reader reads all.
// The words are ordinary English, no source.

const numberSigns = `\d½¼¾⅓⅔⅛⅜⅝⅞⅕⅖⅗⅘⅙⅚⅐⅑⅒`

var (
	partOfOne    = pattern.New(`(?i)^((?:\d+ )?\d+/\d+|[½¼¾⅓⅔]) (?:of )?an? (\pL)`)
	juiceOf      = pattern.New(`(?i)^((?:the )?(?:(?:finely|freshly) )?(?:grated |squeezed )?(?:juice (?:and|&) zest|zest (?:and|&) juice|juice|zest|rind)) ([` + numberSigns + `].*|half .*|an? .*|one .*)$`)
	couple       = pattern.New(`(?i)^(?:an? )?couple (?:of )?(.+)$`)
	countless    = pattern.New(`(?i)^((?:just )?(?:an? )?(?:good )?(?:few|several|some))(?: more)? (.+)$`)
	strength     = pattern.New(`(?i)^(?:an? |one )?(good|generous|scant|fair|fat|big|huge|hefty|heaped|heaping|tiny|mean|healthy|decent|large|small) (.+)$`)
	wordsLast    = pattern.New(`(?i)^([\pL][\pL '’&,-]*?)\s*(?:[:–]|\s-\s|\.{2,}|…)\s*((?:(?:(?:finely |freshly )?grated |squeezed )?(?:juice|zest|rind) of|plenty|lots|some|a little|a bit|a few|to taste|as needed|enough|a good|a generous|a large|a small|a|an|half|small|large|big|generous|pinch|handful|knob|bunch|splash|drizzle|glug|dash|thumb|squeeze|sprig|one|two|three|four|five|six)\b.*)$`)
	commaLast    = pattern.New(`(?i)^([\pL][\pL '’-]*?), ((?:an?|half an?|one) (?:good |small |large |big )?([\pL]+))$`)
	numberLast   = pattern.New(`^([\pL][^` + numberSigns + `:(]*?(?:\([^()` + numberSigns + `]*\))?)(\s*:|\s*\.{2,}|\s*…|\s[–-]|\s*[,(]|\s[x×]|)\s*((?:(?:about|approx\.?|approximately|roughly|around|circa|ca\.?|c\.) ?|~ ?)?[` + numberSigns + `].*)$`)
	roughLast    = pattern.New(`(?i)^([\pL][\pL '’-]*?), (pinch|dash|splash|squeeze|knob|handful)(?: of)?$`)
	wordUnitLast = pattern.New(`(?i)^([\pL][\pL'’-]*(?: [\pL'’-]+){0,2}) (half an?|half|an?|one|two|three|four|six) ((?:good |small |large |big )?)([\pL]+)\.?$`)
	wordRange    = pattern.New(`(?i)^(one|two|three|four|five|six|seven|eight|nine|ten|\d+) or (one|two|three|four|five|six|seven|eight|nine|ten|\d+)\b`)
	andAHalf     = pattern.New(`(?i)^(an?|one|two|three|four|five|six|\d+) ([\pL.]+) and (a half|a quarter|a third|three quarters|½|¼|¾) (?:of )?(.+)$`)
	misread      = pattern.New(`^[lI|](?:[ ]?[½¼¾⅓⅔]| ?\d/\d|(?: ?(?:lbs?|oz|pts?|pints?|kg|tsps?|tbsps?|teasp|tablesp|cups?|gill|qt)\b))`)
	misreadUnit  = pattern.New(`[` + numberSigns + `] (?:(?:[I|]b|1b)s?|0[zZ]s?)\b`)
	// millilitreSpoons are spoons by what they hold: "2 x 15 ml spoons".
	millilitreSpoons = pattern.New(`(?i)\b(\d+(?:\.\d+)?) ?ml[ -](?:table|tea|dessert|measuring )?spoon(?:ful)?s?\b(?: of\b)?`)
	orSo             = pattern.New(`(?i) (?:or (?:thereabouts|so)|give or take)\b|(?:\d|\b)-ish\b`)
	unitOrTwo        = pattern.New(`(?i)^(?:an? |one )?([\pL-]+(?: of)?) or (?:two|2)(?: of)? (.+)$`)
	between          = pattern.New(`(?i)^between ([` + numberSigns + `./]+) and ([` + numberSigns + `])`)
	weighing         = pattern.New(`(?i)(?:,| -| –| of| so| that's) ((?:about|approx\.?|approximately|roughly|around|weighing(?: about)?|total weight(?: of)?(?: about| around)?|circa|ca\.?) [\d½¼¾.,/]+ ?(?:g|kg|grams|lb|lbs|oz|ml|l|litres?))(?: in (?:all|total)| altogether| total)?(,|$)`)
	eachInside       = pattern.New(`(?i)^(\d+|one|two|three|four|five|six) ([^,()]*?) ?\((?:about |approx\.? |roughly |around )?([\d½¼¾./]+ ?\pL+\.?) each\)(.*)$`)
	eachBehind       = pattern.New(`(?i)^(\d+|an?|one|two|three|four|five|six) ([^,]+), (?:about |approx\.? |roughly |around )?([\d½¼¾./]+ ?\pL+\.?) each\b(.*)$`)
)

// partsInFigures are the parts of one that stand behind a unit: "a pound and a half".
var partsInFigures = map[string]string{"a half": "½", "½": "½", "a quarter": "¼", "¼": "¼", "a third": "⅓", "three quarters": "¾", "¾": "¾"}

// toTheFront brings an amount that stands behind its ingredient before it:
// "Butter: 50 g, melted", "Onions (2)", "Black pepper: plenty".
func (l *Line) toTheFront(text string, s units.System) string {
	text = misread.ReplaceAllStringFunc(text, func(figure string) string {
		l.doubt("amount", figure, figure+" was read as a 1", "the amount in figures", nil)
		return "1" + figure[len("l"):]
	})
	text = millilitreSpoons.ReplaceAllString(text, "$1 ml")
	text = misreadUnit.ReplaceAllStringFunc(text, func(unit string) string {
		right := "lb"
		if strings.ContainsAny(unit, "zZ") {
			right = "oz"
		}
		l.doubt("amount", unit, unit+" was read as "+right, "the amount with its unit", nil)
		return unit[:strings.LastIndexByte(unit, ' ')+1] + right
	})
	text = orSo.ReplaceAllStringFunc(text, func(said string) string {
		l.note(strings.TrimSpace(said))
		return " "
	})
	text = weighing.ReplaceAllString(between.ReplaceAllString(text, "$1-$2"), " ($1)$2")
	if m := wordRange.FindStringSubmatch(text); m != nil {
		text = inFigures(m[1]) + "-" + inFigures(m[2]) + text[len(m[0]):]
	}
	if m := andAHalf.FindStringSubmatch(text); m != nil {
		return inFigures(strings.NewReplacer("an", "1", "a", "1").Replace(m[1])) + partsInFigures[strings.ToLower(m[3])] + " " + m[2] + " " + m[4]
	}
	if m := eachInside.FindStringSubmatch(text); m != nil {
		l.each = true
		return m[1] + " (" + m[3] + ") " + m[2] + m[4]
	}
	if m := eachBehind.FindStringSubmatch(text); m != nil {
		l.each = true
		return m[1] + " (" + m[3] + ") " + m[2] + m[4] // a number of packs
	}
	if m := wordsLast.FindStringSubmatch(text); m != nil {
		amount, rest, _ := strings.Cut(m[2], ",")
		if one := strings.ToLower(strings.Fields(amount)[0]); one == "plenty" || one == "lots" || one == "enough" {
			return "plenty of " + m[1] + after(rest)
		}
		return strings.TrimSpace(amount) + " " + m[1] + after(rest)
	}
	if turned, ok := wordsToTheFront(text, s); ok {
		return turned
	}
	if m := numberLast.FindStringSubmatch(text); m != nil {
		return numberToTheFront(text, m, s)
	}
	return text
}

// wordsToTheFront brings a measure in words before its ingredient: "ajwain half tsp",
// "lemon, a squeeze".
func wordsToTheFront(text string, s units.System) (turned string, ok bool) {
	name, amount, unit := "", "", ""
	if m := wordUnitLast.FindStringSubmatch(text); m != nil {
		name, amount, unit = m[1], m[2]+" "+m[3]+m[4], m[4]
	} else if m := commaLast.FindStringSubmatch(text); m != nil {
		name, amount, unit = m[1], m[2], m[3]
	} else if m := roughLast.FindStringSubmatch(text); m != nil {
		name, amount, unit = m[1], m[2], m[2]
	} else {
		return "", false
	}
	_, err := units.ParseUnit(unit, s)
	return amount + " " + name, err == nil
}

// numberToTheFront brings the number at the end of a line before its ingredient, where
// it is an amount that can be read.
func numberToTheFront(text string, m []string, s units.System) string {
	mark, tail := strings.TrimSpace(m[2]), m[3]
	if mark == "(" {
		inner, rest, shut := strings.Cut(tail, ")")
		if !shut {
			return text
		}
		tail = inner + rest
	}
	amount, rest := tail, ""
	if at := plusExtra.FindStringIndex(tail); at != nil {
		amount, rest = tail[:at[0]], tail[at[0]:]
	}
	amount, more, _ := strings.Cut(amount, ",")
	rest = strings.Trim(more+rest, " ,")
	if open := strings.IndexByte(amount, '('); open > 0 && !strings.HasSuffix(strings.TrimSpace(amount), ")") {
		return text
	}
	q, err := units.Parse(aboutWords.ReplaceAllString(amount, ""), s)
	if before, said, cut := strings.Cut(amount, "("); err != nil && cut { // "400 g (3 or so)"
		amount = strings.TrimSpace(before)
		rest = strings.Trim("("+said+", "+rest, " ,")
		q, err = units.Parse(aboutWords.ReplaceAllString(amount, ""), s)
	}
	if err != nil && mark == "," { // "Parsley, 2 tbsp chopped"
		if part, done, wrong := leadingAmount(amount, s); wrong == nil && usable(part) && allBeside(done) {
			return strings.TrimSuffix(amount, done) + m[1] + after(done+after(rest))
		}
	}
	if !turns(q, err, mark, m[1], s) {
		return text
	}
	return amount + " " + m[1] + after(rest)
}

// turns tells whether an amount that stands behind a name, by a mark or none, is one
// of it.
func turns(q units.Quantity, err error, mark, name string, s units.System) bool {
	switch {
	case err != nil && !ambiguous(err):
		return strings.HasPrefix(mark, "..") // "Garlic.......1 fat clove"
	case err == nil && !usable(q):
		return false
	}
	if _, known := FoodNamed(plainSpaces(bracketed.ReplaceAllString(name, ""))); known || mark != "" && mark != "," && mark != "(" {
		return true
	}
	return mark != "(" && err == nil && q.Unit() != units.Piece && !q.Unit().IsSize() && fewWords.MatchString(name) && !saysNumber(name, s)
}

// saysNumber tells words that begin with an amount: "two courgettes".
func saysNumber(text string, s units.System) bool {
	_, err := units.Parse(firstOf(text), s)
	return err == nil
}

// fewWords is a name that no table has, before an amount with its unit: "haldi 1/4 tsp".
var fewWords = pattern.New(`^\pL[\pL'’-]*(?: [\pL'’-]+){0,2} ?$`)

var plusExtra = pattern.New(`(?i),? *(?:\+|plus) (?:a little |some )?(?:extra|more)\b`)

// inFigures is a small number in figures.
func inFigures(word string) string {
	if q, err := units.Parse(word, units.NoSystem); err == nil {
		return q.String()
	}
	return word
}

func after(rest string) string {
	if rest = strings.TrimSpace(rest); rest == "" {
		return ""
	}
	return ", " + rest
}

// inWords reads what stands before an amount, or for it, in words that have no
// number: "a few sprigs of thyme" has no amount, "a good pinch" is a pinch.
func (l *Line) inWords(text string, s units.System) string {
	text = partOfOne.ReplaceAllString(text, "$1 $2")
	if m := juiceOf.FindStringSubmatch(text); m != nil {
		text = m[1] + " of " + m[2]
	}
	if either, ok := oneOrTwo(text, s); ok {
		return either
	}
	if m := couple.FindStringSubmatch(text); m != nil {
		l.note("a couple")
		return "2 " + m[1]
	}
	if m := countless.FindStringSubmatch(text); m != nil {
		l.Amount = units.ToTaste()
		l.note(m[1] + l.ofUnit(m[2], s))
		l.doubt("amount", m[1], m[1]+": how many?", "a number; or leave it to taste", nil)
		return withoutUnit(m[2], s)
	}
	if m := strength.FindStringSubmatch(text); m != nil {
		whole, _, err := leadingAmount("1 "+m[1]+" "+m[2], s)
		if one, _, wrong := leadingAmount("1 "+m[2], s); wrong == nil && (err != nil || whole.Dimension() == units.Count) && (one.IsRough() || one.Dimension() != units.Count) && !isPart(firstOf(m[2]), s) {
			l.note(m[1])
			return "1 " + m[2]
		}
	}
	return l.strong(text, s)
}

// strong takes from before a measure what is said of it: "2 good handfuls", "1 drained
// can of beans".
func (l *Line) strong(text string, s units.System) string {
	if m := manyStrong.FindStringSubmatch(text); m != nil && (isPart(firstOf(m[3]), s) && !isSize(m[2]) || isRough(firstOf(m[3]), s)) {
		l.note(m[2])
		return m[1] + " " + m[3]
	}
	if m := doneBefore.FindStringSubmatch(text); m != nil && isUnit(m[3], s) && allBeside(m[2]) {
		l.state(m[2])
		return m[1] + " " + m[3] + " " + m[4]
	}
	return text
}

// doneBefore is a pack with what is done to it, or how it is, before it: "1 drained can
// of beans", "2 thick slices of bread".
var doneBefore = pattern.New(`(?i)^([` + numberSigns + `-]+|an?|one|two|three|four) ([\pL-]+) ([\pL]+) (.+)$`)

func isUnit(word string, s units.System) bool {
	unit, err := units.ParseUnit(word, s)
	return (err == nil || ambiguous(err)) && !unit.IsSize() && len(word) > 1
}

// oneOrTwo reads "a clove or two of garlic".
func oneOrTwo(text string, s units.System) (either string, ok bool) {
	m := unitOrTwo.FindStringSubmatch(text)
	if m == nil {
		return "", false
	}
	word := strings.TrimSuffix(m[1], " of")
	unit, err := units.ParseUnit(word, s)
	return "1-2 " + word + " " + m[2], err == nil && usable(units.FromRat(big.NewRat(1, 1), unit))
}

var manyStrong = pattern.New(`(?i)^([` + numberSigns + `-]+|one|two|three|four|an?|half an?) (good|goodly|generous|fat|big|large|huge|hefty|small|tiny|wee|decent|nice|healthy|fair|full) (.+)$`)

// isSize tells a word of size that is a unit of its own.
func isSize(word string) bool {
	unit, err := units.ParseUnit(word, units.NoSystem)
	return err == nil && unit.IsSize()
}

// isRough tells a measure that is a guide: a knob, a glug, a pinch. A heaped spoon
// is none here.
func isRough(word string, s units.System) bool {
	unit, err := units.ParseUnit(word, s)
	return err == nil && unit.IsRough() && !unit.IsSize()
}

func firstOf(text string) string {
	word, _, _ := strings.Cut(text, " ")
	return word
}

// ofUnit is the unit word of "sprigs of thyme" with a space before it; "" where
// there is none.
func (l *Line) ofUnit(text string, s units.System) string {
	if rest := withoutUnit(text, s); rest != text {
		return " " + strings.TrimSpace(strings.TrimSuffix(strings.TrimSuffix(text, rest), "of "))
	}
	return ""
}

// withoutUnit is what stands behind the unit word of "sprigs of thyme", "drops
// vanilla extract".
func withoutUnit(text string, s units.System) string {
	first, rest, more := strings.Cut(text, " ")
	rest = strings.TrimPrefix(rest, "of ")
	if _, err := units.Parse("1 "+first, s); !more || err != nil || namesFood(text) && !namesFood(rest) {
		return text
	}
	return rest
}
