package integer

import (
	"context"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// searchOf is a search of a program for a goal, with its relaxation at its best.
func searchOf(p *program, o objective) (*search, *tableau) {
	if p.listed == nil {
		p.listed = make([]bool, len(p.columns))
	}
	s := newSession(context.Background(), p, &budget{patience: usual, limit: math.MaxInt}, nil)
	run := s.search(o)
	return run, s.root(run)
}

// How much a column asks to be branched on: how far it is from whole, and more in the
// gap below a batch.
func TestUrgency(t *testing.T) {
	for _, c := range []struct {
		batch, low int64
		v, want    float64
	}{
		{0, 0, 2.5, 0.5}, {0, 0, 2.25, 0.25}, {0, 0, 2.75, 0.25}, {0, 0, 2, 0}, {0, 0, 2 + 1e-7, 0}, {0, 0, 3 - 1e-7, 0}, {0, 0, 2 + 1e-5, 1e-5},
		{4, 0, 2, 0.25}, {4, 0, 2.5, 0.75}, {4, 0, 0, 0}, {4, 0, 1e-7, 0}, {4, 0, 4, 0}, {4, 0, 4 - 1e-7, 0}, {4, 0, 4.5, 0.5}, {4, 0, 3.75, 0.5},
		{4, 1, 2, 0}, {4, 1, 2.5, 0.5}, {1, 0, 0.5, 0.75},
	} {
		require.InDelta(t, c.want, urgency(Column{Batch: c.batch}, c.v, c.low), 1e-9, c)
	}
	require.Equal(t, []int{0, 1, 3, 3, 4}, []int{placeOf(9, []float64{7, 5, 5, 2}), placeOf(7, []float64{7, 5, 5, 2}), placeOf(5, []float64{7, 5, 5, 2}), placeOf(3, []float64{7, 5, 5, 2}), placeOf(1, []float64{7, 5, 5, 2})})
}

// Which columns are branched on: of the lowest rank that asks, the most urgent first
// and those alike in their order; where none asks, the first that is not fixed, of the
// lowest rank.
func TestAsking(t *testing.T) {
	for _, c := range []struct {
		about    string
		ranks    []int
		listed   []bool
		at       []float64
		list     []int
		fallback int
	}{
		{"the most urgent first", []int{0, 0, 0, 0}, nil, []float64{1.2, 1.5, 2, 1.8}, []int{1, 0, 3}, 0},
		{"a lower rank before", []int{1, 1, 0, 0}, nil, []float64{1.5, 1.5, 1.1, 1.2}, []int{3, 2}, 2},
		{"a lower rank that asks for nothing", []int{1, 1, 0, 0}, nil, []float64{1.5, 1.4, 1, 2}, []int{0, 1}, 2},
		{"listed with those of rank 0", []int{0, 1, 2, 3}, []bool{false, false, false, true}, []float64{1.5, 1.5, 1.5, 1.5}, []int{0, 3}, 0},
		{"listed before the others", []int{1, 1, 2, 3}, []bool{false, false, false, true}, []float64{1.5, 1.5, 1.5, 1.5}, []int{3}, 3},
		{"listed, of a lower rank", []int{0, -1, 0, 0}, []bool{true, true, false, false}, []float64{1.5, 1.5, 1.5, 1.5}, []int{1}, 1},
		{"none asks", []int{2, 1, 1, 3}, nil, []float64{1, 1, 1, 1}, nil, 1},
		{"below a batch", []int{0, 0, 0, 0}, nil, []float64{1, 4, 4.5, 5}, nil, 0}, // see below
	} {
		p := &program{columns: repeated(4, 9), listed: c.listed, asked: -1}
		for j := range p.columns {
			p.columns[j].Rank = c.ranks[j]
		}
		s, tab := searchOf(p, over(4, terms(1, 1, 1, 1)))
		for j, v := range c.at { // each stands where it is put
			tab.lo[j], tab.hi[j] = v, v
		}
		if c.about == "below a batch" {
			s.columns[0].Batch, c.list = 4, []int{2, 0}
		}
		list, fallback := s.asking(tab)
		require.Equal(t, c.list, list, c.about)
		require.Equal(t, c.fallback, fallback, c.about)
		for j := range tab.low {
			tab.low[j] = tab.high[j]
		}
		list, fallback = s.asking(tab)
		require.Empty(t, list, "all fixed")
		require.Equal(t, -1, fallback)
	}
}

// A node is branched on the relaxation's value of a column that asks, or, where the
// relaxation gave up, on any that is not fixed.
func TestBranchOn(t *testing.T) {
	p := &program{columns: repeated(2, 9), rows: []Row{atMost(11, 2, 2)}, asked: -1}
	s, tab := searchOf(p, over(2, terms(3, 2)))
	j, at := s.branchOn(tab, optimal)
	require.Equal(t, 0, j)
	require.InDelta(t, 5.5, at, 1e-9)
	j, at = s.branchOn(tab, unknown)
	require.Equal(t, 0, j)
	require.InDelta(t, 5.5, at, 1e-9)
	tab.restrict(0, 5, 5)
	j, at = s.branchOn(tab, unknown)
	require.Equal(t, 1, j)
	require.Equal(t, tab.value(1), at)
	tab.restrict(1, 0, 0)
	j, _ = s.branchOn(tab, optimal)
	require.Equal(t, -1, j)
}

// What a branch is worth trying for: mostly the lesser fall of the bound of its two
// sides, and an eighth of the greater. By hand: 3x + 2y with 2x + 2y ≤ 11 and x up to
// 5 is 16 at (5, 1/2); with y = 0 it is 15; with y ≥ 1 it is 13.5 + 2 at (4.5, 1).
func TestProbe(t *testing.T) {
	p := &program{columns: []Column{{Most: 5}, {Most: 9}}, rows: []Row{atMost(11, 2, 2)}, asked: -1}
	s, tab := searchOf(p, over(2, terms(3, 2)))
	scale := math.Ldexp(1, -tab.shape.goalBits)
	require.InDelta(t, (0.5+1.0/8)*scale, s.probe(tab, 1), 1e-9)
	require.Equal(t, 1, s.work.probed)

	p = &program{columns: []Column{{Most: 5}, {Most: 9}}, rows: []Row{atMost(1, 2, 2), atLeast(1, 2, 2)}, asked: -1}
	s, tab = searchOf(p, over(2, terms(3, 2)))
	require.InDelta(t, 0.5*scale+1e6/8, s.probe(tab, 0), 1e-6, "x = 0 leaves y = 1/2, and x ≥ 1 nothing")
}

// A domain is cut in two, the side nearer to the value first; below a batch it is cut
// into nothing and at least a batch.
func TestSplit(t *testing.T) {
	for _, c := range []struct {
		low, high, batch int64
		v                float64
		first, second    interval
	}{
		{0, 9, 0, 3.2, interval{0, 3}, interval{4, 9}},
		{0, 9, 0, 3.5, interval{0, 3}, interval{4, 9}},
		{0, 9, 0, 3.7, interval{4, 9}, interval{0, 3}},
		{0, 9, 0, 3.52, interval{4, 9}, interval{0, 3}},
		{0, 9, 0, 3.48, interval{0, 3}, interval{4, 9}},
		{0, 9, 2, 0.9, interval{0, 0}, interval{2, 9}},
		{0, 9, 2, 1.1, interval{2, 9}, interval{0, 0}},
		{2, 9, 0, 9, interval{9, 9}, interval{2, 8}},
		{2, 9, 0, 1, interval{2, 2}, interval{3, 9}},
		{2, 9, 0, 2, interval{2, 2}, interval{3, 9}},
		{0, 9, 4, 1, interval{0, 0}, interval{4, 9}},
		{0, 9, 4, 2, interval{0, 0}, interval{4, 9}},
		{0, 9, 4, 2.5, interval{4, 9}, interval{0, 0}},
		{0, 9, 4, 3.9, interval{4, 9}, interval{0, 0}},
		{0, 9, 4, 4.2, interval{0, 4}, interval{5, 9}},
		{0, 9, 1, 0.6, interval{1, 9}, interval{0, 0}},
		{1, 9, 4, 2.2, interval{1, 2}, interval{3, 9}},
	} {
		tab := newTableau(&program{columns: []Column{{Least: c.low, Most: c.high, Batch: c.batch}}, asked: -1})
		first, second := tab.split(0, c.v)
		require.Equal(t, [2]interval{c.first, c.second}, [2]interval{first, second}, c)
	}
}

// A point is cut to whole numbers that the columns may be.
func TestRounded(t *testing.T) {
	p := &program{columns: []Column{{Most: 9}, {Most: 9, Batch: 4}, {Most: 9, Batch: 4}, {Least: 2, Most: 3}}, asked: -1}
	tab := newTableau(p)
	for j, v := range []float64{2.6, 3.4, 3.6, 9} {
		tab.lo[j], tab.hi[j] = v, v
	}
	require.Equal(t, []int64{3, 0, 4, 3}, tab.rounded(0.5))
	require.Equal(t, []int64{2, 0, 0, 3}, tab.rounded(tolerance))
	tab.lo[1], tab.hi[1] = 0.7, 0.7
	require.Equal(t, int64(0), tab.rounded(0.5)[1], "one of four is none")
	tab.lo[0], tab.hi[0] = 3-1e-7, 3-1e-7
	require.Equal(t, int64(3), tab.rounded(tolerance)[0], "a hair below a whole number is one")
}

func TestRoundsOfSeparation(t *testing.T) {
	require.Equal(t, []int{20, 6, 6}, []int{roundsAt(0), roundsAt(1), roundsAt(9)})
}

// Nothing better is left under a node whose bound counts for no more than what is
// known; where any solution will do, nothing once there is one.
func TestDone(t *testing.T) {
	s := &search{goal: objective{whole: big.NewInt(5)}}
	require.False(t, s.done(big.NewInt(3)), "nothing is known")
	s.worth = big.NewInt(5)
	require.False(t, s.done(nil))
	require.False(t, s.done(big.NewInt(10)))
	require.True(t, s.done(big.NewInt(9)))
	require.True(t, s.done(big.NewInt(4)))
	s.any = true
	require.False(t, s.done(big.NewInt(10)))
	s.best = []int64{}
	require.True(t, s.done(nil))
}

// Of the nodes given up the best is remembered, in what counts.
func TestLeaveOpen(t *testing.T) {
	p := &program{columns: repeated(2, 9), rows: []Row{atMost(4, 1, 1)}, asked: -1}
	s, tab := searchOf(p, over(2, terms(3, 2))) // 12
	s.goal.whole = big.NewInt(5)
	s.leaveOpen(tab)
	require.Equal(t, int64(10), s.open.Int64())
	tab.restrict(0, 0, 2)
	tab.reoptimise(s.work) // 6 + 4 is 10
	tab.restrict(1, 0, 1)
	tab.reoptimise(s.work) // 8
	s.leaveOpen(tab)
	require.Equal(t, int64(10), s.open.Int64(), "less does not count")
	tab.restrict(0, 0, 9)
	tab.restrict(1, 0, 9)
	s.goal.whole = nil
	s.leaveOpen(tab)
	require.GreaterOrEqual(t, s.open.Int64(), int64(12))
}

// A budget lends its nodes to one search, and takes back what is left.
func TestBudget(t *testing.T) {
	b := &budget{limit: 10, nodes: 4}
	lift := b.capped(3)
	require.Equal(t, 7, b.limit)
	inner := b.capped(9)
	require.Equal(t, 7, b.limit, "no more than what it was lent")
	inner()
	ctx, cancel := context.WithCancel(context.Background())
	for range 3 {
		require.False(t, b.spent())
		require.NoError(t, b.spend(ctx))
	}
	require.True(t, b.spent())
	require.ErrorIs(t, b.spend(ctx), ErrNodeLimit)
	require.Equal(t, 7, b.nodes, "what fails costs nothing")
	lift()
	require.Equal(t, 10, b.limit)
	cancel()
	require.ErrorIs(t, b.spend(ctx), context.Canceled)
	require.Equal(t, 7, b.nodes)
}

// What is gone through of large tableaus counts for as many nodes as small ones take.
func TestLargeTableausCountForMore(t *testing.T) {
	b := &budget{limit: 10, nodes: 4, cells: 4 * cellsPerStep}
	require.Equal(t, 4, b.steps())
	b.cells = 10*cellsPerStep - 1
	require.Equal(t, 9, b.steps())
	require.NoError(t, b.spend(context.Background()))
	lift := b.capped(3)
	require.Equal(t, 10, b.limit, "one is left")
	lift()
	b.cells++
	require.True(t, b.spent())
	require.ErrorIs(t, b.spend(context.Background()), ErrNodeLimit)
}

// A row is written down where the relaxation's point breaks it clearly, by the size
// of its coefficients.
func TestCutsOff(t *testing.T) {
	tab := newTableau(&program{columns: repeated(2, 9), asked: -1})
	for j, v := range []float64{2.5, 1} {
		tab.lo[j], tab.hi[j] = v, v
	}
	for _, c := range []struct {
		row  Row
		want bool
	}{
		{atMost(3, 1, 1), true}, {atMost(4, 1, 1), false}, {atMost(7, 2, 2), false}, {atMost(6, 2, 2), true},
		{AtMost(-1), false}, {atMost(0, -1, 1), false}, {atMost(-2, -1, 1), true},
		{atMost(3_499_000, 1_000_000, 1_000_000), false}, // by a thousandth of a million
		{atMost(3_497_800, 1_000_000, 1_000_000), true},  // by 2,200: 0.0021 of 2^20
		{atMost(3_498_000, 1_000_000, 1_000_000), false}, // by two thousandths: 0.0019 of it
	} {
		require.Equal(t, c.want, tab.cutsOff(&c.row), c.row)
	}
	s, _ := searchOf(&program{columns: repeated(2, 9), asked: -1}, over(2, terms(1, 1)))
	s.writeDown(tab, []Row{atMost(4, 1, 1), atMost(3, 1, 1), atMost(2, 1)})
	require.Len(t, s.prog.cuts, 2)
	require.Equal(t, 2, s.work.written)
}

// Many cuts are carried from one question to the next only while they hold the point.
func TestPurge(t *testing.T) {
	for cuts, left := range map[int]int{199: 199, 200: 1, 250: 1} {
		p := &program{columns: repeated(2, 9), asked: -1, listed: make([]bool, 2)}
		p.cuts = append(p.cuts, atMost(4, 1, 1))
		for len(p.cuts) < cuts {
			p.cuts = append(p.cuts, atMost(int64(10+len(p.cuts)), 1, 1))
		}
		for _, goal := range [][]Term{terms(1, 2), terms(2, 1)} {
			q := *p
			s := newSession(context.Background(), &q, &budget{limit: math.MaxInt}, nil)
			s.base.aim(over(2, goal))
			require.Equal(t, optimal, s.base.reoptimise(s.work))
			s.purge()
			require.Len(t, s.prog.cuts, left, cuts)
			require.Equal(t, atMost(4, 1, 1), s.prog.cuts[0])
		}
		if left == 1 { // one that stands in the relaxation and does not hold the point
			s := newSession(context.Background(), p, &budget{limit: math.MaxInt}, nil)
			s.base.take(0, 4)
			s.purge()
			require.Empty(t, s.prog.cuts)
		}
	}
}

// A relaxation that has gone through many pivots, or has overflowed, is made afresh.
func TestRelaxationsAreMadeAfresh(t *testing.T) {
	p := &program{columns: repeated(2, 9), rows: []Row{atMost(4, 1, 1)}, asked: -1, listed: make([]bool, 2)}
	s := newSession(context.Background(), p, &budget{limit: math.MaxInt}, nil)
	o := over(2, terms(1, 2))
	s.root(s.search(o))
	first := s.base
	s.work.pivots = s.age + 20_000
	s.root(s.search(o))
	require.Same(t, first, s.base, "not yet")
	s.work.pivots = s.age + 20_001
	s.root(s.search(o))
	require.NotSame(t, first, s.base)
	first = s.base
	s.base.broken = true
	s.root(s.search(o))
	require.NotSame(t, first, s.base)
	require.Equal(t, 3, s.work.afresh)
}

// A search for more: the best above what is known, told with its solution; what
// comes to as much is none.
func TestClimb(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 40))
	for range 200 {
		m := randomModel(r)
		m.Levels = nil
		goal := Linear{Terms: someTerms(r, &m, 21, 8)}
		m.Levels = []Level{{Goal: goal}}
		all := everySolution(&m)
		tight, possible := m.presolve()
		if !possible || len(all) == 0 || len(withoutZeros(goal.Terms)) == 0 {
			continue
		}
		columns := make([]int, len(m.Columns))
		for j := range columns {
			columns[j] = j
		}
		_, worth := bestOf(&m, all)
		if len(tight.Rows) > 0 {
			continue // of the box alone, so that one part has all columns
		}
		p := newPart(context.Background(), tight, columns, &budget{patience: usual, limit: 1_000})
		best, found, err := p.climb(p.aims[0].objective, nil, new(big.Int).Sub(worth[0].Num(), big.NewInt(1)))
		require.NoError(t, err)
		require.True(t, found)
		require.Zero(t, best.Cmp(worth[0].Num()))
		require.Zero(t, worthOf(&m, goal, p.x).Cmp(worth[0]))
		best, found, err = p.climb(p.aims[0].objective, nil, worth[0].Num())
		require.NoError(t, err)
		require.False(t, found)
		require.Zero(t, best.Cmp(worth[0].Num()))
	}
}

// A minimum's row and what bounds it may each be too large to count with.
func TestSpansOfLargeLimits(t *testing.T) {
	huge := new(big.Int).Lsh(big.NewInt(1), 55)
	for about, m := range map[string]Minimum{
		"a limit": {{atLeast(0, 10).Terms, huge}, AtMost(100)},
		"a sum":   {{[]Term{{0, new(big.Int).Neg(huge)}}, new(big.Int)}, AtMost(100)},
	} {
		p := &program{columns: repeated(1, 4), minima: []Minimum{m}, floors: []floor{{minima: []int{0}, least: new(big.Int)}}}
		p.addSpans()
		require.Empty(t, p.spans, about)
	}
	less := new(big.Int).Rsh(huge, 1) // the largest that is counted with
	p := &program{columns: repeated(1, 1), minima: []Minimum{{{[]Term{{0, new(big.Int).Neg(big.NewInt(1 << 39))}}, less}}}, floors: []floor{{minima: []int{0}, least: new(big.Int)}}}
	p.addSpans()
	require.Len(t, p.spans, 1)
	require.Equal(t, less.Int64()+1<<39, p.reach[0])
}
