package recipes

import (
	_ "embed"
	"math/bits"
	"slices"
	"strings"

	"trencher/units"
	"trencher/units/measures"
	"trencher/units/pattern"
	"trencher/units/sorted"
)

// Allergen is one of the fourteen substances of Regulation (EU) No 1169/2011,
// Annex II (retained in UK law), in the order it lists them. The zero value
// is none of them.
type Allergen uint8

// The fourteen of Annex II.
const (
	Gluten Allergen = iota + 1
	Crustaceans
	Egg
	Fish
	Peanuts
	Soya
	Milk
	Nuts
	Celery
	Mustard
	Sesame
	Sulphites
	Lupin
	Molluscs
)

// allergenNames holds the kitchen words.
var allergenNames = [...]string{
	Gluten:      "gluten",
	Crustaceans: "crustaceans",
	Egg:         "egg",
	Fish:        "fish",
	Peanuts:     "peanuts",
	Soya:        "soya",
	Milk:        "milk",
	Nuts:        "nuts",
	Celery:      "celery",
	Mustard:     "mustard",
	Sesame:      "sesame",
	Sulphites:   "sulphites",
	Lupin:       "lupin",
	Molluscs:    "molluscs",
}

// String returns the kitchen word: "milk", "gluten".
func (a Allergen) String() string {
	if a < Gluten || a > Molluscs {
		return "no allergen"
	}
	return allergenNames[a]
}

// Composition is what an ingredient holds. An ingredient that is not in the
// table has Known false and may hold anything.
type Composition struct {
	Item             string // as asked for
	Known            bool
	Row              string // the table's ingredient; "" when not known
	Tell             string // what to tell a guest or look for on the label; often ""
	units.Provenance        // why the row says so

	contains, may marks
	spoken        []carrier // words of its state that bring something in
	served        bool      // it is a word of a text, and nobody knows it
}

// Contains lists what is surely in it, in Annex II's order.
func (c Composition) Contains() []Allergen { return c.contains.allergens() }

// May lists what may be in it besides, in Annex II's order.
func (c Composition) May() []Allergen { return (c.may &^ c.contains).allergens() }

// Allergens returns what an ingredient holds by the embedded table. Plurals,
// capitals and words that change nothing ("fresh", "chopped", "large") are
// seen through, and "salt and pepper" is both; any other name that is not in
// the table may hold anything.
func Allergens(item string) Composition {
	if row, ok := lookupIngredient(item); ok {
		c := *row
		c.Item = item
		return c
	}
	if c, ok := together(item); ok {
		return c
	}
	if c, ok := foodCalled(item); ok {
		return Composition{Item: item, Known: true, Row: c.words, contains: c.contains, may: c.may &^ c.contains,
			Provenance: units.Provenance{Source: allergenSources["label"], KnownBy: "practice"}}
	}
	return Composition{Item: item, may: everything}
}

// mostOfJoint is how long a name may be, in bytes, that is taken apart at its "and":
// what is longer is no name and may hold anything.
const mostOfJoint = 200

var jointWords = pattern.New(` (and|&|or) `)

// together is the composition of a name that joins ingredients of the table:
// with "and" both are in it, with "or" either may be.
func together(item string) (Composition, bool) {
	name := fold(item)
	joint := jointWords.FindStringIndex(name)
	if joint == nil || len(name) > mostOfJoint {
		return Composition{}, false
	}
	a, b := Allergens(name[:joint[0]]), Allergens(name[joint[1]:])
	switch { // "chard, stems and leaves"
	case a.Known && isPlain(name[joint[1]:]):
		return a, true
	case !a.Known || !b.Known:
		return Composition{}, false
	}
	c := Composition{Item: item, Known: true, Row: a.Row + name[joint[0]:joint[1]] + b.Row, Provenance: a.Provenance,
		Tell: strings.Trim(a.Tell+"; "+b.Tell, "; "), contains: a.contains | b.contains, may: a.may | b.may}
	if name[joint[0]:joint[1]] == " or " {
		c.may |= c.contains
		c.contains = a.contains & b.contains
	}
	c.may &^= c.contains
	return c, true
}

// Ingredients lists the names in the allergens table, its other words not
// counted.
func Ingredients() []string {
	names := make([]string, len(compositions))
	for i, row := range compositions {
		names[i] = row.Row
	}
	return names
}

// marks is a set of the fourteen and of the two other things a diet asks
// after.
type marks uint32

const (
	allAllergens marks = 1<<(Molluscs+1) - 1<<Gluten
	meat         marks = 1 << (Molluscs + 1) // part of a killed animal: flesh, fat, rennet, gelatine, isinglass
	honey        marks = 1 << (Molluscs + 2)
	everything         = allAllergens | meat | honey
)

