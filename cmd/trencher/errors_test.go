package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/demo"
)

// TestWrongInputs runs the cases of testdata/errors/*.txt. Each stands on a
// fresh copy of the demo plot and reads:
//
//	== a name
//	~ FILE: old text => new text      (edits one file)
//	+ FILE: one line                  (adds a line; \n and \t are escapes)
//	- FILE                            (removes a file)
//	$ trencher a command line
//	exit status
//	exact standard error
//
// `go test ./cmd/trencher -run WrongInputs -update` rewrites the outputs; read
// every line of the difference before committing it.
func TestWrongInputs(t *testing.T) {
	files, err := filepath.Glob("testdata/errors/*.txt")
	require.NoError(t, err)
	total := 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		path, err := filepath.Abs(file)
		require.NoError(t, err)
		var rewritten strings.Builder
		cases := strings.Split(string(data), "== ")
		rewritten.WriteString(cases[0])
		for _, text := range cases[1:] {
			total++
			name, _, _ := strings.Cut(text, "\n")
			t.Run(name, func(t *testing.T) {
				got := runCase(t, text)
				rewritten.WriteString("== " + got + "\n")
				if !*update {
					require.Equal(t, strings.TrimSpace(text), strings.TrimSpace(got))
				}
			})
		}
		if *update {
			require.NoError(t, os.WriteFile(path, []byte(strings.TrimRight(rewritten.String(), "\n")+"\n"), 0o644))
		}
	}
	require.GreaterOrEqual(t, total, 150, "wrong inputs tried")
}

// runCase runs one case and returns its text with what was really printed.
func runCase(t *testing.T, text string) string {
	t.Chdir(t.TempDir())
	require.NoError(t, os.CopyFS(".", demo.Plot()))
	var kept []string
	for _, line := range strings.Split(text, "\n") {
		kept = append(kept, line)
		command, isCommand := strings.CutPrefix(line, "$ trencher")
		if !isCommand {
			edit(t, line)
			continue
		}
		before := snapshot(t)
		args, err := splitWords(strings.TrimSpace(command))
		require.NoError(t, err)
		out, errs, status := trencher("", args...)
		require.Empty(t, out, "standard output of a failed command")
		require.Equal(t, before, snapshot(t), "a failed command changed the plot")
		require.NotContains(t, errs, "panic")
		kept = append(kept, fmt.Sprintf("exit %d", status), strings.TrimRight(errs, "\n"))
		break
	}
	return strings.Join(kept, "\n") + "\n"
}

// edit carries out one `~`, `+` or `-` line of a case.
func edit(t *testing.T, line string) {
	if len(line) < 2 {
		return
	}
	file, rest, _ := strings.Cut(line[2:], ": ")
	rest = strings.NewReplacer(`\n`, "\n", `\t`, "\t", `\r`, "\r", `\uFEFF`, "\uFEFF", `\xff`, "\xff").Replace(rest)
	switch line[:2] {
	case "~ ":
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		old, replacement, found := strings.Cut(rest, " => ")
		require.True(t, found, "%q has no =>", line)
		require.Contains(t, string(data), old, file)
		require.NoError(t, os.WriteFile(file, []byte(strings.Replace(string(data), old, replacement, 1)), 0o644))
	case "+ ":
		require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
		old, err := os.ReadFile(file)
		if err != nil {
			require.ErrorIs(t, err, fs.ErrNotExist)
		}
		require.NoError(t, os.WriteFile(file, append(old, []byte(rest+"\n")...), 0o644))
	case "- ":
		require.NoError(t, os.RemoveAll(file))
	}
}

// snapshot reads every file below the current folder.
func snapshot(t *testing.T) map[string]string {
	found := map[string]string{}
	require.NoError(t, filepath.WalkDir(".", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		found[path] = string(data)
		return err
	}))
	return found
}
