package saved

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"trencher/units/pattern"
)

// plainLine is a line on its way to a role.
type plainLine struct {
	text    string
	number  int  // in the file
	gap     bool // an empty line stands before it
	inward  bool // it begins further in than the margin
	mark    mark // what stood before its first word
	role    Role
	settled bool
	broken  bool // it stood on several lines
	stamped bool // somebody sent it as a message of its own
	apart   bool // its first word had room behind the line before: nothing was broken there for its width
}

// mark is what stands before a line in a list.
type mark uint8

const (
	noMark mark = iota
	bulletMark
	numberMark
)

type plainReader struct {
	lines []plainLine
	name  string // what names it from outside: an e-mail's subject
	weak  bool   // that name gives way to the text's own

	nameUnsure bool
	bare       bool // its steps do not end as sentences
	listUnsure bool // a line that begins with an amount went into a step
	bareStep   bool // a sentence below the list that says nothing to do was taken for a step
	told       bool // it is told in sentences, without a list
}

var (
	bullets    = pattern.New(`^[*•·▢☐▪◦‣●○–—-]\s*|^\[[ xX]?\]\s*`)
	bareStep   = pattern.New(`^\d{1,2}\s+`)
	numbers    = pattern.New(`(?i)^(?:step\s*)?(\d{1,2})\s*(?:[.):]|\s-)\s+`)
	boxed      = pattern.New(`^\s*(\d{1,2})\x{FE0F}?\x{20E3}\s*`)
	strokes    = pattern.New(`^(\d{1,2})/\s+(\pL)`)
	stepWord   = pattern.New(`(?i)^step\s*\d{1,2}\s*[.):-]?\s*`)
	emphasis   = pattern.New(`^[*_]([^\s*_][^*_]*)[*_]$`)
	quoting    = pattern.New(`^(?:>\s?)+`)
	decoration = pattern.New(`^[#=*_~\s-]+|[#=*_~\s-]+$`)
)

// chatStamp stands before each line of a saved conversation: its moment, and who
// wrote it.
var chatStamp = pattern.New(`^\[?\d{1,4}[./-]\d{1,2}[./-]\d{1,4},? +\d{1,2}[:.]\d\d(?:[:.]\d\d)?(?: ?[AaPp]\.?[Mm]\.?)?(?:\]| -) *[^:]{1,40}: *`)

// mailLine is a line of the head of a message that was passed on.
var mailLine = pattern.New(`(?i)^[>\s]*(?:-{2,} ?(?:forwarded|original) message ?-{2,}|begin forwarded message:|(?:from|to|cc|reply-to): .*[@<].*|(?:sent|date): .*\d.*|subject: .*)\s*$`)

// plainLines splits a text, dropping what only lays it out.
func plainLines(text string) []plainLine {
	s := splitting{columns: inColumns(text)}
	number := 0
	for raw := range strings.SplitSeq(text, "\n") {
		number++
		s.take(raw, number)
	}
	s.settleNotes()
	return s.lines
}

// splitting is a text being split into lines.
type splitting struct {
	lines  []plainLine
	gap    bool // the line before was empty
	begun  int  // where a message that was passed on begins
	signed int  // where a signature begins
	steps  int  // the last step that has a number and no dot

	columns bool // its ingredients stand side by side
}

// take adds a line as it stands in the text.
func (s *splitting) take(raw string, number int) {
	if mailLine.MatchString(raw) && number > 1 {
		s.lines = append(s.lines, plainLine{text: strings.TrimSpace(strings.Trim(raw, "-> \r")), number: number, gap: true, settled: true})
		s.begun, s.gap = len(s.lines), true
		return
	}
	if strings.TrimRight(raw, " \r") == "--" {
		s.signed = len(s.lines)
	}
	text := strings.NewReplacer("**", "", "__", "").Replace(quoting.ReplaceAllString(raw, ""))
	text = withoutPictures(text)
	stamped := chatStamp.MatchString(text)
	text = chatStamp.ReplaceAllString(text, "")
	if cells := tableRow.FindStringSubmatch(text); cells != nil {
		text = strings.ReplaceAll(cells[1], "|", "\t")
	}
	if cells := s.sideBySide(text); cells != nil {
		for _, cell := range cells {
			s.take(cell, number)
		}
		return
	}
	wide := text
	text = inCells(text)
	inward := strings.HasPrefix(text, "  ") || strings.HasPrefix(text, "\t")
	text = strings.Join(strings.Fields(strings.Map(printable, text)), " ")
	if strings.Trim(text, "=-_*~#· ") == "" {
		s.gap = true
		return
	}
	l := plainLine{text: text, number: number, gap: s.gap, inward: inward, stamped: stamped}
	if len(s.lines) > 0 && startsWithPicture(raw) {
		l.mark = bulletMark
	}
	s.takeMark(&l)
	if head, name, apart := cutGap(wide); apart && len(s.lines) == 0 && isTitle(head) && !startsAmount(head) && (plainLine{text: name, gap: true}).isName() {
		l.text = head
		s.add(l, head)
		s.lines = append(s.lines, plainLine{text: name, number: number, settled: true})
	} else if l.text != "" {
		s.add(l, wide)
	}
}

