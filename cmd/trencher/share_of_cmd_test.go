package main

import (
	"bytes"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The rules of garden and kitchen belong to the packages that can be used
// without a command line: cmd reads flags, asks and lays out.
func TestCmdIsTheSmallerPart(t *testing.T) {
	lines := linesByFolder(t)
	all := linesUnder(lines, ".")
	require.Greater(t, all, 10000, "the source was not found")
	cmd := linesUnder(lines, "cmd")
	assert.LessOrEqual(t, cmd*100, all*30, "cmd is %d of %d lines, %d %%; 30 %% are enough to ask and to lay out", cmd, all, cmd*100/all)
	assert.LessOrEqual(t, linesUnder(lines, "cmd/trencher/ask"), 1500, "ask reads questions and opens the plot: what else has grown in it?")
}

// linesByFolder counts the lines of Go, tests apart, of each folder from the root.
func linesByFolder(t *testing.T) map[string]int {
	lines := map[string]int{}
	root := os.DirFS(filepath.Join("..", ".."))
	require.NoError(t, fs.WalkDir(root, ".", func(file string, entry fs.DirEntry, err error) error {
		switch name := entry.Name(); {
		case err != nil:
			return err
		case entry.IsDir() && (name == "testdata" || strings.HasPrefix(name, ".") && file != "."):
			return fs.SkipDir
		case entry.IsDir() || path.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go"):
			return nil
		}
		data, err := fs.ReadFile(root, file)
		lines[path.Dir(file)] += bytes.Count(data, []byte("\n"))
		return err
	}))
	return lines
}

func linesUnder(lines map[string]int, folder string) (sum int) {
	for each, count := range lines {
		if folder == "." || each == folder || strings.HasPrefix(each, folder+"/") {
			sum += count
		}
	}
	return sum
}
