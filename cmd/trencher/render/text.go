// Package render lays an answer out for its readers: as text for a terminal,
// as JSON for scripts, as a printable sheet and as a calendar. It computes
// nothing but widths.
package render

import (
	"io"
	"iter"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Columns is the width text answers keep to.
const Columns = 80

// page gathers the lines of a text answer and writes them once it is whole. What
// was added as one stays one for a screen, see [Laid].
type page struct {
	lines []string
	parts []part
	out   []byte // room for what is flushed
}

// line adds one line as it is.
func (p *page) line(text string) { p.lines = append(p.lines, strings.TrimRight(text, " ")) }

// gap adds an empty line, never two in a row and never as the first.
func (p *page) gap() {
	if n := len(p.lines); n > 0 && p.lines[n-1] != "" {
		p.lines = append(p.lines, "")
	}
}

// heading starts a new part of the answer.
func (p *page) heading(text string) {
	p.gap()
	p.line(text)
	p.parts = append(p.parts, part{kind: partHeading, text: text})
}

// wrapped adds text broken at spaces, the first line after lead, the others
// indented as wide as lead.
func (p *page) wrapped(lead, text string) {
	p.parts = append(p.parts, part{lead: lead, text: text})
	width := utf8.RuneCountInString(lead)
	for line := range eachLine(text, Columns-width) {
		p.line(lead + line)
		lead = spaces(width)
	}
}

// row adds a left text padded to width and a right text wrapped beside it.
func (p *page) row(indent string, width int, left, right string) {
	if utf8.RuneCountInString(left) > width {
		p.line(indent + left)
		left = ""
	}
	p.wrapped(indent+pad(left, width)+" ", right)
}

// writeTo writes the gathered lines.
func (p *page) writeTo(w io.Writer) error {
	if screen, ok := w.(*Laid); ok {
		screen.parts = p.parts
		return nil
	}
	_, err := io.WriteString(w, strings.Join(p.lines, "\n")+"\n")
	return err
}

// flushAt is how many lines of a list of any length are gathered before they are
// written.
const flushAt = 1000

// flush writes what was gathered of a long list, but for the last line. For a
// screen all is kept.
func (p *page) flush(w io.Writer) error {
	if _, screen := w.(*Laid); screen || len(p.lines) < flushAt {
		return nil
	}
	last := len(p.lines) - 1
	p.out = p.out[:0]
	for _, line := range p.lines[:last] {
		p.out = append(append(p.out, line...), '\n')
	}
	_, err := w.Write(p.out)
	p.lines, p.parts = append(p.lines[:0], p.lines[last]), p.parts[:0]
	return err
}

// pad fills text with spaces up to width runes.
func pad(text string, width int) string { return text + spaces(width-utf8.RuneCountInString(text)) }

// padLeft puts spaces before text up to width runes.
func padLeft(text string, width int) string {
	return spaces(width-utf8.RuneCountInString(text)) + text
}

// spaces are so many of them, none of fewer than none.
func spaces(n int) string {
	const some = "                                                                                "
	if n > len(some) {
		return strings.Repeat(" ", n)
	}
	return some[:max(n, 0)]
}

// eachLine breaks text at spaces into lines of at most width runes, at least one; a
// longer word stands alone on its line. They are parts of the text itself where its
// words stand one space apart, which a list of thousands is quicker by.
func eachLine(text string, width int) iter.Seq[string] {
	return func(yield func(string) bool) {
		line, rest := firstLine(oneSpaceApart(text), width)
		for yield(line) && rest != "" {
			line, rest = firstLine(rest, width)
		}
	}
}

// firstLine is the first line of a text whose words stand one space apart, and what
// follows it.
func firstLine(text string, width int) (line, rest string) {
	letters, end := 0, 0 // of the line, as far as words fit
	for at, c := range text {
		if c == ' ' {
			if end == 0 || letters <= width {
				end = at
			}
			if letters > width {
				return text[:end], text[end+1:]
			}
		}
		letters++
	}
	if letters <= width || end == 0 {
		return text, ""
	}
	return text[:end], text[end+1:]
}

// oneSpaceApart is a text with its words one space apart: itself, if they are.
func oneSpaceApart(text string) string {
	before := ' '
	for _, c := range text {
		if unicode.IsSpace(c) && (c != ' ' || before == ' ') {
			return strings.Join(strings.Fields(text), " ")
		}
		before = c
	}
	return strings.TrimSuffix(text, " ")
}
