package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What matters most needs no flags: words that stand alone say the same as flags do,
// but for the flag's name where one is wrong.
func TestWordsSayWhatFlagsDo(t *testing.T) {
	for _, row := range []struct{ words, flags []string }{
		{[]string{"steam", "carrot", "slice", "5", "mm"}, []string{"steam", "--crop", "carrot", "--cut", "slice 5 mm"}},
		{[]string{"steam", "carrot", "slice 5 mm", "--until", "soft"}, []string{"steam", "--crop", "carrot", "--cut", "slice 5 mm", "--until", "soft"}},
		{[]string{"steam", "cube", "25", "mm"}, []string{"steam", "--cut", "cube 25 mm"}},
		{[]string{"boil", "sweet", "potato", "cube", "20", "mm"}, []string{"boil", "--crop", "sweet potato", "--cut", "cube 20 mm"}},
		{[]string{"blanch", "green", "beans"}, []string{"blanch", "--crop", "green beans"}},
		{[]string{"steam", "spaghetti", "5", "mm"}, []string{"steam", "--crop", "spaghetti", "--cut", "5 mm"}},
	} {
		out, errs, status := trencher("", row.words...)
		wantOut, wantErrs, wantStatus := trencher("", row.flags...)
		wantErrs = strings.TrimPrefix(wantErrs, "--crop ")
		assert.Equal(t, []any{wantOut, wantErrs, wantStatus}, []any{out, errs, status}, strings.Join(row.words, " "))
	}
}

// Bowls stand behind their planting, each a word, or one in several words.
func TestBowlsBehindTheirPlanting(t *testing.T) {
	for _, row := range []struct {
		words []string
		net   string
	}{
		{[]string{"tub-1", "2.1 kg"}, "2.10 kg lifted"},
		{[]string{"tub-1", "2.1", "kg"}, "2.10 kg lifted"},
		{[]string{"tub-1", "1.46 kg - 0.31 kg", "0.98 kg - 0.31 kg"}, "1.82 kg lifted"},
		{[]string{"tub-1", "1.46", "-", "0.31", "kg"}, "1.15 kg lifted"},
	} {
		out, errs, status := trencher("", append([]string{"lift", "--sure", "--plot", begunPlot(t)}, row.words...)...)
		require.Zero(t, status, errs)
		assert.Contains(t, out, row.net, strings.Join(row.words, " "))
	}
}

// What needs no quotes is the same in them: the weight behind a lot, an amount alone.
func TestWordsNeedNoQuotes(t *testing.T) {
	for _, row := range [][2][]string{
		{{"use", "tub-1/45-65-scabby", "20", "g"}, {"use", "tub-1/45-65-scabby", "20 g"}},
		{{"give", "tub-1/45-65-scabby", "0.1", "kg", "--to", "Ann"}, {"give", "tub-1/45-65-scabby", "0.1 kg", "--to", "Ann"}},
		{{"reweigh", "tub-1/45-65-scabby", "500", "g"}, {"reweigh", "tub-1/45-65-scabby", "500 g"}},
		{{"convert", "2", "kg"}, {"convert", "2 kg"}},
		{{"convert", "2", "lb", "4", "oz"}, {"convert", "2 lb 4 oz"}},
		{{"convert", "1", "pint", "UK"}, {"convert", "1 pint UK"}},
	} {
		var said [2]string
		for i, words := range row {
			if words[0] != "convert" {
				words = append(words, "--plot", begunPlot(t))
			}
			out, errs, status := trencher("", words...)
			require.Zero(t, status, "%v: %s", words, errs)
			said[i], _, _ = strings.Cut(out, "written to ")
		}
		assert.Equal(t, said[1], said[0], "%v", row[0])
	}
	out, _, _ := trencher("", "convert", "12", "dozen")
	assert.Equal(t, "12 = 1 dozen\n", out, "a count is asked for in another")
}

// What is said twice, or cannot be read, is told and nothing is written.
func TestWordsRefused(t *testing.T) {
	plot := begunPlot(t)
	stock, _, _ := trencher("", "stock", "--plot", plot)
	for _, row := range []struct {
		words []string
		says  string
	}{
		{[]string{"lift", "tub-1", "--planting", "bed-2", "--weighing", "1 kg"}, "named twice: tub-1, and --planting bed-2"},
		{[]string{"lift", "tub-1", "1 kg", "--weighing", "1 kg"}, "given twice: as 1 kg, and by --weighing"},
		{[]string{"lift", "tub-1"}, "--weighing is missing"},
		{[]string{"lift", "tub-1", "a", "few"}, `"a few"`},
		{[]string{"steam", "carrot", "--crop", "potato"}, "given twice: as carrot, and by --crop"},
		{[]string{"lift", "1 kg", "tub-1"}, "the planting comes before its bowls, as: trencher lift tub-1 \"1 kg\""},
		{[]string{"steam", "25mm"}, "\"25mm\": not a cut this tool knows"},
		{[]string{"steam", "potato", "25mm", "cubes"}, "\"25mm cubes\": not a cut this tool knows"},
		{[]string{"keep", "mash", "cooked", "12:00"}, "\"12:00\" is a time: say what was then by its flag, as --cooked-at 12:00"},
		{[]string{"journal", "exprot"}, "\"exprot\" is not a command; write export, if that is meant; `trencher journal --help` lists them"},
		{[]string{"journal", "burn"}, "\"burn\" is not a command; `trencher journal --help` lists them"},
		{[]string{"stokc"}, "\"stokc\" is not a command; write stock, if that is meant; `trencher --help` lists them"},
		{[]string{"stock", "potato", "2 kg"}, "cannot use the words \"potato\", \"2 kg\""},
	} {
		_, errs, status := trencher("", append(row.words, "--plot", plot)...)
		require.NotZero(t, status, strings.Join(row.words, " "))
		assert.Contains(t, errs, row.says)
	}
	after, _, _ := trencher("", "stock", "--plot", plot)
	assert.Equal(t, stock, after)
}

