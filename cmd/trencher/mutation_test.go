package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestMutants puts small faults into packages, one at a time, and counts how
// many the package's own tests notice:
//
//	TRENCHER_MUTATE="recipes/keeping units/strict" go test ./cmd/trencher -run TestMutants -v -count=1 -timeout 0
//
// TRENCHER_MUTATE names the packages, or all. TRENCHER_MUTANTS is how many are
// drawn from each (60), or all; TRENCHER_MUTATE_SEED which (1);
// TRENCHER_MUTATE_JOBS how many are tried at once (one for each processor).
// TRENCHER_MUTATE_AT keeps to the places that hold one of its words, such as
// ready.go or ready.go:120. Those listed in testdata/equivalent-mutants.txt are left out; those that do not
// compile count for nothing.
//
// A package of which less is noticed than its mark asks fails. With
// TRENCHER_MUTATE_GATE=1, as CI runs it on a few mutants of every package, it fails
// only where so little could hardly be chance: see [shownBelow].
func TestMutants(t *testing.T) {
	asked := strings.Fields(os.Getenv("TRENCHER_MUTATE"))
	if len(asked) == 0 {
		t.Skip("tries the tests of other packages for minutes: set TRENCHER_MUTATE; TestMutator tries the mutator itself")
	}
	root, err := filepath.Abs("../..")
	require.NoError(t, err)
	listed, err := readEquivalents("testdata/equivalent-mutants.txt")
	require.NoError(t, err)
	for _, e := range gone(root, listed) {
		t.Errorf("testdata/equivalent-mutants.txt:%d: no line of %s reads so any more: see whether the reason still holds", e.line, e.function)
	}
	if len(asked) == 1 && asked[0] == "all" {
		asked = testedPackages(t)
	}
	want := envNumber(t, "TRENCHER_MUTANTS", 60)
	seed := envNumber(t, "TRENCHER_MUTATE_SEED", 1)
	var tallies []mutationTally
	for _, pkg := range asked {
		t.Run(pkg, func(t *testing.T) {
			all, err := mutantsOf(root, pkg)
			require.NoError(t, err)
			left := at(setAside(all, listed), strings.Fields(os.Getenv("TRENCHER_MUTATE_AT")))
			if len(left) == 0 {
				return
			}
			try := trial{root: root, pkg: pkg, scratch: openFolder(t), atOnce: envNumber(t, "TRENCHER_MUTATE_JOBS", runtime.GOMAXPROCS(0))}
			tally, err := try.run(t.Context(), sampled(left, uint64(seed)), want)
			require.NoError(t, err)
			tallies = append(tallies, tally)
			t.Log(tally.told())
			if os.Getenv("TRENCHER_MUTATE_GATE") != "1" {
				require.GreaterOrEqual(t, tally.share(), markOf(pkg), "too few faults are noticed by the tests of %s", pkg)
			}
		})
	}
	t.Logf("seed %d\n%s", seed, tallyTable(tallies))
	if os.Getenv("TRENCHER_MUTATE_GATE") == "1" {
		for _, fault := range gate(tallies) {
			t.Error(fault)
		}
	}
}

// openFolder is a folder for what is built that anybody may look into: some tests
// go on as another user.
func openFolder(t *testing.T) string {
	dir, err := os.MkdirTemp("", "mutants")
	require.NoError(t, err)
	t.Cleanup(func() { _ = os.RemoveAll(dir) })
	require.NoError(t, os.Chmod(dir, 0o755))
	return dir
}

// at keeps the mutants whose place holds one of the words; all where there is none.
func at(all []mutant, words []string) (kept []mutant) {
	for _, m := range all {
		place := fmt.Sprintf("%s:%d: %s", m.file, m.line, m.function)
		if len(words) == 0 || slices.ContainsFunc(words, func(word string) bool { return strings.Contains(place, word) }) {
			kept = append(kept, m)
		}
	}
	return kept
}

// envNumber reads a whole number from the environment; all is as many as there are.
func envNumber(t *testing.T, name string, otherwise int) int {
	text := os.Getenv(name)
	switch text {
	case "":
		return otherwise
	case "all":
		return int(^uint(0) >> 1)
	}
	number, err := strconv.Atoi(text)
	require.NoError(t, err, name)
	require.Positive(t, number, name)
	return number
}

// testedPackages are the packages of the house that have tests of their own, without
// those that are nothing but a hand for tests (they import testing): a fault there
// fails the tests that use it.
func testedPackages(t *testing.T) (all []string) {
	out, err := exec.Command("go", "list", "-f", `{{if or .TestGoFiles .XTestGoFiles}}{{.ImportPath}} {{.Imports}}{{end}}`, "trencher/...").Output()
	require.NoError(t, err)
	for line := range strings.Lines(string(out)) {
		name, imports, _ := strings.Cut(strings.TrimSpace(line), " ")
		if !slices.Contains(strings.Fields(strings.Trim(imports, "[]")), "testing") {
			all = append(all, strings.TrimPrefix(name, "trencher/"))
		}
	}
	return all
}

const tallyHead = "| package | faults | tried | noticed | never ended | share | mark |\n|---|---|---|---|---|---|---|"

func (t mutationTally) row() string {
	return fmt.Sprintf("| %s | %d | %d | %d | %d | %.1f %% | %s |", t.pkg, t.all, t.tried, t.killed, t.timedOut, t.share(), markTold(t.pkg))
}

func tallyTable(tallies []mutationTally) string {
	lines := []string{tallyHead}
	for _, tally := range tallies {
		lines = append(lines, tally.row())
	}
	return strings.Join(lines, "\n")
}

// told is a package's row with the mutants that no test noticed.
func (t mutationTally) told() string {
	lines := []string{"", tallyTable([]mutationTally{t}), fmt.Sprintf("%d did not compile; in %.0f s; survivors:", t.notBuilt, t.took.Seconds())}
	for _, m := range t.survivors {
		line := "  " + m.String()
		if !m.reached {
			line += "   (no test comes by)"
		}
		lines = append(lines, line)
	}
	return strings.Join(lines, "\n")
}
