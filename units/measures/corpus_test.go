package measures_test

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/measures"
)

// corpusLine is a line of testdata/recipes/lines.csv: invented, and labelled by
// hand before the reader saw it. The lines of the part "held" are never tuned on.
type corpusLine struct {
	part, text, verdict, item, state, food string
	system                                 units.System
	amount                                 units.Quantity
}

// grade is how well a line was read.
type grade int

const (
	right   grade = iota // as labelled, or doubted where the label says so
	nearly               // the amount and the food right, the words beside them parted otherwise
	asked                // right, but marked to check
	refused              // not read, its words kept
	wrong                // read for sure, and not so
)

var gradeNames = [...]string{"right", "nearly", "asked", "refused", "wrong"}

func corpus(t *testing.T) []corpusLine {
	t.Helper()
	file, err := os.Open("../../testdata/recipes/lines.csv")
	require.NoError(t, err)
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	var lines []corpusLine
	for _, r := range records[1:] {
		system, err := units.ParseSystem(r[1])
		require.NoError(t, err)
		line := corpusLine{part: r[0], system: system, text: r[2], verdict: r[3], item: r[5], state: r[6], food: r[7]}
		if r[4] != "" {
			line.amount, err = units.Parse(r[4], system)
			require.NoError(t, err, r[2])
		}
		lines = append(lines, line)
	}
	return lines
}

// gradeOf holds a reading against its label.
func gradeOf(want corpusLine, got measures.Line) grade {
	switch want.verdict {
	case "heading":
		if got.Kind == measures.Heading {
			return right
		}
		if got.Sure() {
			return wrong
		}
		return refused
	case "ask":
		if got.Sure() {
			return wrong
		}
		return right
	}
	amount, item := sameReading(want, got)
	food := want.food == "" || got.Food.Food.Family == want.food
	state := got.State == want.state
	switch {
	case amount && item && food && state && got.Sure():
		return right
	case amount && food && got.Sure() && strings.Contains(want.item+" "+want.state+" "+got.Text, got.Item):
		return nearly
	case got.Sure():
		return wrong
	case amount && item:
		return asked
	}
	return refused
}

// sameReading compares the amount and the item; two garlic cloves are two cloves
// of garlic.
func sameReading(want corpusLine, got measures.Line) (amount, item bool) {
	item = measures.Fold(got.Item) == measures.Fold(want.item)
	if want.amount.IsToTaste() {
		return got.Amount.IsToTaste(), item
	}
	amount = got.Amount.Equal(want.amount) && got.Amount.Unit() == want.amount.Unit() || got.Amount.Equal(want.amount) && got.Amount.Dimension() != units.Count
	kind := want.amount.Unit().Kind()
	if !amount && kind != "" && got.Amount.Unit() == units.Piece && strings.HasPrefix(got.Item, want.item+" "+kind) {
		return true, true
	}
	if !amount && want.amount.Unit() == units.Piece && strings.HasPrefix(want.item, got.Item+" "+got.Amount.Unit().Kind()) {
		return got.Amount.Rat().Cmp(want.amount.Rat()) == 0, true
	}
	return amount, item
}

// The corpus of lines: at least 92 in a hundred are read right, and none wrong in
// silence. `go test -v -run Corpus` prints the grades; the lines of the held part
// are counted and not shown, so that nobody tunes on them.
func TestCorpusOfLines(t *testing.T) {
	lines := corpus(t)
	require.GreaterOrEqual(t, len(lines), 300)
	for _, part := range []string{"tune", "held", "fresh", "fresh-2", "fresh-3", "fresh-4", "fresh-5"} {
		var count [len(gradeNames)]int
		total := 0
		for _, line := range lines {
			if line.part != part {
				continue
			}
			got := measures.ReadLine(line.text, line.system)
			g := gradeOf(line, got)
			count[g]++
			total++
			if part != "held" && g != right {
				t.Logf("%s: %q: %q | %q | %q | %s | %s", gradeNames[g], line.text, got.Amount, got.Item, got.State, got.Food.Food.Family, got.Why())
			}
		}
		t.Logf("%s: %d lines: right %d, nearly %d, asked %d, refused %d, wrong %d", part, total, count[right], count[nearly], count[asked], count[refused], count[wrong])
		assert.Zero(t, count[wrong], "%s: lines read wrong in silence", part)
		assert.GreaterOrEqual(t, 100*count[right], 92*total, "%s: lines read right", part)
	}
}