// begunPlot is a plot as it is begun.
func begunPlot(t *testing.T) string {
	dir := filepath.Join(t.TempDir(), "garden")
	_, errs, status := trencher("", "begin", dir)
	require.Zero(t, status, errs)
	return dir
}

// A value that cannot be meant is told, not taken for one that was left out; a crop
// told in words goes with a cut told by its flag.
func TestNothingIsTakenForLeftOut(t *testing.T) {
	dir := begunPlot(t)
	card := filepath.Join(t.TempDir(), "card.txt")
	require.NoError(t, os.WriteFile(card, []byte("Soup\nServes 4\n\nIngredients\n500 g potatoes\n\nMethod\nBoil the potatoes for 20 minutes.\n"), 0o644))
	table := filepath.Join(t.TempDir(), "own.csv")
	require.NoError(t, os.WriteFile(table, []byte("at,planting,weight\n2031-07-12,bed-3,1.5 kg\n"), 0o644))
	for _, row := range []struct {
		words  []string
		status int
		says   string
	}{
		{[]string{"dish", "Spring onion mash", "--portions", "0", "--plot", dir}, statusInput, `--portions "0": no number of portions`},
		{[]string{"next", "--season", "0", "--plot", dir}, statusInput, `--season "0": no year of a harvest`},
		{[]string{"dish", "import", card, "--cook", "leek=steam", "--plot", dir}, statusInput, "--cook \"leek\": no weighed crop of the recipe is called that\nhint: write one of potato"},
		{[]string{"dish", "import", "", "--plot", dir}, statusUsage, "word 1 of `trencher dish import` is empty"},
		{[]string{"begin", ""}, statusUsage, "word 1 of `trencher begin` is empty"},
		{[]string{"dish", "import", card, "--portions", "0", "--plot", dir}, statusInput, "--portions \"0\": no number of portions\nhint: write a whole number from 1 to 500, or leave it out for the recipe's own"},
		{[]string{"dish", "import", card, "--name", strings.Repeat("a", 121), "--plot", dir}, statusInput, `--name "aaa`},
		{[]string{"dish", "import", card, "--name", "So\x1bup", "--plot", dir}, statusInput, `--name "So\x1bup": a hidden character is in it`},
		{[]string{"journal", "import", table, "--dates", "later", "--plot", dir}, statusInput, `--dates "later": no order of a date`},
		{[]string{"steam", "--cut", "cube 25 mm", "--at", "12:00"}, statusUsage, "--at goes with --found"},
		{[]string{"steam", "--cut", "cube 25 mm", "--tier", "1"}, statusUsage, "--tier goes with --found"},
		{[]string{"steam", "--cut", "cube 25 mm", "--room", "20 C"}, statusUsage, "--room goes with --cool"},
		{[]string{"share", "--as-shown", "k3fqa", "--plot", dir}, statusUsage, "--as-shown goes with --take"},
		{[]string{"pocket", dir, "--port", "80"}, statusUsage, "--port goes with --serve"},
		{[]string{"keep", "mash", "--cooked-at", "yesterday 12:00", "--probe", "14:30="}, statusInput, `--probe "14:30=": not a reading`},
		{[]string{"keep", "mash", "--cooked-at", "yesterday 12:00", "--probe", "=25 C"}, statusInput, `--probe "=25 C": not a reading`},
		{[]string{"note", "mash", " ", "--plot", dir}, statusUsage, "word 2 of `trencher note` is empty"},
		{[]string{"steam", "carrot", "--crop", "leek", "--cut", "slice 5 mm"}, statusUsage, "the crop is given twice: as carrot, and by --crop"},
		{[]string{"steam", "carrot", "slice 5 mm", "--cut", "slice 6 mm"}, statusUsage, "the cut is given twice: as slice 5 mm, and by --cut"},
	} {
		out, errs, status := trencher("", row.words...)
		assert.Empty(t, out, row.words)
		assert.Equal(t, row.status, status, row.words)
		assert.True(t, strings.HasPrefix(errs, row.says), "%v: %s", row.words, errs)
	}
	out, _, status := trencher("", "steam", "carrot", "--cut", "slice 5 mm")
	want, _, _ := trencher("", "steam", "--crop", "carrot", "--cut", "slice 5 mm")
	assert.Zero(t, status)
	assert.Equal(t, want, out)
	_, errs, status := trencher("", "dish", "import", card, "--cook", "potatoes=boil 25 min", "--plot", dir)
	assert.Zero(t, status, errs)
}
