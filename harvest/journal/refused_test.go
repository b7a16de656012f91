package journal

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/units"
	"trencher/units/strict"
)

// Whatever call the disk refuses, the job either says so, and that nothing was
// half-written, or is done as if nothing had been: a refusal is never passed over.
func TestEveryRefusalOfTheDiskIsTold(t *testing.T) {
	for _, job := range jobs(t) {
		t.Run(job.name, func(t *testing.T) {
			untouched := device(t)
			lifted(t, untouched, 0, 1500)
			require.NoError(t, job.do(untouched))
			after, err := account(t, untouched)
			require.NoError(t, err)
			told := 0
			for n := 1; ; n++ {
				f := device(t)
				lifted(t, f, 0, 1500)
				refusing := &dyingDisk{left: n, once: true}
				f.disk = refusing
				done := job.do(f)
				seen, err := account(t, f)
				require.NoError(t, err, "call %d", n)
				if refusing.left > 0 {
					break
				}
				if done == nil {
					require.Equal(t, after, seen, "call %d", n)
					continue
				}
				told++
				require.ErrorIs(t, done, errKilled, "call %d", n)
				var field *units.FieldError
				require.ErrorAs(t, done, &field, "call %d", n)
				says := field.Problem + "; " + field.Accepted
				require.True(t, strings.HasPrefix(says, "not written: ") && strings.HasSuffix(says, "nothing was half-written") || strings.HasPrefix(says, "cannot write "), "call %d: %s", n, says)
			}
			assert.Greater(t, told, 4)
		})
	}
}

// What mending meets is said, and what it could not do is left for the next time.
func TestMendTellsWhatTheDiskRefuses(t *testing.T) {
	clock := time.Now()
	copied := func() *Folder {
		f := device(t)
		lifted(t, f, 0, 1500)
		season := filepath.Join(f.dir, "journal/2031")
		entry, err := os.ReadFile(filepath.Join(season, folderNames(t, season)[0]))
		require.NoError(t, err)
		whole := strings.Replace(wholeEntry, "less", "more", 1)
		for name, text := range map[string]string{
			"from the phone.yaml": string(entry), ".unfinished-1.yaml": whole, ".unfinished-2.yaml": whole[:70],
			"0712-1640-note-mash.yaml": whole[:80], ".unfinished-new.yaml": "kind: no",
		} {
			path := filepath.Join(season, name)
			require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
			if name != ".unfinished-new.yaml" {
				require.NoError(t, os.Chtimes(path, clock.Add(-stillWriting), clock.Add(-stillWriting)))
			} else {
				require.NoError(t, os.Chtimes(path, clock, clock.Add(time.Second-stillWriting)))
			}
		}
		return f
	}
	f := copied()
	done, err := f.Mend(t.Context(), Options{}, clock)
	require.NoError(t, err)
	assert.Len(t, done.Finished, 1)
	assert.Equal(t, []string{"journal/2031/set-aside/0712-1640-note-mash.yaml", "journal/2031/set-aside/.unfinished-2.yaml",
		"journal/2031/set-aside/from the phone.yaml"}, done.Aside)
	left, err := f.Unfinished()
	require.NoError(t, err)
	assert.Equal(t, []string{"journal/2031/.unfinished-new.yaml"}, left, "somebody may be writing it")
	want, err := account(t, f)
	require.NoError(t, err)

	told := 0
	for n := 1; ; n++ {
		f := copied()
		refusing := &dyingDisk{left: n, once: true}
		f.disk = refusing
		_, err := f.Mend(t.Context(), Options{}, clock)
		if refusing.left > 0 {
			break
		}
		if err != nil {
			told++
			require.ErrorIs(t, err, errKilled)
			require.ErrorContains(t, err, "not written")
		}
		f.disk = realDisk{}
		_, err = f.Mend(t.Context(), Options{}, clock.Add(time.Hour))
		require.NoError(t, err)
		seen, err := account(t, f)
		require.NoError(t, err)
		require.Equal(t, want, seen, "call %d", n)
	}
	assert.Greater(t, told, 8)
}

// A second file of one name that is set aside gets a name of its own.
func TestSetAsideNeverOverwrites(t *testing.T) {
	f := device(t)
	for n, name := range []string{"a.yaml", "2-a.yaml", "3-a.yaml"} {
		path := filepath.Join(f.dir, "journal/2031/a.yaml")
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte{byte('1' + n)}, 0o644))
		var done Mended
		require.NoError(t, f.moveAside(&done, "journal/2031/a.yaml"))
		assert.Equal(t, []string{"journal/2031/set-aside/" + name}, done.Aside)
		assertFile(t, filepath.Join(f.dir, done.Aside[0]), string(rune('1'+n)))
	}
}

