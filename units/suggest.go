package units

import (
	"cmp"
	"slices"
	"strings"
)

// suggest names the spellings nearest to one that is not known, and the usual
// units.
func suggest(phrase string) string {
	if len(phrase) > 40 {
		return usualUnits
	}
	best := map[string]int{} // letters apart, by the word a spelling stands for
	most := 1 + len(phrase)/5
	for _, known := range spellings {
		spelling, w := known.text, known.word
		if len(spelling) < 2 || len(spelling)-len(phrase) > most || len(phrase)-len(spelling) > most || strings.ContainsAny(spelling, "[{") || w.only == nil && len(w.readings()) == 0 {
			continue
		}
		far := LettersApart(phrase, spelling)
		if old, seen := best[w.text]; far <= most && (!seen || far < old) {
			best[w.text] = far
		}
	}
	if len(best) == 0 || len(best) > 6 {
		return usualUnits
	}
	names := make([]string, 0, len(best))
	for name := range best {
		names = append(names, name)
	}
	slices.SortFunc(names, func(a, b string) int {
		return cmp.Or(cmp.Compare(best[a], best[b]), strings.Compare(a, b))
	})
	return joinOr(names[:min(len(names), 3)]) + ", if that is meant; else " + usualUnits
}

// LettersApart is how many letters must be changed, added or dropped to make
// one word the other (the Levenshtein distance, by bytes): for naming the
// known word that a mistyped one was most likely meant to be.
func LettersApart(a, b string) int {
	var short [64]int // most words fit, and need no memory of their own
	row := short[:0]
	if len(b) >= len(short) {
		row = make([]int, 0, len(b)+1)
	}
	row = row[:len(b)+1]
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		corner := row[0]
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := corner
			if a[i-1] != b[j-1] {
				change++
			}
			corner = row[j]
			row[j] = min(change, row[j]+1, row[j-1]+1)
		}
	}
	return row[len(b)]
}
