package recipes

import (
	"encoding/csv"
	"fmt"
	"math/big"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/literal"
	"trencher/units/measures"
	"trencher/units/sorted"
)

// library.go and the sorted tables beside it are what allergens.csv, poisons.csv,
// raw.csv, yields.csv, sayings.csv, conditions.csv and kitchen_words.txt make them.
func TestLibraryIsMade(t *testing.T) {
	foods, names := makeCompositions(t)
	poisons, phrases := makePoisons(t)
	sayings, said := makeSayings(t)
	unfit, fits := makeUnfit(t)
	require.NoError(t, literal.Keep(map[string]string{
		"library.go": string(literal.File("recipes", "allergens.csv, poisons.csv, raw.csv, yields.csv, sayings.csv and conditions.csv", []string{"trencher/units"},
			literal.Table{Name: "compositions", About: "are what ingredients hold.", Rows: foods},
			literal.Table{Name: "poisonRows", About: "are what can poison.", Rows: poisons},
			literal.Table{Name: "rawRows", About: "are the crops that are eaten raw and those that are not.", Rows: makeRaw(t)},
			literal.Table{Name: "yieldLines", About: "are what is left of a crop from one state to the next.", Rows: makeYields(t)},
			literal.Table{Name: "sayingRows", About: "are what guests say of what they eat.", Rows: sayings},
			literal.Table{Name: "unfitRows", About: "are what guests of some conditions do without.", Rows: unfit})),
		"sayings.sorted":       string(said),
		"conditions.sorted":    string(fits),
		"allergens.sorted":     string(names),
		"poisons.sorted":       string(phrases),
		"kitchen_words.sorted": string(makeKitchenWords(t)),
	}, *update))
}

// rowsOf are the rows of a table but its heading.
func rowsOf(t *testing.T, name string) [][]string {
	file, err := os.Open(name)
	require.NoError(t, err)
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	return records[1:]
}

// parts are what a cell holds, between semicolons.
func parts(cell string) []string {
	if cell == "" {
		return nil
	}
	return strings.Split(cell, ";")
}

func makeCompositions(t *testing.T) ([]Composition, sorted.Table) {
	var foods []Composition
	names := map[string]string{}
	for at, r := range rowsOf(t, "allergens.csv") {
		require.Contains(t, allergenSources, r[4])
		foods = append(foods, Composition{Known: true, Row: r[0], contains: parseMarks(r[2]), may: parseMarks(r[3]),
			Provenance: units.Provenance{Source: allergenSources[r[4]], KnownBy: r[5]}, Tell: r[6]})
		for _, name := range append([]string{r[0]}, parts(r[1])...) {
			if name = fold(name); name != "" {
				names[name] = strconv.Itoa(at)
			}
		}
	}
	return foods, sorted.Make(names)
}

func makePoisons(t *testing.T) ([]PoisonRow, sorted.Table) {
	var rows []PoisonRow
	phrases := map[string]string{}
	for at, r := range rowsOf(t, "poisons.csv") {
		rows = append(rows, PoisonRow{Words: parts(r[0]), Unless: parts(r[1]), Poison: Poison{Grave: r[2] == "danger", Says: r[3], Mend: r[4], Rule: r[5],
			Provenance: units.Provenance{Source: r[6], KnownBy: r[7]}}})
		for _, words := range parts(r[0]) {
			phrases[strings.Join(wordForms(words), " ")] = strconv.Itoa(at) + "\t" + words
		}
	}
	return rows, sorted.Make(phrases)
}

func makeRaw(t *testing.T) []RawRow {
	var rows []RawRow
	seen := map[string]bool{}
	for _, r := range rowsOf(t, "raw.csv") {
		row := RawRow{Crop: CropName(r[0]), May: r[1] == "yes", Why: NotRaw{Because: r[2], Rule: r[4]}, Provenance: units.Provenance{Source: r[5], KnownBy: r[6]}}
		if r[3] != "" {
			minutes, err := strconv.Atoi(r[3])
			require.NoError(t, err)
			row.Why.Boil = time.Duration(minutes) * time.Minute
		}
		require.False(t, seen[row.Crop], "%s stands twice", row.Crop)
		seen[row.Crop] = true
		rows = append(rows, row)
	}
	return rows
}

