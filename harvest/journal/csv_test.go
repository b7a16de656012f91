package journal_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/harvest/tables"
)

var afterTheSeason = time.Date(2031, 12, 31, 0, 0, 0, 0, time.UTC)

func importInto(t *testing.T, dir, text string) (journal.Imported, error) {
	t.Helper()
	folder, err := journal.Open(dir)
	require.NoError(t, err)
	return folder.Import(context.Background(), journal.Source{File: "weights.csv", Data: []byte(text)}, tables.Words{}, options, afterTheSeason)
}

// nets lists what each lift of the plot weighed, in the order of the season.
func nets(t *testing.T, dir string) string {
	t.Helper()
	folder, err := journal.Open(dir)
	require.NoError(t, err)
	entries, _, err := folder.Season(context.Background(), 2031, options)
	require.NoError(t, err)
	var out []string
	for _, e := range entries {
		if l, ok := e.(*harvest.Lift); ok {
			out = append(out, l.Planting+" "+l.Net().String())
		}
	}
	return strings.Join(out, ", ")
}

// A grower's old table of weights, as a spreadsheet saves it: the good rows
// come in, each bad one is named, and a second import adds nothing.
func TestOldTableComesIn(t *testing.T) {
	table := "\xef\xbb\xbfDate,Planting,Weight_kg,Sizes,Condition,Says\r\n" +
		"2031-07-12,tub-3,1.46,,,\"first, and \"\"wet\"\"\"\r\n" +
		"2031-07-12,tub-3,0.8,20-45 mm,scabby,\r\n" +
		"2031-07-12,tub-3,0.8,20-45 mm,scabby,\r\n" + // twice on one day: two bowls
		"2031-07-20,bed-1,heavy,,,\r\n" +
		"2031-07-20,bed-9,1.2,,,\r\n" +
		"20/07/2031,bed-1,1.2,,,\r\n" +
		"2031-03-01,tub-3,1.2,,,\r\n" +
		"2031-07-20,bed-1,1.2,45-20 mm,,\r\n" +
		"2031-07-20,bed-1,1.2\r\n" +
		",,,,,\r\n" +
		"2031-07-21,bed-1,-1,,,\r\n" +
		"2031-07-22,bed-1,2.05,,,last\r\n"
	dir := newPlot(t)
	result, err := importInto(t, dir, table)
	require.NoError(t, err)
	assert.Len(t, result.Written, 4)
	assert.Equal(t, "tub-3 1460, tub-3 800, tub-3 800, bed-1 2050", nets(t, dir))
	var bad []string
	for _, e := range result.Bad {
		bad = append(bad, e.Error())
		assert.NotEmpty(t, e.Hint(), e)
	}
	for i, says := range []string{
		`weights.csv:5:18: gross "heavy kg": `,
		`weights.csv:6:1: planting "bed-9" is not in plantings.yaml`,
		`weights.csv:7:1: at "20/07/2031 12:00": not a time`,
		`weights.csv:8:1: tub-3 was lifted on 2031-03-01, before it was planted`,
		`weights.csv:9:22: sizes "45-20 mm": the sizes run from large to small`,
		`weights.csv:10:1: 3 cells where the header has 6`,
		`weights.csv:12:18: gross "-1 kg": below zero`,
	} {
		require.Greater(t, len(bad), i)
		assert.Contains(t, bad[i], says)
	}
	assert.Len(t, bad, 7)

	again, err := importInto(t, dir, table)
	require.NoError(t, err)
	assert.Empty(t, again.Written)
	assert.Equal(t, 4, again.Already)
	assert.Len(t, again.Bad, len(bad))
	assert.Equal(t, "tub-3 1460, tub-3 800, tub-3 800, bed-1 2050", nets(t, dir))

	more, err := importInto(t, dir, table+"2031-07-23,bed-1,0.1,,,\r\n")
	require.NoError(t, err)
	assert.Len(t, more.Written, 1)
}

// A grower's own layout: a row that holds no day or no planting is named with its
// place, by line, beside those that are found wrong when they are read as lifts.
func TestOldTableNamesItsBadRows(t *testing.T) {
	table := "Day;Bed;Weight (kg)\n12.07.2031;tub-3;1,46\nsome day;tub-3;0,8\n13.07.2031;;0,7\n14.03.2031;tub-3;0,6\n15.07.2031;tub-3;lots\n16.07.2031;tub-3;0,5\n"
	dir := newPlot(t)
	result, err := importInto(t, dir, table)
	require.NoError(t, err)
	assert.Equal(t, "tub-3 1460, tub-3 500", nets(t, dir))
	var bad []string
	for _, e := range result.Bad {
		bad = append(bad, e.Error())
		assert.NotEmpty(t, e.Hint(), e)
	}
	assert.Equal(t, []string{`weights.csv:3:1: "some day": not a day`, `weights.csv:4:1: no planting`,
		`weights.csv:5:12: tub-3 was in no bed by 2031-03-14`, `weights.csv:6:18: gross "lots": it does not begin with a number`}, bad)
}

