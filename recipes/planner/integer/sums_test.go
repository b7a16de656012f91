package integer

import (
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// members lists the numbers of a set written as bits.
func members(set *big.Int) []int64 {
	var list []int64
	for i := range set.BitLen() {
		if set.Bit(i) == 1 {
			list = append(list, int64(i))
		}
	}
	return list
}

func TestSumsOfOneColumn(t *testing.T) {
	for _, c := range []struct {
		name   string
		column Column
		step   uint
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
			require.Equal(t, c.want, members(c.column.sums(big.NewInt(1), ones(size), c.step, size)))
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
			b.steps = append(b.steps, uint(1+r.IntN(9)))
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
		widest := uint(0)
		for k, s := range b.steps {
			if p.columns[k].Least < p.columns[k].Most {
				widest = max(widest, s)
			}
		}
		if uint(b.high-low) >= widest {
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
