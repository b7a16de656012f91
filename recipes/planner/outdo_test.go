package planner

import (
	"context"
	"errors"
	"fmt"
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/recipes/planner/integer"
)

// A plan is outdone in a relaxed problem exactly when the best plan there comes to more,
// and what outdoes it does so at the same level: of every kind of problem, every cause
// relaxed wholly.
func TestOutdoneWhereTheBestIsBetter(t *testing.T) {
	outdone, not := 0, 0
	for _, kind := range kindsOfProblems {
		for seed := range volume(8, 60, 400) {
			p := outsideProblem(kind, 5_000+seed)
			plan, err := Solve(context.Background(), p)
			if err != nil {
				continue
			}
			for _, c := range append(p.causes(), p.batchCauses()...) {
				q := p.with(c, nil)
				q.anyOfEqual = true
				about := fmt.Sprint(kind.name, " ", seed, ": ", relaxingTold(c, nil))
				best, err := decide(context.Background(), q)
				require.NoError(t, err, about)
				other, err := q.outdo(context.Background(), plan)
				require.NoError(t, err, about)
				if best.Levels.Compare(plan.Levels, &q) <= 0 {
					require.Zero(t, other.Levels.Compare(plan.Levels, &q), about)
					not++
					continue
				}
				require.Positive(t, other.Levels.Compare(plan.Levels, &q), about)
				require.Equal(t, best.Levels.firstAbove(plan.Levels, &q), other.Levels.firstAbove(plan.Levels, &q), about)
				require.LessOrEqual(t, other.Levels.Compare(best.Levels, &q), 0, about)
				other.Flows = q.draw(other.Portions, other.Levels.UseFirst)
				other.Left, other.Proven = q.left(other.Flows), true
				_, out := q.eligible()
				other.LeftOut = q.leftOut(other.Portions, out)
				requireSound(t, q, other)
				outdone++
			}
		}
	}
	require.Greater(t, outdone, 20)
	require.Greater(t, not, 20)
}

// Nothing outdoes what nothing fits, and a plan of nothing is outdone by any.
func TestOutdoNothing(t *testing.T) {
	p := twoDishes()
	none := p.emptyPlan(nil)
	plan, err := p.outdo(context.Background(), none)
	require.NoError(t, err)
	require.Positive(t, plan.Levels.Compare(none.Levels, &p))
	p.Lots = nil
	_, err = p.outdo(context.Background(), plan)
	require.ErrorIs(t, err, ErrNothingFits)
}

// A plan that is none of the model's solutions is asked about all the same: of twins the
// one that ties go to has as many portions at least, and of this plan it has fewer. All
// that it takes is counted.
func TestOutdoWhatIsNoSolution(t *testing.T) {
	p := oneDish()
	p.Dishes[0].Smallest, p.Dishes[0].Largest = 1, 3
	p.Dishes = append(p.Dishes, p.Dishes[0])
	best, err := Solve(context.Background(), p)
	require.NoError(t, err)
	require.Equal(t, []int{3, 2}, best.Portions)
	than := best
	than.Portions = []int{0, 2}
	than.Levels = p.levelsOf(than, new(big.Rat))
	plan, err := p.outdo(context.Background(), than)
	require.NoError(t, err)
	require.Equal(t, best.Levels, plan.Levels)
	require.Equal(t, best.Portions, plan.Portions)
	require.Equal(t, best.Effort, plan.Effort)

	p.Dishes[0].Largest = 0
	_, err = p.outdo(context.Background(), than)
	require.ErrorContains(t, err, "smallest 1 is above largest 0", "what cannot be asked is outdone by nothing")
}

// Nor is a plan believed that the rows written down beforehand allow and the lots do
// not: fourteen portions of thirteen lots of 100 g, see [TestRowsFoundMissing].
func TestOutdoMoreThanTheLotsHold(t *testing.T) {
	p := chain(9)
	than, err := Solve(context.Background(), p)
	require.NoError(t, err)
	than.Portions[11] = 2
	than.Levels.Portions++
	_, missing := p.canDraw(than.Portions)
	require.NotNil(t, missing)
	plan, err := p.outdo(context.Background(), than)
	require.NoError(t, err)
	require.Equal(t, 13, plan.Levels.Portions)
}

// Whoever has no plan yet is answered with the best.
func TestOutdoNoPlanAtAll(t *testing.T) {
	p := twoDishes()
	best, err := Solve(context.Background(), p)
	require.NoError(t, err)
	plan, err := p.outdo(context.Background(), Plan{})
	require.NoError(t, err)
	require.Equal(t, best.Levels, plan.Levels)
}

// What is asked without the patience for an answer is told so: an answer that comes
// without an error is the one that all patience comes to.
func TestOutdoWithoutPatience(t *testing.T) {
	given, gaveUp := 0, 0
	for _, kind := range kindsOfProblems {
		for seed := range 4 {
			p := outsideProblem(kind, 6_000+seed)
			plan, err := Solve(context.Background(), p)
			if err != nil {
				continue
			}
			for _, c := range append(p.causes(), p.batchCauses()...) {
				q := p.with(c, nil)
				q.anyOfEqual = true
				whole, err := q.outdo(context.Background(), plan)
				require.NoError(t, err)
				q.NodeLimit = 1 + 12*seed
				early, err := q.outdo(context.Background(), plan)
				var stop *NotProvenError
				if errors.As(err, &stop) {
					gaveUp++
					continue
				}
				require.NoError(t, err)
				require.Equal(t, whole.Levels.Compare(plan.Levels, &q) > 0, early.Levels.Compare(plan.Levels, &q) > 0, "%s %d: %s", kind.name, seed, relaxingTold(c, nil))
				given++
			}
		}
	}
	require.Greater(t, given, 4)
	require.Greater(t, gaveUp, 3)
}

// A search that is called off, and a slip of ours in the rows, are told and no plan made
// of them.
func TestOutdoAndSolveTellWhatStoppedThem(t *testing.T) {
	p := oneDish()
	p.Dishes[0].Smallest, p.Dishes[0].Largest = 1, 3
	p.Dishes = append(p.Dishes, p.Dishes[0])
	called, stop := context.WithCancel(context.Background())
	stop()
	than := Plan{Portions: []int{0, 2}}
	than.Levels = p.levelsOf(than, new(big.Rat))
	_, err := p.outdo(called, than)
	require.ErrorIs(t, err, context.Canceled, "a plan that is no solution is asked about by solving")

	most, _ := p.eligible()
	a := &attempt{Problem: &p, ctx: context.Background(), work: &budget{limit: 100}}
	m := p.newModel(wanting{most: most})
	start := m.sharePoint([]int64{2, 0})
	m.prog.Levels[0].Goal = nil
	_, _, err = a.finish(m)
	require.ErrorIs(t, err, integer.ErrModel)
	_, _, err = a.beyond(m, start, than)
	require.ErrorIs(t, err, integer.ErrModel)
}
