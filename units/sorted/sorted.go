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
	for len(t) > 0 {
		middle := t[strings.LastIndexByte(string(t[:len(t)/2]), '\n')+1:]
		line, after, _ := strings.Cut(string(middle), "\n")
		found, row, _ := strings.Cut(line, "\t")
		switch {
		case found == key:
			return row, true
		case found < key:
			t = Table(after)
		default:
			t = t[:len(t)-len(middle)]
		}
	}
	return "", false
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
