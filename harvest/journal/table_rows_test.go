package journal

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/harvest/tables"
)

var endOfSeason = time.Date(2031, 12, 31, 0, 0, 0, 0, time.UTC)

// looked is what is said of a table: an error, or its bad rows and how many
// entries are new.
func looked(t *testing.T, f *Folder, table string, words tables.Words) (fresh int, says []string) {
	t.Helper()
	result, err := f.Look(t.Context(), Source{File: "t.csv", Data: []byte(table)}, words, Options{}, endOfSeason)
	if err != nil {
		return 0, []string{err.Error()}
	}
	for _, bad := range result.Bad {
		says = append(says, bad.Error())
	}
	return len(result.Entries), says
}

// Every bad row is told at its own line and cell, in the order of the lines,
// whoever found it out.
func TestBadRowsOfATable(t *testing.T) {
	for name, row := range map[string]struct {
		table string
		words tables.Words
		fresh int
		says  []string
	}{
		"rows too short and too long": {table: "at,planting,weight\n2031-07-12,tub-3,1 kg\n2031-07-12,tub-3\n2031-07-12,tub-3,1 kg,wet\n2031-07-13,tub-3,1 kg\n", fresh: 2,
			says: []string{"t.csv:3:1: 2 cells where the header has 3", "t.csv:4:1: 4 cells where the header has 3"}},
		"found out one after the other": {table: "at,planting,weight\n2031-07-12,tub-3,much\n2031-07-13,tub\"3,1 kg\n2031-07-14,tub-3\n2031-07-15,tub-3,1 kg\n2032-07-15,tub-3,1 kg\n", fresh: 1,
			says: []string{`t.csv:2:18: gross "much"`, `t.csv:3:15: bare " in non-quoted-field`, "t.csv:4:1: 2 cells", "t.csv:6:1: 2032-07-15 is still to come"}},
		"a first row too short": {table: "at,planting,weight\n2031-07-12\n2031-07-13,tub-3,1 kg\n", fresh: 1, says: []string{"t.csv:2:1: 1 cells where the header has 3"}},
		"cells of two lines": {table: "says,at,planting,weight\n\"wet\nday\",2032-07-12,tub-3,1 kg\n\"wet\nday\",2031-07-12\n", fresh: 0,
			says: []string{"t.csv:2:6: 2032-07-12 is still to come", "t.csv:4:1: 2 cells where the header has 4"}},
		"a grade of nothing": {table: "entry,at,planting,part,gross,sizes,weight\n2031/a,2031-07-12,tub-3,bowl,1 kg,,\n2031/a,2031-07-12,tub-3,grade,,,\n", fresh: 0,
			says: []string{`t.csv:3:32: grades: the key "weight" is missing`}},
		"a dish of nothing": {table: "entry,kind,at,plan,part,dish,portions,lot,weight\n2031/a,plan,2031-07-12,k3fqa,make,,,,\n2031/a,plan,2031-07-12,k3fqa,use,,,tub-3/2031-0712-1640/ungraded-sound,1 g\n", fresh: 0,
			says: []string{`t.csv:2:35: makes: the key "dish" is missing`, `t.csv:2:35: makes: the key "portions" is missing`}},
		"no such column": {table: "at,planting,weight\n2031-07-12,,1 kg\n", fresh: 0, says: []string{`t.csv:2:1: the key "planting" is missing`}},
		"a character set nobody knows": {table: "day;plot;kg\n12.07.2031;tub-3;1\n", words: tables.Words{Charset: "runes"},
			says: []string{`charset "runes": `}},
		"a date order nobody knows": {table: "day;plot;kg\n12.07.2031;tub-3;1\n", words: tables.Words{Dates: "odd"},
			says: []string{`dates "odd": `}},
	} {
		t.Run(name, func(t *testing.T) {
			f := device(t)
			fresh, says := looked(t, f, row.table, row.words)
			require.Len(t, says, len(row.says), "%q", says)
			for i, want := range row.says {
				assert.True(t, strings.HasPrefix(says[i], want), "%s, not %s", says[i], want)
			}
			assert.Equal(t, row.fresh, fresh)
			_, err := f.Import(t.Context(), Source{File: "t.csv", Data: []byte(row.table)}, row.words, Options{}, endOfSeason)
			if err == nil {
				entries, _, err := f.Season(t.Context(), 2031, Options{})
				require.NoError(t, err)
				assert.Len(t, entries, fresh)
			}
		})
	}
}

// As many rows as are taken are read, whatever is in them, and not one more.
func TestMostRowsOfATable(t *testing.T) {
	f := device(t)
	for name, row := range map[string]string{"empty": ",,\n", "broken": "a\"b,,\n"} {
		table := "at,planting,weight\n2031-07-12,tub-3,1 kg\n" + strings.Repeat(row, tables.MostRows-1)
		if name == "broken" {
			table += row // the good one is not among the bad
		}
		fresh, says := looked(t, f, table, tables.Words{})
		require.Equal(t, 1, fresh, "%s: %d said, %.100q", name, len(says), says)
		_, says = looked(t, f, table+row, tables.Words{})
		require.Equal(t, []string{tables.TooMany("t.csv").Error()}, says, name)
	}
}

