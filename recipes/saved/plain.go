package saved

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"trencher/units/pattern"
)

// fromPlain takes a typed or pasted recipe apart: its title, what goes in,
// what is done. Nothing it holds is left out; what has no clear place is a
// note.
func fromPlain(text string) Recipe { return fromNamed(text, "", false) }

// fromNamed is fromPlain for a text that something else names, should it not
// name itself; weak tells that a title of the text's own is to be believed
// before that name.
func fromNamed(text, name string, weak bool) Recipe {
	p := plainReader{lines: plainLines(text), name: name, weak: weak}
	p.findParts()
	p.readProse()
	p.join()
	return p.recipe()
}

var (
	ingredientsHead = pattern.New(`(?i)^(?:(?:amount|quantity|qty|how much)\s+(?:ingredients?|items?|what)|(?:ingredients?|items?)\s+(?:amount|quantity|qty|how much)|(?:the )?(?:ingredients?|you(?:'|’)?(?: wi)?ll need|you need|what you need|what goes in|shopping list|ingredients list)(?: (?:list|for|\().*)?)$`)
	methodHead      = pattern.New(`(?i)^(?:the )?(?:methods?|directions?|instructions?|steps|preparation|how(?: to(?: (?:make|do|cook) ?(?:it|them)?)?)?|making it|what to do|to make(?: it)?|procedure|cooking instructions|to cook)$`)
	notesHead       = pattern.New(`(?i)^(?:(?:cook(?:'|’)s |my |the )?notes?|tips?|storage|to store|nutrition(?: .*)?|(?:\d+ )?(?:comments?|reviews?|ratings?|replies)(?: .*)?|leave a (?:comment|reply)|related(?: .*)?|you (?:might|may) also like|share this|variations?|p\.?s\.?|source|from)$`)
	groupHead       = pattern.New(`(?i)^(?:for |to )(?:the |a )?[\pL -]{2,40}$`)
	yieldLine       = pattern.New(`(?i)^pour \d+ pers|^(?:serves|feeds|for) a crowd \(\d+|^\(?(?:this |it )?(?:cuts into|makes enough for|serves?|serving|servings|yield|yields|makes|feeds|does|for|für|portions?|enough for|is enough for|sufficient for|quantity)\b[:\s]*(?:about |abt\.? |around |approx\.? |approximately |up to )?(?:\d|one|two|three|four|five|six|seven|eight|nine|ten|twelve|a dozen)`)
	yieldAtEnd      = pattern.New(`(?i)^\(?(?:(?:this |it )?(?:serves|feeds|makes|does|yields?|portions?|servings)|(?:this |it )?is (?:enough|sufficient) for|(?:enough|sufficient) for|quantity)\b[:\s]*(?:about |abt\.? |around |approx\.? |approximately |up to )?(?:\d+|two|three|four|five|six|seven|eight|nine|ten|twelve|a dozen)\b[^.]{0,40}[.!]?\)?$`)
	yieldAfter      = pattern.New(`(?i)^\(?(?:about )?(?:\d+(?:\s*(?:-|–|to)\s*\d+)?|two|three|four|five|six|eight|ten|twelve) (?:portions?|servings?|people|ppl|persons?|helpings?|portionen|personen|pers|pp?\.|pax|of us)(?:\b|$).{0,20}$`)
	timeLine        = pattern.New(`(?i)^(?:prep(?:aration)?|cook(?:ing)?|total|ready|takes|time|oven|chill|rest(?:ing)?|hands[- ]on)\b(?: time)?(?: in)?\s*:?\s*(?:about |approx\.? )?\d.*\b(?:min(?:ute)?s?|hours?|hrs?|h|°?[CF]|degrees|mark \d)\b|^\d+(?:\s*(?:-|–|to)\s*\d+)? ?(?:min(?:ute)?s?|hours?|hrs?)\b.{0,20}$`)
	titleMark       = pattern.New(`(?i)^(?:recipe|title|name|recipe (?:name|title|for)|dish)\s*:\s*`)
	amountStart     = pattern.New(`(?i)^(?:about |approx\.? |~)?(?:\d|[½¼¾⅓⅔⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒]|(?:an?|one|two|three|four|five|six|half|a few|some|several|plenty of|lots of) [\pL]|(?:juice|zest|rind|grated|finely|pinch|handful|knob|splash|glug|drizzle|dash|bunch|salt|pepper|black pepper|freshly|sea salt|olive oil|oil|butter|water)\b)`)
	measureStart    = pattern.New(`(?i)^(?:about |approx\.? |~)?(?:\d|(?:pinch|handful|knob|splash|glug|drizzle|dash|bunch|sprig|squeeze|grating|twist|slice|stick)s? of\b|[½¼¾⅓⅔⅛⅜⅝⅞]|(?:an?|one|two|three|half an?|a few) (?:\w+ )?(?:pinch|handful|knob|splash|glug|drizzle|dash|bunch|sprig|tin|can|jar|clove|cup|tablespoon|teaspoon|tbsp|tsp|pint|packet|stick|thumb|slice|large|small|medium|few|bit|lemon|onion|egg|lime)s?\b)`)
	nameUnit        = pattern.New(`(?i)^\pL[\pL '’&()-]{1,40}? (?:about |approx\.? |~)?(?:[\d½¼¾⅓⅔]+(?:[.,/]\d+)?[½¼¾]?(?:\s?[-–]\s?\d+)?|half|an?|one|two|three|four|six)\s?(?:gr?|gms?|gms|kgs?|kilos?|ml|ltr|l|oz|lbs?|ts?ps?|t(?:a?b(?:l|ls|le)?s?p?|blsp)s?|teasp(?:oons?)?|tablesp(?:oons?)?|pints?|pts?|cups?|pinch(?:es)?|cloves?|bunch(?:es)?|sprigs?|handfuls?|nos?)\.?(?:(?:,| \+| plus|;) .{0,40}| \(.{0,40}\))?$`)
	nameFirst       = pattern.New(`(?i)^\pL[\pL '’&(),/-]{1,40}?(?:\s*:|\s*\.{2,}|\s*…|\s[–-]|,|\s[x×])\s*(?:about |approx\.? |~)?(?:[\d½¼¾⅓⅔⅛]+(?:[.,/]\d+)?\s?[½¼¾]?\s*(?:g|kg|gr?ams?|ml|l|litres?|oz|lbs?|pints?|pt|tsps?|tbsps?|teaspoons?|tablespoons?|cups?|cloves?|small|medium|large|sprigs?|bunch(?:es)?|tins?|cans?|sticks?|slices?|handfuls?|leaves|stalks?|cm|dsp|pinch(?:es)?)?(?:\b[^.]{0,30}|$)|(?:plenty|to taste|some|a little|a bit|half|one|two|three|four|as needed|(?:an? |one |two |three )?(?:good |large |small |generous |big )?(?:pinch(?:es)?|handfuls?|knobs?|bunch(?:es)?|splash|glug|dash|gratings?|sprigs?|squeeze|drizzle)))(?:, .{0,30})?$`)
	remarkLine      = pattern.New(`(?i)^(?:tips?|notes?|n\.?b\.?|p\.?s\.?|variations?|storage|(?:cook|gardener)(?:'|’)s (?:tip|note))\s*[:.–-]`)
	dateLine        = pattern.New(`(?i)^(?:(?:mon|tues|wednes|thurs|fri|satur|sun)day,? )?\d{1,2}(?:st|nd|rd|th)?\.? (?:of )?(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)\b`)
	overTitle       = pattern.New(`(?i)^(?:our |the |today(?:'|’)s |this week(?:'|’)s )?recipe(?: of the (?:week|day|month|season))?$`)
	purposeHead     = pattern.New(`(?i)^(?:to|for) (?:serve|serving|finish|garnish|garnishing|decorate|dress)$`)
	inTheEnd        = pattern.New(`(?i)\b(?:to taste|for (?:frying|serving|the pan|greasing|dusting|garnish)|to (?:serve|finish|garnish)|as needed|optional\)?)$`)
)

