package integer

import (
	"context"
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestModelsThatAreNone(t *testing.T) {
	good := func() Model {
		return Model{Columns: binaries(2), Rows: []Row{atMost(1, 1, 1)}, Levels: []Level{{Goal: Linear{Terms: terms(1, 1)}}}}
	}
	goal := func(g Goal) func(m *Model) { return func(m *Model) { m.Levels[0].Goal = g } }
	for _, c := range []struct {
		name  string
		spoil func(m *Model)
		says  string
	}{
		{"no columns", func(m *Model) { m.Columns = nil }, "it has no columns"},
		{"bounds crossed", func(m *Model) { m.Columns[1].Least = 2 }, "column 1 runs from 2 to 1"},
		{"below nothing", func(m *Model) { m.Columns[0].Least = -1 }, "column 0 runs from -1"},
		{"too large", func(m *Model) { m.Columns[0].Most = MostValue + 1 }, "column 0 runs from 0 to 1048577"},
		{"a batch below nothing", func(m *Model) { m.Columns[0].Batch = -1 }, "in batches of -1"},
		{"a row of no column", func(m *Model) { m.Rows[0].Terms[1].Column = 2 }, "row 0: not an integer program: there is no column 2"},
		{"a row without a limit", func(m *Model) { m.Rows[0].Limit = nil }, "it has no limit"},
		{"a column without a coefficient", func(m *Model) { m.Rows[0].Terms[1].Coef = nil }, "column 1 has no coefficient"},
		{"a column twice in a row", func(m *Model) { m.Rows[0].Terms[1].Column = 0 }, "column 0 stands there twice"},
		{"no goal", goal(nil), "level 0 has no goal"},
		{"a goal of no column", goal(Linear{Terms: terms(1, 1, 1)}), "level 0: not an integer program: there is no column 2"},
		{"a minimum of nothing", goal(Concave{Minima: []Minimum{{}}}), "a minimum of no rows"},
		{"a minimum of no column", goal(Concave{Minima: []Minimum{{atMost(1, 0, 0, 1)}}}), "there is no column 2"},
		{"multiples of nothing", goal(Concave{Whole: new(big.Int)}), "whole multiples of nothing"},
		{"a share without a weight", goal(MaxMin{Shares: []Share{{Column: 1}}}), "column 1 has no weight"},
		{"a share of nothing", goal(MaxMin{}), "a share of nothing"},
		{"a share of no column", goal(MaxMin{Shares: []Share{{Column: 5, Weight: big.NewInt(1)}}}), "there is no column 5"},
		{"an order of nothing", goal(InOrder{}), "an order of nothing"},
		{"an order of no column", goal(InOrder{[]int{0, -1}}), "there is no column -1"},
		{"a short start", func(m *Model) { m.Start = []int64{0} }, "its start has 1 of 2 columns"},
		{"a start that breaks a row", func(m *Model) { m.Start = []int64{1, 1} }, "its start is no solution"},
		{"a start out of bounds", func(m *Model) { m.Start = []int64{0, 2} }, "its start is no solution"},
		{"a start that a hidden row forbids", func(m *Model) {
			m.Start = []int64{1, 0}
			m.Separate = func([]float64) []Row { return []Row{atMost(0, 1)} }
		}, "its start is no solution"},
		{"a hidden row of no column", func(m *Model) {
			m.Separate = func([]float64) []Row { return []Row{atMost(0, 0, 0, 1)} }
		}, "there is no column 2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := good()
			c.spoil(&m)
			got, err := Solve(context.Background(), m, Limits{})
			require.ErrorIs(t, err, ErrModel)
			require.ErrorContains(t, err, c.says)
			require.Nil(t, got.X)
		})
	}
	_, err := Solve(context.Background(), good(), Limits{})
	require.NoError(t, err)
}

func TestProgramsWithoutASolution(t *testing.T) {
	for _, c := range []struct {
		name string
		m    Model
	}{
		{"rows against each other", Model{Columns: repeated(2, 9), Rows: []Row{atMost(3, 1, 1), atLeast(4, 1, 1)}}},
		{"a batch above the most", Model{Columns: []Column{{Least: 1, Most: 3, Batch: 5}}}},
		{"a row of nothing", Model{Columns: binaries(1), Rows: []Row{atMost(-1)}}},
		{"a row of zeros", Model{Columns: binaries(1), Rows: []Row{AtMost(-1, Times(0, 0))}}},
		{"a gap between batches", Model{Columns: []Column{{Most: 9, Batch: 4}}, Rows: []Row{atMost(3, 1), atLeast(1, 1)}}},
		{"one piece of two", Model{Columns: repeated(2, 9), Rows: []Row{atMost(3, 1), atMost(8, 0, 2), atLeast(9, 0, 2)}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := Solve(context.Background(), c.m, Limits{})
			require.ErrorIs(t, err, ErrInfeasible)
			require.Nil(t, got.X)
			require.False(t, got.Proven)
		})
	}
}

