package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// keepAt runs a command line at a moment, in London, in a folder.
func keepAt(t *testing.T, dir, now string, args ...string) (out, errs string, status int) {
	t.Helper()
	london, err := time.LoadLocation("Europe/London")
	require.NoError(t, err)
	at, err := time.ParseInLocation("2006-01-02T15:04", now, london)
	require.NoError(t, err)
	t.Chdir(dir)
	var stdout, stderr bytes.Buffer
	env := &environment{in: strings.NewReader(""), out: &stdout, err: &stderr, now: func() time.Time { return at }}
	status = run(context.Background(), env, args)
	return stdout.String(), stderr.String(), status
}

// keepPlot is a plot folder with a kitchen and one dish of each kind.
func keepPlot(t *testing.T, kitchen string) string {
	t.Helper()
	dir := t.TempDir()
	write := func(name, text string) {
		path := filepath.Join(dir, name)
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	}
	write("kitchen.yaml", "measures: metric\n"+kitchen)
	write("plantings.yaml", "[]\n")
	write("dishes/salad.yaml", "name: Dill salad\nportions: 4\nserved: cold\ncrops:\n  - {crop: potato, amount: 600 g, prepared: scrubbed, cut: cube 25 mm, cook: steam, until: tender}\nmethod: [Steam the potatoes.]\n")
	return dir
}

func TestKeepGolden(t *testing.T) {
	golden, err := filepath.Abs("../../testdata/keeping")
	require.NoError(t, err)
	plain := t.TempDir()
	cases := map[string][]string{
		"guide-potato-salad.txt": {"keep", "potato salad"},
		"guide-potatoes.txt":     {"keep", "potatoes"},
		"guide-foil.txt":         {"keep", "baked-in-foil"},
		"guide-herb-butter.json": {"keep", "herb-butter", "--json", "--why"},
		"guide-mash-uk.txt":      {"keep", "mash", "--authority", "uk"},
		"verdict-cooling.txt":    {"keep", "--food", "boiled-potatoes", "--cooked-at", "13:00", "--air", "20 C"},
		"verdict-eat-by.txt":     {"keep", "mash", "--cooked-at", "yesterday 13:00", "--chilled-at", "yesterday 14:00", "--fridge", "4 C"},
		"verdict-why.txt":        {"keep", "mash", "--cooked-at", "yesterday 13:00", "--chilled-at", "yesterday 14:00", "--fridge", "4 C", "--air", "33 C", "--why"},
		"verdict-discard.json":   {"keep", "--food", "dressed-salad", "--cooked-at", "2031-07-12T10:00", "--chilled-at", "2031-07-12T11:00", "--out", "2031-07-12T13:00..14:15", "--out", "2031-07-12T18:00..2031-07-12T19:00", "--json"},
		"verdict-unknown.json":   {"keep", "--food", "mash", "--chilled-at", "yesterday 14:00", "--json"},
		"verdict-narrowed.txt":   {"keep", "mash", "--cooked-at", "2031-07-11T10:00", "--chilled-at", "2031-07-11T11:00", "--fridge", "4 C", "--authority", "us"},
	}
	for name, args := range cases {
		t.Run(name, func(t *testing.T) {
			out, errs, status := keepAt(t, plain, "2031-07-13T14:30", args...)
			require.Equal(t, statusDone, status, errs)
			file := filepath.Join(golden, name) // go test ./cmd/trencher -update
			if *update {
				require.NoError(t, os.WriteFile(file, []byte(out), 0o644))
			}
			want, err := os.ReadFile(file)
			require.NoError(t, err)
			require.Equal(t, string(want), out)
			if strings.HasSuffix(name, ".txt") {
				for line := range strings.Lines(out) {
					require.LessOrEqual(t, utf8.RuneCountInString(strings.TrimRight(line, "\n")), 80, line)
				}
			}
		})
	}
}

func TestKeepJSONKeepsTheContract(t *testing.T) {
	out, errs, status := keepAt(t, t.TempDir(), "2031-07-13T12:00", "keep", "--food", "boiled-potatoes",
		"--cooked-at", "2031-07-12T13:00", "--chilled-at", "2031-07-12T14:30", "--json")
	require.Equal(t, statusDone, status, errs)
	var v struct {
		Verdict string
		Until   time.Time
		Rules   []string
		Says    []string
	}
	require.NoError(t, json.Unmarshal([]byte(out), &v))
	assert.Equal(t, "eat-by", v.Verdict)
	assert.Equal(t, "2031-07-14T13:00:00+01:00", v.Until.Format(time.RFC3339))
	assert.Contains(t, v.Rules, "uk-leftovers-48h")
	assert.Contains(t, v.Says, "Allergens: check the labels.")
}

