package journal

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/harvest/tables"
	"trencher/units"
)

// closedPlot is a plot of which one file or folder is not opened: the opening
// number at, the first being 0, and what it was then stays closed. It counts them.
type closedPlot struct {
	fs.FS
	openings, at int
	closed       string
	lock         sync.Mutex // files are read on all processors
}

func (u *closedPlot) Open(name string) (fs.File, error) {
	u.lock.Lock()
	defer u.lock.Unlock()
	u.openings++
	if u.openings-1 == u.at {
		u.closed = name
	}
	if name == u.closed {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrPermission}
	}
	return u.FS.Open(name)
}

// Whichever file or folder cannot be opened, whoever asked is told, and nothing is
// written.
func TestWhateverCannotBeOpenedIsTold(t *testing.T) {
	on := time.Date(2031, 7, 20, 8, 0, 0, 0, time.UTC)
	table := Source{File: "old.csv", Data: []byte("planting,at,net\ntub-3,2031-07-18,1.2 kg\n")}
	for name, do := range map[string]func(f *Folder) error{
		"kitchen":      func(f *Folder) error { _, err := f.Kitchen(); return err },
		"dishes":       func(f *Folder) error { _, err := f.Dishes(); return err },
		"plantings":    func(f *Folder) error { _, err := f.Plantings(units.Metric); return err },
		"seasons":      func(f *Folder) error { _, err := f.Seasons(); return err },
		"season":       func(f *Folder) error { _, _, err := f.Season(t.Context(), 2031, Options{}); return err },
		"every season": func(f *Folder) error { _, _, err := f.EverySeason(t.Context(), Options{}); return err },
		"ledger":       func(f *Folder) error { _, err := f.Ledger(t.Context(), Options{}, on); return err },
		"check":        func(f *Folder) error { _, err := f.Check(t.Context(), Options{}, on); return err },
		"export":       func(f *Folder) error { return f.Export(t.Context(), new(bytes.Buffer), Options{}) },
		"unfinished":   func(f *Folder) error { _, err := f.Unfinished(); return err },
		"look": func(f *Folder) error {
			_, err := f.Look(t.Context(), table, tables.Words{Dates: "ymd"}, Options{}, on)
			return err
		},
		"import": func(f *Folder) error {
			_, err := f.Import(t.Context(), table, tables.Words{Dates: "ymd"}, Options{}, on)
			return err
		},
		"pack all": func(f *Folder) error {
			_, err := f.Pack(t.Context(), new(bytes.Buffer), WholePlot, Options{})
			return err
		},
		"pack untaken": func(f *Folder) error {
			_, err := f.Pack(t.Context(), new(bytes.Buffer), Untaken, Options{})
			return err
		},
		"taken": func(f *Folder) error { return f.Taken(Parcel{Files: []string{"journal/2031/a.yaml"}}) },
		"mend":  func(f *Folder) error { _, err := f.Mend(t.Context(), Options{}, time.Now().Add(time.Hour)); return err },
		"plant": func(f *Folder) error {
			_, err := f.Plant(harvest.PlantWords{Called: "bed-7", Crop: "carrot", Day: on}, units.Metric)
			return err
		},
	} {
		t.Run(name, func(t *testing.T) {
			plot := func() *Folder {
				f := device(t)
				lifted(t, f, 0, 1500)
				lifted(t, f, 5, 700)
				torn, err := os.ReadFile(firstEntry(t, f))
				require.NoError(t, err)
				require.NoError(t, os.WriteFile(filepath.Join(f.dir, "journal", "2031", temporaryPrefix+"left.yaml"), torn, 0o644))
				return f
			}
			run := func(at int) (*closedPlot, []string, error) {
				f := plot()
				closed := &closedPlot{FS: f.fsys, at: at}
				f.fsys = closed
				err := do(f)
				written, _ := filepath.Glob(filepath.Join(f.dir, "journal", "*", "[^.]*.yaml"))
				return closed, written, err
			}
			whole, _, err := run(-1)
			require.NoError(t, err)
			require.Positive(t, whole.openings)
			for at := range whole.openings {
				closed, written, err := run(at)
				isEntry := strings.HasPrefix(closed.closed, "journal/") && filepath.Ext(closed.closed) != ""
				if isEntry && (name == "check" || name == "unfinished" || name == "mend") {
					if err == nil {
						continue // what is unfinished is listed, whether it opens or not
					}
				}
				require.ErrorContains(t, err, "permission denied", "opening %d, of %s", at, closed.closed)
				require.Len(t, written, 2)
			}
		})
	}
}

func firstEntry(t *testing.T, f *Folder) string {
	found, err := filepath.Glob(filepath.Join(f.dir, "journal", "2031", "[^.]*.yaml"))
	require.NoError(t, err)
	require.NotEmpty(t, found)
	return found[0]
}

