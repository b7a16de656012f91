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

		set.cut(uint(size))
		require.Equal(t, len(members(set, size)) == 0, set.empty())
		if list := members(set, size); list != nil {
			require.Equal(t, uint(list[len(list)-1]), set.highest())
		}
	}
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

// aSpan draws a span of a few columns whose steps are below most.
func aSpan(r *rand.Rand, columns []Column, most int64) span {
	b := span{ways: listing{tried: -1}}
	for j := range columns {
		b.cols, b.steps = append(b.cols, j), append(b.steps, 1+r.Int64N(most))
	}
	return b
}

// A column keeps the values with which some point of the box comes to a sum
// within the span, and no other; the largest of these sums is told.
func TestSpansAgreeWithEnumeration(t *testing.T) {
	for seed := range uint64(1_000) {
		r := rand.New(rand.NewPCG(seed, 26))
		p := &program{columns: []Column{{Most: int64(r.IntN(6))}, {Most: int64(2 + r.IntN(6)), Batch: 2}, {Least: 1, Most: int64(1 + r.IntN(4))}}}
		p.listed = make([]bool, len(p.columns))
		b := aSpan(r, p.columns, 1+r.Int64N(1<<40))
		all := everySolution(&Model{Columns: p.columns})
		sumOf := func(x []int64) (sum int64) {
			for k, s := range b.steps {
				sum += s * x[k]
			}
			return sum
		}
		low := max(0, sumOf(all[r.IntN(len(all))])-r.Int64N(2))
		b.high = low + r.Int64N(b.steps[0]+3)
		require.True(t, p.list(&b, low))
		require.Equal(t, []bool{true, true, true}, p.listed, "these are branched on first")

		tab := newTableau(p)
		j := r.IntN(3)
		tab.restrict(j, tab.low[j], tab.high[j]-r.Int64N(tab.high[j]-tab.low[j]+1)) // deeper in the search
		if sum := sumOf(all[r.IntN(len(all))]); sum > low && sum <= b.high {
			low = sum // the window's very edge
		} else {
			low += r.Int64N(b.high - low + 1)
		}
		seen, most := make([][]int64, 3), int64(-1)
		for _, x := range all {
			if sum := sumOf(x); x[j] > tab.high[j] || sum < low || sum > b.high {
				continue
			}
			most = max(most, sumOf(x))
			for k := range x {
				seen[k] = append(seen[k], x[k])
			}
		}
		best, ok := b.keep(tab, low)
		require.Equal(t, seen[0] != nil, ok, seed)
		for k := range seen {
			if ok {
				require.Equal(t, most, best, seed)
				require.Equal(t, slices.Min(seen[k]), tab.low[k], seed)
				require.Equal(t, slices.Max(seen[k]), tab.high[k], seed)
			}
		}
	}
}

// What is too much to list is left to the relaxation, until enough is ruled out.
func TestSpansTooWide(t *testing.T) {
	p := &program{columns: slices.Repeat([]Column{{Most: 30}}, 4), listed: make([]bool, 4)}
	b := aSpan(rand.New(rand.NewPCG(1, 1)), p.columns, 1000)
	b.high = 30 * (b.steps[0] + b.steps[1] + b.steps[2] + b.steps[3])
	require.False(t, p.list(&b, 0))
	require.Equal(t, make([]bool, 4), p.listed)
	require.False(t, p.list(&b, b.high/2), "not yet")
	require.Zero(t, b.ways.tried)
	require.False(t, p.list(&b, b.high/2+1), "tried, and too many still")
	require.Equal(t, b.high/2+1, b.ways.tried)
	require.True(t, p.list(&b, b.high-b.steps[0]))
	require.Equal(t, b.high, b.ways.sums[0], "the largest sum first")
	listed := len(b.ways.sums)
	require.True(t, p.list(&b, b.high), "once listed they stay so")
	require.Len(t, b.ways.sums, listed)
	require.True(t, p.list(&b, b.high-2*b.steps[0]))
	require.Greater(t, len(b.ways.sums), listed, "who asks for less than before is told more")
	require.False(t, p.list(&b, 0), "what was listed for more says nothing of less")
}

// What a span's minimum must come to is asked of its sum, rounded the right way.
func TestSumsFor(t *testing.T) {
	b := span{rest: 10, unit: 7}
	require.Equal(t, []int64{0, 0, 1, 1, 2}, []int64{b.sumFor(-99), b.sumFor(10), b.sumFor(11), b.sumFor(17), b.sumFor(18)})
	require.Equal(t, int64(24), b.worth(2))
}

// Numbers too large to count with are no span, and nothing is filtered by them.
func TestSpansOfHugeNumbers(t *testing.T) {
	for _, bits := range []uint{30, 45, 60, 90} {
		coef := new(big.Int).Lsh(big.NewInt(-1), bits)
		limit := new(big.Int).Mul(coef, big.NewInt(-4))
		p := &program{columns: []Column{{Most: 3}, {Most: 3}}}
		p.minima = []Minimum{{{Terms: []Term{{0, coef}, {1, new(big.Int).Add(coef, big.NewInt(1))}}, Limit: new(big.Int)}, {Limit: limit}}}
		p.floors = []floor{{minima: []int{0}, least: new(big.Int)}}
		p.addSpans()
		require.Equal(t, bits == 30, len(p.spans) == 1, bits)
	}
}
