package planner

import (
	"context"
	"errors"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"
	"trencher/units"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"
)

// requireSound checks everything a plan must keep, whoever made it.
func requireSound(t testing.TB, p Problem, plan Plan) {
	t.Helper()
	requireFlows(t, p, plan)
	for d, n := range plan.Portions {
		if n != 0 {
			require.GreaterOrEqual(t, n, p.Dishes[d].least())
			require.LessOrEqual(t, n, p.Dishes[d].Largest)
		}
		left := slices.ContainsFunc(plan.LeftOut, func(o LeftOut) bool { return o.Dish == d })
		require.Equal(t, n == 0, left)
	}
	for _, l := range p.Limits {
		sum := new(big.Rat)
		for d, dish := range p.Dishes {
			for _, o := range dish.Others {
				if o.Item == l.Item {
					sum.Add(sum, new(big.Rat).Mul(o.PerPortion, ratInt(plan.Portions[d])))
				}
			}
		}
		require.LessOrEqual(t, sum.Cmp(l.Amount), 0)
	}
	if p.Guests != nil {
		requirePlates(t, p, plan)
	}
}

// requireFlows: every gram of a need comes from a lot that it accepts, no lot
// gives more than it holds, and what is left is the rest, exactly.
func requireFlows(t testing.TB, p Problem, plan Plan) {
	t.Helper()
	used := make([]*big.Rat, len(p.Lots))
	for i := range used {
		used[i] = new(big.Rat)
	}
	met := map[[2]int]*big.Rat{}
	first := new(big.Rat)
	for _, f := range plan.Flows {
		require.Positive(t, f.Grams.Sign())
		require.True(t, takes(p.Dishes[f.Dish].Needs[f.Need], p.Lots[f.Lot]))
		used[f.Lot].Add(used[f.Lot], f.Grams)
		key := [2]int{f.Dish, f.Need}
		if met[key] == nil {
			met[key] = new(big.Rat)
		}
		met[key].Add(met[key], f.Grams)
		if p.Lots[f.Lot].First {
			first.Add(first, f.Grams)
		}
	}
	for d, dish := range p.Dishes {
		for k, n := range dish.Needs {
			want := new(big.Rat).Mul(n.PerPortion, ratInt(plan.Portions[d]))
			if got := met[[2]int{d, k}]; got != nil || want.Sign() > 0 {
				require.NotNil(t, got)
				require.Zero(t, want.Cmp(got))
			}
		}
	}
	for i, l := range p.Lots {
		require.GreaterOrEqual(t, plan.Left[i].Sign(), 0)
		require.Zero(t, new(big.Rat).Add(used[i], plan.Left[i]).Cmp(l.Supply.Rat()))
	}
	require.GreaterOrEqual(t, first.Cmp(plan.Levels.UseFirst), 0)
	require.Negative(t, first.Cmp(new(big.Rat).Add(plan.Levels.UseFirst, big.NewRat(UseStep, 1))))
}

// requirePlates: no guest gets what they must not, a dish twice or more than
// Sides, and the portions cover the plates.
func requirePlates(t testing.TB, p Problem, plan Plan) {
	t.Helper()
	halves := make([]int, len(p.Dishes))
	seats := make([]int, len(p.Guests))
	fed := make([]int, p.Sides)
	for _, plate := range plan.Plates {
		guest := p.Guests[plate.Group]
		require.Equal(t, seats[plate.Group], plate.Number)
		seats[plate.Group]++
		require.LessOrEqual(t, len(plate.Dishes), p.Sides)
		require.Equal(t, p.Sides-len(plate.Dishes), plate.Short)
		require.True(t, slices.IsSorted(plate.Dishes))
		require.Equal(t, len(plate.Dishes), len(slices.Compact(slices.Clone(plate.Dishes))))
		for r, d := range plate.Dishes {
			require.True(t, guest.Suits[d], "%s must not get %s", guest.Label, p.Dishes[d].Name)
			fed[r]++
			halves[d] += 2
			if guest.Child {
				halves[d]--
			}
		}
	}
	for g, guest := range p.Guests {
		require.Equal(t, guest.Count, seats[g])
	}
	require.Equal(t, plan.Levels.Fed, fed)
	for d, n := range plan.Portions {
		require.LessOrEqual(t, halves[d], 2*n)
		if n > 0 {
			require.Positive(t, halves[d], "nobody takes %s", p.Dishes[d].Name)
			require.LessOrEqual(t, n, max(p.Dishes[d].least(), (halves[d]+1)/2))
		}
	}
}