// A device has one name, in the person's settings; where they cannot be kept, the
// machine's name makes one that is always the same.
func TestDeviceName(t *testing.T) {
	settings := t.TempDir()
	in := func(dir string) func() (string, error) { return func() (string, error) { return dir, nil } }
	name := DeviceName(in(settings))
	assert.Regexp(t, `^[a-z2-7]{6}$`, name)
	assert.Equal(t, name, DeviceName(in(settings)), "once made, it stays")
	file := filepath.Join(settings, "trencher", "device")
	info, err := os.Stat(file)
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o600), info.Mode().Perm())
	info, err = os.Stat(filepath.Dir(file))
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o700), info.Mode().Perm())
	assert.NotEqual(t, name, DeviceName(in(t.TempDir())), "another device has another")
	for _, broken := range []string{"", "ABCDEF", "abcdefg", "abc de", "abcde1"} {
		require.NoError(t, os.WriteFile(file, []byte(broken), 0o600))
		renewed := DeviceName(in(settings))
		assert.Regexp(t, `^[a-z2-7]{6}$`, renewed, "%q", broken)
	}
	require.NoError(t, os.WriteFile(file, []byte(" abcde2 \n"), 0o600))
	assert.Equal(t, "abcde2", DeviceName(in(settings)))
	byHost := DeviceName(func() (string, error) { return "", errors.New("no settings here") })
	assert.Regexp(t, `^[a-z2-7]{6}$`, byHost)
	assert.Equal(t, byHost, DeviceName(in(filepath.Join(file, "in a file"))), "the same each time")
}

// A dish is written under a name that is free, and never over another.
func TestDishesAreWrittenOnce(t *testing.T) {
	f := device(t)
	file, err := f.WriteDish("soup", "name: Soup\n")
	require.NoError(t, err)
	assert.Equal(t, filepath.Join(f.dir, "dishes", "soup.yaml"), file)
	held, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, "name: Soup\n", string(held))
	assert.True(t, f.HasDish("soup", "name: Soup\n"))
	assert.False(t, f.HasDish("soup", "name: Mash\n"))
	assert.False(t, f.HasDish("salad", "name: Soup\n"))
	_, err = f.WriteDish("soup", "name: Other\n")
	require.Error(t, err)
	assert.True(t, f.HasDish("soup", "name: Soup\n"))
	_, err = Embedded(fstest.MapFS{}, "demo").WriteDish("soup", "")
	require.ErrorIs(t, err, ErrReadOnly)
}

// A plot begun like the example has its lift on the day of now, or on the day
// before while eleven has not struck.
func TestBeginLikeAnExample(t *testing.T) {
	example := fstest.MapFS{
		"kitchen.yaml":                           {Data: []byte("measures: metric\n")},
		"plantings.yaml":                         {Data: []byte("- {id: tub-3, crop: potato, planted: 2031-04-02}\n")},
		"journal/2031/0719-1000-lift-tub-3.yaml": {Data: []byte("kind: lift\nat: 2031-07-19T10:00:30+01:00\n")},
	}
	of := time.Date(2031, 7, 19, 23, 59, 0, 0, time.UTC)
	for now, want := range map[time.Time][]string{
		time.Date(2026, 11, 26, 11, 0, 0, 0, time.UTC):  {"1126-1000-lift-tub-3.yaml", "2026-11-26T10:00:00Z", "2026-08-10"},
		time.Date(2026, 11, 26, 10, 59, 0, 0, time.UTC): {"1125-1000-lift-tub-3.yaml", "2026-11-25T10:00:00Z", "2026-08-09"},
	} {
		dir := filepath.Join(t.TempDir(), "garden")
		begun, err := BeginLike(dir, example, of, now)
		require.NoError(t, err)
		assert.Equal(t, dir, begun.Dir)
		assert.Len(t, begun.Files, 3)
		lift, err := os.ReadFile(filepath.Join(dir, "journal", "2026", want[0]))
		require.NoError(t, err)
		assert.Equal(t, "kind: lift\nat: "+want[1]+"\n", string(lift))
		plantings, err := os.ReadFile(filepath.Join(dir, "plantings.yaml"))
		require.NoError(t, err)
		assert.Contains(t, string(plantings), "planted: "+want[2])
		require.Len(t, begun.Reasons(), 2)
		assert.Equal(t, "3 files", begun.Reasons()[0].Value)
		_, err = BeginLike(dir, example, of, now)
		require.Error(t, err, "a folder with something in it")
	}
	_, err := BeginLike(t.TempDir(), &closedPlot{FS: example, at: 0}, of, of)
	require.ErrorIs(t, err, fs.ErrPermission)
}

