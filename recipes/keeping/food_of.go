package keeping

import (
	_ "embed"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"trencher/units/measures"
	"trencher/units/sorted"
)

// Recipe is what KindsOf looks at.
type Recipe struct {
	Name    string
	Cold    bool     // served cold
	Crops   []string // the weighed crops that are cooked
	Raw     []string // and those that are not
	Items   []string // the other ingredients, with their state: "egg hard-boiled"
	Unknown []string // of the items, those nobody knows the make-up of
	Method  []string
}

// Kinds are the foods a dish is made of.
type Kinds struct {
	Foods   []string // the one that names it first
	Because []KindWord
	Unknown []string // ingredients that were not understood

	spoken []KindWord // as Because, with every phrase of a food, not the first alone
}

// KindWord is a phrase of a dish and the food it makes of it.
type KindWord struct{ Words, Kind string }

// words.csv holds the words of a dish that make it a kind of food. A kind "-"
// only uses its words up: "rice vinegar" is no rice. Where is item, step or any;
// a word on the same line of "unless" takes the row away; needs is cold,
// not-cold, egg, cooked-after or not-cooked-after. All of it is common practice,
// no source: how cooks write.
//
// words.sorted finds by their forms the rows of kindRows that a phrase stands in.
//
//go:embed words.sorted
var kindWords sorted.Table

// kindRow is a row of words.csv.
type kindRow struct {
	kind, where, needs string
	unless             []string
}

// kindRowsAt are the rows of the longest phrase that some words begin with, and how
// many of them it takes.
func kindRowsAt(words []string) (rows []kindRow, taken int) {
	found, taken := kindWords.Longest(words)
	for number := range strings.FieldsSeq(found) {
		at, err := strconv.Atoi(number)
		if err != nil {
			panic("words.sorted: " + err.Error())
		}
		rows = append(rows, kindRows[at])
	}
	return rows, taken
}

// formsOf cuts a text into its words, folded and by their stems, a hyphen
// being a space.
func formsOf(text string) []string {
	words := strings.FieldsFunc(measures.Fold(text), func(r rune) bool { return !unicode.IsLetter(r) && r != '\'' })
	for i, word := range words {
		words[i] = measures.Stem(strings.Trim(word, "'"))
	}
	return words
}

func speaks(text, phrase string) bool {
	return strings.Contains(" "+strings.Join(formsOf(text), " ")+" ", " "+strings.Join(formsOf(phrase), " ")+" ")
}

// KindsOf finds all the foods a recipe is made of: from its crops, then from
// every ingredient, step and its name. What nobody knows is [AnythingElse].
func KindsOf(r Recipe) Kinds {
	f := kindFinder{recipe: r, whole: strings.Join(append(append([]string{r.Name}, r.Items...), r.Method...), " . ")}
	f.crops()
	for _, item := range r.Items {
		matched := f.line(item, "item")
		if !matched && slices.Contains(r.Unknown, item) {
			f.kinds.Unknown = append(f.kinds.Unknown, item)
			f.add(item, AnythingElse)
		}
	}
	for _, step := range r.Method {
		f.line(step, "step")
	}
	f.line(r.Name, "title")
	f.garnish()
	if len(f.found) == 0 {
		f.add(r.Name, AnythingElse)
	}
	f.kinds.Foods = ByRank(f.found, Strictest)
	return f.kinds
}

// The foods that others ask for by name: the one no rule knows, and dishes with
// raw or runny egg.
const (
	AnythingElse = "anything-else"
	RawEggDish   = "dressed-salad-raw-egg"
)

type kindFinder struct {
	recipe Recipe
	whole  string // all its words
	found  []string
	kinds  Kinds
}

func (f *kindFinder) add(words, kind string) {
	f.kinds.spoken = append(f.kinds.spoken, KindWord{words, kind})
	if !slices.Contains(f.found, kind) {
		f.found = append(f.found, kind)
		f.kinds.Because = append(f.kinds.Because, KindWord{words, kind})
	}
}

// crops are where a dish begins: cooked ones eaten cold are a salad.
func (f *kindFinder) crops() {
	for _, crop := range f.recipe.Crops {
		switch {
		case f.recipe.Cold:
			f.add(crop, "dressed-salad")
		case speaks(crop, "potato") && !speaks(crop, "sweet potato"):
			f.add(crop, "boiled-potatoes")
		default:
			f.add(crop, "cooked-vegetables")
		}
	}
	for _, crop := range f.recipe.Raw {
		f.add(crop, "leaf-salad")
	}
	if f.recipe.Cold && len(f.found) == 0 {
		f.add(f.recipe.Name, "dressed-salad")
	}
}

