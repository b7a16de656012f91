package main

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"strconv"
	"strings"
)

// otherOperators gives for each operator what is put in its place. An ordered
// comparison is moved by its edge and turned round; a plain one is negated.
var otherOperators = map[token.Token]struct {
	kind string
	with []token.Token
}{
	token.LSS:  {"comparison", []token.Token{token.LEQ, token.GEQ}},
	token.LEQ:  {"comparison", []token.Token{token.LSS, token.GTR}},
	token.GTR:  {"comparison", []token.Token{token.GEQ, token.LEQ}},
	token.GEQ:  {"comparison", []token.Token{token.GTR, token.LSS}},
	token.EQL:  {"comparison", []token.Token{token.NEQ}},
	token.NEQ:  {"comparison", []token.Token{token.EQL}},
	token.LAND: {"logic", []token.Token{token.LOR}},
	token.LOR:  {"logic", []token.Token{token.LAND}},
	token.ADD:  {"arithmetic", []token.Token{token.SUB}},
	token.SUB:  {"arithmetic", []token.Token{token.ADD}},
	token.MUL:  {"arithmetic", []token.Token{token.QUO}},
	token.QUO:  {"arithmetic", []token.Token{token.MUL}},

	token.ADD_ASSIGN: {"arithmetic", []token.Token{token.SUB_ASSIGN}},
	token.SUB_ASSIGN: {"arithmetic", []token.Token{token.ADD_ASSIGN}},
	token.MUL_ASSIGN: {"arithmetic", []token.Token{token.QUO_ASSIGN}},
	token.QUO_ASSIGN: {"arithmetic", []token.Token{token.MUL_ASSIGN}},
}

func (f *finder) operator(node *ast.BinaryExpr) {
	if !joinsText(node) {
		f.swap(node.OpPos, node.Op)
	}
}

func (f *finder) assignment(node *ast.AssignStmt) {
	if !joinsText(node.Rhs[0]) {
		f.swap(node.TokPos, node.Tok)
	}
}

func (f *finder) swap(at token.Pos, operator token.Token) {
	other := otherOperators[operator]
	for _, with := range other.with {
		f.replace(other.kind, at, at+token.Pos(len(operator.String())), with.String())
	}
}

// joinsText reports a sum with a written text in it: texts cannot be subtracted.
func joinsText(node ast.Expr) bool {
	switch node := node.(type) {
	case *ast.BasicLit:
		return node.Kind == token.STRING
	case *ast.BinaryExpr:
		return node.Op == token.ADD && (joinsText(node.X) || joinsText(node.Y))
	}
	return false
}

// constant moves a whole number by one and any other by a tenth, up and down.
func (f *finder) constant(node *ast.BasicLit) {
	value := constant.MakeFromLiteral(node.Value, node.Kind, 0)
	switch node.Kind {
	case token.INT:
		for _, operator := range []token.Token{token.ADD, token.SUB} {
			moved := constant.BinaryOp(value, operator, constant.MakeInt64(1))
			f.replace("constant", node.Pos(), node.End(), wholeText(moved, node.Value))
		}
	case token.FLOAT:
		number, _ := constant.Float64Val(value)
		if number == 0 {
			f.replace("constant", node.Pos(), node.End(), "0.1")
			return
		}
		for _, factor := range []float64{1.1, 0.9} {
			f.replace("constant", node.Pos(), node.End(), floatText(number*factor))
		}
	}
}

// wholeText writes a whole number in octal where it was; below nought in brackets,
// so that a sign before it stays a sign of its own.
func wholeText(moved constant.Value, was string) string {
	number, exact := constant.Int64Val(moved)
	switch {
	case number < 0:
		return fmt.Sprintf("(%d)", number)
	case exact && strings.HasPrefix(was, "0o"):
		return fmt.Sprintf("%O", number)
	}
	return moved.ExactString()
}

// floatText writes a number so that it stays no integer constant.
func floatText(number float64) string {
	text := strconv.FormatFloat(number, 'g', 8, 64)
	if !strings.ContainsAny(text, ".e") {
		text += ".0"
	}
	return text
}

// condition negates what decides; a single comparison is turned round by
// operator already.
func (f *finder) condition(node ast.Expr) {
	if node == nil {
		return
	}
	if comparison, ok := ast.Unparen(node).(*ast.BinaryExpr); ok && otherOperators[comparison.Op].kind == "comparison" {
		return
	}
	if not, ok := node.(*ast.UnaryExpr); ok && not.Op == token.NOT {
		f.replace("condition", node.Pos(), node.End(), f.text(not.X))
		return
	}
	f.replace("condition", node.Pos(), node.End(), "!("+f.text(node)+")")
}

func (f *finder) branch(node *ast.BranchStmt) {
	switch node.Tok {
	case token.CONTINUE:
		f.replace("dropped", node.Pos(), node.Pos()+token.Pos(len("continue")), "break")
	case token.BREAK:
		f.replace("dropped", node.Pos(), node.Pos()+token.Pos(len("break")), "continue")
	}
}

