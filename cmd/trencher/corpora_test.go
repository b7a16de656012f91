package main

import (
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	wordsOfCase = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)
	hashOfCase  = regexp.MustCompile(`^[0-9a-f]{8,}$`)
)

// A case that a fuzzer once found stays because of what it shows, and is named
// after that: at most ten to a target, and none under the hash it was found by.
func TestFuzzedCasesAreFewAndNamed(t *testing.T) {
	cases := map[string][]string{}
	root := os.DirFS(filepath.Join("..", ".."))
	require.NoError(t, fs.WalkDir(root, ".", func(file string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() && strings.HasPrefix(entry.Name(), ".") && file != "." {
			return fs.SkipDir
		}
		if target := path.Dir(file); !entry.IsDir() && path.Base(path.Dir(target)) == "fuzz" && path.Base(path.Dir(path.Dir(target))) == "testdata" {
			cases[target] = append(cases[target], entry.Name())
		}
		return nil
	}))
	require.NotEmpty(t, cases, "no case was found")
	for target, names := range cases {
		assert.LessOrEqual(t, len(names), 10, "%s has more cases than anybody reads", target)
		var unnamed []string
		for _, name := range names {
			if !wordsOfCase.MatchString(name) || hashOfCase.MatchString(name) {
				unnamed = append(unnamed, name)
			}
		}
		assert.Empty(t, unnamed, "%s: name these after what they show, as empty-name", target)
	}
}
