package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

// The reader of the source sees each way of looking into words, and lets alone
// what only asks whether there are any, or looks into something else.
func TestTextReader(t *testing.T) {
	const before = `package sample

import ("errors"; "fmt"; "regexp"; "slices"; "strings")

type kind string
type step struct{ Do, ID string; Reason kind; Says []string }
func (s step) String() string { return s.Do }
type fault struct{ Problem string }
func (f fault) Error() string { return f.Problem }
func (f *fault) Hint() string { return f.Problem }
func (f *fault) String() string { return f.Problem }
var pattern = regexp.MustCompile("a")
var seen map[string]int
var _, _, _, _ = errors.New, fmt.Sprint, slices.Index[[]int], strings.Cut

func look(s step, f *fault, err error) bool {
`
	rows := []struct {
		code string
		want string // the place found, or ""
	}{
		{`return strings.HasPrefix(s.Do, "Put ")`, `strings.HasPrefix(s.Do, "Put ")`},
		{`return strings.Contains(strings.ToLower(s.Do), "put")`, `strings.Contains(strings.ToLower(s.Do), "put")`},
		{`first, _, _ := strings.Cut(s.Do, " "); return first != ""`, `strings.Cut(s.Do, " ")`},
		{`text := s.Do + "."; return text == "Put."`, `text == "Put."`},
		{`var text = fmt.Sprint(s.Do); words := text[1:]; return "ut" != (words)`, `"ut" != (words)`},
		{`return kind(s.Do) == "Put" && string(s.Do) == "Put"`, `string(s.Do) == "Put"`},
		{`for word := range strings.SplitSeq(s.Do, " ") { _ = word }; return false`, `strings.SplitSeq(s.Do, " ")`},
		{`for _, each := range s.Says { if each == "x" { return true } }; return false`, `each == "x"`},
		{`return slices.ContainsFunc(s.Says, func(each string) bool { return each == "x" })`, `each == "x"`},
		{`return slices.Contains(s.Says, s.ID)`, `slices.Contains(s.Says, s.ID)`},
		{`return pattern.MatchString(s.Do)`, `pattern.MatchString(s.Do)`},
		{`found, _ := regexp.MatchString("a", s.Do); return found`, `regexp.MatchString("a", s.Do)`},
		{`return err.Error() == "a"`, `err.Error() == "a"`},
		{`return strings.TrimPrefix(f.Hint(), "write ") == s.ID`, `strings.TrimPrefix(f.Hint(), "write ")`},
		{`return f.String() == "a"`, `f.String() == "a"`},
		{`switch s.Do { case "Put": return true }; return false`, `s.Do`},
		{`return seen[s.Do] > 0`, `seen[s.Do]`},
		{`return s.ID + "\x00" + s.ID == ""`, `"\x00"`},

		{`return s.Do == "" || s.Do != ""`, ""},
		{`return s.ID == "a" || strings.HasPrefix(s.ID, "a") || pattern.MatchString(s.ID)`, ""},
		{`return s.Reason == "late"`, ""},
		{`switch s.Reason { case "late": return true }; return false`, ""},
		{`return s.String() == "a"`, ""},
		{`return errors.Is(err, f) && len(s.Do) > 3`, ""},
		{`text := s.ID; return text == "a"`, ""},
	}
	packages := housePackages(t)
	for _, row := range rows {
		files := token.NewFileSet()
		tree, err := parser.ParseFile(files, "sample.go", before+row.code+"\n}\n", parser.SkipObjectResolution)
		require.NoError(t, err, row.code)
		var got string
		for _, found := range decisionsIn(t, "sample", files, []*ast.File{tree}, func(path string) (io.ReadCloser, error) {
			return os.Open(packages[path].Export)
		}) {
			require.Empty(t, got, row.code)
			require.Equal(t, "look", found.function, row.code)
			got = found.code
		}
		require.Equal(t, row.want, got, row.code)
	}
}
