package recipes

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"

	"trencher/units"
	"trencher/units/measures"
	"trencher/units/pattern"
)

// said is what was read of the words about one guest.
type said struct {
	diet Diet
	asks []string // what to ask back, though a plan is made
	ages []age
}

// joiningHyphens are those after a letter or a number; before one it is a minus.
var joiningHyphens = pattern.New(`([\pL\pN])-`)

// guestWords cuts what is said into its words, folded and in the singular.
func guestWords(text string) []string { return singulars(spokenWords(text)) }

// spokenWords cuts what is said into its words, folded; a comma, a bracket, a
// colon and a semicolon are one.
func spokenWords(text string) []string {
	text = strings.NewReplacer(",", " , ", ";", " , ", "(", " , ", ")", " , ", "/", " , ", ":", " , ", "&", " and ", "+", " and ").Replace(fold(text))
	words := strings.Fields(joiningHyphens.ReplaceAllString(text, "$1 "))
	for i, word := range words {
		words[i] = strings.TrimFunc(word, func(r rune) bool {
			return r != ',' && r != '%' && r != '-' && !unicode.IsLetter(r) && !unicode.IsDigit(r)
		})
	}
	return slices.DeleteFunc(words, func(word string) bool { return word == "" })
}

func singulars(words []string) []string {
	forms := make([]string, len(words))
	for i, word := range words {
		forms[i] = word
		if _, number := counts[word]; !number {
			forms[i] = measures.Stem(word)
		}
	}
	return forms
}

// negations open a list of what is left out.
var negations = phraseSet("no", "without", "avoid", "avoids", "avoiding", "allergic to", "allergy to", "allergies to", "is allergic to", "intolerant to",
	"intolerant of", "intolerance to", "intolerance of", "can't have", "cannot have", "can not have", "can't eat", "cannot eat", "can not eat",
	"doesn't eat", "does not eat", "don't eat", "do not eat", "doesn't like", "does not like", "don't like", "dislike", "dislikes", "hates", "hate",
	"won't eat", "will not eat", "never eats", "doesn't have", "doesn't do", "reacts to", "react to", "reaction to", "sensitive to", "sensitivity to", "can't tolerate", "leaves out", "not eating", "steers clear of", "is off", "no to",
	"can't stand", "cannot stand", "can't bear", "cannot bear", "can't abide", "not keen on", "isn't keen on", "not a fan of", "isn't a fan of", "can't take")

// allergies are the negations of who is made ill by a food: more may be out than
// the food they name.
var allergies = phraseSet("allergic to", "allergy to", "allergies to", "is allergic to", "intolerant to", "intolerant of", "intolerance to", "intolerance of",
	"reacts to", "react to", "reaction to", "sensitive to", "sensitivity to", "can't tolerate")

// troubles after a food say that it is left out.
var troubles = phraseSet("allergy", "allergic", "intolerance", "intolerant", "free", "sensitivity", "sensitive", "allergies", "reaction")

// smallWords say nothing of their own.
var smallWords = phraseSet("and", "or", "nor", "also", "plus", "who", "is", "are", "am", "has", "have", "a", "an", "the", "with", "eats", "eat", "any", "of", "at all",
	"please", "strictly", "strict", "very", "severe", "severely", "bad", "badly", "serious", "seriously", "mild", "mildly", "slightly", "slight", "they", "he", "she", "them", "we",
	"whom", "that", "both", "all", "each", "in it", "in them", "of any kind", "kind", "products", "product", "diet", "food", "foods", "as well", "too", "it", "its", "only", "my", "our", "on", "completely", "totally",
	"year old", "i", "i'm", "she's", "he's", "they're", "their", "his", "her", "either", "neither", "but no", ",")

func phraseSet(phrases ...string) func() *phraseIndex[bool] {
	return sync.OnceValue(func() *phraseIndex[bool] {
		index := newPhraseIndex[bool]()
		for _, phrase := range phrases {
			index.putWords(guestWords(phrase), true)
		}
		return index
	})
}

// dietReader goes through the words about one guest.
type dietReader struct {
	words []string // in the singular
	heard []string // as they were spoken
	at    int
	no    bool // what follows is left out
	ill   bool // because it makes them ill
	fresh bool // nothing has followed since the "no"
	said  said
	grave string // an allergy of which no food was named
	wrong error
}

