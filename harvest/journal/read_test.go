package journal_test

import (
	"context"
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/units"
)

const kitchen = "measures: metric\n"

const plantings = `- id: tub-3
  crop: potato
  variety: Weir Gold
  class: second early
  planted: 2031-04-02
  seed: {count: 3, weight: 190 g}
  tub: 30 l
  texture: waxy
- id: bed-1
  crop: beetroot
  planted: '2031-04-20'
  bed: 2 m2
`

const lift = `kind: lift
planting: tub-3
at: 2031-07-12T16:40:00+01:00
weighings: [{gross: 1.46 kg, tare: 0.31 kg}, {gross: 0.98 kg, tare: 0.31 kg}]
grades:
  - {sizes: 45-65 mm, weight: 700 g, count: 6, condition: sound}
  - {sizes: 20-45 mm, weight: 820 g, condition: scabby}
  - {weight: 90 g, condition: damaged}
  - {weight: 60 g, condition: green}
`

var options = journal.Options{System: units.Metric, Zone: time.FixedZone("", 3600)}

// plot is an embedded plot with the given files beside the usual ones.
func plot(files map[string]string) fs.FS {
	all := fstest.MapFS{"kitchen.yaml": {Data: []byte(kitchen)}, "plantings.yaml": {Data: []byte(plantings)}}
	for name, text := range files {
		all[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return all
}

func season(t *testing.T, files map[string]string) []harvest.Entry {
	t.Helper()
	entries, skipped, err := journal.Embedded(plot(files), "test").Season(context.Background(), 2031, options)
	require.NoError(t, err)
	require.Empty(t, skipped)
	return entries
}

// A season is one folder: what lies in other years is not even opened.
func TestOnlyTheSeasonAskedForIsRead(t *testing.T) {
	entries := season(t, map[string]string{liftFile: lift, "journal/2029/broken.yaml": "\xff", "journal/2032/broken.yaml": "kind: ["})
	assert.Len(t, entries, 1)
	years, err := journal.Embedded(plot(map[string]string{liftFile: lift, "journal/2029/x.yaml": "", "journal/notes/x.yaml": "", "journal/12/x.yaml": ""}), "test").Seasons()
	require.NoError(t, err)
	assert.Equal(t, []int{2029, 2031}, years)
}

// The lift of the folder's documentation: two bowls of 1150 g and 670 g, four
// grades of 1670 g, so that 150 g are one ungraded sound lot.
func TestLiftReads(t *testing.T) {
	folder := journal.Embedded(plot(map[string]string{"journal/2031/0712-1640-lift-tub-3.yaml": lift}), "test")
	ledger, err := folder.Ledger(context.Background(), options, time.Date(2031, 7, 12, 0, 0, 0, 0, time.UTC))
	require.NoError(t, err)
	account, err := ledger.Account()
	require.NoError(t, err)
	var got []string
	for _, l := range account.Stock().Lots {
		got = append(got, l.ID+" "+l.Weight.String()+" "+l.Supply.String())
	}
	assert.Equal(t, []string{
		"tub-3/2031-0712-1640/ungraded-damaged 90 76.5",
		"tub-3/2031-0712-1640/20-45-scabby 820 820",
		"tub-3/2031-0712-1640/45-65-sound 700 700",
		"tub-3/2031-0712-1640/ungraded-sound 150 150",
		"tub-3/2031-0712-1640/ungraded-green 60 0",
	}, got)
}

// listedFiles counts how often the folders of a plot are listed.
type listedFiles struct {
	fs.FS
	lists int
}

func (l *listedFiles) ReadDir(name string) ([]fs.DirEntry, error) {
	l.lists++
	return fs.ReadDir(l.FS, name)
}

// However many entries are cut short, what lies unfinished beside them is looked
// for once.
func TestManyTornEntriesAreLookedAtOnce(t *testing.T) {
	lists := func(n int) int {
		files := map[string]string{}
		for i := range n {
			files[fmt.Sprintf("journal/2031/0712-%04d-lift-tub-3.yaml", i)] = "# entry of the journal; it is whole when its last line is \"...\"\nkind: lift\n"
		}
		counting := &listedFiles{FS: plot(files)}
		_, _, err := journal.Embedded(counting, "plot").Season(t.Context(), 2031, options)
		require.Error(t, err)
		require.Equal(t, n, strings.Count(err.Error(), "is cut short"))
		return counting.lists
	}
	assert.Equal(t, lists(1), lists(200))
}
