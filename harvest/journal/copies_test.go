package journal

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"trencher/harvest"
	"trencher/units/strict"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is damaged keeps nobody from mending the rest: copies behind it in the
// order of names are moved out of the way as well.
func TestMendPassesOverWhatIsDamaged(t *testing.T) {
	f := device(t)
	lifted(t, f, 0, 500)
	name := folderNames(t, filepath.Join(f.dir, "journal/2031"))[0]
	text, err := os.ReadFile(filepath.Join(f.dir, "journal/2031", name))
	require.NoError(t, err)
	writeNote(t, f, "journal/2031/0101-0000-a.yaml", "kind: none\n")
	writeNote(t, f, "journal/2031/from the phone.yaml", string(text))
	writeNote(t, f, "journal/2030/0101-0000-note-mash.yaml", "kind: note\nat: 2030-01-01T00:00:00Z\ndish: Mash\nsays: x\n")
	writeNote(t, f, "journal/2030/0101-0000-note-mash (1).yaml", "kind: note\nat: 2030-01-01T00:00:00Z\ndish: Mash\nsays: y\n")
	writeNote(t, f, "journal/2030/.unfinished-now.yaml", "kind: no") // somebody is writing it
	writeNote(t, f, "journal/2030/.unfinished-old.yaml", "kind: no")
	hour := time.Now().Add(-time.Hour)
	require.NoError(t, os.Chtimes(filepath.Join(f.dir, "journal/2030/.unfinished-old.yaml"), hour, hour))
	done, err := f.Mend(t.Context(), Options{}, time.Now())
	require.NoError(t, err)
	assert.Equal(t, []string{"journal/2030/set-aside/.unfinished-old.yaml", "journal/2030/set-aside/0101-0000-note-mash (1).yaml", "journal/2031/set-aside/from the phone.yaml"}, done.Aside)
	assert.FileExists(t, filepath.Join(f.dir, "journal/2031/0101-0000-a.yaml"))
	assert.FileExists(t, filepath.Join(f.dir, "journal/2030/.unfinished-now.yaml"))
}

// What cannot be looked at while a file is finished is told.
func TestWhatCannotBeFinishedIsTold(t *testing.T) {
	f := device(t)
	var done Mended
	require.ErrorContains(t, f.moveBeginnings(&done, "journal/2031/none.yaml"), "journal/2031/none.yaml: cannot be read: ")
	writeNote(t, f, "journal/2031/.unfinished-a.yaml", wholeEntry)
	f.fsys = &closedPlot{FS: f.fsys, at: 1}
	require.ErrorContains(t, f.moveBeginnings(&done, "journal/2031/.unfinished-a.yaml"), "journal/2031: cannot be read: permission denied")
	_, err := f.whole("journal/2031/.unfinished-b.yaml", Options{})
	require.ErrorContains(t, err, "cannot be read: ")
	assert.Equal(t, Mended{}, done)
	dir := plotWithFiles(t)
	for name, says := range map[string]string{"none.html": "cannot be read: no such file or directory", "elsewhere": "cannot be read: is a directory"} {
		err := Output{Field: "sheet", Path: filepath.Join(dir, name), Made: madeHere}.checkMade()
		require.ErrorContains(t, err, says)
	}
}

// By what a name shows to be a copy of another entry's.
func TestNamesOfCopies(t *testing.T) {
	for name, copied := range map[string]bool{
		"a~.yaml": true, "a (1).yaml": true, "a copy.yaml": true, "a(2).yml": true, "a-Copy.yaml": true, "a_copy_2.yaml": true,
		"a.sync-CONFLICT-1.yaml": true, "a-2.yaml": false, "ab.yaml": false, "a- 2.yaml": false, "b (1).yaml": false, "a.yml": false,
	} {
		want := map[string]string{}
		if copied {
			want[name] = "a.yaml"
		}
		assert.Equal(t, want, conflictCopies([]string{"a.yaml", name}), name)
	}
	assert.Equal(t, map[string]string{"lift-2 (1).yaml": "lift-2.yaml", "lift (1).yaml": "lift.yaml"},
		conflictCopies([]string{"lift.yaml", "lift-2.yaml", "lift-2 (1).yaml", "lift (1).yaml"}), "of the nearest name")
}

// An entry that was being written when it was looked at: where what lies beside it
// cannot be looked at, that is told; an unfinished file that is cut short itself
// says nothing of it.
func TestLookingAgain(t *testing.T) {
	f := device(t)
	writeNote(t, f, "journal/2031/0712-1640-note-mash.yaml", wholeEntry[:80])
	writeNote(t, f, "journal/2031/.unfinished-a.yaml", wholeEntry[:90])
	texts, err := f.unfinishedTexts("journal/2031")
	require.NoError(t, err)
	assert.Equal(t, []string{}, texts)
	_, _, err = f.Season(t.Context(), 2031, Options{})
	require.ErrorContains(t, err, "cut short")
	writeNote(t, f, "journal/2031/.unfinished-b.yaml", strings.Replace(wholeEntry, "less", "more", 1))
	writeNote(t, f, "journal/2031/.unfinished-c.yaml", wholeEntry)
	writeNote(t, f, "journal/2031/0712-1641-note-mash.yaml", wholeEntry)
	entries, left, err := f.Season(t.Context(), 2031, Options{})
	require.NoError(t, err, "its whole text lies beside it")
	assert.Len(t, entries, 1)
	assert.Empty(t, left)
	texts, err = f.unfinishedTexts("journal/2031")
	require.NoError(t, err)
	require.Len(t, texts, 2)
	assert.Equal(t, wholeEntry, texts[0])
	_, err = f.unfinishedTexts("journal/2029")
	require.ErrorContains(t, err, "journal/2029: cannot be read: ")
	_, err = f.unfinishedIn("journal/2029")
	require.ErrorIs(t, err, fs.ErrNotExist)
	whole := f.fsys
	for at := range 8 {
		closed := &closedPlot{FS: whole, at: at}
		f.fsys = closed
		_, _, err := f.Season(t.Context(), 2031, Options{})
		if closed.closed == "journal/2031" {
			require.ErrorContains(t, err, "journal/2031: cannot be read: permission denied", "opening %d", at)
		}
	}
	for text, begins := range map[string]bool{"": true, "a": true, "ab": true, "b": true, "bc": false, "c": false} {
		assert.Equal(t, begins, isBeginningOf([]string{"ab", "b"}, text), text)
	}
	assert.False(t, isBeginningOf(nil, ""))
}

