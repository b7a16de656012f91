package measures

import (
	"iter"
	"slices"
	"strings"
	"unicode/utf8"
)

// Fold brings a name to the form that names are compared in: small letters,
// single spaces, no accents and no full stop at the end.
func Fold(name string) string {
	name = strings.ToLower(name)
	if !spacedOnce(name) {
		name = strings.Join(strings.Fields(name), " ")
	}
	if !plain(name) {
		name = accents.Replace(name)
	}
	return strings.Trim(name, " .")
}

// plain tells that a text has no letter beyond the first 128, so no accent: so
// are nearly all names, and the tables have thousands.
func plain(text string) bool {
	for i := range len(text) {
		if text[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

// spacedOnce tells that words stand one plain space apart and none at the ends.
func spacedOnce(text string) bool {
	before := byte(' ')
	for i := range len(text) {
		c := text[i]
		if c >= utf8.RuneSelf || '\t' <= c && c <= '\r' || c == ' ' && before == ' ' {
			return false
		}
		before = c
	}
	return before != ' ' || text == ""
}

var accents = strings.NewReplacer("’", "'", "à", "a", "á", "a", "â", "a", "ä", "a", "ç", "c", "è", "e", "é", "e", "ê", "e", "ë", "e",
	"î", "i", "ï", "i", "í", "i", "ñ", "n", "ô", "o", "ö", "o", "ó", "o", "ù", "u", "û", "u", "ü", "u", "ú", "u")

// lookupKey is the form a name stands under in an index: folded, and no hyphen.
func lookupKey(name string) string {
	name = Fold(name)
	if !strings.Contains(name, "-") && spacedOnce(name) {
		return name
	}
	return strings.Join(strings.Fields(strings.ReplaceAll(name, "-", " ")), " ")
}

// endings are those of plurals, and what a single one ends in.
var endings = [...]struct{ plural, singular string }{
	{"ies", "y"}, {"ves", "f"}, {"oes", "o"}, {"shes", "sh"}, {"ches", "ch"}, {"s", ""},
}

// Singulars lists a folded name and then what it may be the plural of.
func Singulars(name string) []string {
	return slices.AppendSeq([]string{name}, singularsOf(name))
}

// singularsOf are what a folded name may be the plural of.
func singularsOf(name string) iter.Seq[string] {
	return func(yield func(string) bool) {
		if !strings.HasSuffix(name, "s") || strings.HasSuffix(name, "ss") {
			return
		}
		for _, ending := range endings {
			if stem, ok := strings.CutSuffix(name, ending.plural); ok && len(stem) > 1 && !yield(stem+ending.singular) {
				return
			}
		}
	}
}

// loneEndings are those of single words whose plural [Singulars] takes for
// another's: "olives" may be of "olif", "quiches" of "quich".
var loneEndings = [...]struct{ lone, stem string }{
	{"ve", "f"}, {"ie", "y"}, {"oe", "o"}, {"she", "sh"}, {"che", "ch"}, {"sse", "ss"}, {"xe", "x"},
}

// Stem is one form for a folded word, single or plural: "olive" and "olives", "leaf"
// and "leaves", "quiche" and "quiches". It need be no word itself; it is for finding
// words in a text.
func Stem(word string) string {
	for one := range singularsOf(word) {
		word = one
		break
	}
	for _, ending := range loneEndings {
		if stem, ok := strings.CutSuffix(word, ending.lone); ok && len(stem) > 1 {
			return stem + ending.stem
		}
	}
	return word
}
