package journal

import (
	"archive/zip"
	"bytes"
	"context"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/harvest/tables"
	"trencher/units"
)

// The first entry of a season makes its folder. Whatever call the disk refuses
// then, too, is told, and is done wholly when it is asked for again.
func TestFirstEntryOfASeason(t *testing.T) {
	newer := zipOf(t, "kitchen.yaml", "measures: uk\n", "plantings.yaml", "[]\n", "dishes/mash.yaml", "name: Mash, finer\n", "dishes/soup.yaml", "name: Soup\n")
	all := append(jobs(t), job{"a parcel for the phone", false, func(f *Folder) error {
		_, err := f.Bring(t.Context(), newer, TakeNewer, Options{})
		return err
	}})
	for _, job := range all {
		if job.name == "a plan taken" {
			continue // there is nothing to plan with yet
		}
		t.Run(job.name, func(t *testing.T) {
			untouched := device(t)
			require.NoError(t, job.do(untouched))
			told := 0
			for n := 1; ; n++ {
				f := device(t)
				refusing := &dyingDisk{left: n, once: true}
				f.disk = refusing
				done := job.do(f)
				if refusing.left > 0 {
					break
				}
				if done != nil {
					told++
					require.ErrorIs(t, done, errKilled, "call %d", n)
					var field *units.FieldError
					require.ErrorAs(t, done, &field, "call %d", n)
					require.Regexp(t, "^(not written: |cannot write )", field.Problem)
					require.NoError(t, job.do(f))
				}
				require.Equal(t, readTree(t, untouched.dir), moved(plain(readTree(t, f.dir)), f.dir, untouched.dir), "call %d", n)
			}
			assert.Greater(t, told, 8)
		})
	}
}

// plain is a tree of files without those that nobody reads.
func plain(tree map[string]string) map[string]string {
	for path := range tree {
		if strings.HasPrefix(filepath.Base(path), temporaryPrefix) || strings.HasSuffix(path, ".part") {
			delete(tree, path)
		}
	}
	return tree
}

// A strange entry is of no kind that is written down.
type strange struct{ *harvest.Note }

// What cannot be written as an entry is refused, alone and among others, and
// nothing is made for it.
func TestWhatIsNoEntryIsNotWritten(t *testing.T) {
	at := harvest.Header{At: time.Date(2031, 7, 13, 18, 5, 0, 0, time.UTC)}
	odd := strange{&harvest.Note{Header: at, Dish: "Mash", Says: "x"}}
	noText := &harvest.Note{Header: at, Dish: "Mash", Says: "\xff"}
	f := device(t)
	before := readTree(t, f.dir)
	for says, e := range map[string]harvest.Entry{"an entry of kind note cannot be written": odd, "invalid UTF-8": noText} {
		_, err := f.Write(e)
		require.ErrorContains(t, err, says)
		_, _, err = f.readBack(e, "a")
		require.ErrorContains(t, err, says)
		err = f.writeAll(&importing{records: []*record{{entry: e, stem: "a"}}})
		require.ErrorContains(t, err, says)
	}
	assert.Equal(t, before, readTree(t, f.dir))
	assert.NoDirExists(t, filepath.Join(f.dir, "journal"))
	other := strange{&harvest.Note{Header: at, Dish: "Mash", Says: "x"}}
	assert.Equal(t, contents(&odd), contents(&odd))
	assert.NotEqual(t, contents(&odd), contents(&other), "of what cannot be told apart nothing is passed over")
	assert.Empty(t, rowsOf(odd))
	rows := rowsOf(&harvest.Note{Header: at, Dish: "Mash", Says: "x"})
	require.Len(t, rows, 1, "of an entry that lies nowhere yet")
	assert.Regexp(t, "^2031/", rows[0]["entry"])
	assert.ErrorIs(t, unreadable(errKilled), errKilled)
}

