package recipes

import (
	"cmp"
	_ "embed"
	"slices"
	"strings"

	"trencher/units"
	"trencher/units/sorted"
)

// Poison is what in a dish can poison its eaters.
type Poison struct {
	Words string // of the dish, as the table has them
	Grave bool   // it does as the dish is written; else it is a thing to mind
	Says  string // why
	Mend  string // what to do
	Rule  string // the keeping rule it rests on
	units.Provenance
}

// PoisonRow is a row of poisons.csv, which holds the words of a dish that name what
// can poison: in an ingredient, its state, a step or the title. A word of "unless" on
// the same line takes the row away ("kidney beans, tinned"). A row that says nothing
// only uses its words up: "soya beans" are no kidney beans.
type PoisonRow struct {
	Words  []string
	Unless []string
	Poison
}

// PoisonRows lists the rows of the table of poisons that say something.
func PoisonRows() []PoisonRow {
	return slices.DeleteFunc(slices.Clone(poisonRows), func(row PoisonRow) bool { return row.Rule == "" })
}

// poisonPhrases finds by its wordForms the row of poisonRows that a phrase stands in,
// and the phrase as it stands there.
//
//go:embed poisons.sorted
var poisonPhrases sorted.Table

// poisonsIn lists the rows a text has phrases of.
func poisonsIn(text string) []PoisonRow {
	return foundIn(wordForms(text), func(words []string) (row PoisonRow, n int) {
		found, n := poisonPhrases.Longest(words)
		if n > 0 {
			at, phrase, _ := strings.Cut(found, "\t")
			row = poisonRows[rowNumber(at)]
			row.Poison.Words = phrase
		}
		return row, n
	})
}

// Poisons lists what in a dish can poison, each thing once, the gravest first:
// in its crops, its other ingredients with their states and alternatives, its
// steps and its name. A word of a step or the name that an ingredient line has
// is that line's to answer for.
func (d Dish) Poisons() []Poison {
	f := poisonFinder{lines: d.lines()}
	for i, line := range f.lines {
		f.read(line, i < len(d.Crops))
	}
	for _, text := range slices.Concat(d.Method, d.Remarks, []string{d.Name}) {
		f.readBeside(text)
	}
	slices.SortStableFunc(f.found, func(a, b Poison) int { return rank(a.Grave) - rank(b.Grave) })
	return f.found
}

func rank(grave bool) int {
	if grave {
		return 0
	}
	return 1
}

// lines are the ingredient lines of a dish, each with its state.
func (d Dish) lines() []string {
	var lines []string
	for _, c := range d.Crops {
		lines = append(lines, c.Crop)
	}
	for _, o := range d.Others {
		lines = append(lines, o.Item+" "+o.State)
		for _, a := range o.Instead {
			lines = append(lines, a.Item+" "+a.State)
		}
	}
	return lines
}

type poisonFinder struct {
	lines []string
	found []Poison
}

// read reads an ingredient line. How a weighed crop is cooked is for the plan to
// judge, see [MustBoil]; of any other line nobody knows.
func (f *poisonFinder) read(line string, crop bool) {
	for _, row := range poisonsIn(line) {
		if why, must := MustBoil(line); crop && must && row.Rule == why.Rule {
			continue
		}
		f.add(line, row)
	}
	if crop {
		return
	}
	f.readParts(line)
	if hasWords(line, "raw") {
		f.readRaw(line)
	}
}

// readParts reads a text for parts of plants that nobody here knows: "moonwort
// leaves".
func (f *poisonFinder) readParts(text string) {
	for _, plant := range unknownPlants(text) {
		f.add(text, PoisonRow{Poison: Poison{Words: plant, Grave: true, Says: "nobody here knows whether it is poisonous", Mend: "Leave it out, unless you sowed it and know that it is eaten.",
			Rule: "flowers-rule", Provenance: units.Provenance{Source: "RHS advice profile 764", KnownBy: "read"}}})
	}
}

// readRaw reads a line that calls something raw that is not eaten so.
func (f *poisonFinder) readRaw(line string) {
	before, told := len(f.found), false
	for _, row := range rawRows {
		if told = told || hasWords(line, row.Crop); !row.May && hasWords(line, row.Crop) {
			f.add(line, PoisonRow{Poison: Poison{Words: "raw " + row.Crop, Grave: true, Says: row.Why.Because, Mend: "Cook it through, or leave it out.",
				Rule: cmp.Or(row.Why.Rule, "raw-list-us"), Provenance: row.Provenance}})
		}
	}
	if !told && len(f.found) == before && isPlantOfWhichNothingIsSaidRaw(line) {
		f.add(line, PoisonRow{Poison: Poison{Words: line, Says: "nobody here knows whether it is eaten raw", Mend: "Cook it through, unless you know that it is.",
			Rule: "raw-list-us", Provenance: units.Practice}})
	}
}

// isPlantOfWhichNothingIsSaidRaw tells that a line is of no animal's food, which
// has rules of its own, and of none that is called raw when it is bought.
func isPlantOfWhichNothingIsSaidRaw(line string) bool {
	if _, bought := foodNamed(line); bought {
		return false
	}
	for _, c := range carriersIn(line) {
		if c.contains&(meat|honey|mark(Milk)|mark(Egg)|mark(Fish)|mark(Crustaceans)|mark(Molluscs)) != 0 {
			return false
		}
	}
	return true
}

// readBeside reads a text that is no ingredient line.
func (f *poisonFinder) readBeside(text string) {
	for _, row := range poisonsIn(text) {
		told := slices.ContainsFunc(f.lines, func(line string) bool { return names(line, row.Poison.Words) })
		if !told {
			f.add(text, row)
		}
	}
	f.readParts(text)
}

// add keeps a poison of a line, unless the line says why it is none. Of one rule
// the grave one is kept.
func (f *poisonFinder) add(line string, row PoisonRow) {
	if row.Rule == "" || slices.ContainsFunc(row.Unless, func(word string) bool { return hasWords(line, word) }) {
		return
	}
	at := slices.IndexFunc(f.found, func(p Poison) bool { return p.Rule == row.Rule })
	switch {
	case at < 0:
		f.found = append(f.found, row.Poison)
	case row.Grave && !f.found[at].Grave:
		f.found[at] = row.Poison
	}
}

// names tells that a line has a food by name, whichever the plural.
func names(line, food string) bool {
	return hasWords(line, food) || CropName(line) == CropName(food)
}
