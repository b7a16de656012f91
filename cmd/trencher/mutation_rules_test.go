package main

import (
	"bytes"
	"cmp"
	"fmt"
	"go/ast"
	"go/build"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// A mutant is one small fault that can be put into a source file: the bytes from
// start to end give way to with. Was and now are the line as it stands and as it
// would read, which together with file and function find it again when lines
// have moved.
type mutant struct {
	kind       string // "comparison", "constant", "dropped", "condition", "arithmetic", "logic", "result"
	file       string // from the root of the module, with slashes
	line       int
	function   string // "Type.Method", the function or the declared name; " #2" for the second that reads alike
	was, now   string
	start, end int
	with       string
	home       *home  // the function it stands in; nil in a declaration of values
	source     string // of the whole file, which may change while mutants are tried
}

func (m mutant) String() string {
	return fmt.Sprintf("%s:%d: in %s: %s  →  %s", m.file, m.line, m.function, m.was, m.now)
}

// mutantsOf lists every mutant of one package's files that are built on this
// system, tests apart, in order of file and place.
func mutantsOf(root, pkg string) ([]mutant, error) {
	dir := filepath.Join(root, filepath.FromSlash(pkg))
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	var all []mutant
	for _, entry := range entries {
		name := entry.Name()
		if !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			continue
		}
		if built, err := build.Default.MatchFile(dir, name); err != nil || !built {
			continue
		}
		source, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			return nil, err
		}
		found, err := mutantsIn(pkg+"/"+name, source)
		if err != nil {
			return nil, err
		}
		all = append(all, found...)
	}
	return all, nil
}

// A finder walks one file and notes what could be changed in it.
type finder struct {
	name     string
	source   []byte
	whole    string // source
	file     *token.File
	function string
	home     *home
	found    []mutant
}

func mutantsIn(name string, source []byte) ([]mutant, error) {
	files := token.NewFileSet()
	tree, err := parser.ParseFile(files, name, source, parser.ParseComments|parser.SkipObjectResolution)
	if err != nil || ast.IsGenerated(tree) {
		return nil, err
	}
	f := &finder{name: name, source: source, whole: string(source), file: files.File(tree.FileStart)}
	for _, declaration := range tree.Decls {
		switch declaration := declaration.(type) {
		case *ast.FuncDecl:
			f.function, f.home = functionName(declaration), f.homeOf(declaration)
			f.walk(declaration, nil)
		case *ast.GenDecl:
			f.home = nil
			for _, spec := range declaration.Specs {
				if values, ok := spec.(*ast.ValueSpec); ok {
					f.function = values.Names[0].Name
					f.walk(values, nil)
				}
			}
		}
	}
	slices.SortStableFunc(f.found, func(a, b mutant) int { return cmp.Compare(a.start, b.start) })
	numberTwins(f.found)
	return f.found, nil
}

func functionName(declaration *ast.FuncDecl) string {
	if declaration.Recv == nil {
		return declaration.Name.Name
	}
	receiver := declaration.Recv.List[0].Type
	if star, ok := receiver.(*ast.StarExpr); ok {
		receiver = star.X
	}
	if generic, ok := receiver.(*ast.IndexExpr); ok {
		receiver = generic.X
	}
	if name, ok := receiver.(*ast.Ident); ok {
		return name.Name + "." + declaration.Name.Name
	}
	return declaration.Name.Name
}

// numberTwins tells mutants apart that read alike within one function.
func numberTwins(all []mutant) {
	seen := map[[3]string]int{}
	for i, m := range all {
		key := [3]string{m.function, m.was, m.now}
		seen[key]++
		if seen[key] > 1 {
			all[i].function = fmt.Sprintf("%s #%d", m.function, seen[key])
		}
	}
}

