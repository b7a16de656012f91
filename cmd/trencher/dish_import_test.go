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
	printed, _, _ := dishCommand("dish", "import", minted, "--measures", "uk")
	assert.Equal(t, string(written), printed)

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
	tests := []struct {
		args   []string
		status int
		says   []string
	}{
		{[]string{}, statusUsage, []string{"name one file"}},
		{[]string{"nowhere.json"}, statusInput, []string{"nowhere.json: cannot be read"}},
		{[]string{recipe}, statusInput, []string{`:1:63: "salt and pepper": no amount`, `:1:50: no crop is weighed in this recipe: "6 potatoes" has no weight`, "does not say how many portions"}},
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
	out, errs, status := dishCommand("dish", "import", recipe, "--portions", "4", "--amount", "potatoes=900 g", "--amount", "salt=to taste", "--json")
	require.Equal(t, statusDone, status, errs)
	var answer struct {
		Name     string
		Portions int
		Text     string
	}
	require.NoError(t, json.Unmarshal([]byte(out), &answer))
	assert.Equal(t, "A", answer.Name)
	assert.Equal(t, 4, answer.Portions)
	assert.Contains(t, answer.Text, "amount: 900 g")
}

func TestDishExportIsRead(t *testing.T) {
	to := filepath.Join(t.TempDir(), "mash.json")
	_, errs, status := dishCommand("dish", "export", "spring onion mash", "--demo", "--to", to)
	require.Equal(t, statusDone, status, errs)
	out, errs, status := dishCommand("dish", "import", to)
	require.Equal(t, statusDone, status, errs)
	assert.Contains(t, out, "name: Spring onion mash")
	_, errs, status = dishCommand("dish", "export", "nothing like it", "--demo")
	assert.Equal(t, statusInput, status)
	assert.Contains(t, errs, `there is no dish "nothing like it"`)
}
