package main

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/importer"
	"go/printer"
	"go/token"
	"go/types"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// shownFields are the fields whose words are there for a person to read.
var shownFields = []string{"Says", "Do", "Text", "Problem", "Accepted", "Head", "Sentence", "Because",
	"Advice", "Note", "Title", "How", "Label", "Reason", "Assumed"}

// shownMethods tell a person something when an error has them.
var shownMethods = []string{"Error", "Hint", "String"}

// wordCuts are the functions that find out what a text says.
var wordCuts = map[string][]string{
	"strings": {"Compare", "Contains", "ContainsAny", "ContainsFunc", "ContainsRune", "Count", "Cut", "CutPrefix", "CutSuffix", "EqualFold",
		"Fields", "FieldsFunc", "HasPrefix", "HasSuffix", "Index", "IndexAny", "IndexByte", "IndexFunc", "IndexRune", "LastIndex",
		"LastIndexByte", "Replace", "ReplaceAll", "Split", "SplitAfter", "SplitN", "SplitSeq", "TrimPrefix", "TrimSuffix"},
	"slices": {"Contains", "Index"},
	"regexp": {"Match", "MatchString"},
}

// decisionsIn checks the types of one package and looks through each declaration.
// Lookup opens what the compiler wrote down of an imported package.
func decisionsIn(t *testing.T, path string, files *token.FileSet, trees []*ast.File, lookup importer.Lookup) (all []textDecision) {
	info := &types.Info{
		Types: map[ast.Expr]types.TypeAndValue{}, Selections: map[*ast.SelectorExpr]*types.Selection{},
		Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{},
	}
	check := types.Config{Importer: importer.ForCompiler(files, "gc", lookup)}
	_, err := check.Check(path, files, trees, info)
	require.NoError(t, err)
	for _, tree := range trees {
		for _, declaration := range tree.Decls {
			reader := textReader{info: info, files: files, holds: map[types.Object]bool{}}
			if function, ok := declaration.(*ast.FuncDecl); ok {
				reader.function = functionName(function)
			}
			reader.follow(declaration)
			ast.Inspect(declaration, reader.look)
			all = append(all, reader.found...)
		}
	}
	return all
}

// A textReader looks through one declaration.
type textReader struct {
	info     *types.Info
	files    *token.FileSet
	function string
	holds    map[types.Object]bool // local names that hold shown words
	found    []textDecision
}

// follow finds the names to which shown words are given, and those to which
// these are given in turn.
func (r *textReader) follow(root ast.Node) {
	for before := -1; before < len(r.holds); {
		before = len(r.holds)
		ast.Inspect(root, func(node ast.Node) bool {
			switch node := node.(type) {
			case *ast.AssignStmt:
				for i, name := range node.Lhs {
					if value := node.Rhs[min(i, len(node.Rhs)-1)]; r.shown(value) {
						r.keep(name)
					}
				}
			case *ast.ValueSpec:
				for i, name := range node.Names {
					if i < len(node.Values) && r.shown(node.Values[i]) {
						r.keep(name)
					}
				}
			case *ast.CallExpr:
				r.followInto(node)
			case *ast.RangeStmt:
				if r.shown(node.X) && node.Value != nil {
					r.keep(node.Value)
				} else if r.shown(node.X) && node.Key != nil { // for line := range strings.SplitSeq(...)
					r.keep(node.Key)
				}
			}
			return true
		})
	}
}

// followInto follows words into a function that slices calls with each of them.
func (r *textReader) followInto(call *ast.CallExpr) {
	if pkg, _ := r.called(call); pkg != "slices" || len(call.Args) < 2 || !r.shown(call.Args[0]) {
		return
	}
	for _, argument := range call.Args[1:] {
		if function, ok := argument.(*ast.FuncLit); ok {
			for _, parameter := range function.Type.Params.List {
				for _, name := range parameter.Names {
					r.keep(name)
				}
			}
		}
	}
}

func (r *textReader) keep(name ast.Expr) {
	ident, ok := name.(*ast.Ident)
	if !ok || ident.Name == "_" {
		return
	}
	object := r.info.Defs[ident]
	if object == nil {
		object = r.info.Uses[ident]
	}
	if isText(object.Type()) {
		r.holds[object] = true
	}
}

// isText reports a string or several. A string type with a name of its own is a
// kind, not words.
func isText(of types.Type) bool {
	switch of := of.(type) {
	case *types.Basic:
		return of.Info()&types.IsString != 0
	case *types.Slice:
		return isText(of.Elem())
	}
	return false
}