func (f *finder) walk(root ast.Node, above []ast.Node) {
	ast.PreorderStack(root, above, func(node ast.Node, above []ast.Node) bool {
		switch node := node.(type) {
		case *ast.BinaryExpr:
			f.operator(node)
		case *ast.BasicLit:
			f.constant(node)
		case *ast.CallExpr:
			return !f.roomOnly(node, above)
		case *ast.ArrayType:
			return node.Len == nil // a length is a size of memory, no rule of the garden
		case *ast.IfStmt:
			f.condition(node.Cond)
		case *ast.ForStmt:
			f.condition(node.Cond)
		case *ast.AssignStmt:
			f.assignment(node)
		case *ast.BranchStmt:
			f.branch(node)
		case *ast.ReturnStmt:
			f.results(node, above)
			if unseen := f.besideError(node, f.resultTypes(above), above); unseen > 0 {
				for _, value := range node.Results[unseen:] {
					f.walk(value, append(slices.Clip(above), node))
				}
				return false
			}
		case *ast.BlockStmt:
			f.dropped(node.List)
		case *ast.CommClause:
			f.dropped(node.Body)
		case *ast.CaseClause:
			f.dropped(node.Body)
			if len(above) > 1 && tagless(above[len(above)-2]) {
				for _, condition := range node.List {
					f.condition(condition)
				}
			}
		}
		return true
	})
}

// tagless reports a switch without a value: its cases are conditions.
func tagless(node ast.Node) bool {
	choice, ok := node.(*ast.SwitchStmt)
	return ok && choice.Tag == nil
}

// roomOnly reports a call with sizes that change no result: room kept free by
// make or Grow, the bits that strconv.ParseFloat reads, where all but 32 is 64, or
// how many finds of a pattern are wanted where that is below nought. What does
// change a result in it is walked.
func (f *finder) roomOnly(call *ast.CallExpr, above []ast.Node) bool {
	switch f.text(call.Fun) {
	case "strconv.ParseFloat":
		f.walk(call.Args[0], above)
		return true
	case "make":
		_, isMap := call.Args[0].(*ast.MapType)
		if len(call.Args) == 3 {
			f.walk(call.Args[1], above)
		}
		return isMap || len(call.Args) == 3
	}
	last := len(call.Args) - 1
	if method, ok := call.Fun.(*ast.SelectorExpr); ok && strings.HasPrefix(method.Sel.Name, "FindAll") && f.text(call.Args[last]) == "-1" {
		for _, argument := range append([]ast.Expr{method.X}, call.Args[:last]...) {
			f.walk(argument, append(slices.Clip(above), call))
		}
		return true
	}
	return isRoom(call)
}

func (f *finder) offset(at token.Pos) int { return f.file.Offset(at) }

func (f *finder) text(node ast.Node) string {
	return string(f.source[f.offset(node.Pos()):f.offset(node.End())])
}

// replace notes a mutant that puts with in the place of what stands from start
// to end, and that reads so.
func (f *finder) replace(kind string, from, to token.Pos, with string) {
	start, end := f.offset(from), f.offset(to)
	begin, stop := f.lineOf(start, end)
	now := string(f.source[begin:start]) + with + string(f.source[end:stop])
	f.add(kind, start, end, with, now)
}

// add notes a mutant whose line reads as now.
func (f *finder) add(kind string, start, end int, with, now string) {
	begin, stop := f.lineOf(start, end)
	f.found = append(f.found, mutant{
		kind: kind, file: f.name, line: f.file.Line(f.file.Pos(start)), function: f.function,
		was: oneLine(string(f.source[begin:stop])), now: oneLine(now),
		start: start, end: end, with: with, home: f.home, source: f.whole,
	})
}

// lineOf gives the bounds of the lines on which start and end stand.
func (f *finder) lineOf(start, end int) (begin, stop int) {
	begin = bytes.LastIndexByte(f.source[:start], '\n') + 1
	stop = len(f.source)
	if at := bytes.IndexByte(f.source[end:], '\n'); at >= 0 {
		stop = end + at
	}
	return begin, stop
}

// oneLine is the first line of a text, with a mark where more follows.
func oneLine(text string) string {
	first, rest, more := strings.Cut(strings.TrimSpace(text), "\n")
	if more && strings.TrimSpace(rest) != "" {
		return strings.TrimSpace(first) + " …"
	}
	return strings.TrimSpace(first)
}
