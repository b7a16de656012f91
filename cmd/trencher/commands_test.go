package main

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every command with its chapter, its flags, what they begin as, and what a shell is
// offered in the place of its words and of each flag's value: whoever changes what can
// be typed sees here what changed. `-update` writes it anew; read each difference.
func TestEveryWordThatCanBeTyped(t *testing.T) {
	golden, err := os.ReadFile("testdata/commands.txt")
	if !*update {
		require.NoError(t, err)
	}
	dir, err := os.Getwd()
	require.NoError(t, err)
	onDemoCopy(t)
	tell(t, `cooked "Spring onion mash" --at 11:00`)
	var out strings.Builder
	for _, cmd := range append(everyCommand(t), newRoot(&environment{})) {
		path := strings.Fields(cmd.CommandPath())[1:]
		fmt.Fprintf(&out, "%s (%s): %s\n", strings.Join(path, " "), cmd.GroupID, offered(t, append(path, "")))
		cmd.Flags().VisitAll(func(flag *pflag.Flag) {
			fmt.Fprintf(&out, "    --%s %s %q", flag.Name, flag.Value.Type(), flag.DefValue)
			if _, completes := cmd.GetFlagCompletionFunc(flag.Name); completes {
				fmt.Fprintf(&out, ": %s", offered(t, append(path, "--"+flag.Name, "")))
			}
			fmt.Fprintln(&out)
		})
	}
	if *update {
		require.NoError(t, os.WriteFile(dir+"/testdata/commands.txt", []byte(out.String()), 0o644))
		return
	}
	require.Equal(t, string(golden), out.String())
}

// offered is what a shell is offered, on one line; of many words the first three.
func offered(t *testing.T, typed []string) string {
	t.Helper()
	out, _, status := trencher("", append([]string{"__complete"}, typed...)...)
	require.Equal(t, statusDone, status, typed)
	words := strings.Split(strings.TrimSpace(out), "\n")
	last := words[len(words)-1]
	words = words[:len(words)-1]
	more := ""
	if len(words) > 6 {
		words, more = words[:3], fmt.Sprintf(" and %d more", len(words)-3)
	}
	return strings.Join(words, ", ") + more + " " + last
}

// A word typed already is not offered again, nor one that begins otherwise, nor more
// words than a command takes.
func TestWhatAShellIsOffered(t *testing.T) {
	cmd := &cobra.Command{}
	completeWords(cmd, 2, fixed(func() []string { return []string{"mash", "soup", "mush"} }))
	for _, c := range []struct {
		args  []string
		begun string
		want  []string
	}{
		{nil, "", []string{"mash", "soup", "mush"}}, {nil, "m", []string{"mash", "mush"}}, {[]string{"mash"}, "m", []string{"mush"}}, {[]string{"mash", "soup"}, "", nil},
	} {
		words, directive := cmd.ValidArgsFunction(cmd, c.args, c.begun)
		assert.Equal(t, c.want, words, c)
		assert.Equal(t, cobra.ShellCompDirectiveNoFileComp, directive)
	}
}

// A command that takes no words is offered no files.
func TestNoFilesAreOfferedWhereNoWordIsTaken(t *testing.T) {
	for _, words := range []string{"ready", "stock", "tally", "next", "page", "undo", "journal check", "journal mend"} {
		out, _, status := trencher("", append(append([]string{"__complete"}, strings.Fields(words)...), "")...)
		assert.Equal(t, statusDone, status, words)
		assert.Equal(t, ":4\n", out, words) // no words, and no files in their place
	}
	out, _, _ := trencher("", "__complete", "dish", "import", "")
	assert.Equal(t, ":0\n", out, "a file is what is wanted here")
}

// What is wrong is called by what it was given as: the flag, or the word itself.
func TestErrorsNameTheFlagOrTheWord(t *testing.T) {
	for words, says := range map[string]string{
		"share --demo --only Moonpie":    `--only "Moonpie": no dish of that name`,
		"share --demo --without moonpie": `--without "moonpie": no dish of that name`,
		"share --demo moonpie":           `"moonpie": no dish of that name`,
		"reckoner r.html --demo moonpie": `dish "moonpie": no dish of that name`,
		"keep --demo --dish moonpie":     `--dish "moonpie": no dish of that name`,
		"blanch Moonrock":                `"Moonrock": no figures for it in steam or boiling water`,
		"blanch --crop moonrock":         `--crop "moonrock": no figures for it in steam or boiling water`,
		"boil moonrock --altitude 1km":   `"moonrock": no figures for it in steam or boiling water`,
	} {
		_, errs, status := trencher("", strings.Fields(words)...)
		assert.Equal(t, statusInput, status, words)
		assert.True(t, strings.HasPrefix(errs, says+"\nhint: write one of "), "%s: %s", words, errs)
	}
}

// A first word that names a command makes that one alone, which is the same as among
// the others; any other first word makes them all.
func TestOneCommandAlone(t *testing.T) {
	whole := newRoot(&environment{})
	names := map[string]bool{}
	for _, cmd := range whole.Commands() {
		names[cmd.Name()] = true
		alone := newRoot(&environment{}, cmd.Name(), "--help").Commands()
		require.Len(t, alone, 1, cmd.Name())
		assert.Equal(t, cmd.Name(), alone[0].Name())
		assert.Equal(t, cmd.GroupID, alone[0].GroupID)
		assert.Equal(t, cmd.UsageString(), alone[0].UsageString())
	}
	assert.Len(t, names, len(whole.Commands()))
	for _, words := range [][]string{nil, {"help", "share"}, {"shar"}, {"--demo", "share"}, {"__complete", "share", ""}} {
		assert.Len(t, newRoot(&environment{}, words...).Commands(), len(whole.Commands()), "%v", words)
	}
}
