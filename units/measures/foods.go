package measures

import (
	_ "embed" // the table
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"trencher/units/sorted"
)

// names.csv says what a cook's words mean: one name a line, the food it is one
// of, and how it stands to it (kind): food (the food itself, with the words that
// may stand before and after any name of it, and what only looks like it), same
// (another word for it, or for the name in weighs_as of a sort), sort (another
// good of the family: what it holds is alike, its weight and price are not), form
// (the same in another state, as a shop sells it); and words that may stand
// beside any name: quality (nothing changes), state (what is done to it), changes
// (makes another food of it: vegan, -free). That two words mean one food is
// common usage, no source.
//
// names.sorted is the same, with the crops' names, for looking up: each name by its
// lookupKey and its singular, "+" and a word that may stand beside any name, "*" and
// a food for the words that may stand beside its own. `go generate
// ./units/measures` makes it anew (foods_made_test.go), and TestFoodsAreMade fails
// until it is.
//
//go:generate go test -run ^TestLibraryIsMade$ -update .
//go:generate go test -run ^(TestFoodsAreMade|TestMeasuresAreMade)$ -update .
//go:embed names.sorted
var foodTable foods

// foods is the table of names, as [sorted.Table].
type foods string

// longestFood is how many words the longest name of names.sorted has.
const longestFood = 6

// FoodKind is how a name stands to the food it is one of.
type FoodKind uint8

// The kinds of name. The zero value is no name of the table.
const (
	NotAFood FoodKind = iota
	FoodItself
	SameFood
	SortOfFood
	KinOfFood
	FormOfFood
)

// Food is what an ingredient's name means.
type Food struct {
	Name   string // as the table has it: "double cream"
	Family string // the food it is one of: "cream"
	Kind   FoodKind
	Good   string   // what a shop calls it: names of one good may be added up
	Region string   // whose word it is: uk, us, au; "" anybody's
	Animal []string // what of an animal is in it: milk, meat, "rennet?"
	Tags   []string // what diets ask after besides: allium, underground, pork

	weighsAs string
}

// Crop is the crop that the food is: by its name, or as a sort of one. Raspberries
// are kin to strawberries and no crop by that; tinned tomatoes are none at all.
func (f Food) Crop() (Crop, bool) {
	if crop, ok := CropNamed(f.Name); ok {
		return crop, true
	}
	if f.Kind == KinOfFood || f.Kind == FormOfFood {
		return Crop{}, false
	}
	return CropNamed(f.Family)
}

// NameMatch is a text as a name of the table and the words beside it.
type NameMatch struct {
	Food      Food
	Variety   string   // a word before a crop's name that the table does not know: "Kestrel"
	Qualities []string // words that change nothing: "large", "ripe"
	States    []string // what is done to it: "chopped", "frozen"
}

type wordKind uint8

const (
	qualityWord wordKind = iota + 1
	apartWord
	stateWord
	changingWord
)

// foodOf reads a food of names.sorted. It is our own data: the package's tests read every
// row.
func foodOf(text string) Food {
	cells := strings.Split(text, "\t")
	return Food{Name: cells[0], Family: cells[1], Kind: FoodKind(cells[2][0] - '0'), Good: cells[3], Region: cells[4],
		Animal: listOf(cells[5]), Tags: listOf(cells[6]), weighsAs: cells[7]}
}

// named is the food of a name as it stands in the table.
func (t foods) named(key string) (Food, bool) {
	text, ok := sorted.Table(t).Find(key)
	if !ok {
		return Food{}, false
	}
	return foodOf(text), true
}

// beside is what a word is that may stand beside any name; 0 for others.
func (t foods) beside(word string) wordKind {
	text, ok := sorted.Table(t).Find("+" + word)
	if !ok {
		return 0
	}
	return wordKind(text[0] - '0')
}

// own are the words that may stand beside the names of a food.
func (t foods) own(food string) []string {
	text, _ := sorted.Table(t).Find("*" + food)
	return listOf(text)
}

func listOf(cell string) []string {
	if cell == "" {
		return nil
	}
	return strings.Split(cell, ";")
}

// singular is the shortest form a folded name may be the plural of.
func singular(name string) string {
	forms := Singulars(name)
	return forms[min(1, len(forms)-1)]
}

