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

// part is a heading, a paragraph or an item of a list. What a text is by its lead is
// found once it is wanted.
type part struct {
	kind       partKind
	lead, text string
}

type partKind uint8

const (
	partText partKind = iota
	partHeading
	partItem
	partCaution
)

// onScreen is a text with its lead as it stands on a screen: what marks an item is
// the list's there, words are kept.
func (p part) onScreen() part {
	switch lead := strings.TrimSpace(p.lead); lead {
	case "-":
		return part{kind: partItem, text: p.text}
	case "!":
		return part{kind: partCaution, text: p.text}
	default:
		return part{kind: p.kind, text: joinNonEmpty(" ", lead, p.text)}
	}
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
		one = one.onScreen()
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