func TestTablesThatCannotBeRead(t *testing.T) {
	for name, row := range map[string]struct{ table, says string }{
		"empty":             {"", "weights.csv:1:1: no head of a table"},
		"no weights":        {"date,planting,wieght\n", `weights.csv:1:1: no head of a table: no row names a column of dates and one of weights`},
		"column twice":      {"date,at,weight\n", `weights.csv:1:6: column "at" stands twice`},
		"two weights":       {"date,weight,weight_kg\n", `weights.csv:1:13: column "weight_kg" stands twice`},
		"nothing says when": {"planting,weight\n", "weights.csv:1:1: no column says when"},
		"which day":         {"date,planting,weight kg\n3/4/2031,tub-3,1\n", `dates "3/4/2031": day or month first?`},
	} {
		t.Run(name, func(t *testing.T) {
			dir := newPlot(t)
			_, err := importInto(t, dir, row.table)
			require.ErrorContains(t, err, row.says)
			require.NoFileExists(t, filepath.Join(dir, "journal"))
		})
	}
	t.Run("an open quote", func(t *testing.T) {
		result, err := importInto(t, newPlot(t), "date,planting,weight,says\n2031-07-12,tub-3,1 kg,\"wet\n")
		require.NoError(t, err)
		require.Len(t, result.Bad, 1)
		assert.Contains(t, result.Bad[0].Error(), "weights.csv:")
	})
	t.Run("still to come", func(t *testing.T) {
		result, err := importInto(t, newPlot(t), "date,planting,weight\n2032-07-12,tub-3,1 kg\n")
		require.NoError(t, err)
		require.Len(t, result.Bad, 1)
		assert.Equal(t, "weights.csv:2:1: 2032-07-12 is still to come", result.Bad[0].Error())
	})
}

func exported(t *testing.T, dir string) string {
	t.Helper()
	folder, err := journal.Open(dir)
	require.NoError(t, err)
	entries, _, err := folder.Season(context.Background(), 2031, options)
	require.NoError(t, err)
	var out bytes.Buffer
	require.NoError(t, journal.Export(&out, entries))
	return out.String()
}

