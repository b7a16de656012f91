package render

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/harvest/tables"
	"trencher/recipes/meal"
	"trencher/units"
	"trencher/units/strict"
)

// What is on hand, what is due and what the seasons gave.
func TestAccountsInFull(t *testing.T) {
	w := allotment(t)
	stock, err := ask.Stock(t.Context(), w)
	require.NoError(t, err)
	later := w
	later.On = "2031-08-25"
	past, err := ask.Stock(t.Context(), later)
	require.NoError(t, err)
	later.On = "2030-12-10"
	winter, err := ask.Stock(t.Context(), later)
	require.NoError(t, err)
	inFull(t, "stock", all(whys("stock", stock, StockText), []face{bare("json", stock, StockJSON), bare("weeks later", past, func(w io.Writer, a harvest.StockList) error { return StockText(w, a, false) }),
		bare("in winter", winter, func(w io.Writer, a harvest.StockList) error { return StockText(w, a, false) }), bare("json", winter, StockJSON), bare("nothing", harvest.StockList{On: w.Now}, func(w io.Writer, a harvest.StockList) error { return StockText(w, a, true) })})...)

	tally, err := ask.Tally(t.Context(), w, true)
	require.NoError(t, err)
	one, err := ask.Tally(t.Context(), w, false)
	require.NoError(t, err)
	inFull(t, "tally", all(whys("two seasons", tally, TallyText), whys("one", one, TallyText), []face{bare("json", tally, TallyJSON),
		bare("picture", tally, TallyPicture), bare("yields", tally, YieldPicture), bare("no season", harvest.Tally{}, func(w io.Writer, a harvest.Tally) error { return TallyText(w, a, false) })})...)

	var faces []face
	for _, on := range []string{"2031-06-20", "2031-07-20", "2031-11-20", "2031-01-01"} {
		later.On = on
		ready, err := ask.Ready(t.Context(), ask.ReadyQuestion{PlotRef: later, Felt: map[string][]string{"2031-06-20": {"tub-1=38 mm"}}[on]})
		require.NoError(t, err)
		faces = append(faces, all(whys(on, ready, ReadyText), []face{bare(on+" json", ready, ReadyJSON), bare(on+" views", ready, func(w io.Writer, a harvest.ReadyList) error {
			return writeJSON(w, Readiness(a))
		})})...)
	}
	inFull(t, "ready", faces...)
}

// What to plant next, from a journal and from what is meant to be eaten.
func TestNextSeasonInFull(t *testing.T) {
	w := allotment(t)
	next, err := ask.Next(t.Context(), ask.NextWords{PlotRef: w})
	require.NoError(t, err)
	w.On = "2031-12-01"
	meant, err := ask.Next(t.Context(), ask.NextWords{PlotRef: w, NextWords: meal.NextWords{Season: 2032, For: "3 adults", Eat: []string{"late maincrop potato, 3 a week, 26 weeks", "leek, 1 a week, 10 weeks"}}})
	require.NoError(t, err)
	inFull(t, "next", bare("from the journal", next, NextText), bare("json", next, NextJSON), bare("picture", next, NextPicture), bare("sheet", next, NextSheet),
		bare("meant to be eaten", meant, NextText), bare("json", meant, NextJSON), bare("picture", meant, NextPicture), says("titles", NextTitle(next), NextTitle(meant), string(NextDrawing(meant))))
}