func TestKeepRefusesWhatCannotBe(t *testing.T) {
	cases := []struct {
		name   string
		args   []string
		status int
		says   string
	}{
		{"an unknown food", []string{"keep", "pestoo"}, statusInput, `"pestoo": not a food the rules know`},
		{"an unknown food with a history", []string{"keep", "pestoo", "--cooked-at", "11:00"}, statusInput, `"pestoo": not a food`},
		{"no authority for guidance", []string{"keep", "mash", "--authority", "eu"}, statusInput, `--authority "eu"`},
		{"two foods", []string{"keep", "mash", "--food", "mash"}, statusUsage, "one food"},
		{"a fridge at 15 °C", []string{"keep", "mash", "--cooked-at", "11:00", "--fridge", "15 C"}, statusInput, `--fridge "15 °C": cannot be right`},
		{"a temperature with no unit", []string{"keep", "mash", "--air", "33"}, statusInput, `--air "33": not a temperature`},
		{"a range of temperatures", []string{"keep", "mash", "--air", "20-25 C"}, statusInput, "not a temperature"},
		{"a weight for a temperature", []string{"keep", "mash", "--hot-at", "65 g"}, statusInput, "not a temperature"},
		{"in the future", []string{"keep", "mash", "--cooked-at", "12:01"}, statusInput, "lies in the future"},
		{"out of order", []string{"keep", "mash", "--cooked-at", "11:00", "--chilled-at", "10:00"}, statusInput, "comes before cooked_at"},
		{"a negative spell", []string{"keep", "mash", "--cooked-at", "07:00", "--chilled-at", "08:00", "--out", "10:00..09:30"}, statusInput, "ends before it begins"},
		{"no spell", []string{"keep", "mash", "--out", "10:00"}, statusInput, "not a spell"},
		{"an empty spell", []string{"keep", "mash", "--out", ".."}, statusInput, "not a spell"},
		{"no time", []string{"keep", "mash", "--cooked-at", "noonish"}, statusInput, "not a time"},
		{"no probe", []string{"keep", "mash", "--probe", "30 C"}, statusInput, "not a reading"},
		{"no eater", []string{"keep", "mash", "--eater", "cat"}, statusInput, `--eater "cat"`},
		{"no authority", []string{"keep", "mash", "--cooked-at", "11:00", "--authority", "eu"}, statusInput, `--authority "eu"`},
		{"no tubers", []string{"keep", "mash", "--tubers", "blue"}, statusInput, `--tubers "blue"`},
		{"fewer reheatings than none", []string{"keep", "mash", "--reheated", "-1"}, statusInput, `--reheated "-1"`},
		{"no number of reheatings", []string{"keep", "mash", "--reheated", "once"}, statusUsage, "reheated"},
		{"no plot to list", []string{"keep"}, statusInput, "no plot here"},
		{"a plot that is not there", []string{"keep", "mash", "--cooked-at", "11:00", "--plot", "nowhere"}, statusInput, "no such folder"},
		{"a plot and the demo", []string{"keep", "--plot", ".", "--demo"}, statusUsage, "plot"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			out, errs, status := keepAt(t, t.TempDir(), "2031-07-13T12:00", c.args...)
			assert.Equal(t, c.status, status)
			assert.Contains(t, errs, c.says)
			assert.Empty(t, out)
		})
	}
}

// A local time that the clocks skip or strike twice asks for its zone.
func TestKeepAsksForTheZoneWhereItMatters(t *testing.T) {
	dir := t.TempDir()
	_, errs, status := keepAt(t, dir, "2031-10-26T09:00", "keep", "mash", "--cooked-at", "01:30")
	require.Equal(t, statusInput, status)
	assert.Contains(t, errs, "comes twice")
	assert.Contains(t, errs, "2031-10-26T01:30:00+01:00 or 2031-10-26T01:30:00Z")
	_, errs, status = keepAt(t, dir, "2031-03-30T09:00", "keep", "mash", "--cooked-at", "01:30")
	require.Equal(t, statusInput, status)
	assert.Contains(t, errs, "go forward")
	out, errs, status := keepAt(t, dir, "2031-10-26T02:10", "keep", "mash", "--cooked-at", "2031-10-26T01:30+01:00")
	require.Equal(t, statusDone, status, errs)
	assert.Contains(t, out, "Fine now; into the fridge by 02:30")
}

