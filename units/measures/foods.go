package measures

import (
	_ "embed" // the table
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
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
//go:embed names.csv
var namesCSV string

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

var foodKinds = map[string]FoodKind{"food": FoodItself, "same": SameFood, "sort": SortOfFood, "kin": KinOfFood, "form": FormOfFood}

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

// foods is the table with the ways into it.
type foods struct {
	byName  map[string]Food     // by lookupKey, and by its singular
	beside  map[string]wordKind // words that may stand beside any name
	own     map[string]map[string]bool
	names   []string
	unlike  map[string][]string
	longest int
}

type wordKind uint8

const (
	qualityWord wordKind = iota + 1
	apartWord
	stateWord
	changingWord
)

var foodTable = sync.OnceValue(loadFoods)

func loadFoods() *foods {
	t := &foods{byName: map[string]Food{}, beside: map[string]wordKind{}, own: map[string]map[string]bool{}, unlike: map[string][]string{}}
	for row := range readTable("names.csv", namesCSV) {
		key := lookupKey(row["name"])
		switch kind := foodKinds[row["kind"]]; {
		case row["kind"] == "quality":
			t.beside[key] = qualityWord
		case row["kind"] == "apart":
			t.beside[key] = apartWord
		case row["kind"] == "state":
			t.beside[key] = stateWord
		case row["kind"] == "changes":
			t.beside[key] = changingWord
		case kind == NotAFood:
			panic("measures: names.csv: no such kind of name: " + row["kind"])
		default:
			t.add(row, kind, key)
		}
	}
	for _, crop := range Crops() { // a crop is a food by all its names
		for _, name := range append([]string{crop.Name}, crop.Names...) {
			t.spell(lookupKey(name), Food{Name: name, Family: crop.InKitchen().Name, Kind: SortOfFood, Good: lookupKey(name)})
		}
	}
	return t
}

func (t *foods) add(row map[string]string, kind FoodKind, key string) {
	food := Food{Name: row["name"], Family: row["food"], Kind: kind, Region: row["region"], Animal: listOf(row["animal"]),
		Tags: listOf(row["tags"]), weighsAs: row["weighs_as"], Good: key}
	switch kind {
	case FoodItself:
		food.Family = food.Name
		words := map[string]bool{}
		for _, word := range append(listOf(row["before"]), listOf(row["after"])...) {
			words[lookupKey(word)] = true
		}
		t.own[key] = words
		t.unlike[key] = listOf(row["unlike"])
	case SameFood:
		food.Good = lookupKey(food.Family)
		if food.weighsAs != "" {
			food.Good = lookupKey(food.weighsAs)
		}
	}
	food.Good = singular(food.Good)
	t.spell(key, food)
	t.names = append(t.names, food.Name)
}

// spell puts a name and its singular into the table; the first row of a name is
// the one that counts.
func (t *foods) spell(key string, food Food) {
	for _, form := range []string{key, singular(key)} {
		if _, taken := t.byName[form]; !taken {
			t.byName[form] = food
		}
	}
	t.longest = max(t.longest, len(strings.Fields(key)))
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

// FoodNames lists every name of a food, in the table's order.
func FoodNames() []string { return slices.Clone(foodTable().names) }

// FoodNamed finds the food that a text names as a whole: a name of the table,
// and beside it nothing but words that may stand there. A longer name that only
// holds a shorter ("peanut butter", "vegan butter") is never the shorter.
func FoodNamed(text string) (NameMatch, bool) {
	t := foodTable()
	words := strings.Fields(strings.NewReplacer(",", " ", "(", " ", ")", " ").Replace(lookupKey(text)))
	for size := min(len(words), t.longest); size > 0; size-- {
		for start := 0; start+size <= len(words); start++ {
			food, ok := t.lookup(strings.Join(words[start:start+size], " "))
			if !ok {
				continue
			}
			m := NameMatch{Food: food}
			if t.takes(&m, words[:start], text, true) && t.takes(&m, words[start+size:], text, false) {
				return m, true
			}
		}
	}
	return NameMatch{}, false
}

func (t *foods) lookup(name string) (Food, bool) {
	for _, form := range Singulars(name) {
		if food, ok := t.byName[form]; ok {
			return food, true
		}
	}
	return Food{}, false
}

// takes tells whether words may stand beside the name found, and sorts them.
func (t *foods) takes(m *NameMatch, words []string, text string, before bool) bool {
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
func (t *foods) besideAt(food Food, words []string) (n int, kind wordKind) {
	own := t.own[lookupKey(food.Family)]
	for n := min(4, len(words)); n > 0; n-- {
		phrase := strings.Join(words[:n], " ")
		if kind, ok := t.beside[phrase]; ok && !(kind == changingWord && own[phrase]) {
			return n, kind
		}
		if own[phrase] {
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
		if foodTable().beside[word] != qualityWord { // a word of this food, or one that sets it apart
			beside = append(beside, word)
		}
	}
	slices.Sort(beside)
	return strings.Join(append([]string{m.Food.Good}, beside...), ", ")
}
