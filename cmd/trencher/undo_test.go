package main

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"
	"trencher/harvest/journal"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A device keeps its name between commands; where there is nowhere to keep it,
// the machine's own name makes one.
func TestADeviceKeepsItsName(t *testing.T) {
	home := t.TempDir()
	settings := func() (string, error) { return home, nil }
	name := journal.DeviceName(settings)
	assert.Regexp(t, "^[a-z2-7]{6}$", name)
	assert.Equal(t, name, journal.DeviceName(settings))
	other := t.TempDir()
	assert.NotEqual(t, name, journal.DeviceName(func() (string, error) { return other, nil }))
	none := func() (string, error) { return "", errors.New("no home") }
	assert.Equal(t, journal.DeviceName(none), journal.DeviceName(none))
	require.NoError(t, os.WriteFile(filepath.Join(home, "trencher", "device"), []byte("../../etc"), 0o600))
	assert.Regexp(t, "^[a-z2-7]{6}$", journal.DeviceName(settings), "what is no name is replaced")
	file := filepath.Join(home, "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	assert.Equal(t, journal.DeviceName(none), journal.DeviceName(func() (string, error) { return file, nil }), "a file where the folder should be")
}

// Undo takes a whole plan back, then what was before it, each by one entry.
func TestUndo(t *testing.T) {
	g := newGarden(t)
	all := g.ok("stock", "--json")
	g.answers("", "note", "spring", "less salt")
	g.now = g.now.Add(time.Minute)
	g.answers("", "share", "--take")
	require.NotEqual(t, all, g.ok("stock", "--json"))
	g.now = g.now.Add(time.Minute)

	_, screen, status := g.typed("n\n", "undo")
	assert.Equal(t, statusInput, status)
	assert.Contains(t, screen, "plan ", "it is shown before it is taken back")
	out, _ := g.answers("\n", "undo")
	assert.Contains(t, out, "taken back: plan ")
	assert.Equal(t, all, g.ok("stock", "--json"), "every gram is back")
	out, _ = g.answers("\n", "undo", "--json")
	assert.Contains(t, out, `"kind": "note"`)
	_, screen, status = g.typed("\n", "undo")
	assert.Equal(t, statusInput, status)
	assert.Contains(t, screen, "nothing to take back: this device has written no entry that stands")
}