func TestKeepTakesFridgeAndAuthorityFromTheKitchen(t *testing.T) {
	warm := keepPlot(t, "fridge: 7 C\n")
	history := []string{"keep", "mash", "--cooked-at", "2031-07-12T13:00", "--chilled-at", "2031-07-12T14:00"}
	out, errs, status := keepAt(t, warm, "2031-07-13T09:00", history...)
	require.Equal(t, statusDone, status, errs)
	assert.Contains(t, out, "Throw it out")
	out, _, _ = keepAt(t, warm, "2031-07-13T09:00", append(history, "--fridge", "4 C")...)
	assert.Contains(t, out, "Eat it by Mon 13:00.")
	hot := keepPlot(t, "fridge: 14 C\n")
	_, errs, status = keepAt(t, hot, "2031-07-13T09:00", history...)
	require.Equal(t, statusInput, status)
	assert.Contains(t, errs, `kitchen.yaml:2:9: fridge "14 C"`)
	uk := keepPlot(t, "fridge: 7 C\nauthority: uk\n")
	out, _, _ = keepAt(t, uk, "2031-07-13T09:00", history...)
	assert.Contains(t, out, "Eat it by Mon 13:00.")
	assert.Contains(t, out, "Narrowed to the rules of the UK.")
}

// The life of batches in a journal, from the stove to the last plate.
func TestKeepListsBatchesMostUrgentFirst(t *testing.T) {
	dir := keepPlot(t, "fridge: 4 C\n")
	log := func(now string, args ...string) string {
		t.Helper()
		out, errs, status := keepAt(t, dir, now, args...)
		require.Equal(t, statusDone, status, errs)
		return strings.Join(strings.Fields(out), " ")
	}
	assert.Contains(t, log("2031-07-12T10:00", "keep"), "No cooked batch is in the journal.")
	assert.Contains(t, log("2031-07-12T13:00", "cooked", "dill salad", "--amount", "6"), "Fine now; into the fridge by 15:00")
	chilled := log("2031-07-12T14:00", "chilled", "DILL salad")
	assert.Contains(t, chilled, "Eat it by Mon 13:00.")
	assert.Contains(t, chilled, "In doubt throw it out")
	log("2031-07-12T17:00", "cooked", "beets", "--food", "beetroot")
	log("2031-07-12T17:30", "cooked", "foil", "--food", "baked potatoes")
	log("2031-07-12T18:00", "out", "Dill salad", "--air", "24 C")
	log("2031-07-12T18:40", "eaten", "beets")
	out := log("2031-07-12T18:45", "keep")
	assert.NotContains(t, out, "beets")
	assert.Less(t, strings.Index(out, "foil, cooked"), strings.Index(out, "dill salad, cooked"))
	assert.Contains(t, out, "by 19:30")
	assert.Contains(t, out, "before 20:00")
	log("2031-07-12T19:50", "chilled", "dill salad")
	log("2031-07-12T19:55", "eaten", "dill salad", "--amount", "4")
	out = log("2031-07-12T20:00", "keep", "--json")
	var batches []struct{ Batch, Verdict, Food, Dish string }
	require.NoError(t, json.Unmarshal([]byte(out), &batches))
	require.Len(t, batches, 2)
	assert.Equal(t, "foil", batches[0].Batch)
	assert.Equal(t, "discard", batches[0].Verdict)
	assert.Equal(t, "eat-by", batches[1].Verdict)
	assert.Equal(t, "dressed-salad", batches[1].Food)
	assert.Equal(t, "Dill salad", batches[1].Dish)
	out = log("2031-07-12T20:01", "keep", "--eater", "vulnerable")
	assert.Contains(t, out, "eat it by Sun 13:00", "a day, for the vulnerable")
	assert.Contains(t, out, "Stricter rules for this eater")
	assert.Contains(t, log("2031-07-12T20:01", "keep", "--fridge", "9 C"), "dill salad, cooked Sat 12 Jul 13:00: throw it out")
	log("2031-07-12T20:05", "binned", "foil")
	log("2031-07-12T20:06", "eaten", "dill salad", "--amount", "2")
	assert.Contains(t, log("2031-07-12T20:10", "keep"), "No cooked batch")
	out = log("2031-07-12T20:10", "keep", "--now", "2031-07-12T18:45")
	assert.Contains(t, out, "before 20:00", "as it stood then")
}

