package main

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/demo"
)

// everyCommand walks the tree of commands, without the root and cobra's own.
func everyCommand(t testing.TB) []*cobra.Command {
	t.Helper()
	var all []*cobra.Command
	var walk func(*cobra.Command)
	walk = func(parent *cobra.Command) {
		for _, cmd := range parent.Commands() {
			all = append(all, cmd)
			walk(cmd)
		}
	}
	walk(newRoot(&environment{}))
	require.GreaterOrEqual(t, len(all), 29)
	return all
}

// silent are the commands that give no answer of their own: a list of
// subcommands, the page, which answers in the browser, and what writes files of
// the plot as they are.
var silent = []string{"trencher journal", "trencher page", "trencher pocket", "trencher journal pack"}

// Each question is asked of a fresh copy of the demo plot, after `before`.
var questions = []struct{ before, ask, source string }{
	{ask: "begin garden", source: "invented scenario"},
	{ask: "ready", source: "common practice, no source; practice"},
	{ask: `lift --planting tub-1 --weighing "1.46 kg - 0.31 kg" --grade "100 g damaged"`, source: "85 % after trimming (common practice"},
	{ask: "stock", source: "keeps raw: 15-45 days"},
	{ask: `use tub-1/20-45-sound "100 g"`, source: "common practice"},
	{ask: "give bed-3", source: "half of the 30-90 days of trade storage"},
	{ask: "compost tub-1/ungraded-green", source: "Bundesinstitut für Risikobewertung"},
	{ask: "store bed-2/45-65-sound --where shed", source: "common practice"},
	{before: `store bed-2/45-65-sound --where shed`, ask: `reweigh bed-2/45-65-sound "740 g"`, source: "rot a month in a frost-free shed"},
	{ask: `steam --cut "cube 25 mm"`, source: "Choi & Okos (1986)"},
	{ask: `boil --cut "cube 25 mm"`, source: "Canterbury District Health Board"},
	{ask: `blanch --crop carrot --cut "cube 8 mm"`, source: "US extension services"},
	{ask: "reckoner shed.html", source: "Food Standards Agency"},
	{ask: `note "Spring onion mash" "more pepper"`, source: "the plot's dishes folder"},
	{before: `note "Spring onion mash" "more pepper"`, ask: "undo", source: "the last entry of this device"},
	{ask: "share", source: "Food Standards Agency"},
	{ask: `table --guests "4 adults"`, source: "Food Standards Agency (UK), allergen list"},
	{ask: `dish "Spring onion mash" --portions 6`, source: "USDA"},
	{ask: `dish export "Spring onion mash"`, source: "schema.org"},
	{before: `dish export "Spring onion mash" --to m.json`, ask: "dish import m.json", source: "schema.org"},
	{ask: "tally", source: "usual yield of beetroot: 2000-4500 g a m2"},
	{ask: "next", source: "common practice, no source"},
	{ask: "journal check", source: "kitchen.yaml"},
	{ask: "journal mend", source: "a correction before a void"},
	{ask: "journal export", source: "RFC 4180"},
	{before: "journal export --to t.csv", ask: "journal import t.csv", source: "RFC 4180"},
	{before: "journal pack plot.zip", ask: "journal bring plot.zip", source: "so that nothing is overwritten"},
	{ask: "journal void journal/2031/0719-1035-lift-bed-3.yaml", source: "passes it over"},
	{ask: "keep mash", source: "Food Standards Agency"},
	{ask: "keep --food mash --cooked-at 11:00", source: "known by: read"},
	{before: `cooked "Spring onion mash" --at 11:00`, ask: "keep", source: "Source: Food Standards Agency"},
	{ask: `cooked "Spring onion mash"`, source: "USDA Food Safety and Inspection Service"},
	{before: `cooked "Spring onion mash" --at 11:00`, ask: `chilled "Spring onion mash"`, source: "Food Standards"},
	{before: `cooked "Spring onion mash" --at 11:00`, ask: `out "Spring onion mash"`, source: "Food Standards"},
	{before: `cooked "Spring onion mash" --at 11:00`, ask: `reheated "Spring onion mash"`, source: "Food Standards"},
	{before: `cooked "Spring onion mash" --at 11:00 --amount 6`, ask: `eaten "Spring onion mash" --amount 2`, source: "Food Standards"},
	{before: `cooked "Spring onion mash" --at 11:00 --amount 6`, ask: `binned "Spring onion mash" --amount 2`, source: "Food Standards"},
	{ask: `convert "2 tbsp" g --of butter`, source: "USDA National Nutrient Database"},
}

// Every command that answers takes --json and --why, and --why names where
// the answer's figures come from.
func TestEveryAnswerHasItsReasons(t *testing.T) {
	asked := map[string]bool{}
	for _, q := range questions {
		t.Run(q.ask, func(t *testing.T) {
			onDemoCopy(t)
			if q.before != "" {
				tell(t, q.before)
			}
			root := newRoot(&environment{})
			words, err := splitWords(q.ask)
			require.NoError(t, err)
			cmd, _, err := root.Find(words)
			require.NoError(t, err)
			asked[cmd.CommandPath()] = true
			text := strings.Join(strings.Fields(tell(t, q.ask+" --why")), " ")
			assert.Contains(t, text, q.source)
			assert.Regexp(t, `read|memory|practice|computed|given|judgement`, text)
		})
	}
	for _, cmd := range everyCommand(t) {
		if path := cmd.CommandPath(); !slices.Contains(silent, path) {
			assert.True(t, asked[path], "%s is never asked for its reasons", path)
			assert.NotNil(t, cmd.Flags().Lookup("why"), "%s has no --why", path)
			if path != "trencher journal export" { // its answer is a table
				assert.NotNil(t, cmd.Flags().Lookup("json"), "%s has no --json", path)
			}
		}
	}
}

// For scripts the reasons stand in the JSON too: "why", "sources" or "source".
func TestReasonsStandInTheJSON(t *testing.T) {
	reasons := regexp.MustCompile(`"(why|source|sources|keeps_source|measure)": ?[\[{"]`)
	for _, q := range questions {
		if strings.HasPrefix(q.ask, "journal export") || strings.HasPrefix(q.ask, "dish export") {
			continue
		}
		t.Run(q.ask, func(t *testing.T) {
			onDemoCopy(t)
			if q.before != "" {
				tell(t, q.before)
			}
			assert.Regexp(t, reasons, tell(t, q.ask+" --json --why"))
		})
	}
}

// onDemoCopy moves to a fresh copy of the demo plot.
func onDemoCopy(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.CopyFS(".", demo.Plot()))
}

// tell runs one command line that must succeed and returns all it prints.
func tell(t *testing.T, line string) string {
	t.Helper()
	args, err := splitWords(line)
	require.NoError(t, err)
	out, errs, status := trencher("", args...)
	require.Equal(t, statusDone, status, "%s\n%s", line, errs)
	return out + errs
}
