package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Whole dialogues as they stand on the screen: every question with what it offers,
// what is told of a wrong answer, and what is written in the end. `-update` writes
// them anew; read each difference.
func TestDialoguesInFull(t *testing.T) {
	g := newGarden(t)
	table := filepath.Join(t.TempDir(), "old.csv")
	require.NoError(t, os.WriteFile(table, []byte("Day;Bed;Weight\n3/4/2031;bed-3;1,46\n4/4/2031;bed-3;900\n"), 0o600))
	var out strings.Builder
	for _, d := range []struct{ typed, command string }{
		{threeBowls, "lift"},
		{"bed-2\n1.5 kg - 0.5 kg\n\n300 g 20-45 mm\n500 g damaged\n\nyes\ntrug\n11:00\ny\n", "lift"},
		{"\n\n\n", "cooked"},
		{"crushed\nmuch\n4\nsoon\n11:30\nspring\n\n\n\n\n", "cooked"},
		{"my soup\n999\nmoon dust\nsoup\n1.2 kg\n11:40\n\n\n", "cooked"},
		{"crushed\n11:45\n\n\n", "chilled"},
		{"\nwarm\n24 C\n11:50\n\n\n", "out"},
		{"2\n\n11:55\n1\n2\n11:58\n\n\n", "eaten"},
		{"my soup\n11:59\n\nn\n", "reheated"},
		{"my soup\n400 g\n\n\n\n", "binned"},
		{"dmy\nkg\nyes\n", "journal import " + table + " --ask"},
	} {
		said, screen, status := g.typed(d.typed, strings.Fields(d.command)...)
		fmt.Fprintf(&out, "===== %s: %q\n%s----- %d\n%s", d.command, d.typed, screen, status, said)
	}
	text := strings.ReplaceAll(strings.ReplaceAll(out.String(), g.dir, "PLOT"), filepath.Dir(table), "FOLDER")
	const file = "testdata/evening/dialogues.txt"
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, string(want), text)
}
