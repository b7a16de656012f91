package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The mutator finds in a module of its own exactly the faults that are listed.
func TestMutatorFindsEveryKindOfFault(t *testing.T) {
	var list strings.Builder
	for _, pkg := range []string{"fence", "kinds"} {
		for _, m := range mutantsOfOwnModule(t, pkg) {
			fmt.Fprintf(&list, "%-10s %s\n", m.kind, m)
		}
	}
	const file = "testdata/mutation/expected.txt"
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(list.String()), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, string(want), list.String())
}

// fence.Posts has tests that look closely, fence.Rails one that looks away.
func TestMutatorTellsNoticedFromUnnoticed(t *testing.T) {
	all := mutantsOfOwnModule(t, "fence")
	rails := "in Rails: if posts < 2 {  →  if posts <= 2 {"
	var chosen []mutant
	for _, change := range []string{
		`in Gate: return [...]string{"gate"}[0]  →  return [...]string{"gate"}[1]`, // does not compile: counts for nothing
		"in Posts #2: posts++  →  (dropped)", "in Posts: return posts  →  return zero", rails,
		"in Posts: posts := 1  →  posts := 2", // one more than asked for
	} {
		chosen = append(chosen, mutantReading(t, all, change))
	}
	try := trial{root: ownModule(t), pkg: "fence", scratch: t.TempDir(), atOnce: 2}
	tally, err := try.run(t.Context(), chosen, 3)
	require.NoError(t, err)
	require.Equal(t, 3, tally.tried)
	require.Equal(t, 2, tally.killed)
	require.Equal(t, 1, tally.notBuilt)
	require.InDelta(t, 66.67, tally.share(), 0.01)
	require.Equal(t, []survivor{{mutantReading(t, all, rails), true}}, tally.survivors)
	require.Contains(t, tally.told(), "fence/fence.go:19: "+rails)
}

// Without tests that pass there is nothing to tell a fault by.
func TestMutatorWantsTestsThatPass(t *testing.T) {
	_, err := (&trial{root: ownModule(t), pkg: "kinds", scratch: t.TempDir(), atOnce: 1}).run(t.Context(), mutantsOfOwnModule(t, "kinds"), 1)
	require.EqualError(t, err, "kinds has no tests")
	t.Setenv("MUTATION_FENCE_FALLEN", "1")
	_, err = (&trial{root: ownModule(t), pkg: "fence", scratch: t.TempDir(), atOnce: 1}).run(t.Context(), mutantsOfOwnModule(t, "fence"), 1)
	require.ErrorContains(t, err, "the tests of fence fail as the source stands: exit status 1\n--- FAIL: TestRails")
}

// A package of which nothing can be built has no share.
func TestMutatorWantsSomethingToTry(t *testing.T) {
	broken := mutantReading(t, mutantsOfOwnModule(t, "fence"), `in Gate: return [...]string{"gate"}[0]  →  return [...]string{"gate"}[1]`)
	_, err := (&trial{root: ownModule(t), pkg: "fence", scratch: t.TempDir(), atOnce: 1}).run(t.Context(), []mutant{broken}, 1)
	require.EqualError(t, err, "none of 1 mutants of fence could be built")
}

func TestMutatorDrawsTheSameAgain(t *testing.T) {
	all := mutantsOfOwnModule(t, "kinds")
	require.Equal(t, sampled(all, 3), sampled(all, 3))
	require.NotEqual(t, sampled(all, 3), sampled(all, 4))
	require.ElementsMatch(t, all, sampled(all, 3))
}

// A mutant listed as equivalent is left out wherever its line stands, and a
// listed one that is no more is named.
func TestMutatorKnowsEquivalentMutants(t *testing.T) {
	list := filepath.Join(t.TempDir(), "list.txt")
	write := func(text string) ([]equivalent, error) {
		require.NoError(t, os.WriteFile(list, []byte(text), 0o600))
		return readEquivalents(list)
	}
	all := mutantsOfOwnModule(t, "fence")

	listed, err := write(`# a remark
in:  fence/fence.go Rails
was: if posts < 2 {
now: if posts <= 2 {
why: it is not, but the list is not asked

in:  fence/fence.go Rails
was: if posts < 3 {
now: if posts <= 3 {
why: stood there once
`)
	require.NoError(t, err)
	require.Len(t, listed, 2)
	left := setAside(all, listed)
	require.Len(t, left, len(all)-1)
	require.NotContains(t, left, mutantReading(t, all, "in Rails: if posts < 2 {  →  if posts <= 2 {"))
	missing := gone(ownModule(t), listed)
	require.Len(t, missing, 1)
	require.Equal(t, 7, missing[0].line)

	_, err = write("in: fence/fence.go Rails\nwas: a\nnow: b\n")
	require.EqualError(t, err, list+":1: an equivalent mutant without `why:`")
	_, err = write("in: fence/fence.go Rails\nbecause: b\n")
	require.EqualError(t, err, list+":2: want a line beginning in:, was:, now: or why:")
}

// All packages are those with tests of their own; what is for tests alone is none.
func TestMutatorTriesAllThatIsTested(t *testing.T) {
	all := testedPackages(t)
	require.Greater(t, len(all), 20)
	require.Subset(t, all, []string{"cmd/trencher", "recipes/meal", "units/sorted"})
	require.NotContains(t, all, "cmd/trencher/webdriver")
	require.NotContains(t, all, "cmd/trencher/demo")
}

// The list that counts can be read.
func TestMutatorListIsGivenReasons(t *testing.T) {
	_, err := readEquivalents("testdata/equivalent-mutants.txt")
	require.NoError(t, err)
}

func ownModule(t *testing.T) string {
	root, err := filepath.Abs("testdata/mutation")
	require.NoError(t, err)
	return root
}

func mutantsOfOwnModule(t *testing.T, pkg string) []mutant {
	all, err := mutantsOf(ownModule(t), pkg)
	require.NoError(t, err)
	return all
}

// mutantReading is the mutant that makes this change.
func mutantReading(t *testing.T, all []mutant, change string) mutant {
	for _, m := range all {
		if fmt.Sprintf("%s:%d: %s", m.file, m.line, change) == m.String() {
			return m
		}
	}
	require.Fail(t, "no such mutant", change)
	return mutant{}
}

// What is made by a program is no place for faults: its maker is.
func TestMutatorLeavesWhatIsGenerated(t *testing.T) {
	const text = "package p\n\nvar most = 3\n"
	written, err := mutantsIn("p/p.go", []byte(text))
	require.NoError(t, err)
	require.NotEmpty(t, written)
	made, err := mutantsIn("p/p.go", []byte("// Code generated by go generate. DO NOT EDIT.\n\n"+text))
	require.NoError(t, err)
	require.Empty(t, made)
}
