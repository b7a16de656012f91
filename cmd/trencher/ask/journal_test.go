package ask_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/demo"
	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/units/strict"
)

// A lift is written as weighed, its lots are on hand, and what leaves them is
// gone from the account of its season.
func TestADayAtThePlot(t *testing.T) {
	w := garden(t)
	before, err := ask.Stock(t.Context(), w)
	require.NoError(t, err)
	lift := lifted(t, w, harvest.LiftWords{Planting: "bed-3", Weighings: []string{"1.46 kg - 0.31 kg"},
		Grades: []string{"820 g 20-45 mm scabby"}, Mothers: "90 g", Left: harvest.LeftSome})
	assert.Equal(t, "1150", lift.Net().String(), "1460 g less a tare of 310 g")
	after, err := ask.Stock(t.Context(), w)
	require.NoError(t, err)
	assert.Len(t, after.Lots, len(before.Lots)+2, "820 g graded and 330 g ungraded")

	moved, err := ask.Move(t.Context(), ask.MoveQuestion{PlotRef: w, MoveWords: harvest.MoveWords{To: harvest.KindGive, Lot: lift.Lots[0].ID, Weight: "320 g", Whom: "neighbours"}})
	require.NoError(t, err)
	assert.Equal(t, "320", moved.Grams.String())
	assert.Equal(t, "500", moved.Left.String())

	tally, err := ask.Tally(t.Context(), w, false)
	require.NoError(t, err)
	every, err := ask.Tally(t.Context(), w, true)
	require.NoError(t, err)
	assert.Equal(t, tally, every, "the plot has one season")
	other, err := ask.Tally(t.Context(), w, false, 2030)
	require.NoError(t, err)
	assert.NotEqual(t, tally, other)
}

// Each field that cannot be is named, and nothing is written.
func TestWrongWordsOfALiftAndAMove(t *testing.T) {
	w := garden(t)
	before := entries(t, w)
	kilo := []string{"1 kg"}
	for field, q := range map[string]ask.LiftQuestion{
		"planting": {LiftWords: harvest.LiftWords{Planting: "tub-9", Weighings: kilo}},
		"weighing": {LiftWords: harvest.LiftWords{Planting: "tub-1", Weighings: []string{"1 kg - 2 kg"}}},
		"grade":    {LiftWords: harvest.LiftWords{Planting: "tub-1", Weighings: kilo, Grades: []string{"some"}}},
		"mothers":  {LiftWords: harvest.LiftWords{Planting: "tub-1", Weighings: kilo, Mothers: "few"}},
		"soil":     {LiftWords: harvest.LiftWords{Planting: "tub-1", Weighings: kilo, Soil: "1 m"}},
		"left":     {LiftWords: harvest.LiftWords{Planting: "tub-1", Weighings: kilo, Left: "half"}},
		"at":       {LiftWords: harvest.LiftWords{Planting: "tub-1", Weighings: kilo}, At: "2031-01-01"},
		"replaces": {LiftWords: harvest.LiftWords{Planting: "tub-1", Weighings: kilo, Replaces: "nothing"}},
	} {
		q.PlotRef = w
		_, err := ask.Lift(t.Context(), q)
		requireField(t, field, err)
	}
	for field, q := range map[string]harvest.MoveWords{
		"lot":    {To: harvest.KindUse, Lot: "bed-9"},
		"weight": {To: harvest.KindUse, Lot: "tub-1/20-45-sound", Weight: "2 m"},
		"at":     {To: harvest.KindUse, Lot: "tub-1/20-45-sound", At: "noonish"},
	} {
		_, err := ask.Move(t.Context(), ask.MoveQuestion{PlotRef: w, MoveWords: q})
		requireField(t, field, err)
	}
	assert.Equal(t, before, entries(t, w))

	_, err := ask.Lift(t.Context(), ask.LiftQuestion{PlotRef: w, LiftWords: harvest.LiftWords{Planting: "tub-1", Weighings: kilo}, At: "2031-01-01"})
	assert.ErrorContains(t, err, "2031-01-01", "the error shows what was typed")
}

// A correction takes the place of what it corrects; a void takes it away.
func TestCorrections(t *testing.T) {
	w := garden(t)
	first := lifted(t, w, harvest.LiftWords{Planting: "bed-3", Weighings: []string{"1 kg - 0 g"}})
	lifted(t, w, harvest.LiftWords{Planting: "bed-3", Weighings: []string{"1.2 kg - 0 g"}, Replaces: first.File})
	account := func() (sum string) {
		stock, err := ask.Stock(t.Context(), w)
		require.NoError(t, err)
		for _, lot := range stock.Lots {
			if lot.Planting.ID == "bed-3" && lot.Lifted.After(w.Now.Add(-time.Hour)) {
				sum += lot.Weight.String() + " "
			}
		}
		return sum
	}
	assert.Equal(t, "1200 ", account())
	void, err := ask.Void(t.Context(), w, "0719-1035-lift-bed-3", "weighed with the basket")
	require.NoError(t, err)
	assert.Equal(t, "weighed with the basket", void.Reason)
	_, err = ask.Void(t.Context(), w, "nothing", "")
	require.ErrorContains(t, err, "nothing")
}