// line finds the phrases of one line, the longest first at every place; matched
// tells that there was any.
func (f *kindFinder) line(text, where string) (matched bool) {
	words := formsOf(text)
	for i := 0; i < len(words); {
		rows, n := kindRowsAt(words[i:])
		phrase := strings.Join(words[i:i+n], " ")
		matched = matched || n > 0
		for _, row := range rows {
			if f.holds(row, phrase, text, where) {
				f.add(phrase, f.kindOf(row))
			}
		}
		i += max(n, 1)
	}
	return matched
}

// kindOf is the kind of a row; a soft cheese in a cold dish makes a salad of it.
func (f *kindFinder) kindOf(row kindRow) string {
	if row.kind == "gratin" && f.recipe.Cold {
		return "bound-salad"
	}
	return row.kind
}

func (f *kindFinder) holds(row kindRow, phrase, text, where string) bool {
	switch {
	case row.kind == "-" || row.where != "any" && row.where != where:
		return false
	case where == "title" && slices.ContainsFunc(f.recipe.Items, func(item string) bool { return speaks(item, phrase) }):
		return false
	case slices.ContainsFunc(row.unless, func(word string) bool { return speaks(text, word) }):
		return false
	case row.kind == "herb-butter" && !f.cold():
		return false // melted over what is hot and eaten at once
	}
	switch row.needs {
	case "cold":
		return f.cold()
	case "not-cold":
		return !f.cold()
	case "egg":
		return speaks(f.whole, "egg") || slices.ContainsFunc(f.recipe.Crops, func(crop string) bool { return speaks(crop, "potato") })
	case "cooked-after":
		return f.eggIsCooked()
	case "not-cooked-after":
		return !f.eggIsCooked() && !speaks(text, "pasteurised") && !slices.ContainsFunc(cookedStates, func(state string) bool { return speaks(text, state) })
	}
	return true
}

// cookedStates on an egg's own line say that it is cooked through.
var cookedStates = []string{"hard boiled", "boiled hard", "cooked", "scrambled"}

// coldWords are words of a dish that is cooled and dressed.
var coldWords = []string{"cool", "cooled", "cold", "chill", "chilled", "dress", "dressed", "dressing", "salad", "mayonnaise", "filling", "vinaigrette"}

func (f *kindFinder) cold() bool {
	return f.recipe.Cold || slices.ContainsFunc(coldWords, func(word string) bool { return speaks(f.whole, word) })
}

var (
	eggWords     = []string{"egg", "yolk", "white"}
	cookingWords = []string{"fry", "bake", "boil", "simmer", "cook", "roast", "grill", "scramble", "steam", "set"}
	cookedTitles = []string{"omelette", "omelet", "frittata", "quiche", "tortilla", "bake", "baked", "roast", "fried", "gratin", "pie", "flan", "tart", "scrambled"}
)

// eggIsCooked tells that the egg cooks with the dish: by its name, or by a
// cooking word after the egg in the sentence that has it, or in a later one that
// is not about a crop or water. Boiling the potatoes does not cook the yolk.
func (f *kindFinder) eggIsCooked() bool {
	if slices.ContainsFunc(cookedTitles, func(word string) bool { return speaks(f.recipe.Name, word) }) {
		return true
	}
	added := false
	for _, step := range f.recipe.Method {
		for _, sentence := range strings.FieldsFunc(step, func(r rune) bool { return r == '.' || r == ';' }) {
			words := formsOf(sentence)
			at := slices.IndexFunc(words, func(w string) bool { return slices.Contains(eggWords, w) })
			cooks := slices.ContainsFunc(words[max(0, at-2):], func(w string) bool { return slices.Contains(cookingWords, w) })
			switch {
			case at >= 0 && cooks:
				return true
			case at >= 0:
				added = true
			case added && cooks && !f.ofCropOrWater(sentence):
				return true
			}
		}
	}
	return false
}

func (f *kindFinder) ofCropOrWater(sentence string) bool {
	return speaks(sentence, "water") || slices.ContainsFunc(f.recipe.Crops, func(crop string) bool { return speaks(sentence, crop) })
}

// garnish drops what is kept in a jar where the dish is of something else: a
// gherkin in a salad makes no pickle of it.
func (f *kindFinder) garnish() {
	inJars := []string{"pickle", "ferment", "chutney-jam"}
	left := slices.DeleteFunc(slices.Clone(f.found), func(kind string) bool { return slices.Contains(inJars, kind) })
	if len(left) > 0 {
		f.found = left
		f.kinds.Because = slices.DeleteFunc(f.kinds.Because, func(w KindWord) bool { return slices.Contains(inJars, w.Kind) })
	}
}

// Rules are those that the foods of a dish rest on, each once.
func (k Kinds) Rules() []string {
	var ids []string
	for _, name := range k.Foods {
		if f, err := LookupFood(name); err == nil {
			ids = joined(ids, f.Cites)
		}
	}
	if len(k.Foods) > 1 {
		ids = joined(ids, []string{"mix-strictest-part", "mix-oldest-ingredient"})
	}
	return ids
}
