package integer

import (
	"context"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// marketSplit asks to split n products so that two totals are met exactly; the
// miss is what is left to minimise. Such programs are hard for branch and bound
// (G. Cornuéjols and M. Dawande, A class of hard small 0-1 programs, INFORMS
// Journal on Computing 11, 1999; numbers drawn here).
func marketSplit(seed uint64, n int) Model {
	r := rand.New(rand.NewPCG(seed, 1))
	m := Model{Columns: binaries(n)}
	var miss []Term
	for range 2 {
		coefs := make([]int64, n)
		half := int64(0)
		for j := range coefs {
			coefs[j] = int64(r.IntN(100))
			half += coefs[j]
		}
		half /= 2
		over, under := len(m.Columns), len(m.Columns)+1
		m.Columns = append(m.Columns, Column{Most: 5_000, Rank: 1}, Column{Most: 5_000, Rank: 1})
		row := append(terms(coefs...), Times(-1, over), Times(1, under))
		m.Rows = append(m.Rows, AtMost(half, row...), AtLeast(half, row...))
		miss = append(miss, Times(-1, over), Times(-1, under))
	}
	m.Levels = []Level{{Goal: Linear{Terms: miss}}}
	return m
}

func TestStopsAtTheNodeLimit(t *testing.T) {
	m := marketSplit(1, 30)
	got, err := Solve(context.Background(), m, Limits{Nodes: 60})
	require.ErrorIs(t, err, ErrNodeLimit)
	require.False(t, got.Proven)
	require.LessOrEqual(t, got.Nodes, 60)
	require.Positive(t, got.Pivots)
	require.True(t, m.holds(got.X))
	require.LessOrEqual(t, got.Levels[0].Value.Cmp(got.Levels[0].Bound), 0)
	require.LessOrEqual(t, got.Levels[0].Bound.Sign(), 0, "a miss is never negative")
}

func TestStopsWhenTheCallerGivesUp(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	m := marketSplit(1, 10)
	got, err := Solve(ctx, m, Limits{})
	require.ErrorIs(t, err, context.Canceled)
	require.Nil(t, got.X, "no start, and no time to find one")
	m.Start = make([]int64, len(m.Columns))
	for i, row := range []Row{m.Rows[0], m.Rows[2]} {
		m.Start[11+2*i] = row.Limit.Int64() // nothing chosen: all of it missed
	}
	got, err = Solve(ctx, m, Limits{})
	require.ErrorIs(t, err, context.Canceled)
	require.Equal(t, m.Start, got.X)
	require.False(t, got.Proven)
}

// A level with nodes of its own gives up alone: it is held at what it reached,
// and the next is still solved.
func TestLevelsHaveBudgetsOfTheirOwn(t *testing.T) {
	m := marketSplit(2, 30)
	m.Levels[0].Nodes = 40
	chosen := terms(repeatedCoefs(30, 1)...)
	m.Levels = append(m.Levels, Level{Goal: Linear{Terms: chosen}, Nodes: 40})
	first := m
	first.Levels = m.Levels[:1]
	alone, err := Solve(context.Background(), first, Limits{})
	require.ErrorIs(t, err, ErrNodeLimit)
	got, err := Solve(context.Background(), m, Limits{Nodes: 100_000})
	require.ErrorIs(t, err, ErrNodeLimit)
	require.False(t, got.Levels[0].Proven)
	require.GreaterOrEqual(t, got.Levels[0].Value.Cmp(alone.Levels[0].Value), 0, "what was reached is not given up")
	require.NotNil(t, got.Levels[1].Bound, "the second level was taken up")
	require.Greater(t, got.Nodes, alone.Nodes)
	require.LessOrEqual(t, got.Nodes, alone.Nodes+40)
}

func repeatedCoefs(n int, coef int64) []int64 {
	list := make([]int64, n)
	for j := range list {
		list[j] = coef
	}
	return list
}

// Levels after one that ran out of the whole budget have values and no bounds.
func TestLaterLevelsAreNotReached(t *testing.T) {
	m := marketSplit(3, 30)
	m.Levels = append(m.Levels, Level{Goal: InOrder{[]int{0, 1}}}, Level{Goal: MaxMin{Shares: []Share{{Column: 0, Weight: big.NewInt(1)}}}})
	got, err := Solve(context.Background(), m, Limits{Nodes: 50})
	require.ErrorIs(t, err, ErrNodeLimit)
	for _, later := range got.Levels[1:] {
		require.NotNil(t, later.Value)
		require.Nil(t, later.Bound)
		require.False(t, later.Proven)
	}
}

// distances is the market split told without columns for the miss: how far each
// total lies from its half, as a least of two slacks.
func distances(seed uint64, n int) Model {
	split := marketSplit(seed, n)
	m := Model{Columns: binaries(n)}
	var goal Concave
	for i := 0; i < len(split.Rows); i += 2 {
		var both Minimum
		for _, r := range split.Rows[i : i+2] {
			both = append(both, Row{r.Terms[:len(r.Terms)-2], r.Limit})
		}
		goal.Minima = append(goal.Minima, both)
	}
	m.Levels = []Level{{Goal: goal}}
	return m
}

// Two ways to write the same hard problem have the same answer.
func TestDistancesAgreeWithMisses(t *testing.T) {
	for seed := range uint64(6) {
		miss, err := Solve(context.Background(), marketSplit(seed, 11), Limits{})
		require.NoError(t, err)
		distance, err := Solve(context.Background(), distances(seed, 11), Limits{})
		require.NoError(t, err)
		require.Equal(t, miss.Levels[0].Value.RatString(), distance.Levels[0].Value.RatString())
	}
}

// Each kind of goal tells how far it may be from its best when it is stopped
// while it is being searched.
func TestEveryGoalCanBeStopped(t *testing.T) {
	near := marketSplit(5, 20) // all that misses by 40 at the most
	for i := range near.Rows {
		near.Rows[i].Limit = new(big.Int).Add(near.Rows[i].Limit, big.NewInt(40))
	}
	near.Levels = nil
	free, err := Solve(context.Background(), near, Limits{})
	require.NoError(t, err)
	near.Start = free.X
	asking := func(g Goal) Model {
		m := near
		m.Levels = []Level{{Goal: g}}
		return m
	}
	for _, c := range []struct {
		name string
		m    Model
	}{
		{"linear", marketSplit(5, 30)},
		{"concave", distances(5, 30)},
		{"fair", asking(MaxMin{Shares: []Share{{Column: 20, Weight: big.NewInt(3)}, {Column: 22, Weight: big.NewInt(2)}}})},
		{"in order", asking(InOrder{[]int{3, 1, 4, 15, 9, 2, 6}})},
	} {
		t.Run(c.name, func(t *testing.T) {
			nodes := 100
			if c.m.Start != nil {
				nodes = 3
			}
			got, err := Solve(context.Background(), c.m, Limits{Nodes: nodes})
			require.ErrorIs(t, err, ErrNodeLimit)
			require.True(t, c.m.holds(got.X))
			reached := got.Levels[0]
			require.False(t, reached.Proven)
			require.Positive(t, reached.Bound.Cmp(reached.Value))
		})
	}
}
