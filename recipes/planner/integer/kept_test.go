package integer

import (
	"context"
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
)

// A candidate has to be what this search asks of its columns, and to keep all rows.
func TestAllows(t *testing.T) {
	p := &program{columns: repeated(2, 9), rows: []Row{atMost(9, 1, 1)}, cuts: []Row{atMost(7, 1, 1)}, floors: []floor{{minima: []int{0}, least: big.NewInt(2)}}, minima: []Minimum{{atLeast(0, 1)}}}
	s := &search{prog: p, columns: []Column{{Most: 5}, {Most: 9, Batch: 2}}}
	for _, c := range []struct {
		x    []int64
		want bool
	}{{[]int64{5, 2}, true}, {[]int64{6, 0}, false}, {[]int64{5, 1}, false}, {[]int64{5, 3}, false}, {[]int64{2, 0}, true}, {[]int64{1, 0}, false}} {
		require.Equal(t, c.want, s.allows(c.x), c.x)
	}
	p.cuts[0] = atMost(99, 1, 1)
	require.True(t, s.allows([]int64{5, 4}))
	require.False(t, s.allows([]int64{5, 5}))
}

// An incumbent that is none is found out.
func TestCorruptIncumbents(t *testing.T) {
	p := &program{columns: repeated(2, 9), rows: []Row{atMost(9, 1, 1)}, asked: -1, listed: make([]bool, 2)}
	s := newSession(context.Background(), p, &budget{patience: usual, limit: 99}, nil)
	_, _, err := s.climb(over(2, terms(1, 1)), []int64{9, 9}, big.NewInt(18))
	require.ErrorIs(t, err, errCorrupt)
	_, found, err := s.climb(over(2, terms(1, 1)), []int64{9, 0}, big.NewInt(9))
	require.NoError(t, err)
	require.True(t, found)
}

// What is left to be had of a goal that has reached 7, and of how it is held.
func TestBestLeftAndKept(t *testing.T) {
	m := Model{Columns: repeated(2, 9), Levels: []Level{{Goal: Linear{Terms: terms(1, 1)}}}}
	for _, c := range []struct {
		open    int64 // nought: nothing is known
		stopped error
		want    int64
	}{{0, ErrNodeLimit, 7}, {9, ErrNodeLimit, 9}, {7, ErrNodeLimit, 7}, {5, ErrNodeLimit, 7}, {9, nil, 7}} {
		p := newPart(context.Background(), &m, []int{0, 1}, &budget{})
		if c.open > 0 {
			p.open = big.NewInt(c.open)
		}
		require.Equal(t, c.want, p.bestLeft(big.NewInt(7), c.stopped).Int64(), c)
	}
	for _, c := range []struct {
		enough  int64
		proven  bool
		limit   int64
		settled bool
	}{{0, true, -7, true}, {0, false, -7, false}, {8, true, -7, true}, {7, true, -7, true}, {6, true, -6, false}} {
		p := newPart(context.Background(), &m, []int{0, 1}, &budget{})
		var enough *big.Int
		if c.enough > 0 {
			enough = big.NewInt(c.enough)
		}
		a := &p.aims[0]
		p.keep(a, big.NewInt(7), enough, c.proven)
		require.Equal(t, c.limit, p.prog.rows[a.row].Limit.Int64(), c)
		require.Equal(t, c.settled, p.settled[a.row], c)
		require.Equal(t, float64(-c.limit)/2, p.base.lo[p.base.shape.slack(a.row)], c)
		p.keep(a, big.NewInt(3), nil, true)
		require.Equal(t, c.limit, p.prog.rows[a.row].Limit.Int64(), "held, and not let go again")
	}
}

// Where rounding has spoilt a relaxation, which shows in a bound far above what it
// claims, it is made afresh, once.
func TestSpoiltRelaxationsAreMadeAfresh(t *testing.T) {
	for worth, shuts := range map[int64]bool{11: false, 12: true} {
		p := &program{columns: repeated(2, 9), rows: []Row{atMost(4, 1, 1)}, asked: -1}
		s, tab := searchOf(p, over(2, terms(3, 2))) // 12
		s.worth = big.NewInt(worth)
		st, bound, shut := s.relax(tab)
		require.Equal(t, []any{optimal, int64(12), shuts}, []any{st, bound.Int64(), shut})
		require.Equal(t, 1, s.work.afresh, "when it was begun")
		for j := range tab.price {
			tab.price[j] /= 3
		}
		st, bound, shut = s.relax(tab)
		require.Equal(t, []any{optimal, int64(12), shuts}, []any{st, bound.Int64(), shut})
		require.Equal(t, 2, s.work.afresh)
	}
}

// The first solution that is better bounds nothing: another may be better still.
func TestBetterBoundsNothing(t *testing.T) {
	m := Model{Columns: repeated(3, 9), Rows: []Row{atMost(11, 2, 2, 1)}, Levels: []Level{{Goal: Linear{Terms: terms(3, 2, 1)}}, {Goal: Linear{Terms: terms(0, 0, 1)}}}, Start: []int64{0, 0, 0}}
	got, err := Solve(context.Background(), m, Limits{Better: true})
	require.ErrorIs(t, err, ErrBetter)
	require.Positive(t, got.Levels[0].Value.Sign())
	require.Nil(t, got.Levels[0].Bound)
	best, err := Solve(context.Background(), m, Limits{})
	require.NoError(t, err)
	m.Start = best.X
	got, err = Solve(context.Background(), m, Limits{Better: true})
	require.NoError(t, err)
	require.Equal(t, best.Levels[0].Value.RatString(), got.Levels[0].Bound.RatString(), "nothing is better: that is one")
}