// middling is a random problem of a kitchen's size.
func middling(seed uint64) Problem {
	r := rand.New(rand.NewPCG(seed, 9))
	return randomProblem(r, randomSize{
		dishes: 2 + r.IntN(5), lots: 2 + r.IntN(6), crops: 1 + r.IntN(3), guests: 1 + r.IntN(12),
		table: r.IntN(2) == 0, yields: r.IntN(3) == 0, fussy: true,
	})
}

func TestPlansAreSound(t *testing.T) {
	for seed := range uint64(400) {
		p := middling(seed)
		plan, err := Solve(context.Background(), p)
		if err != nil {
			require.ErrorIs(t, err, ErrNothingFits)
		}
		requireSound(t, p, plan)
	}
}

func TestOrderOfLotsChangesNothing(t *testing.T) {
	for seed := range uint64(100) {
		p := middling(seed)
		plan, err := Solve(context.Background(), p)
		q := p
		q.Lots = slices.Clone(p.Lots)
		rand.New(rand.NewPCG(seed, 1)).Shuffle(len(q.Lots), func(i, j int) { q.Lots[i], q.Lots[j] = q.Lots[j], q.Lots[i] })
		again, err2 := Solve(context.Background(), q)
		require.Equal(t, err, err2)
		require.Equal(t, plan.Portions, again.Portions)
		require.Equal(t, plan.Plates, again.Plates)
		require.Equal(t, plan.LeftOut, again.LeftOut)
		require.Len(t, again.Flows, len(plan.Flows))
		for i, f := range plan.Flows {
			g := again.Flows[i]
			require.Equal(t, p.Lots[f.Lot].ID, q.Lots[g.Lot].ID)
			require.Equal(t, [2]int{f.Dish, f.Need}, [2]int{g.Dish, g.Need})
			require.Zero(t, f.Grams.Cmp(g.Grams))
		}
	}
}

func TestSearchCanBeStopped(t *testing.T) {
	p := middling(7)
	p.NodeLimit = 2
	_, err := Solve(context.Background(), p)
	var stop *NotProvenError
	require.ErrorAs(t, err, &stop)
	require.Contains(t, err.Error(), "not proven best")
	require.False(t, stop.Plan.Proven)
	require.NotNil(t, stop.Gap())
	require.GreaterOrEqual(t, stop.Gap().Sign(), 0)
	requireSound(t, p, stop.Plan)

	p.NodeLimit = 0
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err = Solve(ctx, p)
	require.ErrorAs(t, err, &stop)
	require.ErrorIs(t, err, context.Canceled)
	requireSound(t, p, stop.Plan)
}

func FuzzSolve(f *testing.F) {
	f.Add(uint64(1), int64(820), int64(3), uint8(2), uint8(1), int32(0))
	f.Add(uint64(7), int64(1), int64(997), uint8(5), uint8(4), int32(-9))
	f.Add(uint64(42), int64(1<<40), int64(81), uint8(9), uint8(0), int32(12))
	f.Fuzz(func(t *testing.T, seed uint64, grams, parts int64, batch, sides uint8, exponent int32) {
		p := middling(seed)
		p.NodeLimit = 200
		p.Sides = int(sides)
		p.Lots[0].Supply = decimal.New(grams, exponent%40)
		d := &p.Dishes[0]
		if parts != 0 {
			d.Needs[0].PerPortion = big.NewRat(grams, parts)
		}
		d.Smallest = int(batch) - 2
		plan, err := Solve(context.Background(), p)
		var wrong *units.FieldError
		var stop *NotProvenError
		switch {
		case errors.As(err, &wrong):
			require.NotEmpty(t, wrong.Error())
			return
		case errors.As(err, &stop):
			plan = stop.Plan
		case err != nil:
			require.ErrorIs(t, err, ErrNothingFits)
		}
		requireSound(t, p, plan)
	})
}
