package journal_test

import (
	"context"
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
	"trencher/units"
	"trencher/units/strict"
)

const noteFile = "journal/2031/0713-1200-a.yaml"

// faultIn is what is said of the one entry of a plot; "" where it is read.
func faultIn(t *testing.T, file, text string) string {
	t.Helper()
	_, _, err := journal.Embedded(plot(map[string]string{file: text}), "test").Season(context.Background(), 2031, options)
	var all strict.Errors
	if err == nil {
		return ""
	}
	require.ErrorAs(t, err, &all)
	return strings.TrimPrefix(all[0].Error(), file+":") + "; " + all[0].Accepted
}

// The least and the most that an entry takes of each figure are taken, and the next
// beyond is not; what is said is what would be taken.
func TestBordersOfFigures(t *testing.T) {
	steamed := "kind: steamed\ncrop: potato\ncut: cube 25 mm\nuntil: tender\nat: 2031-07-13 12:00\n"
	plan := "kind: plan\nplan: k3fqa\nat: 2031-07-13 12:00\nuses: [{lot: tub-3/2031-0712-1640/45-65-sound, weight: 1 g}]\n"
	grade := func(count string) string { return strings.Replace(lift, "count: 6", "count: "+count, 1) }
	for _, row := range []struct {
		of       string
		text     func(figure string) string
		in, out  []string
		accepted string
	}{
		{"minutes", func(n string) string { return steamed + "minutes: " + n + "\n" }, []string{"0.5", "600", "600.9"}, []string{"0", "-1", "601"}, "minutes from full steam, above 0 and up to 600"},
		{"start", func(n string) string { return steamed + "minutes: 9\nstart: " + n + "\n" }, []string{"0 C", "60 C"}, []string{"-0.1 C", "60.1 C", "10-20 C"}, "how warm the pieces went in, 0 to 60 C"},
		{"altitude", func(n string) string { return steamed + "minutes: 9\naltitude: " + n + "\n" }, []string{"0 m", "5500 m"}, []string{"5500.5 m"}, "the height above the sea, 0 to 5500 m"},
		{"power", func(n string) string { return steamed + "minutes: 9\npower: " + n + "\n" }, []string{"50 W", "10 kW"}, []string{"49.5 W", "10000.5 W"}, "the heat that becomes steam, 50 to 10000 W"},
		{"tier", func(n string) string { return steamed + "minutes: 9\ntier: " + n + "\n" }, []string{"1", "6"}, []string{"0", "7"}, "a whole number from 1 to 6"},
		{"load", func(n string) string { return steamed + "minutes: 9\nload: " + n + "\n" }, []string{"1 g"}, []string{"0 g", "500-600 g"}, "the weight in the steamer at once, such as 600 g"},
		{"count", grade, []string{"1", "100000"}, []string{"0", "100001"}, "a whole number from 1 to 100000"},
		{"portions", func(n string) string { return plan + "makes: [{dish: Mash, portions: " + n + "}]\n" }, []string{"1", "100000"}, []string{"0", "100001"}, "a whole number from 1 to 100000"},
		{"weight", func(n string) string { return strings.Replace(plan, "1 g", n, 1) }, []string{"1 g"}, []string{"0 g"}, "the weight that left the lot, such as 800 g"},
	} {
		for _, figure := range row.in {
			assert.Empty(t, faultIn(t, noteFile, row.text(figure)), "%s %s", row.of, figure)
		}
		for _, figure := range row.out {
			says := faultIn(t, noteFile, row.text(figure))
			assert.Contains(t, says, row.of, figure)
			assert.Contains(t, says, row.accepted, figure)
		}
	}
	several := steamed + "minutes: 9\nstart: 61 C\naltitude: 6000 m\npower: 1 W\n"
	_, _, err := journal.Embedded(plot(map[string]string{noteFile: several}), "test").Season(context.Background(), 2031, options)
	var all strict.Errors
	require.ErrorAs(t, err, &all)
	assert.Len(t, all, 3, "each figure out of reach is told")
}

