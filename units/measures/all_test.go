package measures

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Every ingredient of the corpora of recipes (testdata/recipes/taken-apart.txt), read
// as when somebody last read the difference; the corpora's labels say what is right of
// it (package recipes). `go test ./units/measures -run Reviewed -update` writes it
// anew.
func TestEveryIngredientIsReadAsReviewed(t *testing.T) {
	const golden = "../../testdata/recipes/read-lines.txt"
	apart, err := os.ReadFile("../../testdata/recipes/taken-apart.txt")
	require.NoError(t, err)
	var out strings.Builder
	seen := map[string]bool{}
	for line := range strings.SplitSeq(string(apart), "\n") {
		number, rest, _ := strings.Cut(strings.TrimSpace(line), " ")
		text, ok := strings.CutPrefix(strings.TrimSpace(rest), "ingredient ")
		if ok && number != "" && !seen[text] {
			seen[text] = true
			writeRead(&out, text, units.System(1+len(text)%4))
		}
	}
	require.Greater(t, len(seen), 1000)
	if *update {
		require.NoError(t, os.WriteFile(golden, []byte(out.String()), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	assert.Equal(t, strings.Split(string(want), "\n"), strings.Split(out.String(), "\n"))
}

// writeRead writes a line and all that was read of it, by the measures of s.
func writeRead(out *strings.Builder, text string, s units.System) {
	fmt.Fprintf(out, "%s (%s)\n", text, s)
	l := ReadLine(text, s)
	for mark := "  "; ; mark = "    or " {
		fmt.Fprintf(out, "%s%d|%s|%v|%s|%s|%s|%s|%s %q %q %q|%t\n", mark, l.Kind, l.Amount, l.Also, l.Packs, l.Item, l.State, l.Note, l.Food.Food.Name, l.Food.Variety, l.Food.Qualities, l.Food.States, l.Optional)
		for _, doubt := range l.Doubts {
			fmt.Fprintf(out, "    ? %s %q: %s: %s\n", doubt.Field, doubt.Value, doubt.Problem, doubt.Accepted)
		}
		if len(l.Instead) == 0 {
			return
		}
		l = l.Instead[0]
	}
}