// Everything that an entry may hold, and the least, as it stands in its file.
func TestEntriesAsTheyStand(t *testing.T) {
	at := time.Date(2031, 7, 13, 18, 5, 0, 0, time.UTC)
	lot := "tub-3/2031-0712-1640/20-45-scabby"
	const head = opening + "\nkind: KIND\n"
	for _, row := range []struct {
		entry harvest.Entry
		text  string // behind the kind, up to the closing line
	}{
		{&harvest.Lift{Planting: "tub-3", Weighings: []harvest.Weighing{{Gross: units.MustParse("1 kg")}}},
			"planting: tub-3\nat: \"2031-07-13T18:05:00Z\"\nweighings:\n  - {gross: 1 kg}\n"},
		{&harvest.Lift{Planting: "tub-3", Weighings: []harvest.Weighing{{Gross: units.MustParse("1 kg"), Tare: units.MustParse("200 g")}},
			Grades: []harvest.Grade{{Weight: units.MustParse("300 g"), Condition: harvest.Sound}, {Weight: units.MustParse("1 g"), Count: 1, Condition: harvest.Sound}}},
			"planting: tub-3\nat: \"2031-07-13T18:05:00Z\"\nweighings:\n  - {gross: 1 kg, tare: 200 g}\ngrades:\n  - {weight: 300 g, condition: sound}\n  - {weight: 1 g, count: 1, condition: sound}\n"},
		{&harvest.Steamed{Crop: "potato", Cut: "cube 25 mm", Until: "tender", Minutes: 9, Tier: 1},
			"at: \"2031-07-13T18:05:00Z\"\ncrop: potato\ncut: cube 25 mm\nuntil: tender\nminutes: 9\ntier: 1\n"},
		{&harvest.Steamed{Crop: "potato", Cut: "cube 25 mm", Until: "tender", Minutes: 9},
			"at: \"2031-07-13T18:05:00Z\"\ncrop: potato\ncut: cube 25 mm\nuntil: tender\nminutes: 9\n"},
		{&harvest.Planned{ID: "k3fqa", Uses: []harvest.Use{{Lot: lot, Weight: units.MustParse("1 g")}}},
			"at: \"2031-07-13T18:05:00Z\"\nplan: k3fqa\nuses:\n  - {lot: " + lot + ", weight: 1 g}\n"},
		{&harvest.Planned{ID: "k3fqa", Uses: []harvest.Use{{Lot: lot, Weight: units.MustParse("1 g"), Dish: "Mash"}}, Makes: []harvest.Making{{Dish: "Mash", Portions: 1}}, Asked: []harvest.Asked{{Field: "for", Says: "4"}}},
			"at: \"2031-07-13T18:05:00Z\"\nplan: k3fqa\nmakes:\n  - {dish: Mash, portions: 1}\nuses:\n  - {lot: " + lot + ", weight: 1 g, dish: Mash}\nasked:\n  - {field: for, says: \"4\"}\n"},
		{&harvest.BatchEvent{Event: harvest.KindCooked, Name: "Mash 1", Food: "mash", Also: []string{"pesto", "rice"}, Dish: "Mash", Plan: "k3fqa", Amount: units.MustParse("1 kg"), Says: "x"},
			"at: \"2031-07-13T18:05:00Z\"\nbatch: Mash 1\nfood: mash\nalso: pesto, rice\ndish: Mash\nplan: k3fqa\namount: 1 kg\nsays: x\n"},
	} {
		row.entry.Head().At = at
		data, err := encodeEntry(row.entry)
		require.NoError(t, err)
		want := strings.Replace(head, "KIND", row.entry.Kind(), 1) + row.text + closing + "\n"
		assert.Equal(t, strings.ReplaceAll(want, "\"2031-07-13T18:05:00Z\"", "2031-07-13T18:05:00Z"), string(data))
		read, err := decodeEntry(Source{Data: data}, 2031, Options{})
		require.NoError(t, err)
		again, err := encodeEntry(read)
		require.NoError(t, err)
		assert.Equal(t, string(data), string(again))
	}
}

// A name is tried as it is, then counted up to nine, then with letters that chance
// makes; after a thousand nobody goes on.
func TestNamesThatAreTried(t *testing.T) {
	var names []string
	for name := range namesFrom("x") {
		names = append(names, name)
	}
	require.Len(t, names, 1000)
	assert.Equal(t, []string{"x.yaml", "x-2.yaml", "x-3.yaml", "x-4.yaml", "x-5.yaml", "x-6.yaml", "x-7.yaml", "x-8.yaml", "x-9.yaml"}, names[:9])
	seen := map[string]bool{}
	for _, name := range names {
		assert.False(t, seen[name])
		seen[name] = true
	}
	for _, name := range names[9:] {
		require.Regexp(t, `^x-[0-9a-f]{8}\.yaml$`, name)
	}
	assert.Regexp(t, `^\.unfinished-[0-9a-f]{16}\.yaml$`, temporaryName())
	assert.NotEqual(t, temporaryName(), temporaryName())
}

// The file a replacing one is written to first stands beside it, hidden, under a
// name of its own.
func TestReplacingIsWrittenBeside(t *testing.T) {
	dir := t.TempDir()
	d := &namingDisk{}
	require.NoError(t, replaceFile(d, filepath.Join(dir, "plan.html"), writeText("new")))
	require.NoError(t, replaceFile(d, filepath.Join(dir, "plan.html"), writeText("newer")))
	require.Len(t, d.created, 2)
	for _, path := range d.created {
		assert.Equal(t, dir, filepath.Dir(path))
		assert.Regexp(t, `^\.plan\.html\.[0-9a-f]{16}\.part$`, filepath.Base(path))
	}
	assert.NotEqual(t, d.created[0], d.created[1])
}

