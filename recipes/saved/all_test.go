package saved

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every recipe of the corpora, taken apart as when somebody last read the difference:
// each line's role and place, the name, and what is said to be unsure. The corpora's
// own labels say what is right of it (package recipes).
func TestEveryRecipeIsTakenApartAsReviewed(t *testing.T) {
	const golden = "../../testdata/recipes/taken-apart.txt"
	got := takenApart(t)
	if *update {
		require.NoError(t, os.WriteFile(golden, []byte(got), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	assert.Equal(t, strings.Split(string(want), "\n"), strings.Split(got, "\n"))
}

func takenApart(t *testing.T) string {
	var out strings.Builder
	labels, err := filepath.Glob("../../testdata/recipes/*/labels.csv")
	require.NoError(t, err)
	require.Greater(t, len(labels), 10)
	for _, label := range labels {
		dir := filepath.Dir(label)
		file, err := os.Open(label)
		require.NoError(t, err)
		rows, err := csv.NewReader(file).ReadAll()
		file.Close()
		require.NoError(t, err)
		for _, row := range rows[1:] {
			data, err := os.ReadFile(filepath.Join(dir, row[0]))
			require.NoError(t, err)
			o := Options{}
			if rows[0][2] == "charset" {
				o.Charset = row[2]
			}
			r, err := Read(row[0], data, o)
			fmt.Fprintf(&out, "===== %s/%s\n", filepath.Base(dir), row[0])
			if err != nil {
				fmt.Fprintln(&out, err)
				continue
			}
			fmt.Fprintf(&out, "%s; %s %s; unmarked %t, name unsure %t, steps unsure %t\n", r.Name, r.CookTime, r.Method, r.Unmarked, r.NameUnsure, r.StepsUnsure)
			for _, line := range r.Lines {
				fmt.Fprintf(&out, "%3d %-10s %s\n", line.Line, line.Role, line.Text)
			}
		}
	}
	return out.String()
}
