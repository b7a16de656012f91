package journal_test

import (
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/units"
)

func read(t *testing.T, dir, file string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, file))
	require.NoError(t, err)
	return string(data)
}

func TestOpenNamesWhatIsMissing(t *testing.T) {
	dir := t.TempDir()
	_, err := journal.Open(filepath.Join(dir, "nowhere"))
	require.ErrorIs(t, err, journal.ErrNoPlot)
	assert.Contains(t, err.Error(), "there is no such folder")
	_, err = journal.Open(dir)
	require.ErrorIs(t, err, journal.ErrNoPlot)
	assert.Contains(t, err.Error(), "kitchen.yaml")
}

// Each kind of entry, written and read back, is the same entry.
func TestEveryKindReadsBackAsWritten(t *testing.T) {
	at := time.Date(2031, 7, 13, 18, 5, 0, 0, time.FixedZone("", 3600))
	lot := "tub-3/2031-0712-1640/20-45-scabby"
	lift := someLift(1, 2)
	lift.Mothers, lift.Soil = units.MustParse("120 g"), units.MustParse("1/2 lb")
	lift.Left, lift.Where, lift.Says, lift.Called = harvest.LeftSome, "trug", "true: #1, wet", "12jul"
	for name, e := range map[string]harvest.Entry{
		"0712-1602-lift-tub-3":      lift,
		"0713-1805-use-tub-3":       &harvest.Move{To: harvest.KindUse, Lot: lot, Weight: units.MustParse("1 lb 4 oz"), Dish: "Mash: no. 1"},
		"0713-1805-give-tub-3":      &harvest.Move{To: harvest.KindGive, Lot: lot, Weight: units.MustParse("100 g"), Whom: "yes"},
		"0713-1805-compost-tub-3":   &harvest.Move{To: harvest.KindCompost, Lot: lot, Weight: units.MustParse("0,1 kg"), Reason: "soft"},
		"0713-1805-store-tub-3":     &harvest.Move{To: harvest.KindStore, Lot: lot, Weight: units.MustParse("200 g"), Where: "shed", Air: units.MustParse("8 C")},
		"0713-1805-reweighed-tub-3": &harvest.Reweighed{Lot: lot, Weight: units.MustParse("690 g"), Rotten: units.MustParse("40 g"), Where: "cellar", Air: units.MustParse("6 C")},
		"0713-1805-plan-k3fqa": &harvest.Planned{ID: "k3fqa", Stock: "tiskgzzx7q", Makes: []harvest.Making{{Dish: "Mash: no. 1", Portions: 4}},
			Uses:  []harvest.Use{{Lot: lot, Weight: units.MustParse("59.134 g"), Dish: "Mash: no. 1"}, {Lot: lot, Weight: units.MustParse("1 lb")}},
			Asked: []harvest.Asked{{Field: "for", Says: "2 adults, 1 child"}, {Field: "serve-at", Says: "18:30"}}},
		"0713-1805-step-s7":              &harvest.Told{Header: harvest.Header{Form: "abcd-efgh"}, Plan: "k3fqa", Step: "s7", What: harvest.ToldNotYet},
		"0713-1805-cooked-mash-1":        &harvest.BatchEvent{Event: harvest.KindCooked, Name: "Mash 1", Food: "mash", Also: []string{"pesto", "rice"}, Dish: "Mash", Plan: "k3fqa", Amount: units.MustParse("1.2 kg")},
		"0713-1805-out-mash-1":           &harvest.BatchEvent{Event: harvest.KindOut, Name: "Mash 1", Until: at.Add(time.Hour), Air: units.MustParse("31 C")},
		"0713-1805-eaten-mash-1":         &harvest.BatchEvent{Event: harvest.KindEaten, Name: "Mash 1", Amount: units.MustParse("3"), Says: "all gone"},
		"0713-1805-note-crème-brûlée-no": &harvest.Note{Dish: "Crème brûlée (no!)", Says: "2031-01-01"},
		"0713-1805-steamed-potato": &harvest.Steamed{Crop: "potato", Texture: "waxy", Cut: "cube 25 mm", Until: "tender", Minutes: 11.5, Load: units.MustParse("600 g"),
			Said: "not-yet", Start: units.MustParse("12 C"), Altitude: units.MustParse("410 m"), Power: units.MustParse("640 W"), Tier: 2},
		"0713-1805-void": &harvest.Void{Header: harvest.Header{By: "k3fqab", Logged: at.Add(1482 * time.Millisecond)}, Voids: "journal/2031/0712-1640-lift-tub-3.yaml", Reason: "twice"},
	} {
		t.Run(e.Kind(), func(t *testing.T) {
			dir := newPlot(t)
			folder, err := journal.Open(dir)
			require.NoError(t, err)
			if e.Head().At.IsZero() {
				e.Head().At = at
			}
			file, err := folder.Write(e)
			require.NoError(t, err)
			require.Regexp(t, "^journal/2031/"+name+`-[a-z2-7]{4}\.yaml$`, file)
			entries, _, err := folder.Season(context.Background(), 2031, options)
			require.NoError(t, err)
			require.Len(t, entries, 1)
			assert.Equal(t, inWords(e), inWords(entries[0]), "nothing of it is lost on the way")
			again := newPlot(t)
			copied, err := journal.Open(again)
			require.NoError(t, err)
			second, err := copied.Write(entries[0])
			require.NoError(t, err)
			assert.Equal(t, read(t, dir, file), read(t, again, second))
			assert.Equal(t, e.When().Unix(), entries[0].When().Unix())
		})
	}
}