// What an old table, a parcel and a plot cannot hold is said.
func TestParcelsHaveBounds(t *testing.T) {
	home := device(t)
	for text, says := range map[string][]byte{
		`"kitchen.yaml" in it is damaged`: zipOf(t, "kitchen.yaml", strings.Repeat("#", largestFile+1)),
		"":                                zipOf(t, "kitchen.yaml", strings.Repeat("#", largestFile)),
	} {
		_, err := home.Bring(t.Context(), says, KeepOwn, Options{})
		if text == "" {
			assert.NoError(t, err)
			continue
		}
		assert.ErrorContains(t, err, text)
	}
	for file, year := range map[string]int{"journal/2031/a.yaml": 2031, "journal/2031/a.yml": 2031, "journal/31/a.yaml": 0, "journal/2031/a.txt": 0, "journal/2031/b/a.yaml": 0, "dishes/2031/a.yaml": 0, "journal/abcd/a.yaml": 0} {
		got, ok := entryYear(file)
		assert.Equal(t, year > 0, ok, file)
		if ok {
			assert.Equal(t, year, got)
		}
	}
	for name, plain := range map[string]bool{strings.Repeat("n", 200): true, strings.Repeat("n", 201): false, ".hid": false, "a:b": false, "a\x07": false, "dishes/mash.yaml": true, "../mash.yaml": false} {
		assert.Equal(t, plain, plainName(name), name)
	}
}

// A parcel of the same files is the same bytes, and tells all it carries in order; a
// folder that shows a parcel taken, lists each once.
func TestWhatAParcelTells(t *testing.T) {
	home := device(t)
	lifted(t, home, 0, 500)
	entry := "journal/2031/" + folderNames(t, filepath.Join(home.dir, "journal/2031"))[0]
	first, data := packed(t, home, WholePlot)
	assert.Equal(t, []string{"dishes/mash.yaml", entry, "kitchen.yaml", "plantings.yaml"}, first.Files)
	_, again := packed(t, home, WholePlot)
	assert.True(t, bytes.Equal(data, again))
	require.NoError(t, home.Taken(first))
	require.NoError(t, home.Taken(Parcel{Files: []string{entry}}))
	taken, err := os.ReadFile(filepath.Join(home.dir, carriedFile))
	require.NoError(t, err)
	assert.Equal(t, strings.Join(first.Files, "\n")+"\n", strings.TrimLeft(string(taken), "\n"))

	phone := device(t)
	done := brought(t, phone, data, KeepOwn)
	assert.Equal(t, []string{entry}, done.Files)
	assert.Equal(t, 3, done.Already)
	assert.Empty(t, append(append([]string{}, done.Kept...), done.Replaced...))
	_, err = home.Pack(t.Context(), refusing{}, WholePlot, Options{})
	assert.ErrorIs(t, err, errKilled)
}

type refusing struct{}

func (refusing) Write([]byte) (int, error) { return 0, errKilled }

// What is wrong with a planting is told beside the box that it was written in.
func TestPlantingsAreFaultedByTheirBoxes(t *testing.T) {
	good := harvest.PlantWords{Called: "bed-7", Crop: "carrot", Bed: "2 m2", Count: "40", Day: time.Date(2031, 4, 12, 0, 0, 0, 0, time.UTC)}
	for _, row := range []struct {
		change       func(*harvest.PlantWords)
		field, value string
	}{
		{func(w *harvest.PlantWords) { w.Called = "bed 7" }, "called", "bed 7"},
		{func(w *harvest.PlantWords) { w.Crop = "potatoe" }, "crop", "potatoe"},
		{func(w *harvest.PlantWords) { w.Count = "few" }, "count", "{count: few}"},
		{func(w *harvest.PlantWords) { w.Bed = "2 kg" }, "bed", "2 kg"},
		{func(w *harvest.PlantWords) { w.Bed, w.Tub = "", "30 kg" }, "tub", "30 kg"},
		{func(w *harvest.PlantWords) { w.Class = "hearting" }, "class", "hearting"},
	} {
		f := device(t)
		words := good
		row.change(&words)
		before := readTree(t, f.dir)
		_, err := f.Plant(words, units.Metric)
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong, row.field)
		assert.Equal(t, row.field, wrong.Field)
		assert.Equal(t, row.value, wrong.Value)
		assert.NotEmpty(t, wrong.Accepted)
		assert.Equal(t, before, readTree(t, f.dir))
	}
	f := device(t)
	words := good
	words.Crop, words.Bed = "potatoe", "2 kg"
	_, err := f.Plant(words, units.Metric)
	assert.Len(t, units.Several(err), 2, "both are told")
	_, err = f.Plant(good, units.Metric)
	require.NoError(t, err)
	for name, change := range map[string]func(*harvest.PlantWords){
		"variety": func(w *harvest.PlantWords) { w.Variety = "Early" }, "bed": func(w *harvest.PlantWords) { w.Bed = "3 m2" },
		"class": func(w *harvest.PlantWords) { w.Class = "maincrop" }, "count": func(w *harvest.PlantWords) { w.Count = "41" }, "tub": func(w *harvest.PlantWords) { w.Bed, w.Tub = "", "3 l" },
	} {
		other := good
		change(&other)
		_, err := f.Plant(other, units.Metric)
		assert.ErrorContains(t, err, "not as it is here", name)
	}
	sown := good
	sown.Sown = true
	_, err = f.Plant(sown, units.Metric)
	assert.ErrorContains(t, err, "not as it is here", "sown that day, not planted")
}