// shown reports whether an expression is words a person is shown, or made of such.
func (r *textReader) shown(node ast.Expr) bool {
	switch node := node.(type) {
	case *ast.ParenExpr:
		return r.shown(node.X)
	case *ast.Ident:
		return r.holds[r.info.Uses[node]]
	case *ast.IndexExpr:
		return r.shown(node.X)
	case *ast.SliceExpr:
		return r.shown(node.X)
	case *ast.BinaryExpr:
		return node.Op == token.ADD && (r.shown(node.X) || r.shown(node.Y))
	case *ast.SelectorExpr:
		field, ok := r.info.Selections[node]
		return ok && field.Kind() == types.FieldVal && slices.Contains(shownFields, node.Sel.Name) && isText(field.Type())
	case *ast.CallExpr:
		return r.speaks(node) || r.makesText(node) && slices.ContainsFunc(node.Args, r.shown)
	}
	return false
}

// speaks reports a call of err.Error() and its like.
func (r *textReader) speaks(call *ast.CallExpr) bool {
	method, ok := call.Fun.(*ast.SelectorExpr)
	if !ok || r.info.Selections[method] == nil || !slices.Contains(shownMethods, method.Sel.Name) {
		return false
	}
	fault := types.Universe.Lookup("error").Type().Underlying().(*types.Interface)
	of := r.info.Selections[method].Recv()
	return method.Sel.Name == "Hint" || types.Implements(of, fault) || types.Implements(types.NewPointer(of), fault)
}

// makesText reports a conversion or a call of strings or fmt that gives a text.
func (r *textReader) makesText(call *ast.CallExpr) bool {
	if r.info.Types[call.Fun].IsType() {
		return isText(r.info.Types[call].Type)
	}
	pkg, _ := r.called(call)
	return (pkg == "strings" || pkg == "fmt") && isText(firstOf(r.info.Types[call].Type))
}

func firstOf(of types.Type) types.Type {
	if several, ok := of.(*types.Tuple); ok && several.Len() > 0 {
		return several.At(0).Type()
	}
	return of
}

// called gives the package and the name of the function or method called.
func (r *textReader) called(call *ast.CallExpr) (pkg, name string) {
	selector, ok := call.Fun.(*ast.SelectorExpr)
	if !ok {
		return "", ""
	}
	function := r.info.Uses[selector.Sel]
	if function == nil || function.Pkg() == nil {
		return "", ""
	}
	return function.Pkg().Path(), function.Name()
}

// look notes every place that finds out what shown words say. That a text is
// there at all may be asked.
func (r *textReader) look(node ast.Node) bool {
	switch node := node.(type) {
	case *ast.CallExpr:
		pkg, name := r.called(node)
		_, method := r.info.Selections[asSelector(node.Fun)]
		if (slices.Contains(wordCuts[pkg], name) || isPattern(pkg) && method) && slices.ContainsFunc(node.Args, r.shown) {
			r.note(node)
		}
	case *ast.BinaryExpr:
		if node.Op == token.EQL || node.Op == token.NEQ {
			if r.shown(node.X) && r.written(node.Y) || r.shown(node.Y) && r.written(node.X) {
				r.note(node)
			}
		}
	case *ast.BasicLit:
		if text := r.info.Types[node].Value; node.Kind == token.STRING && text != nil && strings.ContainsFunc(constant.StringVal(text), isMark) {
			r.note(node)
		}
	case *ast.SwitchStmt:
		if node.Tag != nil && r.shown(node.Tag) {
			r.note(node.Tag)
		}
	case *ast.IndexExpr:
		if _, isMap := r.info.Types[node.X].Type.Underlying().(*types.Map); isMap && r.shown(node.Index) {
			r.note(node)
		}
	}
	return true
}

// isMark reports a character that nobody writes: with such values are glued into
// one text, to be cut apart again.
func isMark(c rune) bool { return c < '\t' }

func asSelector(node ast.Expr) *ast.SelectorExpr {
	selector, _ := node.(*ast.SelectorExpr)
	return selector
}

// written reports a text that stands in the source, other than "".
func (r *textReader) written(node ast.Expr) bool {
	value := r.info.Types[node].Value
	return value != nil && value.Kind() == constant.String && constant.StringVal(value) != ""
}

func (r *textReader) note(node ast.Expr) {
	var code strings.Builder
	_ = printer.Fprint(&code, r.files, node)
	at := r.files.Position(node.Pos())
	root, _ := filepath.Abs("../..")
	place, _ := filepath.Rel(root, at.Filename)
	r.found = append(r.found, textDecision{fmt.Sprintf("%s:%d", filepath.ToSlash(place), at.Line), r.function, oneLine(code.String())})
}

// isPattern tells the packages whose methods look into a text.
func isPattern(pkg string) bool { return pkg == "regexp" || pkg == "trencher/units/pattern" }
