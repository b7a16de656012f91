package planner

import (
	"context"
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// A bruteForce enumerates every way to eat, or without guests every portions
// vector, of a small problem and knows nothing of rows, relaxations or flows:
// whether lots can meet demands is asked of every subset of needs, and what guests
// can eat is dealt out guest by guest.
type bruteForce struct {
	p    Problem
	eats map[string]dealt // every possible taking, with the best it feeds
	best *answer
}

type dealt struct {
	halves []int
	fed    []int
}

// An answer is what the optimum is told by.
type answer struct {
	x        []int
	fed      []int
	over     int
	use      *big.Rat
	dishes   int
	balance  *big.Rat
	portions int
}

func enumerate(p Problem) *answer {
	b := &bruteForce{p: p}
	if p.Guests == nil {
		b.walk(make([]int, len(p.Dishes)), 0)
		return b.best
	}
	b.deal()
	for _, e := range b.eats {
		b.cook(e, make([]int, len(p.Dishes)), 0)
	}
	return b.best
}

// deal finds every vector of half portions the guests could take, and the most
// who could be fed once, twice and so on by it.
func (b *bruteForce) deal() {
	b.eats = map[string]dealt{}
	start := dealt{halves: make([]int, len(b.p.Dishes)), fed: make([]int, b.p.Sides)}
	b.eats[fmt.Sprint(start.halves)] = start
	for _, g := range b.p.Guests {
		for range g.Count {
			next := map[string]dealt{}
			for _, e := range b.eats {
				b.serve(g, e, 0, 0, next)
			}
			b.eats = next
		}
	}
}

// serve lets one guest choose among the dishes from d on, having taken n.
func (b *bruteForce) serve(g Guest, e dealt, d, n int, next map[string]dealt) {
	if d == len(b.p.Dishes) {
		key := fmt.Sprint(e.halves)
		if old, ok := next[key]; !ok || slices.Compare(old.fed, e.fed) < 0 {
			next[key] = e
		}
		return
	}
	b.serve(g, e, d+1, n, next)
	if !g.Suits[d] || n == b.p.Sides {
		return
	}
	took := dealt{slices.Clone(e.halves), slices.Clone(e.fed)}
	took.halves[d] += 2
	if g.Child {
		took.halves[d]--
	}
	took.fed[n]++
	b.serve(g, took, d+1, n+1, next)
}

// cook tries every number of portions of each dish that covers what is taken and
// is not past it, or past the smallest batch.
func (b *bruteForce) cook(e dealt, x []int, d int) {
	if d == len(x) {
		b.consider(x, e)
		return
	}
	x[d] = 0
	if e.halves[d] == 0 {
		b.cook(e, x, d+1)
		return
	}
	smallest := max(1, b.p.Dishes[d].Smallest)
	for n := smallest; n <= b.p.Dishes[d].Largest && n <= max(smallest, (e.halves[d]+1)/2); n++ {
		if 2*n >= e.halves[d] {
			x[d] = n
			b.cook(e, x, d+1)
		}
	}
	x[d] = 0
}

func (b *bruteForce) walk(x []int, d int) {
	if d == len(x) {
		b.consider(x, dealt{})
		return
	}
	x[d] = 0
	b.walk(x, d+1)
	for n := max(1, b.p.Dishes[d].Smallest); n <= b.p.Dishes[d].Largest; n++ {
		x[d] = n
		if !b.feasible(x) {
			break
		}
		b.walk(x, d+1)
	}
	x[d] = 0
}

// feasible asks every subset of needs, and every limit.
func (b *bruteForce) feasible(x []int) bool {
	ok := true
	b.eachSubset(x, func(asked, heldAll, _ *big.Rat) {
		ok = ok && asked.Cmp(heldAll) <= 0
	})
	for _, l := range b.p.Limits {
		sum := new(big.Rat)
		for d, dish := range b.p.Dishes {
			for _, o := range dish.Others {
				if o.Item == l.Item {
					sum.Add(sum, new(big.Rat).Mul(o.PerPortion, ratInt(x[d])))
				}
			}
		}
		ok = ok && sum.Cmp(l.Amount) <= 0
	}
	for _, k := range b.p.KeepBack {
		sum := new(big.Rat).Neg(k.Grams)
		for _, l := range b.p.Lots {
			if l.Crop == k.Crop {
				sum.Add(sum, l.Supply.Rat())
			}
		}
		for d, dish := range b.p.Dishes {
			for _, n := range dish.Needs {
				if n.Crop == k.Crop {
					sum.Sub(sum, new(big.Rat).Mul(n.PerPortion, ratInt(x[d])))
				}
			}
		}
		ok = ok && sum.Sign() >= 0
	}
	return ok && (b.p.Layers == 0 || b.layers(x) <= b.p.Layers)
}

// layers counts what the steamer is asked for.
func (b *bruteForce) layers(x []int) int {
	load := map[string]*big.Rat{}
	for d, dish := range b.p.Dishes {
		for _, n := range dish.Needs {
			if n.Load.PerPortion != nil {
				if load[n.Load.Class] == nil {
					load[n.Load.Class] = new(big.Rat)
				}
				load[n.Load.Class].Add(load[n.Load.Class], new(big.Rat).Mul(n.Load.PerPortion, ratInt(x[d])))
			}
		}
	}
	layers := 0
	for _, l := range load {
		f, _ := l.Float64()
		layers += int(math.Ceil(f - 1e-9))
	}
	return layers
}

// eachSubset calls f for every set of needs with what it asks for, what all lots
// it can use hold, and what the lots to be used today among them hold.
func (b *bruteForce) eachSubset(x []int, f func(asked, all, first *big.Rat)) {
	type asking struct {
		need  Need
		grams *big.Rat
	}
	var needs []asking
	for d, dish := range b.p.Dishes {
		for _, n := range dish.Needs {
			if x[d] > 0 {
				needs = append(needs, asking{n, new(big.Rat).Mul(n.PerPortion, ratInt(x[d]))})
			}
		}
	}
	for set := range 1 << len(needs) {
		asked, all, first := new(big.Rat), new(big.Rat), new(big.Rat)
		for i, n := range needs {
			if set>>i&1 == 1 {
				asked.Add(asked, n.grams)
			}
		}
		for _, l := range b.p.Lots {
			for i, n := range needs {
				if set>>i&1 == 1 && takes(n.need, l) {
					all.Add(all, l.Supply.Rat())
					if l.First {
						first.Add(first, l.Supply.Rat())
					}
					break
				}
			}
		}
		f(asked, all, first)
	}
}

// takes is the rule of the dish file, written a second time.
func takes(n Need, l Lot) bool {
	ungraded := l.Sizes.Low == 0 && l.Sizes.High == 0
	any := n.Sizes.Low == 0 && n.Sizes.High == 0
	fits := ungraded || any || l.Sizes.Low >= n.Sizes.Low && l.Sizes.High <= n.Sizes.High
	texture := l.Texture == "" || n.Texture == "" || n.Texture == "any" || n.Texture == l.Texture
	return l.Crop == n.Crop && fits && texture
}

// used is the most that can come from lots to be used today: the least over all
// sets of needs of what the set's lots hold and what the other needs ask for.
func (b *bruteForce) used(x []int) *big.Rat {
	total := new(big.Rat)
	for d, dish := range b.p.Dishes {
		for _, n := range dish.Needs {
			total.Add(total, new(big.Rat).Mul(n.PerPortion, ratInt(x[d])))
		}
	}
	var least *big.Rat
	b.eachSubset(x, func(asked, _, first *big.Rat) {
		cut := new(big.Rat).Sub(total, asked)
		if cut.Add(cut, first); least == nil || cut.Cmp(least) < 0 {
			least = cut
		}
	})
	return least
}

func (b *bruteForce) consider(x []int, e dealt) {
	a := &answer{x: slices.Clone(x), fed: e.fed, balance: new(big.Rat)}
	for d, n := range x {
		a.portions += n
		if n == 0 {
			continue
		}
		if b.p.Guests != nil {
			a.over += (2*n - e.halves[d]) / 2
		}
		t := new(big.Rat).Quo(ratInt(n), b.p.Dishes[d].Wish.Rat())
		if a.dishes == 0 || t.Cmp(a.balance) < 0 {
			a.balance = t
		}
		a.dishes++
	}
	if a.dishes == 0 || b.p.MostDishes > 0 && a.dishes > b.p.MostDishes || b.best != nil && slices.Compare(a.fed, b.best.fed) < 0 || !b.feasible(x) {
		return
	}
	tens, _ := new(big.Rat).Quo(b.used(x), big.NewRat(10, 1)).Float64()
	a.use = big.NewRat(10*int64(math.Floor(tens+1e-9)), 1)
	if b.best == nil || a.better(b.best, b.p) {
		b.best = a
	}
}

// better says the order of the levels a second time.
func (a *answer) better(o *answer, p Problem) bool {
	if c := slices.Compare(a.fed, o.fed); c != 0 {
		return c > 0
	}
	if a.over != o.over {
		return a.over < o.over
	}
	if c := a.use.Cmp(o.use); c != 0 {
		return c > 0
	}
	if a.dishes != o.dishes {
		return (a.dishes > o.dishes) == (p.Guests == nil || p.ManyDishes)
	}
	if p.Guests != nil && a.portions != o.portions {
		return a.portions < o.portions
	}
	if c := a.balance.Cmp(o.balance); c != 0 {
		return c > 0
	}
	if a.portions != o.portions {
		return a.portions > o.portions
	}
	for i := range a.x {
		d := i
		if p.Ties != nil {
			d = p.Ties[i]
		}
		if a.x[d] != o.x[d] {
			return a.x[d] > o.x[d]
		}
	}
	return false
}

// Small problems of both kinds, every one of them enumerated.
func TestSolveAgreesWithEnumeration(t *testing.T) {
	for seed := range volume(1_500, 20_000, 20_000) {
		p := smallProblem(uint64(seed))
		plan, err := Solve(context.Background(), p)
		requireAnswer(t, enumerate(p), plan, err, fmt.Sprint("seed ", seed))
	}
}

func requireAnswer(t testing.TB, want *answer, plan Plan, err error, about string) {
	t.Helper()
	if want == nil {
		require.ErrorIs(t, err, ErrNothingFits, about)
		return
	}
	require.NoError(t, err, about)
	require.Equal(t, want.fed, plan.Levels.Fed, about)
	require.Equal(t, want.over, plan.Levels.Over, "%s: over", about)
	require.Equal(t, want.use.RatString(), plan.Levels.UseFirst.RatString(), "%s: use first", about)
	require.Equal(t, want.dishes, plan.Levels.Dishes, "%s: dishes", about)
	require.Equal(t, want.balance.RatString(), plan.Levels.Balance.RatString(), "%s: balance", about)
	require.Equal(t, want.portions, plan.Levels.Portions, "%s: portions", about)
	require.Equal(t, want.x, plan.Portions, about)
}

// smallProblem is one that can be enumerated: at most three dishes and four lots,
// and all that may bound a plan.
func smallProblem(seed uint64) Problem {
	r := rand.New(rand.NewPCG(seed, 5))
	size := randomSize{
		dishes: 1 + r.IntN(3), lots: 1 + r.IntN(4), crops: 1 + r.IntN(2), guests: 1 + r.IntN(5),
		table: r.IntN(2) == 0, yields: r.IntN(3) == 0, fussy: true,
	}
	p := randomProblem(r, size)
	for d := range p.Dishes {
		p.Dishes[d].Largest = max(p.Dishes[d].Smallest, min(p.Dishes[d].Largest, 4+r.IntN(6)))
	}
	addBounds(r, &p)
	return p
}
