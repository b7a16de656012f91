package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// hardest is how hard a function may be to follow, by the measure of [hardness].
const hardest = 14

// TestNoFunctionIsHardToFollow keeps functions at a length and depth that a
// newcomer can hold in mind.
func TestNoFunctionIsHardToFollow(t *testing.T) {
	for place, hard := range hardFunctions(t, "../..") {
		assert.LessOrEqual(t, hard, hardest, "%s: split it into parts that each do one thing", place)
	}
}

// hardFunctions measures all functions of the module that are not tests, and gives
// those that are too hard.
func hardFunctions(t *testing.T, root string) map[string]int {
	found := map[string]int{}
	err := filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		folder, _ := filepath.Rel(root, filepath.Dir(path))
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Body != nil && hardness(f.Body) > hardest {
				found[filepath.ToSlash(folder)+" "+nameOf(f)] = hardness(f.Body)
			}
		}
		return nil
	})
	require.NoError(t, err)
	return found
}

// nameOf is "(*T).f" of a method, and "f" of a function.
func nameOf(f *ast.FuncDecl) string {
	if f.Recv == nil {
		return f.Name.Name
	}
	switch of := f.Recv.List[0].Type.(type) {
	case *ast.StarExpr:
		return "(*" + baseName(of.X) + ")." + f.Name.Name
	default:
		return "(" + baseName(of) + ")." + f.Name.Name
	}
}

func baseName(of ast.Expr) string {
	switch of := of.(type) {
	case *ast.Ident:
		return of.Name
	case *ast.IndexExpr:
		return baseName(of.X)
	}
	return "?"
}

// hardness counts what breaks the flow of a function: each branch and loop one, and
// one more for every branch, loop or function it stands in; each else, each jump to
// a label and each run of && or of || one (cognitive complexity, G. A. Campbell,
// 2018; known_by: memory).
func hardness(body *ast.BlockStmt) int {
	h := &hard{}
	ast.Walk(hardAt{h, 0}, body)
	return h.sum
}

type hard struct{ sum int }

// hardAt walks what stands so deep.
type hardAt struct {
	*hard
	depth int
}

func (h hardAt) Visit(n ast.Node) ast.Visitor {
	switch n := n.(type) {
	case *ast.IfStmt:
		h.sum += 1 + h.depth
		h.branch(n)
		return nil
	case *ast.ForStmt, *ast.RangeStmt, *ast.SwitchStmt, *ast.TypeSwitchStmt, *ast.SelectStmt:
		h.sum += 1 + h.depth
		return hardAt{h.hard, h.depth + 1}
	case *ast.FuncLit:
		return hardAt{h.hard, h.depth + 1}
	case *ast.BranchStmt:
		if n.Label != nil {
			h.sum++
		}
	case *ast.BinaryExpr:
		if n.Op == token.LAND || n.Op == token.LOR {
			h.sum += runs(n, token.ILLEGAL)
			return nil
		}
	}
	return h
}

// branch walks an if that is counted, and what it has of else.
func (h hardAt) branch(n *ast.IfStmt) {
	if n.Init != nil {
		ast.Walk(h, n.Init)
	}
	ast.Walk(h, n.Cond)
	ast.Walk(hardAt{h.hard, h.depth + 1}, n.Body)
	switch other := n.Else.(type) {
	case *ast.IfStmt:
		h.sum++
		h.branch(other)
	case *ast.BlockStmt:
		h.sum++
		ast.Walk(hardAt{h.hard, h.depth + 1}, other)
	}
}

// runs counts the runs of one logical operator in an expression that stands beside
// another.
func runs(e ast.Expr, beside token.Token) int {
	switch e := e.(type) {
	case *ast.ParenExpr:
		return runs(e.X, token.ILLEGAL)
	case *ast.UnaryExpr:
		return runs(e.X, token.ILLEGAL)
	case *ast.BinaryExpr:
		if e.Op != token.LAND && e.Op != token.LOR {
			return 0
		}
		own := 1
		if e.Op == beside {
			own = 0
		}
		return own + runs(e.X, e.Op) + runs(e.Y, e.Op)
	}
	return 0
}

func TestHardness(t *testing.T) {
	for source, want := range map[string]int{
		`return`:                 0,
		`if a { b() }`:           1,
		`if a && b && c { b() }`: 2,
		`if a && b || c { b() }`: 3,
		`if a { b() } else if c { d() } else { e() }`:  3,
		`for range x { if a { b() } }`:                 3,
		`for range x { for range y { if a { b() } } }`: 6,
		`switch a { case 1: b(); case 2: c() }`:        1,
		`for { switch a { case 1: if b { c() } } }`:    6,
		`f(func() { if a { b() } })`:                   2,
		`l: for { for { continue l } }`:                4,
		`return a && !(b && c)`:                        2,
	} {
		file, err := parser.ParseFile(token.NewFileSet(), "", "package p; func f() { "+source+" }", parser.SkipObjectResolution)
		require.NoError(t, err, source)
		assert.Equal(t, want, hardness(file.Decls[0].(*ast.FuncDecl).Body), source)
	}
}