func mark(a Allergen) marks { return 1 << a }

func (m marks) allergens() []Allergen {
	list := make([]Allergen, 0, bits.OnesCount32(uint32(m)))
	for a := Gluten; a <= Molluscs; a++ {
		if m&mark(a) != 0 {
			list = append(list, a)
		}
	}
	return list
}

// words lists the marks by their kitchen words.
func (m marks) words() []string {
	var list []string
	for _, a := range m.allergens() {
		list = append(list, a.String())
	}
	if m&meat != 0 {
		list = append(list, "meat")
	}
	if m&honey != 0 {
		list = append(list, "honey")
	}
	return list
}

// markWords are the words a dish file or a guest may use, each with all it
// covers; the wider reading is taken where a word has two.
var markWords = map[string]marks{
	"gluten": mark(Gluten), "wheat": mark(Gluten), "barley": mark(Gluten), "rye": mark(Gluten), "oats": mark(Gluten), "cereal": mark(Gluten),
	"cereals containing gluten": mark(Gluten),
	"crustacean":                mark(Crustaceans), "prawn": mark(Crustaceans),
	"egg": mark(Egg), "fish": mark(Fish),
	"peanut": mark(Peanuts), "groundnut": mark(Peanuts),
	"soya": mark(Soya), "soy": mark(Soya), "soybean": mark(Soya),
	"milk": mark(Milk), "dairy": mark(Milk), "lactose": mark(Milk), "butter": mark(Milk), "cheese": mark(Milk),
	"nut": mark(Nuts) | mark(Peanuts), "tree nut": mark(Nuts), "treenut": mark(Nuts),
	"celery": mark(Celery), "celeriac": mark(Celery), "mustard": mark(Mustard),
	"sesame": mark(Sesame), "sesame seed": mark(Sesame),
	"sulphite": mark(Sulphites), "sulfite": mark(Sulphites), "sulphur dioxide": mark(Sulphites),
	"sulphur dioxide and sulphites": mark(Sulphites),
	"lupin":                         mark(Lupin), "mollusc": mark(Molluscs), "mollusk": mark(Molluscs),
	"shellfish": mark(Crustaceans) | mark(Molluscs),
	"seafood":   mark(Fish) | mark(Crustaceans) | mark(Molluscs),
	"meat":      meat, "gelatine": meat, "rennet": meat, "honey": honey,
}

// parseMark reads one word for what an ingredient holds or a guest avoids.
func parseMark(word string) (marks, bool) {
	for _, form := range measures.Singulars(fold(word)) {
		if m, ok := markWords[form]; ok {
			return m, true
		}
	}
	return 0, false
}

// markList is what parseMark accepts, for error messages.
func markList() string { return strings.Join(everything.words(), ", ") }

// allergenSources are the sources of allergens.csv by their keys.
var allergenSources = map[string]string{
	"annex-ii": "Regulation (EU) No 1169/2011, Annex II: products of the fourteen it names are marked, all else is free of them",
	"fsa":      "Food Standards Agency (UK), allergen list with foods where each is found",
	"label":    "usual make-up of the bought product, common practice, no source: read the label",
	"trade":    "trade knowledge, no source read: read the label",
}

// compositionNames finds the row of compositions that a name has.
//
//go:embed allergens.sorted
var compositionNames sorted.Table

// compositionOf is the row of a name, folded.
func compositionOf(name string) (*Composition, bool) {
	row, ok := compositionNames.Find(name)
	if !ok {
		return nil, false
	}
	return &compositions[rowNumber(row)], true
}