// cutGap parts a line at a wide gap: a dish from whose it is.
func cutGap(text string) (before, after string, ok bool) {
	at := wideGaps.FindStringIndex(strings.TrimSpace(text))
	if at == nil {
		return "", "", false
	}
	text = strings.TrimSpace(text)
	return text[:at[0]], strings.TrimSpace(text[at[1]:]), true
}

// sideBySide are the ingredients that stand next to each other on a line: "2 eggs
// 100 g flour". nil where it is one.
func (s *splitting) sideBySide(text string) []string {
	cells := wideGaps.Split(strings.TrimSpace(text), -1)
	if len(cells) != 2 || !startsAmount(unmarked(cells[0])) {
		return nil
	}
	words := len(strings.Fields(cells[1]))
	if len(strings.Fields(cells[0])) > 1 && (startsAmount(unmarked(cells[1])) && words > 1 || s.columns && words <= 2 && !strings.ContainsAny(cells[1], "0123456789")) {
		return cells
	}
	return nil
}

// inColumns tells whether a text has lines of two ingredients side by side.
func inColumns(text string) bool {
	var s splitting
	for line := range strings.SplitSeq(text, "\n") {
		if len(line) < longestRow && wideGaps.MatchString(line) && s.sideBySide(line) != nil {
			return true
		}
	}
	return false
}

// longestRow is how long a line of two columns is at most, in bytes.
const longestRow = 200

// unmarked is a line without its bullet.
func unmarked(text string) string { return strings.TrimSpace(bullets.ReplaceAllString(text, "")) }

// startsWithPicture tells a line with a picture for its bullet.
func startsWithPicture(raw string) bool {
	first, _ := utf8.DecodeRuneInString(strings.TrimSpace(raw))
	return first > '\u25ff' && unicode.Is(unicode.So, first)
}

// takeMark takes what a line begins with from its words: a bullet, a number.
func (s *splitting) takeMark(l *plainLine) {
	if inner := emphasis.FindStringSubmatch(l.text); inner != nil {
		l.text = inner[1]
	}
	l.text = strokes.ReplaceAllString(l.text, "$1. $2") // "2/ Fry the onion"
	text := l.text
	if len(text) > 4 && strings.ContainsAny(text[:1], "~=*_") && strings.ContainsAny(text[len(text)-1:], "~=*_") {
		if bare := strings.TrimSpace(decoration.ReplaceAllString(text, "")); bare != "" {
			l.text, text = bare, bare
		}
	}
	if strings.HasPrefix(text, "#") {
		l.text, l.gap = strings.TrimSpace(decoration.ReplaceAllString(text, "")), true
	} else if found := bullets.FindString(text); found != "" && !strings.HasPrefix(text, "-1") {
		l.text, l.mark = strings.TrimSpace(text[len(found):]), bulletMark
	} else if numbers.MatchString(text) || stepWord.MatchString(text) {
		l.mark = numberMark
	}
	if l.mark == noMark && startsBareStep(l.text, s.steps+1) {
		l.text, l.mark = bareStep.ReplaceAllString(l.text, ""), numberMark
		s.steps++
	}
}

// add adds a line, or those that stand in it: a heading with what it is about, or
// what it makes.
func (s *splitting) add(l plainLine, wide string) {
	s.gap = false
	head, items, ok := headedInLine(l.text)
	if items := manyAmounts(l.text); !ok && items != nil && l.mark != numberMark {
		s.addItems(l, items)
		return
	}
	if !ok {
		for _, one := range timesApart(l, len(s.lines) == 0) {
			s.lines = append(s.lines, withYieldApart(one, wide, len(s.lines) == 0)...)
		}
		return
	}
	head.number, head.gap = l.number, l.gap
	s.lines = append(s.lines, head)
	s.addItems(plainLine{number: l.number, mark: l.mark}, items)
}

// addItems adds the ingredients that stood on one line; what stood before them with
// a colon is a heading.
func (s *splitting) addItems(l plainLine, items []string) {
	for _, item := range items {
		if item == "" {
			continue
		}
		one := l
		one.text = item
		s.lines = append(s.lines, one)
		l.gap = false
	}
}

