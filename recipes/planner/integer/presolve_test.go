package integer

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// What presolve makes of columns and rows, by hand.
func TestPresolveByHand(t *testing.T) {
	m := Model{
		Columns: []Column{{Most: 3, Batch: 4}, {Most: 9, Batch: 4}, {Least: 2, Most: 9, Batch: 4}, {Least: 5, Most: 9, Batch: 4}, {Most: 9, Batch: 9, Rank: 2}},
		Rows: []Row{
			atMost(50, 0, 4, 0, 6),                          // even sums: 50 is reached by no 4·y + 6·z with y from 4 or 0, z from 5
			AtMost(9, Times(0, 0), Times(1, 4)),             // cannot bind
			AtMost(8, Times(0, 0), Times(1, 4)),             // can: the last is then nought
			atMost(-1, 0, 0, -1),                            // cannot either: the third is at least 4
			atMost(-5, 0, 0, -1),                            // can
			AtMost(100, Times(30, 1), Times(25, 4)),         // 225 is too much, so 0 is what is left: 4·30 is too much too
			AtMost(131_072, Times(100_000, 1), Times(1, 3)), // 5 to 9
		},
	}
	tight, possible := m.presolve()
	require.True(t, possible)
	require.Equal(t, []Column{{Batch: 4}, {Most: 9, Batch: 4}, {Least: 4, Most: 9, Batch: 4}, {Least: 5, Most: 9, Batch: 4}, {Most: 9, Batch: 9, Rank: 2}}, tight.Columns)
	require.Equal(t, Column{Most: 3, Batch: 4}, m.Columns[0], "the model itself stays")
	require.Equal(t, fmt.Sprint([]Row{
		atMost(50, 0, 4, 0, 6), // 5·4 + 5·6
		AtMost(0, Times(1, 4)),
		atMost(-5, 0, 0, -1),
		AtMost(0, Times(30, 1), Times(25, 4)),
		AtMost(9, Times(100_000, 1), Times(1, 3)),
	}), fmt.Sprint(tight.Rows))

	for _, spoil := range []func(m *Model){
		func(m *Model) { m.Columns[2] = Column{Least: 2, Most: 3, Batch: 4} },
		func(m *Model) { m.Rows = append(m.Rows, AtMost(-1, Times(0, 1))) },
		func(m *Model) { m.Rows = append(m.Rows, AtMost(-1)) },
	} {
		bad := m
		bad.Columns, bad.Rows = append([]Column(nil), m.Columns...), append([]Row(nil), m.Rows...)
		spoil(&bad)
		_, possible := bad.presolve()
		require.False(t, possible)
	}
	require.NotNil(t, m.Rows[1].Terms[0].Coef)
	require.Len(t, m.Rows[1].Terms, 2, "nor are its rows changed")
}

// A row is as tight as whole numbers allow, as long as few enough sums are below its
// limit; else it stays.
func TestReachableByHand(t *testing.T) {
	many := Model{Columns: []Column{{Most: 1}, {Most: 1}, {Least: 1, Most: 3}}}
	for _, c := range []struct {
		about string
		row   Row
		want  int64
	}{
		{"all of it", atMost(12, 5, 7), 12},
		{"less", atMost(11, 5, 7), 7},
		{"a common measure", atMost(23, 10, 14), 14},
		{"with nothing of a column", AtMost(11, Times(5, 0), Times(7, 1), Times(0, 2)), 7},
		{"nothing fits", atMost(4, 5, 7), 0},
		{"a falling column", atMost(11, 5, -7), 11},
		{"below nought", atMost(-1, 5, 7), -1},
		{"nothing in it", AtMost(7, Times(0, 0)), 7},
		{"one that must be there", atMost(17, 5, 0, 4), 17},
		{"one that must be there and leaves less", atMost(16, 5, 0, 4), 13},
		{"one that must be there and does not fit", atMost(3, 1, 0, 4), 3},
		{"one that must be there, a measure above", atMost(30, 6, 0, 31), 30},
		{"as many sums as are listed", atMost(131_072, 100_000, 31_071), 131_071},
		{"one more", atMost(131_073, 100_000, 31_071), 131_073},
		{"as many sums as are listed, by twos", atMost(262_145, 200_000, 62_142), 262_144 - 2},
		{"a column far beyond the limit", AtMost(9, Times(5, 0), Term{1, new(big.Int).Lsh(big.NewInt(3), 90)}), 5},
	} {
		require.Equal(t, c.want, many.reachable(c.row).Int64(), c.about)
	}
	huge := new(big.Int).Lsh(big.NewInt(1), 80)
	require.Equal(t, huge, many.reachable(Row{terms(3, 5), huge}))
}

