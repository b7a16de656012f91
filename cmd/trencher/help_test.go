package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
	"trencher/cmd/trencher/pocket"
	"unicode/utf8"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// described is a flag's line of help: its name, its kind of value, its words.
var described = regexp.MustCompile(`^ +(-\w, )?--[\w-]+( \w+)? {3,}\S`)

// Every command says in a line what it is for, shows how it is used, and has a
// word on each of its flags.
func TestEveryCommandIsDescribed(t *testing.T) {
	for _, cmd := range append(everyCommand(t), newRoot(&environment{})) {
		path := cmd.CommandPath()
		assert.NotEmpty(t, cmd.Short, path)
		assert.False(t, strings.HasSuffix(cmd.Short, "."), "%s: a line of a list has no full stop", path)
		if cmd.Runnable() && !cmd.HasSubCommands() {
			assert.NotEmpty(t, cmd.Example, "%s shows no example", path)
		}
		for line := range strings.Lines(cmd.Flags().FlagUsages()) {
			assert.Regexp(t, described, line, "%s has a flag without a description", path)
		}
	}
}

// The help of every command fits a terminal of 80 columns.
func TestHelpIsNarrow(t *testing.T) {
	for _, cmd := range append(everyCommand(t), newRoot(&environment{})) {
		words := append(strings.Fields(cmd.CommandPath())[1:], "--help")
		out, errs, status := trencher("", words...)
		require.Equal(t, statusDone, status, errs)
		assert.Contains(t, out, "Usage:")
		for line := range strings.Lines(out) {
			assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimRight(line, "\n")), 80, "%s: %s", cmd.CommandPath(), line)
		}
	}
}

// The lines of each command's example, run in turn on a fresh copy of the demo
// plot, all do what they say. What they print, of each the first lines, stands in
// testdata/examples.txt; `-update` writes it anew, read each difference.
func TestEveryExampleRuns(t *testing.T) {
	ran := 0
	here, err := os.Getwd()
	require.NoError(t, err)
	var printed strings.Builder
	for _, cmd := range everyCommand(t) {
		if cmd.Example == "" {
			continue
		}
		t.Run(cmd.CommandPath(), func(t *testing.T) {
			onDemoCopy(t)
			for _, line := range strings.Split(strings.ReplaceAll(cmd.Example, "\\\n", ""), "\n") {
				rest, ours := strings.CutPrefix(strings.TrimSpace(line), "trencher ")
				require.True(t, ours, "an example that is no command: %q", line)
				args, err := splitWords(rest)
				require.NoError(t, err)
				out, errs, status := runExample(cmd, args)
				require.Equal(t, statusDone, status, "%s\n%s", line, errs)
				fmt.Fprintf(&printed, "$ %s\n%s%s\n", strings.TrimSpace(line), firstLines(out, exampleLines), firstLines(errs, exampleLines))
				ran++
			}
		})
	}
	assert.GreaterOrEqual(t, ran, 45, "example lines")
	if strings.Contains(flag.Lookup("test.run").Value.String(), "/") || t.Failed() {
		return
	}
	text := byChance.ReplaceAllString(printed.String(), "…")
	file := filepath.Join(here, "testdata", "examples.txt")
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, string(want), text)
}

// exampleLines are so many of what an example prints that are looked at.
const exampleLines = 40

// byChance is what differs from run to run: a port, and the sign of a page's address.
var byChance = regexp.MustCompile(`(127\.0\.0\.1|localhost):\d+(/\S*)?`)

// runExample runs one line; the page, which serves until it is told to stop,
// is told to once it has given its address.
func runExample(cmd *cobra.Command, args []string) (out, errs string, status int) {
	if cmd.Name() != "page" && !slices.Contains(args, "--serve") {
		return trencher("", args...)
	}
	ctx, stop := context.WithTimeout(context.Background(), 10*time.Second)
	defer stop()
	var e bytes.Buffer
	said := &stopper{stop: stop}
	env := &environment{in: strings.NewReader(""), out: said, err: &e, now: func() time.Time { return noon }, program: noProgram}
	status = run(ctx, env, args)
	return said.String(), e.String(), status
}

