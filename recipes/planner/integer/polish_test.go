package integer

import (
	"context"
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
)

// An incumbent is bettered column by column: up where the goal wants more, from 0 by a
// whole batch, down where it wants less and from a batch to 0, and never past a row.
func TestPolish(t *testing.T) {
	columns := []Column{{Most: 9}, {Most: 9, Batch: 3}, {Most: 9, Batch: 2}, {Least: 1, Most: 9}, {Most: 9}}
	p := &program{columns: columns, rows: []Row{atMost(10, 1, 1)}, lids: make([]lid, 5), listed: make([]bool, 5), asked: -1}
	work := &budget{limit: 99}
	s := &search{ctx: context.Background(), prog: p, columns: columns, goal: over(5, terms(1, 2, -1, -1, 0)), work: work,
		best: []int64{6, 0, 3, 3, 4}, worth: big.NewInt(0)}
	s.polish()
	require.Equal(t, []int64{9, 0, 0, 1, 4}, s.best, "the batch of 3 no longer fits beside the 9")
	require.Equal(t, int64(8), s.worth.Int64())
	require.Equal(t, 3+1+1+1+1, work.found[bettered], "6 to 9; 3 to 2 to 0; 3 to 2 to 1")

	s.best, s.worth = []int64{7, 0, 0, 1, 0}, big.NewInt(6)
	s.columns = []Column{{Most: 7}, columns[1], columns[2], columns[3], columns[4]}
	s.polish()
	require.Equal(t, []int64{7, 3, 0, 1, 0}, s.best)

	s.prog.repair = func(x []int64) { x[4] = 5 }
	s.best, s.worth = []int64{6, 0, 0, 1, 0}, big.NewInt(5)
	s.polish()
	require.Equal(t, []int64{7, 3, 0, 1, 5}, s.best, "what a column brings with it is mended")

	s.best = nil
	s.polish()
	require.Nil(t, s.best)
}

// A point is far from a value when neither could its bound be no better nor a column be
// narrowed: here 2x + y with x + y ≤ 12 stands at 9 and 3, and one y more costs 0, one
// x less 1.
func TestIsFarFrom(t *testing.T) {
	p := &program{columns: repeated(2, 9), rows: []Row{atMost(12, 1, 1)}, asked: -1}
	tab := newTableau(p)
	tab.aim(over(2, terms(2, 1)))
	require.Equal(t, optimal, tab.reoptimise(&budget{}))
	require.InDelta(t, 21, tab.claims()*4, 1e-9, "in fours")
	require.True(t, tab.isFarFrom(big.NewInt(11)), "9 of x less still come to 12")
	require.False(t, tab.isFarFrom(big.NewInt(12)), "only just")
	require.False(t, tab.isFarFrom(big.NewInt(13)), "x is at least 1")
	require.False(t, tab.isFarFrom(big.NewInt(21)))
	require.False(t, tab.isFarFrom(big.NewInt(30)))
}

// What a search aims at follows its incumbent.
func TestTarget(t *testing.T) {
	s := &search{goal: objective{whole: big.NewInt(5)}, worth: big.NewInt(10)}
	require.Equal(t, int64(15), s.target().Int64())
	require.Equal(t, int64(15), s.target().Int64())
	s.worth = big.NewInt(20)
	require.Equal(t, int64(25), s.target().Int64())
}

// Ways in which a column is above nought and below its batch are left out.
func TestListingsKeepBatches(t *testing.T) {
	c := choicesOf([]int32{0, 1, 2, 3, 2, 0, 4}, 0, 1)
	require.Equal(t, []int64{0, 1, 2, 3, 4}, c.values)
	for _, at := range []struct {
		low, high, batch int64
		left             bitset
	}{
		{0, 9, 0, bitset{0b1111111}},
		{0, 9, 3, bitset{0b1101001}},
		{0, 3, 3, bitset{0b0101001}},
		{1, 9, 3, bitset{0b1001000}},
		{1, 3, 0, bitset{0b0011110}},
		{0, 2, 3, bitset{0b0100001}},
		{5, 9, 0, bitset{0}},
	} {
		left := bitset{0b1111111}
		c.within(left, at.low, at.high, at.batch)
		require.Equal(t, at.left, left, at)
	}
	c = choicesOf([]int32{2, 3}, 0, 1)
	left := bitset{0b11}
	c.within(left, 0, 1, 0)
	require.True(t, left.empty(), "none is so low")
}
