package recipes

import (
	_ "embed" // the table
	"slices"
	"strconv"
	"strings"
	"unicode"

	"trencher/units/measures"
	"trencher/units/sorted"
)

// carriers.csv holds words a cook writes anywhere (an ingredient, its state, a
// step, a title) and what comes into a dish with them: "fried in butter" brings
// milk. A row without any is there to be found first: "butternut squash" is no
// butter. A food has the name of the same food by which it is avoided, where that
// is another, and the families of foods it belongs to. A source "not-listed" is Annex II of Regulation (EU) No 1169/2011,
// which does not name the food; the others are those of allergens.csv.
//
// carriers.sorted is the same, with the names of allergens.csv, by the words'
// wordForms: a program that looks up ten words need not read three thousand rows.
// `go generate ./recipes` makes it anew (carriers_made_test.go), and
// TestCarriersAreMade fails until it is.
//
//go:generate go test -run ^TestCarriersAreMade$ -update .
//go:generate go test -run ^TestLibraryIsMade$ -update .
//go:embed carriers.sorted
var carrierTable sorted.Table

// carrier is a phrase and what it brings.
type carrier struct {
	words         string // as the table has it
	contains, may marks
	food          string   // what food it is, by the name it is avoided by; "" for other words
	families      []string // the families of foods it belongs to
}

// carrierOf reads a row of carriers.sorted. It is our own data: the package's tests read
// every row.
func carrierOf(text string) (c carrier, rest string) {
	var contains, may, families string
	c.words, text, _ = strings.Cut(text, "\t")
	contains, text, _ = strings.Cut(text, "\t")
	may, text, _ = strings.Cut(text, "\t")
	c.food, text, _ = strings.Cut(text, "\t")
	families, rest, _ = strings.Cut(text, "\t")
	c.contains, c.may = marksOf(contains), marksOf(may)
	if families != "" {
		c.families = strings.Split(families, ";")
	}
	return c, rest
}

func marksOf(text string) marks {
	n, err := strconv.ParseUint(text, 36, 32)
	if err != nil {
		panic("carriers.sorted: " + err.Error())
	}
	return marks(n)
}

// rowNumber reads the number of a row as our own sorted tables have it.
func rowNumber(text string) int {
	n, err := strconv.Atoi(text)
	if err != nil {
		panic("no number of a row: " + text)
	}
	return n
}

// carrierAt is the carrier that some word forms begin with, and how many of them
// it takes; 0 where they begin with none.
func carrierAt(words []string) (c carrier, n int) {
	text, n := carrierTable.Longest(words)
	if n > 0 {
		c, _ = carrierOf(text)
	}
	return c, n
}

// wordForms cuts a text into its words, folded and by their stems, a hyphen
// being a space.
func wordForms(text string) []string {
	words := strings.FieldsFunc(fold(text), func(r rune) bool { return !unicode.IsLetter(r) && r != '\'' })
	for i, word := range words {
		words[i] = measures.Stem(strings.Trim(word, "'"))
	}
	return words
}

// carriersIn lists the phrases of the table that stand in a text and bring
// something in.
func carriersIn(text string) []carrier {
	return slices.DeleteFunc(foundIn(wordForms(text), carrierAt), func(c carrier) bool { return c.contains|c.may == 0 })
}

// sameFood stands behind a carrier that is a food of the table by itself; where
// other rows of the same words bring more, the food alone stands there.
const sameFood = "="

// foodNamed finds a food of the table by its whole name.
func foodNamed(item string) (carrier, bool) {
	text, ok := carrierTable.Find(strings.Join(wordForms(item), " "))
	if !ok {
		return carrier{}, false
	}
	c, as := carrierOf(text)
	switch as {
	case "":
		return carrier{}, false
	case sameFood:
		return c, true
	}
	c, _ = carrierOf(as)
	return c, true
}

// bring adds what words bring to a composition, and keeps the words.
func (c Composition) bring(text string) Composition {
	for _, one := range carriersIn(text) {
		if (one.contains|one.may)&^(c.contains|c.may) == 0 && one.contains&^c.contains == 0 {
			continue
		}
		c.contains, c.may = c.contains|one.contains, c.may|one.may
		c.spoken = append(slices.Clone(c.spoken), one)
	}
	c.may &^= c.contains
	return c
}

// spokenFor is the phrase that brings a mark, "" where the name of the
// ingredient itself does.
func (c Composition) spokenFor(m marks) string {
	for _, one := range c.spoken {
		if (one.contains|one.may)&m != 0 {
			return one.words
		}
	}
	return ""
}

// told are the words of a dish outside its ingredient lines, its title and its
// steps, as parts of it. A word that an ingredient line of the dish has is that
// line's to answer for.
func (d Dish) told() []part {
	var lines []string
	for _, c := range d.Crops {
		lines = append(lines, c.Crop)
	}
	for _, o := range d.Others {
		lines = append(lines, o.Item, o.State)
		for _, a := range o.Instead {
			lines = append(lines, a.Item, a.State)
		}
	}
	parts := toldIn("the name", d.Name, lines)
	for _, step := range d.Method {
		parts = append(parts, toldIn("the method", step, lines)...)
	}
	for _, remark := range d.Remarks {
		parts = append(parts, toldIn("a remark", remark, lines)...)
	}
	return parts
}

// toldIn are the parts that a text brings, known foods and unknown ones, but for
// those that a line has.
func toldIn(called, text string, lines []string) []part {
	listed := func(words string) bool {
		return slices.ContainsFunc(lines, func(line string) bool { return hasWords(line, words) })
	}
	var parts []part
	for _, one := range carriersIn(text) {
		if !ownWords[one.words] && !listed(one.words) {
			parts = append(parts, part{called: called + " (" + one.words + ")",
				Composition: Composition{Item: one.words, Known: true, contains: one.contains, may: one.may &^ one.contains, spoken: []carrier{one}}})
		}
	}
	for _, word := range unknownServed(text) {
		if !listed(word) {
			parts = append(parts, part{called: called + " (" + word + ")", Composition: Composition{Item: word, may: everything, served: true}})
		}
	}
	return parts
}

// ownWords are foods one can buy whose names are also a step, or the dish
// itself, made of the lines it lists.
var ownWords = map[string]bool{"spread": true, "potato salad": true}

// hasWords tells that a phrase stands in a line, whole words only.
func hasWords(line, phrase string) bool {
	return strings.Contains(" "+strings.Join(wordForms(line), " ")+" ", " "+strings.Join(wordForms(phrase), " ")+" ")
}

// Because names for each allergen the dish contains or may contain the word it
// rests on: the ingredient, or the words of its state, of the method or of the
// name.
func (d Dish) Because() map[Allergen]string {
	because := map[Allergen]string{}
	for _, p := range d.parts() {
		for _, a := range (p.contains | p.may).allergens() {
			word := p.spokenFor(mark(a))
			if word == "" {
				word = p.Item
			}
			if because[a] == "" && p.Known {
				because[a] = word
			}
		}
	}
	return because
}