// What an entry says otherwise is told at its place with what is taken instead.
func TestFaultsOfEntries(t *testing.T) {
	batch := "kind: out\nbatch: a\nat: 2031-07-13 12:00\n"
	for _, row := range []struct{ name, text, says string }{
		{"out before it came out", batch + "until: 2031-07-13 11:59\n", `4:8: until "2031-07-13 11:59": before the time it came out; the moment it went back into the fridge`},
		{"out for no time", batch + "until: 2031-07-13 12:00\n", ""},
		{"no word for a lot", lift + "called: a b\n", `10:9: called "a b": no word for a lot's name; letters and digits, such as 19jul`},
		{"a word for a lot", lift + "called: 19jul\n", ""},
		{"left neither", lift + "left: few\n", `10:7: left "few": not one of the words known here; some | none`},
		{"a crop no one steams so", "kind: steamed\ncrop: potato\ncut: cube 25 mm\nuntil: tender\nminutes: 9\ntexture: soapy\nat: 2031-07-13 12:00\n", `6:10: texture "soapy": not one of the words known here; waxy | floury`},
		{"a knife that says neither", "kind: steamed\ncrop: potato\ncut: cube 25 mm\nuntil: tender\nminutes: 9\nsaid: done\nat: 2031-07-13 12:00\n", `6:7: said "done": not one of the words known here; not-yet | over`},
		{"a step told otherwise", "kind: step\nplan: k3fqa\nsays: perhaps\nat: 2031-07-13 12:00\n", `3:7: says "perhaps": not one of the words known here; done | not-yet | over | five-late`},
		{"a plan of a lot that is none", "kind: plan\nplan: k3fqa\nat: 2031-07-13 12:00\nuses: [{lot: tub-3, weight: 1 g}]\n", `4:14: lot "tub-3": no lot's name; a lot's id, such as tub-3/2031-0712-1640/20-45-scabby`},
		{"a season's use in another's folder", "kind: use\nlot: tub-3/2030-0712-1640/45-65-sound\nweight: 1 g\nat: 2031-01-13 12:00\n", `4:5: at "2031-01-13 12:00": an entry of season 2030 lies in the folder of 2031; the true date, or move the file to journal/2030`},
		{"a void of another season", "kind: void\nvoids: journal/2030/x.yaml\nat: 2031-01-13 12:00\n", ""},
		{"a weight no scale shows", lift + "soil: 100-200 g\n", `10:7: soil "100-200 g": not one weight a scale can show; one weight in kg, g, lb or oz`},
	} {
		says := faultIn(t, noteFile, row.text)
		if row.says == "" {
			assert.Empty(t, says, row.name)
			continue
		}
		assert.Contains(t, says, row.says, row.name)
	}
}

// The season of a plan that is read is that of its lots.
func TestFileNamesOfEntries(t *testing.T) {
	at := time.Date(2031, 12, 31, 9, 5, 0, 0, time.UTC)
	long := strings.Repeat("very ", 20) + "long"
	for _, row := range []struct {
		entry harvest.Entry
		name  string // without the mark
	}{
		{&harvest.Note{Dish: "!Mash & more?", Says: "x"}, "journal/2031/1231-0905-note-mash-more"},
		{&harvest.Note{Dish: "(1) a", Says: "x"}, "journal/2031/1231-0905-note-1-a"},
		{&harvest.Note{Dish: "?!", Says: "x"}, "journal/2031/1231-0905-note"},
		{&harvest.Note{Dish: long, Says: "x"}, "journal/2031/1231-0905-note-very-very-very-very-very-very-very-very"},
		{&harvest.BatchEvent{Event: harvest.KindCooked, Name: "Mash 1", Food: "mash"}, "journal/2031/1231-0905-cooked-mash-1"},
		{&harvest.Move{To: harvest.KindUse, Lot: "tub-3/2029-0712-1640/45-65-sound", Weight: units.MustParse("1 g")}, "journal/2029/1231-0905-use-tub-3"},
		{&harvest.Void{Voids: "journal/2028/0712-1640-lift-tub-3.yaml"}, "journal/2028/1231-0905-void"},
		{&harvest.Void{Voids: "0712-1640-lift-tub-3.yaml"}, "journal/2031/1231-0905-void"},
	} {
		folder, err := journal.Open(newPlot(t))
		require.NoError(t, err)
		row.entry.Head().At = at
		file, err := folder.Write(row.entry)
		require.NoError(t, err)
		require.Greater(t, len(file), len("-abcd.yaml"))
		assert.Equal(t, row.name, file[:len(file)-len("-abcd.yaml")])
		assert.Equal(t, file, row.entry.Head().File)
	}
}

// A moment of logging that is the entry's own is not written twice.
func TestLoggedIsWrittenWhereItDiffers(t *testing.T) {
	at := time.Date(2031, 7, 13, 18, 5, 0, 0, time.UTC)
	for _, later := range []time.Duration{0, time.Millisecond} {
		dir := newPlot(t)
		folder, err := journal.Open(dir)
		require.NoError(t, err)
		file, err := folder.Write(&harvest.Note{Header: harvest.Header{At: at, Logged: at.Add(later)}, Dish: "Mash", Says: "x"})
		require.NoError(t, err)
		assert.Equal(t, later > 0, strings.Contains(read(t, dir, file), "logged:"))
	}
}

