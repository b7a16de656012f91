package recipes

import (
	"encoding/csv"
	"fmt"
	"hash/crc32"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes/saved"
	"trencher/units"
	"trencher/units/spelled"
)

// A corpusRecipe is a recipe of the corpora as it was read.
type corpusRecipe struct {
	name string // "fresh-3/01-grans.txt"
	Imported
	err error
}

// corpora reads every recipe of the corpora once: what is right of each is said by
// hand in their labels ([TestFreshRecipes], [TestCorpusOfRecipes]).
var corpora = sync.OnceValues(func() (map[string]corpusRecipe, error) {
	read := map[string]corpusRecipe{}
	for _, dir := range append([]string{"../testdata/recipes/corpus"}, freshDirs...) {
		file, err := os.Open(filepath.Join(dir, "labels.csv"))
		if err != nil {
			return nil, err
		}
		rows, err := csv.NewReader(file).ReadAll()
		file.Close()
		if err != nil {
			return nil, err
		}
		for _, row := range rows[1:] {
			options := ImportOptions{System: units.Metric}
			if rows[0][1] == "measures" {
				if options.System, err = units.ParseSystem(row[1]); err != nil {
					return nil, err
				}
				options.Options, options.Grown = saved.Options{Charset: row[2]}, cropNames(row[3])
			}
			data, err := os.ReadFile(filepath.Join(dir, row[0]))
			if err != nil {
				return nil, err
			}
			one := corpusRecipe{name: filepath.Base(dir) + "/" + row[0]}
			one.Imported, one.err = ImportRecipe(row[0], data, options, DefaultKitchen(options.System))
			read[one.name] = one
		}
	}
	return read, nil
})

// ofCorpora is a recipe of the corpora by its folder and file.
func ofCorpora(t *testing.T, dir, file string) (Imported, error) {
	t.Helper()
	all, err := corpora()
	require.NoError(t, err)
	one, ok := all[filepath.Base(dir)+"/"+file]
	require.True(t, ok, file)
	return one.Imported, one.err
}

// Every recipe of the corpora, read as when somebody last read the difference: what
// each line became, what is to be checked, what is asked for, and the dish file. It
// notices what moves, and says nothing of what is right: the labels do.
// `go test ./recipes -run Reviewed -update` writes it anew.
func TestEveryRecipeIsImportedAsReviewed(t *testing.T) {
	all, err := corpora()
	require.NoError(t, err)
	require.Greater(t, len(all), 190)
	var out strings.Builder
	for _, name := range slices.Sorted(maps.Keys(all)) {
		fmt.Fprintf(&out, "===== %s\n", name)
		writeImported(&out, all[name])
	}
	goldenLines(t, "../testdata/recipes/imported.txt", out.String())
}

func writeImported(out *strings.Builder, one corpusRecipe) {
	if one.err != nil {
		fmt.Fprintln(out, one.err)
		return
	}
	fmt.Fprintf(out, "%s; %d; %s\n", one.Name, one.Portions, one.Served)
	uses := ""
	for _, l := range one.Lines {
		uses += l.As.String()[:1]
	}
	fmt.Fprintln(out, "lines", uses)
	for _, l := range one.Lines {
		if l.Group != "" || l.Inside {
			fmt.Fprintf(out, "%d %s inside %t\n", l.Number, l.Group, l.Inside)
		}
		for _, doubt := range l.Doubts {
			fmt.Fprintf(out, "%d ? %s %q: %s: %s\n", l.Number, doubt.Field, doubt.Value, doubt.Problem, doubt.Accepted)
		}
	}
	for _, c := range one.Checks {
		fmt.Fprintf(out, "check %s: %s: %s\n", c.Key, c.Value, c.Accepted)
	}
	for _, q := range one.Open {
		fmt.Fprintf(out, "open %s %q: %s: %s\n", q.Field, q.Value, q.Problem, q.Accepted)
	}
	fmt.Fprint(out, one.Text)
}

// Two in three dishes of the corpora by all that is said of them: whom they
// suit, what in them can poison, what they come to at other portions, how they are
// written for others.
func TestEveryDishIsToldAsReviewed(t *testing.T) {
	all, err := corpora()
	require.NoError(t, err)
	var out strings.Builder
	for _, name := range slices.Sorted(maps.Keys(all)) {
		number := crc32.ChecksumIEEE([]byte(name)) % 720 // its own, whatever recipes come beside it
		if dish := all[name].Dish; len(dish.Crops) > 0 && number%3 > 0 {
			fmt.Fprintf(&out, "===== %s\n", name)
			writeTold(t, &out, dish, int(number))
		}
	}
	goldenLines(t, "../testdata/recipes/dishes-told.txt", out.String())
}

// guestsAtEveryTable are some of whom every dish is asked.
var guestsAtEveryTable = []string{"vegetarian", "no milk, no gluten", "allergic to celery and mustard", "pregnant", "a baby", "no onions"}

func writeTold(t *testing.T, out *strings.Builder, dish Dish, number int) {
	makeup := dish.Makeup()
	contains, may := makeup.Allergens()
	fmt.Fprintln(out, "holds", contains, "may", may, "unknown", makeup.Unknown(), makeup.UnknownServed())
	if number%4 == 0 {
		fmt.Fprintln(out, "because of", dish.Because())
	}
	for _, line := range dish.Tell() {
		fmt.Fprintln(out, "tell", line)
	}
	for _, p := range dish.Poisons() {
		fmt.Fprintln(out, "poison", p.Words, p.Grave, p.Rule)
	}
	for i, words := range guestsAtEveryTable {
		if (i+number)%3 != 0 {
			continue
		}
		diet, err := ParseDiet(words)
		require.NoError(t, err)
		if suits, why := makeup.Suits(diet); !suits {
			fmt.Fprintf(out, "%s: %s\n", diet, why)
		}
	}
	system := units.System(1 + number%4)
	scaled := dish.ScaleToPortions([]int{1, 3, 7, 10, 25}[number%5]*(1+dish.Portions/4), DefaultKitchen(system))
	fmt.Fprintln(out, "for", scaled.Portions.RatString(), system, scaled.Cautions)
	for _, c := range scaled.Crops {
		fmt.Fprintln(out, " ", c.Lifted, "lifted", c.Prepared, "prepared", c.Cooked, "cooked", c.Line.Handwork(), spelled.Line(c.Cooking, nil))
	}
	for _, o := range scaled.Others {
		writeScaled(out, "  ", o)
	}
	if number%16 == 0 {
		text, err := dish.JSONLD()
		require.NoError(t, err)
		fmt.Fprintf(out, "%s\n", text)
	}
}

func writeScaled(out *strings.Builder, mark string, o ScaledLine) {
	m := o.Measured
	fmt.Fprintf(out, "%s%s|%s|%s|%s%% %t %t|%s|%s\n", mark, m.Text, o.Item, m.Exact, m.ErrorPercent, m.Note, m.Flag, m.Alternative, o.Advice)
	for _, other := range o.Instead {
		writeScaled(out, mark+"or ", other)
	}
}

// goldenLines compares with a golden file line by line, so that a difference is short.
func goldenLines(t *testing.T, path, got string) {
	t.Helper()
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Empty(t, spelled.Difference(string(want), got))
}
