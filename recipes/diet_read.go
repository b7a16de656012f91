package recipes

import (
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

// ParseDiet reads a diet as a host would say it: "vegetarian", "vegan no
// gluten", "allergic to nuts and sesame", "milk-free", "no courgettes",
// "pregnant", "" for a guest who eats anything. Whatever cannot be placed is an
// error that names it, and so is what it would take a guess to plan for.
func ParseDiet(text string) (Diet, error) {
	said, err := readDiet(spokenWords(text))
	return said.diet, err
}

// said is what was read of the words about one guest.
type said struct {
	diet Diet
	asks []string // what to ask back, though a plan is made
	ages []age
}

// age is how old somebody is, in years, or how old at least or at most.
type age struct {
	years float64
	least bool // or older
	most  bool // or younger
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
	"won't eat", "will not eat", "never eats", "doesn't have", "doesn't do", "reacts to", "react to", "reaction to", "sensitive to", "sensitivity to", "can't tolerate", "leaves out", "not eating", "steers clear of", "is off", "no to")

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
	saying, n := sayings().at(rest)
	thing, named := r.thingAt(r.at)
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
		r.no, r.fresh = true, false
		thing.leaveOutOf(&r.said.diet)
		r.askBack(thing.ask)
		return named + r.troubleAt(r.at+named)
	case not > 0:
		r.no, r.fresh = true, true
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

// sayingAs is the saying that is all of some words, unless it is declined.
func sayingAs(words []string) (saying, bool) {
	s, n := sayings().at(words)
	return s, n == len(words) && !s.decline
}

// askOf is what is asked of who leaves a food out: "no prawns", "prawn allergy".
func askOf(food []string) string {
	s, ok := sayingAs(append([]string{"no"}, food...))
	if !ok {
		s, ok = sayingAs(append(slices.Clone(food), "allergy"))
	}
	if !ok {
		return ""
	}
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
	food, n := avoidable().at(rest)
	for m := min(3, len(rest)); m > 0 && m >= n; m-- {
		if one, ok := parseMark(strings.Join(rest[:m], " ")); ok {
			return thing{marks: one, ask: askOf(rest[:m])}, m
		}
	}
	if n > 0 {
		return thingCalled(food), n
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

// ageAt reads an age: "85 years old", "aged 3", "over 65", "9 months", or a bare
// number between commas; and how many words it takes.
func (r *dietReader) ageAt() (age, int) {
	rest := r.words[r.at:]
	number := func(i int) (float64, bool) {
		if i >= len(rest) {
			return 0, false
		}
		years, err := strconv.Atoi(rest[i])
		return float64(years), err == nil && years >= 0 && years <= 120
	}
	word := func(i int, words ...string) bool { return i < len(rest) && slices.Contains(words, rest[i]) }
	if years, ok := number(0); ok {
		switch {
		case r.weeksGone(): // of the child to come
			return age{}, 0
		case word(1, "month"):
			return age{years: years / 12}, 2 + btoi(word(2, "old"))
		case word(1, "year", "yr", "y"):
			return age{years: years}, 2 + btoi(word(2, "old"))
		}
		return age{years: years}, 1
	}
	years, ok := number(1)
	if !ok {
		return age{}, 0
	}
	after := 2 + btoi(word(2, "year"))
	after += btoi(word(after, "old"))
	switch {
	case word(0, "aged", "age"):
		return age{years: years}, after
	case word(0, "over", "above"):
		return age{years: years, least: true}, after
	case word(0, "under", "below"):
		return age{years: years, most: true}, after
	}
	return age{}, 0
}

func btoi(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

func unknownDiet(problem, phrase string) error {
	return &units.FieldError{Problem: fmt.Sprintf(problem, phrase), Accepted: dietForms()}
}

func dietForms() string {
	return "vegetarian, vegan, pescetarian, coeliac, pregnant, or \"no\" before a food or any of " + markList()
}
