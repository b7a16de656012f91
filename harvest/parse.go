package harvest

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"trencher/units"
	"trencher/units/pattern"
)

const weighingForm = `the full bowl less the empty one, such as "1.46 kg - 0.31 kg"`

var minus = pattern.New(`\s*[-−–]\s*`)

// ParseWeighing reads a bowl: "1.46 kg - 0.31 kg", gross less tare, or a gross
// weight alone. A unit said once holds for both: "1.46 - 0.31 kg".
func ParseWeighing(text string, system units.System) (Weighing, error) {
	parts := minus.Split(strings.TrimSpace(text), -1)
	if len(parts) > 2 {
		return Weighing{}, units.WrongField("", "", "more than gross less tare", weighingForm)
	}
	parts = oneUnit(parts)
	var w Weighing
	var err error
	if w.Gross, err = parseWeight(parts[0], text, system); err != nil {
		return Weighing{}, err
	}
	if len(parts) == 2 {
		if w.Tare, err = parseWeight(parts[1], text, system); err != nil {
			return Weighing{}, err
		}
	}
	alone := Lift{Weighings: []Weighing{w}}
	for _, p := range alone.bowlProblems() {
		return Weighing{}, units.WrongField("", "", p.Text, weighingForm)
	}
	return w, nil
}

// Bowls are the bowls that words tell of: each word one, as "2.1kg" or "1.46 kg -
// 0.31 kg", where each can be read as one; else all of them together, as 2.1 kg.
func Bowls(words []string) []string {
	for _, word := range words {
		if !IsWeighing(word) {
			return []string{strings.Join(words, " ")}
		}
	}
	return words
}

// IsWeighing tells a word that can be read as a bowl.
func IsWeighing(word string) bool {
	_, err := ParseWeighing(word, units.NoSystem)
	return err == nil
}

// scaleNumber is one as a scale or a person says it: 2.29, 0,31, .5, 1½, 1 1/2.
const scaleNumber = `(?:\d*[.,]?\d+|\d+\s*[½¼¾⅓⅔⅛]|[½¼¾⅓⅔⅛]|(?:\d+\s+)?\d+/\d+)`

var (
	bareNumber = pattern.New(`^\s*` + scaleNumber + `\s*$`)
	numberUnit = pattern.New(`^\s*` + scaleNumber + `\s*(\pL+)\s*$`)
)

// oneUnit gives the unit of one weight to the other, where that is a number
// alone. Of 2 lb 4 oz neither unit is plainly meant, so it gives none.
func oneUnit(parts []string) []string {
	if len(parts) != 2 {
		return parts
	}
	for bare, said := range []int{1, 0} {
		unit := numberUnit.FindStringSubmatch(parts[said])
		if bareNumber.MatchString(parts[bare]) && unit != nil {
			parts[bare] += " " + unit[1]
		}
	}
	return parts
}

// ParseWeight reads one weight: "820 g", "2 lb 4 oz".
func ParseWeight(text string, system units.System) (units.Quantity, error) {
	return parseWeight(text, text, system)
}

func parseWeight(part, whole string, system units.System) (units.Quantity, error) {
	const form = "one weight in kg, g, lb or oz, such as 820 g or 2 lb 4 oz"
	if strings.TrimSpace(part) == "" {
		return units.Quantity{}, units.WrongField("", "", "lacks a weight", form)
	}
	q, err := units.Parse(part, system)
	if err != nil {
		return units.Quantity{}, units.InFieldFor("", whole, err, form)
	}
	if g, ok := Grams(q); !ok || g.Sign() < 0 {
		problem := "not one weight"
		if part = strings.TrimSpace(part); part != strings.TrimSpace(whole) {
			problem = strconv.Quote(part) + " is " + problem
		}
		return units.Quantity{}, units.WrongField("", "", problem, form)
	}
	return q, nil
}

const gradeForm = `weight, sizes, how many and condition, such as "820 g 20-45 mm 9 pieces scabby"`

var (
	bandPart  = pattern.New(`\d{1,4}\s*(?:mm)?\s*(?:-|–|to)\s*\d{1,4}\s*mm\b`)
	countPart = pattern.New(`\b(\d{1,6})\s*(?:pieces?|tubers?|roots?)\b`)
)

// ParseGrade reads a grade in one line, its parts in any order: "820 g 20-45 mm
// scabby", "6 pieces 700 g 45-65 mm", "90 g damaged". Only the weight is
// needed; the condition is sound when none is named.
func ParseGrade(text string, system units.System) (Grade, error) {
	g := Grade{Condition: Sound}
	rest := text
	if part := bandPart.FindString(rest); part != "" {
		band, err := units.ParseBand(part)
		if err != nil {
			return Grade{}, units.WrongField("", "", fmt.Sprintf("sizes %q: %s", part, err.Problem), gradeForm)
		}
		g.Sizes = band
		rest = strings.Replace(rest, part, " ", 1)
	}
	if part := countPart.FindStringSubmatch(rest); part != nil {
		g.Count, _ = strconv.Atoi(part[1])
		rest = strings.Replace(rest, part[0], " ", 1)
	}
	rest, condition, err := takeCondition(rest)
	if err != nil {
		return Grade{}, err
	}
	if condition != "" {
		g.Condition = condition
	}
	if g.Weight, err = parseWeight(rest, text, system); err != nil {
		var wrong *units.FieldError
		errors.As(units.InField("", text, err), &wrong)
		return Grade{}, units.WrongField("", "", wrong.Problem, gradeForm)
	}
	for _, p := range gradeProblems(g) {
		return Grade{}, units.WrongField("", "", p.Text, gradeForm)
	}
	return g, nil
}

// takeCondition takes the condition's word out of a grade's text.
func takeCondition(text string) (rest string, c Condition, err error) {
	var kept []string
	for _, word := range strings.Fields(text) {
		found, err := ParseCondition(strings.Trim(word, ",;"))
		switch {
		case err != nil:
			kept = append(kept, word)
		case c != "":
			return "", "", units.WrongField("", "", "two conditions are named", gradeForm)
		default:
			c = found
		}
	}
	return strings.Trim(strings.Join(kept, " "), ",; "), c, nil
}
