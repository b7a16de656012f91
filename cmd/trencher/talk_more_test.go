package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is offered for a planting is what is usual for its crop, however it was named:
// a bed stands on, a tub is emptied at once.
func TestWhatIsOfferedFollowsThePlanting(t *testing.T) {
	g := newGarden(t)
	for name, offered := range map[string]string{"tub-1": "[no]", "bed-3": "[yes]"} {
		_, screen, _ := g.typed(name+"\n1 kg - 0 g\n\n\n", "lift")
		assert.Contains(t, screen, "Is any of it still in the ground, yes or no? "+offered, name)
	}
	for number, name := range []string{"bed-2", "bed-3", "tub-1"} {
		_, screen, _ := g.typed(string(rune('1'+number))+"\n1 kg - 0 g\n\n\n\n\n\n", "lift")
		assert.Contains(t, screen, name+", 1.00 kg, now:")
	}
}

// A dialogue that ends while a plan is told writes nothing of it; what is there to eat
// is told where nothing is.
func TestDialoguesThatEndEarly(t *testing.T) {
	g := newGarden(t)
	for _, event := range []string{"eaten", "chilled", "out", "reheated", "binned"} {
		_, screen, status := g.typed("\n", event)
		assert.Equal(t, statusInput, status)
		assert.Contains(t, screen, "nothing cooked is there", event)
	}
	g.ok("share", "--take", "--only", "crushed")
	before := g.ok("journal", "export")
	for _, answers := range []string{"1\n", "1\nsoon\n", "1\n\n", "1\n\n\n", "1\n\n\nn\n"} {
		_, screen, status := g.typed(answers, "cooked")
		assert.Equal(t, statusInput, status, "%q", answers)
		assert.Contains(t, screen, "nothing was written", "%q", answers)
	}
	assert.Equal(t, before, g.ok("journal", "export"))
	out, _ := g.answers("1\n18:00\n\n\ny\n", "cooked")
	assert.Contains(t, out, "Crushed potatoes with chives: cooked at 18:00")
}

// A table that leaves something open asks until it is answered, and a no writes nothing.
func TestATableIsAskedAbout(t *testing.T) {
	g := newGarden(t)
	table := filepath.Join(t.TempDir(), "old.csv")
	require.NoError(t, os.WriteFile(table, []byte("Day;Bed;Weight\n3/4/2031;bed-3;1,46\n"), 0o600))
	before := g.ok("journal", "export")
	for _, answers := range []string{"", "perhaps\n", "dmy\nkg\nno\n"} {
		_, _, status := g.typed(answers, "journal", "import", table, "--ask")
		assert.Equal(t, statusInput, status, "%q", answers)
		assert.Equal(t, before, g.ok("journal", "export"), "%q", answers)
	}
}

// Whatever output a command writes, a place of the plot's own files is refused before
// anything else is done, and a folder that is none told.
func TestNoCommandWritesOverThePlot(t *testing.T) {
	g := newGarden(t)
	for _, args := range [][]string{
		{"next", "--picture"}, {"next", "--sheet"}, {"tally", "--picture"}, {"tally", "--yields"}, {"share", "--sheet"}, {"share", "--calendar"},
		{"steam", "--crop", "potato", "--cut", "cube 25 mm", "--chart"}, {"reckoner"},
	} {
		for _, place := range []string{g.dir + "/kitchen.yaml", g.dir + "/nowhere/out"} {
			out, said, status := g.typed("", append(args, place)...)
			assert.Equal(t, statusInput, status, args)
			assert.Empty(t, out, args)
			assert.True(t, strings.Contains(said, "the plot's own files") || strings.Contains(said, "there is no folder"), "%v: %s", args, said)
		}
	}
}
