package strict

import (
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"trencher/units"
)

// Node is one value of a file. It knows its place and its key. Reading an
// invalid Node, the zero one, gives zero values and no mistake, so a loader
// need not ask after every step.
type Node struct {
	reader *Reader
	node   *yaml.Node
	key    string
}

// IsValid is false for the zero Node: a key that is not there.
func (n Node) IsValid() bool { return n.node != nil }

// Place is where the value stands, line and column from 1.
func (n Node) Place() (file string, line, column int) {
	if !n.IsValid() {
		return "", 0, 0
	}
	return n.reader.file, n.node.Line, n.node.Column
}

// Fail records a mistake at this value: "seed "3 stones": problem". Only the
// first at one value is kept.
func (n Node) Fail(problem, accepted string) { n.fail(problem, accepted, nil) }

func (n Node) fail(problem, accepted string, cause error) {
	if !n.IsValid() || n.reader.failed[n.node] {
		return
	}
	value := n.key
	if n.node.Kind == yaml.ScalarNode {
		value = units.Named(n.key, n.node.Value)
	}
	if value != "" {
		problem = value + ": " + problem
	}
	n.reader.failAt(n.node, problem, accepted)
	n.reader.errs[len(n.reader.errs)-1].cause = cause
}

// IsList tells a list from other shapes, where a file may write one thing in
// several ways.
func (n Node) IsList() bool { return n.IsValid() && n.node.Kind == yaml.SequenceNode }

// IsMap tells a mapping.
func (n Node) IsMap() bool { return n.IsValid() && n.node.Kind == yaml.MappingNode }

// List is the elements of a list.
func (n Node) List() []Node {
	if !n.IsValid() {
		return nil
	}
	if !n.IsList() {
		n.Fail("one value where a list is wanted", "each element on a line of its own after `- `")
		return nil
	}
	list := make([]Node, len(n.node.Content))
	for i, child := range n.node.Content {
		list[i] = Node{reader: n.reader, node: child, key: n.key}
	}
	return list
}

// Map is a mapping's values by key. A key that is not among those known is a
// mistake that names the nearest.
type Map struct {
	self   Node
	number map[string]int // where each key is, where there are more than a few
}

// fewKeys are looked through faster than a table is made of them.
const fewKeys = 12

// find is where a key is among the mapping's nodes, the first of its name; -1 where
// it is not there.
func (m *Map) find(key string) int {
	if m.number != nil {
		if i, there := m.number[key]; there {
			return i
		}
		return -1
	}
	if m.isRead() {
		for i := 0; i < len(m.self.node.Content); i += 2 {
			if at := m.self.node.Content[i]; at.Value == key && isWord(at) {
				return i
			}
		}
	}
	return -1
}

// isRead is false where there is no mapping to read.
func (m *Map) isRead() bool { return m.self.IsMap() }

// isWord tells a key from what is none.
func isWord(key *yaml.Node) bool { return key.Kind == yaml.ScalarNode && key.Tag != "!!merge" }

// Map reads a mapping; the keys it may have are listed in known.
func (n Node) Map(known ...string) Map { return n.AnyMap().Only(known...) }

// Only is the mapping, whose keys have to be among those known: any other is a
// mistake that names the nearest.
func (m Map) Only(known ...string) Map {
	m.each(func(i int, key *yaml.Node) {
		if !slices.Contains(known, key.Value) {
			m.self.unknownKey(key, known)
		}
	})
	return m
}

// each goes through the keys in the order they stand, with where each is; of a key
// that stands twice through the first.
func (m Map) each(do func(i int, key *yaml.Node)) {
	if !m.isRead() {
		return
	}
	for i := 0; i < len(m.self.node.Content); i += 2 {
		if key := m.self.node.Content[i]; isWord(key) && m.find(key.Value) == i {
			do(i, key)
		}
	}
}

// AnyMap reads a mapping whose keys are the user's own words.
func (n Node) AnyMap() Map {
	m := Map{self: n}
	switch {
	case !n.IsValid():
	case !n.IsMap():
		n.Fail("a mapping is wanted here", "lines of `key: value`")
	case len(n.node.Content)/2 > fewKeys:
		m.number = make(map[string]int, len(n.node.Content)/2)
		for i := len(n.node.Content) - 2; i >= 0; i -= 2 { // the first of a name stays
			if key := n.node.Content[i]; isWord(key) {
				m.number[key.Value] = i
			}
		}
	}
	return m
}

func (n Node) unknownKey(at *yaml.Node, known []string) {
	accepted := "one of " + strings.Join(known, ", ")
	if near := Nearest(at.Value, known); near != "" {
		accepted = fmt.Sprintf("%s, if that is meant; the keys here are %s", near, strings.Join(known, ", "))
	}
	n.reader.failAt(at, fmt.Sprintf("unknown key %q", at.Value), accepted)
}

// Has tells whether the key is there, even with nothing behind it.
func (m Map) Has(key string) bool { return m.find(key) >= 0 }

// At is the value under a key; the zero Node if the key is not there.
func (m Map) At(key string) Node {
	if i := m.find(key); i >= 0 {
		return Node{reader: m.self.reader, node: m.self.node.Content[i+1], key: key}
	}
	return Node{}
}

// Require is the value under a key that must be there.
func (m Map) Require(key string) Node {
	if !m.Has(key) && m.isRead() {
		m.self.missing(key)
	}
	return m.At(key)
}

// missing may be recorded for several keys of one mapping.
func (n Node) missing(key string) {
	problem := fmt.Sprintf("the key %q is missing", key)
	if n.key != "" {
		problem = n.key + ": " + problem
	}
	n.reader.fail(n.node.Line, n.node.Column, problem, "a line `"+key+": …`")
}

// Keys lists the keys in the order they stand.
func (m Map) Keys() []string {
	var keys []string
	m.each(func(_ int, key *yaml.Node) { keys = append(keys, key.Value) })
	return keys
}

// Text is a value as written, whatever YAML would make of it: 2031-07-12 and
// 1e3 stay as they are. Nothing written is a mistake. The text does not hold the
// file it was read from in memory.
func (n Node) Text() string {
	text, _ := n.text()
	return strings.Clone(text)
}

func (n Node) text() (text string, ok bool) {
	switch {
	case !n.IsValid() || n.reader.failed[n.node]:
		return "", false
	case n.node.Kind != yaml.ScalarNode:
		n.Fail("one value is wanted here, not several", "a single value")
		return "", false
	case strings.TrimSpace(n.node.Value) == "":
		n.Fail("nothing is written here", "a value, or leave the key out")
		return "", false
	}
	for _, c := range n.node.Value {
		if units.Hidden(c) {
			n.Fail(fmt.Sprintf("the hidden character %U", c), "plain text")
			return "", false
		}
	}
	return strings.TrimSpace(n.node.Value), true
}

// Nearest is the known key that a mistyped one was most likely meant to be.
func Nearest(word string, known []string) string {
	best, far := "", 1+len(word)/3
	for _, one := range known {
		if d := units.LettersApart(word, one); d <= far && (best == "" || d < far) {
			best, far = one, d
		}
	}
	return best
}
