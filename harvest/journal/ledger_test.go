package journal_test

import (
	"bytes"
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
	"trencher/units"
	"trencher/units/strict"
)

var dayAfter = time.Date(2031, 7, 13, 20, 0, 0, 0, time.FixedZone("", 3600))

// The ledger is opened from the folder, asked, written to, and read back.
func TestLedgerOfAFolder(t *testing.T) {
	dir := newPlot(t)
	folder, err := journal.Open(dir)
	require.NoError(t, err)
	ledger, err := folder.LedgerToWrite(options)
	require.NoError(t, err)
	assert.Len(t, ledger.Plantings, 2)
	lifted, err := ledger.Lift(context.Background(), &harvest.Lift{Planting: "bed-1", Weighings: []harvest.Weighing{{Gross: units.MustParse("1 kg")}}}, dayAfter)
	require.NoError(t, err)
	assert.FileExists(t, filepath.Join(dir, lifted.File))
	moved, err := ledger.Move(context.Background(), &harvest.Move{To: harvest.KindUse, Weight: units.MustParse("300 g")}, "bed-1", dayAfter)
	require.NoError(t, err)
	_, err = ledger.Void(context.Background(), lifted.File, "", dayAfter)
	require.ErrorContains(t, err, "there is no lot "+lifted.Lots[0].ID)
	corrected := &harvest.Lift{Planting: "bed-1", Weighings: []harvest.Weighing{{Gross: units.MustParse("1.2 kg")}}}
	corrected.Replaces = lifted.File
	again, err := ledger.Lift(context.Background(), corrected, dayAfter)
	require.NoError(t, err)
	assert.Equal(t, lifted.Lots[0].ID, again.Lots[0].ID, "a correction keeps the names of its lots")
	assert.NotEqual(t, lifted.File, again.File, "and overwrites nothing")

	fresh, err := folder.Ledger(context.Background(), options, dayAfter)
	require.NoError(t, err)
	require.NoError(t, fresh.CheckClock(context.Background(), dayAfter))
	account, err := fresh.Account()
	require.NoError(t, err)
	require.Len(t, account.Stock().Lots, 1)
	assert.Equal(t, moved.Lot, account.Stock().Lots[0].ID)
	assert.Equal(t, "900", account.Stock().Lots[0].Weight.String())
}

// What is wrong in plantings.yaml and in the journal is told in one go; beside
// it the ledger holds what could be read.
func TestLedgerTellsAllFaultsAtOnce(t *testing.T) {
	files := map[string]string{
		"plantings.yaml":                   strings.Replace(plantings, "crop: potato", "crop: potatoe", 1),
		liftFile:                           strings.Replace(lift, "820 g", "820 ml", 1),
		"journal/2030/0712-0900-note.yaml": "kind: note\n",
	}
	ledger, err := journal.Embedded(plot(files), "test").Ledger(context.Background(), options, dayAfter)
	var all strict.Errors
	require.ErrorAs(t, err, &all)
	var where []string
	for _, one := range all {
		where = append(where, one.File)
	}
	assert.Equal(t, []string{"journal/2030/0712-0900-note.yaml", "journal/2030/0712-0900-note.yaml", "journal/2030/0712-0900-note.yaml", liftFile, "plantings.yaml"}, where)
	assert.NotNil(t, ledger)

	lenient := options
	lenient.SkipDamaged = true
	files["plantings.yaml"] = plantings
	files[useFile] = use
	ledger, err = journal.Embedded(plot(files), "test").Ledger(context.Background(), lenient, dayAfter)
	require.NoError(t, err)
	account, err := ledger.Account()
	require.NoError(t, err)
	assert.Empty(t, account.Lots)
	var left []string
	for _, w := range account.Warnings {
		switch w := w.(type) {
		case harvest.LeftOut:
			left = append(left, w.File)
		case harvest.Waiting:
			left = append(left, w.File+" waits for "+w.For)
		}
	}
	assert.Equal(t, []string{"journal/2030/0712-0900-note.yaml", liftFile, useFile + " waits for tub-3/2031-0712-1640/45-65-sound"}, left, "the use rests on the damaged lift")
}

