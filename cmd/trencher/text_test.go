package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestNoDecisionRestsOnDisplayedText reads the source: what a person is shown is
// words, made once, at the end. A rule that cuts, searches or compares them
// breaks when somebody mends a sentence.
func TestNoDecisionRestsOnDisplayedText(t *testing.T) {
	left := slices.Clone(textDecisionsAllowed)
	for _, found := range textDecisions(t) {
		at := slices.IndexFunc(left, func(a textAllowed) bool { return a.function == found.function && a.code == found.code })
		if at < 0 {
			t.Errorf("%s: in %s: %s decides by words a person is shown: give it a field of its own", found.place, found.function, found.code)
			continue
		}
		left = slices.Delete(left, at, at+1)
	}
	for _, allowed := range left {
		t.Errorf("%s: %s is there no more: strike it from textDecisionsAllowed", allowed.function, allowed.code)
	}
}

// A textDecision is a place where code looks into words a person is shown.
type textDecision struct{ place, function, code string }

// textDecisions walks every package of the house but render, which makes the words.
func textDecisions(t *testing.T) (all []textDecision) {
	packages := housePackages(t)
	for _, p := range packages {
		if p.Standard || !strings.HasPrefix(p.ImportPath, "trencher/") || p.ImportPath == "trencher/cmd/trencher/render" {
			continue
		}
		all = append(all, p.textDecisions(t, packages)...)
	}
	return all
}

// A housePackage is a package as `go list` tells of it: Export is the file in
// which the compiler wrote down its types.
type housePackage struct {
	ImportPath, Dir, Export string
	Standard                bool
	GoFiles                 []string
}

func housePackages(t *testing.T) map[string]housePackage {
	list := exec.Command("go", "list", "-deps", "-export", "-json=ImportPath,Dir,Export,Standard,GoFiles", "trencher/...")
	var faults bytes.Buffer
	list.Stderr = &faults
	out, err := list.Output()
	require.NoError(t, err, faults.String())
	all := map[string]housePackage{}
	for decoder := json.NewDecoder(bytes.NewReader(out)); ; {
		var p housePackage
		if err := decoder.Decode(&p); errors.Is(err, io.EOF) {
			return all
		} else {
			require.NoError(t, err)
		}
		all[p.ImportPath] = p
	}
}

func (p housePackage) textDecisions(t *testing.T, known map[string]housePackage) []textDecision {
	files := token.NewFileSet()
	var trees []*ast.File
	for _, name := range p.GoFiles {
		tree, err := parser.ParseFile(files, filepath.Join(p.Dir, name), nil, parser.SkipObjectResolution)
		require.NoError(t, err)
		trees = append(trees, tree)
	}
	return decisionsIn(t, p.ImportPath, files, trees, func(path string) (io.ReadCloser, error) {
		return os.Open(known[path].Export)
	})
}

// textAllowed is a place where words are looked into for now, or for good, and
// why. The list only shrinks: one that is there no more fails.
type textAllowed struct{ function, code, why string }

var textDecisionsAllowed = []textAllowed{
	// For good.
	{"Reader.syntax", `strings.TrimPrefix(err.Error(), "yaml: ")`, "the library for YAML tells its line in words alone"},
	{"Reader.syntax", `syntaxLine.FindStringSubmatch(err.Error())`, "the library for YAML tells its line in words alone"},
	{"Line.again", `aboutInBracket.MatchString(l.Text)`, "a recipe is in words: its writer's are read here, none of ours"},
	{"Line.settle", `strings.Contains(" "+l.Text+" ", " each ")`, "a recipe is in words: its writer's are read here, none of ours"},
	{"Line.wholePacks", `strings.Index(l.Text, "(")`, "a recipe is in words: its writer's are read here, none of ours"},
	{"Line.wholePacks", `strings.Index(l.Text, l.Item)`, "a recipe is in words: its writer's are read here, none of ours"},
	{"importer.readDish", `d.cooking.How != "raw"`, "a recipe is in words: its writer's are read here, none of ours"},
	{"importer.readCooking", `c.How == "boil"`, "a recipe is in words: its writer's are read here, none of ours"},
	{"importer.readCooking", `c.How == "blanch"`, "a recipe is in words: its writer's are read here, none of ours"},
	{"importer.readCooking", `c.How == "own"`, "a recipe is in words: its writer's are read here, none of ours"},
	{"cookWord", `c.How == "own"`, "a recipe is in words: its writer's are read here, none of ours"},
	{"cropDraft.saysMore", `strings.FieldsFunc(strings.ReplaceAll(said, " and ", ","), func(c rune) bool { return c == ',' || c == ';' })`, "a recipe is in words: its writer's are read here, none of ours"},
	{"cropDraft.saysMore", `strings.ReplaceAll(said, " and ", ",")`, "a recipe is in words: its writer's are read here, none of ours"},
	{"cropDraft.saysMore", `strings.Fields(phrase)`, "a recipe is in words: its writer's are read here, none of ours"},
	{"importer.ownLines", `stated[line.Text]`, "a recipe is in words: its writer's are read here, none of ours"},
	{"importer.ownLines", `stated[line.Text]`, "a recipe is in words: its writer's are read here, none of ours"},
	{"dishWriter.crop", `d.cooking.How == "raw"`, "a recipe is in words: its writer's are read here, none of ours"},
	{"dishWriter.cooking", `c.How`, "a recipe is in words: its writer's are read here, none of ours"},

	// Until they have a field of their own.
	{"Problem.with", `"\x00"`, "a lot that is not there has an id nobody writes"},
}
