package integer

import (
	"context"
	"math/big"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

// volume is how many random programs a test draws: ten times as many with
// TRENCHER_LONG.
func volume(n int) uint64 {
	if os.Getenv("TRENCHER_LONG") != "" {
		n *= 10
	}
	return uint64(n)
}

// requireBest wants a proven answer that is one of the best solutions, or the
// word that there is none.
func requireBest(t *testing.T, m Model, about any) {
	t.Helper()
	best, worth := bestOf(&m, everySolution(&m))
	for _, p := range []patience{usual, hasty} {
		requireOneOf(t, m, p, best, worth, about)
	}
}

// hasty does at once what is usually done only where a program proves hard.
var hasty = patience{try: 1, tryWhole: 1, ask: 1}

func requireOneOf(t *testing.T, m Model, p patience, best [][]int64, worth []*big.Rat, about any) {
	t.Helper()
	got, err := m.solve(context.Background(), Limits{Nodes: 20_000}, p)
	if len(best) == 0 {
		require.ErrorIs(t, err, ErrInfeasible, about)
		return
	}
	require.NoError(t, err, about)
	require.True(t, got.Proven, about)
	require.Contains(t, best, got.X, about)
	for i, l := range m.Levels {
		require.True(t, got.Levels[i].Proven, about)
		require.Zero(t, worth[i].Cmp(worthOf(&m, l.Goal, got.X)), about)
		require.Zero(t, got.Levels[i].Bound.Cmp(got.Levels[i].Value), about)
		if _, ordered := l.Goal.(InOrder); !ordered {
			require.GreaterOrEqual(t, got.Levels[i].Value.Cmp(worth[i]), 0, about)
		}
	}
}

// Random programs with goals of every kind, every point of the box tried.
func TestAgreesWithEnumeration(t *testing.T) {
	for seed := range volume(2_500) {
		requireBest(t, randomModel(rand.New(rand.NewPCG(seed, 4))), seed)
	}
}

// Programs that fall into pieces are solved piece by piece, and level by level
// together: what one piece reaches bounds what the other is asked for.
func TestPiecesAgreeWithEnumeration(t *testing.T) {
	for seed := range volume(500) {
		r := rand.New(rand.NewPCG(seed, 6))
		m := sideBySide(randomModel(r), randomModel(r))
		if size(m) > 50_000 {
			continue
		}
		m.Levels = nil
		for range 1 + r.IntN(3) {
			m.Levels = append(m.Levels, Level{Goal: someGoal(r, &m)})
		}
		requireBest(t, m, seed)
	}
}

// Programs in which columns are 0 unless a 0/1 column is 1, as few of which as can be
// are asked for: what rounding and drawing in are for.
func TestLidsAgreeWithEnumeration(t *testing.T) {
	for seed := range volume(400) {
		r := rand.New(rand.NewPCG(seed, 10))
		m := liddedModel(r)
		if size(m) <= 20_000 {
			requireBest(t, m, seed)
		}
	}
}

// liddedModel draws portions of a few dishes from a crop or two, each with the word
// that it is made.
func liddedModel(r *rand.Rand) Model {
	var m Model
	var portions, made []int
	for range 3 + r.IntN(2) {
		most := int64(1 + r.IntN(6))
		portions, made = append(portions, len(m.Columns)), append(made, len(m.Columns)+1)
		m.Columns = append(m.Columns, Column{Most: most, Batch: int64(1 + r.IntN(2)), Rank: 1}, Column{Most: 1})
		x := Times(1, portions[len(portions)-1])
		m.Rows = append(m.Rows, AtMost(0, x, Times(-most, made[len(made)-1])), AtLeast(0, x, Times(-1, made[len(made)-1])))
	}
	for range 1 + r.IntN(2) {
		row := Row{Limit: big.NewInt(int64(20 + r.IntN(100)))}
		for _, x := range portions {
			if r.IntN(4) > 0 {
				row.Terms = append(row.Terms, Times(int64(5+r.IntN(30)), x))
			}
		}
		m.Rows = append(m.Rows, row)
	}
	all := func(n int64, columns []int) (list []Term) {
		for _, j := range columns {
			list = append(list, Times(n, j))
		}
		return list
	}
	var shares []Share
	for i, x := range portions {
		shares = append(shares, Share{Column: x, Weight: big.NewInt(int64(1 + r.IntN(2))), Sign: made[i]})
	}
	enough := Linear{Terms: all(1, portions), Enough: big.NewInt(int64(r.IntN(12)))}
	goals := []Goal{enough, Linear{Terms: all(-1, made)}, Linear{Terms: all(-1, portions)}, MaxMin{Shares: shares, OrZero: true}, InOrder{Columns: portions}}
	if r.IntN(2) == 0 {
		goals[0] = Linear{Terms: all(1, portions)}
	}
	if r.IntN(3) == 0 {
		goals = append(goals, someGoal(r, &m))
	}
	for _, g := range goals {
		m.Levels = append(m.Levels, Level{Goal: g})
	}
	return m
}

func sideBySide(a, b Model) Model {
	n := len(a.Columns)
	a.Columns = append(a.Columns, b.Columns...)
	for _, row := range b.Rows {
		moved := Row{Limit: row.Limit}
		for _, term := range row.Terms {
			moved.Terms = append(moved.Terms, Term{term.Column + n, term.Coef})
		}
		a.Rows = append(a.Rows, moved)
	}
	return a
}

func size(m Model) int64 {
	points := int64(1)
	for _, c := range m.Columns {
		points *= c.Most - c.Least + 1
	}
	return points
}

// Rows that are told only once they are broken give the same answer as rows
// that are written down.
func TestSeparatedRowsAgreeWithEnumeration(t *testing.T) {
	for seed := range volume(1_500) {
		m := randomModel(rand.New(rand.NewPCG(seed, 8)))
		best, worth := bestOf(&m, everySolution(&m))
		hidden := m.Rows
		m.Rows = nil
		m.Separate = func(x []float64) []Row { return brokenAt(hidden, x) }
		got, err := Solve(context.Background(), m, Limits{Nodes: 20_000})
		if len(best) == 0 {
			require.ErrorIs(t, err, ErrInfeasible, seed)
			continue
		}
		require.NoError(t, err, seed)
		require.Contains(t, best, got.X, seed)
		for i, l := range m.Levels {
			require.Zero(t, worth[i].Cmp(worthOf(&m, l.Goal, got.X)), seed)
		}
	}
}

func brokenAt(rows []Row, x []float64) []Row {
	var broken []Row
	for _, r := range rows {
		sum, _ := new(big.Float).SetInt(r.Limit).Float64()
		for _, t := range r.Terms {
			coef, _ := new(big.Float).SetInt(t.Coef).Float64()
			sum -= coef * x[t.Column]
		}
		if sum < 0 {
			broken = append(broken, r)
		}
	}
	return broken
}

// Numbers beyond any machine word change nothing.
func TestLargeNumbersAgreeWithEnumeration(t *testing.T) {
	for seed := range volume(500) {
		r := rand.New(rand.NewPCG(seed, 10))
		m := randomModel(r)
		for i := range m.Rows {
			factor := new(big.Int).Exp(big.NewInt(7), big.NewInt(int64(r.IntN(60))), nil)
			m.Rows[i].Limit = new(big.Int).Mul(m.Rows[i].Limit, factor)
			// anything less than one step more is the same row
			m.Rows[i].Limit.Add(m.Rows[i].Limit, new(big.Int).Sub(factor, big.NewInt(1)))
			for k, term := range m.Rows[i].Terms {
				m.Rows[i].Terms[k].Coef = new(big.Int).Mul(term.Coef, factor)
			}
		}
		requireBest(t, m, seed)
	}
}

// A search that is stopped hands out a solution, and a bound that holds.
func TestBoundsHoldWhenStopped(t *testing.T) {
	stopped := 0
	for seed := range volume(2_000) {
		r := rand.New(rand.NewPCG(seed, 12))
		m := randomModel(r)
		all := everySolution(&m)
		got, err := Solve(context.Background(), m, Limits{Nodes: 1 + r.IntN(3)})
		if err == nil || got.X == nil {
			continue
		}
		stopped++
		require.ErrorIs(t, err, ErrNodeLimit, seed)
		require.False(t, got.Proven, seed)
		require.Contains(t, all, got.X, seed)
		for i, l := range m.Levels {
			best, worth := bestOf(&Model{Columns: m.Columns, Levels: m.Levels[:i+1]}, all)
			reached := got.Levels[i]
			if _, ordered := l.Goal.(InOrder); reached.Proven {
				require.Zero(t, worth[i].Cmp(worthOf(&m, l.Goal, got.X)), seed)
				continue
			} else if ordered {
				break // its bound is that of one column
			}
			require.NotNil(t, reached.Bound, seed)
			require.GreaterOrEqual(t, reached.Bound.Cmp(worth[i]), 0, seed)
			require.LessOrEqual(t, reached.Value.Cmp(reached.Bound), 0, seed)
			require.NotEmpty(t, best)
			break
		}
	}
	require.Greater(t, stopped, 200)
}

// What a question asked on the way to a fair share is not kept: the levels after
// it have every solution that is as fair.
func TestQuestionsAreNotKept(t *testing.T) {
	for seed := range volume(1_500) {
		r := rand.New(rand.NewPCG(seed, 28))
		m := randomModel(r)
		for j := range m.Columns {
			m.Columns[j] = Column{Most: int64(3 + r.IntN(4)), Batch: int64(1 + r.IntN(3))}
		}
		g := MaxMin{OrZero: true}
		for j := range m.Columns {
			g.Shares = append(g.Shares, Share{Column: j, Weight: big.NewInt(int64(1 + r.IntN(2)))})
		}
		some := AtLeast(int64(1+r.IntN(6)), someTerms(r, &m, 4, 0)...)
		m.Rows = append(m.Rows, some)
		m.Levels = []Level{{Goal: g}, {Goal: Linear{Terms: someTerms(r, &m, 15, 7)}}, {Goal: Linear{Terms: someTerms(r, &m, 15, 7)}}}
		requireBest(t, m, seed)
	}
}
