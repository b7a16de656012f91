package recipes

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
	"unicode"

	"trencher/units/measures"
	"trencher/units/sorted"
)

// kitchen_words.txt holds the words a cook writes that name no food. kitchenWords are
// those words, and the plain ones of an ingredient's name, by their forms; "thing" of
// what can end a phrase that names no food: "a battered pan".
//
//go:embed kitchen_words.sorted
var kitchenWords sorted.Table

// joints are the words that part the phrases of a text.
type joints struct {
	serves map[string]bool // behind which comes what comes to the food
	joins  map[string]bool // which carry a list of it on
	ends   map[string]bool // which close it
	skips  map[string]bool // which say nothing within it
}

var textJoints = sync.OnceValue(func() joints {
	return joints{
		serves: formsOf("with over on in into under through beside alongside of add scatter sprinkle drizzle crumble"),
		joins:  map[string]bool{"and": true, "or": true, "plus": true, ",": true},
		ends:   formsOf("until till when while whilst for to at as if but from by before after since because per like off up down out not without"),
		skips:  formsOf("a an the some any more its their your our my his her"),
	}
})

func formsOf(words string) map[string]bool {
	set := map[string]bool{}
	for _, form := range wordForms(words) {
		set[form] = true
	}
	return set
}

// unknownServed lists the words by which a text brings to the food what neither
// the tables know nor is a kitchen's other word: "with a spoon of lumbang". Behind
// an unknown word a known food is that food, "with Kestrel potatoes", and a thing of
// the kitchen is no food, "in a battered pan".
func unknownServed(text string) []string {
	var unknown []string
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(".;:!?()[]", r) }) {
		c := readTold(part)
		for at, form := range c.forms {
			if !textJoints().serves[form] {
				continue
			}
			for _, word := range c.unknownFrom(at + 1) {
				if !slices.Contains(unknown, word) {
					unknown = append(unknown, word)
				}
			}
		}
	}
	return unknown
}

// told is a text without a stop in it.
type told struct {
	heard []string // its words, a comma being one
	forms []string // in the singular
	known []bool   // which stand in the name of a food or a crop that the tables have
}

func readTold(text string) told {
	c := told{heard: clauseWords(text)}
	for _, word := range c.heard {
		c.forms = append(c.forms, measures.Stem(word))
	}
	c.known = knownFoods(c.forms)
	return c
}

// unknownFrom lists the words nobody knows of the phrase that begins at a word, and
// of those joined to it while they are of food.
func (c told) unknownFrom(at int) []string {
	var unknown []string
	for {
		end := c.phraseEnd(at)
		places := unknownIn(c.forms[at:end], c.known[at:end])
		for _, i := range places {
			unknown = append(unknown, c.heard[at+i])
		}
		food := places != nil || slices.Contains(c.known[at:end], true)
		if !food || end == len(c.forms) || !textJoints().joins[c.forms[end]] {
			return unknown
		}
		at = end + 1
	}
}

func (c told) phraseEnd(at int) int {
	j := textJoints()
	for at < len(c.forms) && !j.serves[c.forms[at]] && !j.joins[c.forms[at]] && !j.ends[c.forms[at]] {
		at++
	}
	return at
}

// clauseWords cuts a clause into its words as [wordForms] does, a comma being one;
// they keep their endings.
func clauseWords(clause string) []string {
	words := strings.FieldsFunc(strings.ReplaceAll(fold(clause), ",", " , "), func(r rune) bool {
		return !unicode.IsLetter(r) && r != '\'' && r != ','
	})
	for i, word := range words {
		words[i] = strings.Trim(word, "'")
	}
	return slices.DeleteFunc(words, func(word string) bool { return word == "" })
}

// knownFoods tells of each word whether it stands in the name of a food or a crop
// that the tables have.
func knownFoods(words []string) []bool {
	known := make([]bool, len(words))
	for i := 0; i < len(words); {
		_, n := carrierTable.Longest(words[i:])
		if n == 0 {
			n = measures.CropAt(words[i:])
		}
		for k := range n {
			known[i+k] = true
		}
		i += max(n, 1)
	}
	return known
}

// unknownIn are the places in a phrase of words that nobody knows; those before a
// known food, or before a thing that is no food, do not count.
func unknownIn(phrase []string, known []bool) []int {
	var places []int
	for i, form := range phrase {
		word, kitchen := kitchenWords.Find(form)
		thing := word != ""
		switch {
		case known[i] || thing:
			places = nil
		case !kitchen && !textJoints().skips[form] && len(form) > 2:
			places = append(places, i)
		}
	}
	return places
}

// plantParts are what of a plant somebody might eat.
var plantParts = sync.OnceValue(func() map[string]bool {
	return formsOf("leaf flower petal blossom berry bulb root rhizome seed kernel pod shoot stem stalk bark husk frond sap")
})

// unknownPlants lists what a text names a part of and no table knows: "moonwort" in
// "moonwort leaves, chopped".
func unknownPlants(text string) []string {
	c := readTold(text)
	var plants []string
	for i := 1; i < len(c.forms); i++ {
		before := c.forms[i-1]
		_, kitchen := kitchenWords.Find(before)
		switch {
		case !plantParts()[c.forms[i]], c.known[i], c.known[i-1], kitchen, textJoints().serves[before], textJoints().joins[before], textJoints().ends[before], textJoints().skips[before], len(before) < 3:
		default:
			plants = append(plants, c.heard[i-1]+" "+c.heard[i])
		}
	}
	return plants
}
