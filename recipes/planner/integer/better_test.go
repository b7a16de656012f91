package integer

import (
	"context"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// Whether there is a better solution than one known is said as every point of the box
// tried says it, of random programs, of some in two pieces and of some with lids; what
// is found is better at the first level at which it differs.
func TestBetterAgreesWithEnumeration(t *testing.T) {
	found := map[bool]int{}
	for seed := range volume(600) {
		r := rand.New(rand.NewPCG(seed, 14))
		m := randomModel(r)
		switch seed % 3 {
		case 1:
			m = sideBySide(m, randomModel(r))
			m.Levels = []Level{{Goal: someGoal(r, &m)}, {Goal: someGoal(r, &m)}}
		case 2:
			m = liddedModel(r)
		}
		m.Levels = slices.DeleteFunc(m.Levels, func(l Level) bool { _, ordered := l.Goal.(InOrder); return ordered })
		if size(m) > 20_000 {
			continue
		}
		all := everySolution(&m)
		if len(all) == 0 {
			continue
		}
		m.Start = all[r.IntN(len(all))]
		_, best := bestOf(&m, all)
		for _, p := range []patience{usual, hasty} {
			got, err := m.solve(context.Background(), Limits{Nodes: 20_000, Better: true}, p)
			if beats(&m, m.Start, best) == 0 {
				require.NoError(t, err, seed)
				require.Zero(t, beats(&m, got.X, best), seed)
				found[false]++
				continue
			}
			require.ErrorIs(t, err, ErrBetter, seed)
			require.True(t, Keeps(m, got.X), seed)
			var start []*big.Rat
			for _, l := range m.Levels {
				start = append(start, worthOf(&m, l.Goal, m.Start))
			}
			require.Positive(t, beats(&m, got.X, start), seed)
			found[true]++
		}
	}
	require.Greater(t, found[true], 100)
	require.Greater(t, found[false], 100)
}

// beats compares what a solution comes to, level by level, with what is given.
func beats(m *Model, x []int64, worth []*big.Rat) int {
	for i, l := range m.Levels {
		if c := worthOf(m, l.Goal, x).Cmp(worth[i]); c != 0 {
			return c
		}
	}
	return 0
}

// There has to be something to be better than, and an order of columns is not looked at.
func TestBetterThanWhat(t *testing.T) {
	m := Model{Columns: repeated(2, 9), Rows: []Row{atMost(9, 1, 1)}, Levels: []Level{{Goal: Linear{Terms: terms(1, 1)}}, {Goal: InOrder{Columns: []int{0, 1}}}}}
	_, err := Solve(context.Background(), m, Limits{Better: true})
	require.ErrorIs(t, err, ErrModel)
	require.ErrorContains(t, err, "nothing to be better than")
	m.Start = []int64{2, 7}
	got, err := Solve(context.Background(), m, Limits{Better: true})
	require.NoError(t, err)
	require.Equal(t, m.Start, got.X)
	m.Start = []int64{2, 6}
	got, err = Solve(context.Background(), m, Limits{Better: true})
	require.ErrorIs(t, err, ErrBetter)
	require.Equal(t, int64(9), got.X[0]+got.X[1])
}
