package journal

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"trencher/units"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const madeHere = "<!-- made here -->"

// plotWithFiles is a folder with a plot called garden and some files beside it.
func plotWithFiles(t *testing.T) string {
	dir := t.TempDir()
	for name, text := range map[string]string{
		"garden/kitchen.yaml":                  "measures: metric\n",
		"garden/plantings.yaml":                "[]\n",
		"garden/dishes/mash.yaml":              "name: Mash\n",
		"garden/journal/2031/0701-1200-x.yaml": "kind: note\n",
		"ours.html":                            madeHere + "an earlier sheet",
		"theirs.html":                          "<p>the school's newsletter</p>",
		"empty.html":                           "",
		"elsewhere/journal/diary.html":         madeHere, // no plot: it has no kitchen.yaml
		"garden/sheets/last.html":              madeHere,
	} {
		path := filepath.Join(dir, name)
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	}
	return dir
}

// No output ever takes the place of a plot's file, whatever is insisted on, and
// that of another file only where trencher made it or somebody insists.
func TestOutputReplacesOnlyWhatIsItsOwn(t *testing.T) {
	tests := []struct {
		path         string
		says, forced string // the error, also with Force; "" = written
	}{
		{"new.html", "", ""},
		{"ours.html", "", ""},
		{"empty.html", "", ""},
		{"theirs.html", "not made by trencher", ""},
		{"elsewhere/journal/diary.html", "", ""},
		{"garden/sheets/last.html", "", ""},
		{"garden/sheets/new.html", "", ""},
		{"garden/kitchen.yaml", "the plot's own files (kitchen.yaml)", "the plot's own files (kitchen.yaml)"},
		{"elsewhere/kitchen.yaml", "the plot's own files (kitchen.yaml)", "the plot's own files (kitchen.yaml)"},
		{"elsewhere/Plantings.yaml", "the plot's own files (plantings.yaml)", "the plot's own files (plantings.yaml)"},
		{"garden/KITCHEN.yaml", "the plot's own files (kitchen.yaml)", "the plot's own files (kitchen.yaml)"},
		{"garden/sheets/../plantings.yaml", "the plot's own files (plantings.yaml)", "the plot's own files (plantings.yaml)"},
		{"garden/dishes/mash.yaml", "the plot's own files (dishes)", "the plot's own files (dishes)"},
		{"garden/dishes/new.html", "the plot's own files (dishes)", "the plot's own files (dishes)"},
		{"garden/journal/2031/0701-1200-x.yaml", "the plot's own files (journal)", "the plot's own files (journal)"},
		{"garden/journal/2032/new.html", "the plot's own files (journal)", "the plot's own files (journal)"},
		{"to-kitchen.html", "the plot's own files (kitchen.yaml)", "the plot's own files (kitchen.yaml)"},
		{"dangling.html", "a link to nothing", "a link to nothing"},
		{"elsewhere", "no ordinary file", "no ordinary file"},
		{"none/plan.html", "there is no folder", "there is no folder"},
		{"nul.html", "a device", "a device"},
		{"COM1", "a device", "a device"},
		{"lpt.html", "", ""},
		{"conserve.html", "", ""},
		{"", "no file name given", "no file name given"},
	}
	for _, test := range tests {
		t.Run(test.path, func(t *testing.T) {
			for _, force := range []bool{false, true} {
				dir := plotWithFiles(t)
				require.NoError(t, os.Symlink(filepath.Join(dir, "garden/kitchen.yaml"), filepath.Join(dir, "to-kitchen.html")))
				require.NoError(t, os.Symlink(filepath.Join(dir, "nothing"), filepath.Join(dir, "dangling.html")))
				before := readTree(t, dir)
				path, says := test.path, test.says
				if path != "" {
					path = filepath.Join(dir, path)
				}
				if force {
					says = test.forced
				}
				err := Output{Field: "sheet", Path: path, Made: madeHere, Force: force}.Write(writeText("new"))
				if says == "" {
					require.NoError(t, err)
					assertFile(t, path, "new")
					continue
				}
				assert.ErrorContains(t, err, says)
				assert.ErrorContains(t, err, "sheet")
				assert.Equal(t, before, readTree(t, dir))
			}
		})
	}
}

func readTree(t *testing.T, dir string) map[string]string {
	files := map[string]string{}
	require.NoError(t, filepath.Walk(dir, func(path string, info os.FileInfo, err error) error {
		if err == nil && info.Mode().IsRegular() {
			data, err := os.ReadFile(path)
			files[path] = string(data)
			return err
		}
		return err
	}))
	return files
}

// A dish that is brought in may go among the dishes of a plot, in the place of
// none that is there.
func TestNewDishGoesAmongTheDishes(t *testing.T) {
	dir := plotWithFiles(t)
	dish := Output{Field: "to", Path: filepath.Join(dir, "garden/dishes/soup.yaml"), Dish: true}
	require.NoError(t, dish.Write(writeText("name: Soup\n")))
	assertFile(t, dish.Path, "name: Soup\n")
	assert.ErrorContains(t, dish.Write(writeText("name: Other\n")), "exists already")
	assertFile(t, dish.Path, "name: Soup\n")
	for _, path := range []string{"garden/journal/2031/new.yaml", "garden/plantings.yaml"} {
		assert.ErrorContains(t, Output{Field: "to", Path: filepath.Join(dir, path), Dish: true}.Write(writeText("x")), "the plot's own files")
	}
}