// Repair turns rounded points into solutions, and what it makes is not trusted:
// a repair that always offers what no row allows does no harm.
func TestRepair(t *testing.T) {
	m := Model{
		Columns: []Column{{Most: 9}, {Most: 9}, {Most: 1, Rank: 1}},
		// the third is 1 exactly if the first two come to more than 5
		Rows:   []Row{atMost(5, 1, 1, -13), atLeast(0, 1, 1, -6), atMost(11, 2, 3)},
		Levels: []Level{{Goal: Linear{Terms: terms(2, 3, -1)}}},
	}
	want, err := Solve(context.Background(), m, Limits{})
	require.NoError(t, err)
	require.Equal(t, "11", want.Levels[0].Value.RatString())
	calls := 0
	m.Repair = func(x []int64) {
		calls++
		x[2] = min(1, (x[0]+x[1])/6)
	}
	got, err := Solve(context.Background(), m, Limits{})
	require.NoError(t, err)
	require.Equal(t, want.Levels, got.Levels)
	require.Positive(t, calls)
	m.Repair = func(x []int64) { x[0], x[1], x[2] = 9, 9, 1 }
	got, err = Solve(context.Background(), m, Limits{})
	require.NoError(t, err)
	require.Equal(t, want.Levels, got.Levels)
}

// What a level has enough of, a later one may give up again; what it has not is
// kept, and the same goal asked again costs nothing.
func TestEnough(t *testing.T) {
	both := func(enough int64) Level { return Level{Goal: Linear{Terms: terms(1, 1), Enough: big.NewInt(enough)}} }
	m := Model{Columns: repeated(2, 9), Rows: []Row{atMost(7, 1, 1)},
		Levels: []Level{both(4), {Goal: Linear{Terms: terms(-1, -2)}}}}
	got, err := Solve(context.Background(), m, Limits{})
	require.NoError(t, err)
	require.Equal(t, []int64{4, 0}, got.X)
	m.Levels[0] = both(8)
	got, err = Solve(context.Background(), m, Limits{})
	require.NoError(t, err)
	require.Equal(t, []int64{7, 0}, got.X)
	nodes := got.Nodes
	m.Levels = append(m.Levels, both(9))
	got, err = Solve(context.Background(), m, Limits{})
	require.NoError(t, err)
	require.Equal(t, nodes, got.Nodes)
}

// A fair share among the columns that are not 0, worked by hand: 10 in all, the
// third wants three times as much as the others and at least 9 at once.
func TestFairShareOfWhatIsMade(t *testing.T) {
	fair := MaxMin{Shares: []Share{{Column: 0, Weight: big.NewInt(1)}, {Column: 1, Weight: big.NewInt(1)}, {Column: 2, Weight: big.NewInt(3)}}, OrZero: true}
	all := Level{Goal: Linear{Terms: terms(1, 1, 1)}}
	m := Model{Columns: []Column{{Most: 9}, {Most: 9}, {Most: 9, Batch: 9}}, Rows: []Row{atMost(10, 1, 1, 1)},
		Levels: []Level{all, {Goal: fair}}}
	got, err := Solve(context.Background(), m, Limits{})
	require.NoError(t, err)
	require.Equal(t, []int64{5, 5, 0}, got.X)
	require.Equal(t, "5", got.Levels[1].Value.RatString())
	fair.OrZero = false
	m.Levels[1].Goal = fair
	got, err = Solve(context.Background(), m, Limits{})
	require.NoError(t, err)
	require.Equal(t, "0", got.Levels[1].Value.RatString(), "someone is left with nothing")
	fair.OrZero = true
	m.Levels = []Level{{Goal: Linear{Terms: terms(-1, -1, -1)}}, {Goal: fair}}
	got, err = Solve(context.Background(), m, Limits{})
	require.NoError(t, err)
	require.Equal(t, "9", got.Levels[1].Value.RatString(), "nothing is made: the largest most ÷ weight")
}

// Worked by hand: two columns that nothing ties, at most 1 and 3, wished for as 2
// to 4. One of the first is half its wish; without it the second alone comes to
// 3/4, which is no multiple of the first one's 1/2.
func TestFairShareIsNoMultipleOfAPiecesOwn(t *testing.T) {
	fair := MaxMin{Shares: []Share{{Column: 0, Weight: big.NewInt(2)}, {Column: 1, Weight: big.NewInt(4)}}, OrZero: true}
	m := Model{Columns: []Column{{Most: 1}, {Most: 3}}, Levels: []Level{{Goal: fair}, {Goal: Linear{Terms: terms(1, 1)}}}}
	for _, m.Start = range [][]int64{nil, {0, 0}, {1, 0}, {1, 3}, {0, 3}} {
		got, err := Solve(context.Background(), m, Limits{})
		require.NoError(t, err)
		require.Equal(t, []int64{0, 3}, got.X, m.Start)
		require.Equal(t, "3/4", got.Levels[0].Value.RatString())
	}
}

// The same model gives the same answer, and the same search.
func TestSameModelSameSearch(t *testing.T) {
	for seed := range uint64(5) {
		first, err := Solve(context.Background(), marketSplit(seed, 14), Limits{Nodes: 500})
		again, err2 := Solve(context.Background(), marketSplit(seed, 14), Limits{Nodes: 500})
		require.Equal(t, err, err2)
		require.Equal(t, first, again)
	}
}