// readDiet reads the words about one guest.
func readDiet(heard []string) (said, error) {
	r := dietReader{words: singulars(heard), heard: heard}
	for r.at < len(r.words) && r.wrong == nil {
		r.at += max(r.step(), 1)
	}
	switch {
	case r.wrong != nil:
		return said{}, r.wrong
	case r.no && r.fresh:
		return said{}, unknownDiet("%q what?", "no")
	case r.grave != "" && r.said.diet.avoid == 0 && r.said.diet.without == "":
		return said{}, &units.FieldError{Problem: fmt.Sprintf("%q does not say to which food", r.grave), Accepted: `the food beside it, such as "severe peanut allergy"`}
	}
	return r.said, nil
}

// step reads what stands at the next word and tells how many words it was.
func (r *dietReader) step() int {
	rest := r.words[r.at:]
	saying, n := sayingAt(rest)
	thing, named := r.leftOutAt(r.at)
	if years, of := r.ageAt(); of > 0 && of > n {
		r.said.ages = append(r.said.ages, years)
		return of
	}
	if r.weeksGone() {
		return 2
	}
	_, not := negations().at(rest)
	if not > 0 {
		if _, more := r.thingAt(r.at + not); not+more > n {
			n = 0 // "no butter beans" is more than "no butter"
		}
	}
	switch {
	case n > 0 && n >= named && n >= not && !(r.no && r.fresh && named == 0):
		r.take(saying, rest[:n])
		return n
	case named > 0 && (r.no || r.troubled(r.at)):
		r.leaveOut(thing)
		return named + r.troubleAt(r.at+named)
	case not > 0:
		_, ill := allergies().at(rest)
		r.no, r.fresh, r.ill = true, true, ill == not
		return not
	case named > 0:
		r.wrong = unknownDiet("%q alone does not say whether they eat it", strings.Join(r.heard[r.at:r.at+named], " "))
		return named
	}
	if _, small := smallWords().at(rest); small > 0 {
		return small
	}
	r.wrong = r.notUnderstood(r.heard[r.at])
	return 1
}

// leftOutAt is the thing at a word; raw, it is all of it until they say more.
func (r *dietReader) leftOutAt(at int) (thing, int) {
	one, named := r.thingAt(at)
	if r.no && named == 0 && r.words[at] == "raw" {
		if one, named = r.thingAt(at + 1); named > 0 {
			one.ask = cmp.Or(one.ask, "Is it all right cooked?")
			named++
		}
	}
	return one, named
}

// leaveOut leaves a thing out; of who is made ill by it, more.
func (r *dietReader) leaveOut(one thing) {
	if r.ill = r.ill || r.troubled(r.at); r.ill {
		one = one.widened()
	}
	r.no, r.fresh = true, false
	one.leaveOutOf(&r.said.diet)
	r.askBack(one.ask)
}

func (r *dietReader) notUnderstood(word string) error {
	if !r.no {
		return unknownDiet("%q is not understood of what a guest eats", word)
	}
	accepted := "a food by a name the tables have, an allergen, or the dish left out by hand"
	if other := meant(word, Ingredients()); other != "" {
		accepted = other + ", if that is meant; else " + accepted
	}
	return &units.FieldError{Problem: fmt.Sprintf("%q is no food known here, so it cannot be left out", word), Accepted: accepted}
}

// thing is what can be left out: allergens, or foods by name.
type thing struct {
	marks marks
	foods []string
	ask   string // what the table of sayings asks back of who leaves it out
}

// thingCalled is the thing of a food's name: what there is a saying of is all that
// the saying rules out.
func thingCalled(food string) thing {
	words := guestWords(food)
	if m, ok := parseMark(food); ok {
		return thing{marks: m, ask: askOf(words)}
	}
	if s, ok := sayingAs(append([]string{"no"}, words...)); ok {
		return thing{s.out, s.foods, s.ask}
	}
	return thing{foods: []string{food}, ask: askOf(words)}
}

// widened is what an allergy to a thing rules out until more is told: what its
// foods are known by among the allergens as well, all nuts with one of them.
func (t thing) widened() thing {
	for _, food := range t.foods {
		c, _ := foodNamed(food)
		more := c.contains &^ t.marks
		if t.marks |= more; more != 0 && t.ask == "" {
			t.ask = fmt.Sprintf("Only %s, or all that holds %s?", food, joinAnd(more.words()))
		}
	}
	return t
}

