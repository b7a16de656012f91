package main

import (
	"regexp"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// eachCommand goes through every command that can be called.
func eachCommand(of *cobra.Command, do func(path []string, cmd *cobra.Command)) {
	for _, cmd := range of.Commands() {
		do(strings.Fields(cmd.CommandPath())[1:], cmd)
		eachCommand(cmd, do)
	}
}

// An empty text of a flag, as a script's unset variable makes it, is told, whatever
// command and flag it is, and so is a flag with nothing behind it.
func TestEmptyTextsOfFlags(t *testing.T) {
	tried := 0
	eachCommand(newRoot(&environment{}), func(path []string, cmd *cobra.Command) {
		cmd.LocalFlags().VisitAll(func(flag *pflag.Flag) {
			if flag.Value.Type() == "bool" {
				return
			}
			tried++
			for _, given := range [][]string{{"--" + flag.Name, ""}, {"--" + flag.Name + "=  "}, {"--" + flag.Name}} {
				out, errs, status := trencher("", append(path, given...)...)
				assert.Empty(t, out)
				assert.Equal(t, statusUsage, status, "%v %q", path, given)
				assert.True(t, strings.HasPrefix(errs, "--"+flag.Name+" is empty: write something behind it, or leave it out\nhint: --help says of it: "), "%v %q: %s", path, given, errs)
			}
		})
	})
	require.Greater(t, tried, 150)
	_, errs, _ := trencher("", "stock", "--demo", "--on", "")
	assert.Equal(t, "--on is empty: write something behind it, or leave it out\nhint: --help says of it: the day asked about, as 2031-07-12 (default: today)\n", errs)
}

// A word that begins with a dash is told in words of the kitchen, and the flag that
// was most likely meant is named.
func TestWordsThatBeginWithADash(t *testing.T) {
	const read = ": a word that begins with a dash is read as a flag, and no amount is below nothing\nhint: write the amount without the dash; "
	for words, says := range map[string]string{
		"lift potatoes -1kg":        `"-1kg"` + read,
		"lift tub-1 1.46kg -0.31kg": `"-0.31kg"` + read,
		"convert -18C F":            `"-18C"` + read,
		"give tub-1 -.5kg":          `"-.5kg"` + read,
		"stock -x":                  "\"-x\": there is no such flag\nhint: write one of those that `trencher stock --help` lists\n",
		"stock -demo":               "\"-demo\": there is no such flag\nhint: write --demo, if that is meant; else one of those that `trencher stock --help` lists\n",
		"stock --ploot=garden":      `"--ploot": there is no such flag` + "\nhint: write --plot, if that is meant; ",
		"stock ---on":               `"---on": there is no such flag` + "\nhint: write --on, if that is meant; ",
		"stock --=3":                `"--=3": there is no such flag` + "\nhint: write one of those ",
		"stock --demo=perhaps":      `--demo "perhaps": cannot be read` + "\nhint: write nothing behind it\n",
		"stock --season soon":       `--season "soon": cannot be read` + "\nhint: write a whole number, such as 2031\n",
	} {
		out, errs, status := trencher("", strings.Fields(words)...)
		assert.Empty(t, out)
		assert.Equal(t, statusUsage, status, words)
		assert.True(t, strings.HasPrefix(errs, says), "%s: %s", words, errs)
	}
}

// saidTwice tells a value in quotes that stands in quotes, or at the start, behind its
// colon again: `"0": "0" is no weight`.
func saidTwice(line string) bool {
	found := regexp.MustCompile(`^[^"]*"([^"]+)": (.*)$`).FindStringSubmatch(line)
	return found != nil && (strings.Contains(found[2], `"`+found[1]+`"`) || strings.HasPrefix(found[2], found[1]+" "))
}

// No message says twice what it is about, whatever is written behind any flag.
func TestNoMessageSaysItsValueTwice(t *testing.T) {
	require.True(t, saidTwice(`--weighing "0": "0" is not one weight`))
	require.True(t, saidTwice(`--air "24 l": 24 l is a volume`))
	require.False(t, saidTwice(`--grade "200 g wormy": unknown unit "g wormy"`))
	dir := begunPlot(t)
	first := map[string][]string{ // what a command needs before it reads its flags
		"lift": {"tub-1", "1 kg"}, "dish": {"Spring onion mash"}, "steam": {"--cut", "cube 25 mm"}, "boil": {"--cut", "cube 25 mm"}, "blanch": {"beans"},
		"use": {"tub-1/45-65-scabby", "20 g"}, "give": {"tub-1/45-65-scabby", "20 g"}, "compost": {"tub-1/45-65-scabby", "20 g"}, "store": {"tub-1/45-65-scabby"},
		"reweigh": {"tub-1/45-65-scabby", "20 g"}, "cooked": {"Spring onion mash"}, "keep": {"mash"}, "convert": {"1 egg", "g"}, "note": {"Spring onion mash", "good"},
	}
	needed := map[string][]string{"keep": {"--cooked-at", "yesterday 12:00"}}
	words := []string{"0", "blobs", "24 l", "1-2 kg", "x=0", "x=blobs", "3 2 1", "2031-13-45"}
	refused := 0
	eachCommand(newRoot(&environment{}), func(path []string, cmd *cobra.Command) {
		if path[0] == "page" || path[0] == "pocket" || path[0] == "help" || path[0] == "completion" || cmd.Flags().Lookup("plot") == nil {
			return
		}
		cmd.LocalFlags().VisitAll(func(flag *pflag.Flag) {
			switch kind := flag.Value.Type(); {
			case kind != "string" && kind != "stringArray", flag.Name == "plot", flag.Name == "to", flag.Name == "sheet", flag.Name == "calendar", flag.Name == "picture", flag.Name == "chart", flag.Name == "yields":
				return
			}
			for _, word := range words {
				args := append(append(append([]string{}, path...), first[path[0]]...), "--plot", dir)
				if flag.Name != "cooked-at" {
					args = append(args, needed[path[0]]...)
				}
				_, errs, status := trencher("", append(args, "--"+flag.Name, word)...)
				if status != statusDone {
					refused++
				}
				for line := range strings.Lines(errs) {
					assert.False(t, saidTwice(strings.TrimSpace(line)), "%v --%s %q: %s", args, flag.Name, word, line)
				}
			}
		})
	})
	require.Greater(t, refused, 300)
}