func makeYields(t *testing.T) []yieldLine {
	var lines []yieldLine
	for _, r := range rowsOf(t, "yields.csv") {
		factor, ok := new(big.Rat).SetString(r[5])
		require.True(t, ok, "factor %s", r[5])
		line := yieldLine{cook: r[0] == "cook", over: factor.Num().Int64(), under: factor.Denom().Int64(), YieldRow: YieldRow{
			Crop: measures.MustCrop(r[1]).Name, From: r[2], To: r[3], Note: r[9], Provenance: units.Provenance{Source: r[6], Record: r[7], KnownBy: r[8]}}}
		if r[4] != "" {
			line.Also = strings.Split(r[4], "|")
		}
		lines = append(lines, line)
	}
	return lines
}

func makeKitchenWords(t *testing.T) sorted.Table {
	words := map[string]string{}
	for word := range plainWords {
		for form := range formsOf(word) {
			words[form] = ""
		}
	}
	text, err := os.ReadFile("kitchen_words.txt")
	require.NoError(t, err)
	thing := ""
	for line := range strings.Lines(string(text)) {
		if heading, ok := strings.CutPrefix(line, "# "); ok {
			thing = ""
			if strings.HasPrefix(heading, "things") {
				thing = "thing"
			}
			continue
		}
		for form := range formsOf(line) {
			if thing != "" || words[form] == "" {
				words[form] = thing
			}
		}
	}
	return sorted.Make(words)
}

// eaterWords are the words of the table for the conditions.
var eaterWords = map[string]Conditions{"": 0, "severe": 0, "pregnant": Pregnant, "child": UnderFive, "old": OverSixtyFive,
	"low": LowImmunity, "baby": Baby | UnderFive, "weak": Vulnerable}

func makeSayings(t *testing.T) ([]saying, sorted.Table) {
	var rows []saying
	phrases := map[string]string{}
	for at, r := range rowsOf(t, "sayings.csv") {
		condition, ok := eaterWords[r[3]]
		require.True(t, ok, "sayings.csv: no eater is called %s", r[3])
		s := saying{phrase: r[0], out: parseMarks(r[1]), condition: condition, severe: r[3] == "severe", decline: r[4] == "decline", ask: r[5]}
		for _, food := range parts(r[2]) {
			s.foods = append(s.foods, avoidedName(food))
		}
		rows = append(rows, s)
		phrases[strings.Join(trimmed(guestWords(r[0])), " ")] = strconv.Itoa(at)
	}
	return rows, sorted.Make(phrases)
}

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

// conditionWords are the words of conditions.csv.
var conditionWords = map[string]Conditions{
	"": 0, "weak": Pregnant | UnderFive | OverSixtyFive | LowImmunity | Baby | Vulnerable, "pregnant": Pregnant | Vulnerable,
	"child": UnderFive | Vulnerable, "baby": Baby, "small throat": UnderFive | Baby | Vulnerable, "choking": UnderFive | Baby | Vulnerable,
}

func makeUnfit(t *testing.T) ([]Unfit, sorted.Table) {
	var rows []Unfit
	phrases := map[string]string{}
	for at, r := range rowsOf(t, "conditions.csv") {
		whom, ok := conditionWords[r[2]]
		require.True(t, ok, "conditions.csv: nobody is called %s", r[2])
		rows = append(rows, Unfit{Rule: r[3], Instead: r[4], Provenance: units.Provenance{Source: r[5], KnownBy: r[6]}, unless: parts(r[1]), whom: whom, choking: r[2] == "small throat"})
		for _, words := range parts(r[0]) {
			phrases[strings.Join(wordForms(words), " ")] = strconv.Itoa(at) + "\t" + words
		}
	}
	return rows, sorted.Make(phrases)
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
