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
		if n := begins(words, key); n > taken {
			row, taken = under, n
		}
	}
	return row, taken
}

// begins is how many words a key takes that they begin with; 0 where they do not.
func begins(words []string, key string) int {
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
	low, high := 0, len(t) // both at the beginning of a line
	for low < high {
		middle := low + strings.LastIndexByte(string(t[low:low+(high-low)/2]), '\n') + 1
		tab := middle + strings.IndexByte(string(t[middle:high]), '\t')
		if string(t[middle:tab]) < key {
			low = tab + strings.IndexByte(string(t[tab:high]), '\n') + 1
		} else {
			high = middle
		}
	}
	return t[low:]
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