// Whether a table is the journal's own is told by its head and its first row: a day
// as the journal writes it, and no planting or one of the plot's. Any other is an old
// table, whose layout is read.
func TestWhichTablesAreTheJournalsOwn(t *testing.T) {
	for _, row := range []struct {
		table string
		own   bool
	}{
		{"at,planting,weight\n2031-07-12,tub-3,1 kg\n", true},
		{"\xef\xbb\xbfDate, Planting ,weight_kg\n2031-07-12,tub-3,1\n", true},
		{"at,planting,weight\n2031-07-12,,1 kg\n", true},
		{"at,planting,weight\n12.07.2031,tub-3,1 kg\n", false},
		{"at,planting,weight\n2031-07-12,tub-9,1 kg\n", false},
		{"at,planting,weight,colour\n2031-07-12,tub-3,1 kg,red\n", false},
		{"at,planting,weight\n", true},
	} {
		folder, err := journal.Open(newPlot(t))
		require.NoError(t, err)
		looked, err := folder.Look(context.Background(), journal.Source{File: "t.csv", Data: []byte(row.table)}, tables.Words{}, options, afterTheSeason)
		if err != nil {
			assert.False(t, row.own, row.table)
			continue
		}
		assert.Equal(t, !row.own, looked.Old, row.table)
	}
}

// A table's entries get the table's names where they are free, and are counted on
// from there where they are not; a table of days is of noon; who looks only, writes
// nothing.
func TestNamesOfImportedEntries(t *testing.T) {
	dir := newPlot(t)
	folder, err := journal.Open(dir)
	require.NoError(t, err)
	table := "entry,kind,at,planting,gross,part\n" +
		"2031/first,lift,2031-07-12,tub-3,1 kg,\n" +
		"2031/second one,lift,2031-07-12,tub-3,2 kg,\n" +
		",lift,2031-07-12,tub-3,3 kg,\n" +
		",lift,2031-07-12,tub-3,4 kg,\n" +
		",lift,2031-07-12,tub-3,5 kg,\n"
	looked, err := folder.Look(context.Background(), journal.Source{File: "t.csv", Data: []byte(table)}, tables.Words{}, options, afterTheSeason)
	require.NoError(t, err)
	assert.Equal(t, []int{2, 3, 4, 5, 6}, looked.Lines)
	assert.Len(t, looked.Entries, 5)
	assert.NoDirExists(t, filepath.Join(dir, "journal"))
	result, err := importInto(t, dir, table)
	require.NoError(t, err)
	require.Empty(t, result.Bad)
	assert.Equal(t, []string{"journal/2031/first.yaml", "journal/2031/0712-1200-lift-tub-3.yaml", "journal/2031/0712-1200-lift-tub-3-2.yaml",
		"journal/2031/0712-1200-lift-tub-3-3.yaml", "journal/2031/0712-1200-lift-tub-3-4.yaml"}, result.Written)
	more, err := importInto(t, dir, table+",lift,2031-07-12,tub-3,6 kg,\n2031/first,lift,2031-07-13,tub-3,7 kg,\n")
	require.NoError(t, err)
	assert.Equal(t, 4, more.Already)
	assert.Equal(t, []string{"journal/2031/0712-1200-lift-tub-3-5.yaml"}, more.Written[len(more.Written)-1:])
	assert.Contains(t, read(t, dir, "journal/2031/first.yaml"), "12:00:00")
}

// The rows of one entry stand together wherever they are in the table; a row of
// nothing is passed over; the day after the clock is a slip, and the clock's own is
// none.
func TestRowsOfATable(t *testing.T) {
	dir := newPlot(t)
	result, err := importInto(t, dir, "entry,kind,at,planting,part,gross,tare,weight,sizes,count,condition\n"+
		"2031/a,lift,2031-07-12,tub-3,bowl,1.4 kg,200 g,,,,\n"+
		",,,,,,,,,,\n"+
		"2031/b,lift,2031-07-13,tub-3,bowl,2 kg,,,,,\n"+
		"2031/a,lift,2031-07-12,tub-3,grade,,,300 g,20-45 mm,4,scabby\n"+
		"2031/a,lift,2031-07-12,tub-3,bowl,1 kg,,,,,\n"+
		"2031/c,lift,2031-12-31,tub-3,bowl,1 kg,,,,,\n"+
		"2031/d,lift,2032-01-01,tub-3,bowl,1 kg,,,,,\n")
	require.NoError(t, err)
	assert.Equal(t, "tub-3 2200, tub-3 2000, tub-3 1000", nets(t, dir))
	require.Len(t, result.Bad, 1)
	assert.Equal(t, "weights.csv:8:13: 2032-01-01 is still to come", result.Bad[0].Error())
	assert.Equal(t, "the day it was", result.Bad[0].Accepted)
	assert.Contains(t, read(t, dir, "journal/2031/a.yaml"), "count: 4")
	assert.Equal(t, "weights.csv", result.Table)
}