// sayingAs is the saying that is all of some words, unless it is declined.
func sayingAs(words []string) (saying, bool) {
	s, n := sayingAt(words)
	return s, n == len(words) && !s.decline
}

// askOf is what is asked of who leaves a food out: "no prawns", "prawn allergy".
func askOf(food []string) string {
	for _, words := range [][]string{{"no"}, {"hate"}, guestWords("doesn't like")} {
		if s, ok := sayingAs(append(slices.Clone(words), food...)); ok {
			return s.ask
		}
	}
	s, _ := sayingAs(append(slices.Clone(food), "allergy"))
	return s.ask
}

func (t thing) leaveOutOf(d *Diet) {
	m := t.marks
	if m == meat {
		m = notVegetarian // fish is meat to many who say it; "pescetarian" says otherwise
	}
	d.avoid |= m
	d.leaveOut(t.foods...)
}

// thingAt is the thing that stands at a word, and how many words it takes; an
// allergen before a food of the same words.
func (r *dietReader) thingAt(at int) (thing, int) {
	rest := r.words[min(at, len(r.words)):]
	food, n := avoidable.Longest(rest)
	for m := min(3, len(rest)); m > 0 && m >= n; m-- {
		if one, ok := parseMark(strings.Join(rest[:m], " ")); ok {
			return thing{marks: one, ask: askOf(rest[:m])}, m
		}
	}
	if n > 0 {
		called := thingCalled(food)
		called.ask = cmp.Or(called.ask, askOf(rest[:n]))
		return called, n
	}
	for m := min(3, len(rest)); m > 0; m-- {
		if crop, ok := measures.CropNamed(strings.Join(r.heard[at:at+m], " ")); ok {
			return thingCalled(fold(crop.InKitchen().Name)), m
		}
	}
	return thing{}, 0
}

// troubled tells that the things listed from a word on end in "allergy", or in
// another word by which they are left out: "egg and nut allergy".
func (r *dietReader) troubled(at int) bool {
	for at < len(r.words) {
		_, n := r.thingAt(at)
		if n == 0 {
			return false
		}
		at += n
		if r.troubleAt(at) > 0 {
			return true
		}
		if at < len(r.words) && slices.Contains([]string{"and", "or", ","}, r.words[at]) {
			at++
			continue
		}
		return false
	}
	return false
}

func (r *dietReader) troubleAt(at int) int {
	if at >= len(r.words) {
		return 0
	}
	_, n := troubles().at(r.words[at:])
	return n
}

// take has a saying count. One that opens a list keeps it open: "no milk, egg".
func (r *dietReader) take(s saying, words []string) {
	if s.decline {
		r.wrong = &units.FieldError{Problem: fmt.Sprintf("%q is not decided here, for it would take a guess: %s", s.phrase, s.ask),
			Accepted: `the foods to leave out one by one, such as "no onion, no garlic"; ask the guest, who knows`}
		return
	}
	d := &r.said.diet
	d.avoid |= s.out
	d.leaveOut(s.foods...)
	d.Conditions |= s.condition
	if s.severe {
		r.grave = s.phrase
	}
	r.askBack(s.ask)
	_, opens := negations().at(words)
	r.no, r.fresh = opens > 0, false
}

// weeksGone tells that what follows is how far a pregnancy is.
func (r *dietReader) weeksGone() bool {
	rest := r.words[r.at:]
	if len(rest) < 3 || !slices.Contains([]string{"month", "week"}, rest[1]) || !slices.Contains([]string{"pregnant", "gone", "along"}, rest[2]) {
		return false
	}
	_, err := strconv.Atoi(rest[0])
	return err == nil
}

// askBack notes what to ask, once.
func (r *dietReader) askBack(ask string) {
	if ask != "" && !slices.Contains(r.said.asks, ask) {
		r.said.asks = append(r.said.asks, ask)
	}
}

func unknownDiet(problem, phrase string) error {
	return &units.FieldError{Problem: fmt.Sprintf(problem, phrase), Accepted: dietForms()}
}

func dietForms() string {
	return "vegetarian, vegan, pescetarian, coeliac, pregnant, or \"no\" before a food or any of " + markList()
}
