package render

import (
	"html/template"
	"io"
	"strings"
)

// Laid takes a text answer for a screen: as headings, paragraphs and lists that
// break where the screen ends, not as lines of [Columns]. It is written to in the
// place of a terminal.
type Laid struct{ parts []part }

var _ io.Writer = (*Laid)(nil)

// Write takes nothing: an answer hands over its parts.
func (l *Laid) Write(text []byte) (int, error) { return len(text), nil }

// part is a heading, a paragraph or an item of a list.
type part struct {
	kind partKind
	text string
}

type partKind uint8

const (
	partText partKind = iota
	partHeading
	partItem
	partCaution
)

// partFor is a text with its lead on a screen: what marks an item is the list's there,
// words are kept.
func partFor(lead, text string) part {
	switch lead = strings.TrimSpace(lead); lead {
	case "-":
		return part{partItem, text}
	case "!":
		return part{partCaution, text}
	}
	return part{partText, joinNonEmpty(" ", lead, text)}
}

// HTML is the answer for a screen, its first line the largest.
func (l *Laid) HTML() template.HTML {
	var out strings.Builder
	within := partText
	enter := func(kind partKind) {
		list := func(k partKind) bool { return k == partItem || k == partCaution }
		if within != kind && list(within) {
			out.WriteString("</ul>\n")
		}
		if within != kind && list(kind) {
			out.WriteString("<ul>\n")
		}
		within = kind
	}
	for i, one := range l.parts {
		enter(one.kind)
		text := template.HTMLEscapeString(one.text)
		switch {
		case i == 0 && one.kind == partText:
			out.WriteString(`<p class="answer">` + text + "</p>\n")
		case one.kind == partHeading:
			out.WriteString("<h2>" + text + "</h2>\n")
		case one.kind == partText:
			out.WriteString("<p>" + text + "</p>\n")
		default:
			out.WriteString("<li>" + text + "</li>\n")
		}
	}
	enter(partText)
	return template.HTML(out.String())
}