// doing are the words a step begins with.
var doing = wordSet(`add adjust allow arrange bake baste beat bind blanch blend blitz boil bring brown brush build carefully char check chill chop
	coat combine cook cool cover crack crumble crush cut deep-fry dice discard dissolve divide drain dress drizzle drink drop dry dust eat enjoy finish fold fill
	flip fry garnish gently gradually grate grease grill halve heat if in keep knead ladle lay layer leave let lift line lower make marinate mash
	meanwhile melt mix now once parboil pat peel pick pile place plunge poach pop pour preheat prepare press put quarter reduce refrigerate remove
	reserve rest return rinse roast roll rub sauté saute scald scatter scoop scrape scrub sear season separate serve set shake shape shell shred sift
	simmer skim slice slide smash soak soften spoon spread sprinkle squeeze stand start steam stir stir-fry store strain strew string stuff sweat
	swirl take taste tear test then thin throw tip to top toast toss transfer trim turn until using warm wash wash when while whip whisk whizz wilt wipe with work
	wrap you your after as at when first finally next immediately before during for`)

// measuring are those of them that are measures, too.
var measuring = wordSet("squeeze drizzle sprinkle scatter scrape shake drop slice quarter dust grate")

func wordSet(words string) map[string]bool {
	set := map[string]bool{}
	for _, word := range strings.Fields(words) {
		set[word] = true
	}
	return set
}