// What is on the terminal while it is being asked for.
func TestWeighedSoFar(t *testing.T) {
	w := garden(t)
	so, err := ask.Weighed(ask.LiftQuestion{PlotRef: w, LiftWords: harvest.LiftWords{Weighings: []string{"1 kg", "500 g - 100 g"}}})
	require.NoError(t, err)
	assert.Equal(t, "1400", so.Net().String())
	_, err = ask.Weighed(ask.LiftQuestion{PlotRef: ask.PlotRef{Dir: t.TempDir()}})
	require.ErrorIs(t, err, ask.ErrNoPlot)
}

// The demo plot is only to look at.
func TestTheDemoPlotIsNotWritten(t *testing.T) {
	w := ask.PlotRef{Demo: true, Now: time.Date(2031, 7, 19, 20, 0, 0, 0, time.UTC)}
	_, err := ask.Lift(t.Context(), ask.LiftQuestion{PlotRef: w, LiftWords: harvest.LiftWords{Planting: "tub-1", Weighings: []string{"1 kg"}}})
	require.ErrorIs(t, err, ask.ErrReadOnly)
	_, err = ask.Move(t.Context(), ask.MoveQuestion{PlotRef: w, MoveWords: harvest.MoveWords{To: harvest.KindUse, Lot: "tub-1"}})
	require.ErrorIs(t, err, ask.ErrReadOnly)
	_, err = ask.WriteNote(t.Context(), ask.NoteQuestion{PlotRef: w, Dish: "Spring onion mash", Says: "good"})
	require.ErrorIs(t, err, ask.ErrReadOnly)
	_, err = ask.Void(t.Context(), w, "0719-1035-lift-bed-3", "")
	require.ErrorIs(t, err, ask.ErrReadOnly)
	_, err = ask.Share(t.Context(), ask.ShareWords{Plot: w, Take: true})
	require.ErrorIs(t, err, ask.ErrReadOnly)
}

// A damaged entry stops what rests on it, unless it is to be left out: then it
// is named; and it keeps no new weight out.
func TestDamagedEntriesAreSkippedOnDemand(t *testing.T) {
	w := garden(t)
	damage(t, w)
	_, err := ask.Stock(t.Context(), w)
	require.ErrorContains(t, err, "0719-1100-lift-bed-3.yaml")
	_, err = ask.Check(t.Context(), w)
	require.ErrorContains(t, err, "0719-1100-lift-bed-3.yaml")
	lifted(t, w, harvest.LiftWords{Planting: "bed-3", Weighings: []string{"1 kg"}})
	w.SkipDamaged = true
	stock, err := ask.Stock(t.Context(), w)
	require.NoError(t, err)
	require.NotEmpty(t, stock.Warnings)
	plan, err := ask.Share(t.Context(), ask.ShareWords{Plot: w})
	require.NoError(t, err)
	assert.NotEmpty(t, plan.Warnings)
	_, err = ask.ScaleDish(ask.DishWords{Plot: w, Name: "spring"})
	require.NoError(t, err, "one dish rests on no lift")
}

func TestNoPlotHere(t *testing.T) {
	w := ask.PlotRef{Dir: t.TempDir(), Now: time.Date(2031, 7, 19, 20, 0, 0, 0, time.UTC)}
	for name, err := range map[string]error{
		"stock":  second(ask.Stock(t.Context(), w)),
		"tally":  second(ask.Tally(t.Context(), w, true)),
		"ready":  second(ask.Ready(t.Context(), ask.ReadyQuestion{PlotRef: w})),
		"share":  second(ask.Share(t.Context(), ask.ShareWords{Plot: w})),
		"dish":   second(ask.ScaleDish(ask.DishWords{Plot: w})),
		"export": second(ask.ExportDish(w, []string{"mash"})),
		"names":  second(ask.DishNames(w)),
		"plants": second(ask.Plantings(w)),
		"check":  second(ask.Check(t.Context(), w)),
		"import": second(ask.ImportTable(t.Context(), ask.TableQuestion{PlotRef: w, Table: "x.csv"})),
		"csv":    ask.ExportTable(t.Context(), &bytes.Buffer{}, w),
		"lift":   second(ask.Lift(t.Context(), ask.LiftQuestion{PlotRef: w})),
		"move":   second(ask.Move(t.Context(), ask.MoveQuestion{PlotRef: w})),
		"note":   second(ask.WriteNote(t.Context(), ask.NoteQuestion{PlotRef: w})),
		"void":   second(ask.Void(t.Context(), w, "x", "")),
		"keep":   second(ask.KeepBatches(t.Context(), ask.KeepQuestion{PlotRef: w})),
		"cooked": second(logged(t.Context(), w)),
		"steam":  second(ask.Steaming(t.Context(), ask.SteamQuestion{PlotRef: w})),
	} {
		assert.ErrorIs(t, err, ask.ErrNoPlot, name)
	}
}

func second[T any](_ T, err error) error { return err }