// What is no lift has its weight from a column of bare numbers, too.
func TestBareWeightsOfOtherEntries(t *testing.T) {
	f := device(t)
	table := "kind,at,planting,lot,weight_g\nlift,2031-07-12 16:40,tub-3,,1000\nuse,2031-07-13,,tub-3/2031-0712-1640/ungraded-sound,400\n"
	result, err := f.Import(t.Context(), Source{File: "t.csv", Data: []byte(table)}, tables.Words{}, Options{}, endOfSeason)
	require.NoError(t, err)
	require.Empty(t, result.Bad)
	require.Len(t, result.Entries, 2)
	assert.Equal(t, "400 g", result.Entries[1].(*harvest.Move).Weight.String())
}

// Rows of two seasons go to two folders, wherever they stand in the table.
func TestRowsOfTwoSeasons(t *testing.T) {
	f := device(t)
	table := "at,planting,weight\n2031-07-12,tub-3,1 kg\n2031-07-13,tub-3,2 kg\n2032-07-14,tub-3,3 kg\n2031-07-15,tub-3,4 kg\n"
	result, err := f.Import(t.Context(), Source{File: "t.csv", Data: []byte(table)}, tables.Words{}, Options{}, endOfSeason.AddDate(1, 0, 0))
	require.NoError(t, err)
	assert.Equal(t, []string{"journal/2031/0712-1200-lift-tub-3.yaml", "journal/2031/0713-1200-lift-tub-3.yaml", "journal/2032/0714-1200-lift-tub-3.yaml", "journal/2031/0715-1200-lift-tub-3.yaml"}, result.Written)
	for _, file := range result.Written {
		assert.FileExists(t, f.dir+"/"+file)
	}
}

// A row that rests on a bad one is bad itself, and so on down a chain; where the
// chain has no end within reason the table is refused, and nothing of it comes in.
func TestRowsThatRestOnBadOnes(t *testing.T) {
	chain := func(rows int) string {
		var table strings.Builder
		table.WriteString("entry,at,planting,weight,replaces\n2031/good,2031-07-11,tub-3,1 kg,\n")
		for n := range rows { // each is judged once the one that corrects it is out
			fmt.Fprintf(&table, "2031/l%d,2031-07-12,tub-9,1 kg,l%d.yaml\n", n+1, n)
		}
		return table.String()
	}
	for rows, says := range map[int]string{
		1: "t.csv:3:1: ", 11: "t.csv:3:1: ",
		12: "t.csv: its rows contradict each other, and leaving out those that do leaves others without what they rest on, again and again",
	} {
		fresh, told := looked(t, device(t), chain(rows), tables.Words{})
		require.NotEmpty(t, told)
		assert.True(t, strings.HasPrefix(told[0], says), "%d: %q", rows, told)
		if rows < 12 {
			assert.Len(t, told, rows)
			assert.Equal(t, 1, fresh)
		}
	}
}

// A journal that is at odds with itself takes no table before it is put right; what
// is wrong is told of its own files.
func TestTableBesideAJournalAtOdds(t *testing.T) {
	f := device(t)
	lifted(t, f, 0, 500)
	writeNote(t, f, "journal/2031/0720-1000-lift-tub-9.yaml", "kind: lift\nplanting: tub-9\nat: 2031-07-20T10:00:00Z\nweighings: [{gross: 1 kg}]\n")
	_, says := looked(t, f, "at,planting,weight\n2031-07-12,tub-3,1 kg\n", tables.Words{})
	require.Len(t, says, 1)
	assert.Contains(t, says[0], `journal/2031/0720-1000-lift-tub-9.yaml:2:11: planting "tub-9" is not in plantings.yaml`)
}

// The head of a table by itself: what is no column, what stands twice, what is
// missing, each at its place.
func TestHeadOfATable(t *testing.T) {
	for head, says := range map[string]string{
		"":                           "t.csv:1:1: no head",
		"at,colour\n":                `t.csv:1:4: unknown column "colour"`,
		"at,weight,Weight\n":         `t.csv:1:11: column "Weight" stands twice`,
		"planting,weight\n":          "t.csv:1:1: no column says when",
		"Date , WEIGHT_KG ,tare_g\n": "",
	} {
		read := &importing{file: "t.csv"}
		err := read.read([]byte("\xef\xbb\xbf" + head))
		if says == "" {
			require.NoError(t, err)
			continue
		}
		require.Error(t, err, head)
		assert.True(t, strings.HasPrefix(err.Error(), says), "%s: %s", head, err)
	}
	told := &importing{file: "t.csv"}
	told.misread(&groupText{places: []cell{{7, 3}}}, errKilled)
	require.Len(t, told.result.Bad, 1)
	assert.Equal(t, "t.csv:7:1: killed", told.result.Bad[0].Error())
}

// A table that its reader stops taking is told of, be it short or long.
func TestExportThatIsRefused(t *testing.T) {
	note := &harvest.Note{Header: harvest.Header{At: endOfSeason}, Dish: "Mash", Says: strings.Repeat("dry ", 100)}
	entries := make([]harvest.Entry, 40)
	for i := range entries {
		entries[i] = note
	}
	var whole bytes.Buffer
	require.NoError(t, Export(&whole, entries))
	require.Greater(t, whole.Len(), 3*4096)
	for room := 0; room < whole.Len(); room += 1000 {
		out := &smallRoom{left: room}
		require.ErrorIs(t, Export(out, entries), errKilled)
	}
	refusing := &countingRefusal{}
	require.ErrorIs(t, Export(refusing, entries), errKilled)
	assert.Equal(t, 1, refusing.asked, "nobody goes on asking")
}

type countingRefusal struct{ asked int }

func (c *countingRefusal) Write([]byte) (int, error) { c.asked++; return 0, errKilled }