// Whole models: presolve leaves exactly the solutions there were.
func TestPresolveKeepsEverySolution(t *testing.T) {
	for seed := range uint64(600) {
		m := randomModel(rand.New(rand.NewPCG(seed, 36)))
		want := everySolution(&m)
		tight, possible := m.presolve()
		if !possible {
			require.Empty(t, want, seed)
			continue
		}
		require.Equal(t, want, everySolution(tight), seed)
		for _, r := range tight.Rows {
			require.True(t, tight.binds(r), "seed %d: a row that nothing breaks", seed)
		}
	}
}

// What shares a row, or a goal that cannot be taken apart, stays together.
func TestGroups(t *testing.T) {
	levels := func(goals ...Goal) (list []Level) {
		for _, g := range goals {
			list = append(list, Level{Goal: g})
		}
		return list
	}
	far := Minimum{AtMost(1, Times(1, 0)), AtMost(1, Times(1, 3))}
	for _, c := range []struct {
		about string
		m     Model
		want  [][]int
	}{
		{"nothing", Model{}, [][]int{{0}, {1}, {2}, {3}}},
		{"rows", Model{Rows: []Row{AtMost(1, Times(1, 3), Times(1, 1)), AtMost(1, Times(1, 2), Times(1, 3)), AtMost(1)}}, [][]int{{0}, {1, 2, 3}, nil, nil}},
		{"rows that meet late", Model{Rows: []Row{AtMost(1, Times(1, 2), Times(1, 3)), AtMost(1, Times(1, 0), Times(1, 1)), AtMost(1, Times(1, 3), Times(1, 1))}}, [][]int{{0, 1, 2, 3}, nil, nil, nil}},
		{"a sum", Model{Levels: levels(Linear{Terms: terms(1, 1)})}, [][]int{{0}, {1}, {2}, {3}}},
		{"a sum of which there can be enough", Model{Levels: levels(Linear{Terms: terms(1, 1), Enough: big.NewInt(1)})}, [][]int{{0, 1}, nil, {2}, {3}}},
		{"minima", Model{Levels: levels(Concave{Minima: []Minimum{far, {AtMost(1, Times(1, 1))}}})}, [][]int{{0, 3}, {1}, {2}, nil}},
		{"minima in whole steps", Model{Levels: levels(Concave{Minima: []Minimum{far, {AtMost(1, Times(1, 1))}}, Whole: big.NewInt(2)})}, [][]int{{0, 1, 3}, nil, {2}, nil}},
		{"fair shares and an order", Model{Levels: levels(MaxMin{Shares: []Share{{Column: 0, Weight: big.NewInt(1)}, {Column: 1, Weight: big.NewInt(1)}}}, InOrder{[]int{2, 3}})}, [][]int{{0}, {1}, {2}, {3}}},
		{"a repair that nobody knows", Model{Repair: func([]int64) {}}, [][]int{{0, 1, 2, 3}, nil, nil, nil}},
		{"hidden rows", Model{Separate: func([]float64) []Row { return nil }}, [][]int{{0, 1, 2, 3}, nil, nil, nil}},
	} {
		c.m.Columns = repeated(4, 1)
		require.Equal(t, c.want, c.m.groups(), c.about)
	}
}

