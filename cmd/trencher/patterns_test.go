package main

import (
	"go/ast"
	"go/constant"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Patterns are compiled when they are first used, so one that does not compile
// would be met by whoever uses it: here all of them are.
func TestPatternsCompile(t *testing.T) {
	found := 0
	for _, files := range filesByFolder(t) {
		constants := constantTexts(files)
		for _, file := range files {
			ast.Inspect(file, func(n ast.Node) bool {
				call, ok := n.(*ast.CallExpr)
				if !ok || !isCallOf(call, "pattern", "New") {
					return true
				}
				text, ok := textOf(call.Args[0], constants)
				require.True(t, ok, "%s: a pattern is written out, or put together from constants", file.Name.Name)
				_, err := regexp.Compile(text)
				require.NoError(t, err)
				found++
				return true
			})
		}
	}
	require.Greater(t, found, 100)
}

func filesByFolder(t *testing.T) map[string][]*ast.File {
	folders := map[string][]*ast.File{}
	for _, top := range []string{"cmd", "harvest", "recipes", "units"} {
		require.NoError(t, filepath.WalkDir(filepath.Join("..", "..", top), func(path string, entry fs.DirEntry, err error) error {
			if err != nil || filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") {
				return err
			}
			file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
			folders[filepath.Dir(path)] = append(folders[filepath.Dir(path)], file)
			return err
		}))
	}
	return folders
}

// constantTexts are the constants of a package that are texts, by name.
func constantTexts(files []*ast.File) map[string]ast.Expr {
	texts := map[string]ast.Expr{}
	for _, file := range files {
		ast.Inspect(file, func(n ast.Node) bool {
			declared, ok := n.(*ast.GenDecl)
			if !ok || declared.Tok != token.CONST {
				return true
			}
			for _, spec := range declared.Specs {
				for i, value := range spec.(*ast.ValueSpec).Values {
					texts[spec.(*ast.ValueSpec).Names[i].Name] = value
				}
			}
			return false
		})
	}
	return texts
}

func isCallOf(call *ast.CallExpr, room, name string) bool {
	selected, ok := call.Fun.(*ast.SelectorExpr)
	if !ok {
		return false
	}
	of, ok := selected.X.(*ast.Ident)
	return ok && of.Name == room && selected.Sel.Name == name
}

// textOf puts a constant text together.
func textOf(e ast.Expr, constants map[string]ast.Expr) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		return constant.StringVal(constant.MakeFromLiteral(e.Value, e.Kind, 0)), e.Kind == token.STRING
	case *ast.Ident:
		return textOf(constants[e.Name], constants)
	case *ast.BinaryExpr:
		left, ok1 := textOf(e.X, constants)
		right, ok2 := textOf(e.Y, constants)
		return left + right, e.Op == token.ADD && ok1 && ok2
	}
	return "", false
}
