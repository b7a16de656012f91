package planner

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// crowded is a problem of many dishes.
func crowded(kind kindOfProblem, dishes, seed int) Problem {
	return kind.draw(rand.New(rand.NewPCG(uint64(seed), 31)), problemSize{dishes: dishes, lots: 6, crops: 3, guests: 12})
}

// A search begins with a plan that keeps every rule, where there are heats, and ends with
// the same as without.
func TestHeatsChangeNothingButTheWayThere(t *testing.T) {
	began, ended := 0, 0
	for _, kind := range kindsOfProblems {
		for seed := range volume(3, 10, 40) {
			p, about := crowded(kind, 160, 3+seed), fmt.Sprint(kind.name, " ", 3+seed)
			p.NodeLimit = 800
			most, _ := p.eligible()
			start := p.goodStart(context.Background(), most)
			if len(start.Portions) == 0 {
				continue
			}
			began++
			used, missing := p.canDraw(start.Portions)
			require.Nil(t, missing, about)
			require.Equal(t, start.Levels, p.levelsOf(start, used), about)
			with, err := p.attempts(context.Background(), wanting{most: most, start: start}, (*attempt).run)
			require.GreaterOrEqual(t, with.Levels.Compare(start.Levels, &p), 0, about)
			require.GreaterOrEqual(t, with.Effort.Nodes, start.Effort.Nodes, "%s: what the heats took counts", about)
			without, other := p.attempts(context.Background(), wanting{most: most}, (*attempt).run)
			if err == nil && other == nil {
				require.Equal(t, without.Levels, with.Levels, about)
				require.Equal(t, without.Portions, with.Portions, about)
				ended++
			}
		}
	}
	require.Greater(t, began, 4)
	require.Positive(t, ended)
}

// There are heats of very many dishes only, and none where most of them are made.
func TestWhereThereAreNoHeats(t *testing.T) {
	p := crowded(kindsOfProblems[0], mostAtOnce, 1)
	most, _ := p.eligible()
	require.Equal(t, Plan{}, p.goodStart(context.Background(), most))

	p = crowded(kindsOfProblems[0], 2*mostAtOnce, 1)
	p.MostDishes, p.Limits, p.KeepBack, p.Layers = 0, nil, nil, 0
	for i := range p.Lots {
		p.Lots[i].Supply = p.Lots[i].Supply.Shift(4)
	}
	most, _ = p.eligible()
	require.Greater(t, len(most), mostAtOnce)
	start := p.goodStart(context.Background(), most)
	require.Empty(t, start.Portions)
	require.Positive(t, start.Effort.Nodes)
}

// The more dishes, the fewer nodes, where the problem does not say how many.
func TestPatienceWithManyDishes(t *testing.T) {
	for _, c := range []struct{ dishes, nodes int }{{1, 8_000}, {40, 8_000}, {50, 4_000}, {70, 2_000}, {110, 1_000}, {1_000, 900}} {
		p := Problem{Dishes: make([]Dish, c.dishes)}
		require.Equal(t, c.nodes, p.patience(8_000, 10, 900), c.dishes)
		p.NodeLimit = 7
		require.Equal(t, 7, p.patience(8_000, 10, 900))
	}
}

// Of very many dishes a plan is told with what bounds it, and every bound is one.
func TestManyDishesAreSharedAndExplained(t *testing.T) {
	p := crowded(kindsOfProblems[0], 240, 3)
	plan, err := Solve(context.Background(), p)
	require.NoError(t, err)
	requireSound(t, p, plan)
	e, err := Explain(context.Background(), p, plan)
	require.NoError(t, err)
	require.NotEmpty(t, e.Bounds)
	for _, b := range e.Bounds {
		if b.Amount == nil && e.Partly {
			require.Positive(t, b.Then.Compare(plan.Levels, &p), "%+v", b)
			continue
		}
		requireSmallest(t, p, plan, b, 3)
	}
}
