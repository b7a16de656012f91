package journal_test

import (
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
	"trencher/units"
	"trencher/units/strict"
)

// Every planting that cannot be is named by its line, column and key.
func TestPlantingsThatCannotBe(t *testing.T) {
	for _, row := range []struct{ name, old, new, says, hint string }{
		{"a name with a space", "id: tub-3", "id: tub 3", `:1:7: id "tub 3": cannot name a planting`, "letters, digits, - and _"},
		{"a slip of the pen", "crop: potato", "crop: potatoe", `:2:9: crop "potatoe": a slip of the pen`, "potato"},
		{"in two places", "  tub: 30 l", "  tub: 30 l\n  bed: 1 m2", `:8:8: bed "1 m2": a planting stands in a tub or in a bed, not in both`, "either tub: or bed:"},
		{"a class of another crop", "class: second early", "class: hearting", `:4:10: class "hearting": no class of potato`, "first early, second early, early maincrop, late maincrop"},
		{"a class where there is none", "  crop: beetroot", "  crop: beetroot\n  class: early", `:11:10: class "early": no class of beetroot`, "this crop has none"},
		{"the same twice", "id: bed-1\n  crop: beetroot\n  planted: '2031-04-20'", "id: tub-3\n  crop: beetroot\n  planted: 2031-04-02", `:9:7: id "tub-3": stands on line 1 already`, "another id"},
		{"a tub of nothing", "tub: 30 l", "tub: 0 l", `:7:8: tub "0 l": not one amount above nothing`, "such as 30 l"},
		{"a bed between two sizes", "bed: 2 m2", "bed: 1-2 m2", `:12:8: bed "1-2 m2": not one amount above nothing`, "such as 30 l"},
		{"one side of a bed", "bed: 2 m2", "bed: 2 m x much", `:12:8: bed "2 m x much": `, "sq yd"},
		{"sides by weight", "bed: 2 m2", "bed: 2 kg x 1 kg", `:12:8: bed "2 kg x 1 kg": not the sides of a bed`, "as 2 m x 1.2 m"},
		{"no side at all", "bed: 2 m2", "bed: 0 m x 1 m", `:12:8: bed "0 m x 1 m": not the sides of a bed`, "as 2 m x 1.2 m"},
		{"seed without a key", "seed: {count: 3, weight: 190 g}", "seed: 190 g", `:6:9: seed "190 g": how many, or their weight?`, "{weight: 300 g}"},
		{"seed by the litre", "weight: 190 g", "weight: 190 ml", `:6:28: weight "190 ml"`, ""},
		{"half a seed", "count: 3", "count: 0.5", `:6:17: count "0.5": not a whole number`, ""},
		{"a texture unheard of", "texture: waxy", "texture: soapy", `:8:12: texture "soapy"`, "waxy"},
		{"a day that is none", "planted: 2031-04-02", "planted: 2031-04-31", `:5:12: planted "2031-04-31"`, ""},
		{"sown and planted", "planted: 2031-04-02", "planted: 2031-04-02\n  sown: 2031-04-01", `:5:12: planted "2031-04-02": stands beside sown`, "either sown: or planted:"},
		{"no crop", "  crop: potato\n", "", `:1:3: `, ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			text := strings.Replace(plantings, row.old, row.new, 1)
			require.NotEqual(t, plantings, text)
			_, err := journal.Embedded(plot(map[string]string{"plantings.yaml": text}), "test").Plantings(units.Metric)
			var all strict.Errors
			require.ErrorAs(t, err, &all)
			assert.Contains(t, all[0].Error(), "plantings.yaml"+row.says)
			assert.Contains(t, all[0].Hint(), row.hint)
		})
	}
}

// What the file says is what comes of it; a tub's name may come again another
// year.
func TestPlantingsRead(t *testing.T) {
	again := plantings + "- {id: tub-3, crop: carrots, planted: 2032-04-02, tub: 30 l, feed: seaweed, mulch: straw, notes: late}\n"
	list, err := journal.Embedded(plot(map[string]string{"plantings.yaml": again}), "test").Plantings(units.Metric)
	require.NoError(t, err)
	require.Len(t, list, 3)
	assert.Equal(t, []string{"tub-3", "bed-1"}, harvest.IDs(list))
	assert.Equal(t, 3, list[0].SeedCount)
	assert.True(t, list[0].SeedWeight.Equal(units.MustParse("190 g")))
	assert.True(t, list[1].Bed.Equal(units.MustParse("2 m2")))
	assert.Equal(t, "carrot", list[2].Crop)
	assert.Equal(t, []string{"seaweed", "straw", "late"}, []string{list[2].Feed, list[2].Mulch, list[2].Notes})
	assert.Equal(t, 13, list[2].Place.Line)
}

