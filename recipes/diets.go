package recipes

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"trencher/units"
)

// Diet is what a guest does not eat. The zero value eats anything; two diets
// that avoid the same things are ==.
type Diet struct {
	avoid   marks
	without string // foods by name, joined
	// Weak is pregnant, under 5, over 65 or of low immunity, for whom stricter
	// keeping rules hold.
	Weak, LowImmunity bool
}

const (
	notVegetarian = meat | 1<<Fish | 1<<Crustaceans | 1<<Molluscs
	notVegan      = notVegetarian | 1<<Milk | 1<<Egg | honey
)

// dietWords are the diets that have a name.
var dietWords = map[string]marks{
	"vegan": notVegan, "plant-based": notVegan,
	"vegetarian": notVegetarian, "veggie": notVegetarian,
	"pescetarian": meat, "pescatarian": meat,
	"coeliac": mark(Gluten), "celiac": mark(Gluten),
}

// ParseDiet reads a diet as a host would say it: "vegetarian", "vegan no
// gluten", "no milk, egg", "without nuts or celery", "milk-free", "" for a
// guest who eats anything. The error says which word it could not place.
func ParseDiet(text string) (Diet, error) {
	d, err := parseDietWords(text)
	if err == nil {
		return d, nil
	}
	var said Diet
	left, declined := said.readSayings(text)
	if declined != nil {
		return Diet{}, declined
	}
	if rest, err := parseDietWords(left); err == nil {
		said.avoid |= rest.avoid
		return said, nil
	}
	if said.readFoods(left) {
		return said, nil
	}
	return Diet{}, err
}

// parseDietWords reads the diets and allergens that have a word of their own.
func parseDietWords(text string) (Diet, error) {
	var d Diet
	leaveOut := false // whether a "no" or "without" governs the words that follow
	phrases := dietPhrases(text)
	for i, phrase := range phrases {
		switch {
		case phrase == "no" || phrase == "without":
			leaveOut = true
			if i == len(phrases)-1 {
				return Diet{}, unknownDiet("%q what?", phrase)
			}
			continue
		case dietWords[phrase] != 0:
			d.avoid |= dietWords[phrase]
			leaveOut = false
			continue
		}
		thing, free := strings.CutSuffix(phrase, "-free")
		m, ok := parseMark(thing)
		if !ok || !free && !leaveOut {
			return Diet{}, unplacedDiet(phrase, ok, leaveOut || free)
		}
		if m == meat {
			m = notVegetarian // fish is meat to many who say it; "pescetarian" says otherwise
		}
		d.avoid |= m
	}
	return d, nil
}

// unplacedDiet is the error for a word of a diet that cannot be judged: a thing
// that is known, with no "no" before it; an unknown one after a "no"; or neither.
func unplacedDiet(phrase string, known, after bool) error {
	switch {
	case known:
		return unknownDiet("%q alone does not say whether they eat it", phrase)
	case after:
		return unknownDiet("%q cannot be ruled out: only the fourteen allergens, meat and honey are known of every ingredient", phrase)
	}
	return unknownDiet("%q is not a diet known here", phrase)
}

func unknownDiet(problem, phrase string) error {
	return &units.FieldError{Problem: fmt.Sprintf(problem, phrase), Accepted: dietForms()}
}

func dietForms() string {
	return "vegetarian, vegan, pescetarian or coeliac, or \"no\" before any of " + markList()
}

// dietPhrases splits a diet into its words, keeping pairs such as "tree nuts"
// together and dropping the small words between.
func dietPhrases(text string) []string {
	text = strings.NewReplacer(",", " ", ";", " ", "(", " ", ")", " ", " free", "-free", "&", " ").Replace(fold(text))
	words := strings.Fields(text)
	var phrases []string
	for i := 0; i < len(words); i++ {
		if i+1 < len(words) {
			if _, ok := parseMark(words[i] + " " + words[i+1]); ok {
				phrases = append(phrases, words[i]+" "+words[i+1])
				i++
				continue
			}
		}
		switch words[i] {
		case "and", "or", "who", "is", "are", "eats", "eat", "with", "products":
		default:
			phrases = append(phrases, words[i])
		}
	}
	return phrases
}

