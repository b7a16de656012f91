package keeping

import (
	"bytes"
	"cmp"
	"embed"
	"encoding/csv"
	"flag"
	"fmt"
	"io/fs"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"trencher/units/literal"
	"trencher/units/sorted"

	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"
)

// data is what people write.
//
//go:embed rules/*.yaml authorities.yaml foods.yaml
var data embed.FS

// wordData is what people write of the words of a dish.
//
//go:embed words.csv
var wordData []byte

var update = flag.Bool("update", false, "make library.go anew")

// library.go is what the YAML makes it, and words.csv with words.sorted.
func TestBookIsMade(t *testing.T) {
	b, err := readBook(data)
	require.NoError(t, err)
	rows, words := makeKindWords(t)
	require.NoError(t, literal.Keep(map[string]string{
		"library.go": string(literal.File("keeping", "rules/*.yaml, authorities.yaml, foods.yaml and words.csv", []string{"trencher/units"},
			literal.Table{Name: "library", About: "is everything the rules come to.", Rows: b},
			literal.Table{Name: "kindRows", About: "are what words make of a dish.", Rows: rows})),
		"words.sorted": string(words),
	}, *update))
}

// makeKindWords reads words.csv, and finds its rows by the forms of their phrases.
func makeKindWords(t *testing.T) ([]kindRow, sorted.Table) {
	records, err := csv.NewReader(bytes.NewReader(wordData)).ReadAll()
	require.NoError(t, err)
	var rows []kindRow
	phrases := map[string]string{}
	for at, r := range records[1:] {
		row := kindRow{kind: r[1], where: r[2], needs: r[4]}
		if r[3] != "" {
			row.unless = strings.Split(r[3], ";")
		}
		rows = append(rows, row)
		for _, phrase := range strings.Split(r[0], ";") {
			forms := strings.Join(formsOf(phrase), " ")
			phrases[forms] = strings.TrimSpace(phrases[forms] + " " + strconv.Itoa(at))
		}
	}
	return rows, sorted.Make(phrases)
}

// A figure is what a pattern finds, in every value of the rules cut about.
func TestFiguresAreThosePatternsFind(t *testing.T) {
	figure := regexp.MustCompile(`^(-?\d+(?:\.\d+)?)(?:\.\.(-?\d+(?:\.\d+)?))?(?: (\S+))?$`)
	texts := []string{"", " ", "2", "2 ", "2  h", "2 h h", "-1", "--1", "1..", "..1", "1..2..3", "1.5.2 h", "1. h", ".5", "-0.5..-0.2 Cel", "2\th"}
	for _, rule := range Rules() {
		for _, value := range rule.Figures {
			for cut := range value.Text {
				texts = append(texts, value.Text, value.Text[:cut], value.Text[cut:])
			}
		}
	}
	for _, text := range texts {
		var got, want Value
		require.NoError(t, got.UnmarshalText([]byte(text)), "%q", text)
		want.Text = text
		if parts := figure.FindStringSubmatch(text); parts != nil {
			want.Low, _ = strconv.ParseFloat(parts[1], 64)
			want.High, _ = strconv.ParseFloat(cmp.Or(parts[2], parts[1]), 64)
			want.Unit, want.number = parts[3], true
		}
		require.Equal(t, want, got, "%q", text)
	}
}

// bookRows is everything, as its files have it.
type bookRows struct {
	Rules       []ruleRow
	Authorities map[Authority]authorityRow
	Foods       []foodRow
	Sections    []sectionRow
}

// bookMaker puts a book together.
type bookMaker struct {
	book
	ids map[string]int // of the rules
}

// readBook reads the YAML of files.
func readBook(files fs.FS) (book, error) {
	rows, err := readRows(files)
	if err != nil {
		return book{}, err
	}
	m := &bookMaker{ids: map[string]int{}}
	for _, row := range rows.Rules {
		r := row.rule()
		m.ids[r.ID] = len(m.rules)
		m.rules = append(m.rules, r)
	}
	m.byID = placesOf(m.ids)
	if err := m.addAuthorities(rows.Authorities); err != nil {
		return book{}, err
	}
	err = m.addFoods(rows)
	return m.book, err
}

func placesOf(at map[string]int) []place {
	var places []place
	for _, name := range slices.Sorted(maps.Keys(at)) {
		places = append(places, place{name, at[name]})
	}
	return places
}

// figureOf reads one figure of a rule.
func (m *bookMaker) figureOf(id, name string) (Value, error) {
	i, ok := m.ids[id]
	if !ok {
		return Value{}, fmt.Errorf("no rule %q", id)
	}
	value := m.rules[i].Figure(name)
	if !value.number {
		return Value{}, fmt.Errorf("rule %s has no figure %q", id, name)
	}
	return value, nil
}

func readRows(files fs.FS) (all bookRows, err error) {
	names, err := fs.Glob(files, "rules/*.yaml")
	if err != nil {
		return all, err
	}
	slices.Sort(names)
	file := map[string]string{}
	for _, name := range names {
		var rows []ruleRow
		if err := readYAML(files, name, &rows); err != nil {
			return all, err
		}
		for _, row := range rows {
			if file[row.ID] != "" {
				return all, fmt.Errorf("%s: rule %s stands twice", name, row.ID)
			}
			file[row.ID] = name
		}
		all.Rules = append(all.Rules, rows...)
	}
	if err := readYAML(files, "authorities.yaml", &all.Authorities); err != nil {
		return all, err
	}
	var foods struct {
		Foods    []foodRow    `yaml:"foods"`
		Sections []sectionRow `yaml:"sections"`
	}
	err = readYAML(files, "foods.yaml", &foods)
	all.Foods, all.Sections = foods.Foods, foods.Sections
	return all, err
}

func readYAML(files fs.FS, name string, into any) error {
	file, err := files.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	decoder := yaml.NewDecoder(file)
	decoder.KnownFields(true)
	if err := decoder.Decode(into); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}

// Figure is the figure of that name; the zero Value where the rule has none.
func (r Rule) Figure(name string) Value {
	for _, f := range r.Figures {
		if f.Name == name {
			return f.Value
		}
	}
	return Value{}
}
