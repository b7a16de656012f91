// Package render lays an answer out for its readers: as text for a terminal,
// as JSON for scripts, as a printable sheet and as a calendar. It computes
// nothing but widths.
package render

import (
	"io"
	"strings"
	"unicode/utf8"
)

// Columns is the width text answers keep to.
const Columns = 80

// page gathers the lines of a text answer and writes them once it is whole. What
// was added as one stays one for a screen, see [Laid].
type page struct {
	lines []string
	parts []part
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
	p.parts = append(p.parts, partFor(lead, text))
	indent := strings.Repeat(" ", utf8.RuneCountInString(lead))
	for i, line := range breakLines(text, Columns-len(indent)) {
		if i == 0 {
			p.line(lead + line)
			continue
		}
		p.line(indent + line)
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
	_, err := io.WriteString(w, strings.Join(p.lines[:last], "\n")+"\n")
	p.lines, p.parts = append(p.lines[:0], p.lines[last]), p.parts[:0]
	return err
}

// pad fills text with spaces up to width runes.
func pad(text string, width int) string {
	if n := width - utf8.RuneCountInString(text); n > 0 {
		return text + strings.Repeat(" ", n)
	}
	return text
}

// padLeft puts spaces before text up to width runes.
func padLeft(text string, width int) string {
	if n := width - utf8.RuneCountInString(text); n > 0 {
		return strings.Repeat(" ", n) + text
	}
	return text
}

// breakLines breaks text at spaces into lines of at most width runes; a
// longer word stands alone on its line.
func breakLines(text string, width int) []string {
	var lines []string
	line, length := "", 0
	for _, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		if length > 0 && length+1+n > width {
			lines = append(lines, line)
			line, length = "", 0
		}
		if length > 0 {
			line += " "
			length++
		}
		line += word
		length += n
	}
	if length > 0 || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}