// dropped leaves out one statement after the other. It stays in the file under
// an `if false`, so that nothing is declared without use. Deferred calls stay:
// what they close would show only as a leak; so do panics, which guard against
// our own slips alone.
func (f *finder) dropped(statements []ast.Stmt) {
	for _, statement := range statements {
		switch statement := statement.(type) {
		case *ast.AssignStmt:
			if statement.Tok == token.DEFINE || allBlank(statement.Lhs) {
				continue
			}
		case *ast.IncDecStmt:
		case *ast.ExprStmt:
			if call, ok := statement.X.(*ast.CallExpr); !ok || isPanic(call) || isRoom(call) {
				continue
			}
		default:
			continue
		}
		start, end := f.offset(statement.Pos()), f.offset(statement.End())
		f.add("dropped", start, end, "if false { "+f.text(statement)+" }", "(dropped)")
	}
}

// isRoom reports a call that only makes room beforehand.
func isRoom(call *ast.CallExpr) bool {
	method, ok := call.Fun.(*ast.SelectorExpr)
	return ok && method.Sel.Name == "Grow"
}

func allBlank(names []ast.Expr) bool {
	for _, name := range names {
		if ident, ok := name.(*ast.Ident); !ok || ident.Name != "_" {
			return false
		}
	}
	return true
}

func isPanic(call *ast.CallExpr) bool {
	name, ok := call.Fun.(*ast.Ident)
	return ok && name.Name == "panic"
}

// results gives back a zero in the place of each value that is none as written.
// The true return stays behind it, so that nothing is declared without use.
func (f *finder) results(node *ast.ReturnStmt, above []ast.Node) {
	types := f.resultTypes(above)
	switch {
	case len(node.Results) == len(types):
		unseen := f.besideError(node, types, above)
		for i, value := range node.Results {
			if !plainlyZero(value) && i >= unseen {
				f.resultZero(node, types, i, i+1)
			}
		}
	case len(node.Results) == 1: // return f(), several values at once
		f.resultZero(node, types, 0, len(types))
	}
}

func (f *finder) resultZero(node *ast.ReturnStmt, types []string, from, to int) {
	var code, shown []string
	for i, typ := range types {
		if from <= i && i < to {
			code, shown = append(code, "*new("+typ+")"), append(shown, "zero")
			continue
		}
		value := f.text(node.Results[i])
		code, shown = append(code, value), append(shown, value)
	}
	f.add("result", f.offset(node.Pos()), f.offset(node.End()),
		"if true { return "+strings.Join(code, ", ")+" }; "+f.text(node), "return "+strings.Join(shown, ", "))
}

// besideError is how many of the values given back stand beside an error that is
// surely there: by Go's custom nobody looks at them, so that a fault in them is
// none.
func (f *finder) besideError(node *ast.ReturnStmt, types []string, above []ast.Node) int {
	last := len(types) - 1
	if last < 1 || len(node.Results) != len(types) || types[last] != "error" {
		return 0
	}
	switch value := node.Results[last].(type) {
	case *ast.UnaryExpr: // &FieldError{…}
		return last
	case *ast.CallExpr:
		if made := f.text(value.Fun); made == "fmt.Errorf" || made == "errors.New" || made == "units.WrongField" {
			return last
		}
	case *ast.Ident:
		if f.foundWrong(value.Name, above) {
			return last
		}
	}
	return 0
}

// foundWrong reports that the innermost block is that of `if err != nil`, by
// whatever name.
func (f *finder) foundWrong(name string, above []ast.Node) bool {
	for i := len(above) - 1; i >= 0; i-- {
		switch node := above[i].(type) {
		case *ast.BlockStmt:
			continue
		case *ast.IfStmt:
			return f.text(node.Cond) == name+" != nil" && above[i+1] == ast.Node(node.Body)
		case *ast.CaseClause:
			return len(node.List) == 1 && f.text(node.List[0]) == name+" != nil"
		default:
			return false
		}
	}
	return false
}

// resultTypes are the types the innermost function gives back, as written.
func (f *finder) resultTypes(above []ast.Node) (types []string) {
	for i := len(above) - 1; i >= 0; i-- {
		var signature *ast.FuncType
		switch function := above[i].(type) {
		case *ast.FuncDecl:
			signature = function.Type
		case *ast.FuncLit:
			signature = function.Type
		default:
			continue
		}
		if signature.Results == nil {
			return nil
		}
		for _, field := range signature.Results.List {
			for range max(1, len(field.Names)) {
				types = append(types, f.text(field.Type))
			}
		}
		return types
	}
	return nil
}

func plainlyZero(value ast.Expr) bool {
	switch value := value.(type) {
	case *ast.Ident:
		return value.Name == "nil" || value.Name == "false"
	case *ast.BasicLit:
		return value.Value == "0" || value.Value == `""` || value.Value == "``"
	case *ast.CompositeLit:
		_, isMap := value.Type.(*ast.MapType)
		return len(value.Elts) == 0 && !isMap
	}
	return false
}
