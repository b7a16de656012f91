package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// update rewrites golden files and the README's output blocks:
//
//	go test ./cmd/trencher -update
var update = flag.Bool("update", false, "rewrite golden files and the README's output")

// noon is the clock of these tests, in the demo garden's zone.
var noon = time.Date(2031, time.July, 19, 12, 0, 0, 0, time.FixedZone("", 3600))

// trencher runs one command line as a user would, without a process.
func trencher(in string, args ...string) (out, errs string, status int) {
	var o, e bytes.Buffer
	env := &environment{in: strings.NewReader(in), out: &o, err: &e, now: func() time.Time { return noon }, device: func() string { return "k3fqab" }, program: noProgram}
	status = run(context.Background(), env, args)
	return o.String(), e.String(), status
}

// TestReadme reruns every `$ ` line of the README's console blocks, one after
// the other in one folder, and compares what it prints with what stands there.
// A fence marked `first=N` shows the first N lines only.
func TestReadme(t *testing.T) {
	const file = "../../README.md"
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	readme, err := filepath.Abs(file)
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	got := rerunBlocks(t, string(data))
	if *update {
		require.NoError(t, os.WriteFile(readme, []byte(got), 0o644))
		return
	}
	require.Equal(t, string(data), got, "the README's output is out of date: go test ./cmd/trencher -run Readme -update")
}

func rerunBlocks(t *testing.T, text string) string {
	var out strings.Builder
	inBlock, first := false, 0
	for line := range strings.Lines(text) {
		switch {
		case !inBlock && strings.HasPrefix(line, "```console"):
			inBlock, first = true, 0
			_, _ = fmt.Sscanf(line, "```console first=%d", &first)
			out.WriteString(line)
		case inBlock && strings.HasPrefix(line, "```"):
			inBlock = false
			out.WriteString(line)
		case inBlock && strings.HasPrefix(line, "$ "):
			out.WriteString(line)
			out.WriteString(rerun(t, strings.TrimSpace(line[2:]), first))
		case !inBlock:
			out.WriteString(line)
		}
	}
	return out.String()
}

func rerun(t *testing.T, command string, first int) string {
	for _, prefix := range []string{"go run ./cmd/trencher ", "trencher "} {
		if rest, ours := strings.CutPrefix(command, prefix); ours {
			args, err := splitWords(rest)
			require.NoError(t, err, command)
			out, errs, _ := trencher("", args...)
			return firstLines(out+errs, first)
		}
	}
	t.Fatalf("README: %q is not a command this test can run", command)
	return ""
}

func firstLines(text string, n int) string {
	lines := strings.SplitAfter(text, "\n")
	if n == 0 || len(lines) <= n {
		return text
	}
	return strings.Join(lines[:n], "") + "...\n"
}

// splitWords splits a command line at spaces, keeping "double quoted" words
// together, as the README writes them.
func splitWords(text string) ([]string, error) {
	var words []string
	var word strings.Builder
	quoted, any := false, false
	for _, r := range text {
		switch {
		case r == '"':
			quoted, any = !quoted, true
		case r == ' ' && !quoted:
			if any {
				words = append(words, word.String())
			}
			word.Reset()
			any = false
		default:
			word.WriteRune(r)
			any = true
		}
	}
	if quoted {
		return nil, fmt.Errorf("unclosed quote in %q", text)
	}
	if any {
		words = append(words, word.String())
	}
	return words, nil
}
