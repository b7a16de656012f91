package recipes

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"trencher/units"
)

// Guests is a group that eats alike.
type Guests struct {
	Count int
	Child bool // a child's helping is half a portion
	Diet  Diet
	// OverFive tells of a child that it is over five; one of whom no age is told
	// has the rules of those under five.
	OverFive bool
	Ask      string // what to ask them back; "" = nothing
}

// Conditions are those of the diet, and of a child of no known age those of one
// under five, of untold age.
func (g Guests) Conditions() Conditions {
	if g.Child && !g.OverFive && g.Diet.Conditions&(UnderFive|Baby) == 0 {
		return g.Diet.Conditions | UnderFive | AgeUntold
	}
	return g.Diet.Conditions
}

// IsLike tells that two groups are of one kind, whatever their number.
func (g Guests) IsLike(o Guests) bool {
	return g.Child == o.Child && g.OverFive == o.OverFive && g.Diet == o.Diet
}

// Label names one of the group: "adult", "child, vegetarian".
func (g Guests) Label() string {
	parts := []string{"adult"}
	if g.Child {
		parts[0] = "child"
	}
	if g.OverFive {
		parts = append(parts, "over 5")
	}
	if diet := g.Diet.String(); diet != "" {
		parts = append(parts, diet)
	}
	return strings.Join(parts, ", ")
}

// MaxGuests is the largest group taken at its word; more is a slip of the
// finger.
const MaxGuests = 500

func unknownGuests(problem string, values ...any) error {
	return &units.FieldError{Problem: fmt.Sprintf(problem, values...), Accepted: "a number and who they are: " + guestForms}
}

const guestForms = `"6 adults", "2 adults no milk, egg", "3 children vegetarian", "1 adult vegan no gluten"`

// people are the words for guests. A word that tells an age brings the stricter
// rules of it along.
var people = map[string]Guests{
	"adult": {}, "grown up": {}, "guest": {}, "person": {}, "people": {}, "man": {}, "men": {}, "woman": {}, "women": {}, "lady": {}, "friend": {},
	"husband": {}, "wife": {}, "partner": {}, "mum": {}, "dad": {}, "mother": {}, "father": {}, "sister": {}, "brother": {}, "neighbour": {},
	"child": {Child: true}, "children": {Child: true}, "kid": {Child: true}, "boy": {Child: true}, "girl": {Child: true},
	"toddler": {Child: true, Diet: Diet{Conditions: UnderFive}},
	"baby":    {Child: true, Diet: Diet{Conditions: Baby | UnderFive, avoid: honey}}, "infant": {Child: true, Diet: Diet{Conditions: Baby | UnderFive, avoid: honey}},
	"gran": {Diet: Diet{Conditions: OverSixtyFive}}, "granny": {Diet: Diet{Conditions: OverSixtyFive}}, "grandma": {Diet: Diet{Conditions: OverSixtyFive}},
	"grandmother": {Diet: Diet{Conditions: OverSixtyFive}}, "grandad": {Diet: Diet{Conditions: OverSixtyFive}}, "granddad": {Diet: Diet{Conditions: OverSixtyFive}},
	"grandpa": {Diet: Diet{Conditions: OverSixtyFive}}, "grandfather": {Diet: Diet{Conditions: OverSixtyFive}}, "grandparent": {Diet: Diet{Conditions: OverSixtyFive}},
	"pensioner": {Diet: Diet{Conditions: OverSixtyFive}},
}

// owned are counts that may also lead to more that is said of the same people.
var owned = []string{"a", "an", "my", "our"}

// counts are the words for numbers of guests.
var counts = map[string]int{"a": 1, "an": 1, "my": 1, "our": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
	"nine": 9, "ten": 10, "eleven": 11, "twelve": 12}

// ParseGuests reads the groups at a table: how many, adults or children, and what
// they do not eat or who they are. Several groups may stand after one another,
// each starting with its number; "one of them" parts some of the group before. The
// error is a [*units.FieldError] for "guests".
func ParseGuests(text string) ([]Guests, error) {
	heard := spokenWords(text)
	r := guestReader{words: singulars(heard), heard: heard}
	err := r.read()
	if err != nil {
		return nil, units.InField("guests", text, err)
	}
	return r.groups, nil
}

type guestReader struct {
	words  []string // in the singular
	heard  []string // as they were spoken
	groups []Guests
	whole  int // the group of which "one of them" is
}

// read goes from the beginning of one group to that of the next.
func (r *guestReader) read() error {
	for at := 0; at < len(r.words); {
		end := at + 1
		for end < len(r.words) && !r.begins(end) {
			end++
		}
		if err := r.group(trimmed(r.heard[at:end])); err != nil {
			return err
		}
		at = end
	}
	r.groups = slices.DeleteFunc(r.groups, func(g Guests) bool { return g.Count == 0 })
	if len(r.groups) == 0 {
		return unknownGuests("how many guests, and are they adults or children?")
	}
	return nil
}

// trimmed is what is left of words without what only joins them to others.
func trimmed(words []string) []string {
	joins := []string{",", "and", "plus"}
	for len(words) > 0 && slices.Contains(joins, words[len(words)-1]) {
		words = words[:len(words)-1]
	}
	for len(words) > 0 && slices.Contains(joins, words[0]) {
		words = words[1:]
	}
	return words
}

