package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// dishCommand runs one command line on a fixed day.
func dishCommand(args ...string) (out, err string, status int) {
	var stdout, stderr bytes.Buffer
	env := &environment{in: strings.NewReader(""), out: &stdout, err: &stderr,
		now: func() time.Time { return time.Date(2031, 7, 19, 12, 0, 0, 0, time.UTC) }}
	status = run(context.Background(), env, args)
	return stdout.String(), stderr.String(), status
}

const minted = "../../testdata/recipes/page.html"

func TestDishImportWritesAFileOnce(t *testing.T) {
	to := filepath.Join(t.TempDir(), "minted.yaml")
	out, errs, status := dishCommand("dish", "import", minted, "--measures", "uk", "--to", to)
	require.Equal(t, statusDone, status, errs)
	assert.Contains(t, out, "Minted potatoes & peas, 6 portions, written to "+to)
	written, err := os.ReadFile(to)
	require.NoError(t, err)
	assert.Contains(t, string(written), "name: Minted potatoes & peas")
	shown, _, _ := dishCommand("dish", "import", minted, "--measures", "uk")
	assert.Contains(t, shown, "Nothing is written yet")

	out, errs, status = dishCommand("dish", "import", minted, "--measures", "us", "--to", to)
	assert.Equal(t, statusInput, status)
	assert.Empty(t, out)
	assert.Contains(t, errs, "that file exists already")
	again, err := os.ReadFile(to)
	require.NoError(t, err)
	assert.Equal(t, written, again, "what was there is left alone")
}

func TestDishImportRefusals(t *testing.T) {
	recipe := filepath.Join(t.TempDir(), "r.json")
	require.NoError(t, os.WriteFile(recipe, []byte(`{"@type":"Recipe","name":"A","recipeIngredient":["6 potatoes","salt and pepper"]}`), 0o644))
	latin := filepath.Join(t.TempDir(), "mail.eml")
	require.NoError(t, os.WriteFile(latin, []byte("From: a@example.org\nSubject: Soup\n\n500 g potatoes\n\xbd pint milk\n"), 0o644))
	tests := []struct {
		args   []string
		status int
		says   []string
	}{
		{[]string{}, statusUsage, []string{"name one file"}},
		{[]string{"nowhere.json"}, statusInput, []string{"nowhere.json: cannot be read"}},
		{[]string{recipe, "--to", filepath.Join(t.TempDir(), "no.yaml")}, statusInput, []string{"--portions: the recipe does not say how many portions it makes"}},
		{[]string{recipe, "--amount", "leek=900 g"}, statusInput, []string{`--amount "leek": no ingredient is called that`}},
		{[]string{recipe, "--as", "2=cheese"}, statusInput, []string{`--as "2=cheese"`}},
		{[]string{recipe, "--cook", "potato"}, statusInput, []string{`--cook "potato"`}},
		{[]string{latin}, statusInput, []string{"mail.eml:5:1: byte 0xbd is no text in UTF-8", "\nhint: add --charset with the set that reads it right: windows-1252 for \"½ pint milk\", iso-8859-15 for "}},
		{[]string{recipe, "--charset", "ebcdic"}, statusInput, []string{`--charset "ebcdic": no character set that is known here`}},
		{[]string{recipe, "--amount", "potatoes"}, statusInput, []string{`--amount "potatoes": which line, and how much of it?`}},
		{[]string{recipe, "--amount", "potatoes=5 C"}, statusInput, []string{`--amount "potatoes=5 C"`}},
		{[]string{recipe, "--portions", "-2"}, statusInput, []string{`--portions "-2": no number of portions`}},
		{[]string{recipe, "--measures", "imperial"}, statusInput, []string{"imperial"}},
	}
	for _, test := range tests {
		out, errs, status := dishCommand(append([]string{"dish", "import"}, test.args...)...)
		assert.Equal(t, test.status, status, "%v: %s", test.args, errs)
		assert.Empty(t, out)
		for _, says := range test.says {
			assert.Contains(t, errs, says)
		}
	}
	out, errs, status := dishCommand("dish", "import", recipe, "--portions", "4", "--amount", "potatoes=900 g", "--json")
	require.Equal(t, statusDone, status, errs)
	var answer importAnswer
	require.NoError(t, json.Unmarshal([]byte(out), &answer))
	assert.Equal(t, "A", answer.Dish.Name)
	assert.Equal(t, 4, answer.Dish.Portions)
	assert.Contains(t, answer.Dish.Text, "amount: 900 g")
	assert.Empty(t, answer.Questions)
	require.Len(t, answer.Lines, 3)
	assert.Equal(t, importLine{Line: "6 potatoes", Amount: "900", Unit: "g", Item: "potatoes", As: "crop", Sure: true}, answer.Lines[1])
	assert.Equal(t, importLine{Line: "salt and pepper", Amount: "to taste", Item: "salt and pepper", As: "other", Sure: true}, answer.Lines[2])
}