// What was just written down, and taken back.
func TestEntriesInFull(t *testing.T) {
	w := allotment(t)
	w.Device = func() string { return "k3fqab" }
	lift, err := ask.Lift(t.Context(), ask.LiftQuestion{PlotRef: w, At: "16:40", LiftWords: harvest.LiftWords{Planting: "bed-2", Weighings: []string{"1.46 kg - 0.31 kg", "800 g - 0 g"},
		Grades: []string{"820 g 35-55 mm scabby", "9 oz damaged", "50 g green"}, Mothers: "90 g", Soil: "200 g", Left: harvest.LeftSome, Lies: "trug", Says: "dry"}})
	require.NoError(t, err)
	bare1, err := ask.Lift(t.Context(), ask.LiftQuestion{PlotRef: w, At: "16:50", LiftWords: harvest.LiftWords{Planting: "bed-2", Weighings: []string{"800 g - 0 g"}, Left: harvest.LeftNone}})
	require.NoError(t, err)
	inFull(t, "lift", bare("lift", lift, LiftText), bare("json", lift, LiftJSON), bare("a plain one", bare1, LiftText), bare("json", bare1, LiftJSON),
		says("before it is written", LiftWords(lift.Lift, "today 16:40"), LiftWords(bare1.Lift, "now")))

	var faces []face
	var entries []harvest.Entry
	for _, m := range []harvest.MoveWords{
		{To: harvest.KindUse, Lot: "bed-3", Weight: "100 g", Dish: "crushed"},
		{To: harvest.KindGive, Lot: "bed-3", Weight: "1 oz", Whom: "neighbours"},
		{To: harvest.KindCompost, Lot: "bed-3", Weight: "10 g", Reason: "soft"},
		{To: harvest.KindStore, Lot: "bed-3", Lies: "shed"},
	} {
		moved, err := ask.Move(t.Context(), ask.MoveQuestion{PlotRef: w, MoveWords: m})
		require.NoError(t, err)
		faces, entries = append(faces, bare(m.To, moved, MoveText), bare("json", moved, MoveJSON)), append(entries, moved.Move)
	}
	inFull(t, "move", faces...)

	reweighed, err := ask.Reweigh(t.Context(), ask.ReweighQuestion{PlotRef: w, ReweighWords: harvest.ReweighWords{Lot: "bed-6", Weight: "1.25 kg", Rotten: "20 g", Lies: "cellar", Air: "4 C"}})
	require.NoError(t, err)
	w.Sure = true
	heavier, err := ask.Reweigh(t.Context(), ask.ReweighQuestion{PlotRef: w, ReweighWords: harvest.ReweighWords{Lot: "bed-6", Weight: "1.3 kg"}})
	require.NoError(t, err)
	same, err := ask.Reweigh(t.Context(), ask.ReweighQuestion{PlotRef: w, ReweighWords: harvest.ReweighWords{Lot: "bed-6", Weight: "1.3 kg"}})
	require.NoError(t, err)
	inFull(t, "reweigh", bare("less", reweighed, ReweighText), bare("json", reweighed, ReweighJSON), bare("more", heavier, ReweighText), bare("json", heavier, ReweighJSON), bare("the same", same, ReweighText))

	w.Now = w.Now.Add(time.Minute)
	note, err := ask.WriteNote(t.Context(), ask.NoteQuestion{PlotRef: w, Dish: "crushed", Says: "more butter"})
	require.NoError(t, err)
	ledger, err := ask.Ledger(w)
	require.NoError(t, err)
	undone, err := ledger.Undo(t.Context(), note.File, w.Now)
	require.NoError(t, err)
	void, err := ask.Void(t.Context(), w, entries[1].Head().File, "weighed with the basket")
	require.NoError(t, err)
	inFull(t, "note-and-undo", bare("note", note, NoteText), bare("json", note, NoteJSON), bare("undo", undone, UndoText), bare("json", undone, UndoJSON), bare("void", void, VoidText), bare("json", void, VoidJSON))

	lot := "tub-1/2031-0705-1000/20-45-sound"
	entries = append(entries, lift.Lift, reweighed.Reweighed, note, void,
		&harvest.Planned{ID: "k3fqa", Makes: []harvest.Making{{Dish: "Mash", Portions: 4}, {Dish: "Salad", Portions: 2}}, Uses: []harvest.Use{{Lot: lot, Weight: units.MustParse("10 g")}}},
		&harvest.Steamed{Crop: "potato", Cut: "cube 25 mm", Until: "tender", Minutes: 11.5}, &harvest.Steamed{Crop: "potato", Cut: "cube 25 mm", Until: "tender", Minutes: 11, Said: "not-yet"}, &harvest.Steamed{Crop: "potato", Cut: "cube 25 mm", Until: "soft", Minutes: 11, Said: "over"})
	for _, what := range []harvest.Telling{harvest.ToldDone, harvest.ToldNotYet, harvest.ToldOver, harvest.ToldFiveLate} {
		entries = append(entries, &harvest.Told{Plan: "k3fqa", Step: "s7", What: what})
	}
	var lines []string
	for _, kind := range []string{harvest.KindCooked, harvest.KindChilled, harvest.KindOut, harvest.KindReheated, harvest.KindEaten, harvest.KindBinned} {
		entries = append(entries, &harvest.BatchEvent{Event: kind, Name: "Mash", Amount: units.MustParse("3")}, &harvest.BatchEvent{Event: kind, Name: "Mash", Amount: units.MustParse("300 g")}, &harvest.BatchEvent{Event: kind, Name: "Mash"})
		lines = append(lines, EventQuestion(kind, false), EventQuestion(kind, true), WhenQuestion(kind))
	}
	for _, e := range entries {
		if e.When().IsZero() {
			e.Head().At = w.Now
		}
		version := VersionOf(e)
		lines = append(lines, EntryWords(e), version.Says+" | "+version.Written)
	}
	lift.By = "k3fqab"
	lines = append(lines, VersionOf(lift.Lift).Written, ContradictionWords(harvest.Contradiction{}), ContradictionWords(harvest.Contradiction{Corrected: note, Instead: entries[:1]}),
		ContradictionWords(harvest.Contradiction{Corrected: note, Instead: entries[:2], Voided: true}), OverdraftWords(harvest.Overdraft{Overdrawn: harvest.Overdrawn{Lot: "bed-3", Had: decimal.NewFromInt(90)}, Entry: entries[0]}),
		OpenWords(0), OpenWords(1), OpenWords(2), MendedWords(journal.Mended{}), MendedWords(mended), MendedWords(journal.Mended{Written: []string{"a"}}),
		PlanBatchesWords(entries[8].(*harvest.Planned), []meal.EventWords{{Name: "Mash", Amount: "4"}, {Name: "Salad", Amount: "2"}}), Amount(units.Quantity{}), Amount(units.MustParse("2 lb")), Weight(decimal.NewFromInt(1250)))
	plantings, err := ask.Plantings(w)
	require.NoError(t, err)
	for _, p := range plantings {
		lines = append(lines, PlantingWords(p), PlantedWords(p))
	}
	inFull(t, "words-of-entries", says("words", lines...))
}

