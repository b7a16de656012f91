package measures

import (
	"slices"
	"sort"
	"strings"

	"trencher/units"
)

// fold gives a name the form it is looked up by.
func fold(name string) string {
	return strings.Join(strings.Fields(strings.ToLower(strings.ReplaceAll(name, "-", " "))), " ")
}

// find is the key of an ingredient by one of its names, singular or plural.
func (ix *index) find(name string) (key string, ok bool) {
	folded := fold(name)
	for _, form := range forms(folded) {
		if len(ix.rows[form]) > 0 {
			return form, true
		}
		if to, ok := ix.aliases[form]; ok {
			return to, true
		}
	}
	return folded, false
}

// forms are a name and what it may be in the other number.
func forms(name string) []string {
	list := []string{name, name + "s", name + "es"}
	for _, ending := range []string{"s", "es"} {
		if cut := strings.TrimSuffix(name, ending); cut != name {
			list = append(list, cut)
		}
	}
	if cut := strings.TrimSuffix(name, "leaves"); cut != name {
		list = append(list, cut+"leaf")
	}
	return list
}

// split parts a name that brings its state along: "chives, chopped" or
// "chopped chives".
func (ix *index) split(name string) (key, state string, ok bool) {
	if key, ok := ix.find(name); ok {
		return key, "", true
	}
	if before, after, cut := strings.Cut(name, ","); cut {
		if key, ok := ix.find(before); ok {
			return key, after, true
		}
	}
	if first, rest, cut := strings.Cut(fold(name), " "); cut {
		if key, ok := ix.find(rest); ok && ix.knowsState(key, first) {
			return key, first, true
		}
	}
	return "", "", false
}

func (ix *index) knowsState(key, word string) bool {
	for _, row := range ix.rows[key] {
		if row.inState(stateWords(word)) {
			return true
		}
	}
	return false
}

// Nearest lists up to five ingredients whose names come close to one that is
// not known: those that share a word, then those a few letters off.
func (t Table) Nearest(name string) []string {
	if t.index == nil {
		return nil
	}
	type near struct {
		name string
		far  int
	}
	folded := fold(name)
	best := map[string]int{}
	consider := func(spelling, shown string) {
		far := closeness(folded, spelling)
		if old, seen := best[shown]; far < 100 && (!seen || far < old) {
			best[shown] = far
		}
	}
	for key, rows := range t.index.rows {
		consider(key, rows[0].Ingredient)
	}
	for alias, key := range t.index.aliases {
		if rows := t.index.rows[key]; len(rows) > 0 {
			consider(alias, rows[0].Ingredient)
		}
	}
	list := make([]near, 0, len(best))
	for shown, far := range best {
		list = append(list, near{shown, far})
	}
	sort.Slice(list, func(i, j int) bool {
		if list[i].far != list[j].far {
			return list[i].far < list[j].far
		}
		return list[i].name < list[j].name
	})
	names := make([]string, 0, 5)
	for _, n := range list[:min(len(list), 5)] {
		names = append(names, n.name)
	}
	return names
}

// closeness is small for names alike: the letters to change; or, for names
// with a word in common, ten and the words of the known name that are not.
// 100 is far.
func closeness(asked, known string) int {
	far := 100
	if d := units.LettersApart(asked, known); d <= 1+len(asked)/4 {
		far = d
	}
	askedWords, knownWords := strings.Fields(asked), strings.Fields(known)
	for i, word := range askedWords {
		askedWords[i] = strings.TrimSuffix(word, "s")
	}
	strange := 0
	for _, word := range knownWords {
		if len(word) < 3 || !slices.Contains(askedWords, strings.TrimSuffix(word, "s")) {
			strange++
		}
	}
	if strange < len(knownWords) {
		far = min(far, 10+strange)
	}
	return far
}

// sameState gives words for one state of cutting or cooking one form.
var sameState = map[string]string{
	"slices": "sliced", "slice": "sliced", "strips": "sliced",
	"cubes": "diced", "cubed": "diced", "cube": "diced", "dice": "diced",
	"shredded": "grated", "flakes": "flaky", "flaked": "flaky",
	"puree": "pureed", "purée": "pureed", "puréed": "pureed",
	"podded": "shelled",
	"beaten": "raw", "uncooked": "raw", "liquid": "poured", "kosher": "coarse",
	"halved": "halves",
}

// stateWords are the words of a state that count, in one form each.
func stateWords(state string) []string {
	clean := strings.NewReplacer(",", " ", " and ", " ", " with ", " ", " or ", " ").Replace(strings.ToLower(state))
	words := strings.Fields(clean)
	for i, word := range words {
		if one, ok := sameState[word]; ok {
			words[i] = one
		}
	}
	return words
}

// inState tells whether a row is of the state asked for: every word asked for
// is among its own.
func (r Row) inState(asked []string) bool {
	own := stateWords(r.State + " " + r.Size)
	for _, word := range asked {
		if !slices.Contains(own, word) {
			return false
		}
	}
	return true
}

// changed are the states an ingredient is not in unless it is said to be.
var changed = []string{"boiled", "baked", "cooked", "pan-fried", "hard-boiled", "dried", "whipped", "melted", "canned"}

func isChanged(state string) bool {
	for _, word := range stateWords(state) {
		if slices.Contains(changed, word) {
			return true
		}
	}
	return false
}