// importAnswer is what scripts read of `dish import --json`.
type importAnswer struct {
	Dish struct {
		Name     string
		Portions int
		Text     string
	}
	Lines     []importLine
	Questions []struct{ Field, Asks, Accepted string }
}

type importLine struct {
	Line, Amount, Unit, Item, State, As string
	Sure                                bool
	Why                                 string
}

// A pasted recipe is read back: each line with its use, sure or with a reason,
// and what is open as a question; nothing is refused for a line.
func TestDishImportReadsBack(t *testing.T) {
	recipe := filepath.Join(t.TempDir(), "r.txt")
	require.NoError(t, os.WriteFile(recipe, []byte("Leeks\n\nIngredients\n500 g leeks\n2 smoots flour\n\nMethod\nBoil the leeks for 12 minutes."), 0o644))
	out, errs, status := dishCommand("dish", "import", recipe, "--json")
	require.Equal(t, statusDone, status, errs)
	var answer importAnswer
	require.NoError(t, json.Unmarshal([]byte(out), &answer))
	var uses []string
	for _, line := range answer.Lines {
		uses = append(uses, line.As)
		if line.Line == "2 smoots flour" {
			assert.False(t, line.Sure)
			assert.Empty(t, line.Amount)
			assert.Contains(t, line.Why, "smoots")
		}
	}
	assert.Equal(t, "heading heading crop other heading step", strings.Join(uses, " "))
	require.Len(t, answer.Questions, 1)
	assert.Equal(t, "portions", answer.Questions[0].Field)

	out, errs, status = dishCommand("dish", "import", recipe, "--portions", "2")
	require.Equal(t, statusDone, status, errs)
	assert.Contains(t, out, "Leeks, 2 portions, hot")
	assert.Contains(t, out, "  4 ? other   2 smoots flour")
	assert.Contains(t, out, "500 g leek, as-lifted, whole, boiled 12 min")
	for line := range strings.Lines(out) {
		assert.LessOrEqual(t, len([]rune(strings.TrimRight(line, "\n"))), 80, line)
	}
}

// A recipe is pasted, written into the plot, and the next share uses it.
func TestFromPasteToTable(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "garden")
	_, errs, status := dishCommand("begin", dir)
	require.Equal(t, statusDone, status, errs)
	var out, errOut bytes.Buffer
	env := &environment{in: strings.NewReader("Beets with dill\nServes 2\n300 g beetroot\n1 tbsp chopped dill\nBoil the beetroot for 40 minutes, peel and toss with the dill. Serve hot."), out: &out, err: &errOut,
		now: func() time.Time { return time.Date(2031, 7, 19, 12, 0, 0, 0, time.UTC) }}
	require.Equal(t, statusDone, run(context.Background(), env, []string{"dish", "import", "-", "--plot", dir, "--to", filepath.Join(dir, "dishes", "beets.yaml")}), errOut.String())
	plan, errs, status := dishCommand("share", "Beets with dill", "--plot", dir)
	require.Equal(t, statusDone, status, errs)
	assert.Contains(t, plan, "Boil beetroot for Beets with dill")
}

func TestDishExportIsRead(t *testing.T) {
	to := filepath.Join(t.TempDir(), "mash.json")
	_, errs, status := dishCommand("dish", "export", "spring onion mash", "--demo", "--to", to)
	require.Equal(t, statusDone, status, errs)
	out, errs, status := dishCommand("dish", "import", to)
	require.Equal(t, statusDone, status, errs)
	assert.Contains(t, out, "Spring onion mash, ")
	_, errs, status = dishCommand("dish", "export", "nothing like it", "--demo")
	assert.Equal(t, statusInput, status)
	assert.Contains(t, errs, `there is no dish "nothing like it"`)
}