// Which texts are the beginning of an entry, and no more.
func TestWhatIsCutShort(t *testing.T) {
	for text, short := range map[string]bool{
		"": true, opening[:5]: true, opening: true, opening + "\nkind: note\n": true, opening + "\nkind: note\n...": false, wholeEntry: false,
		"kind: note\n": false, "k": false, opening + "\nsays: a...": true, opening + "\n...\r\n": false,
	} {
		assert.Equal(t, short, cutShort([]byte(text)), "%q", text)
	}
}

// What lies in the journal's folder and is no season is none; of a season's files
// those are read that are YAML and not hidden.
func TestWhatIsASeason(t *testing.T) {
	f := device(t)
	for _, file := range []string{"journal/2030", "journal/2031/a.yaml", "journal/2031/b.YML", "journal/2031/c.txt", "journal/2031/.d.yaml", "journal/2031/e.yaml/f.yaml", "journal/20310/a.yaml", "journal/2o31/a.yaml", "journal/2029/a.yaml"} {
		writeNote(t, f, file, "kind: none\n")
	}
	years, err := f.Seasons()
	require.NoError(t, err)
	assert.Equal(t, []int{2029, 2031}, years)
	names, err := f.names("journal/2031")
	require.NoError(t, err)
	assert.Equal(t, []string{"a.yaml", "b.YML"}, names)
	none, err := f.names("elsewhere")
	require.NoError(t, err)
	assert.Empty(t, none)
}

// A planting that says too little is told of once for each thing that it lacks.
func TestPlantingsThatSayTooLittle(t *testing.T) {
	for text, says := range map[string][]string{
		"- {crop: potato, planted: 2031-04-02}\n- {crop: potato, planted: 2031-04-02}\n":                                {`1:3: the key "id" is missing`, `2:3: the key "id" is missing`},
		"- {id: tub-3, crop: potato, planted: 2031-04-02, seed: 5}\n- {id: tub-3, crop: potato, planted: 2031-04-02}\n": {`1:56: seed "5": how many, or their weight?`, `2:8: id "tub-3": stands on line 1 already`},
		"- {id: tub-3, planted: 2031-04-02}\n":                                                                          {`1:3: the key "crop" is missing`},
		"- {id: tub-3, crop: potato}\n":                                                                                 {`1:3: the key "planted" is missing`},
		"- {id: tub-3, crop: potato, planted: 2031-04-02, bed: 1-2 m x 1 m}\n":                                          {`1:55: bed "1-2 m x 1 m": not the sides of a bed`},
		"- {id: tub-3, crop: potato, planted: 2031-04-02, bed: [1 m2]}\n":                                               {`1:55: bed: `},
		"- {id: tub-3, crop: potato, planted: 2031-04-02, seed: {}, class: First Early}\n":                              nil,
		"- {id: tub-3, crop: grubleaf, planted: 2031-04-02, class: any}\n":                                              nil,
		"# nothing yet\n  # at all\n\n":                                                                                 nil,
	} {
		_, err := plantingsIn(Source{File: "p", Data: []byte(text)}, 0)
		if len(says) == 0 {
			assert.NoError(t, err, text)
			continue
		}
		var all strict.Errors
		require.ErrorAs(t, err, &all, text)
		require.Len(t, all, len(says), "%v", all)
		for i, want := range says {
			assert.True(t, strings.HasPrefix(all[i].Error(), "p:"+want), "%s, not %s", all[i], want)
		}
	}
}

// A class that a crop has not is told with those it has, be it one or none.
func TestClassesThatACropHasNot(t *testing.T) {
	for crop, accepted := range map[string]string{"beetroot": "no class: line; this crop has none", "parsnip": "", "carrot": ""} {
		row, known := harvest.LookupCrop(crop)
		require.True(t, known)
		if accepted == "" {
			accepted = strings.Join(row.Classes(), ", ")
		}
		require.NotEmpty(t, accepted)
		_, err := plantingsIn(Source{File: "p", Data: []byte("- {id: a, crop: " + crop + ", planted: 2031-04-02, class: unheard of}\n")}, 0)
		var all strict.Errors
		require.ErrorAs(t, err, &all)
		assert.Equal(t, `class "unheard of": no class of `+crop+"; "+accepted, all[0].Problem+"; "+all[0].Accepted)
	}
}

// What is taken at the most: somebody's parcels and tables are within it, and a
// smaller bound would refuse what was taken before.
func TestMostThatIsTaken(t *testing.T) {
	assert.Equal(t, []int{33_554_432, 200_000, 268_435_456, 4_194_304, 4_194_304, 3000, 1000, 12},
		[]int{LargestParcel, mostParcelFiles, mostParcelUnpacked, LargestTable, largestFile, mostPlantings, mostNames, mostRounds})
	assert.Equal(t, time.Minute, stillWriting)
}
