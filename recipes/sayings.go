package recipes

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"fmt"
	"strings"
	"sync"
)

// sayings.csv holds what guests say of what they eat: what is ruled out by it,
// foods and families of foods that no allergen covers, whether they are among
// those with the stricter keeping rules, and whether a plan is made (accept), is
// made with a question asked back (ask), or is not made at all, because it would
// take a guess (decline, with the reason).
//
//go:embed sayings.csv
var sayingData []byte

// saying is a row of it.
type saying struct {
	phrase    string
	out       marks
	foods     []string
	condition Conditions
	severe    bool // it says how bad an allergy is, and not to what
	decline   bool
	ask       string // what to ask back, or why it is declined
}

// eaterWords are the words of the table for the conditions.
var eaterWords = map[string]Conditions{"": 0, "severe": 0, "pregnant": Pregnant, "child": UnderFive, "old": OverSixtyFive,
	"low": LowImmunity, "baby": Baby | UnderFive, "weak": Vulnerable}

var sayings = sync.OnceValue(func() *phraseIndex[saying] {
	index := newPhraseIndex[saying]()
	for _, s := range sayingRows() {
		index.putWords(trimmed(guestWords(s.phrase)), s)
	}
	return index
})

var sayingRows = sync.OnceValue(func() []saying {
	records, err := csv.NewReader(bytes.NewReader(sayingData)).ReadAll()
	if err != nil {
		panic("sayings.csv: " + err.Error())
	}
	var rows []saying
	for _, r := range records[1:] {
		s := saying{phrase: r[0], out: parseMarks(r[1]), severe: r[3] == "severe", decline: r[4] == "decline", ask: r[5]}
		condition, ok := eaterWords[r[3]]
		if !ok {
			panic("sayings.csv: no eater is called " + r[3])
		}
		s.condition = condition
		for _, food := range strings.FieldsFunc(r[2], func(c rune) bool { return c == ';' }) {
			s.foods = append(s.foods, avoidedName(food))
		}
		rows = append(rows, s)
	}
	return rows
})

// avoidedName is the name by which a food of a table is left out.
func avoidedName(food string) string {
	words := guestWords(food)
	if name, n := avoidable.Longest(words); n == len(words) {
		return name
	}
	if crop := CropName(food); crop != "" && Allergens(crop).Known {
		return fold(crop)
	}
	panic("sayings.csv: nobody knows the food " + food)
}

// parseMarks reads a cell of an embedded table, where "nuts" are the nuts of
// Annex II alone.
func parseMarks(cell string) marks {
	var m marks
	for _, word := range strings.Split(cell, ";") {
		switch one, ok := parseMark(word); {
		case word == "":
		case word == "nuts":
			m |= mark(Nuts)
		case ok:
			m |= one
		default:
			panic(fmt.Sprintf("%q is neither allergen, meat nor honey", word))
		}
	}
	return m
}
