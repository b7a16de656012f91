package strict

import (
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// plainly reads YAML as a plot's files are mostly written, some ten times faster
// than the library, which a journal of years is felt in: mappings and lists by
// lines, values of one line, plain or in quotes, `{…}` and `[…]` on one line,
// comments, and a last line of `...`. It gives the very tree that the library
// gives (but for comments, and for a plain scalar's tag, which stays empty), or
// nothing at all: whatever else YAML has, and every mistake, is the library's to
// read and to name. The room is one that nobody uses.
func plainly(in *room, text string) (root *yaml.Node, ok bool) {
	p := plainReader{lines: in.lines[:0], slab: in.nodes[:], children: in.children[:], open: in.open[:0]}
	if !p.cut(text) || len(p.lines) == 0 || p.lines[0].indent != 0 {
		return nil, false
	}
	root = p.block()
	return root, root != nil && p.at == len(p.lines)
}

// plainReader goes through the lines that hold something.
type plainReader struct {
	lines    []plainLine
	at       int
	slab     []yaml.Node  // room for nodes to come
	children []*yaml.Node // room for the children of nodes to be closed
	open     []*yaml.Node // children of the nodes not yet closed
	told     counted
}

// counted is how many letters stand before an offset of a line, as far as they
// were counted: a long line is not counted from its beginning for each value.
type counted struct{ number, length, offset, letters int }

func (c *counted) before(l plainLine, offset int) int {
	if c.number != l.number || c.length != len(l.text) || offset < c.offset {
		*c = counted{number: l.number, length: len(l.text)}
	}
	c.letters += utf8.RuneCountInString(l.text[c.offset:offset])
	c.offset = offset
	return c.letters
}

// plainLine is a line, or what stands behind the dash of one.
type plainLine struct {
	number, indent int
	text           string
}

// cut takes the lines that hold something; ok is false where one holds what only
// the library reads.
func (p *plainReader) cut(text string) (ok bool) {
	number, closed := 0, false
	for line := range strings.SplitSeq(text, "\n") {
		number++
		rest := strings.TrimLeft(line, " ")
		indent := len(line) - len(rest)
		rest = strings.TrimRight(rest, " ")
		if !isPrintable(rest) {
			return false
		}
		switch {
		case rest == "":
			continue
		case closed || indent == 0 && (rest[0] == '%' || strings.HasPrefix(rest, "---")):
			return false
		case rest[0] == '#':
			continue
		case indent == 0 && strings.HasPrefix(rest, "..."):
			if rest != "..." {
				return false
			}
			closed = true
			continue
		}
		p.lines = append(p.lines, plainLine{number, indent, rest})
	}
	return true
}

// isPrintable tells a text without tabs, control characters and those that YAML
// treats apart.
func isPrintable(text string) bool {
	for i := range len(text) {
		if c := text[i]; c < ' ' || c == 0x7f || c >= 0xee || c == 0xc2 && i+1 < len(text) && text[i+1] < 0xa0 {
			return false
		}
	}
	return true
}

// next is the line to be read, and whether there is one.
func (p *plainReader) next() (plainLine, bool) {
	if p.at == len(p.lines) {
		return plainLine{}, false
	}
	return p.lines[p.at], true
}

func (l plainLine) isItem() bool { return strings.HasPrefix(l.text, "- ") }

// node is a new node that stands at a place of a line.
func (p *plainReader) node(kind yaml.Kind, tag string, l plainLine, offset int) *yaml.Node {
	if len(p.slab) == 0 {
		p.slab = make([]yaml.Node, 8)
	}
	n := &p.slab[0]
	p.slab = p.slab[1:]
	*n = yaml.Node{Kind: kind, Tag: tag, Line: l.number, Column: l.indent + p.told.before(l, offset) + 1} // a room is used again
	return n
}

// close gives a node the children opened since.
func (p *plainReader) close(n *yaml.Node, since int) *yaml.Node {
	own := p.open[since:]
	if len(own) > len(p.children) {
		p.children = make([]*yaml.Node, max(len(own), 64))
	}
	n.Content = p.children[:len(own):len(own)]
	p.children = p.children[len(own):]
	copy(n.Content, own)
	p.open = p.open[:since]
	return n
}

// block reads what begins in the next line, a list or a mapping; nil where it
// gives up.
func (p *plainReader) block() *yaml.Node {
	if l, _ := p.next(); l.isItem() {
		return p.items(l.indent)
	}
	return p.pairs()
}

// pairs reads a mapping by lines, as deep as its first one.
func (p *plainReader) pairs() *yaml.Node {
	first, _ := p.next()
	n, since := p.node(yaml.MappingNode, "!!map", first, 0), len(p.open)
	for {
		l, ok := p.next()
		if !ok || l.indent < first.indent || l.indent == first.indent && l.isItem() {
			return p.close(n, since)
		}
		end := keyEnd(l.text)
		if l.indent > first.indent || end == 0 {
			return nil
		}
		key := p.node(yaml.ScalarNode, "", l, 0)
		key.Value = l.text[:end]
		value := p.behind(l, end+1)
		if value == nil {
			return nil
		}
		p.open = append(p.open, key, value)
	}
}

// behind reads what stands behind a key: in its line, or in those below.
func (p *plainReader) behind(l plainLine, offset int) *yaml.Node {
	p.at++
	for offset < len(l.text) && l.text[offset] == ' ' {
		offset++
	}
	if offset < len(l.text) && l.text[offset] != '#' {
		return p.inline(l, offset, l.indent)
	}
	below, ok := p.next()
	switch {
	case ok && below.indent > l.indent:
		return p.block()
	case ok && below.indent == l.indent && below.isItem():
		return p.items(l.indent)
	}
	return nil
}

// items reads a list by lines.
func (p *plainReader) items(indent int) *yaml.Node {
	first, _ := p.next()
	n, since := p.node(yaml.SequenceNode, "!!seq", first, 0), len(p.open)
	for {
		l, ok := p.next()
		if !ok || l.indent < indent || l.indent == indent && !l.isItem() {
			return p.close(n, since)
		}
		if l.indent > indent {
			return nil
		}
		offset := len(l.text) - len(strings.TrimLeft(l.text[1:], " "))
		inner := plainLine{l.number, l.indent + offset, l.text[offset:]}
		var item *yaml.Node
		switch {
		case inner.isItem() || inner.text[0] == '#':
			return nil
		case keyEnd(inner.text) > 0:
			p.lines[p.at] = inner
			item = p.pairs()
		default:
			p.at++
			item = p.inline(inner, 0, indent)
		}
		if item == nil {
			return nil
		}
		p.open = append(p.open, item)
	}
}

// keyEnd is where the colon behind a plain key stands; 0 where a line begins with
// none.
func keyEnd(text string) int {
	end := strings.IndexByte(text, ':')
	if end <= 0 || end > 200 || end+1 < len(text) && text[end+1] != ' ' || isNull(text[:end]) {
		return 0
	}
	for i := range end {
		c := text[i]
		if letter := c|0x20 >= 'a' && c|0x20 <= 'z' || c >= 0x80; !letter && (i == 0 || !(c == '-' || c == '_' || c == ' ' && i+1 < end || c >= '0' && c <= '9')) {
			return 0
		}
	}
	return end
}

// inline reads the value that ends its line. One that goes on below, deeper than
// indent, is the library's.
func (p *plainReader) inline(l plainLine, offset, indent int) *yaml.Node {
	if below, ok := p.next(); ok && below.indent > indent {
		return nil
	}
	if strings.IndexByte("{['\"", l.text[offset]) < 0 {
		text, _, _ := strings.Cut(l.text[offset:], " #")
		if strings.HasSuffix(text, ":") || strings.Contains(text, ": ") {
			return nil
		}
		return p.plainScalar(l, offset, strings.TrimRight(text, " "))
	}
	n, end := p.flow(l, offset, 0)
	if rest := l.text[end:]; n == nil || rest != "" && !strings.HasPrefix(strings.TrimLeft(rest, " "), "#") || strings.HasPrefix(rest, "#") {
		return nil
	}
	return n
}

// plainScalar is a value without quotes.
func (p *plainReader) plainScalar(l plainLine, offset int, text string) *yaml.Node {
	if text == "" || isNull(text) || text == "<<" || strings.IndexByte("?:,[]{}#&*!|>'\"%@`", text[0]) >= 0 || text[0] == '-' && (len(text) == 1 || text[1] < '0' || text[1] > '9') {
		return nil
	}
	n := p.node(yaml.ScalarNode, "", l, offset)
	n.Value = text
	return n
}

// isNull tells the words by which YAML means nothing.
func isNull(text string) bool {
	return text == "~" || text == "null" || text == "Null" || text == "NULL"
}

// deepest is how far brackets are followed.
const deepest = 10

// flow reads a value that may stand between brackets, and where it ends.
func (p *plainReader) flow(l plainLine, offset, depth int) (n *yaml.Node, end int) {
	if depth > deepest || offset == len(l.text) {
		return nil, offset
	}
	switch l.text[offset] {
	case '{', '[':
		return p.brackets(l, offset, depth)
	case '\'', '"':
		return p.quoted(l, offset)
	}
	end = offset
	for end < len(l.text) && strings.IndexByte(",]}", l.text[end]) < 0 {
		switch c := l.text[end]; {
		case c == '?' || c == '[' || c == '{' || c == '#':
			return nil, end
		case c == ':' && (end+1 == len(l.text) || !isDigit(l.text[end+1])):
			return nil, end
		}
		end++
	}
	return p.plainScalar(l, offset, strings.TrimRight(l.text[offset:end], " ")), end
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// brackets reads `{key: value, …}` or `[value, …]`.
func (p *plainReader) brackets(l plainLine, offset, depth int) (n *yaml.Node, end int) {
	kind, tag, closing := yaml.MappingNode, "!!map", byte('}')
	if l.text[offset] == '[' {
		kind, tag, closing = yaml.SequenceNode, "!!seq", ']'
	}
	n, since := p.node(kind, tag, l, offset), len(p.open)
	n.Style = yaml.FlowStyle
	for at := offset + 1; ; at++ {
		at = pastSpaces(l.text, at)
		if kind == yaml.MappingNode {
			end := keyEnd(l.text[at:])
			if end == 0 {
				return nil, at
			}
			key := p.node(yaml.ScalarNode, "", l, at)
			key.Value = l.text[at : at+end]
			p.open = append(p.open, key)
			at = pastSpaces(l.text, at+end+1)
		}
		value, end := p.flow(l, at, depth+1)
		if value == nil {
			return nil, end
		}
		p.open = append(p.open, value)
		at = pastSpaces(l.text, end)
		switch {
		case at == len(l.text):
			return nil, at
		case l.text[at] == closing:
			return p.close(n, since), at + 1
		case l.text[at] != ',':
			return nil, at
		}
	}
}

func pastSpaces(text string, at int) int {
	for at < len(text) && text[at] == ' ' {
		at++
	}
	return at
}

// quoted reads a value in quotes that needs no backslash.
func (p *plainReader) quoted(l plainLine, offset int) (n *yaml.Node, end int) {
	quote, text := l.text[offset:offset+1], l.text[offset+1:]
	length := strings.Index(text, quote)
	if length < 0 || strings.HasPrefix(text[length+1:], quote) || quote == `"` && strings.Contains(text[:length], `\`) {
		return nil, offset
	}
	end = offset + length + 2
	if rest := strings.TrimLeft(l.text[end:], " "); strings.HasPrefix(rest, ":") {
		return nil, end // a key
	}
	n = p.node(yaml.ScalarNode, "!!str", l, offset)
	n.Value, n.Style = text[:length], yaml.SingleQuotedStyle
	if quote == `"` {
		n.Style = yaml.DoubleQuotedStyle
	}
	return n, end
}
