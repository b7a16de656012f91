package planner

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

// What a search with little patience calls proven is what one with all it wants finds,
// also where a level that was given up came to its bound later.
func TestProvenWithLittlePatience(t *testing.T) {
	proven := 0
	for _, kind := range kindsOfProblems {
		for seed := range 30 {
			p := benchProblem(kind, problemSize{dishes: 7, lots: 5, crops: 3, guests: 20}, 4400000+seed)
			best, err := Solve(context.Background(), p)
			if err != nil {
				continue // nothing can be made
			}
			for _, p.NodeLimit = range []int{3, 9, 30} {
				got, err := Solve(context.Background(), p)
				if err != nil {
					continue
				}
				proven++
				require.Zero(t, got.Levels.Compare(best.Levels, &p), "%s %d, %d nodes", kind.name, seed, p.NodeLimit)
				require.Equal(t, fmt.Sprint(best.Portions), fmt.Sprint(got.Portions), "%s %d, %d nodes", kind.name, seed, p.NodeLimit)
			}
		}
	}
	require.Greater(t, proven, 100)
}

// Seed 3300750's use of what is to be used today was given up, and its fewest dishes
// came to that level's bound.
func TestALevelClosedByOnesBelow(t *testing.T) {
	p := benchProblem(kindsOfProblems[1], tableSize, 3300750)
	plan, err := Solve(context.Background(), p)
	require.NoError(t, err)
	require.True(t, plan.Proven)
	require.Equal(t, "2060/1", plan.Levels.UseFirst.String())
}