// heading is a line's text without the colon after it, for the patterns of
// headings.
func heading(text string) string { return strings.TrimRight(text, " :.-–") }

// findParts settles what each line is for, by the headings where there are
// any, else by how the line is written.
func (p *plainReader) findParts() {
	part := Note
	headed := p.hasHeadings()
	p.title()
	for i := range p.lines {
		l := &p.lines[i]
		if l.settled {
			continue
		}
		text := heading(l.text)
		switch {
		case ingredientsHead.MatchString(text):
			l.role, part = Heading, Ingredient
		case methodHead.MatchString(text):
			l.role, part = Heading, Step
		case notesHead.MatchString(text):
			l.role, part = Heading, Note
		case part == Step && p.yieldBelow(i):
			l.role = Yield
		case part != Step && (yieldLine.MatchString(l.text) && len(l.text) < 60 || yieldAfter.MatchString(l.text)) && l.mark == noMark && !strings.HasPrefix(strings.ToLower(l.text), "for the"):
			l.role = Yield
		case timeLine.MatchString(l.text) && len(l.text) < 80 && part != Step, remarkLine.MatchString(l.text), dateLine.MatchString(l.text):
			l.role, l.settled = Note, true
		case headed:
			l.role = p.underHeading(i, part)
		default:
			l.role = p.byLook(i, part)
			if l.role == Ingredient || l.role == Step {
				part = l.role
			}
		}
	}
	p.listAbove()
}

// listAbove takes the lines that stand right above an ingredient, with an amount and
// no look of their own, for ingredients too: those of one list are alike.
func (p *plainReader) listAbove() {
	for i := len(p.lines) - 2; i >= 0; i-- {
		l, next := &p.lines[i], p.lines[i+1]
		if l.role == Note && !l.settled && next.role == Ingredient && !next.gap && !isSentence(l.text) && anyAmount.MatchString(l.text) {
			l.role = Ingredient
		}
	}
}

// hasHeadings tells whether the text says where its ingredients begin, or its
// steps.
func (p *plainReader) hasHeadings() bool {
	for _, l := range p.lines {
		if text := heading(l.text); ingredientsHead.MatchString(text) {
			return true
		}
	}
	return false
}

func (p *plainReader) settle(i int, role Role) {
	p.lines[i].role, p.lines[i].settled = role, true
}

// startsAmount tells a line that begins with an amount, and not with a time: "3
// minutes later, squeeze over the lemon".
func startsAmount(text string) bool {
	return (measureStart.MatchString(text) || misread.MatchString(text)) && !timeStart.MatchString(text)
}

// misread is a 1 that a scanner took for a letter: "l½ lb leeks".
var misread = pattern.New(`^[lI|](?: ?[½¼¾⅓⅔]| ?\d/\d| ?(?:lbs?|oz|pts?|pints?|kg|tsps?|tbsps?|teasp|tablesp|cups?|gill)\b)`)

var timeStart = pattern.New(`(?i)^(?:about |after )?(?:[\d½–-]+|an?|two|three|five|ten) (?:minutes?|mins?|hours?|hrs?|seconds?|secs?)\b`)

// isNameFirst tells an ingredient whose amount stands behind it.
func isNameFirst(text string) bool {
	if doing[strings.ToLower(firstWord(text))] && !strings.ContainsAny(text, ":–") && !strings.Contains(text, " - ") {
		return false // "Fry in spoonfuls, 3 min a side"
	}
	return (nameFirst.MatchString(text) || nameUnit.MatchString(text)) && !endsInYear.MatchString(text)
}

// endsInYear tells what ends in a year: whose recipe it was, and when.
var endsInYear = pattern.New(`\b(?:1[789]|20)\d\d\)?$`)

// twoSentences tells where one sentence ends and the next begins: "From Saturday.
// Sorry!"
var twoSentences = pattern.New(`\pL{4,}[.!?] +\p{Lu}`)

// pageWords are what stands beside "Home" on a page.
var pageWords = pattern.New(`(?i)^(?:about|all|blog|contact|page|recipes|menu|shop|search|[|»>/•-])`)