// What is no dish never lands among the dishes, though its file has no mark of
// its maker either; nor does a folder.
func TestOnlyDishesGoAmongTheDishes(t *testing.T) {
	dir := plotWithFiles(t)
	parcel := Output{Path: filepath.Join(dir, "garden/dishes/plot.zip"), Force: true}
	assert.ErrorContains(t, parcel.Write(writeText("PK")), "the plot's own files (dishes)")
	assert.NoFileExists(t, parcel.Path)
	for _, path := range []string{"garden/dishes/phone", "garden/journal/2031", "garden/kitchen.yaml/phone"} {
		assert.ErrorContains(t, CheckApart("", filepath.Join(dir, path)), "the plot's own files", path)
	}
	for _, path := range []string{"garden/phone", "phone", "elsewhere/journal"} {
		assert.NoError(t, CheckApart("", filepath.Join(dir, path)), path)
	}
}

func TestTwoOutputsNeverShareAFile(t *testing.T) {
	dir := plotWithFiles(t)
	at := func(name string) string { return filepath.Join(dir, name) }
	require.NoError(t, os.Symlink(at("ours.html"), at("same.html")))
	require.NoError(t, os.Symlink(dir, at("here")))
	for _, pair := range [][2]string{
		{at("plan"), at("plan")},
		{at("plan"), dir + "/./garden/../plan"},
		{at("plan"), at("PLAN")},
		{at("plan"), at("here/plan")},
		{at("ours.html"), at("same.html")},
	} {
		sheet := Output{Field: "sheet", Path: pair[0], Made: madeHere}
		calendar := Output{Field: "calendar", Path: pair[1], Made: madeHere}
		assert.ErrorContains(t, CheckOutputs(sheet, calendar), "the sheet goes to that file already", "%v", pair)
	}
	sheet := Output{Field: "sheet", Path: at("plan.html"), Made: madeHere}
	calendar := Output{Field: "calendar", Path: at("plan.ics"), Made: madeHere}
	assert.NoError(t, CheckOutputs(sheet, calendar))
	assert.NoError(t, CheckOutputs(sheet, Output{Field: "calendar"}), "no calendar was asked for")
}

// An earlier answer is what was written here; a file of somebody else is none.
func TestEarlierAnswers(t *testing.T) {
	dir := plotWithFiles(t)
	for name, earlier := range map[string]string{"ours.html": madeHere + "an earlier sheet", "theirs.html": "", "empty.html": "", "none.html": ""} {
		assert.Equal(t, earlier, Output{Path: filepath.Join(dir, name), Made: madeHere}.Earlier(), name)
	}
	assert.Empty(t, Output{Path: filepath.Join(dir, "ours.html")}.Earlier(), "where nothing shows who made it")
}

// Outputs are looked at before anything is worked out for them: the first that
// cannot be is told by its field.
func TestOutputsThatCannotBe(t *testing.T) {
	dir := plotWithFiles(t)
	at := func(name string) string { return filepath.Join(dir, name) }
	sheet := Output{Field: "sheet", Path: at("plan.html"), Made: madeHere}
	for path, says := range map[string]string{
		"theirs.html":         "that file was not made by trencher, and would be lost",
		"theirs.html/x.html":  "cannot be looked at: not a directory",
		"none/x.html":         "there is no folder " + at("none"),
		"garden/kitchen.yaml": "that is a place for the plot's own files (kitchen.yaml)",
	} {
		err := CheckOutputs(sheet, Output{Field: "calendar", Path: at(path), Made: madeHere})
		var field *units.FieldError
		require.ErrorAs(t, err, &field, path)
		assert.Equal(t, "calendar: "+says, field.Field+": "+field.Problem)
		assert.Equal(t, at(path), field.Value)
	}
	err := CheckOutputs(Output{Field: "calendar", Path: at("theirs.html"), Made: madeHere})
	assert.ErrorIs(t, err, ErrForeign)
	assert.NoError(t, CheckOutputs(Output{Field: "calendar", Path: at("theirs.html"), Made: madeHere, Force: true}))
	long := at("long.html")
	for room, fine := range map[int]bool{0: true, 1024 - len(madeHere): true, 1025 - len(madeHere): false} {
		require.NoError(t, os.WriteFile(long, []byte(strings.Repeat(" ", room)+madeHere+strings.Repeat(" ", 2000)), 0o644))
		assert.Equal(t, fine, CheckOutputs(Output{Field: "sheet", Path: long, Made: madeHere}) == nil, "its maker is told within the first 1024 bytes: %d", room)
	}
	for name, device := range map[string]bool{"con": true, "PRN.txt": true, "aux.html": true, "nul": true, "com0": true, "lpt9.ics": true, "com1.a.b": true,
		"com": false, "coma": false, "com10": false, "abc1": false, "console": false, "lpt.1": false, "1com": false} {
		assert.Equal(t, device, isDevice(name), name)
	}
	t.Chdir(dir)
	assert.True(t, sameFile("none/a", at("none/a")), "from here and from the root")
	assert.True(t, sameFile("plan", at("plan")))
	assert.True(t, sameFile(at("none/a"), at("none/A")), "on some disks")
	assert.False(t, sameFile(at("none/a"), at("none/b")))
	assert.False(t, sameFile(at("ours.html"), at("none/ours.html")))
	assert.False(t, sameFile(at("ours.html"), at("theirs.html")))
}