// A bed is read by its area or by its sides, as it is measured.
func TestBedBySides(t *testing.T) {
	for written, area := range map[string]string{
		"2 m x 1.2 m": "2.4 m2", "2 x 1.2 m": "2.4 m2", "200cm×120cm": "2.4 m2", "1 m by 50 cm": "0.5 m2", "10 ft x 3 ft": "30 sq ft", "2.4 m2": "2.4 m2",
	} {
		text := strings.Replace(plantings, "bed: 2 m2", "bed: "+written, 1)
		list, err := journal.Embedded(plot(map[string]string{"plantings.yaml": text}), "test").Plantings(units.Metric)
		require.NoError(t, err, written)
		want, err := units.MustParse(area).In(units.SquareMetre)
		require.NoError(t, err)
		got, err := list[1].Bed.In(units.SquareMetre)
		require.NoError(t, err)
		assert.True(t, got.Equal(want), "%s: %s", written, list[1].Bed)
	}
}

// A planting has the date of its sowing where that is what the grower knows.
func TestPlantingsSown(t *testing.T) {
	text := strings.Replace(plantings, "planted: 2031-04-02", "sown: 2031-04-01", 1)
	list, err := journal.Embedded(plot(map[string]string{"plantings.yaml": text}), "test").Plantings(units.Metric)
	require.NoError(t, err)
	assert.True(t, list[0].Sown)
	assert.Equal(t, "2031-04-01", list[0].Planted.Format(time.DateOnly))
	assert.False(t, list[1].Sown)
}

// The other files of a plot come with the name to print in errors; dishes in
// the order of their file names.
func TestFilesOfAPlot(t *testing.T) {
	folder := journal.Embedded(plot(map[string]string{"dishes/b.yaml": "name: B\n", "dishes/a.yaml": "name: A\n", "dishes/notes.txt": "x"}), "the garden")
	assert.Equal(t, "the garden", folder.Name())
	source, err := folder.Kitchen()
	require.NoError(t, err)
	assert.Equal(t, journal.Source{File: "kitchen.yaml", Data: []byte(kitchen)}, source)
	dishes, err := folder.Dishes()
	require.NoError(t, err)
	require.Len(t, dishes, 2)
	assert.Equal(t, "dishes/a.yaml", dishes[0].File)
	assert.Equal(t, "name: B\n", string(dishes[1].Data))
	none, err := journal.Embedded(plot(nil), "test").Dishes()
	require.NoError(t, err)
	assert.Empty(t, none, "a plot need not have dishes yet")
}

// A folder in place of a file is named as such.
func TestFoldersInPlaceOfFiles(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(dir, "kitchen.yaml"), 0o755))
	_, err := journal.Open(dir)
	require.ErrorIs(t, err, journal.ErrNoPlot)
	assert.ErrorContains(t, err, "its kitchen.yaml is a folder")

	whole := newPlot(t)
	require.NoError(t, os.MkdirAll(filepath.Join(whole, "dishes", "mash.yaml"), 0o755))
	folder, err := journal.Open(whole)
	require.NoError(t, err)
	dishes, err := folder.Dishes()
	require.NoError(t, err)
	assert.Empty(t, dishes, "a folder is no dish")
}

// A plot that cannot be begun leaves nothing behind: not a file, not a folder.
func TestBeginLeavesNothingOfAFailure(t *testing.T) {
	parent := t.TempDir()
	files := []journal.Source{
		{File: "kitchen.yaml", Data: []byte(kitchen)},
		{File: "dishes/mash.yaml", Data: []byte("name: Mash\n")},
		{File: "kitchen.yaml/no.yaml", Data: []byte("a file stands where its folder should")},
	}
	_, err := journal.Begin(filepath.Join(parent, "garden"), files)
	require.ErrorContains(t, err, "not written: ")
	left, err := os.ReadDir(parent)
	require.NoError(t, err)
	assert.Empty(t, left)

	empty := filepath.Join(parent, "empty")
	require.NoError(t, os.Mkdir(empty, 0o755))
	_, err = journal.Begin(empty, files)
	require.Error(t, err)
	left, err = os.ReadDir(empty)
	require.NoError(t, err)
	assert.Empty(t, left, "the folder that was there stays, as it was")

	file := filepath.Join(parent, "file")
	require.NoError(t, os.WriteFile(file, nil, 0o644))
	_, err = journal.Begin(file, files[:1])
	assert.ErrorContains(t, err, "not written: ")
}

// Any plantings.yaml that is taken is read in a moment; a longer one is refused.
func TestPlantingsHaveABound(t *testing.T) {
	list := func(count int) string {
		var text strings.Builder
		for n := range count {
			fmt.Fprintf(&text, "- {id: tub-%d, crop: potato, planted: 2031-04-02}\n", n)
		}
		return text.String()
	}
	_, folder := onDisk(t, map[string]string{"plantings.yaml": list(3000)})
	plantings, err := folder.Plantings(units.Metric)
	require.NoError(t, err)
	assert.Len(t, plantings, 3000)
	_, folder = onDisk(t, map[string]string{"plantings.yaml": list(3001)})
	_, err = folder.Plantings(units.Metric)
	assert.EqualError(t, err, "plantings.yaml:1:1: too many plantings")
}