// Each name of a bare weight's column has its unit.
func TestColumnsOfBareWeights(t *testing.T) {
	for column, net := range map[string]string{"weight_g": "12", "weight_kg": "12000", "weight_lb": "5443.10844", "weight_oz": "340.1942775", "weight kg": "12000", "weight (g)": "12", "gross_kg": "12000"} {
		dir := newPlot(t)
		result, err := importInto(t, dir, "at,planting,"+column+"\n2031-07-12,tub-3,12\n")
		require.NoError(t, err, column)
		require.Empty(t, result.Bad, column)
		assert.Equal(t, "tub-3 "+net, nets(t, dir), column)
	}
}

// Rows that contradict the journal, each other or what was left out are named, and
// the rest goes in.
func TestRowsThatContradict(t *testing.T) {
	dir := newPlot(t)
	result, err := importInto(t, dir, "entry,kind,at,planting,gross,lot,weight\n"+
		"2031/0712-1640-lift-tub-3,lift,2031-07-12 16:40,tub-3,1 kg,,\n"+
		"2031/b,use,2031-07-13 12:00,,,tub-3/2031-0712-1640/ungraded-sound,400 g\n"+
		"2031/c,use,2031-07-14 12:00,,,tub-3/2031-0712-1641/ungraded-sound,400 g\n"+
		"2031/d,lift,2031-07-15 12:00,tub-7,1 kg,,\n")
	require.NoError(t, err)
	assert.Len(t, result.Written, 2)
	require.Len(t, result.Bad, 2)
	assert.Contains(t, result.Bad[0].Error(), "weights.csv:4:1: ")
	assert.Contains(t, result.Bad[1].Error(), `weights.csv:5:1: planting "tub-7" is not in plantings.yaml`)
}

// Only a season's own years are exported where they are named.
func TestExportOfNamedSeasons(t *testing.T) {
	older := strings.NewReplacer("2031-07-12", "2030-07-12").Replace(lift)
	folder := journal.Embedded(plot(map[string]string{liftFile: lift, "journal/2030/a.yaml": older}), "test")
	for _, row := range []struct {
		seasons []int
		years   []string
	}{{nil, []string{"2030", "2031"}}, {[]int{2030}, []string{"2030"}}, {[]int{2031}, []string{"2031"}}} {
		var out strings.Builder
		require.NoError(t, folder.Export(context.Background(), &out, options, row.seasons...))
		for _, year := range []string{"2030", "2031"} {
			assert.Equal(t, strings.Contains(strings.Join(row.years, " "), year), strings.Contains(out.String(), "\r\n"+year+"/"), "%v %s", row.seasons, year)
		}
	}
	assert.Error(t, folder.Export(context.Background(), &strings.Builder{}, options, 12))
	assert.Error(t, folder.Export(context.Background(), failing{}, options))
}

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, os.ErrClosed }

// What a folder is asked to do that only reads is refused, and said.
func TestEverythingThatWritesIsRefusedOnTheDemo(t *testing.T) {
	folder := journal.Embedded(plot(nil), "the demo plot")
	_, err := folder.Mend(context.Background(), options, afterTheSeason)
	assert.ErrorIs(t, err, journal.ErrReadOnly)
	_, err = folder.Import(context.Background(), journal.Source{}, tables.Words{}, options, afterTheSeason)
	assert.ErrorIs(t, err, journal.ErrReadOnly)
	_, err = folder.Bring(context.Background(), nil, journal.KeepOwn, options)
	assert.ErrorIs(t, err, journal.ErrReadOnly)
	assert.ErrorIs(t, folder.Taken(journal.Parcel{}), journal.ErrReadOnly)
	_, err = folder.Plant(harvest.PlantWords{}, units.Metric)
	assert.ErrorIs(t, err, journal.ErrReadOnly)
}
