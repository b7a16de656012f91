//go:build unix

package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/units"
)

// linkErrors are what link(2) says, and whether it means that there are no links.
var linkErrors = []struct {
	err     error
	noLinks bool
}{
	{&os.LinkError{Err: syscall.EPERM}, true},
	{&os.LinkError{Err: syscall.ENOTSUP}, true},
	{&os.LinkError{Err: syscall.EMLINK}, true},
	{&os.LinkError{Err: syscall.EEXIST}, false},
	{&os.LinkError{Err: syscall.ENOSPC}, false},
	{&os.LinkError{Err: syscall.EROFS}, false},
	{&os.LinkError{Err: syscall.ENOENT}, false},
	{errors.New("killed"), false},
}

// Only a file system without hard links makes do without them: where the disk is
// full, may not be written to, is gone or has the name already, there is no use
// in trying another way.
func TestWhereThereAreNoLinks(t *testing.T) {
	for _, row := range linkErrors {
		assert.Equal(t, row.noLinks, noLinks(row.err), "%v", row.err)
	}
	assert.NoError(t, ignoreMissing(&fs.PathError{Err: fs.ErrNotExist}))
	assert.ErrorIs(t, ignoreMissing(errKilled), errKilled)
	assert.NoError(t, ignoreMissing(nil))
}

// What is made anybody may read, and only the grower may write; the device's name
// is nobody else's to read. A person's own mask takes away from that, so there is
// none here.
func TestRightsOfFiles(t *testing.T) {
	defer syscall.Umask(syscall.Umask(0))
	rights := func(path string) fs.FileMode {
		info, err := os.Stat(path)
		require.NoError(t, err)
		return info.Mode().Perm()
	}
	dir := filepath.Join(t.TempDir(), "gardens", "mine")
	_, err := Begin(dir, []Source{{File: "kitchen.yaml", Data: []byte("measures: metric\n")}, {File: "journal/2030/a.yaml", Data: []byte("kind: note\n")}})
	require.NoError(t, err)
	f, err := Open(dir)
	require.NoError(t, err)
	at := time.Date(2031, 7, 13, 18, 5, 0, 0, time.UTC)
	entry, err := f.Write(&harvest.Note{Header: harvest.Header{At: at}, Dish: "Mash", Says: "x"})
	require.NoError(t, err)
	_, err = f.Plant(harvest.PlantWords{Called: "bed-7", Crop: "carrot", Day: at}, units.Metric)
	require.NoError(t, err)
	other := filepath.Join(dir, "..", "other")
	_, data := packed(t, f, WholePlot)
	_, err = Unpack(t.Context(), other, data, Options{})
	require.NoError(t, err)
	for _, folder := range []string{filepath.Dir(dir), dir, filepath.Join(dir, "journal"), filepath.Join(dir, "journal/2030"), filepath.Join(dir, "journal/2031"), other, filepath.Join(other, "journal/2031")} {
		assert.Equal(t, fs.FileMode(0o755), rights(folder), folder)
	}
	for _, file := range []string{"kitchen.yaml", "plantings.yaml", entry} {
		assert.Equal(t, fs.FileMode(0o644), rights(filepath.Join(dir, file)), file)
	}
	settings := t.TempDir()
	DeviceName(func() (string, error) { return settings, nil })
	assert.Equal(t, fs.FileMode(0o700), rights(filepath.Join(settings, "trencher")))
	assert.Equal(t, fs.FileMode(0o600), rights(filepath.Join(settings, "trencher/device")))
}

