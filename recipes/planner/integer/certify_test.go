package integer

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// solved is the relaxation of a program at its best for 3x + 2y + …, and what it
// proves.
func solved(p *program, coefs ...int64) (*tableau, *certifier) {
	t := newTableau(p)
	t.aim(over(len(p.columns), terms(coefs...)))
	t.reoptimise(&budget{})
	return t, newCertifier(t.shape)
}

// The whole of it by hand: the most of 3x + 2y with x + y ≤ 4, both from 0 to 9, is 12
// at (4, 0). One y costs one x: it is worth 2 − 3 = −1. So with 11 as the least, y may
// be 1 at the most; with 9, up to 3.
func TestSqueezeByHand(t *testing.T) {
	for _, c := range []struct {
		least int64
		most  int64 // of y
		held  float64
	}{
		{12, 0, 0}, // nothing is left to spare
		{11, 1, 1}, // 1 to spare, of which y at its most takes all
		{9, 3, 1},  // 3
		{4, 8, 1},  // 8
		{3, 9, 1},  // 9, and y could take 9
		{2, 9, 0.9},
		{13, 9, 0}, // more than there is: that is for judge to say
	} {
		p := &program{columns: repeated(2, 9), rows: []Row{atMost(4, 1, 1)}, asked: -1}
		tab, cert := solved(p, 3, 2)
		bound, shut := cert.judge(tab, optimal, nil)
		require.Equal(t, int64(12), bound.Int64())
		require.False(t, shut)
		cert.squeeze(tab, big.NewInt(c.least))
		require.Equal(t, []int64{0, 0, 9, c.most}, []int64{tab.low[0], tab.low[1], tab.high[0], tab.high[1]}, c.least)
		require.Equal(t, c.held, cert.held(tab, big.NewInt(c.least)), c.least)
	}
	// the same from above: as little as can be of 3x + 2y with x + y ≥ 4 is 8 at (0, 4)
	p := &program{columns: []Column{{Most: 4}, {Most: 4, Batch: 3}}, rows: []Row{atLeast(4, 1, 1)}, asked: -1}
	tab, cert := solved(p, -3, -2)
	cert.judge(tab, optimal, nil)
	cert.squeeze(tab, big.NewInt(-10))
	require.Equal(t, int64(2), tab.high[0], "one more of x is 1 more: 10 allows two")
	require.Equal(t, int64(0), tab.low[1], "y costs nothing against x")
}

// A node is shut exactly where its bound is no more than what is known, in what
// counts.
func TestJudgeByHand(t *testing.T) {
	p := &program{columns: repeated(2, 4), rows: []Row{atMost(9, 2, 2)}, asked: -1}
	tab, cert := solved(p, 3, 3) // 13.5 at best
	for worth, shuts := range map[int64]bool{12: false, 13: true, 14: true} {
		bound, shut := cert.judge(tab, optimal, big.NewInt(worth))
		require.Equal(t, int64(13), bound.Int64())
		require.Equal(t, shuts, shut, worth)
	}
	tab.shape.goal.whole = big.NewInt(5)
	for worth, shuts := range map[int64]bool{5: false, 9: false, 10: true} { // 13 counts for 10
		_, shut := cert.judge(tab, optimal, big.NewInt(worth))
		require.Equal(t, shuts, shut, worth)
	}

	p = &program{columns: repeated(2, 4), rows: []Row{atMost(3, 1, 1), atLeast(4, 1, 1)}, asked: -1}
	tab, cert = solved(p, 1, 1)
	bound, shut := cert.judge(tab, infeasible, nil)
	require.Nil(t, bound)
	require.True(t, shut)
}

// A column that is narrowed to below a batch is nought; one that has to be above
// nought is a batch.
func TestRestrictBatch(t *testing.T) {
	for _, c := range []struct{ low, high, batch, wantLow, wantHigh int64 }{
		{0, 5, 3, 0, 5}, {0, 3, 3, 0, 3}, {0, 2, 3, 0, 0}, {1, 5, 3, 3, 5}, {4, 5, 3, 4, 5}, {2, 5, 0, 2, 5}, {0, 5, 0, 0, 5},
	} {
		tab := newTableau(&program{columns: repeated(1, 9), asked: -1})
		restrictBatch(tab, 0, c.low, c.high, c.batch)
		require.Equal(t, [2]int64{c.wantLow, c.wantHigh}, [2]int64{tab.low[0], tab.high[0]}, c)
		require.Equal(t, [2]float64{float64(c.wantLow), float64(c.wantHigh)}, [2]float64{tab.lo[0], tab.hi[0]}, c)
	}
}

// Whatever the multipliers are, no point of the box that keeps the rows comes to more
// than the bound, nor is one with as much as is asked for squeezed out; a program that
// is proven to have no point has none.
func TestBoundsHoldForAnyMultipliers(t *testing.T) {
	shuts, squeezed := 0, 0
	for seed := range uint64(600) {
		r := rand.New(rand.NewPCG(seed, 34))
		c := randomCornered(r)
		st := c.t.reoptimise(&budget{})
		for j := range c.t.price { // as rounding could have left them
			if r.IntN(3) == 0 {
				c.t.price[j] += r.Float64() - 0.5
			}
		}
		if r.IntN(4) == 0 && len(c.t.basic) > 0 {
			st, c.t.stuck, c.t.upward = infeasible, r.IntN(len(c.t.basic)), r.IntN(2) == 0
		}
		cert := newCertifier(c.t.shape)
		bound, shut := cert.judge(c.t, st, nil)
		least := big.NewInt(int64(r.IntN(60) - 20))
		if bound != nil {
			cert.squeeze(c.t, least)
		}
		everyPoint(c.p.columns, func(x []int64) {
			if !c.p.keeps(x) {
				return
			}
			require.False(t, shut, "seed %d: %v is a point", seed, x)
			value := c.p.value(c.goal, x)
			if bound == nil {
				return
			}
			require.LessOrEqual(t, value.Cmp(bound), 0, "seed %d: %v comes to %v", seed, x, value)
			for j, v := range x {
				if value.Cmp(least) >= 0 {
					require.True(t, c.t.low[j] <= v && v <= c.t.high[j], "seed %d: %v is squeezed out", seed, x)
				}
			}
		})
		if shut {
			shuts++
		}
		for j, column := range c.p.columns {
			if c.t.low[j] > column.Least || c.t.high[j] < column.Most {
				squeezed++
			}
		}
	}
	require.Greater(t, shuts, 20)
	require.Greater(t, squeezed, 100)
}

