package recipes

import (
	"cmp"
	"encoding/csv"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/units/sorted"
)

// carriers.sorted is what carriers.csv and allergens.csv make it.
func TestCarriersAreMade(t *testing.T) {
	made := makeCarriers(t)
	if *update {
		require.NoError(t, os.WriteFile("carriers.sorted", []byte(made), 0o644))
		return
	}
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
	byName := ingredientTable().byName
	for _, name := range slices.Sorted(maps.Keys(byName)) { // in one order: the first name of a food stays
		row := byName[name]
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