// The day asked for is a date; the clock may not stand before the journal.
func TestTheDayAskedFor(t *testing.T) {
	w := garden(t)
	w.On = "19/7/2031"
	_, err := ask.Stock(t.Context(), w)
	requireField(t, "on", err)
	w.On, w.Now = "", time.Date(2026, 5, 1, 12, 0, 0, 0, time.UTC)
	_, err = ask.Stock(t.Context(), w)
	require.ErrorContains(t, err, "2031-07-19")
	_, err = ask.Share(t.Context(), ask.ShareWords{Plot: w})
	require.ErrorContains(t, err, "2031-07-19", "nothing is planned by a clock that cannot be right")
	w.On = "2031-07-19"
	_, err = ask.Stock(t.Context(), w)
	require.NoError(t, err)
}

// A journal goes out as a table and comes back in once.
func TestTablesOutAndIn(t *testing.T) {
	w := garden(t)
	var table bytes.Buffer
	require.NoError(t, ask.ExportTable(t.Context(), &table, w))
	require.Contains(t, table.String(), "tub-1")
	path := filepath.Join(t.TempDir(), "season.csv")
	require.NoError(t, os.WriteFile(path, table.Bytes(), 0o600))
	again, err := ask.ImportTable(t.Context(), ask.TableQuestion{PlotRef: w, Table: path})
	require.NoError(t, err)
	assert.Empty(t, again.Written)
	assert.Positive(t, again.Already)
	require.NoError(t, os.WriteFile(path, append(table.Bytes(), "what,is,this\n"...), 0o600))
	_, err = ask.ImportTable(t.Context(), ask.TableQuestion{PlotRef: w, Table: path})
	var rows strict.Errors
	require.ErrorAs(t, err, &rows)
	_, err = ask.ImportTable(t.Context(), ask.TableQuestion{PlotRef: w, Table: path + ".not"})
	require.ErrorIs(t, err, os.ErrNotExist)
}

func TestCheckReadsEverything(t *testing.T) {
	w := garden(t)
	answer, err := ask.Check(t.Context(), w)
	require.NoError(t, err)
	assert.Equal(t, 5, answer.Dishes)
	write(t, w.Dir, "kitchen.yaml", "measures: furlongs\n")
	write(t, w.Dir, "dishes/again.yaml", "name: [\n")
	_, err = ask.Check(t.Context(), w)
	require.ErrorContains(t, err, "kitchen.yaml:1:11")
	require.ErrorContains(t, err, "again.yaml", "every file's faults are told together")
	_, err = ask.Plantings(w)
	require.ErrorContains(t, err, "kitchen.yaml", "no weight is read by measures that are not told")
}

// A note stands against the dish and is there when it is next made.
func TestNotes(t *testing.T) {
	w := garden(t)
	note, err := ask.WriteNote(t.Context(), ask.NoteQuestion{PlotRef: w, Dish: "spring onion MASH", Says: "less salt", At: "2031-07-19"})
	require.NoError(t, err)
	assert.Equal(t, "Spring onion mash", note.Dish)
	plan, err := ask.ScaleDish(ask.DishWords{Plot: w, Name: "spring", Portions: 6})
	require.NoError(t, err)
	require.Len(t, plan.Dishes[0].Notes, 1)
	assert.Equal(t, "less salt", plan.Dishes[0].Notes[0].Says)
	for field, q := range map[string]ask.NoteQuestion{
		"dish": {Dish: "nothing", Says: "x"},
		"note": {Dish: "Spring onion mash", Says: " "},
		"at":   {Dish: "Spring onion mash", Says: "x", At: "soon"},
	} {
		q.PlotRef = w
		_, err := ask.WriteNote(t.Context(), q)
		requireField(t, field, err)
	}
	write(t, w.Dir, "dishes/broken.yaml", "name: [\n")
	_, err = ask.WriteNote(t.Context(), ask.NoteQuestion{PlotRef: w, Dish: "nothing", Says: "x"})
	require.ErrorContains(t, err, "broken.yaml", "it may be the dish meant")
}

func TestReadyWords(t *testing.T) {
	w := garden(t)
	for _, felt := range []string{"bed-2", "bed-2=3 kg", "bed-9=30 mm", "bed-2=0 mm"} {
		_, err := ask.Ready(t.Context(), ask.ReadyQuestion{PlotRef: w, Felt: []string{felt}})
		requireField(t, "felt", err)
		require.ErrorContains(t, err, felt, "the error shows what was typed")
	}
}

// A new plot is the demo's, its lift on the last day whose lift is past.
func TestBegin(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "mine")
	morning := time.Date(2033, 6, 2, 8, 0, 0, 0, time.UTC)
	begun, err := journal.BeginLike(dir, demo.Plot(), demo.Day(), morning)
	require.NoError(t, err)
	assert.Len(t, begun.Reasons(), 2)
	stock, err := ask.Stock(t.Context(), ask.PlotRef{Dir: dir, Now: morning})
	require.NoError(t, err)
	require.NotEmpty(t, stock.Lots)
	assert.Equal(t, "2033-06-01", stock.Lots[0].Lifted.Format(time.DateOnly))
	_, err = journal.BeginLike(dir, demo.Plot(), demo.Day(), morning)
	require.Error(t, err, "there is a plot")
}
