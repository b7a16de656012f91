package measures

import (
	"maps"
	"slices"
	"sort"
	"strings"

	"trencher/units"
)

// find is the key of an ingredient by one of its names, singular or plural: its
// own, another that weighs the same, or another of the same crop.
func (ix *index) find(name string) (key string, ok bool) {
	if key, ok := ix.plainly(name); ok {
		return key, true
	}
	folded := lookupKey(name)
	if key, ok := ix.asFood(folded); ok {
		return key, true
	}
	return folded, false
}

// plainly finds an ingredient by a name of its own, or one of its crop's.
func (ix *index) plainly(name string) (key string, ok bool) {
	folded := lookupKey(name)
	if key, ok := ix.named(folded); ok {
		return key, true
	}
	for _, form := range Singulars(folded) {
		if key, ok := ix.leads(cropMark, form, ix.byCrop); ok {
			return key, true
		}
	}
	return folded, false
}

// asFood finds the row of a food by another word for it, or the row that the
// table of names says it is weighed as.
func (ix *index) asFood(folded string) (key string, ok bool) {
	food, ok := foodTable.lookup(folded)
	if !ok {
		return "", false
	}
	names := []string{food.weighsAs, food.Name}
	if food.Kind == SameFood || food.Kind == SortOfFood {
		names = append(names, food.Family)
	}
	if family, ok := foodTable.lookup(lookupKey(food.Family)); ok && food.Kind != KinOfFood && food.Kind != FormOfFood {
		names = append(names, family.weighsAs)
	}
	for _, name := range names {
		if name == "" {
			continue
		}
		if key, ok := ix.named(lookupKey(name)); ok {
			return key, true
		}
	}
	return "", false
}

// leadToOwn finds the singulars of the kitchen's own names; and for every crop the row
// that weighs it, under whichever of its names, and else that of what it counts as in
// the kitchen: all its names lead there.
func (ix *index) leadToOwn() {
	for _, key := range slices.Sorted(maps.Keys(ix.own)) {
		for _, form := range Singulars(key) {
			if _, taken := ix.singular[form]; !taken {
				ix.singular[form] = key
			}
		}
	}
	for _, crop := range Crops() {
		key, ok := ix.weighs(crop)
		if !ok {
			key, ok = ix.named(lookupKey(crop.InKitchen().Name))
		}
		if !ok {
			continue
		}
		for _, name := range append([]string{crop.Name}, crop.Names...) {
			ix.byCrop[lookupKey(name)] = key
		}
	}
}

func (ix *index) weighs(crop Crop) (key string, ok bool) {
	for _, name := range append([]string{crop.Name}, crop.Names...) {
		if key, ok := ix.rowNamed(lookupKey(name)); ok {
			return key, true
		}
	}
	return "", false
}

// named finds a row's own name, or another of the ingredient's.
func (ix *index) named(folded string) (key string, ok bool) {
	if key, ok := ix.rowNamed(folded); ok {
		return key, true
	}
	for _, form := range Singulars(folded) {
		if key, ok := ix.leads(aliasMark, form, nil); ok {
			return key, true
		}
	}
	return "", false
}

// rowNamed finds a row's own name, in the singular or the plural.
func (ix *index) rowNamed(folded string) (key string, ok bool) {
	if ix.has(folded) {
		return folded, true
	}
	for _, form := range Singulars(folded) {
		if key, ok := ix.leads(singularMark, form, ix.singular); ok {
			return key, true
		}
	}
	return "", false
}

// standsIn tells a row of another food than was asked for: chicken thighs weighed
// as chicken breast.
func (ix *index) standsIn(asked, key string) bool {
	folded := lookupKey(asked)
	if own, ok := ix.named(folded); ok && own == key {
		return false
	}
	food, ok := foodTable.lookup(folded)
	return ok && food.Kind == KinOfFood && lookupKey(food.Name) != key
}

// split parts a name that brings its state along: "chives, chopped" or
// "chopped chives".
func (ix *index) split(name string) (key, state string, ok bool) {
	if key, ok := ix.plainly(name); ok {
		return key, "", true
	}
	if before, after, cut := strings.Cut(name, ","); cut {
		if key, ok := ix.find(before); ok {
			return key, after, true
		}
	}
	if first, rest, cut := strings.Cut(lookupKey(name), " "); cut {
		food, known := ix.asFood(lookupKey(name))
		if key, ok := ix.find(rest); ok && ix.knowsState(key, first) && (!known || food == key) {
			return key, first, true
		}
	}
	key, ok = ix.asFood(lookupKey(name))
	return key, "", ok
}

func (ix *index) knowsState(key, word string) bool {
	for _, row := range ix.rows(key) {
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
	folded := lookupKey(name)
	best := map[string]int{}
	consider := func(spelling, shown string) {
		far := closeness(folded, spelling)
		if old, seen := best[shown]; far < 100 && (!seen || far < old) {
			best[shown] = far
		}
	}
	for key, shown := range t.index.all() {
		switch key[:1] {
		case singularMark:
		case aliasMark, cropMark:
			consider(key[1:], t.index.rows(shown)[0].Ingredient)
		default:
			consider(key, shown)
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
	"halved": "halves", "canned": "tinned",
}

// stateJoints part the words of a state.
var stateJoints = strings.NewReplacer(",", " ", " and ", " ", " with ", " ", " or ", " ")

// stateWords are the words of a state that count, in one form each.
func stateWords(state string) []string {
	words := strings.Fields(stateJoints.Replace(strings.ToLower(state)))
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
var changed = []string{"boiled", "baked", "cooked", "pan-fried", "hard-boiled", "dried", "whipped", "melted", "canned", "tinned", "frozen",
	"roasted", "fried", "poached", "scrambled", "omelette", "toasted", "pickled", "stewed"}

func isChanged(state string) bool {
	for _, word := range stateWords(state) {
		if slices.Contains(changed, word) {
			return true
		}
	}
	return false
}