// A minimum has no bounds of its own: the multipliers of its rows have to come to as
// much as it counts for. The largest takes the difference, or nothing can be said.
func TestMinimaBalance(t *testing.T) {
	p := &program{columns: repeated(1, 9), asked: -1}
	p.minima = []Minimum{{atMost(10, 1), atMost(20, 2), atMost(5)}}
	p.floors = []floor{{minima: []int{0}, least: big.NewInt(-8)}}
	tab := newTableau(p)
	tab.aim(objective{minima: []int{0}})
	for _, c := range []struct {
		about  string
		given  []int64 // by row of the minimum
		floor  int64
		want   []int64
		sound  bool
		total  int64
		worths int64 // of one more of the column
	}{
		{"as it should be", []int64{1, 0, 0}, 0, []int64{1, 0, 0}, true, 10, -1},
		{"nothing said: all of it on the first", []int64{0, 0, 0}, 0, []int64{1, 0, 0}, true, 10, -1},
		{"too little", []int64{0, 0, -1}, 0, []int64{2, 0, -1}, true, 15, -2},
		{"too much", []int64{1, 4, 2}, 0, []int64{1, -2, 2}, false, 0, 0},
		{"too much, and the largest can do without", []int64{0, 4, 0}, 0, []int64{0, 1, 0}, true, 20, -2},
		{"one too much, and the largest is then none", []int64{1, 1, 0}, 0, []int64{0, 1, 0}, true, 20, -2},
		{"the floor asks for two more", []int64{0, 1, 0}, 2, []int64{0, 3, 0}, true, 76, -6},
	} {
		cert := newCertifier(tab.shape)
		for i, n := range c.given {
			cert.multiplier[i].SetInt64(n)
		}
		cert.multiplier[3].SetInt64(c.floor)
		require.Equal(t, c.sound, cert.sum(tab, 0, true), c.about)
		for i, n := range c.want {
			require.Equal(t, n, cert.multiplier[i].Int64(), c.about)
		}
		if c.sound {
			require.Equal(t, c.worths, cert.reduced[0].Int64(), c.about)
			require.Equal(t, c.total, cert.total.Int64(), c.about) // x counts for less than nothing, and stands at 0
		}
	}
}

// Where nothing else is known, a bound comes from the box alone.
func TestBoxBound(t *testing.T) {
	p := &program{columns: []Column{{Least: 1, Most: 4}, {Most: 5}}, rows: []Row{atMost(6, 1, 1)}, asked: -1}
	tab, cert := solved(p, 3, -2)
	require.Equal(t, int64(12), cert.boxBound(tab).Int64())

	p = &program{columns: repeated(1, 9), asked: -1}
	p.minima = []Minimum{{atMost(10, 1), atMost(12, 2)}}
	p.floors = []floor{{minima: []int{0}, least: big.NewInt(-8)}}
	tab = newTableau(p)
	tab.aim(objective{minima: []int{0}})
	tab.reoptimise(&budget{})
	require.Equal(t, int64(10), newCertifier(tab.shape).boxBound(tab).Int64())
	for i := range 2 { // prices gone wild: they balance no more
		tab.take(i, 0)
		slack := tab.shape.slack(i)
		row := tab.where[slack]
		tab.where[slack] = ^0
		tab.basic[row] = 0
	}
	tab.price[0] = -3
	cert = newCertifier(tab.shape)
	bound, _ := cert.judge(tab, optimal, nil)
	require.Nil(t, bound, "nothing can be said")
	require.Equal(t, int64(10), cert.boxBound(tab).Int64(), "but for the box")
}

func TestMultipliers(t *testing.T) {
	require.Equal(t, int64(1)<<40, multiplier(1))
	require.Equal(t, int64(1)<<39, multiplier(0.5))
	require.Equal(t, int64(1)<<60, multiplier(1<<20))
	require.Equal(t, int64(1)<<60, multiplier(1<<21), "no larger")
	require.Equal(t, int64(1)<<59, multiplier(1<<19))
	require.Equal(t, int64(1), multiplier(math.Ldexp(0.6, -40)))
	require.Zero(t, multiplier(math.Ldexp(0.4, -40)))
	require.Zero(t, multiplier(-1))
	require.Zero(t, multiplier(0))
}

func TestTooBig(t *testing.T) {
	for a, big := range map[float64]bool{0: false, 0.99e12: false, -0.99e12: false, 1e12: true, -1e12: true, math.Inf(1): true, math.Inf(-1): true} {
		require.Equal(t, big, tooBig(a), a)
	}
	require.True(t, tooBig(math.NaN()))
}

func TestBitLengths(t *testing.T) {
	require.Equal(t, 4, widest([]*big.Int{big.NewInt(3), big.NewInt(-9), big.NewInt(7)}))
	require.Zero(t, widest(nil))
	require.Equal(t, 4, bitsOf(terms(3, -9, 7)))
	require.Zero(t, bitsOf(nil))
}