// What is said of a journal, of tables that come in and of parcels that go about.
func TestJournalsInFull(t *testing.T) {
	w := allotment(t)
	checked, err := ask.Check(t.Context(), w)
	require.NoError(t, err)
	table := filepath.Join(t.TempDir(), "weights.csv")
	import_ := func(text string, write bool, words tables.Words) (journal.Imported, error) {
		require.NoError(t, os.WriteFile(table, []byte(text), 0o600))
		done, err := ask.ImportTable(t.Context(), ask.TableQuestion{PlotRef: w, Table: table, Write: write, Words: words})
		done.Table = "weights.csv"
		var faults strict.Errors
		if errors.As(err, &faults) {
			err = nil
		}
		return done, err
	}
	old := "My weights\nDay;Bed;Weight (kg);Remarks\n18.07.2031;bed-2;1,46;dry\n14.03.2031;bed-2;0,5;\nsome day;bed-2;0,8;\n;;;\nTotal;;2,3;\n"
	looked, err := import_(old, false, tables.Words{})
	require.NoError(t, err)
	written, err := import_(old, true, tables.Words{})
	require.NoError(t, err)
	own, err := import_("at,planting,weight\n2031-07-18,bed-2,900 g\n2031-07-18,bed-2,heavy\n", false, tables.Words{})
	require.NoError(t, err)
	again, err := import_("at,planting,weight\n2031-07-18,bed-2,900 g\n", false, tables.Words{})
	require.NoError(t, err)
	_, asks := import_("date,planting,weight kg\n3/4/2031,bed-2,1\n", false, tables.Words{})
	var open *units.FieldError
	require.ErrorAs(t, asks, &open)
	faces := []face{bare("check", checked, CheckText), bare("json", checked, CheckJSON), bare("mend", mended, MendText), bare("json", mended, MendJSON), bare("nothing to mend", journal.Mended{}, MendText), bare("json", journal.Mended{}, MendJSON)}
	for _, one := range []struct {
		name string
		done journal.Imported
	}{{"looked at", looked}, {"written", written}, {"own", own}, {"again", again}} {
		for i := range one.done.Written {
			one.done.Written[i] = filepath.ToSlash(one.done.Written[i])
		}
		faces = append(faces, bare(one.name, one.done, ImportText), bare("json", one.done, ImportJSON), says("in words", ImportWords(one.done)))
	}
	faces = append(faces, says("what is asked", TableAsks(open)))

	var packed bytes.Buffer
	parcel, err := ask.Pack(t.Context(), &packed, w, journal.WholePlot)
	require.NoError(t, err)
	home := allotment(t)
	brought, err := ask.Bring(t.Context(), home, packed.Bytes(), journal.KeepOwn)
	require.NoError(t, err)
	twice, err := ask.Bring(t.Context(), home, packed.Bytes(), journal.KeepOwn)
	require.NoError(t, err)
	odd := journal.Brought{Parcel: journal.Parcel{Files: []string{"journal/2031/a.yaml"}, Entries: 1, Net: decimal.NewFromInt(1500)}, Already: 1, Kept: []string{"kitchen.yaml"}, Replaced: []string{"dishes/mash.yaml", "plantings.yaml"}, Damaged: []error{errors.New("notes.txt is no file of a plot")}}
	faces = append(faces, says("parcel", ParcelWords(parcel), ParcelWords(journal.Parcel{}), ParcelWords(odd.Parcel)))
	for _, b := range []journal.Brought{brought, twice, odd} {
		faces = append(faces, bare("brought", b, BroughtText), bare("json", b, BroughtJSON), says("in words", BroughtWords(b)...))
	}
	begun := journal.Begun{}
	faces = append(faces, bare("begun", begun, BegunText))
	inFull(t, "journal", faces...)
}