// isTitle tells whether a line can name a recipe: short, no sentence, no
// greeting, no address.
func isTitle(text string) bool {
	words := strings.Fields(text)
	if len(words) == 0 || isNameFirst(text) || len(words) > 12 || utf8.RuneCountInString(text) > 80 || strings.HasSuffix(text, ":") || strings.HasSuffix(text, ",") ||
		strings.ContainsAny(text, "@?>»★☆|") || strings.Contains(text, "://") || strings.HasSuffix(text, ".") || twoSentences.MatchString(text) || yieldLine.MatchString(text) || timeLine.MatchString(text) {
		return false
	}
	switch strings.ToLower(strings.Trim(words[0], ",.!:")) {
	case "to":
		return len(words) > 2 && !strings.Contains(text, ":") // "To stew celery"
	case "hi", "hello", "dear", "hey", "thanks", "here", "from", "sent", "date", "subject", "print", "by", "here's", "here’s", "menu", "search", "posted", "published":
		return false
	case "home": // and no "Home fries"
		return len(words) > 1 && !pageWords.MatchString(words[1])
	}
	return unicode.IsLetter([]rune(words[0])[0]) || unicode.IsDigit([]rune(words[0])[0])
}

// underHeading is the role of a line under a heading.
func (p *plainReader) underHeading(i int, part Role) Role {
	l := p.lines[i]
	switch {
	case part == Note:
		return Note
	case p.isGroupHead(i):
		return Heading
	case part == Step && l.mark == noMark && (p.afterNumbered(i) || p.isFarewell(i)):
		return Note
	case part == Ingredient && l.mark == numberMark && !p.numberedIngredients(i) && !p.methodFollows(i):
		return Step
	case part == Ingredient && isSentence(l.text) && !amountStart.MatchString(l.text):
		return Step
	}
	return part
}

// methodFollows tells whether a heading over the steps is still to come.
func (p *plainReader) methodFollows(i int) bool {
	return slices.ContainsFunc(p.lines[i:], func(l plainLine) bool { return methodHead.MatchString(heading(l.text)) })
}

// afterNumbered tells a line below numbered steps, set apart from them, that does
// not begin with something to do.
func (p *plainReader) afterNumbered(i int) bool {
	if !p.lines[i].gap || beginsDoing(p.lines[i].text) {
		return i > 0 && p.lines[i-1].role == Note && !beginsDoing(p.lines[i].text) && p.afterNumbered(i-1)
	}
	for before := i - 1; before >= 0; before-- {
		if p.lines[before].role == Step {
			return p.lines[before].mark == numberMark
		}
	}
	return false
}

// isFarewell tells a line below the steps, set apart from them, in which somebody
// speaks, and what follows it.
func (p *plainReader) isFarewell(i int) bool {
	l := p.lines[i]
	if beginsDoing(l.text) {
		return false
	}
	return l.gap && chatter.MatchString(l.text) || i > 0 && p.lines[i-1].role == Note && !p.lines[i-1].settled && p.isFarewell(i-1)
}

// moreThanName are signs that a title says more than the dish's name: whose it is,
// where it was found, for how many.
var moreThanName = pattern.New(`(?i)\d|https?:|\bp(?:age|p)?\. |[|»•]|[-–—,(] ?(?:for|from|by|serves|feeds|via|see|adapted)\b|\s[-–—]\s|\(|\brecipe\b|[.?!].`)

// numberedIngredients tells whether ingredients are numbered too: what follows
// the number is an amount.
func (p *plainReader) numberedIngredients(i int) bool {
	text := dropNumber(p.lines[i].text)
	return startsAmount(text) || isNameFirst(text)
}

// byLook is the role of a line in a text without headings.
func (p *plainReader) byLook(i int, part Role) Role {
	l := p.lines[i]
	word := doingWord(l.text)
	switch {
	case p.isGroupHead(i):
		return Heading
	case l.mark == numberMark && !p.numberedIngredients(i):
		return Step
	case startsAmount(l.text) && !isSentence(l.text), isNameFirst(l.text) && part != Step:
		return Ingredient
	case part == Step && l.mark == noMark && (p.afterNumbered(i) || p.isFarewell(i)):
		return Note
	case part == Step && (!amountStart.MatchString(l.text) || timeStart.MatchString(l.text)):
		return Step
	case part == Ingredient && !l.gap && !isSentence(l.text) && !p.isDoing(i):
		return Ingredient
	case part == Ingredient && doing[word], part == Ingredient && isSentence(l.text), part == Step:
		return Step
	case part == Ingredient && l.gap && endsAsSentence(l.text) && !startsAmount(l.text) && len(strings.Fields(l.text)) >= leastOfStep:
		p.bareStep = true // "Oven on 200 °C."
		return Step
	case part == Note && (amountStart.MatchString(l.text) || l.mark == bulletMark || inTheEnd.MatchString(l.text)) && !isSentence(l.text):
		return Ingredient
	}
	return Note
}