// FoodNamed finds the food that a text names as a whole: a name of the table,
// and beside it nothing but words that may stand there. A longer name that only
// holds a shorter ("peanut butter", "vegan butter") is never the shorter.
func FoodNamed(text string) (NameMatch, bool) {
	t := foodTable
	words := strings.FieldsFunc(lookupKey(text), func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune(",()", r) })
	begins := make([]bool, len(words)) // a longer name
	for i, word := range words {
		begins[i] = t.beginsName(word)
	}
	for size := min(len(words), longestFood); size > 0; size-- {
		for start := 0; start+size <= len(words); start++ {
			if size > 1 && !begins[start] {
				continue
			}
			if m, ok := t.match(words, start, start+size, text); ok {
				return m, true
			}
		}
	}
	return NameMatch{}, false
}

// match takes some of a text's words for a name and the others for what may stand
// beside it.
func (t foods) match(words []string, from, to int, text string) (m NameMatch, ok bool) {
	if m.Food, ok = t.lookup(strings.Join(words[from:to], " ")); !ok {
		return m, false
	}
	ok = t.takes(&m, words[:from], text, true) && t.takes(&m, words[to:], text, false)
	return m, ok
}

// beginsName tells whether names of several words begin with a word.
func (t foods) beginsName(word string) bool {
	_, _, longer := sorted.Table(t).FindStart(word)
	return longer
}

func (t foods) lookup(name string) (Food, bool) {
	for _, form := range Singulars(name) {
		if food, ok := t.named(form); ok {
			return food, true
		}
	}
	return Food{}, false
}

// takes tells whether words may stand beside the name found, and sorts them.
func (t foods) takes(m *NameMatch, words []string, text string, before bool) bool {
	for i := 0; i < len(words); {
		n, kind := t.besideAt(m.Food, words[i:])
		switch {
		case kind == qualityWord || kind == apartWord:
			m.Qualities = append(m.Qualities, strings.Join(words[i:i+n], " "))
		case kind == stateWord:
			m.States = append(m.States, strings.Join(words[i:i+n], " "))
		case before && i <= 1 && (i == 0 || m.Variety == words[0]) && isVariety(text, words[i]) && m.Food.isCrop():
			m.Variety, n = strings.Join(words[:i+1], " "), 1 // of two words at most: King Edward
		default:
			return false
		}
		i += n
	}
	return true
}

// besideAt is the longest phrase at the start of the words that may stand beside
// a food's name.
func (t foods) besideAt(food Food, words []string) (n int, kind wordKind) {
	own := t.own(lookupKey(food.Family))
	for n := min(4, len(words)); n > 0; n-- {
		phrase := strings.Join(words[:n], " ")
		if kind := t.beside(phrase); kind != 0 && !(kind == changingWord && slices.Contains(own, phrase)) {
			return n, kind
		}
		if slices.Contains(own, phrase) {
			return n, qualityWord
		}
	}
	return 0, 0
}

// isVariety tells a word that the text writes with a capital: the name of a
// variety.
func isVariety(text, word string) bool {
	if text == strings.ToUpper(text) {
		return false // all of it is in capitals
	}
	for _, written := range strings.Fields(text) {
		first, _ := utf8.DecodeRuneInString(written)
		if lookupKey(written) == word {
			return unicode.IsUpper(first)
		}
	}
	return false
}

func (f Food) isCrop() bool {
	_, ok := f.Crop()
	return ok
}

// SameGood tells whether two names are of one good, so that what is wanted of
// them may be added up: the same name, in the singular or plural, with nothing
// beside it that sets it apart, or another word for it that the table gives.
// Sorts stay apart: waxy potatoes are not floury ones.
func SameGood(a, b string) bool {
	return GoodOf(a) == GoodOf(b)
}

// GoodOf is the one name of a good, for joining lists: a name the table does not
// know is its own, folded.
func GoodOf(text string) string {
	m, ok := FoodNamed(text)
	if !ok {
		return singular(lookupKey(text))
	}
	beside := slices.Clone(m.States)
	if m.Variety != "" {
		beside = append(beside, m.Variety)
	}
	for _, word := range m.Qualities {
		if foodTable.beside(word) != qualityWord { // a word of this food, or one that sets it apart
			beside = append(beside, word)
		}
	}
	slices.Sort(beside)
	return strings.Join(append([]string{m.Food.Good}, beside...), ", ")
}
