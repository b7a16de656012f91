package strict

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"trencher/units/pattern"
)

// Bounds on a file: far above what a person writes, and low enough that no
// file can exhaust the machine.
const (
	maxBytes = 1 << 20
	maxDepth = 40
)

const plainYAML = "plain YAML: lines of `key: value`, indented with spaces"

// Reader holds one file's document and the mistakes found in it so far.
type Reader struct {
	file   string
	root   *yaml.Node
	errs   Errors
	failed map[*yaml.Node]bool
	room   *room // that the nodes lie in
}

// Parse reads a file's bytes. It never fails by itself: what is wrong is
// collected, and Err tells when the caller has read through. A byte order
// mark and Windows line ends are read as if they were not there.
func Parse(file string, data []byte) *Reader {
	r := &Reader{file: file}
	text, ok := r.clean(data)
	if !ok {
		return r
	}
	r.room = rooms.Get().(*room)
	if root, ok := plainly(r.room, string(text)); ok {
		r.root = root
		r.check(root, 0)
		return r
	}
	decoder := yaml.NewDecoder(bytes.NewReader(text))
	var document yaml.Node
	if err := decode(decoder, &document); err != nil {
		r.syntax(err, text)
		return r
	}
	var second yaml.Node
	switch err := decode(decoder, &second); {
	case err == nil:
		r.fail(second.Line, 1, "a second document begins here", "one document a file, without a line of ---")
	case !errors.Is(err, io.EOF):
		r.syntax(err, text)
	}
	if len(document.Content) == 1 {
		r.root = document.Content[0]
		r.check(r.root, 0)
	}
	return r
}

// room is what the lines and nodes of a short file take.
type room struct {
	nodes    [64]yaml.Node
	children [64]*yaml.Node // of nodes that are whole
	open     [16]*yaml.Node
	lines    [32]plainLine
}

// rooms are those of files that are done with: a journal has a hundred thousand.
var rooms = sync.Pool{New: func() any { return new(room) }}

// Done gives back what the reader's nodes take, once nobody uses any of them any
// more. Only who reads thousands of files needs to call it.
func (r *Reader) Done() {
	if r.room != nil {
		rooms.Put(r.room)
	}
	r.room, r.root = nil, nil
}

// decode guards against a panic of the YAML library: a file must never stop
// the program.
func decode(d *yaml.Decoder, node *yaml.Node) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("yaml: cannot be read: %v", p)
		}
	}()
	return d.Decode(node)
}

// clean refuses what is not text and evens out the ends of lines.
func (r *Reader) clean(data []byte) (text []byte, ok bool) {
	text = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	if bytes.IndexByte(text, '\r') >= 0 {
		text = bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))
	}
	switch {
	case len(data) > maxBytes:
		r.fail(0, 0, "the file is larger than 1 MB", "a shorter file")
	case bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")):
		r.fail(1, 1, "the file is saved as UTF-16", "the file again, saved as UTF-8")
	case !utf8.Valid(text):
		line, column := placeOf(text, firstInvalid(text))
		r.fail(line, column, "this is not UTF-8 text", "the file again, saved as UTF-8")
	case bytes.IndexByte(text, '\r') >= 0:
		line, column := placeOf(text, bytes.IndexByte(text, '\r'))
		r.fail(line, column, "a carriage return without a line feed", "lines that end in a line feed")
	case bytes.IndexByte(text, 0) >= 0:
		line, column := placeOf(text, bytes.IndexByte(text, 0))
		r.fail(line, column, "a zero byte", "text alone")
	case oddBreak(text) >= 0:
		line, column := placeOf(text, oddBreak(text))
		r.fail(line, column, "an unusual line break", "lines that end in a line feed")
	default:
		return text, true
	}
	return nil, false
}

// oddBreaks end a line for YAML but not for an editor, so that every place
// after one would be wrong.
var oddBreaks = [...]string{"\u0085", "\u2028", "\u2029"}

// oddBreak is where the first of them stands; -1 where none does.
func oddBreak(text []byte) int {
	first := -1
	for _, each := range oddBreaks {
		if at := bytes.Index(text, []byte(each)); at >= 0 && (first < 0 || at < first) {
			first = at
		}
	}
	return first
}