// Slacks are the same whether they are reckoned in machine words or not, and are
// reckoned in words wherever nothing can overflow.
func TestSlacks(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 38))
	words := 0
	for range 4_000 {
		row := Row{Limit: big.NewInt(r.Int64() >> r.IntN(63))}
		x := make([]int64, 1+r.IntN(4))
		for j := range x {
			coef := new(big.Int).Lsh(big.NewInt(r.Int64N(1<<20)-1<<19), uint(r.IntN(28)))
			row.Terms = append(row.Terms, Term{j, coef})
			x[j] = r.Int64N(MostValue+1) >> r.IntN(21)
		}
		want := new(big.Int).Sub(row.Limit, added(row, x))
		var sum, term big.Int
		require.Zero(t, want.Cmp(row.slack(x, &sum, &term)))
		require.Equal(t, want.Sign() < 0, row.breaks(x, &sum, &term))
		if s, ok := row.small(x); ok {
			words++
			require.Equal(t, want.Int64(), s)
		}
	}
	require.Greater(t, words, 1_000)

	bit := func(n uint) *big.Int { return new(big.Int).Lsh(big.NewInt(1), n) }
	less := func(n *big.Int) *big.Int { return new(big.Int).Sub(n, big.NewInt(1)) }
	for _, c := range []struct {
		about string
		row   Row
		x     int64
		small bool
	}{
		{"a limit of 61 bits", Row{terms(1), less(bit(61))}, 0, true},
		{"a limit of 62", Row{terms(1), bit(61)}, 0, false},
		{"a coefficient of 41 bits", Row{[]Term{{0, less(bit(41))}}, big.NewInt(1)}, 1, true},
		{"one of 42", Row{[]Term{{0, bit(41)}}, big.NewInt(1)}, 1, false},
		{"one of 42 that counts for nothing", Row{[]Term{{0, bit(41)}}, big.NewInt(1)}, 0, true},
		{"as high as may be", Row{terms(-1), less(bit(61))}, 1, true},
		{"higher", Row{terms(-1), less(bit(61))}, 2, false},
		{"as low as may be", Row{[]Term{{0, bit(40)}}, new(big.Int)}, MostValue, true},
		{"lower", Row{[]Term{{0, new(big.Int).Add(bit(40), bit(40))}}, big.NewInt(0)}, MostValue + 1, false},
	} {
		_, ok := c.row.small([]int64{c.x})
		require.Equal(t, c.small, ok, c.about)
	}
	low := Row{terms(1, 1), new(big.Int).Neg(less(bit(61)))}
	_, ok := low.small([]int64{1, 0})
	require.True(t, ok)
	_, ok = low.small([]int64{1, 1})
	require.False(t, ok)
}

// What counts for a goal of whole multiples, below and above nought.
func TestWholeMultiples(t *testing.T) {
	for v, want := range map[int64]int64{0: 0, 4: 0, 5: 5, 9: 5, 10: 10, -1: -5, -5: -5, -6: -10} {
		require.Equal(t, want, multipleBelow(big.NewInt(v), big.NewInt(5)).Int64(), v)
		require.Equal(t, v, multipleBelow(big.NewInt(v), nil).Int64())
	}
	steps, all := objective{whole: big.NewInt(5)}, objective{}
	require.Equal(t, []int64{15, 10, 0, 11}, []int64{steps.above(big.NewInt(10)).Int64(), steps.above(big.NewInt(9)).Int64(), steps.above(big.NewInt(-5)).Int64(), all.above(big.NewInt(10)).Int64()})
	require.Equal(t, []int64{5, 1}, []int64{steps.unit().Int64(), all.unit().Int64()})
}

func TestKeeps(t *testing.T) {
	m := Model{Columns: []Column{{Most: 9, Batch: 3}, {Least: 1, Most: 4}}, Rows: []Row{atMost(10, 1, 2)}}
	for _, c := range []struct {
		x    []int64
		want bool
	}{
		{[]int64{8, 1}, true}, {[]int64{0, 4}, true}, {[]int64{9, 1}, false}, {[]int64{2, 1}, false}, {[]int64{3, 0}, false}, {[]int64{0, 5}, false},
		{[]int64{10, 1}, false}, {[]int64{-1, 1}, false}, {[]int64{3}, false}, {[]int64{3, 1, 0}, false}, {nil, false},
	} {
		require.Equal(t, c.want, Keeps(m, c.x), c.x)
	}
	m.Separate = func(x []float64) []Row {
		if x[0] > 5 {
			return []Row{atMost(5, 1), atMost(9, 0, 1)} // the second it keeps
		}
		return []Row{atMost(9, 0, 1)}
	}
	require.False(t, Keeps(m, []int64{6, 1}))
	require.True(t, Keeps(m, []int64{5, 1}), "told a row that it keeps")
	m.Separate = func([]float64) []Row { return []Row{{}} }
	require.False(t, Keeps(m, []int64{5, 1}), "rows that are none keep nothing")
}