// begins tells that a group begins at a word: a number after a comma or "and",
// with people after it, or "of them"; or a number right behind people and right
// before others, as in "2 adults 3 children".
func (r *guestReader) begins(at int) bool {
	if !slices.Contains([]string{",", "and", "plus"}, r.words[at-1]) {
		_, number := countOf(r.words[at])
		number = number && !slices.Contains(owned, r.words[at]) // "1 adult, my gran" is one
		return number && at+1 < len(r.words) && isPeople(r.words[at-1]) && isPeople(r.words[at+1])
	}
	if isAlone(r.words[at]) {
		return true
	}
	count, ok := countOf(r.words[at])
	if !ok {
		return false
	}
	_, word := counts[r.words[at]]
	rest := r.words[at+1:]
	if len(rest) == 0 {
		return false
	}
	if slices.Contains([]string{"year", "yr", "month", "week", "y"}, rest[0]) {
		return false
	}
	return whoAt(rest) >= 0 || isOfThem(rest) || word && count > 0 && !slices.Contains(owned, r.words[at]) || !word && !slices.Contains([]string{",", "and"}, rest[0])
}

func isPeople(word string) bool {
	_, ok := people[word]
	return ok
}

func isOfThem(words []string) bool {
	return len(words) > 1 && words[0] == "of" && slices.Contains([]string{"them", "whom", "these", "those", "u", "us"}, words[1])
}

func countOf(word string) (int, bool) {
	if n, ok := counts[word]; ok {
		return n, true
	}
	n, err := strconv.Atoi(word)
	return n, err == nil
}

// whoAt is where the word for the people stands in the words after a number,
// before the next comma or number; -1 where none does.
func whoAt(words []string) int {
	for i, word := range words {
		if _, ok := people[word]; ok {
			return i
		}
		if i+1 < len(words) {
			if _, ok := people[word+" "+words[i+1]]; ok {
				return i
			}
		}
		if _, number := countOf(word); number || word == "," && i > 4 {
			return -1
		}
	}
	return -1
}

// group reads the words of one group, as they were spoken.
func (r *guestReader) group(heard []string) error {
	words := singulars(heard)
	switch {
	case len(words) == 0:
		return nil
	case isAlone(words[0]):
		words, heard = append([]string{"one"}, words...), append([]string{"one"}, heard...)
	case len(words) == 1:
		return unknownGuests("how many guests, and are they adults or children?")
	}
	count, ok := countOf(words[0])
	if !ok {
		return unknownGuests("%q is not a whole number of guests", heard[0])
	}
	if count < 1 || count > MaxGuests {
		return unknownGuests("%d guests is out of range, 1 to %d", count, MaxGuests)
	}
	one := words[0] == "one"
	words, heard = words[1:], heard[1:]
	who := whoAt(words)
	switch {
	case isOfThem(words) && len(r.groups) > 0:
		return r.part(count, heard[2:])
	case who < 0 && one && len(r.groups) > 0:
		return r.part(1, heard)
	case who < 0:
		return unknownGuests("are they adults or children?")
	}
	g, length := people[words[who]], 1
	if who+1 < len(words) {
		if two, ok := people[words[who]+" "+words[who+1]]; ok {
			g, length = two, 2
		}
	}
	g.Count = count
	r.whole = len(r.groups)
	return r.add(g, slices.Concat(heard[:who], heard[who+length:]))
}

// isAlone tells that a word is of one person, and needs no number.
func isAlone(word string) bool {
	return slices.Contains([]string{"gran", "granny", "grandma", "grandmother", "grandad", "granddad", "grandpa", "grandfather",
		"husband", "wife", "partner", "mum", "dad", "mother", "father", "sister", "brother"}, word)
}

// part takes some of the group told of last apart: "2 adults, one of them
// pregnant".
func (r *guestReader) part(count int, heard []string) error {
	whole := &r.groups[r.whole]
	if count > whole.Count {
		return unknownGuests("%d of %d guests is more than there are", count, whole.Count)
	}
	g := *whole
	g.Count = count
	whole.Count -= count
	return r.add(g, heard)
}

// add reads what a group eats and who they are, and keeps the group.
func (r *guestReader) add(g Guests, heard []string) error {
	said, err := readDiet(heard)
	if err != nil {
		return err
	}
	g.Diet.avoid |= said.diet.avoid
	g.Diet.leaveOut(said.diet.Without()...)
	g.Diet.Conditions |= said.diet.Conditions
	if err := g.age(said.ages); err != nil {
		return err
	}
	asks := said.asks
	if g.Ask != "" {
		asks = append(strings.Split(g.Ask, "\n"), asks...)
	}
	if g.Child && !g.OverFive && g.Diet.Conditions&(UnderFive|Baby) == 0 && !slices.Contains(asks, askAge) {
		asks = append(asks, askAge)
	}
	g.Ask = strings.Join(asks, "\n")
	r.groups = append(r.groups, g)
	return nil
}

// askAge is asked of a child of whom no age is told.
const askAge = "How old? Until it is told, the rules for under-fives are kept."

// age takes the ages that were told; of several the strictest rules hold for all
// of the group.
func (g *Guests) age(ages []age) error {
	if len(ages) == 0 {
		return nil
	}
	g.OverFive = g.Child && g.Diet.Conditions&(UnderFive|Baby) == 0
	for _, a := range ages {
		switch {
		case !g.Child && (a.years < 16 && !a.least):
			return unknownGuests("an adult is 16 or over; one of %g is a child", a.years)
		case !g.Child && a.years >= 65 && !a.most:
			g.Diet.Conditions |= OverSixtyFive
		case !g.Child:
		case a.years > 17:
			return unknownGuests("a child is under 18, not %g", a.years)
		case a.years < 1 || a.most && a.years <= 1:
			g.Diet.Conditions |= Baby | UnderFive
			g.Diet.avoid |= honey
		case a.years < 5 && !a.least:
			g.Diet.Conditions |= UnderFive
		}
		if a.most || a.years < 5 {
			g.OverFive = false
		}
	}
	return nil
}
