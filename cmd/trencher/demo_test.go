package main

import (
	"os"
	"testing"
	"unicode/utf8"

	"strings"

	"github.com/stretchr/testify/require"
)

// The demo's plan, as printed. `go test ./cmd/trencher -run Demo -update`
// rewrites the files; read the difference before committing it.
func TestDemoPlan(t *testing.T) {
	for _, golden := range []struct {
		file string
		args []string
	}{
		{"testdata/demo/share.txt", []string{"share", "--demo"}},
		{"testdata/demo/share-why.txt", []string{"share", "--demo", "--why"}},
		{"testdata/demo/share.json", []string{"share", "--demo", "--json"}},
		{"testdata/demo/table.txt", []string{"table", "--demo", "--guests", "4 adults", "--guests", "2 adults no milk", "--guests", "3 children vegetarian"}},
		{"testdata/demo/share-full.txt", []string{"share", "--demo", "--full"}},
		{"testdata/demo/dish.txt", []string{"dish", "beetroot-and-potato", "--demo", "--portions", "6", "--serve-at", "13:00"}},
	} {
		t.Run(golden.file, func(t *testing.T) {
			out, errs, status := trencher("", golden.args...)
			require.Equal(t, statusDone, status, errs)
			if *update {
				require.NoError(t, os.MkdirAll("testdata/demo", 0o755))
				require.NoError(t, os.WriteFile(golden.file, []byte(out), 0o644))
			}
			want, err := os.ReadFile(golden.file)
			require.NoError(t, err)
			require.Equal(t, string(want), out)
			again, _, _ := trencher("", golden.args...)
			require.Equal(t, out, again, "the same input gives the same output, byte for byte")
			if golden.file == "testdata/demo/share.txt" {
				require.LessOrEqual(t, strings.Count(out, "\n"), 130, "the whole answer in three screens")
			}
			if strings.HasSuffix(golden.file, ".txt") {
				requireNarrow(t, out)
			}
		})
	}
}

// requireNarrow checks that text fits a terminal of 80 columns.
func requireNarrow(t *testing.T, text string) {
	t.Helper()
	for line := range strings.Lines(text) {
		require.LessOrEqual(t, utf8.RuneCountInString(strings.TrimRight(line, "\n")), 80, line)
	}
}
