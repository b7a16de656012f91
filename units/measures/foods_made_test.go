package measures

import (
	"flag"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/units/sorted"
)

var update = flag.Bool("update", false, "make the sorted tables anew")

// names.sorted is what names.csv and crops.csv make it.
func TestFoodsAreMade(t *testing.T) {
	m := makeFoods(t)
	made := string(sorted.Make(m.rows))
	if *update {
		require.NoError(t, os.WriteFile("names.sorted", []byte(made), 0o644))
		return
	}
	require.True(t, made == string(foodTable), "names.csv or crops.csv was changed: make names.sorted anew with `go generate ./units/measures`")
	require.Equal(t, m.longest, longestFood)
	for key, text := range sorted.Table(foodTable).All() {
		if key[0] != '+' && key[0] != '*' {
			require.Equal(t, text, foodOf(text).text(), "%q", key)
		}
	}
}

var foodKinds = map[string]FoodKind{"food": FoodItself, "same": SameFood, "sort": SortOfFood, "kin": KinOfFood, "form": FormOfFood}

var wordKinds = map[string]wordKind{"quality": qualityWord, "apart": apartWord, "state": stateWord, "changes": changingWord}

// foodMaker puts the rows of the tables together.
type foodMaker struct {
	rows    map[string]string
	longest int
}

func makeFoods(t *testing.T) *foodMaker {
	text, err := os.ReadFile("names.csv")
	require.NoError(t, err)
	m := &foodMaker{rows: map[string]string{}}
	for row := range readTable("names.csv", string(text)) {
		key := lookupKey(row["name"])
		if kind := wordKinds[row["kind"]]; kind != 0 {
			m.rows["+"+key] = strconv.Itoa(int(kind))
			continue
		}
		require.Contains(t, foodKinds, row["kind"], "names.csv: no such kind of name")
		m.add(row, foodKinds[row["kind"]], key)
	}
	for _, crop := range Crops() { // a crop is a food by all its names
		for _, name := range append([]string{crop.Name}, crop.Names...) {
			m.spell(lookupKey(name), Food{Name: name, Family: crop.InKitchen().Name, Kind: SortOfFood, Good: lookupKey(name)})
		}
	}
	return m
}

func (m *foodMaker) add(row map[string]string, kind FoodKind, key string) {
	food := Food{Name: row["name"], Family: row["food"], Kind: kind, Region: row["region"], Animal: listOf(row["animal"]),
		Tags: listOf(row["tags"]), weighsAs: row["weighs_as"], Good: key}
	switch kind {
	case FoodItself:
		food.Family = food.Name
		words := append(listOf(row["before"]), listOf(row["after"])...)
		for i, word := range words {
			words[i] = lookupKey(word)
		}
		m.rows["*"+key] = strings.Join(words, ";")
	case SameFood:
		food.Good = lookupKey(food.Family)
		if food.weighsAs != "" {
			food.Good = lookupKey(food.weighsAs)
		}
	}
	food.Good = singular(food.Good)
	m.spell(key, food)
}

// spell puts a name and its singular into the table; the first row of a name is
// the one that counts.
func (m *foodMaker) spell(key string, food Food) {
	for _, form := range []string{key, singular(key)} {
		if _, taken := m.rows[form]; !taken {
			m.rows[form] = food.text()
		}
	}
	m.longest = max(m.longest, len(strings.Fields(key)))
}

// text is a food as names.sorted has it.
func (f Food) text() string {
	return strings.Join([]string{f.Name, f.Family, strconv.Itoa(int(f.Kind)), f.Good, f.Region, strings.Join(f.Animal, ";"), strings.Join(f.Tags, ";"), f.weighsAs}, "\t")
}
