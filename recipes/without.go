package recipes

import (
	"slices"
	"strings"
)

// Without is a dish before some of its other ingredients have gone in, as a
// portion of it is set apart: without those lines, and without its name and its
// words, which tell of all of it. The words are any by which a line names what is
// not to be in it. It is false where a portion cannot be set apart so: where a word
// of them stands in none of the lines, where the method has all of them and does not
// say when one goes in, or where the heat is on from then.
func (d Dish) Without(words []string) (rest Dish, lines []string, ok bool) {
	rest = d
	rest.Name, rest.Method, rest.Remarks, rest.Others = "", nil, nil, nil
	spoken := map[string]bool{}
	for _, o := range d.Others {
		names := false
		for _, word := range words {
			if o.names(word) {
				names, spoken[word] = true, true
			}
		}
		if !names {
			rest.Others = append(rest.Others, o)
			continue
		}
		if d.goesInHot(o) {
			return Dish{}, nil, false
		}
		lines = append(lines, o.Item)
	}
	return rest, lines, len(words) > 0 && len(spoken) == len(words)
}

// names tells that a line, or what may be taken in its place, has a word.
func (o OtherLine) names(word string) bool {
	return hasWords(o.State+" "+o.Item+" "+o.State, word) ||
		slices.ContainsFunc(o.Instead, func(a Alternative) bool { return hasWords(a.State+" "+a.Item+" "+a.State, word) })
}

// goesInHot tells that an ingredient is cooked with the dish, or that nobody says
// whether it is.
func (d Dish) goesInHot(o OtherLine) bool {
	for _, own := range d.Steps {
		named := mentions(wordForms(own.Do), o) >= 0
		if own.Work == AnyWork && own.Uses != "" && own.Uses != "nothing" && (named || own.Uses != "ring") {
			return true
		}
	}
	in := false
	for _, step := range d.Method {
		for _, sentence := range strings.FieldsFunc(step, func(r rune) bool { return r == '.' || r == ';' }) {
			hot := false
			if in, hot = heatedIn(sentence, o, in); hot {
				return true
			}
		}
	}
	return len(d.Method) > 0 && !in
}

// heatedIn tells that an ingredient is in the dish after a sentence, which it may have
// been before, and that the sentence heats it.
func heatedIn(sentence string, o OtherLine, before bool) (in, hot bool) {
	words := wordForms(sentence)
	if at := mentions(words, o); at >= 0 && !before {
		before, words = true, words[max(0, at-heatBefore):]
	}
	return before, before && slices.ContainsFunc(words, func(word string) bool { return heats()[word] })
}

// heatBefore is how many words before an ingredient a word of heat may stand that
// is about it: "bake with the cheese".
const heatBefore = 4

// mentions is where a text first has a word of an ingredient's name; -1 where
// nowhere.
func mentions(words []string, o OtherLine) int {
	names := wordForms(o.Item)
	for _, a := range o.Instead {
		names = append(names, wordForms(a.Item)...)
	}
	return slices.IndexFunc(words, func(word string) bool {
		return len(word) > 2 && !plainWords[word] && slices.Contains(names, word)
	})
}

// heats are words of a method by which food is heated.
var heats = wordSet("bake baked baking boil boiled boiling braise braised cook cooked cooking fry fried frying gratinate gratin grill grilled grilling heat heated " +
	"heating melt melted oven pan poach poached reheat roast roasted roasting scramble scrambled set simmer simmered simmering steam steamed stew stewed toast toasted warm warmed")
