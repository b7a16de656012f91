package journal

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

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
		assert.Equal(t, short, cutShort(text), "%q", text)
	}
}
