package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A crop without steaming figures leaves its dish a plan, and the plan says
// what it cannot reckon.
func TestDishOfACropWithoutSteamingFigures(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		path := filepath.Join(dir, name)
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	}
	write("kitchen.yaml", "measures: metric\n")
	write("plantings.yaml", "- {id: bed-9, crop: leek, planted: 2031-04-02, bed: 1 m2}\n")
	write("dishes/leeks.yaml", `name: Leeks
portions: 4
served: hot
crops:
  - {crop: leek, amount: 440 g, prepared: trimmed, cut: slice 20 mm}
others:
  - {item: grandmother's sauce, amount: 20 g}
`)
	out, errs, status := dishCommand("dish", "leeks", "--plot", dir, "--serve-at", "18:30")
	require.Equal(t, statusDone, status, errs)
	words := strings.Join(strings.Fields(out), " ")
	assert.Contains(t, words, "leek 1.00 kg, 440 g trimmed")
	assert.Contains(t, words, "ow long leek steams is not known here: no time, water or gas is reckoned for it in Leeks")
	assert.Contains(t, words, "may hold anything (not in our table: grandmother's sauce)")
}
