package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// From a pasted recipe to a plan that makes it: what a person has to decide on the
// way is each question the import asks. Each of the 60 recipes of the corpus is
// brought into a plot that grows its crops and shared out; the median is two
// decisions at most. By default every sixth, with TRENCHER_LONG all of them.
func TestTimeToTable(t *testing.T) {
	const corpus = "../../testdata/recipes/corpus"
	file, err := os.Open(filepath.Join(corpus, "labels.csv"))
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	rows = rows[1:]
	require.GreaterOrEqual(t, len(rows), 60)
	each := 6
	if os.Getenv("TRENCHER_LONG") != "" {
		each = 1
	}
	var decisions []int
	for i := 0; i < len(rows); i += each {
		row := rows[i]
		t.Run(row[0], func(t *testing.T) {
			dir := plotGrowing(t, row[4])
			decided, answers := questionsOf(t, filepath.Join(corpus, row[0]), dir)
			decisions = append(decisions, decided)
			args := []string{"dish", "import", filepath.Join(corpus, row[0]), "--plot", dir, "--to", filepath.Join(dir, "dishes", "new.yaml")}
			_, errs, status := dishCommand(append(args, answers...)...)
			require.Equal(t, statusDone, status, errs)
			out, errs, status := dishCommand("share", row[1], "--plot", dir, "--on", "2031-07-19", "--serve-at", "20:00", "--json")
			require.Equal(t, statusDone, status, errs)
			var plan struct {
				Dishes []struct {
					Name     string
					Portions int
				}
			}
			require.NoError(t, json.Unmarshal([]byte(out), &plan))
			require.Len(t, plan.Dishes, 1)
			assert.Equal(t, row[1], plan.Dishes[0].Name)
			assert.Positive(t, plan.Dishes[0].Portions)
		})
	}
	require.NotEmpty(t, decisions)
	slices.Sort(decisions)
	t.Logf("%d recipes: decisions from %d to %d, median %d", len(decisions), decisions[0], decisions[len(decisions)-1], decisions[len(decisions)/2])
	assert.LessOrEqual(t, decisions[len(decisions)/2], 2)
}

// plotGrowing is a plot where each crop of a recipe's label was lifted today.
func plotGrowing(t *testing.T, crops string) (dir string) {
	dir = t.TempDir()
	writePlotFile(t, dir, "kitchen.yaml", "measures: metric\nsteamer: {diameter: 240 mm, tiers: 2}\nstove: {power: 1.8 kW, gas: natural gas}\nfridge: 4 C\n")
	var plantings strings.Builder
	for i, label := range strings.Split(crops, "; ") {
		crop := strings.TrimSpace(label[:strings.IndexAny(label, "0123456789")])
		id := fmt.Sprintf("bed-%d", i+1)
		fmt.Fprintf(&plantings, "- id: %s\n  crop: %s\n  planted: 2031-03-20\n  bed: 2 m2\n  seed: {count: 20}\n", id, crop)
		writePlotFile(t, dir, fmt.Sprintf("journal/2031/0719-0910-lift-%s.yaml", id),
			fmt.Sprintf("kind: lift\nat: '2031-07-19 09:10'\nplanting: %s\nweighings:\n  - gross: 20 kg\n", id))
	}
	writePlotFile(t, dir, "plantings.yaml", plantings.String())
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "dishes"), 0o755))
	return dir
}

// questionsOf is how many questions a recipe leaves open, and plain answers to
// them.
func questionsOf(t *testing.T, file, dir string) (open int, answers []string) {
	out, errs, status := dishCommand("dish", "import", file, "--plot", dir, "--json")
	require.Equal(t, statusDone, status, errs)
	var read struct {
		Questions []struct{ Field, About string }
	}
	require.NoError(t, json.Unmarshal([]byte(out), &read))
	for _, question := range read.Questions {
		switch question.Field {
		case "portions":
			answers = append(answers, "--portions", "4")
		case "cook":
			answers = append(answers, "--cook", question.About+"=boil 20 min")
		}
	}
	return len(read.Questions), answers
}
