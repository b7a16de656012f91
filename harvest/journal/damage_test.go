package journal_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/units/strict"
)

const (
	liftFile = "journal/2031/0712-1640-lift-tub-3.yaml"
	useFile  = "journal/2031/0713-1200-use-tub-3.yaml"
	use      = "kind: use\nlot: tub-3/2031-0712-1640/45-65-sound\nweight: 300 g\nat: 2031-07-13T12:00:00+01:00\n"
)

// The ways a folder is damaged in real life: what is said of each, and that
// the rest still works when damaged entries are to be skipped.
func TestDamagedFolders(t *testing.T) {
	written := "# entry of the journal; it is whole when its last line is \"...\"\n" + lift + "...\n"
	for _, row := range []struct{ name, file, text, says string }{
		{"cut short", liftFile, written[:strings.Index(written, "  - {weight: 90 g")], liftFile + `:9:1: the entry is cut short: its closing line is missing`},
		{"cut in a word", liftFile, written[:len(written)-30], liftFile + `:10:1: the entry is cut short: its closing line is missing`},
		{"empty", liftFile, "", liftFile + `:1:1: the file is empty`},
		{"two entries run together", liftFile, lift + use, liftFile + `:10:1: key "kind" stands twice, first in line 1`},
		{"two entries as two documents", liftFile, lift + "---\n" + use, liftFile + `:10:1: a second document begins here`},
		{"two written entries run together", liftFile, written + written, liftFile + `:12:1: a second entry begins here`},
		{"a merge tool's marks", liftFile, "<<<<<<< this\n" + lift + "=======\n" + use + ">>>>>>> that\n", liftFile + `:2:1: not readable as YAML`},
		{"tabs", liftFile, strings.Replace(lift, "  - {weight: 90", "\t- {weight: 90", 1), liftFile + `:8:1: a tab in the indentation`},
		{"wrong encoding", liftFile, lift + "says: Fr\xfchling\n", liftFile + `:10:9: this is not UTF-8 text`},
		{"UTF-16", liftFile, "\xff\xfek\x00i\x00", liftFile + `:1:1: the file is saved as UTF-16`},
		{"unknown kind", liftFile, "kind: lifted\n", liftFile + `:1:7: kind "lifted": not one of the words known here`},
		{"unknown key", liftFile, lift + "plating: x\n", liftFile + `:10:1: unknown key "plating"`},
		{"a key of another kind", liftFile, lift + "dish: x\n", liftFile + `:10:1: unknown key "dish"`},
		{"no planting", liftFile, strings.Replace(lift, "planting: tub-3\n", "", 1), liftFile + `:1:1: the key "planting" is missing`},
		{"no weighing", liftFile, "kind: lift\nplanting: tub-3\nat: 2031-07-12 16:40\nweighings: []\n", liftFile + `:1:1: a lift without a weighing`},
		{"grades above net", liftFile, strings.Replace(lift, "820 g", "1.82 kg", 1), liftFile + `:6:3: grades: the grades add up to 2670 g, 850 g more than the net weight of 1820 g`},
		{"tare above gross", liftFile, strings.Replace(lift, "tare: 0.31 kg}, {", "tare: 3.1 kg}, {", 1), liftFile + `:4:36: tare "3.1 kg": the empty bowl, 3.1 kg, weighs more than the full one, 1.46 kg`},
		{"negative weight", liftFile, strings.Replace(lift, "820 g", "-820 g", 1), liftFile + `:7:31: weight "-820 g": below zero`},
		{"absurd weight", liftFile, strings.Replace(lift, "1.46 kg", "1.46 tonne", 1), liftFile + `:4:21: gross "1.46 tonne": 1.46 tonne in one bowl is beyond any scale of a garden`},
		{"wrong unit", liftFile, strings.Replace(lift, "820 g", "820 ml", 1), liftFile + `:7:31: weight "820 ml": a volume where a mass is wanted`},
		{"unknown condition", liftFile, strings.Replace(lift, "scabby", "scaby", 1), liftFile + `:7:49: condition "scaby": not a condition known here`},
		{"sizes reversed", liftFile, strings.Replace(lift, "20-45", "45-20", 1), liftFile + `:7:13: sizes "45-20 mm": the sizes run from large to small`},
		{"count of nothing", liftFile, strings.Replace(lift, "count: 6", "count: 0", 1), liftFile + `:6:45: count "0": not a whole number from 1 to 100000`},
		{"another year's folder", "journal/2031/0712-1640-lift-tub-3b.yaml", strings.Replace(lift, "2031", "2030", 1), `journal/2031/0712-1640-lift-tub-3b.yaml:3:5: at "2030-07-12T16:40:00+01:00": an entry of season 2030 lies in the folder of 2031`},
		{"no lot's name", useFile, strings.Replace(use, "tub-3/2031-0712-1640/45-65-sound", "tub-3", 1), useFile + `:2:6: lot "tub-3": no lot's name`},
		{"nothing used", useFile, strings.Replace(use, "300 g", "0 g", 1), useFile + `:3:9: weight "0 g": a weight of nothing`},
	} {
		t.Run(row.name, func(t *testing.T) {
			files := map[string]string{liftFile: lift, "journal/2031/0801-0900-lift-bed-1.yaml": strings.Replace(lift, "tub-3", "bed-1", 1)}
			files[row.file] = row.text
			folder := journal.Embedded(plot(files), "test")

			_, _, err := folder.Season(context.Background(), 2031, options)
			var all strict.Errors
			require.ErrorAs(t, err, &all)
			require.Contains(t, all[0].Error(), row.says)
			assert.NotEmpty(t, all[0].Hint(), "what to write instead")

			skipping := options
			skipping.SkipDamaged = true
			entries, skipped, err := folder.Season(context.Background(), 2031, skipping)
			require.NoError(t, err)
			require.Len(t, skipped, 1)
			assert.Equal(t, row.file, skipped[0].File)
			assert.ErrorAs(t, skipped[0].Err, &all)
			assert.Len(t, entries, len(files)-1, "the rest still works")
		})
	}
}