func firstInvalid(text []byte) int {
	at := 0
	for at < len(text) {
		c, size := utf8.DecodeRune(text[at:])
		if c == utf8.RuneError && size <= 1 {
			break
		}
		at += size
	}
	return at
}

func placeOf(text []byte, at int) (line, column int) {
	before := text[:at]
	line = bytes.Count(before, []byte("\n")) + 1
	return line, utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:]) + 1
}

var syntaxLine = pattern.New(`^yaml: line (\d+): (.*)$`)

// syntax names a mistake that the YAML reader stumbled over. A tab in the
// indentation is the usual one and is named as such.
func (r *Reader) syntax(err error, text []byte) {
	if errors.Is(err, io.EOF) {
		return // an empty file: the first accessor says so
	}
	line, problem := 1, strings.TrimPrefix(err.Error(), "yaml: ")
	if m := syntaxLine.FindStringSubmatch(err.Error()); m != nil {
		line, _ = strconv.Atoi(m[1])
		problem = m[2]
	}
	for i, row := range strings.Split(string(text), "\n") {
		indent := row[:len(row)-len(strings.TrimLeft(row, " \t"))]
		if at := strings.IndexByte(indent, '\t'); at >= 0 && i <= line {
			r.fail(i+1, at+1, "a tab in the indentation", "spaces")
			return
		}
	}
	r.fail(max(line, 1), 1, "not readable as YAML: "+problem, plainYAML)
}

// check refuses, all through the document, what plain files do without.
func (r *Reader) check(n *yaml.Node, depth int) {
	switch {
	case depth > maxDepth:
		r.failAt(n, "nested too deeply", plainYAML)
		return
	case n.Kind == yaml.AliasNode:
		r.failAt(n, "*"+n.Value+" is an alias", "the value itself")
		return
	case n.Anchor != "":
		r.failAt(n, "&"+n.Anchor+" is an anchor", "the value itself")
	case n.Style&yaml.TaggedStyle != 0:
		r.failAt(n, n.Tag+" is a tag", "the value alone")
	}
	if n.Kind == yaml.MappingNode {
		r.checkKeys(n)
	}
	for _, child := range n.Content {
		r.check(child, depth+1)
	}
}

func (r *Reader) checkKeys(n *yaml.Node) {
	seen := make(map[string]*yaml.Node, len(n.Content)/2)
	for pair := range slices.Chunk(n.Content, 2) {
		key := pair[0]
		switch {
		case key.Kind != yaml.ScalarNode:
			if key.Kind != yaml.AliasNode {
				r.failAt(key, "a key that is not a word", plainYAML)
			}
		case key.Tag == "!!merge":
			r.failAt(key, "<< merges another mapping in", "the keys themselves")
		case seen[key.Value] != nil:
			r.failAt(key, fmt.Sprintf("key %q stands twice, first in line %d", key.Value, seen[key.Value].Line), "it once")
		default:
			seen[key.Value] = key
		}
	}
}

// Root is the document's outermost value. An empty file is a mistake.
func (r *Reader) Root() Node {
	if r.root == nil {
		if len(r.errs) == 0 {
			r.fail(1, 1, "the file is empty", plainYAML)
		}
		return Node{}
	}
	return Node{reader: r, node: r.root}
}

// Err is nil, or Errors with all mistakes found so far.
func (r *Reader) Err() error {
	if len(r.errs) == 0 {
		return nil
	}
	r.errs.sort()
	return r.errs
}

func (r *Reader) fail(line, column int, problem, accepted string) {
	r.errs = append(r.errs, &Error{File: r.file, Line: line, Column: column, Problem: problem, Accepted: accepted})
}

// failAt records a mistake at a node, once; what was found to be wrong is not
// read again.
func (r *Reader) failAt(n *yaml.Node, problem, accepted string) {
	if r.failed[n] {
		return
	}
	if r.failed == nil {
		r.failed = map[*yaml.Node]bool{}
	}
	r.failed[n] = true
	r.fail(n.Line, n.Column, problem, accepted)
}
