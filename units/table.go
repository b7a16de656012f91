package units

import (
	"cmp"
	"slices"
)

// The tables: units.csv holds each unit as a multiple of another, by its legal
// definition where it has one; kinds.csv the kinds of piece a recipe counts;
// words.csv the words with more than one reading, and those refused by name.
// library.go is what they come to, so that no program reads them when it starts:
// `go generate ./units` makes it anew (table_made_test.go), and
// TestTablesAreMade fails until it is.
//
//go:generate go test -run ^TestTablesAreMade$ -update .

// word is what a spelling may mean.
type word struct {
	text    string
	only    *entry                   // the one unit it means, whatever the system
	regions [len(systems) + 1]*entry // or by System
	note    string
	strict  bool // means something only with a system, or nothing at all
}

// spelling is a way to write a word.
type spelling struct {
	text string
	word *word
}

// places is how many the spellings are parted into.
const places = 2048

// wordOf is the word of a spelling, nil where there is none. The spellings stand by
// their place in a table of hashes: those of one place are looked through.
func wordOf(text string) *word {
	place := placeOf(text)
	for i := spellingsFrom[place]; i < spellingsFrom[place+1]; i++ {
		if spellings[i].text == text {
			return spellings[i].word
		}
	}
	return nil
}

// placeOf is where a spelling stands: its hash by Fowler, Noll and Vo (FNV-1a of 32
// bits), to the places there are.
func placeOf(text string) int {
	hash := uint32(2166136261)
	for i := range len(text) {
		hash = (hash ^ uint32(text[i])) * 16777619
	}
	return int(hash % places)
}

// unitNamed is the unit of a full name, nil where there is none.
func unitNamed(name string) *entry {
	return found(unitsByName[:], name, func(e *entry) string { return e.name })
}

// unitCoded is the unit of a code that [Unit.Code] gives, nil where there is none.
func unitCoded(code string) *entry {
	return found(unitsByCode[:], code, func(e *entry) string { return e.code })
}

func found(list []*entry, key string, of func(*entry) string) *entry {
	at, ok := slices.BinarySearchFunc(list, key, func(e *entry, key string) int { return cmp.Compare(of(e), key) })
	if !ok {
		return nil
	}
	return list[at]
}