// isDoing tells a line that begins with something to do; "squeeze lemon juice" within
// a list is a measure of it.
func (p *plainReader) isDoing(i int) bool {
	word := doingWord(p.lines[i].text)
	return doing[word] && !(measuring[word] && p.listGoesOn(i))
}

// listGoesOn tells that right below a line comes another with an amount, in the same
// list.
func (p *plainReader) listGoesOn(i int) bool {
	for _, l := range p.lines[i+1:] {
		if l.gap || l.mark != p.lines[i].mark || isSentence(l.text) {
			return false
		}
		if startsAmount(l.text) {
			return true
		}
	}
	return false
}

// isGroupHead tells a heading over a group of lines: it ends in a colon, or
// begins with "for the", and stands before other lines.
func (p *plainReader) isGroupHead(i int) bool {
	text := p.lines[i].text
	if i+1 >= len(p.lines) || p.lines[i].mark == numberMark || len(strings.Fields(text)) > 7 || startsAmount(text) {
		return false
	}
	return strings.HasSuffix(text, ":") || p.standsOut(i) || p.inCapitals(i) || groupHead.MatchString(heading(text)) && p.lines[i].mark == noMark && (!inTheEnd.MatchString(text) || purposeHead.MatchString(heading(text)))
}

// standsOut tells a line of a few words that the amounts below it stand further in
// than.
func (p *plainReader) standsOut(i int) bool {
	l, next := p.lines[i], p.lines[i+1]
	return !l.inward && next.inward && !l.settled && len(strings.Fields(l.text)) <= 4 && startsAmount(next.text) && !strings.ContainsAny(l.text, "0123456789")
}

// inCapitals tells a line of a few words in capitals before an amount that is not.
func (p *plainReader) inCapitals(i int) bool {
	text, next := p.lines[i].text, p.lines[i+1].text
	return capitals.MatchString(text) && len(strings.Fields(text)) <= 4 && !roughFirst.MatchString(text) && startsAmount(next) && strings.ToUpper(next) != next
}

var capitals = pattern.New(`^\p{Lu}{3}[\p{Lu} '’&-]*$`)

// leastOfStep is how many words a step has at least that does not say what to do.
const leastOfStep = 3

func firstWord(text string) string {
	word, _, _ := strings.Cut(text, " ")
	return word
}

// doingWord is the word a line begins with, where it may tell what to do: a "grate of
// nutmeg" is none.
func doingWord(text string) string {
	text = dropNumber(text)
	if _, rest, more := strings.Cut(text, " "); more && strings.HasPrefix(rest, "of ") {
		return ""
	}
	return strings.ToLower(strings.TrimRight(firstWord(text), ",.:;"))
}

// IsAside tells a line that stands beside a recipe and is no part of it: how long it
// takes, when somebody wrote it down, a word that it is sorted by.
func IsAside(text string) bool {
	return timeLine.MatchString(text) && len(text) < 80 || dateLine.MatchString(text) || tag.MatchString(text)
}

// isSentence tells a sentence from an entry of a list: it ends as one, and is
// long or begins with something to do.
func isSentence(text string) bool {
	words := strings.Fields(text)
	word := doingWord(text)
	ends := strings.ContainsAny(text[len(text)-1:], ".!?")
	return ends && (len(words) > 5 && !startsAmount(text) || doing[word]) || len(words) > 20 || doing[word] && len(words) > 3 && !amountStart.MatchString(text)
}

// join puts lines together that were broken for the width of a page.
func (p *plainReader) join() {
	var joined []plainLine
	p.bare = !slices.ContainsFunc(p.lines, func(l plainLine) bool { return l.role == Step && endsAsSentence(l.text) })
	p.tellApart()
	for _, l := range p.lines {
		if p.bare && l.role == Step && beginsDoing(l.text) { // nobody ends a step with a full stop here
			joined = append(joined, l)
			continue
		}
		if len(joined) > 0 && continues(joined[len(joined)-1], l) {
			last := &joined[len(joined)-1]
			p.listUnsure = p.listUnsure || last.role == Step && l.role == Ingredient
			last.text += " " + l.text
			last.broken = true
			continue
		}
		joined = append(joined, l)
	}
	p.lines = joined
}

