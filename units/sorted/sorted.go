// Package sorted finds a row of an embedded table without reading the others: the
// table is one text, a line for each row, in the order of the rows' keys. Nothing
// is decoded when a program starts.
package sorted

import (
	"iter"
	"maps"
	"slices"
	"strings"
)

// Table is lines of a key, a tab and what stands under it, sorted by their keys.
// The zero Table is empty.
type Table string

// Make writes rows as a table. No key holds a tab, and no row a line feed.
func Make(rows map[string]string) Table {
	var text strings.Builder
	for _, key := range slices.Sorted(maps.Keys(rows)) {
		text.WriteString(key + "\t" + rows[key] + "\n")
	}
	return Table(text.String())
}

// Find is what stands under a key.
func (t Table) Find(key string) (row string, ok bool) {
	line, _, _ := strings.Cut(string(t.from(key)), "\n")
	found, row, ok := strings.Cut(line, "\t")
	if !ok || found != key {
		return "", false
	}
	return row, true
}

// FindStart is Find, and tells whether longer keys begin with this one and a space.
func (t Table) FindStart(key string) (row string, ok, longer bool) {
	line, next, _ := strings.Cut(string(t.from(key)), "\n")
	found, row, _ := strings.Cut(line, "\t")
	if found != key {
		return "", false, begins(found, key)
	}
	return row, true, begins(next, key)
}

// begins tells a key that begins with another and a space.
func begins(key, with string) bool {
	rest, ok := strings.CutPrefix(key, with)
	return ok && strings.HasPrefix(rest, " ")
}

// Longest is the row of the longest key that some words begin with, its words one
// space apart, and how many of them it takes; 0 where they begin with none.
func (t Table) Longest(words []string) (row string, taken int) {
	if len(words) == 0 {
		return "", 0
	}
	first := words[0] + " "
	for rest := string(t.from(words[0])); rest != ""; {
		var line string
		line, rest, _ = strings.Cut(rest, "\n")
		key, under, _ := strings.Cut(line, "\t")
		if key != words[0] && !strings.HasPrefix(key, first) {
			break
		}
		if n := taking(words, key); n > taken {
			row, taken = under, n
		}
	}
	return row, taken
}

// taking is how many words a key takes that they begin with; 0 where they do not.
func taking(words []string, key string) int {
	for i, word := range words {
		rest, ok := strings.CutPrefix(key, word)
		switch {
		case !ok:
			return 0
		case rest == "":
			return i + 1
		case rest[0] != ' ':
			return 0
		}
		key = rest[1:]
	}
	return 0
}

// from are the rows from the first whose key is not before another.
func (t Table) from(key string) Table {
	low, high := 0, len(t) // both at the beginning of a row
	for low < high {
		row := low + (high-low)/2
		row += strings.IndexByte(string(t[row:high]), '\n') + 1
		if row == high { // none begins in the second half
			row = low
		}
		if t.key(row) < key {
			low = row + strings.IndexByte(string(t[row:]), '\n') + 1
		} else {
			high = row
		}
	}
	return t[low:]
}

// key is that of the row that begins at a place.
func (t Table) key(at int) string {
	return string(t[at : at+strings.IndexByte(string(t[at:]), '\t')])
}

// All are the keys and what stands under them, in their order.
func (t Table) All() iter.Seq2[string, string] {
	return func(yield func(key, row string) bool) {
		for line := range strings.Lines(string(t)) {
			key, row, _ := strings.Cut(strings.TrimSuffix(line, "\n"), "\t")
			if !yield(key, row) {
				return
			}
		}
	}
}
