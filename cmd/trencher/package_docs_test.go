package main

import (
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every package begins with a manual: a text of its own and an example that
// runs. Those that nobody calls, the program itself, its page and the demo plot, have
// the README; the browser that tests drive prints nothing.
func TestEveryPackageHasAManual(t *testing.T) {
	list := exec.Command("go", "list", "-json=ImportPath,Name,Dir,Doc,TestGoFiles,XTestGoFiles", "trencher/...")
	out, err := list.Output()
	require.NoError(t, err)
	seen := 0
	for decoder := json.NewDecoder(strings.NewReader(string(out))); ; seen++ {
		var p struct {
			ImportPath, Name, Dir, Doc string
			TestGoFiles, XTestGoFiles  []string
		}
		if err := decoder.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else {
			require.NoError(t, err)
		}
		assert.NotEmpty(t, p.Doc, "%s has no package comment", p.ImportPath)
		if p.Name == "main" || slices.Contains([]string{"page", "demo", "webdriver"}, path.Base(p.ImportPath)) {
			continue
		}
		examples := 0
		for _, name := range slices.Concat(p.TestGoFiles, p.XTestGoFiles) {
			examples += examplesIn(t, filepath.Join(p.Dir, name))
		}
		assert.Positive(t, examples, "%s has no example that shows how it is used", p.ImportPath)
	}
	require.Greater(t, seen, 10, "the packages were not found")
}

// examplesIn counts the examples of a file that say what they print: others are
// compiled and never run.
func examplesIn(t *testing.T, file string) (count int) {
	files := token.NewFileSet()
	tree, err := parser.ParseFile(files, file, nil, parser.ParseComments)
	require.NoError(t, err)
	for _, declaration := range tree.Decls {
		function, ok := declaration.(*ast.FuncDecl)
		if !ok || !strings.HasPrefix(function.Name.Name, "Example") || function.Recv != nil {
			continue
		}
		if slices.ContainsFunc(tree.Comments, func(group *ast.CommentGroup) bool {
			return function.Pos() < group.Pos() && group.End() < function.End() &&
				(strings.HasPrefix(group.Text(), "Output:") || strings.HasPrefix(group.Text(), "Unordered output:"))
		}) {
			count++
		}
	}
	return count
}
