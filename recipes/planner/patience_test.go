package planner

import (
	"context"
	"errors"
	"fmt"
	"math/big"
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"trencher/recipes/planner/integer"
	"trencher/units"
)

// chain is twelve dishes of which each takes two of thirteen lots of 100 g, the next
// one the second of these and another: more sets of lots than are written down.
func chain(largest int) Problem {
	p := Problem{}
	for i := range 13 {
		p.Lots = append(p.Lots, Lot{ID: fmt.Sprintf("lot-%02d", i), Crop: "potato", Sizes: units.Band{Low: 10 * i, High: 10*i + 9}, Supply: decimal.NewFromInt(100)})
	}
	for i := range 12 {
		p.Dishes = append(p.Dishes, Dish{Name: fmt.Sprintf("dish-%02d", i), Largest: largest, Wish: decimal.NewFromInt(1),
			Needs: []Need{{Crop: "potato", PerPortion: ratInt(100), Sizes: units.Band{Low: 10 * i, High: 10*i + 19}}}})
	}
	return p
}

// Rows that were not written down beforehand are found when the lots are drawn on.
// Thirteen lots make thirteen portions, though no three dishes in a row say so; of
// 1,300 g to be used today twelve portions use 1,200 g, though no three of them say so.
func TestRowsFoundMissing(t *testing.T) {
	p := chain(9)
	require.Len(t, p.fullStore("potato").supplyRows(), mostUnions)
	plan, err := Solve(context.Background(), p)
	require.NoError(t, err)
	requireSound(t, p, plan)
	require.Equal(t, []int{2, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1}, plan.Portions)

	p = chain(1)
	for i := range p.Lots {
		p.Lots[i].First = true
	}
	plan, err = Solve(context.Background(), p)
	require.NoError(t, err)
	requireSound(t, p, plan)
	require.Equal(t, "1200", plan.Levels.UseFirst.RatString())
	require.Equal(t, 12, plan.Levels.Portions)
}

// A plan that is not proven keeps the rules, and its bound holds: the best there is is
// no better at that level, where the levels before are alike.
func TestStoppedPlansAreBounded(t *testing.T) {
	stopped := map[Level]int{}
	for seed := range uint64(140) {
		p := smallProblem(seed + 9_000)
		p.NodeLimit = 1 + int(seed%6)
		plan, err := Solve(context.Background(), p)
		var stop *NotProvenError
		if !errors.As(err, &stop) {
			continue
		}
		stopped[stop.Level]++
		require.Equal(t, Plan{}.Proven, stop.Plan.Proven)
		require.Equal(t, plan.Portions, stop.Plan.Portions)
		require.NoError(t, stop.Cause, "nobody else ended it")
		requireSound(t, p, stop.Plan)
		best := enumerate(p)
		require.NotNil(t, best)
		top := best.levels()
		require.GreaterOrEqual(t, top.Compare(stop.Plan.Levels, &p), 0, "seed %d", seed)
		if above := top.firstAbove(stop.Plan.Levels, &p); above < stop.Level {
			require.Fail(t, "a level said to be proven is not", "seed %d: %v before %v", seed, above, stop.Level)
		}
		if stop.Bound != nil && top.firstAbove(stop.Plan.Levels, &p) == stop.Level && stop.Level != Fed && stop.Level != Ties {
			value := map[Level]*big.Rat{Over: ratInt(-top.Over), UseFirst: top.UseFirst, Dishes: ratInt(top.Dishes), Portions: ratInt(top.Portions), Balance: top.Balance}[stop.Level]
			if p.Guests != nil && (stop.Level == Portions || stop.Level == Dishes && !p.ManyDishes) {
				value.Neg(value)
			}
			require.LessOrEqual(t, value.Cmp(stop.Bound), 0, "seed %d: %v", seed, stop.Level)
			require.Positive(t, value.Cmp(stop.Best), "seed %d: %v", seed, stop.Level)
		}
	}
	require.Greater(t, len(stopped), 3, stopped)
}