// A journal with every kind of entry goes out, comes into a new plot, and goes
// out the same; nothing an entry says is lost on the way.
func TestJournalGoesOutAndComesBack(t *testing.T) {
	dir := newPlot(t)
	folder, err := journal.Open(dir)
	require.NoError(t, err)
	season := filepath.Join(dir, "journal", "2031")
	require.NoError(t, os.MkdirAll(season, 0o755))
	lot := "tub-3/2031-0712-1640/20-45-scabby"
	for name, text := range map[string]string{
		"0712-1640-lift-tub-3.yaml":   lift,
		"0712-1640-lift-tub-3-2.yaml": strings.Replace(lift, "700 g", "650 g", 1),
		"0712-1641-lift-tub-3.yaml":   "kind: lift\nplanting: tub-3\nat: 2031-07-12 16:41\nweighings: [{gross: 1 lb 2 oz}]\nmothers: 120 g\nsoil: 90 g\nleft: some\nwhere: trug\nsays: \"a,b \\\"c\\\"\\nd\"\n",
		"0713-0900-use-tub-3.yaml":    "kind: use\nlot: " + lot + "\nweight: 100 g\nat: 2031-07-13T09:00:00+01:00\ndish: Mash, no. 1\n",
		"0713-0901-give-tub-3.yaml":   "kind: give\nlot: " + lot + "\nweight: 100 g\nat: 2031-07-13T09:01:00+01:00\nwhom: yes\n",
		"0713-0902-store-tub-3.yaml":  "kind: store\nlot: " + lot + "\nweight: 100 g\nat: 2031-07-13T09:02:00+01:00\nwhere: shed\n",
		"0713-0903-comp-tub-3.yaml":   "kind: compost\nlot: " + lot + "\nweight: 10 g\nat: 2031-07-13T09:03:00+01:00\nbecause: soft\n",
		"0713-0904-use-tub-3.yaml":    "kind: use\nlot: " + lot + "\nweight: 90 g\nat: 2031-07-13T09:00:00+01:00\nreplaces: 0713-0900-use-tub-3.yaml\n",
		"0713-0930-plan.yaml":         "kind: plan\nplan: k3fqa\nstock: tiskgzzx7q\nmakes: [{dish: Mash, portions: 2}]\nuses: [{lot: " + lot + ", weight: 10 g, dish: Mash}]\nasked: [{field: for, says: \"2 adults, 1 child\"}, {field: serve-at, says: \"18:30\"}]\nat: 2031-07-13T09:30:00+01:00\n",
		"0713-0931-step-s7.yaml":      "kind: step\nplan: k3fqa\nstep: s7\nsays: not-yet\nform: abcd-efgh\nat: 2031-07-13T09:31:00+01:00\n",
		"0713-0905-void.yaml":         "kind: void\nvoids: 0713-0901-give-tub-3.yaml\nat: 2031-07-13T09:05:00+01:00\n",
		"0713-0906-cooked.yaml":       "kind: cooked\nbatch: Mash 1\nfood: mash\namount: 1.2 kg\nat: 2031-07-13T13:00:00+01:00\n",
		"0713-0907-out.yaml":          "kind: out\nbatch: Mash 1\nuntil: 2031-07-13T15:00:00+01:00\nair: 31 C\nat: 2031-07-13T14:00:00+01:00\n",
		"0713-0908-note.yaml":         "kind: note\ndish: Mash\nsays: '= less salt'\nat: 2031-07-13T14:00:00+01:00\n",
		"0713-0910-plan-k3fqa.yaml":   "kind: plan\nplan: k3fqa\nstock: tiskgzzx7q\nmakes:\n  - {dish: \"Mash, no. 1\", portions: 4}\n  - {dish: Salad, portions: 2}\nuses:\n  - {lot: " + lot + ", weight: 59.134 g, dish: \"Mash, no. 1\"}\n  - {lot: " + lot + ", weight: 20 g, dish: Salad}\nat: 2031-07-13T14:00:00+01:00\n",
		"0713-0909-steamed.yaml":      "kind: steamed\ncrop: potato\ntexture: waxy\ncut: cube 25 mm\nuntil: tender\nminutes: 11.5\nat: 2031-07-13T14:00:00+01:00\n",
	} {
		require.NoError(t, os.WriteFile(filepath.Join(season, name), []byte(text), 0o644))
	}
	entries, _, err := folder.Season(context.Background(), 2031, options)
	require.NoError(t, err)
	require.Len(t, entries, 16)

	out := exported(t, dir)
	assert.True(t, strings.HasPrefix(out, strings.Join(journal.Columns, ",")+"\r\n"))
	rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	require.NoError(t, err)
	assert.Len(t, rows, 1+2*6+1+4+4+11, "two lifts of two bowls and four grades, one of one bowl, a plan of two dishes and two uses, one of a dish, a use and two words asked, eleven others")

	again := newPlot(t)
	result, err := importInto(t, again, out)
	require.NoError(t, err)
	require.Empty(t, result.Bad)
	require.Len(t, result.Written, 16)
	assert.Equal(t, out, exported(t, again))

	twice, err := importInto(t, again, out)
	require.NoError(t, err)
	assert.Equal(t, 16, twice.Already)
	assert.Empty(t, twice.Written)
	here, err := importInto(t, dir, out)
	require.NoError(t, err)
	assert.Equal(t, 16, here.Already, "the plot it came from has it already")
}

// Whatever the table, the import ends, panics never, and leaves a journal that
// can be read.
func FuzzImport(f *testing.F) {
	f.Add("date,planting,weight\n2031-07-12,tub-3,1 kg\n")
	f.Add("at,kind,planting,weight_kg,sizes,count,condition\n2031-07-12 10:00,lift,tub-3,1.2,20-45 mm,7,green\n")
	f.Add("entry,kind,at,planting,part,gross,tare,weight\n2031/x,lift,2031-07-12,tub-3,bowl,1 kg,,\n2031/x,lift,2031-07-12,tub-3,grade,,,300 g\n")
	f.Add("at,kind,lot,weight\n2031-07-12,use,tub-3/2031-x/ungraded-sound,1 g\n")
	f.Add("\"")
	f.Fuzz(func(t *testing.T, table string) {
		dir := newPlot(t)
		folder, err := journal.Open(dir)
		require.NoError(t, err)
		result, err := folder.Import(context.Background(), journal.Source{File: "t.csv", Data: []byte(table)}, tables.Words{}, options, afterTheSeason)
		if err != nil {
			return
		}
		years, err := folder.Seasons()
		require.NoError(t, err)
		found := 0
		for _, year := range years {
			entries, _, err := folder.Season(context.Background(), year, options)
			require.NoError(t, err, fmt.Sprintf("%q", table))
			found += len(entries)
		}
		require.Equal(t, len(result.Written), found)
	})
}
