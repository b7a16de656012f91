package main

import (
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// rooms gives, for every package of the house, the packages of the house it
// may import. The order is the one direction arrows may take.
var rooms = []struct {
	name string
	may  []string
}{
	{"units/pattern", nil},
	{"units/parallel", nil},
	{"units/sorted", nil},
	{"units/spelled", nil}, // for tests alone
	{"units/literal", nil}, // for tests alone
	{"units", []string{"units/pattern"}},
	{"units/strict", []string{"units", "units/pattern"}},
	{"units/charset", []string{"units", "units/pattern", "units/strict"}},
	{"units/measures", []string{"units", "units/pattern", "units/sorted", "units/strict"}},
	{"harvest", []string{"units", "units/pattern", "units/strict", "units/measures"}},
	{"harvest/tables", []string{"units", "units/pattern", "units/strict", "units/measures", "harvest"}},
	{"harvest/journal", []string{"units", "units/pattern", "units/parallel", "units/strict", "units/charset", "harvest", "harvest/tables"}},
	{"recipes/heat", []string{"units", "units/strict", "units/measures"}},
	{"recipes/keeping", []string{"units", "units/pattern", "units/sorted", "units/strict", "units/measures"}},
	{"recipes/saved", []string{"units", "units/pattern", "units/strict", "units/charset"}},
	{"recipes", []string{"units", "units/pattern", "units/parallel", "units/sorted", "units/strict", "units/measures", "recipes/heat", "recipes/saved"}},
	{"recipes/planner/integer", nil},
	{"recipes/planner", []string{"units", "recipes/planner/integer"}},
	{"recipes/schedule", nil},
	{"recipes/meal", []string{"units", "units/parallel", "units/measures", "harvest", "recipes", "recipes/heat", "recipes/keeping", "recipes/planner", "recipes/schedule"}},
	{"cmd/trencher/demo", nil},
	{"cmd/trencher/talk", nil},
	{"cmd/trencher/ask", []string{"units", "units/strict", "units/measures", "harvest", "harvest/tables", "harvest/journal",
		"recipes", "recipes/heat", "recipes/keeping", "recipes/meal", "cmd/trencher/demo"}},
	{"cmd/trencher/render", []string{"units", "units/strict", "units/measures", "harvest", "harvest/tables", "harvest/journal", "recipes",
		"recipes/heat", "recipes/keeping", "recipes/planner", "recipes/schedule", "recipes/meal", "cmd/trencher/ask", "cmd/trencher/demo"}},
	{"cmd/trencher/page", []string{"units", "units/pattern", "units/strict", "harvest", "harvest/journal", "recipes", "recipes/heat",
		"recipes/keeping", "recipes/meal", "cmd/trencher/ask", "cmd/trencher/render"}},
	{"cmd/trencher/webdriver", nil}, // for tests alone
	{"cmd/trencher/pocket", []string{"units", "harvest/journal", "cmd/trencher/page"}},
	{"cmd/trencher/pocket/make", []string{"cmd/trencher/pocket"}},
	{"cmd/trencher", []string{"units", "units/strict", "units/charset", "harvest", "harvest/tables", "harvest/journal", "recipes", "recipes/saved", "recipes/heat", "recipes/keeping", "recipes/meal", "cmd/trencher/demo", "cmd/trencher/ask",
		"cmd/trencher/render", "cmd/trencher/talk", "cmd/trencher/page", "cmd/trencher/pocket"}},
}

func TestArrowsPointOneWay(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}}: {{join .Imports " "}}`, "trencher/...").Output()
	require.NoError(t, err)
	for line := range strings.Lines(string(out)) {
		from, imports, _ := strings.Cut(strings.TrimSpace(line), ":")
		from = strings.TrimPrefix(from, "trencher/")
		at := slices.IndexFunc(rooms, func(room struct {
			name string
			may  []string
		}) bool {
			return room.name == from
		})
		require.GreaterOrEqual(t, at, 0, "package %s has no place in the house", from)
		for _, to := range strings.Fields(imports) {
			if to, ours := strings.CutPrefix(to, "trencher/"); ours {
				require.Contains(t, rooms[at].may, to, "%s may not import %s", from, to)
			}
		}
	}
}

func TestTopLevelIsTheTableOfContents(t *testing.T) {
	want := []string{"cmd", "harvest", "recipes", "units", "testdata", "go.mod", "go.sum", "README.md", "DEVELOPERS.md"}
	entries, err := os.ReadDir("../..")
	require.NoError(t, err)
	for _, entry := range entries {
		if !strings.HasPrefix(entry.Name(), ".") {
			require.Contains(t, want, entry.Name())
		}
	}
}

// DEVELOPERS.md names only tests and files that are there, and every benchmark
// and fuzz target.
func TestGuideNamesWhatIsThere(t *testing.T) {
	guide, err := os.ReadFile("../../DEVELOPERS.md")
	require.NoError(t, err)
	var tests strings.Builder
	for _, dir := range []string{"cmd", "harvest", "recipes", "units"} {
		require.NoError(t, filepath.WalkDir("../../"+dir, func(path string, entry fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, "_test.go") {
				return err
			}
			data, err := os.ReadFile(path)
			tests.Write(data)
			return err
		}))
	}
	names := regexp.MustCompile(`\b(?:Test|Fuzz|Benchmark)[A-Z]\w+`).FindAllString(string(guide), -1)
	require.Greater(t, len(names), 40)
	for _, name := range names {
		require.True(t, strings.Contains(tests.String(), "func "+name+"("), "DEVELOPERS.md: %s is no test any more", name)
	}
	for _, search := range regexp.MustCompile(`func (?:Benchmark|Fuzz)(\w+)\(`).FindAllStringSubmatch(tests.String(), -1) {
		require.True(t, strings.Contains(string(guide), search[1]), "DEVELOPERS.md leaves a benchmark or a fuzz target out: %s", search[1])
	}
	files := regexp.MustCompile(`\b(?:cmd|harvest|recipes|units|testdata)/[\w/.-]+\.(?:go|csv|yaml|json|txt)\b`).FindAllString(string(guide), -1)
	require.Greater(t, len(files), 25)
	for _, file := range files {
		if strings.Contains(file, "NAME") {
			continue
		}
		_, err := os.Stat("../../" + file)
		require.NoError(t, err)
	}
}