func (a *answer) levels() Levels {
	return Levels{Fed: a.fed, Over: a.over, UseFirst: a.use, Dishes: a.dishes, Balance: a.balance, Portions: a.portions}
}

// With less patience an explanation tells less, and says so; what it tells is what it
// would have told with more, but for the amounts it had no patience to find.
func TestImpatientExplanationsAreTrue(t *testing.T) {
	partly, some := 0, 0
	for _, kind := range kindsOfProblems {
		for _, seed := range answeredSeeds[kind.name][:1] {
			p := outsideProblem(kind, seed)
			plan, err := Solve(context.Background(), p)
			require.NoError(t, err)
			whole, err := Explain(context.Background(), p, plan)
			require.NoError(t, err)
			for _, patience := range []int{1, 3, 8, 15, 30, 60, 150} {
				x := p
				x.NodeLimit = patience
				e, err := Explain(context.Background(), x, plan)
				require.NoError(t, err)
				if e.Partly {
					partly++
				} else {
					require.Equal(t, whole, e)
				}
				require.Len(t, e.Shorts, len(whole.Shorts))
				for _, b := range e.Bounds {
					i := slices.IndexFunc(whole.Bounds, func(o Bound) bool { return o.Cause == b.Cause })
					require.GreaterOrEqual(t, i, 0, "%s %d, %d nodes: %v bounds nothing", kind.name, seed, patience, b.Cause)
					some++
					if b.Amount != nil {
						require.Zero(t, b.Amount.Cmp(whole.Bounds[i].Amount), "%s %d, %d nodes", kind.name, seed, patience)
						require.Zero(t, b.Then.Compare(whole.Bounds[i].Then, &p))
					}
					require.Positive(t, b.Then.Compare(plan.Levels, &p))
				}
			}
		}
	}
	require.Greater(t, partly, 10)
	require.Greater(t, some, 10)
}

// A level's values are told in grams, portions, guests or dishes.
func TestLevelsAreTold(t *testing.T) {
	m := &model{gramUnit: big.NewInt(4), wishUnit: big.NewInt(3)}
	require.Equal(t, "5/2", m.scaled(UseFirst, ratInt(10)).RatString())
	require.Equal(t, "2", m.scaled(Balance, big.NewRat(2, 3)).RatString())
	require.Equal(t, "10", m.scaled(Portions, ratInt(10)).RatString())
	require.Nil(t, m.scaled(UseFirst, nil))
}

// The nodes of a Solve are shared out: every level may take a third of what is left,
// and all of them no more than that.
func TestNodesAreSharedOut(t *testing.T) {
	b := &budget{limit: 100}
	b.Nodes = 40
	m := integer.Model{Columns: []integer.Column{{Most: 9}}, Levels: []integer.Level{{Goal: integer.Linear{Terms: []integer.Term{integer.Times(1, 0)}}}, {Goal: integer.InOrder{Columns: []int{0}}}}}
	found, err := b.solve(context.Background(), m)
	require.NoError(t, err)
	require.Equal(t, []int64{9}, found.X)
	require.Equal(t, []int{20, 20}, []int{m.Levels[0].Nodes, m.Levels[1].Nodes})
	require.Equal(t, 40+found.Nodes, b.Nodes)
	require.Equal(t, found.Pivots, b.Pivots)
	b.Nodes = 200
	_, _ = b.solve(context.Background(), m)
	require.Equal(t, []int{1, 1}, []int{m.Levels[0].Nodes, m.Levels[1].Nodes}, "one at least")
	require.True(t, gaveUp(context.Background(), integer.ErrNodeLimit))
	require.False(t, gaveUp(context.Background(), nil))
	require.False(t, gaveUp(context.Background(), integer.ErrModel))
	ctx, cancel := context.WithCancel(context.Background())
	require.False(t, gaveUp(ctx, ctx.Err()))
	cancel()
	require.True(t, gaveUp(ctx, ctx.Err()))
	require.False(t, gaveUp(ctx, nil))
}
