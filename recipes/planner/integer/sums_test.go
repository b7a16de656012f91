package integer

import (
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// members lists the numbers of a set that are below size.
func members(set bitset, size int) []int64 {
	var list []int64
	for i := range size {
		if set[i/64]>>(i%64)&1 == 1 {
			list = append(list, int64(i))
		}
	}
	return list
}

// Sets of numbers do what lists of them do, whatever the distance, also one that
// leads out of the set.
func TestBitsets(t *testing.T) {
	for seed := range uint64(500) {
		r := rand.New(rand.NewPCG(seed, 28))
		size := 1 + r.IntN(200)
		set, other := bitsetOf(uint(size)), bitsetOf(uint(size))
		for range r.IntN(8) {
			set.add(uint(r.IntN(size)))
			other.add(uint(r.IntN(size)))
		}
		n := []uint64{0, 1, 63, 64, 65, uint64(r.IntN(size)), uint64(size), 1 << 40}[r.IntN(8)]
		moved := func(by int64, with bool) []int64 {
			hit := map[int64]bool{}
			for _, m := range members(set, size) {
				if v := m + by; v >= 0 && v < int64(size) {
					hit[v] = true
				}
				hit[m] = hit[m] || with
			}
			var list []int64
			for v := range int64(size) {
				if hit[v] {
					list = append(list, v)
				}
			}
			return list
		}
		try := func(change func(b bitset), want []int64) {
			t.Helper()
			b := slices.Clone(set)
			change(b)
			require.Equal(t, want, members(b, size), "seed %d, %d", seed, n)
		}
		try(func(b bitset) { b.raise(n) }, moved(int64(n), true))
		try(func(b bitset) { b.setRaised(set, n) }, moved(int64(n), false))
		try(func(b bitset) { b.lower(n) }, moved(-int64(n), true))
		try(func(b bitset) { b.setLowered(set, n) }, moved(-int64(n), false))

		set.cut(uint(size))
		require.Equal(t, slices.ContainsFunc(moved(int64(n), false), func(v int64) bool { return slices.Contains(members(other, size), v) }),
			other.meets(set, n), seed)
		require.Equal(t, len(members(set, size)) == 0, set.empty())
		if list := members(set, size); list != nil {
			require.Equal(t, uint(list[len(list)-1]), set.highest())
		}
		low := r.IntN(size)
		high := low + r.IntN(size-low)
		whole := bitsetOf(uint(size))
		whole.addRange(uint(low), uint(high))
		for _, v := range members(whole, size) {
			require.True(t, int(v) >= low && int(v) <= high)
		}
		require.Len(t, members(whole, size), high-low+1)
	}
}

// Sums too many to list are counted coarsely: no point that comes to the value is
// lost.
func TestCoarseSpansLoseNothing(t *testing.T) {
	narrower := 0
	for seed := range uint64(400) {
		r := rand.New(rand.NewPCG(seed, 29))
		p := &program{columns: []Column{{Most: int64(1 + r.IntN(6))}, {Most: int64(2 + r.IntN(6)), Batch: 2}, {Most: int64(1 + r.IntN(6))}}}
		row := Row{Limit: big.NewInt(r.Int64N(1000))}
		for j := range p.columns {
			row.Terms = append(row.Terms, Times(-(1<<40+r.Int64N(1<<41)), j))
		}
		all := everySolution(&Model{Columns: p.columns})
		aim := all[1+r.IntN(len(all)-1)] // a point that must not be lost
		value := row.slack(aim, new(big.Int), new(big.Int))
		value = new(big.Int).Sub(value, big.NewInt(r.Int64N(1<<30)))
		most := new(big.Int).Add(new(big.Int).Sub(value, row.Limit), big.NewInt(1<<31))
		b, ok := newSpan(0, &row, most)
		require.True(t, ok)
		require.NotNil(t, b.lost)
		tab := newTableau(p)
		wide := tab.high[0] + tab.high[1] + tab.high[2]
		low := new(big.Int).Sub(value, b.loss(tab))
		require.True(t, b.narrow(tab, b.sumFor(low)), seed)
		for _, x := range all {
			sum := new(big.Int).Sub(row.slack(x, new(big.Int), new(big.Int)), row.Limit)
			if sum.Cmp(most) > 0 || sum.Cmp(new(big.Int).Sub(value, row.Limit)) < 0 {
				continue
			}
			for j := range x {
				require.True(t, x[j] >= tab.low[j] && x[j] <= tab.high[j], "seed %d: %v", seed, x)
			}
		}
		if tab.high[0]+tab.high[1]+tab.high[2] < wide {
			narrower++
		}
	}
	require.Greater(t, narrower, 100, "and most that do not are")
}

func TestSumsOfOneColumn(t *testing.T) {
	for _, c := range []struct {
		name   string
		column Column
		step   uint64
		want   []int64
	}{
		{"from nothing", Column{Most: 3}, 2, []int64{0, 2, 4, 6}},
		{"by batches", Column{Most: 5, Batch: 4}, 2, []int64{0, 8, 10}},
		{"at least two", Column{Least: 2, Most: 4}, 3, []int64{6, 9, 12}},
		{"more than fits", Column{Most: 100}, 9, []int64{0, 9, 18}},
		{"a batch that does not fit", Column{Most: 100, Batch: 50}, 1, []int64{0}},
	} {
		t.Run(c.name, func(t *testing.T) {
			const size = 20
			sums, with := bitsetOf(size), bitsetOf(size)
			sums.add(0)
			c.column.sums(with, sums, c.step)
			require.Equal(t, c.want, members(with, size))
		})
	}
}

// The largest sum up to a row's limit, every point of the box tried.
func TestReachableAgreesWithEnumeration(t *testing.T) {
	for seed := range uint64(1_000) {
		r := rand.New(rand.NewPCG(seed, 24))
		m := randomModel(r)
		row := Row{someTerms(r, &m, 20, 0), big.NewInt(int64(r.IntN(120)))}
		want := new(big.Int)
		for _, x := range everySolution(&Model{Columns: m.Columns}) {
			if sum := added(row, x); sum.Cmp(row.Limit) <= 0 && sum.Cmp(want) > 0 {
				want = sum
			}
		}
		least := slices.ContainsFunc(m.Columns, func(c Column) bool { return c.Least > 0 || c.Most < c.Batch })
		if least || row.unit().Sign() == 0 {
			continue // presolve sees to these before
		}
		require.Zero(t, want.Cmp(m.reachable(row)), "seed %d: %v", seed, row)
	}
}

// A column keeps the values with which some point of the box comes to a sum
// within the span, and no other.
func TestSpansAgreeWithEnumeration(t *testing.T) {
	for seed := range uint64(1_000) {
		r := rand.New(rand.NewPCG(seed, 26))
		p := &program{columns: []Column{{Most: int64(r.IntN(6))}, {Most: int64(2 + r.IntN(6)), Batch: 2}, {Least: 1, Most: int64(1 + r.IntN(4))}}}
		b := span{cols: []int{0, 1, 2}}
		for range b.cols {
			b.steps = append(b.steps, uint64(1+r.IntN(9)))
		}
		low := int64(r.IntN(60))
		b.high = low + int64(r.IntN(3))
		seen := make([][]int64, 3)
		for _, x := range everySolution(&Model{Columns: p.columns}) {
			sum := int64(0)
			for k, s := range b.steps {
				sum += int64(s) * x[k]
			}
			if sum < low || sum > b.high {
				continue
			}
			for k := range x {
				seen[k] = append(seen[k], x[k])
			}
		}
		tab := newTableau(p)
		narrowed := b.narrow(tab, low)
		widest := uint64(0)
		for k, s := range b.steps {
			if p.columns[k].Least < p.columns[k].Most {
				widest = max(widest, s)
			}
		}
		if uint64(b.high-low) >= widest {
			continue // left to the relaxation
		}
		require.Equal(t, seen[0] != nil, narrowed, seed)
		for k := range seen {
			if narrowed {
				require.Equal(t, slices.Min(seen[k]), tab.low[k], seed)
				require.Equal(t, slices.Max(seen[k]), tab.high[k], seed)
			}
		}
	}
}