// A plot that cannot be begun where somebody wants it is told, and leaves nothing.
func TestPlotsThatCannotBeBegun(t *testing.T) {
	parent := t.TempDir()
	link := filepath.Join(parent, "link")
	require.NoError(t, os.Symlink(filepath.Join(parent, "nothing"), link))
	file := Source{File: "kitchen.yaml", Data: []byte("measures: metric\n")}
	for _, files := range [][]Source{{file}, nil} {
		_, err := Begin(link, files)
		require.ErrorContains(t, err, "not written: ")
	}
	_, err := Begin(filepath.Join(parent, strings.Repeat("n", 300)), nil)
	require.ErrorContains(t, err, "not written: ")
	for _, files := range [][]Source{
		{file, file},
		{file, {File: "kitchen.yaml/a/b/c.yaml"}},
	} {
		_, err := Begin(filepath.Join(parent, "garden"), files)
		require.ErrorContains(t, err, "not written: ")
		assert.NoDirExists(t, filepath.Join(parent, "garden"))
	}
	hidden := filepath.Join(parent, "hidden")
	require.NoError(t, os.MkdirAll(filepath.Join(hidden, ".versions"), 0o755))
	written, err := Begin(hidden, []Source{file})
	require.NoError(t, err, "what is hidden is in nobody's way")
	assert.Equal(t, []string{"kitchen.yaml"}, written)
	_, err = Begin(hidden, []Source{file})
	require.EqualError(t, err, hidden+" holds kitchen.yaml already; begin a plot in a new folder")
	_, err = Open(filepath.Join(hidden, "kitchen.yaml"))
	require.ErrorIs(t, err, ErrNoPlot)
	require.ErrorContains(t, err, "cannot be read: not a directory")
	example := fstest.MapFS{"kitchen.yaml": {Data: []byte("measures: metric\n")}}
	of := time.Date(2031, 7, 19, 0, 0, 0, 0, time.UTC)
	for at := range 3 { // the folder twice, and the file
		_, err = BeginLike(filepath.Join(parent, "like"), &closedPlot{FS: example, at: at}, of, of)
		require.ErrorIs(t, err, fs.ErrPermission)
		assert.NoDirExists(t, filepath.Join(parent, "like"))
	}
	_, err = BeginLike(filepath.Join(parent, "like"), fstest.MapFS{"plantings.yaml": {Data: []byte("planted: 2031-07-19\n")}}, of, time.Date(2026, 11, 26, 10, 59, 59, 999_999_999, time.UTC))
	require.NoError(t, err)
	assertFile(t, filepath.Join(parent, "like/plantings.yaml"), "planted: 2026-11-25\n")
}

// A folder that is not there cannot be synced; one whose file system syncs none is
// as good as synced.
func TestFoldersAreSynced(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, syncFolder(dir))
	require.ErrorIs(t, syncFolder(filepath.Join(dir, "none")), fs.ErrNotExist)
	if _, err := os.Stat("/proc/self"); err == nil {
		require.NoError(t, syncFolder("/proc/self"))
		_, err := Unpack(t.Context(), "/proc/self", zipOf(t, "kitchen.yaml", "measures: uk\n"), Options{})
		require.ErrorContains(t, err, "not written: /proc/self: ", "nobody begins a plot there")
	}
}

// What may not be among the files of a plot does not open.
func TestNamesThatDoNotOpen(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "kitchen.yaml"), []byte("measures: metric\n"), 0o644))
	f, err := Open(dir)
	require.NoError(t, err)
	for _, name := range []string{"../kitchen.yaml", "/kitchen.yaml", "a/../kitchen.yaml"} {
		_, err := f.fsys.Open(name)
		require.ErrorIs(t, err, fs.ErrInvalid, name)
		_, err = fs.ReadFile(f.fsys, name)
		require.ErrorIs(t, err, fs.ErrInvalid, name)
	}
	require.NoError(t, os.Mkdir(filepath.Join(dir, "plantings.yaml"), 0o755))
	_, err = f.Plantings(units.Metric)
	require.EqualError(t, err, "plantings.yaml: cannot be read: is a directory")
	for size, read := range map[int]int{4<<20 - 1: 4<<20 - 1, 4 << 20: 4 << 20, 4<<20 + 1: 4 << 20, 0: 0, 5000: 5000} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, "large.yaml"), make([]byte, size), 0o644))
		large, err := f.read("large.yaml")
		require.NoError(t, err)
		assert.True(t, len(large.Data) == read, "%d bytes are read of %d", len(large.Data), size)
	}
}

// The quick way to read a file is for ordinary files: all else goes the usual way,
// which says what is wrong with it.
func TestOrdinaryFilesAreReadQuickly(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	require.NoError(t, os.WriteFile(at("file"), []byte("some text"), 0o644))
	require.NoError(t, os.WriteFile(at("empty"), nil, 0o644))
	require.NoError(t, os.Symlink(at("file"), at("link")))
	require.NoError(t, syscall.Mkfifo(at("pipe"), 0o644))
	for most, want := range map[int64]string{100: "some text", 9: "some text", 8: "some tex", 0: ""} {
		data, ok := readOrdinary(at("file"), most)
		assert.True(t, ok)
		assert.Equal(t, want, string(data))
	}
	data, ok := readOrdinary(at("empty"), 100)
	assert.True(t, ok && len(data) == 0)
	for _, name := range []string{"link", "pipe", "none", "."} {
		data, ok := readOrdinary(at(name), 100)
		assert.False(t, ok, name)
		assert.Nil(t, data, name)
	}
	data, ok = readOrdinary("/proc/self/status", 100)
	assert.True(t, !ok || len(data) == 0, "a file of no length is read as one")
	tries := 0
	n, err := again(func() (int, error) {
		if tries++; tries < 3 {
			return 7, syscall.EINTR
		}
		return 9, syscall.EIO
	})
	assert.Equal(t, "3 9 input/output error", fmt.Sprint(tries, " ", n, " ", err))
}