// plainWords change nothing in what an ingredient holds.
var plainWords = map[string]bool{
	"quartered": true, "halved": true, "podded": true, "shelled": true, "snipped": true, "frozen": true, "baby": true, "golden": true,
	"purple": true, "waxy": true, "floury": true, "few": true, "of": true, "one": true, "two": true, "three": true, "a": true, "the": true,
	"fresh": true, "freshly": true, "chopped": true, "finely": true, "roughly": true, "thinly": true, "coarsely": true,
	"sliced": true, "diced": true, "grated": true, "crushed": true, "torn": true, "shredded": true, "picked": true, "trimmed": true,
	"peeled": true, "scrubbed": true, "washed": true, "cooked": true, "steamed": true, "raw": true,
	"large": true, "medium": true, "small": true, "young": true, "ripe": true, "tender": true,
	"soft": true, "softened": true, "melted": true, "cold": true, "warm": true, "hot": true, "salted": true, "unsalted": true,
	"home-grown": true, "homegrown": true, "garden": true, "own": true, "organic": true, "free-range": true, "ground": true, "milled": true, "toasted": true,
	"leaf": true, "leaves": true, "sprig": true, "sprigs": true, "bulb": true, "bulbs": true, "stalk": true, "stalks": true,
	"stem": true, "stems": true, "bunch": true, "handful": true, "clove": true, "cloves": true, "frond": true, "fronds": true,
	"cubed": true, "cored": true, "strung": true, "floret": true, "florets": true, "cob": true, "cobs": true, "top": true, "tops": true,
	"deseeded": true, "seeded": true, "stoned": true, "pitted": true, "hulled": true, "topped": true, "tailed": true, "stripped": true, "cube": true,
	"cubes": true, "chunk": true, "chunks": true, "baton": true, "batons": true, "matchstick": true, "matchsticks": true, "round": true, "rounds": true,
	"wedge": true, "wedges": true, "ribbon": true, "ribbons": true, "coin": true, "coins": true, "strip": true, "strips": true, "spear": true,
	"spears": true, "tip": true, "tips": true, "pod": true, "pods": true, "kernel": true, "kernels": true, "crown": true, "crowns": true,
	"tuber": true, "tubers": true, "shoot": true, "shoots": true, "blossom": true, "blossoms": true, "heart": true, "hearts": true, "heritage": true,
	"heirloom": true, "bunched": true, "sand": true, "chioggia": true, "chantenay": true, "rainbow": true, "striped": true, "candy-striped": true, "speckled": true,
	"early": true, "maincrop": true, "dwarf": true, "climbing": true, "stringless": true, "double-podded": true, "unwaxed": true, "unpeeled": true, "wild": true,
	"winter": true, "summer": true, "autumn": true, "flat": true, "curly": true, "pointed": true, "firm": true, "plump": true, "fat": true,
	"thin": true, "thick": true, "long": true, "short": true, "slim": true, "even-sized": true, "loose-leaf": true, "outer": true, "inner": true,
	"unblemished": true, "mature": true, "tiny": true, "giant": true, "big": true, "little": true, "drained": true, "rinsed": true, "thawed": true,
	"defrosted": true, "bruised": true, "bashed": true, "any": true, "colour": true, "color": true, "on": true, "vine": true,
	"red": true, "white": true, "yellow": true, "green": true, "orange": true, "black": true, "pink": true, "red-skinned": true, "white-skinned": true,
	"candy-stripe": true, "cylindrical": true, "icicle": true, "batavia": true,
	"head": true, "heads": true, "flower": true, "flowers": true, "petal": true, "petals": true, "half": true, "halves": true,
}

// lookupIngredient finds the table's row: by the name as it stands, then with
// a part after a comma in front ("onion, red"), then without plain words.
func lookupIngredient(item string) (*Composition, bool) {
	for _, one := range withoutPlainWords(item) {
		if row, ok := ingredientNamed(one); ok {
			return row, true
		}
	}
	return nil, false
}

// foodCalled finds a food of the carriers' table the same way.
func foodCalled(item string) (carrier, bool) {
	for _, one := range withoutPlainWords(item) {
		if c, ok := foodNamed(one); ok {
			return c, true
		}
	}
	return carrier{}, false
}

// withoutPlainWords lists the names an item may stand under: itself, with what
// follows a comma in front, and without the plain words about it.
func withoutPlainWords(item string) []string {
	name := fold(item)
	names := []string{name}
	if first, rest, ok := strings.Cut(name, ", "); ok {
		names = append(names, rest+" "+first)
	}
	words := strings.FieldsFunc(name, func(r rune) bool { return r == ' ' || r == ',' })
	for first, last := 0, len(words); first < last; first++ { // "large oak leaf lettuce, chopped": from both ends
		for end := last; end > first; end-- {
			names = append(names, strings.Join(words[first:end], " "))
			if !plainWords[words[end-1]] {
				break
			}
		}
		if !plainWords[words[first]] {
			break
		}
	}
	words = slices.DeleteFunc(words, func(w string) bool { return plainWords[w] })
	return append(names, strings.Join(words, " "))
}

// isPlain tells that a text has only plain words.
func isPlain(text string) bool {
	return !slices.ContainsFunc(strings.Fields(text), func(word string) bool { return !plainWords[word] })
}

// ingredientNamed finds a row by its own or another of its names; a crop by any of
// its names, and else as what it counts as in the kitchen.
func ingredientNamed(name string) (*Composition, bool) {
	for _, form := range measures.Singulars(name) {
		if row, ok := compositionOf(form); ok {
			return row, true
		}
	}
	crop, ok := measures.CropNamed(name)
	if !ok {
		return nil, false
	}
	row, ok := compositionOf(fold(crop.Name))
	if !ok {
		row, ok = compositionOf(fold(crop.InKitchen().Name))
	}
	return row, ok
}
