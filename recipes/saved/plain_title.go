package saved

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"trencher/units/pattern"
)

// title finds the recipe's name: the line that says it is; else the one that
// stands right above the yield or the ingredients; else the first that is neither
// greeting, sentence nor ingredient.
func (p *plainReader) title() {
	if p.titleSaid() {
		return
	}
	first, above := p.titles()
	p.nameUnsure = p.name == "" && first != above || p.name != "" && (p.weak || above >= 0) || first >= 0 && p.isChatter(first)
	switch {
	case p.name != "" && above >= 0 && (p.weak || strings.Contains(strings.ToLower(p.name), strings.ToLower(heading(p.lines[above].text)))):
		p.settle(above, Title)
	case p.name != "":
	case first >= 0 && above >= 0 && p.prefersAbove(first, above):
		p.settle(above, Title)
	case first >= 0:
		p.settle(first, Title)
	}
}

// titleSaid settles the line that says it is the title, stands under "Recipe of the
// week", or says what names the text from outside.
func (p *plainReader) titleSaid() bool {
	for i := range p.lines[:min(len(p.lines), 30)] {
		l := &p.lines[i]
		rest := titleMark.ReplaceAllString(l.text, "")
		switch {
		case i < 12 && rest != l.text && rest != "":
			l.text = rest
			p.settle(i, Title)
			return true
		case i+1 < len(p.lines) && overTitle.MatchString(heading(l.text)) && isTitle(p.lines[i+1].text):
			p.settle(i, Heading)
			p.settle(i+1, Title)
			return true
		case i < 12 && p.name != "" && strings.EqualFold(heading(l.text), heading(p.name)):
			p.settle(i, Title)
			return true
		}
	}
	return false
}

// prefersAbove tells whether the line right above the ingredients names the recipe, and
// the first the page it stands on: somebody speaks in between, or in the first.
func (p *plainReader) prefersAbove(first, above int) bool {
	one, other := p.lines[first].text, p.lines[above].text
	return above > first && (p.talkBetween(first, above) || strings.Contains(one, ": ") && other == strings.ToUpper(other) && one != strings.ToUpper(one)) || p.isChatter(first) && (one != strings.ToUpper(one) || other == strings.ToUpper(other))
}

// talkBetween tells whether somebody speaks between two lines: the first is then
// the name of a page, the second the recipe's.
func (p *plainReader) talkBetween(first, second int) bool {
	for _, l := range p.lines[first+1 : second] {
		if !l.settled && len(strings.Fields(l.text)) > 5 && endsAsSentence(l.text) {
			return true
		}
	}
	return false
}

// titles are the first line that can name the recipe, and the one that stands
// right above its yield or its ingredients; -1 where there is none.
func (p *plainReader) titles() (first, above int) {
	first, above = -1, -1
	last := -1
	for i := range p.lines {
		text := heading(p.lines[i].text)
		switch {
		case p.lines[i].settled, dateLine.MatchString(p.lines[i].text):
		case first < 0 && i < 8 && (yieldLine.MatchString(p.lines[i].text) || yieldAfter.MatchString(p.lines[i].text)): // above the title
		case i > 40, ingredientsHead.MatchString(text), methodHead.MatchString(text), p.lines[i].mark != noMark, startsAmount(text), isNameFirst(text),
			yieldLine.MatchString(p.lines[i].text), yieldAfter.MatchString(p.lines[i].text):
			if last == i-1 {
				above = last
			}
			return first, above
		case isTitle(p.lines[i].text):
			last = i
			if first < 0 && i <= 8 {
				first = i
			}
		}
	}
	return first, above
}

// isChatter tells a line that goes on in small letters with what was said before
// it, or is followed by a sentence: it is no title, but talk about one.
func (p *plainReader) isChatter(i int) bool {
	text := p.lines[i].text
	initial, _ := utf8.DecodeRuneInString(text)
	return unicode.IsLower(initial) || chatter.MatchString(text)
}

var chatter = pattern.New(`(?i)\b(?:i|i'm|i’m|we|you|me|my|it's|it’s|that's|that’s|lol|ok|okay|thanks|love|promised|asked|here)\b|!$|[>»|★☆]`)