// What a file may be saved with and still read.
func TestHarmlessDifferences(t *testing.T) {
	for name, text := range map[string]string{
		"a byte order mark":  "\xef\xbb\xbf" + lift,
		"Windows line ends":  strings.ReplaceAll(lift, "\n", "\r\n"),
		"a written entry":    "# entry of the journal; it is whole when its last line is \"...\"\n" + lift + "...\n",
		"... from Windows":   strings.ReplaceAll("# entry of the journal; it is whole when its last line is \"...\"\n"+lift+"...\n", "\n", "\r\n"),
		"quoted time":        strings.Replace(lift, "2031-07-12T16:40:00+01:00", "'2031-07-12T16:40:00+01:00'", 1),
		"a time of the plot": strings.Replace(lift, "2031-07-12T16:40:00+01:00", "2031-07-12 16:40", 1),
		"no ending line":     strings.TrimRight(lift, "\n"),
	} {
		t.Run(name, func(t *testing.T) {
			entries := season(t, map[string]string{liftFile: text, "journal/2031/.unfinished-1.yaml": "half", "journal/2031/readme.txt": "x"})
			require.Len(t, entries, 1)
			l := entries[0].(*harvest.Lift)
			assert.Equal(t, "1820", l.Net().String())
			assert.Equal(t, "150", l.Rest().String())
			assert.Equal(t, 15, l.At.UTC().Hour())
		})
	}
}

// Wherever a written entry is cut, it is never read as if it were whole.
func TestNoPrefixOfAnEntryIsRead(t *testing.T) {
	dir := newPlot(t)
	folder, err := journal.Open(dir)
	require.NoError(t, err)
	file, err := folder.Write(someLift(1, 1))
	require.NoError(t, err)
	whole := read(t, dir, file)
	end := strings.LastIndex(whole, "...")
	for cut := range end + 2 {
		f := journal.Embedded(plot(map[string]string{liftFile: whole[:cut]}), "test")
		_, _, err := f.Season(context.Background(), 2031, options)
		require.Error(t, err, "cut at byte %d: %q", cut, whole[:cut])
	}
}

// Every file's faults are told in one go, plantings and journal apart.
func TestAllFaultsAtOnce(t *testing.T) {
	files := map[string]string{
		liftFile: strings.NewReplacer("820 g", "820 ml", "scabby", "scaby").Replace(lift),
		useFile:  strings.Replace(use, "300 g", "some", 1),
	}
	_, _, err := journal.Embedded(plot(files), "test").Season(context.Background(), 2031, options)
	var all strict.Errors
	require.ErrorAs(t, err, &all)
	require.Len(t, all, 3)
	assert.Equal(t, []string{liftFile, liftFile, useFile}, []string{all[0].File, all[1].File, all[2].File})
}