// tellApart finds the lines that were not broken from the one before for the width of a
// page, which is at least that of the longest line there: a list may stand in a column
// of its own.
func (p *plainReader) tellApart() {
	width := map[Role]int{}
	for _, l := range p.lines {
		width[l.role] = max(width[l.role], len(l.text))
	}
	for i := 1; i < len(p.lines); i++ {
		before, l := p.lines[i-1], &p.lines[i]
		l.apart = len(before.text)+len(" ")+len(firstWord(l.text)) <= width[before.role]
	}
}

func endsAsSentence(text string) bool {
	return strings.HasSuffix(text, ".") || strings.HasSuffix(text, "!") || strings.HasSuffix(text, "?")
}

// continues tells whether a line goes on with the one before.
func continues(before, l plainLine) bool {
	if l.gap || l.stamped || l.mark != noMark || l.role != before.role && l.role != Ingredient && l.role != Step || before.role == Title || before.role == Heading || before.role == Yield || l.role == Heading || l.role == Yield {
		return false
	}
	initial, _ := utf8.DecodeRuneInString(l.text)
	last := strings.ToLower(before.text[strings.LastIndexByte(before.text, ' ')+1:])
	switch {
	case before.role == Ingredient && roughLast.MatchString(before.text):
		return false
	case before.role == Step && l.role == Ingredient && len(strings.Fields(before.text)) < leastOfLine:
		return false
	case before.role == Step && !strings.ContainsAny(before.text[len(before.text)-1:], ".!?:"):
		return true
	case before.role == Step:
		return before.mark == numberMark && l.role == Step && (unicode.IsLower(initial) || l.inward && !before.inward)
	case before.role != Ingredient:
		return false
	case goesOn[last], unicode.IsLower(initial) && !l.apart && len(before.text) >= widthOfPage && !startsAmount(l.text) && !isNameFirst(l.text) && !roughFirst.MatchString(l.text):
		return true
	case manner[last] || strings.HasSuffix(last, ","):
		return !startsAmount(l.text)
	}
	return unicode.IsLower(initial) && !startsAmount(l.text) && before.mark == bulletMark
}

// widthOfPage is from where a line may have been broken for its width, in bytes.
const widthOfPage = 50

// roughLast is one ingredient whose measure stands behind it: "salt, pinch of". "Pepper,
// salt, a pinch of" goes on.
var roughLast = pattern.New(`(?i)^[^,]+, (?:pinch|dash|splash|squeeze|knob|handful) of$`)

// roughFirst is an ingredient that begins without a number: "juice of ½ lemon", "small
// bunch of dill", "salt and pepper".
var roughFirst = pattern.New(`(?i)^(?:(?:finely )?(?:grated )?(?:juice|zest|rind) (?:and (?:juice|zest|rind) )?of\b|(?:(?:small|large|big|good|generous|heaped|level) )?(?:bunch|handful|pinch|knob|splash|glug|drizzle|dash|sprigs?)\b|(?:sea |table |rock )?salt\b|(?:black |white )?pepper(?:corns)?\b)`)

// goesOn are the words an ingredient does not end on.
var goesOn = wordSet("and or into of plus with")

// manner are words that may go on in the next line, where that is no amount.
var manner = wordSet("finely thinly roughly coarsely freshly")

// hashtags are words behind a title that it is found by: "Bean dip #allotment".
var hashtags = pattern.New(`(?: #\pL[\pL\d_]*)+$`)

// recipe is the text in its lines and roles.
func (p *plainReader) recipe() Recipe {
	r := Recipe{Name: p.name, NameUnsure: p.nameUnsure || p.name != "" && moreThanName.MatchString(p.name), StepsUnsure: p.stepsUnsure(), ListUnsure: p.listUnsure}
	for _, l := range p.lines {
		text := l.text
		switch l.role {
		case Title:
			text = hashtags.ReplaceAllString(text, "")
			r.Name = text
			r.NameUnsure = r.NameUnsure || moreThanName.MatchString(text)
		case Heading:
			text = heading(text)
		case Step:
			text = dropNumber(text)
		case Ingredient:
			if l.mark == numberMark {
				text = dropNumber(text)
			}
		}
		r.Lines = append(r.Lines, Line{Text: text, Role: l.role, Line: l.number})
	}
	return r
}
