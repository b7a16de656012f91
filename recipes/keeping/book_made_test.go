package keeping

import (
	"cmp"
	"embed"
	"encoding/json"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"
)

// data is what people write.
//
//go:embed rules/*.yaml authorities.yaml foods.yaml
var data embed.FS

var update = flag.Bool("update", false, "make book.json anew")

// book.json is what the YAML makes it, and so is what is read of it.
func TestBookIsMade(t *testing.T) {
	rows, err := readRows(data)
	require.NoError(t, err)
	made, err := json.Marshal(rows)
	require.NoError(t, err)
	if *update {
		require.NoError(t, os.WriteFile("book.json", made, 0o644))
		return
	}
	require.True(t, string(made) == string(bookJSON), "the rules, authorities or foods were changed: make book.json anew with `go generate ./recipes/keeping`")
	b, err := bookOf(rows)
	require.NoError(t, err)
	require.Equal(t, b, library())
}

// A figure is what a pattern finds, in every value of the rules cut about.
func TestFiguresAreThosePatternsFind(t *testing.T) {
	figure := regexp.MustCompile(`^(-?\d+(?:\.\d+)?)(?:\.\.(-?\d+(?:\.\d+)?))?(?: (\S+))?$`)
	texts := []string{"", " ", "2", "2 ", "2  h", "2 h h", "-1", "--1", "1..", "..1", "1..2..3", "1.5.2 h", "1. h", ".5", "-0.5..-0.2 Cel", "2\th"}
	for _, rule := range Rules() {
		for _, value := range rule.Values {
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

// readBook reads the YAML of files.
func readBook(files fs.FS) (*book, error) {
	rows, err := readRows(files)
	if err != nil {
		return nil, err
	}
	return bookOf(rows)
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
