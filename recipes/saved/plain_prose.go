package saved

import (
	"slices"
	"strings"
	"sync"

	"trencher/units/pattern"
)

// A recipe may be told in sentences, without a list: "Boil 500 g potatoes in salted
// water, then toss with 50 g butter." Its sentences are then its steps; what goes in
// stands inside them, and reading amounts is left to others.

// readProse takes the paragraphs of a text without a list of ingredients for steps,
// where they tell what to do or how much of something.
func (p *plainReader) readProse() {
	if p.hasHeadings() {
		return
	}
	var told []int // where paragraphs of prose begin, and end
	for start := 0; start < len(p.lines); {
		end := p.endOfParagraph(start)
		switch lines := p.lines[start:end]; {
		case isProse(lines):
			told = append(told, start, end)
		case slices.ContainsFunc(lines, func(l plainLine) bool { return l.role == Ingredient }):
			return
		}
		start = end
	}
	for i := 0; i < len(told); i += 2 {
		for at := told[i]; at < told[i+1]; at++ {
			p.lines[at].role, p.told = Step, true
		}
	}
	p.partTitle()
}

// endOfParagraph is where the lines that stand together with one end.
func (p *plainReader) endOfParagraph(start int) int {
	apart := func(l plainLine) bool {
		return l.settled || l.mark != noMark || l.role != Note && l.role != Ingredient && l.role != Step
	}
	end := start + 1
	for end < len(p.lines) && !p.lines[end].gap && !apart(p.lines[start]) && !apart(p.lines[end]) {
		end++
	}
	return end
}

// isProse tells a paragraph of a method. A line of it that begins with an amount goes
// on from the one before.
func isProse(lines []plainLine) bool {
	if l := lines[0]; l.settled || l.mark != noMark || l.role != Note && l.role != Step {
		return false
	}
	for i, l := range lines {
		if l.role == Ingredient && (endsAsSentence(lines[i-1].text) || len(strings.Fields(lines[i-1].text)) < leastOfLine) {
			return false
		}
	}
	return tellsWhatToDo(lines)
}

// leastOfLine is how many words stand on a line that was broken for its width.
const leastOfLine = 4

// isTold tells a recipe told in sentences, with its amounts inside them.
func (r Recipe) isTold() bool {
	amounts := 0
	for _, step := range r.Of(Step) {
		amounts += len(anyAmount.FindAllString(step, leastTold))
	}
	return amounts >= leastTold && len(r.Of(Ingredient)) == 0
}

// leastTold is how many amounts the sentences of a page name at least that is a
// recipe.
const leastTold = 3

// partTitle parts the name of a dish from the sentences it stands before: "BEETROOT
// WITH HORSERADISH. Boil 2 lb of beetroot ..."
func (p *plainReader) partTitle() {
	if p.name != "" || len(p.lines) == 0 || p.lines[0].role != Step {
		return
	}
	for _, l := range p.lines {
		if l.role == Title {
			return
		}
	}
	m := titleBefore.FindStringSubmatch(p.lines[0].text)
	if m == nil || beginsDoing(m[1]) || startsAmount(m[1]) || anyAmount.MatchString(m[1]) || len(strings.Fields(m[1])) > mostOfTitle {
		return
	}
	title, rest := p.lines[0], p.lines[0]
	title.text, title.role, title.settled = m[1], Title, true
	rest.text, rest.gap = m[2], true
	p.lines = append([]plainLine{title, rest}, p.lines[1:]...)
	p.nameUnsure = m[1] != strings.ToUpper(m[1])
}

// mostOfTitle is how many words stand before a recipe as its name.
const mostOfTitle = 8

var (
	titleBefore = pattern.New(`^([^.:!?]+)[.:!] +(\pL.{20,})$`)
	anyAmount   = pattern.New(`(?i)(?:[\d½¼¾⅓⅔]+|\b(?:an?|half|one|two|three|four|five|six|eight|ten|dozen)\b) ?(?:good |large |small |heaped |level )?(?:g|kg|grams?|ml|l|litres?|oz|ounces?|lbs?|pounds?|pints?|cups?|tsps?|tbsps?|teaspoons?|teaspoonfuls?|tablespoons?|tablespoonfuls?|handfuls?|knobs?|pinch(?:es)?|cloves?|bunch(?:es)?|sprigs?)\b`)
)

// tellsWhatToDo tells a paragraph of a method: one of its sentences begins with
// something to do, or it names an amount.
func tellsWhatToDo(lines []plainLine) bool {
	var all []string
	for _, l := range lines {
		all = append(all, l.text)
	}
	text := strings.Join(all, " ")
	if len(strings.Fields(text)) < leastOfProse {
		return false
	}
	for _, sentence := range sentences.Split(text, -1) {
		if verbs()[strings.ToLower(strings.Trim(firstWord(sentence), ",.:;!"))] {
			return true
		}
	}
	return anyAmount.MatchString(text)
}

// leastOfProse is how many words a paragraph has at least to be a method.
const leastOfProse = 6

var sentences = pattern.New(`[.!?;:]\s+`)

// verbs are the words in doing that tell of cooking: not those a letter begins a
// sentence with as well.
var verbs = sync.OnceValue(func() map[string]bool {
	set := map[string]bool{}
	for word := range doing {
		set[word] = true
	}
	for _, word := range strings.Fields(`if in i you your as at when first finally next before during for now then until while meanwhile to after using work give`) {
		delete(set, word)
	}
	return set
})