// noProgram stands for the phone's program, which takes a minute to compile: the
// tests of package pocket run the real one.
func noProgram(context.Context, io.Writer) (pocket.Program, error) {
	return pocket.Program{Wasm: []byte("program"), Go: []byte("starter")}, nil
}

// A stopper takes the page's address and stops it.
type stopper struct {
	bytes.Buffer
	stop func()
}

func (s *stopper) Write(text []byte) (int, error) {
	s.stop()
	return s.Buffer.Write(text)
}

// Each shell gets a script that knows the program by its name.
func TestCompletionScripts(t *testing.T) {
	for _, shell := range []string{"bash", "zsh", "fish", "powershell"} {
		out, errs, status := trencher("", "completion", shell)
		require.Equal(t, statusDone, status, errs)
		assert.Contains(t, out, "trencher", shell)
		assert.Greater(t, len(out), 1000, shell)
	}
}

// What a shell offers where a name of the plot is wanted.
func TestCompletionKnowsThePlot(t *testing.T) {
	onDemoCopy(t)
	tell(t, `cooked "Spring onion mash" --at 11:00`)
	for _, test := range []struct {
		typed []string
		want  []string
		not   string
	}{
		{[]string{"dish", ""}, []string{"Spring onion mash", "Mustard and dill potatoes"}, ""},
		{[]string{"dish", "--demo", "Sp"}, []string{"Spring onion mash"}, "Mustard and dill potatoes"},
		{[]string{"dish", "export", ""}, []string{"Spring onion mash"}, ""},
		{[]string{"share", ""}, []string{"Spring onion mash"}, ""},
		{[]string{"share", "Spring onion mash", ""}, []string{"Mustard and dill potatoes"}, "Spring onion mash"},
		{[]string{"share", "--without", ""}, []string{"Spring onion mash"}, ""},
		{[]string{"table", ""}, []string{"Spring onion mash"}, ""},
		{[]string{"note", ""}, []string{"Spring onion mash"}, ""},
		{[]string{"lift", "--planting", ""}, []string{"tub-1", "bed-2", "bed-3"}, ""},
		{[]string{"use", ""}, []string{"tub-1/20-45-sound", "bed-3/35-55-sound"}, ""},
		{[]string{"give", "tub"}, []string{"tub-1/20-45-sound"}, "bed-3/35-55-sound"},
		{[]string{"compost", ""}, []string{"tub-1/ungraded-green"}, ""},
		{[]string{"store", ""}, []string{"bed-2/45-65-sound"}, ""},
		{[]string{"chilled", ""}, []string{"Spring onion mash"}, ""},
		{[]string{"keep", ""}, []string{"mash", "boiled-potatoes"}, ""},
		{[]string{"keep", "--food", ""}, []string{"mash"}, "potatoes"},
		{[]string{"keep", "--authority", ""}, []string{"strictest", "uk", "us", "au-nz"}, ""},
		{[]string{"steam", "--crop", ""}, []string{"potato", "beetroot"}, ""},
		{[]string{"steam", "--until", ""}, []string{"just-tender", "soft"}, ""},
	} {
		t.Run(strings.Join(test.typed, " "), func(t *testing.T) {
			out, _, status := trencher("", append([]string{"__complete"}, test.typed...)...)
			require.Equal(t, statusDone, status)
			offered := strings.Split(out, "\n")
			for _, want := range test.want {
				assert.Contains(t, offered, want)
			}
			if test.not != "" {
				assert.False(t, slices.Contains(offered, test.not), "%q is offered", test.not)
			}
			assert.NotContains(t, out, ":0\n", "files of the folder are no answer")
		})
	}
}

// Outside a plot nothing is offered, and nothing is said.
func TestCompletionOutsideAPlot(t *testing.T) {
	t.Chdir(t.TempDir())
	env := &environment{in: strings.NewReader(""), out: io.Discard, err: io.Discard, now: func() time.Time { return noon }, program: noProgram}
	assert.Equal(t, statusDone, run(context.Background(), env, []string{"__complete", "dish", ""}))
}