// timesApart parts a line that tells times, and for how many: "Prep: 10 min. Portions:
// 4."
func timesApart(l plainLine, begins bool) []plainLine {
	parts := partsOfTimes.Split(l.text, -1)
	if len(parts) < 2 || len(l.text) > longestRow || yieldLine.MatchString(parts[0]) {
		return []plainLine{l}
	}
	var all []plainLine
	yields := 0
	for i, part := range parts {
		one := l
		if one.text = strings.Trim(part, " ."); one.text == "" {
			continue
		}
		switch {
		case i == 0 && begins && isTitle(one.text): // the dish, then for how many, then how hot
		case yieldLine.MatchString(one.text), yieldAfter.MatchString(one.text):
			yields++
		case tag.MatchString(one.text):
			one.role, one.settled = Note, true
		case !timeLine.MatchString(one.text) && !ovenHeat.MatchString(one.text):
			return []plainLine{l}
		}
		all = append(all, one)
	}
	if yields != 1 {
		return []plainLine{l}
	}
	return all
}

var partsOfTimes = pattern.New(`\s*[|•·;~]\s*|[.,]\s+|\s[–—-]\s`)

// tag is a word or a figure that a recipe is sorted by (ordinary English, no source).
var tag = pattern.New(`(?i)^(?:vegan|vegetarian|veggie|(?:gluten|dairy|nut|egg)[- ]free|easy|freezable|low[- ]fat|\d+ ?(?:kcals?|cals?|calories|kJ)\b.{0,30})$`)

// ovenHeat is how hot an oven is, alone.
var ovenHeat = pattern.New(`(?i)^(?:oven )?(?:gas(?: mark)? ?\d|\d{2,3} ?°? ?[CF]?\b).{0,20}$`)

// settleNotes settles what is no part of the recipe: what somebody wrote above it,
// their name, a note under it.
func (s *splitting) settleNotes() {
	for i := range s.lines[:s.begun] {
		s.lines[i].settled = true
	}
	if n := len(s.lines) - 1; n > 1 && regards.MatchString(s.lines[n-1].text) && len(strings.Fields(s.lines[n].text)) <= 3 {
		s.lines[n-1].settled, s.lines[n].settled = true, true
	} else if n > 3 && !portionsAlone.MatchString(s.lines[n].text) && (s.lines[n].isName() || s.lines[n].isSignature(s.lines[n-1])) {
		s.lines[n].settled = true
	}
	if s.signed > 0 && len(s.lines)-s.signed <= longestSignature {
		for i := range s.lines[s.signed:] {
			s.lines[s.signed+i].settled = true
		}
	}
}

// isName tells that a last line may be who wrote the rest.
func (l plainLine) isName() bool {
	return l.gap && l.mark == noMark && len(strings.Fields(l.text)) <= 3 && !doing[strings.ToLower(strings.Trim(firstWord(l.text), ".,!"))] &&
		!amountStart.MatchString(l.text) && !yieldLine.MatchString(l.text)
}

// regards is the line above a signature.
var regards = pattern.New(`(?i)^(?:with |much |all my |lots of |kind |best |warm |your |yours |many )*(?:love|regards|wishes|thanks|yours|cheers|hugs|sincerely|truly|ever|best)(?: from| to all)?[,.!]?$`)

// isSignature tells a last line of two words at most, set apart from a sentence and
// none itself: "Pat x".
func (l plainLine) isSignature(before plainLine) bool {
	return l.gap && l.mark == noMark && endsAsSentence(before.text) && !endsAsSentence(l.text) && len(strings.Fields(l.text)) <= 2 && !startsAmount(l.text) && !yieldLine.MatchString(l.text)
}

// inCells reads a row of three columns, the ingredient, how much, and what is done
// to it: "carrots: 1 kg, peeled".
func inCells(text string) string {
	cells := wideGaps.Split(strings.TrimSpace(text), -1)
	if len(cells) < 2 || len(cells) > 3 || strings.ContainsAny(cells[0], "0123456789:") || !startsAmount(cells[1]) || yieldAfter.MatchString(cells[1]) || len(strings.Fields(cells[1])) > 4 || len(strings.Fields(cells[0])) > 5 {
		return text
	}
	row := cells[0] + ": " + cells[1]
	if len(cells) == 3 {
		row += ", " + cells[2]
	}
	return row
}

var wideGaps = pattern.New(`\t+\s*|\s{3,}`)

// tableRow is a row of a table as notes have it: | 300 g | carrots |. Of the line
// below its head nothing is left but the rule.
var tableRow = pattern.New(`^\s*\|(.*?)\|?\s*$`)

// withoutPictures drops the little pictures that stand around a text, and turns
// figures in boxes into figures; in front of a line they are the number of a step.
func withoutPictures(text string) string {
	text = boxed.ReplaceAllString(text, "$1. ")
	text = strings.Map(func(c rune) rune {
		if c == '\ufe0f' || c == '\u20e3' || c == '\u200d' {
			return -1
		}
		return c
	}, text)
	return strings.TrimFunc(text, func(c rune) bool {
		return c > '\u25ff' && unicode.Is(unicode.So, c) && c != '☐'
	})
}