// String names the diet: "vegan, no gluten"; "" for a guest who eats
// anything. ParseDiet reads it back.
func (d Diet) String() string {
	var parts []string
	left := d.avoid
	trees := left&(mark(Nuts)|mark(Peanuts)) == mark(Nuts)
	if left&mark(Nuts) != 0 && !trees {
		left &^= mark(Peanuts) // "no nuts" leaves peanuts out too
	}
	switch {
	case left&notVegan == notVegan:
		parts, left = append(parts, "vegan"), left&^notVegan
	case left&notVegetarian == notVegetarian:
		parts, left = append(parts, "vegetarian"), left&^notVegetarian
	case left&meat != 0:
		parts, left = append(parts, "pescetarian"), left&^meat // "no meat" leaves fish out too
	}
	for _, word := range left.words() {
		if word == "nuts" && trees {
			word = "tree nuts"
		}
		parts = append(parts, "no "+word)
	}
	for _, food := range d.Without() {
		parts = append(parts, "no "+food)
	}
	switch {
	case d.LowImmunity:
		parts = append(parts, "low immunity")
	case d.Weak:
		parts = append(parts, "vulnerable")
	}
	return strings.Join(parts, ", ")
}

// EatsAnything reports whether nothing is left out.
func (d Diet) EatsAnything() bool { return d == Diet{} }

// Guests is a group that eats alike.
type Guests struct {
	Count int
	Child bool // a child's helping is half a portion
	Diet  Diet
}

// Label names one of the group: "adult", "child, vegetarian".
func (g Guests) Label() string {
	label := "adult"
	if g.Child {
		label = "child"
	}
	if diet := g.Diet.String(); diet != "" {
		label += ", " + diet
	}
	return label
}

// MaxGuests is the largest group taken at its word; more is a slip of the
// finger.
const MaxGuests = 500

func unknownGuests(problem string, values ...any) error {
	return &units.FieldError{Problem: fmt.Sprintf(problem, values...), Accepted: "a number and who they are: " + guestForms}
}

const guestForms = `"6 adults", "2 adults no milk, egg", "3 children vegetarian", "1 adult vegan no gluten"`

// ParseGuests reads the groups at a table: a number, adults or children, and what
// they do not eat. Several groups may stand after one another, each starting
// with its number. The error is a [*units.FieldError] for
// "guests".
func ParseGuests(text string) ([]Guests, error) {
	var groups []Guests
	for _, part := range splitGroups(text) {
		group, err := parseGroup(part)
		if err != nil {
			return nil, units.InField("guests", text, err)
		}
		groups = append(groups, group)
	}
	return groups, nil
}

// splitGroups cuts before every number that follows a separator.
func splitGroups(text string) []string {
	var parts []string
	start := 0
	for i := 1; i < len(text); i++ {
		if text[i] < '0' || text[i] > '9' {
			continue
		}
		before := strings.TrimRight(text[start:i], " ")
		if cut := strings.TrimSuffix(strings.TrimRight(before, ",;+"), " and"); cut != before {
			parts, start = append(parts, cut), i
		}
	}
	return append(parts, text[start:])
}

func parseGroup(text string) (Guests, error) {
	words := strings.Fields(strings.ReplaceAll(fold(text), ",", " , "))
	if len(words) < 2 {
		return Guests{}, unknownGuests("how many guests, and are they adults or children?")
	}
	count, err := strconv.Atoi(words[0])
	if err != nil {
		return Guests{}, unknownGuests("%q is not a whole number of guests", words[0])
	}
	if count < 1 || count > MaxGuests {
		return Guests{}, unknownGuests("%d guests is out of range, 1 to %d", count, MaxGuests)
	}
	g := Guests{Count: count}
	who := slices.IndexFunc(words, func(w string) bool { return w == "adult" || w == "adults" || w == "child" || w == "children" })
	if who < 0 {
		return Guests{}, unknownGuests("are they adults or children?")
	}
	g.Child = strings.HasPrefix(words[who], "child")
	words = slices.Delete(words, who, who+1)
	g.Diet, err = ParseDiet(strings.Join(words[1:], " "))
	return g, err
}