// A damaged journal keeps no new weight out; an embedded one keeps out all.
func TestLedgerToWrite(t *testing.T) {
	dir := newPlot(t)
	season := filepath.Join(dir, "journal", "2031")
	require.NoError(t, os.MkdirAll(season, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(season, "0712-0900-note.yaml"), []byte("kind: note\n"), 0o644))
	folder, err := journal.Open(dir)
	require.NoError(t, err)
	ledger, err := folder.LedgerToWrite(options)
	require.NoError(t, err)
	_, err = ledger.Lift(context.Background(), someLift(1, 1), dayAfter)
	require.NoError(t, err)
	_, err = journal.Embedded(plot(nil), "the demo plot").LedgerToWrite(options)
	require.ErrorIs(t, err, journal.ErrReadOnly)
	require.EqualError(t, err, "the demo plot: this plot is read-only")
}

func TestCheckedJournal(t *testing.T) {
	files := map[string]string{liftFile: lift, useFile: use,
		"journal/2030/0801-0900-note.yaml": "kind: note\ndish: Mash\nsays: good\nat: 2030-08-01 09:00\n",
		"journal/2031/.unfinished-aa.yaml": "kind: li"}
	checked, err := journal.Embedded(plot(files), "test").Check(context.Background(), options, dayAfter)
	require.NoError(t, err)
	assert.Equal(t, 3, checked.Entries)
	assert.Equal(t, []int{2030, 2031}, checked.Seasons)
	assert.Equal(t, []harvest.Warning{harvest.Unfinished{File: "journal/2031/.unfinished-aa.yaml"}}, checked.Warnings)
	assert.Equal(t, "journal/2031/.unfinished-aa.yaml was being written when something stopped it; what it holds is in no account", checked.Warnings[0].String())
	assert.Equal(t, "3 entries", checked.Reasons()[1].Value)
	files[useFile] = strings.Replace(use, "45-65-sound", "45-65-green", 1)
	checked, err = journal.Embedded(plot(files), "test").Check(context.Background(), options, dayAfter)
	require.NoError(t, err)
	require.Len(t, checked.Warnings, 2)
	assert.Contains(t, checked.Warnings[0].String(), useFile+":2:6: there is no lot")
	files[useFile] = strings.Replace(lift, "planting: tub-3", "planting: tub-9", 1)
	checked, err = journal.Embedded(plot(files), "test").Check(context.Background(), options, dayAfter)
	require.ErrorContains(t, err, useFile+`:2:11: planting "tub-9" is not in plantings.yaml`)
	assert.Equal(t, journal.Checked{}, checked)
	files[useFile] = "kind: use\n"
	_, err = journal.Embedded(plot(files), "test").Check(context.Background(), options, dayAfter)
	require.ErrorContains(t, err, useFile+":1:1")
}

// Seasons go out as one table: those named, or all.
func TestExportOfSeasons(t *testing.T) {
	folder := journal.Embedded(plot(map[string]string{liftFile: lift, useFile: use,
		"journal/2030/0801-0900-note.yaml": "kind: note\ndish: Mash\nsays: good\nat: 2030-08-01 09:00\n",
		"journal/2029/broken.yaml":         "kind: [",
	}), "test")
	rows := func(seasons ...int) int {
		var out bytes.Buffer
		require.NoError(t, folder.Export(context.Background(), &out, options, seasons...))
		return strings.Count(out.String(), "\r\n")
	}
	assert.Equal(t, 1+1, rows(2030))
	assert.Equal(t, 1+6+1, rows(2031), "two bowls, four grades, a use")
	assert.Equal(t, 1+1+6+1, rows(2030, 2031))
	require.ErrorContains(t, folder.Export(context.Background(), &bytes.Buffer{}, options), "journal/2029/broken.yaml", "all of them")
}