// writeNote puts a file into the plot by hand.
func writeNote(t *testing.T, f *Folder, file, text string) {
	t.Helper()
	path := filepath.Join(f.dir, filepath.FromSlash(file))
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
}

// What cannot be put beside a box is told as it is.
func TestFaultsThatAreOfNoBox(t *testing.T) {
	entry := []byte("- id: bed 7\n  sown: never\n")
	for _, row := range []struct {
		err         error
		field, says string
	}{
		{errKilled, "", "killed"},
		{&strict.Error{Line: 0, Problem: "odd"}, "", "odd"},
		{&strict.Error{Line: 1, Problem: "odd", Accepted: "even"}, "called", "bed 7"},
		{&strict.Error{Line: 2, Problem: "odd"}, "planted", "never"},
		{&strict.Error{Line: 3, Problem: "odd"}, "", "odd"},
		{&strict.Error{Line: 4, Problem: "odd"}, "", "odd"},
	} {
		err := besideBox(row.err, entry)
		require.ErrorContains(t, err, row.says)
		var field *units.FieldError
		if row.field == "" {
			assert.False(t, errors.As(err, &field) && field.Field != "", "%v", err)
			continue
		}
		require.ErrorAs(t, err, &field)
		assert.Equal(t, row.field+": "+row.says, field.Field+": "+field.Value)
	}
}

// What is wrong with one figure of an entry is told once.
func TestAFaultIsToldOnce(t *testing.T) {
	const steamed = "kind: steamed\nat: 2031-07-12T16:40:00Z\ncrop: potato\ncut: cube 25 mm\nuntil: tender\nminutes: 9\n"
	for text, faults := range map[string]int{
		steamed + "start: 9 kg\n": 1, steamed + "load: 9 C\n": 1, steamed + "start: 9 kg\npower: 9 C\ntier: 9\n": 3,
		"kind: lift\nplanting: tub-3\nat: 2031-07-12T16:40:00Z\nweighings: [{gross: much}]\ngrades: [{weight: 9 kg}]\n":                                        1,
		"kind: out\nbatch: a\nat: 2031-07-12T16:40:00Z\nuntil: soon\n":                                                                                         1,
		"kind: lift\nplanting: tub-3\nat: 2031-07-12T16:40:00Z\nweighings: [{gross: 1 kg}]\ngrades: [{weight: 1 kg, condition: '', sizes: ''}]\ncalled: a b\n": 3,
	} {
		_, err := decodeEntry(Source{File: "a.yaml", Data: []byte(text)}, 2031, Options{})
		var all strict.Errors
		require.ErrorAs(t, err, &all, text)
		assert.Len(t, all, faults, "%s%v", text, all)
	}
	e, err := decodeEntry(Source{Data: []byte("kind: lift\nplanting: tub-3\nat: 2031-07-12 16:40\nweighings: [{gross: 1 kg}]\ngrades: [{weight: 1 kg}]\n")}, 0, Options{})
	require.NoError(t, err)
	assert.Equal(t, time.Date(2031, 7, 12, 16, 40, 0, 0, time.UTC), e.When(), "UTC where no zone is said")
	assert.Equal(t, harvest.Sound, e.(*harvest.Lift).Grades[0].Condition)
	assert.Equal(t, []string{"a", "b", "c"}, listed("a, b,c "))
}
