package recipes

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"slices"
	"strings"
	"sync"

	"trencher/units"
)

// sayings.csv holds what guests say of what they eat: what is ruled out by it,
// foods that no allergen covers, whether they are among those with the stricter
// keeping rules, and whether a plan is made at all: what it would take a guess to
// plan for is declined.
//
//go:embed sayings.csv
var sayingData []byte

type saying struct {
	phrase  string
	out     marks
	foods   []string
	eater   string // "weak", or "low" of low immunity
	decline bool
}

var sayings = sync.OnceValue(func() map[string]saying {
	records, err := csv.NewReader(bytes.NewReader(sayingData)).ReadAll()
	if err != nil {
		panic("sayings.csv: " + err.Error())
	}
	table := map[string]saying{}
	for _, r := range records[1:] {
		s := saying{phrase: r[0], out: parseMarks(r[1]), eater: r[3], decline: r[4] == "decline"}
		if r[2] != "" {
			s.foods = strings.Split(r[2], ";")
		}
		table[strings.Join(sayingWords(r[0]), " ")] = s
	}
	return table
})

// sayingWords cuts what is said into its words; a comma is one.
func sayingWords(text string) []string {
	return strings.Fields(strings.NewReplacer(",", " , ", ";", " , ", "(", " ", ")", " ", "-", " ").Replace(fold(text)))
}

const longestSaying = 12 // words

// readSayings takes the sayings of the table out of a text, the longest first,
// and tells what is left of it. The error declines what no plan is made for.
func (d *Diet) readSayings(text string) (left string, err error) {
	words := sayingWords(text)
	var rest []string
	for i := 0; i < len(words); {
		n := min(longestSaying, len(words)-i)
		for ; n > 0; n-- {
			s, ok := sayings()[strings.Join(words[i:i+n], " ")]
			if !ok {
				continue
			}
			if s.decline {
				return "", &units.FieldError{Problem: "\"" + s.phrase + "\" is not decided here, for it would take a guess", Accepted: "the foods to leave out one by one, such as \"no onion, no garlic\"; ask the guest, who knows"}
			}
			d.avoid |= s.out
			d.Weak = d.Weak || s.eater != ""
			d.LowImmunity = d.LowImmunity || s.eater == "low"
			d.leaveOut(s.foods...)
			break
		}
		if n == 0 {
			rest = append(rest, words[i])
		}
		i += max(n, 1)
	}
	return strings.Join(rest, " "), nil
}

// leaveOut adds foods by name, each once, in order of the alphabet.
func (d *Diet) leaveOut(foods ...string) {
	all := d.Without()
	for _, food := range foods {
		if food != "" && !slices.Contains(all, food) {
			all = append(all, food)
		}
	}
	slices.Sort(all)
	d.without = strings.Join(all, ";")
}

// Without lists the foods left out by name, beside the allergens.
func (d Diet) Without() []string {
	if d.without == "" {
		return nil
	}
	return strings.Split(d.without, ";")
}

// readFoods reads "no onion, carrots and no leek": foods that are known here, by
// name. ok is false where one is not.
func (d *Diet) readFoods(text string) (ok bool) {
	no := false
	for _, part := range strings.FieldsFunc(strings.NewReplacer(" and ", ",", " or ", ",").Replace(" "+text+" "), func(r rune) bool { return r == ',' }) {
		part = strings.TrimSpace(part)
		for _, word := range []string{"no ", "without "} {
			if food, cut := strings.CutPrefix(part, word); cut {
				part, no = food, true
			}
		}
		if part == "" || part == "and" {
			continue
		}
		m, isMark := parseMark(part)
		switch {
		case !no:
			return false
		case isMark:
			d.avoid |= m
		case Allergens(part).Known:
			d.leaveOut(part)
		default:
			return false
		}
	}
	return true
}

// names tells that a line has the food by name, whichever the plural.
func names(line, food string) bool {
	return hasWords(line, food) || CropName(line) == CropName(food)
}

// notWeak are foods that pregnant people, small children, the old and those of
// low immunity do without (FSA and NHS, Listeria; New Zealand Food Safety, Food
// safety in pregnancy; known_by: read).
var notWeak = []string{"brie", "camembert", "blue cheese", "stilton", "gorgonzola", "roquefort", "feta", "ricotta", "unpasteurised milk", "raw milk", "pâté", "pate",
	"smoked salmon", "gravlax", "hummus", "tahini", "raw sprouts", "beansprouts", "bean sprouts", "salami", "prosciutto", "parma ham"}

// without says which food left out by name stands in the dish; "" where none.
func (d Dish) without(diet Diet) string {
	foods := diet.Without()
	if diet.Weak {
		foods = append(foods, notWeak...)
	}
	for _, text := range d.texts() {
		for _, food := range foods {
			if names(text, food) {
				return "has " + food
			}
		}
	}
	return ""
}

// texts are all the words of a dish, line by line.
func (d Dish) texts() []string {
	texts := []string{d.Name}
	for _, c := range d.Crops {
		texts = append(texts, c.Crop)
	}
	for _, o := range d.Others {
		texts = append(texts, o.Item, o.State)
		for _, a := range o.Instead {
			texts = append(texts, a.Item, a.State)
		}
	}
	return append(texts, d.Method...)
}
