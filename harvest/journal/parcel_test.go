package journal

import (
	"archive/zip"
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
)

// device is a folder of its own with the same invented plot.
func device(t *testing.T) *Folder {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{
		"kitchen.yaml":     "measures: metric\n",
		"plantings.yaml":   "- id: tub-3\n  crop: potato\n  planted: 2031-04-02\n  tub: 30 l\n",
		"dishes/mash.yaml": "name: Mash\n",
	} {
		require.NoError(t, os.MkdirAll(filepath.Dir(filepath.Join(dir, name)), 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	folder, err := Open(dir)
	require.NoError(t, err)
	return folder
}

// lifted writes a lift of so many grams.
func lifted(t *testing.T, f *Folder, minute, grams int) {
	t.Helper()
	weighing, err := harvest.ParseWeighing(fmt.Sprintf("%d g", grams), 0)
	require.NoError(t, err)
	at := time.Date(2031, 7, 19, 8, 0, 0, 0, time.UTC).Add(time.Duration(minute) * time.Minute)
	_, err = f.Write(&harvest.Lift{Header: harvest.Header{At: at}, Planting: "tub-3", Weighings: []harvest.Weighing{weighing}})
	require.NoError(t, err)
}

func packed(t *testing.T, f *Folder, which Parcelled) (Parcel, []byte) {
	t.Helper()
	var out bytes.Buffer
	parcel, err := f.Pack(t.Context(), &out, which, Options{})
	require.NoError(t, err)
	return parcel, out.Bytes()
}

func brought(t *testing.T, f *Folder, data []byte, renew Renewing) Brought {
	t.Helper()
	done, err := f.Bring(t.Context(), data, renew, Options{})
	require.NoError(t, err)
	return done
}

// A phone's lifts come home to the gram; a second time nothing is new.
func TestParcelsComeHomeOnce(t *testing.T) {
	home, phone := device(t), device(t)
	lifted(t, phone, 0, 1150)
	lifted(t, phone, 5, 842)
	parcel, data := packed(t, phone, Untaken)
	assert.Equal(t, 2, parcel.Entries)
	assert.Equal(t, "1992", parcel.Net.String())

	first := brought(t, home, data, KeepOwn)
	assert.Equal(t, 2, first.Entries)
	assert.Equal(t, "1992", first.Net.String())
	assert.Empty(t, first.Damaged)
	assert.Equal(t, readTree(t, filepath.Join(phone.dir, "journal")), moved(readTree(t, filepath.Join(home.dir, "journal")), home.dir, phone.dir))

	again := brought(t, home, data, KeepOwn)
	assert.Zero(t, again.Entries)
	assert.Equal(t, "0", again.Net.String())
	assert.Equal(t, 3, again.Already, "two entries and the dish")
}

// moved is a tree of files as if it lay in another folder.
func moved(tree map[string]string, from, to string) map[string]string {
	at := map[string]string{}
	for path, text := range tree {
		at[strings.Replace(path, from, to, 1)] = text
	}
	return at
}

// What has been given away is not carried again, but all of it can be.
func TestParcelOfWhatIsUntaken(t *testing.T) {
	phone := device(t)
	lifted(t, phone, 0, 500)
	first, _ := packed(t, phone, Untaken)
	require.NoError(t, phone.Taken(first))
	none, _ := packed(t, phone, Untaken)
	assert.Empty(t, none.Files)
	lifted(t, phone, 9, 300)
	second, _ := packed(t, phone, Untaken)
	assert.Equal(t, 1, second.Entries)
	assert.Equal(t, "300", second.Net.String())
	all, _ := packed(t, phone, WholePlot)
	assert.Equal(t, "800", all.Net.String())
	assert.Equal(t, 2, all.Entries)
}

// What came from home is not taken home again.
func TestUnpackedPlotHasNothingToTakeHome(t *testing.T) {
	home := device(t)
	lifted(t, home, 0, 700)
	_, data := packed(t, home, WholePlot)
	dir := filepath.Join(t.TempDir(), "plot")
	_, err := Unpack(t.Context(), dir, data, Options{})
	require.NoError(t, err)
	phone, err := Open(dir)
	require.NoError(t, err)
	untaken, _ := packed(t, phone, Untaken)
	assert.Empty(t, untaken.Files)
	lifted(t, phone, 3, 90)
	untaken, _ = packed(t, phone, Untaken)
	assert.Equal(t, "90", untaken.Net.String())
}

// Stopped after any file, unpacking goes on where it was.
func TestUnpackGoesOn(t *testing.T) {
	home := device(t)
	for i := range 5 {
		lifted(t, home, i, 100+i)
	}
	_, data := packed(t, home, WholePlot)
	whole := filepath.Join(t.TempDir(), "plot")
	_, err := Unpack(t.Context(), whole, data, Options{})
	require.NoError(t, err)
	want := readTree(t, whole)
	for n := range 8 {
		dir := filepath.Join(t.TempDir(), "plot")
		require.NoError(t, os.MkdirAll(dir, 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(dir, "kitchen.yaml"), []byte("measures: metric\n"), 0o644))
		half, err := Open(dir)
		require.NoError(t, err)
		files, err := openParcel(data)
		require.NoError(t, err)
		b := bringing{folder: half, renew: TakeNewer}
		for _, file := range files[:n] {
			require.NoError(t, b.take(file))
		}
		_, err = Unpack(t.Context(), dir, data, Options{})
		require.NoError(t, err)
		assert.Equal(t, want, moved(readTree(t, dir), dir, whole))
	}
}

// Whichever way parcels go round between three devices, all three hold the same
// entries in the end.
func TestParcelsInEveryOrder(t *testing.T) {
	for seed := range uint64(5) {
		random := rand.New(rand.NewPCG(seed, 7))
		devices := []*Folder{device(t), device(t), device(t)}
		grams := 0
		for i := range 9 {
			g := 100 + random.IntN(900)
			grams += g
			lifted(t, devices[random.IntN(3)], i, g)
		}
		for range 2 {
			for _, pair := range random.Perm(9) {
				from, to := devices[pair/3], devices[pair%3]
				if from == to {
					continue
				}
				_, data := packed(t, from, WholePlot)
				brought(t, to, data, KeepOwn)
			}
		}
		for _, d := range devices {
			all, _ := packed(t, d, WholePlot)
			assert.Equal(t, fmt.Sprint(grams), all.Net.String(), "seed %d", seed)
			assert.Equal(t, 9, all.Entries)
		}
	}
}

// zipOf is a parcel made by hand.
func zipOf(t *testing.T, files ...string) []byte {
	t.Helper()
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for i := 0; i < len(files); i += 2 {
		f, err := w.Create(files[i])
		require.NoError(t, err)
		_, err = f.Write([]byte(files[i+1]))
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	return out.Bytes()
}

const note = "kind: note\nat: 2031-07-19T18:00:00Z\ndish: Mash\nsays: more chives\n"

// Nothing is written outside the plot or over an entry, whatever the parcel
// holds; what cannot be taken is named and the rest taken.
func TestBringTakesNothingAmiss(t *testing.T) {
	for _, name := range []string{"../kitchen.yaml", "/etc/passwd", "journal/2031/../../kitchen.yaml", `journal/2031/..\x.yaml`,
		"journal/2031/.carried.yaml", "journal/2031/a\x1b.yaml", "journal/x/y.yaml", "dishes/a/b.yaml", "notes.txt", "journal/2031/" + strings.Repeat("n", 300) + ".yaml"} {
		home := device(t)
		before := readTree(t, filepath.Dir(home.dir))
		done := brought(t, home, zipOf(t, name, note), TakeNewer)
		require.Len(t, done.Damaged, 1, name)
		after := readTree(t, filepath.Dir(home.dir))
		delete(after, filepath.Join(home.dir, carriedFile))
		assert.Equal(t, before, after, name)
	}
	home := device(t)
	done := brought(t, home, zipOf(t, "journal/2031/0719-1800-note-ab12.yaml", note, "journal/2031/torn.yaml", "kind: lif"), KeepOwn)
	assert.Equal(t, 1, done.Entries)
	require.Len(t, done.Damaged, 1)
	assert.ErrorContains(t, done.Damaged[0], "journal/2031/torn.yaml")
	// An entry of the same name and other bytes goes beside it.
	other := strings.Replace(note, "more", "fewer", 1)
	done = brought(t, home, zipOf(t, "journal/2031/0719-1800-note-ab12.yaml", other), KeepOwn)
	assert.Equal(t, []string{"journal/2031/0719-1800-note-ab12-2.yaml"}, done.Files)
	assertFile(t, filepath.Join(home.dir, "journal/2031/0719-1800-note-ab12.yaml"), note)
	assertFile(t, filepath.Join(home.dir, done.Files[0]), other)
}

// At home the kitchen, plantings and dishes stand; a phone takes newer ones.
func TestBringRenews(t *testing.T) {
	newer := zipOf(t, "kitchen.yaml", "measures: uk\n", "dishes/mash.yaml", "name: Mash, finer\n", "dishes/soup.yaml", "name: Soup\n")
	home := device(t)
	done := brought(t, home, newer, KeepOwn)
	assert.Equal(t, []string{"kitchen.yaml", "dishes/mash.yaml"}, done.Kept)
	assert.Equal(t, []string{"dishes/soup.yaml"}, done.Files)
	assertFile(t, filepath.Join(home.dir, "kitchen.yaml"), "measures: metric\n")
	phone := device(t)
	done = brought(t, phone, newer, TakeNewer)
	assert.Equal(t, []string{"kitchen.yaml", "dishes/mash.yaml"}, done.Replaced)
	assertFile(t, filepath.Join(phone.dir, "kitchen.yaml"), "measures: uk\n")
}

func TestNoParcel(t *testing.T) {
	home := device(t)
	_, err := home.Bring(t.Context(), []byte("no zip"), KeepOwn, Options{})
	assert.ErrorContains(t, err, "no whole parcel")
	_, data := packed(t, home, WholePlot)
	_, err = home.Bring(t.Context(), data[:len(data)-10], KeepOwn, Options{})
	assert.ErrorContains(t, err, "no whole parcel")
	_, err = Unpack(t.Context(), filepath.Join(t.TempDir(), "new"), zipOf(t, "plantings.yaml", "[]"), Options{})
	assert.ErrorIs(t, err, ErrNoPlot)
}
