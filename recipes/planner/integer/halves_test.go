package integer

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// How many ways there are to a sum is told exactly where each bucket is one sum, by
// trying every point.
func TestAboutHowManyWaysExactly(t *testing.T) {
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 61))
		columns := []Column{{Most: int64(r.IntN(6))}, {Most: int64(3 + r.IntN(6)), Batch: 3}, {Least: 2, Most: int64(2 + r.IntN(4))}}
		b := aSpan(r, columns, 9)
		b.high = r.Int64N(buckets)
		low := max(0, b.high-2-r.Int64N(20))
		want := 0.0
		for _, x := range everySolution(&Model{Columns: columns}) {
			if sum := b.steps[0]*x[0] + b.steps[1]*x[1] + b.steps[2]*x[2]; sum >= low && sum <= b.high {
				want++
			}
		}
		if low > b.high-2 { // the three highest buckets are counted at least
			continue
		}
		require.Equal(t, want, b.about(columns, low), seed)
	}
}

// Of coarser sums it is about right: within a half of what meeting in the middle finds.
func TestAboutHowManyWays(t *testing.T) {
	for seed := range uint64(50) {
		r := rand.New(rand.NewPCG(seed, 62))
		p := &program{columns: repeated(6, 12), listed: make([]bool, 6)}
		b := span{ways: listing{tried: -1}}
		for j := range p.columns {
			b.cols, b.steps = append(b.cols, j), append(b.steps, 80_000+r.Int64N(100_000))
		}
		b.high = 2_000_000
		low := b.high - 4_000
		require.True(t, p.list(&b, low))
		require.InEpsilon(t, len(b.ways.sums), b.about(p.columns, low), 0.5, seed)
	}
}

// A column with very many values is left to the count of its ways.
func TestAboutManyValues(t *testing.T) {
	p, b := lined(mostHalves + 1)
	require.Zero(t, b.about(p.columns, 0))
	p, b = lined(mostHalves)
	require.NotZero(t, b.about(p.columns, 0))
}

// The columns are dealt out so that both halves can be chosen in about as many ways.
func TestHalvesAreAlike(t *testing.T) {
	p := &program{columns: []Column{{Most: 99}, {Most: 9}, {Least: 3, Most: 12}, {Most: 11, Batch: 3}, {Most: 99}}}
	b := span{cols: []int{0, 1, 2, 3, 4}, steps: []int64{1, 1, 1, 1, 10}, high: 500}
	b.part(p.columns, &p.halves)
	require.Equal(t, []int{0, 2}, p.halves[0].of, "a hundred times ten")
	require.Equal(t, []int{4, 1, 3}, p.halves[1].of, "51 times ten times ten")
}

// Many ways to choose half the columns are gone through only at length, and what was
// given up for that alone is then tried again.
func TestListedAtLength(t *testing.T) {
	p := &program{columns: repeated(6, 29), listed: make([]bool, 6)}
	b := span{ways: listing{tried: -1}, high: 29 * 6_000_000}
	for j := range p.columns {
		b.cols, b.steps = append(b.cols, j), append(b.steps, 1_000_000+int64(j*j)*10_007)
		b.high += 29 * int64(j*j) * 10_007
	}
	low := b.high - 3_500_000
	require.False(t, p.list(&b, low), "27,000 ways of each half")
	require.True(t, b.ways.short)
	require.False(t, p.list(&b, low), "and once is enough")
	p.atLength = true
	require.True(t, p.list(&b, low))
	require.Equal(t, b.high, b.ways.sums[0])
	for _, listed := range p.listed {
		require.True(t, listed)
	}
	for _, sum := range b.ways.sums {
		require.GreaterOrEqual(t, sum, low)
	}
}
