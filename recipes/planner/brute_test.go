package planner

import (
	"context"
	"fmt"
	"math/big"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

// A bruteForce enumerates every portions vector of a small problem and knows
// nothing of rows, relaxations or flows: whether lots can meet demands is asked
// of every subset of needs, and what guests can eat is dealt out guest by guest.
type bruteForce struct {
	p       Problem
	allowed []bool
	eats    map[string]eating // table: every possible taking, with its helpings
	best    *answer
}

type eating struct {
	halves   []int
	helpings int
}

type answer struct {
	x        []int
	fed      int
	use      *big.Rat
	balance  *big.Rat
	portions int
}

func enumerate(p Problem) *answer {
	b := &bruteForce{p: p, allowed: make([]bool, len(p.Dishes))}
	b.deal()
	x := make([]int, len(p.Dishes))
	for d := range p.Dishes {
		x[d] = max(1, p.Dishes[d].Smallest)
		b.allowed[d] = b.feasible(x) && b.wanted(d)
		x[d] = 0
	}
	b.walk(x, 0)
	return b.best
}

func (b *bruteForce) wanted(d int) bool {
	if b.p.Guests == nil {
		return true
	}
	for _, g := range b.p.Guests {
		if g.Suits[d] {
			return true
		}
	}
	return false
}

// deal finds every vector of half portions the guests could take.
func (b *bruteForce) deal() {
	b.eats = map[string]eating{}
	start := eating{halves: make([]int, len(b.p.Dishes))}
	b.eats[fmt.Sprint(start.halves)] = start
	for _, g := range b.p.Guests {
		for range g.Count {
			next := map[string]eating{}
			for _, e := range b.eats {
				b.serve(g, e, 0, 0, next)
			}
			b.eats = next
		}
	}
}

// serve lets one guest choose among the dishes from d on, having taken n.
func (b *bruteForce) serve(g Guest, e eating, d, n int, next map[string]eating) {
	if d == len(b.p.Dishes) {
		key := fmt.Sprint(e.halves)
		if old, ok := next[key]; !ok || old.helpings < e.helpings {
			next[key] = e
		}
		return
	}
	b.serve(g, e, d+1, n, next)
	if !g.Suits[d] || n == b.p.Sides {
		return
	}
	took := eating{append([]int(nil), e.halves...), e.helpings + 1}
	took.halves[d] += 2
	if g.Child {
		took.halves[d]--
	}
	b.serve(g, took, d+1, n+1, next)
}

func (b *bruteForce) walk(x []int, d int) {
	if d == len(x) {
		b.consider(x)
		return
	}
	x[d] = 0
	b.walk(x, d+1)
	if !b.allowed[d] {
		return
	}
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
	return ok
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

// fed is the most helpings x can serve without being cooked past them, or -1.
func (b *bruteForce) fed(x []int) int {
	best := -1
	for _, e := range b.eats {
		ok := true
		for d, n := range x {
			covered := e.halves[d] <= 2*n
			notBeyond := n <= max(max(1, b.p.Dishes[d].Smallest), (e.halves[d]+1)/2)
			ok = ok && covered && (n == 0 || notBeyond)
		}
		if ok {
			best = max(best, e.helpings)
		}
	}
	return best
}

func (b *bruteForce) consider(x []int) {
	a := &answer{x: append([]int(nil), x...), use: b.used(x)}
	if b.p.Guests != nil {
		if a.fed = b.fed(x); a.fed < 0 {
			return
		}
	}
	for d, n := range x {
		a.portions += n
		if !b.allowed[d] {
			continue
		}
		t := new(big.Rat).Quo(ratInt(n), b.p.Dishes[d].Wish.Rat())
		if a.balance == nil || t.Cmp(a.balance) < 0 {
			a.balance = t
		}
	}
	if b.best == nil || a.better(b.best, b.p.Guests != nil) {
		b.best = a
	}
}

func (a *answer) better(o *answer, table bool) bool {
	if a.fed != o.fed {
		return a.fed > o.fed
	}
	if c := a.use.Cmp(o.use); c != 0 {
		return c > 0
	}
	if a.balance != nil {
		if c := a.balance.Cmp(o.balance); c != 0 {
			return c > 0
		}
	}
	if a.portions != o.portions {
		return (a.portions > o.portions) != table
	}
	for d := range a.x {
		if a.x[d] != o.x[d] {
			return a.x[d] > o.x[d]
		}
	}
	return false
}

// Small problems of both kinds, every one of them enumerated.
func TestSolveAgreesWithEnumeration(t *testing.T) {
	problems := 2_000
	if os.Getenv("TRENCHER_LONG") != "" {
		problems = 20_000
	}
	for seed := range problems {
		p := smallProblem(uint64(seed))
		plan, err := Solve(context.Background(), p)
		want := enumerate(p)
		if want.balance == nil {
			require.ErrorIs(t, err, ErrNothingFits, "seed %d", seed)
			continue
		}
		require.NoError(t, err, "seed %d", seed)
		require.Equal(t, want.x, plan.Portions, "seed %d", seed)
		require.Equal(t, want.fed, plan.Levels.Fed, "seed %d", seed)
		require.Zero(t, want.use.Cmp(plan.Levels.UseFirst), "seed %d: use first", seed)
		require.Zero(t, want.balance.Cmp(plan.Levels.Balance), "seed %d: balance", seed)
		require.Equal(t, want.portions, plan.Levels.Portions, "seed %d", seed)
	}
}

// smallProblem is one that can be enumerated: at most three dishes and four lots.
func smallProblem(seed uint64) Problem {
	r := rand.New(rand.NewPCG(seed, 5))
	size := randomSize{
		dishes: 1 + r.IntN(3), lots: 1 + r.IntN(4), crops: 1 + r.IntN(2), guests: 1 + r.IntN(5),
		table: r.IntN(2) == 0, yields: r.IntN(3) == 0, fussy: true,
	}
	p := randomProblem(r, size)
	for d := range p.Dishes {
		p.Dishes[d].Largest = min(p.Dishes[d].Largest, 4+r.IntN(6))
	}
	if r.IntN(4) == 0 {
		crop := p.Lots[0].Crop
		p.KeepBack = []KeepBack{{crop, new(big.Rat).Mul(p.onHand(crop), big.NewRat(1, 4))}}
	}
	return p
}
