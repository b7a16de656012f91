package main

import (
	"cmp"
	"fmt"
	"go/ast"
	"maps"
	"slices"
	"strings"
)

// One program of tests carries many mutants, since building is what costs most:
// a copy of the function for each, with the fault in it, stands at the end of its
// file, and the function itself begins by handing on to the copy whose number is
// asked for.
//
//	func Posts(metres, spacing int) int { if mutantIs(7) { return Posts__7(metres, spacing) }; …
//	func Posts__7(metres, spacing int) int { …

// A home is the function in which a mutant stands, as far as copying it needs.
type home struct {
	start, end int     // of the declaration
	named      int     // where its name ends
	body       int     // behind the brace that opens it
	names      []patch // for parameters that have none, so that they can be handed on
	before     string  // "return fence." of the call of a copy: a method's receiver, results
	behind     string  // "__%d(metres, spacing)"
}

// A patch puts text in the place of the bytes from start to end.
type patch struct {
	start, end int
	text       string
}

// homeOf is nil for a declaration without a body.
func (f *finder) homeOf(function *ast.FuncDecl) *home {
	if function.Body == nil {
		return nil
	}
	h := &home{
		start: f.offset(function.Pos()), end: f.offset(function.End()),
		named: f.offset(function.Name.End()), body: f.offset(function.Body.Lbrace) + 1,
	}
	if function.Type.Results != nil {
		h.before = "return "
	}
	if function.Recv != nil {
		h.before += h.parameters(f, function.Recv, "mutantReceiver")[0] + "."
	}
	h.before += function.Name.Name
	types := ""
	if function.Type.TypeParams != nil {
		types = "[" + strings.Join(h.parameters(f, function.Type.TypeParams, "mutantType"), ", ") + "]"
	}
	h.behind = types + "(" + strings.Join(h.parameters(f, function.Type.Params, "mutantGiven"), ", ") + ")"
	return h
}

// parameters are the names by which a list is handed on, in its order; those that
// have none, or are blank, are given one.
func (h *home) parameters(f *finder, list *ast.FieldList, otherwise string) (names []string) {
	for _, field := range list.List {
		dots := ""
		if _, ok := field.Type.(*ast.Ellipsis); ok {
			dots = "..."
		}
		if len(field.Names) == 0 {
			name, at := fmt.Sprint(otherwise, len(names)), f.offset(field.Type.Pos())
			h.names = append(h.names, patch{at, at, name + " "})
			names = append(names, name+dots)
		}
		for _, ident := range field.Names {
			name := ident.Name
			if name == "_" {
				name = fmt.Sprint(otherwise, len(names))
				h.names = append(h.names, patch{f.offset(ident.Pos()), f.offset(ident.End()), name})
			}
			names = append(names, name+dots)
		}
	}
	return names
}

// copy is the function with the mutant in it, under a name of its own.
func (h *home) copy(m mutant, number int) string {
	source := m.source
	return source[h.start:h.named] + fmt.Sprintf("__%d", number) + source[h.named:m.start] + m.with + source[m.end:h.end]
}

// handOn is what the function begins with.
func (h *home) handOn(number int) string {
	call := fmt.Sprintf("%s__%d%s", h.before, number, h.behind)
	if !strings.HasPrefix(h.before, "return ") {
		call += "; return"
	}
	return fmt.Sprintf(" if mutantIs(%d) { %s };", number, call)
}

// A carried is a file with the copies of its mutants at its end, and on which of
// its lines each of them stands, so that the compiler's refusals find theirs.
type carried struct {
	text  string
	lines map[int][2]int // first and last line, by number of mutant
}

// carry puts mutants of one file, by number, into its source.
func carry(mutants map[int]mutant) carried {
	edits := map[*home][]patch{}
	numbers := slices.Sorted(maps.Keys(mutants))
	source := mutants[numbers[0]].source
	for _, number := range numbers {
		h := mutants[number].home
		if _, met := edits[h]; !met {
			edits[h] = h.names
		}
		edits[h] = append(slices.Clip(edits[h]), patch{h.body, h.body, h.handOn(number)})
	}
	var all []patch
	for _, some := range edits {
		all = append(all, some...)
	}
	slices.SortStableFunc(all, func(a, b patch) int { return cmp.Compare(a.start, b.start) })
	var text strings.Builder
	at := 0
	for _, e := range all {
		text.WriteString(source[at:e.start] + e.text)
		at = e.end
	}
	text.WriteString(source[at:])
	line := 1 + strings.Count(text.String(), "\n")
	lines := map[int][2]int{}
	for _, number := range numbers {
		copied := "\n" + mutants[number].home.copy(mutants[number], number) + "\n"
		first := line + 1
		line += strings.Count(copied, "\n")
		lines[number] = [2]int{first, line}
		text.WriteString(copied)
	}
	return carried{text: text.String(), lines: lines}
}

// mutantSwitch is a file more in the package that is tried. Asked to listen, it
// writes down which mutants' functions were called.
const mutantSwitch = `package %s

import (
	"os"
	"strconv"
	"sync"
)

var (
	mutantAsked, _ = strconv.Atoi(os.Getenv("TRENCHER_MUTANT"))
	mutantsHeardIn = os.Getenv("TRENCHER_MUTANTS_HEARD")
	mutantsHeard   sync.Map
)

func mutantIs(number int) bool {
	if mutantsHeardIn != "" {
		mutantHear(number)
	}
	return number == mutantAsked
}

func mutantHear(number int) {
	if _, known := mutantsHeard.LoadOrStore(number, true); known {
		return
	}
	if file, err := os.OpenFile(mutantsHeardIn, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600); err == nil {
		_, _ = file.WriteString(strconv.Itoa(number) + "\n")
		_ = file.Close()
	}
}
`
