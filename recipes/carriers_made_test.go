package recipes

import (
	"cmp"
	"encoding/csv"
	"iter"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/units/sorted"
)

// carriers.sorted is what carriers.csv and allergens.csv make it.
func TestCarriersAreMade(t *testing.T) {
	made := makeCarriers(t)
	avoid := makeAvoidable(made)
	if *update {
		require.NoError(t, os.WriteFile("carriers.sorted", []byte(made), 0o644))
		require.NoError(t, os.WriteFile("avoidable.sorted", []byte(avoid), 0o644))
		return
	}
	require.True(t, avoid == avoidable, "make avoidable.sorted anew with `go generate ./recipes`")
	require.True(t, made == carrierTable, "carriers.csv or allergens.csv was changed: make carriers.sorted anew with `go generate ./recipes`")
	for words, text := range made.All() {
		c, rest := carrierOf(text)
		back := c.text()
		if rest != "" {
			back += "\t" + rest
		}
		require.Equal(t, text, back, "%q", words)
	}
}

// makeAvoidable puts what can be left out by name under a guest's words for it.
func makeAvoidable(carriers sorted.Table) sorted.Table {
	rows := map[string]string{}
	families := map[string]bool{RawEgg: true, RawThings: true}
	for c := range carriersOf(carriers) {
		for _, family := range c.families {
			families[family] = true
		}
	}
	key := func(words string) string { return strings.Join(guestWords(words), " ") }
	byWords := map[string]string{}
	for _, family := range slices.Sorted(maps.Keys(families)) {
		byWords[key(family)], rows[key(family)] = family, family
	}
	for c := range carriersOf(carriers) {
		if _, family := byWords[key(c.words)]; !family && c.food != "" {
			rows[key(c.words)] = cmp.Or(byWords[key(c.food)], c.food)
		}
	}
	return sorted.Make(rows)
}

// carriersOf are all carriers of a table, by their words.
func carriersOf(table sorted.Table) iter.Seq[carrier] {
	return func(yield func(carrier) bool) {
		for _, text := range table.All() {
			if c, _ := carrierOf(text); !yield(c) {
				return
			}
		}
	}
}

// carrierMaker puts the rows of the tables together, by their wordForms.
type carrierMaker struct {
	carriers, foods map[string]carrier
}

func makeCarriers(t *testing.T) sorted.Table {
	file, err := os.Open("carriers.csv")
	require.NoError(t, err)
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	m := carrierMaker{map[string]carrier{}, map[string]carrier{}}
	for _, r := range records[1:] {
		c := carrier{words: r[0], contains: parseMarks(r[2]), may: parseMarks(r[3]), families: strings.FieldsFunc(r[5], func(c rune) bool { return c == ';' })}
		if r[1] == "food" {
			c.food = fold(cmp.Or(r[4], r[0]))
			m.foods[strings.Join(wordForms(c.words), " ")] = c
		}
		m.add(c)
	}
	foods, names := makeCompositions(t)
	for name, at := range names.All() { // in one order: the first name of a food stays
		row := foods[rowNumber(at)]
		called := m.carriers[strings.Join(wordForms(row.Row), " ")].food
		m.add(carrier{words: name, contains: row.contains, may: row.may, food: cmp.Or(called, fold(row.Row))})
	}
	rows := map[string]string{}
	for words, c := range m.carriers {
		rows[words] = c.text()
		switch food, named := m.foods[words]; {
		case named && food.text() == c.text():
			rows[words] += "\t" + sameFood
		case named:
			rows[words] += "\t" + food.text()
		}
	}
	return sorted.Make(rows)
}

// add joins a phrase with what another row of the same words brings.
func (m *carrierMaker) add(c carrier) {
	forms := wordForms(c.words)
	words := strings.Join(forms, " ")
	if known, ok := m.carriers[words]; ok {
		c.contains, c.may = c.contains|known.contains, c.may|known.may
		c.food, c.families = cmp.Or(known.food, c.food), append(slices.Clone(known.families), c.families...)
	}
	m.carriers[words] = c
}

// text is a carrier as carriers.sorted has it.
func (c carrier) text() string {
	return strings.Join([]string{c.words, strconv.FormatUint(uint64(c.contains), 36), strconv.FormatUint(uint64(c.may), 36), c.food, strings.Join(c.families, ";")}, "\t")
}