// inWords is all that an entry says, wherever it is kept.
func inWords(e harvest.Entry) string {
	said := reflect.ValueOf(e).Elem()
	var out strings.Builder
	for i := range said.NumField() {
		name := said.Type().Field(i).Name
		if name != "Header" {
			fmt.Fprintf(&out, "%s: %+v\n", name, said.Field(i))
		}
	}
	head := e.Head()
	fmt.Fprintln(&out, e.Kind(), head.At.Unix(), head.By, head.Logged.UnixMilli(), head.Form, head.Replaces)
	return out.String()
}

func TestWhatCannotBeReadIsNotWritten(t *testing.T) {
	dir := newPlot(t)
	folder, err := journal.Open(dir)
	require.NoError(t, err)
	bad := someLift(1, 1)
	bad.Grades[0].Weight = units.MustParse("5 kg")
	for _, e := range []harvest.Entry{
		bad,
		&harvest.Lift{Header: harvest.Header{At: time.Now()}},
		&harvest.Note{Dish: "Mash", Says: "no time"},
		&harvest.Note{Header: harvest.Header{At: time.Now()}, Dish: "Mash", Says: "a\x07bell"},
		&harvest.Move{Header: harvest.Header{At: time.Now()}, To: harvest.KindUse, Lot: "tub-3", Weight: units.MustParse("1 g")},
	} {
		_, err := folder.Write(e)
		require.Error(t, err)
	}
	_, err = os.Stat(filepath.Join(dir, "journal"))
	require.ErrorIs(t, err, fs.ErrNotExist, "nothing was made")
}

func TestEmbeddedPlotsAreReadOnly(t *testing.T) {
	folder := journal.Embedded(plot(nil), "the demo plot")
	_, err := folder.Write(someLift(1, 1))
	require.ErrorIs(t, err, journal.ErrReadOnly)
	assert.False(t, folder.Writable())
}

func TestFoldersThatCannotBeWrittenTo(t *testing.T) {
	t.Run("vanished", func(t *testing.T) {
		dir := newPlot(t)
		folder, err := journal.Open(dir)
		require.NoError(t, err)
		require.NoError(t, os.RemoveAll(dir))
		_, err = folder.Write(someLift(1, 1))
		require.ErrorIs(t, err, fs.ErrNotExist)
		_, err = os.Stat(dir)
		require.ErrorIs(t, err, fs.ErrNotExist, "a plot is not made anew behind the grower's back")
	})
	t.Run("journal is a file", func(t *testing.T) {
		dir := newPlot(t)
		require.NoError(t, os.WriteFile(filepath.Join(dir, "journal"), nil, 0o644))
		folder, err := journal.Open(dir)
		require.NoError(t, err)
		_, err = folder.Write(someLift(1, 1))
		require.Error(t, err)
	})
}

// A writer killed between its two names leaves a second name of a whole entry,
// which is nothing to worry about; one killed earlier leaves what may be told.
func TestUnfinished(t *testing.T) {
	folder := journal.Embedded(plot(map[string]string{
		liftFile:                             lift,
		"journal/2031/.unfinished-aaaa.yaml": lift,
		"journal/2031/.unfinished-bbbb.yaml": lift[:60],
	}), "test")
	left, err := folder.Unfinished()
	require.NoError(t, err)
	assert.Equal(t, []string{"journal/2031/.unfinished-bbbb.yaml"}, left)
}

func TestBegin(t *testing.T) {
	files := []journal.Source{
		{File: "dishes/mash.yaml", Data: []byte("name: Mash\n")},
		{File: "journal/2031/0712-lift-tub-3.yaml", Data: []byte(lift)},
		{File: "kitchen.yaml", Data: []byte(kitchen)},
	}
	dir := filepath.Join(t.TempDir(), "plots", "mine")
	written, err := journal.Begin(dir, files)
	require.NoError(t, err)
	assert.Equal(t, []string{"dishes/mash.yaml", "journal/2031/0712-lift-tub-3.yaml", "kitchen.yaml"}, written)
	assert.Equal(t, lift, read(t, dir, "journal/2031/0712-lift-tub-3.yaml"))

	_, err = journal.Begin(dir, files)
	require.Error(t, err, "what exists is not touched")

	taken := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(taken, "mine.txt"), []byte("keep"), 0o644))
	_, err = journal.Begin(taken, files)
	require.ErrorContains(t, err, "mine.txt")
	assert.Equal(t, "keep", read(t, taken, "mine.txt"))
	list, err := os.ReadDir(taken)
	require.NoError(t, err)
	assert.Len(t, list, 1)
}

// Example files keep their times of day and their distances; entries move with
// their file names, over the end of a year too.
func TestRedated(t *testing.T) {
	example := plot(map[string]string{liftFile: lift, "dishes/mash.yaml": "name: Mash\n"})
	files, err := journal.Redated(example, time.Date(2031, 7, 12, 0, 0, 0, 0, time.UTC), time.Date(2032, 1, 3, 23, 0, 0, 0, time.FixedZone("", -7200)))
	require.NoError(t, err)
	text := map[string]string{}
	for _, file := range files {
		text[file.File] = string(file.Data)
	}
	assert.Len(t, text, 4)
	assert.Contains(t, text["plantings.yaml"], "planted: 2031-09-24\n", "175 days on, as the lift")
	assert.Contains(t, text["plantings.yaml"], "planted: '2031-10-12'\n")
	assert.Contains(t, text["journal/2032/0103-1640-lift-tub-3.yaml"], "at: 2032-01-03T16:40:00-02:00\n")
	assert.Equal(t, "name: Mash\n", text["dishes/mash.yaml"])
}
