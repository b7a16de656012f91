package recipes

import (
	"fmt"
	"strconv"
	"strings"

	"trencher/recipes/saved"
	"trencher/units"
)

// ImportWords are [ImportOptions] as they are told.
type ImportWords struct {
	Portions int      // 0 = as the recipe says
	Amounts  []string // "potatoes=900 g"
	Lines    []string // "3=250 g carrots"; "3=" leaves the line out
	As       []string // "3=other"
	Cook     []string // "potato=boil 20 min", "carrot=oven 40 min", "pea=steam"
	Served   string
	Name     string
	Charset  string
	Recipe   string // which of several
}

// checkName refuses a name that no dish file takes.
func checkName(name string) error {
	switch {
	case isLongName(name):
		return units.WrongField("name", name, longName, shorterName)
	case strings.ContainsFunc(name, units.Hidden):
		return units.WrongField("name", name, "a hidden character is in it", "plain text")
	}
	return nil
}

// Options reads the words. Its errors are [units.FieldError]s of the fields
// name, amount, line, as, cook and served.
func (w ImportWords) Options(system units.System) (ImportOptions, error) {
	o := ImportOptions{Options: saved.Options{Charset: w.Charset, Choice: w.Recipe}, System: system, Portions: w.Portions, Name: strings.Join(strings.Fields(w.Name), " "),
		Rewrite: map[int]string{}, As: map[int]LineUse{}, Cook: map[string]Cooking{}}
	err := checkName(w.Name)
	if err != nil {
		return o, err
	}
	if o.Amounts, err = ParseAnswers(w.Amounts, system); err != nil {
		return o, err
	}
	for _, text := range w.Lines {
		number, other, ok := numbered(text)
		if !ok {
			return o, units.WrongField("line", text, "which line, and what instead?", "its number and its words, as: 3=250 g carrots")
		}
		o.Rewrite[number] = other
	}
	for _, text := range w.As {
		number, word, ok := numbered(text)
		use, known := ParseLineUse(word)
		if !ok || !known {
			return o, units.WrongField("as", text, "which line, and what is it?", "its number and one of "+strings.Join(lineUses, ", ")+", as: 3=other")
		}
		o.As[number] = use
	}
	for _, text := range w.Cook {
		crop, how, _ := strings.Cut(text, "=")
		c, err := ParseCooking(how)
		if err != nil || strings.TrimSpace(crop) == "" {
			return o, units.WrongField("cook", text, "which crop, and how is it cooked?", "the crop and steam, raw, or boil, blanch, oven, ring, grill, embers or nothing with minutes, as: potato=boil 20 min")
		}
		o.Cook[CropName(crop)] = c
	}
	switch o.Served = Served(w.Served); o.Served {
	case "", Hot, Warm, Cold:
		return o, nil
	}
	return o, units.WrongField("served", w.Served, "not how a dish comes to the table", "hot, warm or cold")
}

func numbered(text string) (number int, rest string, ok bool) {
	head, rest, found := strings.Cut(text, "=")
	number, err := strconv.Atoi(strings.TrimSpace(head))
	return number, strings.TrimSpace(rest), found && err == nil && number > 0
}

// ParseCooking reads a way of cooking: "steam", "raw", "boil 20 min", "oven
// 35-40 min". Its error is a [units.FieldError] of cook.
func ParseCooking(text string) (Cooking, error) {
	word, time, _ := strings.Cut(strings.ToLower(strings.TrimSpace(text)), " ")
	c := Cooking{How: word}
	switch word {
	case "steam", "raw":
		if strings.TrimSpace(time) != "" {
			return c, units.WrongField("cook", text, "minutes are for what is not steamed", word)
		}
		return c, nil
	case "boil", "blanch":
		c.Uses = "ring"
	case "oven", "ring", "grill", "embers", "nothing":
		c.How, c.Uses = "own", word
	default:
		return c, units.WrongField("cook", text, "no way of cooking that is known here", "steam, boil, blanch, raw, oven, ring, grill, embers or nothing")
	}
	if c.Minutes = minutesIn(time); c.Minutes == 0 {
		return c, units.WrongField("cook", text, "for how many minutes?", fmt.Sprintf("%s 20 min", word))
	}
	return c, nil
}
