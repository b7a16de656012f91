package planner

import (
	"context"
	"errors"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"
	"time"
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

// More stock, more sides and more steamer never lower the first level that
// changes.
func TestMoreIsNeverWorse(t *testing.T) {
	more := map[string]func(r *rand.Rand, q *Problem){
		"stock": func(r *rand.Rand, q *Problem) {
			q.Lots = slices.Clone(q.Lots)
			i := r.IntN(len(q.Lots))
			q.Lots[i].Supply = q.Lots[i].Supply.Add(decimal.New(int64(1+r.IntN(500)), 0))
		},
		"sides":   func(_ *rand.Rand, q *Problem) { q.Sides++ },
		"steamer": func(_ *rand.Rand, q *Problem) { q.Layers++ },
	}
	compared, changed := 0, 0
	for seed := range uint64(120) {
		p := middling(seed)
		addBounds(rand.New(rand.NewPCG(seed, 3)), &p)
		before, err := Solve(context.Background(), p)
		if err != nil {
			continue
		}
		for name, change := range more {
			if name == "steamer" && p.Layers == 0 || name == "sides" && p.Guests == nil {
				continue
			}
			q := p
			change(rand.New(rand.NewPCG(seed, 2)), &q)
			after, err := Solve(context.Background(), q)
			require.NoError(t, err)
			compared++
			c := after.Levels.Compare(before.Levels, &p)
			if name == "sides" { // what follows is a level more, and others' business
				c = slices.Compare(after.Levels.Fed[:p.Sides], before.Levels.Fed)
			}
			require.GreaterOrEqual(t, c, 0, "seed %d, more %s: %+v then %+v", seed, name, before.Levels, after.Levels)
			if c > 0 {
				changed++
			}
		}
	}
	require.Greater(t, compared, 150)
	require.Greater(t, changed, 20)
}

// Guests in another order, and split into other groups, get as much.
func TestOrderOfGuestsChangesNothing(t *testing.T) {
	for seed := range uint64(100) {
		p := middling(seed)
		if p.Guests == nil {
			continue
		}
		plan, err := Solve(context.Background(), p)
		q := p
		q.Guests = nil
		for _, g := range p.Guests {
			one, rest := g, g
			one.Count, rest.Count = 1, g.Count-1
			if q.Guests = append(q.Guests, one); rest.Count > 0 {
				q.Guests = append(q.Guests, rest)
			}
		}
		rand.New(rand.NewPCG(seed, 1)).Shuffle(len(q.Guests), func(i, j int) { q.Guests[i], q.Guests[j] = q.Guests[j], q.Guests[i] })
		again, err2 := Solve(context.Background(), q)
		require.Equal(t, err, err2)
		require.Equal(t, plan.Portions, again.Portions)
		require.Zero(t, plan.Levels.Compare(again.Levels, &p))
	}
}

// Nobody goes short while somebody else could hand over a dish and still have as
// much, nor while a portion that they may eat is over.
func TestNobodyGoesShortWhileASwapWouldFeedThem(t *testing.T) {
	short := 0
	for seed := range uint64(250) {
		p := hardProblem(rand.New(rand.NewPCG(seed, 21)), problemSize{dishes: 5, lots: 4, crops: 2, guests: 3 + int(seed%9)})
		plan, err := Solve(context.Background(), p)
		if err != nil {
			continue
		}
		over := make([]int, len(p.Dishes)) // half portions
		for d, n := range plan.Portions {
			over[d] = 2 * n
		}
		for _, plate := range plan.Plates {
			for _, d := range plate.Dishes {
				over[d] -= halvesOf(p.Guests[plate.Group])
			}
		}
		for _, plate := range plan.Plates {
			if plate.Short == 0 {
				continue
			}
			short++
			guest := p.Guests[plate.Group]
			for d := range p.Dishes {
				if !guest.Suits[d] || slices.Contains(plate.Dishes, d) {
					continue
				}
				require.Less(t, over[d], halvesOf(guest), "seed %d: a portion of dish %d is over", seed, d)
				for _, other := range plan.Plates {
					if slices.Contains(other.Dishes, d) && p.Guests[other.Group].Child == guest.Child {
						require.LessOrEqual(t, len(other.Dishes), len(plate.Dishes)+1, "seed %d: a swap would feed somebody", seed)
					}
				}
			}
		}
	}
	require.Greater(t, short, 200)
}

func halvesOf(g Guest) int {
	if g.Child {
		return 1
	}
	return 2
}

// A plan draws on few lots: never more pairings than lots and dishes less one, for
// each crop; no take is small where one lot would do.
func TestFewLotsForADish(t *testing.T) {
	for seed := range uint64(300) {
		p := middling(seed)
		plan, err := Solve(context.Background(), p)
		if err != nil {
			continue
		}
		pairs, members := map[string]int{}, map[string]map[[2]int]bool{}
		for _, f := range plan.Flows {
			crop := p.Lots[f.Lot].Crop
			if members[crop] == nil {
				members[crop] = map[[2]int]bool{}
			}
			pairs[crop]++
			members[crop][[2]int{-1, f.Lot}], members[crop][[2]int{f.Dish, f.Need}] = true, true
		}
		for crop, n := range pairs {
			require.LessOrEqual(t, n, len(members[crop])-1, "seed %d: %s", seed, crop)
		}
	}
}

// Worked by hand: 500 g from one lot though two others hold 495 g and 300 g; from
// two where no one lot will do, and then no 5 g of either; the sooner perishable
// first; sizes that belong together.
func TestTakesByHand(t *testing.T) {
	soon, late := time.Date(2031, 7, 14, 0, 0, 0, 0, time.UTC), time.Date(2031, 8, 14, 0, 0, 0, 0, time.UTC)
	lot := func(id string, grams int64, low, high int, keeps time.Time) Lot {
		return Lot{ID: id, Crop: "potato", Sizes: units.Band{Low: low, High: high}, Supply: decimal.NewFromInt(grams), Keeps: keeps}
	}
	for _, c := range []struct {
		about string
		lots  []Lot
		want  map[string]string
	}{
		{"one lot will do", []Lot{lot("a", 495, 20, 45, late), lot("b", 300, 20, 45, late), lot("c", 600, 20, 45, late)}, map[string]string{"c": "500"}},
		{"the sooner perishable of two that would", []Lot{lot("a", 600, 20, 45, late), lot("b", 600, 20, 45, soon)}, map[string]string{"b": "500"}},
		{"no small take", []Lot{lot("a", 495, 20, 45, soon), lot("b", 300, 20, 45, late)}, map[string]string{"a": "470", "b": "30"}},
		{"near sizes", []Lot{lot("a", 300, 20, 45, soon), lot("b", 300, 65, 80, soon), lot("c", 300, 45, 65, late)}, map[string]string{"a": "300", "c": "200"}},
	} {
		p := Problem{Lots: c.lots, MostDishes: 1, Dishes: []Dish{{Name: "mash", Smallest: 5, Largest: 5, Wish: decimal.NewFromInt(1),
			Needs: []Need{{Crop: "potato", PerPortion: big.NewRat(100, 1)}}}}}
		plan, err := Solve(context.Background(), p)
		require.NoError(t, err, c.about)
		got := map[string]string{}
		for _, f := range plan.Flows {
			got[p.Lots[f.Lot].ID] = f.Grams.RatString()
		}
		require.Equal(t, c.want, got, c.about)
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