// Whole days lie between two moments, whatever their hours; dates move by them,
// and what is no date stays.
func TestDatesAreMoved(t *testing.T) {
	late := time.Date(2031, 7, 19, 23, 59, 59, 999, time.UTC)
	early := time.Date(2031, 7, 20, 0, 0, 0, 0, time.FixedZone("", 3600))
	assert.Equal(t, 1, daysBetween(late, early))
	assert.Equal(t, -1, daysBetween(early, late))
	assert.Equal(t, 0, daysBetween(late, time.Date(2031, 7, 19, 0, 0, 0, 0, time.UTC)))
	assert.Equal(t, 366, daysBetween(time.Date(2032, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(2033, 1, 1, 0, 0, 0, 0, time.UTC)))
	r := redating{days: 200, zone: time.FixedZone("", -7200)}
	for from, to := range map[string]string{"2031-07-19": "2032-02-04", "2031-07-19T10:30:59+01:00": "2032-02-04T10:30:00-02:00", "2031-13-40": "2031-13-40", "soon": "soon"} {
		assert.Equal(t, to, string(r.date([]byte(from))))
	}
	for from, to := range map[string]string{
		"journal/2031/0719-1000-lift-tub-3.yaml": "journal/2032/0204-1000-lift-tub-3.yaml",
		"journal/2031/1340-1000-lift-tub-3.yaml": "journal/2031/1340-1000-lift-tub-3.yaml",
		"dishes/mash.yaml":                       "dishes/mash.yaml",
	} {
		assert.Equal(t, to, r.name(from))
	}
}

// Which files are entries, by where they lie.
func TestEntryYear(t *testing.T) {
	for file, want := range map[string]string{
		"journal/2031/a.yaml":   "2031 true",
		"journal/2031/a.yml":    "2031 true",
		"journal/2031/a.txt":    "0 false",
		"journal/231/a.yaml":    "0 false",
		"journal/20x1/a.yaml":   "0 false",
		"dishes/2031/a.yaml":    "0 false",
		"journal/a.yaml":        "0 false",
		"journal/2031/b/a.yaml": "0 false",
	} {
		year, ok := entryYear(file)
		assert.Equal(t, want, fmt.Sprint(year, ok), file)
	}
}

// The bounds of a planting's counts, and what a full disk says of a file.
func TestBordersOfFiles(t *testing.T) {
	for count, fine := range map[int]bool{0: false, 1: true, 100_000: true, 100_001: false} {
		list, err := plantingsIn(Source{File: "plantings.yaml", Data: fmt.Appendf(nil, "- {id: tub-3, crop: potato, planted: 2031-04-02, seed: {count: %d}}\n", count)}, units.Metric)
		if assert.Equal(t, fine, err == nil, "%d: %v", count, err); fine {
			assert.Equal(t, count, list[0].SeedCount)
		}
	}
	full := cannotWrite("x.html", &fs.PathError{Op: "write", Path: "x.html", Err: syscall.ENOSPC})
	assert.EqualError(t, full, "cannot write x.html: no space left on device")
	var field *units.FieldError
	require.ErrorAs(t, full, &field)
	assert.Equal(t, "it again once you have made room: the disk is full", field.Accepted)
	require.ErrorAs(t, cannotWrite("x.html", fs.ErrPermission), &field)
	assert.Equal(t, "a file name in a folder that may be written to", field.Accepted)
	assert.Equal(t, "entry,kind,at", TableHead())
	require.Len(t, TableReasons(), 1)
	require.Len(t, (Imported{}).Reasons(), 2)
	assert.Equal(t, "weights without a unit", (Imported{}).Reasons()[1].Figure)
	assert.Equal(t, "cut short", (&shortEntry{}).Error())
	checked := Checked{Entries: 7}.Reasons()
	assert.Equal(t, "read; settled 7 entries", checked[0].Figure+"; "+checked[1].Figure+" "+checked[1].Value)
}

// Every season there is, the earliest first, and what of each was left out.
func TestEverySeason(t *testing.T) {
	f := device(t)
	for _, year := range []int{2031, 2029} {
		folder := filepath.Join(f.dir, "journal", fmt.Sprint(year))
		require.NoError(t, os.MkdirAll(folder, 0o755))
		text := strings.ReplaceAll("kind: note\nat: YEAR-07-01T10:00:00Z\ndish: Mash\nsays: good\n", "YEAR", fmt.Sprint(year))
		require.NoError(t, os.WriteFile(filepath.Join(folder, "0701-1000-note-mash.yaml"), []byte(text), 0o644))
		require.NoError(t, os.WriteFile(filepath.Join(folder, "0702-1000-note-mash.yaml"), []byte("kind: none\n"), 0o644))
	}
	all, left, err := f.EverySeason(t.Context(), Options{SkipDamaged: true})
	require.NoError(t, err)
	var years, files []string
	for _, e := range all {
		years = append(years, fmt.Sprint(e.When().Year(), " ", e.(*harvest.Note).Says))
	}
	for _, one := range left {
		files = append(files, one.File)
	}
	assert.Equal(t, []string{"2029 good", "2031 good"}, years)
	assert.Equal(t, []string{"journal/2029/0702-1000-note-mash.yaml", "journal/2031/0702-1000-note-mash.yaml"}, files)
	_, _, err = f.EverySeason(t.Context(), Options{})
	require.ErrorContains(t, err, "journal/2029/0702-1000-note-mash.yaml:1:7")
}