// namingDisk remembers the files that were made.
type namingDisk struct {
	realDisk
	created []string
}

func (d *namingDisk) Create(path string) (diskFile, error) {
	d.created = append(d.created, path)
	return d.realDisk.Create(path)
}

// What the disk refused first is what is told.
func TestFirstRefusalIsTold(t *testing.T) {
	noted := &noting{diskFile: &faultyFile{diskFile: nopFile{}, disk: &faultyDisk{failAt: 1, err: errKilled}}}
	_, err := noted.Write([]byte("a"))
	require.ErrorIs(t, err, errKilled)
	noted.diskFile = &faultyFile{diskFile: nopFile{}, disk: &faultyDisk{failAt: 1, err: fs.ErrClosed}}
	_, err = noted.Write([]byte("a"))
	require.ErrorIs(t, err, fs.ErrClosed)
	assert.ErrorIs(t, noted.failed, errKilled)
	fine := &noting{diskFile: nopFile{}}
	written, err := fine.Write([]byte("abc"))
	require.NoError(t, err)
	assert.Equal(t, 3, written)
	assert.NoError(t, fine.failed)
}

type nopFile struct{ diskFile }

func (nopFile) Write(data []byte) (int, error) { return len(data), nil }

// After the first error nothing more is begun: no more than are under way at once.
func TestNothingIsBegunAfterAnError(t *testing.T) {
	begun := make(chan int, 2000)
	err := forEach(1000, func(i int) error { begun <- i; return errKilled })
	require.ErrorIs(t, err, errKilled)
	assert.LessOrEqual(t, len(begun), syncedAtOnce)
	begun = make(chan int, 2000)
	require.NoError(t, forEach(1000, func(i int) error { begun <- i; return nil }))
	require.Len(t, begun, 1000)
	seen := map[int]bool{}
	for range 1000 {
		seen[<-begun] = true
	}
	assert.Len(t, seen, 1000)
	assert.True(t, seen[0] && seen[999])
}

// A disk on which somebody else takes a name first.
type takenDisk struct{ realDisk }

func (d takenDisk) Link(old, new string) error {
	if err := os.WriteFile(new, []byte("somebody else's"), 0o644); err != nil {
		return err
	}
	return d.realDisk.Link(old, new)
}

// Who brings a table in while somebody else writes is told to do it again.
func TestImportBesideAnotherWriter(t *testing.T) {
	f := device(t)
	f.disk = takenDisk{}
	table := Source{File: "old.csv", Data: []byte("planting,at,net\ntub-3,2031-07-18,1.2 kg\n")}
	on := time.Date(2031, 7, 20, 8, 0, 0, 0, time.UTC)
	_, err := f.Import(t.Context(), table, tables.Words{Dates: "ymd"}, Options{}, on)
	assert.EqualError(t, err, "somebody else wrote to the journal just now; import old.csv again: what is in stays in once")
}

// A parcel that cannot be written on is told, wherever the writing stops, and one
// that is no longer wanted is left.
func TestParcelsThatCannotBeWritten(t *testing.T) {
	home := device(t)
	random := rand.New(rand.NewPCG(1, 2))
	for _, name := range []string{"a", "b"} { // what cannot be pressed together
		var text strings.Builder
		for range 9000 {
			text.WriteByte(byte('a' + random.IntN(26)))
		}
		require.NoError(t, os.WriteFile(filepath.Join(home.dir, "dishes", name+".yaml"), []byte("name: "+text.String()+"\n"), 0o644))
	}
	_, whole := packed(t, home, WholePlot)
	require.Greater(t, len(whole), 9000)
	for room := 0; room < len(whole); room += 500 {
		_, err := home.Pack(t.Context(), &smallRoom{left: room}, WholePlot, Options{})
		require.ErrorIs(t, err, errKilled, "%d bytes", room)
	}
	over, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := home.Pack(over, new(bytes.Buffer), WholePlot, Options{})
	assert.ErrorIs(t, err, context.Canceled)
	_, err = device(t).Bring(over, whole, KeepOwn, Options{})
	assert.ErrorIs(t, err, context.Canceled)
	lifted(t, home, 0, 500)
	_, _, err = home.Season(over, 2031, Options{})
	assert.ErrorIs(t, err, context.Canceled)
}

// smallRoom takes so many bytes and no more.
type smallRoom struct{ left int }

func (r *smallRoom) Write(data []byte) (int, error) {
	if len(data) > r.left {
		return 0, errKilled
	}
	r.left -= len(data)
	return len(data), nil
}