func TestReheatedBatchesAreEatenOnce(t *testing.T) {
	dir := keepPlot(t, "fridge: 4 C\n")
	for _, step := range [][]string{
		{"2031-07-12T13:00", "cooked", "mash", "--food", "mash"}, {"2031-07-12T14:00", "chilled", "mash"}, {"2031-07-13T12:00", "reheated", "mash"},
	} {
		_, errs, status := keepAt(t, dir, step[0], step[1:]...)
		require.Equal(t, statusDone, status, errs)
	}
	out, _, _ := keepAt(t, dir, "2031-07-13T12:30", "keep")
	assert.Contains(t, strings.Join(strings.Fields(out), " "), "eat it now, by 14:00; what is left goes.")
}

// What no rule knows is logged under the strictest limits, and that is said.
func TestAnUnknownFoodIsLoggedByTheStrictestLimits(t *testing.T) {
	dir := keepPlot(t, "")
	out, errs, status := keepAt(t, dir, "2031-07-12T13:00", "cooked", "moonrock", "--food", "moonrock")
	require.Equal(t, statusDone, status, errs)
	assert.Contains(t, strings.Join(strings.Fields(out), " "), `No rule knows "moonrock"; it has the strictest limits there are. Ask your food authority.`)
	kept, errs, status := keepAt(t, dir, "2031-07-12T13:00", "keep")
	require.Equal(t, statusDone, status, errs)
	assert.Contains(t, kept, "moonrock")
}

func TestBatchEventsRefuseWhatCannotBe(t *testing.T) {
	dir := keepPlot(t, "")
	_, errs, status := keepAt(t, dir, "2031-07-12T13:00", "cooked", "mash", "--food", "mash")
	require.Equal(t, statusDone, status, errs)
	cases := []struct {
		name string
		args []string
		says string
	}{
		{"no such batch", []string{"chilled", "soup"}, "no batch of that name is there"},
		{"chilled before it was cooked", []string{"chilled", "mash", "--at", "12:00"}, "before mash was cooked"},
		{"in the future", []string{"chilled", "mash", "--at", "23:00"}, "still to come"},
		{"out until before it came out", []string{"out", "mash", "--at", "13:30", "--until", "13:10"}, "before it came out"},
		{"air with no unit", []string{"out", "mash", "--air", "24"}, "not a temperature"},
		{"no food", []string{"cooked", "stew"}, "is no dish of this plot"},
		{"nearly a food", []string{"cooked", "bowl", "--food", "hummous"}, "not a food the rules know"},
		{"raw potatoes", []string{"cooked", "spuds", "--food", "raw potatoes"}, "not a cooked batch"},
		{"an amount of nothing", []string{"eaten", "mash", "--amount", "0"}, "not an amount"},
		{"an amount in words", []string{"eaten", "mash", "--amount", "most"}, "not an amount"},
		{"the demo cannot be written", []string{"chilled", "mash", "--plot", "nowhere"}, "no such folder"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			out, errs, status := keepAt(t, dir, "2031-07-12T14:00", c.args...)
			assert.Equal(t, statusInput, status)
			assert.Contains(t, errs, c.says)
			assert.Empty(t, out)
		})
	}
	files, err := filepath.Glob(filepath.Join(dir, "journal/*/*.yaml"))
	require.NoError(t, err)
	assert.Len(t, files, 1, "nothing was written by what was refused")
}

// A batch is asked after by its name where that is no food's.
func TestKeepOfABatchByItsName(t *testing.T) {
	plot := begunPlot(t)
	_, errs, status := trencher("", "cooked", "Auntie's toss", "--food", "mash", "--plot", plot)
	require.Zero(t, status, errs)
	of, errs, status := trencher("", "keep", "auntie", "--plot", plot)
	require.Zero(t, status, errs)
	all, _, _ := trencher("", "keep", "--plot", plot)
	assert.Equal(t, all, of)
	food, _, _ := trencher("", "keep", "mash", "--plot", plot)
	assert.NotContains(t, food, "Auntie", "the name of a food asks for the food")
	unknown, _, _ := trencher("", "keep", "uncle", "--plot", plot)
	assert.Contains(t, unknown, `no rule knows "uncle"`)
}