// A parcel made by other hands: its folders are passed over, what is no ordinary
// file or cannot be unpacked is refused, and nothing of it is taken.
func TestParcelsOfOtherHands(t *testing.T) {
	parcel := func(header *zip.FileHeader) []byte {
		var out bytes.Buffer
		w := zip.NewWriter(&out)
		f, err := w.Create("dishes/soup.yaml")
		require.NoError(t, err)
		_, err = f.Write([]byte("name: Soup\n"))
		require.NoError(t, err)
		_, err = w.CreateRaw(header)
		require.NoError(t, err)
		_, err = w.Create("dishes/")
		require.NoError(t, err)
		f, err = w.Create("dishes/stew.yaml")
		require.NoError(t, err)
		_, err = f.Write([]byte("name: Stew\n"))
		require.NoError(t, err)
		require.NoError(t, w.Close())
		return out.Bytes()
	}
	link := &zip.FileHeader{Name: "dishes/link.yaml"}
	link.SetMode(fs.ModeSymlink | 0o777)
	for says, header := range map[string]*zip.FileHeader{
		"": {Name: "journal/"}, `not brought: "dishes/link.yaml" is no ordinary file`: link, `not brought: "dishes/odd.yaml" in it is damaged`: {Name: "dishes/odd.yaml", Method: 99},
	} {
		f := device(t)
		done, err := f.Bring(t.Context(), parcel(header), KeepOwn, Options{})
		if says == "" {
			require.NoError(t, err)
			assert.Equal(t, []string{"dishes/soup.yaml", "dishes/stew.yaml"}, done.Files)
			continue
		}
		assert.EqualError(t, err, says)
		assert.NoFileExists(t, filepath.Join(f.dir, "dishes/soup.yaml"))
	}
	_, err := Unpack(t.Context(), t.TempDir(), []byte("no zip"), Options{})
	assert.ErrorContains(t, err, "this is no whole parcel of entries")
	whole := zipOf(t, "kitchen.yaml", "measures: metric\n")
	dir := t.TempDir()
	require.NoError(t, os.Symlink(filepath.Join(dir, "nothing"), filepath.Join(dir, "link")))
	_, err = Unpack(t.Context(), filepath.Join(dir, "link"), whole, Options{})
	require.ErrorContains(t, err, "not written: ")
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "plot/kitchen.yaml"), 0o755))
	_, err = Unpack(t.Context(), filepath.Join(dir, "plot"), whole, Options{})
	require.ErrorIs(t, err, ErrNoPlot)
	done, err := Unpack(t.Context(), filepath.Join(dir, "new"), zipOf(t, "dishes/soup.yaml", "name: Soup\n", "kitchen.yaml", "measures: uk\n"), Options{})
	require.NoError(t, err)
	assert.Equal(t, []string{"dishes/soup.yaml"}, done.Files)
	assert.Equal(t, 1, done.Already)
	assertFile(t, filepath.Join(dir, "new", "kitchen.yaml"), "measures: uk\n")
}

// A parcel's weight is that of its lifts; what else is written weighs nothing.
func TestParcelsWeighTheirLifts(t *testing.T) {
	home := device(t)
	lifted(t, home, 0, 500)
	_, err := home.Write(&harvest.Note{Header: harvest.Header{At: time.Date(2031, 7, 19, 9, 0, 0, 0, time.UTC)}, Dish: "Mash", Says: "x"})
	require.NoError(t, err)
	parcel, data := packed(t, home, WholePlot)
	assert.Equal(t, 2, parcel.Entries)
	assert.Equal(t, "500", parcel.Net.String())
	done := brought(t, device(t), data, KeepOwn)
	assert.Equal(t, 2, done.Entries)
	assert.Equal(t, "500", done.Net.String())
	var reasons []string
	for _, each := range append(append(done.Reasons(), (Mended{}).Reasons()...), (Begun{}).Reasons()...) {
		reasons = append(reasons, each.Figure)
	}
	assert.Equal(t, []string{"an entry is new", "what differs", "what counts", "example plot", "dates"}, reasons)
}

// An entry is new where no file stands under its name, whatever stands under the
// names behind that.
func TestEntriesAreNewByTheirNames(t *testing.T) {
	home := device(t)
	writeNote(t, home, "journal/2031/0719-1800-note-ab12-2.yaml", note)
	done := brought(t, home, zipOf(t, "journal/2031/0719-1800-note-ab12.yaml", note), KeepOwn)
	assert.Equal(t, []string{"journal/2031/0719-1800-note-ab12.yaml"}, done.Files)
	writeNote(t, home, "journal/2031/0719-1900-note-cd34.yaml", strings.Replace(note, "more", "fewer", 1))
	writeNote(t, home, "journal/2031/0719-1900-note-cd34-2.yaml", note)
	done = brought(t, home, zipOf(t, "journal/2031/0719-1900-note-cd34.yaml", note), KeepOwn)
	assert.Empty(t, done.Files, "it is here already, beside another")
	assert.Equal(t, 1, done.Already)
}
