package integer

import (
	"context"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// lined is one column that can come to every sum up to so many, and its span.
func lined(most int64) (*program, *span) {
	p := &program{columns: []Column{{Most: most}}, listed: make([]bool, 1)}
	return p, &span{cols: []int{0}, steps: []int64{1}, high: most, unit: 1, ways: listing{tried: -1}}
}

// How many ways are listed: so many sums, from so many choices of half the columns.
func TestHowMuchIsListed(t *testing.T) {
	for _, c := range []struct {
		most, low int64
		full      bool
	}{
		{2_999, 0, true}, {3_000, 0, false}, {3_000, 1, true},
		{14_999, 14_991, true}, {15_000, 14_991, false},
	} {
		p, b := lined(c.most)
		require.Equal(t, c.full, p.list(b, c.low), c)
		require.Equal(t, c.full, p.listed[0], c)
		require.Equal(t, c.low, b.ways.tried)
		if c.full {
			require.Len(t, b.ways.sums, int(c.most-c.low+1))
			require.Equal(t, c.most, b.ways.sums[0])
			require.Equal(t, c.low, b.ways.sums[len(b.ways.sums)-1])
		}
	}
}

// What was too much to list is tried again once more than half of what was in doubt
// is ruled out.
func TestWhenListingIsTriedAgain(t *testing.T) {
	p, b := lined(10_000)
	require.False(t, p.list(b, 1_000))
	for low, tried := range map[int64]int64{500: 1_000, 1_000: 1_000, 5_500: 1_000, 5_501: 5_501} {
		q := *b
		require.False(t, p.list(&q, low), low)
		require.Equal(t, tried, q.ways.tried, low)
	}
	require.True(t, p.list(b, 9_000))
	require.True(t, p.list(b, 9_500))
	require.Equal(t, int64(9_000), b.ways.tried, "what is listed will do for more")
	require.True(t, p.list(b, 8_000))
	require.Equal(t, int64(8_000), b.ways.tried, "not for less")
}

// Which sums a minimum's row stands for, by hand: the least of 60·x + 40·y − 10 and
// what else there is, with x up to 3 and y nought or from 2 to 4.
func TestSpansByHand(t *testing.T) {
	draw := func(coefs ...int64) *program {
		p := &program{columns: []Column{{Most: 3}, {Most: 4, Batch: 2}}, asked: -1}
		p.minima = []Minimum{{atLeast(10, coefs...), AtMost(250)}}
		p.floors = []floor{{minima: []int{0}, least: new(big.Int)}}
		return p
	}
	p := draw(60, 40)
	p.addSpans()
	require.Len(t, p.spans, 1)
	b := p.spans[0]
	require.Equal(t, span{cols: []int{0, 1}, steps: []int64{3, 2}, unit: 20, rest: -10, high: 17, ways: listing{tried: -1}}, b)
	require.Equal(t, []int64{250}, p.reach, "330 of the one, 250 of the other")

	p = draw(60, 40)
	p.rows = []Row{atMost(160, 30, 20), atMost(1, 1, 1), atMost(1, 1), atMost(-1, -3, -2)}
	p.addSpans()
	require.Equal(t, int64(16), p.spans[0].high, "twice 160 of the first row, and not 340")
	require.Equal(t, []int64{250}, p.reach)
	p = draw(60, 40)
	p.rows = []Row{atMost(120, 30, 20)}
	p.addSpans()
	require.Equal(t, int64(12), p.spans[0].high)
	require.Equal(t, []int64{230}, p.reach, "240 less 10")

	p = draw(60, 40)
	p.rows = []Row{atMost(0, 30, 20)}
	p.addSpans()
	require.Equal(t, int64(0), p.spans[0].high, "a sum that is nought is one")

	for _, c := range []struct {
		about string
		coefs []int64
	}{{"a falling column", []int64{60, -40}}, {"no column", nil}} {
		p = draw(c.coefs...)
		p.addSpans()
		require.Empty(t, p.spans, c.about)
	}
	b = span{unit: 20, rest: -10}
	for value, sum := range map[int64]int64{-11: 0, -10: 0, -9: 1, 10: 1, 11: 2} {
		require.Equal(t, sum, b.sumFor(value), value)
		require.GreaterOrEqual(t, b.worth(sum), value)
	}
}

// A row says what another's sum may come to at most if it is a multiple of it, the
// other way round.
func TestLimitsOfSums(t *testing.T) {
	goal := atLeast(0, 4, 6)
	for _, c := range []struct {
		about string
		rows  []Row
		want  string
	}{
		{"the same", []Row{atMost(30, 4, 6)}, "30"},
		{"half of it", []Row{atMost(9, 2, 3)}, "18"},
		{"one and a half times", []Row{atMost(10, 6, 9)}, "6"}, // 6 2/3, rounded towards nought
		{"the tightest", []Row{atMost(30, 4, 6), atMost(9, 2, 3), atMost(50, 8, 12)}, "18"},
		{"another sum", []Row{atMost(9, 2, 4)}, ""},
		{"other columns", []Row{AtMost(9, Times(2, 0), Times(3, 2))}, ""},
		{"more columns", []Row{atMost(9, 2, 3, 1)}, ""},
		{"the same way round", []Row{atMost(9, -2, -3)}, ""},
	} {
		p := &program{columns: repeated(3, 9), rows: c.rows}
		got := p.limitOf(&goal)
		if c.want == "" {
			require.Nil(t, got, c.about)
			continue
		}
		require.Equal(t, c.want, got.String(), c.about)
	}
	p := &program{columns: repeated(3, 9), rows: []Row{atMost(9, 4, -6)}}
	falls := atLeast(0, 4, -6)
	one := atLeast(0, 4)
	require.Equal(t, "18", (&program{columns: repeated(1, 9), rows: []Row{atMost(9, 2)}}).limitOf(&one).String(), "of one column")
	require.Nil(t, p.limitOf(&falls))
	require.Nil(t, p.limitOf(&Row{Limit: big.NewInt(1)}))
	require.Equal(t, "90", p.mostOf(&goal).String(), "of the box alone")
	p.rows = []Row{atMost(100, 4, 6)}
	require.Equal(t, "90", p.mostOf(&goal).String())
	p.rows = []Row{atMost(50, 4, 6)}
	require.Equal(t, "50", p.mostOf(&goal).String())
}

// What a floor must come to: what is asked of it, or, where the goal is that very
// floor, the least that counts for more than the incumbent.
func TestLeastOfFloors(t *testing.T) {
	p := &program{floors: []floor{{least: big.NewInt(12)}, {least: big.NewInt(30)}}}
	at := func(goal objective, worth int64) []int64 {
		s := &search{prog: p, goal: goal}
		if worth > 0 {
			s.worth = big.NewInt(worth)
		}
		return []int64{s.leastOf(0).Int64(), s.leastOf(1).Int64()}
	}
	first := objective{minima: []int{0}, whole: big.NewInt(10)}
	second := objective{minima: []int{1}, floor: 1}
	require.Equal(t, []int64{12, 30}, at(first, 0), "nothing is known")
	require.Equal(t, []int64{30, 30}, at(first, 20))
	require.Equal(t, []int64{12, 30}, at(first, 11), "less than is asked")
	require.Equal(t, []int64{20, 30}, at(first, 12))
	require.Equal(t, []int64{12, 31}, at(second, 30))
	require.Equal(t, []int64{12, 30}, at(over(1, nil), 40), "another goal")
}

// A filter takes no solution that is as good as it has to be, whatever the node's box:
// every point is tried. Nor does it do nothing.
func TestFiltersTakeNoSolution(t *testing.T) {
	narrowed, shut := 0, 0
	for seed := range uint64(800) {
		r := rand.New(rand.NewPCG(seed, 42))
		p := &program{asked: -1}
		for range 2 + r.IntN(3) {
			p.columns = append(p.columns, Column{Most: int64(1 + r.IntN(5)), Batch: int64(r.IntN(3))})
		}
		var f floor
		for g := range 1 + r.IntN(2) {
			coefs := make([]int64, len(p.columns))
			for j := range coefs {
				coefs[j] = int64(r.IntN(3)) * int64(30+r.IntN(40))
			}
			p.minima = append(p.minima, Minimum{atLeast(0, coefs...), AtMost(int64(60 + r.IntN(200)))})
			f.minima = append(f.minima, g)
		}
		f.least = big.NewInt(int64(r.IntN(200)))
		p.floors = []floor{f}
		p.addSpans()
		s, tab := searchOf(p, objective{minima: f.minima, whole: big.NewInt(int64(1 + r.IntN(20)))})
		s.work.listing = 0
		if r.IntN(2) == 0 {
			s.worth = big.NewInt(f.least.Int64() + int64(r.IntN(60)))
		}
		j := r.IntN(len(p.columns))
		tab.restrict(j, 0, r.Int64N(p.columns[j].Most+1))
		box := append([]int64(nil), tab.high...)
		ok := s.filter(tab)
		if !ok {
			shut++
		}
		everyPoint(p.columns, func(x []int64) {
			for k, c := range p.columns {
				if !c.holds(x[k]) || x[k] > box[k] {
					return
				}
			}
			if !p.keeps(x) || s.worth != nil && p.value(s.goal, x).Cmp(s.worth) <= 0 {
				return
			}
			require.True(t, ok, "seed %d: %v is good enough", seed, x)
			for k, v := range x {
				require.True(t, tab.low[k] <= v && v <= tab.high[k], "seed %d: %v is taken", seed, x)
			}
		})
		for k := range box {
			if ok && (tab.low[k] > 0 || tab.high[k] < box[k]) {
				narrowed++
			}
		}
	}
	require.Greater(t, narrowed, 200)
	require.Greater(t, shut, 100)
}

// Nothing is filtered before so many nodes, nor by numbers too large to count with.
func TestFilterWaits(t *testing.T) {
	p := &program{columns: repeated(1, 4), asked: -1, minima: []Minimum{{atLeast(0, 10), AtMost(100)}}, floors: []floor{{minima: []int{0}, least: big.NewInt(35)}}}
	p.addSpans()
	s, tab := searchOf(p, objective{})
	s.work.nodes = 39
	require.True(t, s.filter(tab))
	require.Equal(t, int64(0), tab.low[0])
	s.work.nodes = 40
	require.True(t, s.filter(tab))
	require.Equal(t, int64(4), tab.low[0], "35 asks for four of 10")
	tab.restrict(0, 0, 4)
	p.floors[0].least = big.NewInt(40)
	require.True(t, s.filter(tab))
	require.Equal(t, int64(4), tab.low[0], "nothing to spare")
	p.floors[0].least = big.NewInt(41)
	require.False(t, s.filter(tab))
	p.floors[0].least = new(big.Int).Lsh(big.NewInt(1), 55)
	require.True(t, s.filter(tab), "that is for the relaxation to say")
	p.floors[0].least = new(big.Int).Sub(p.floors[0].least, big.NewInt(1))
	require.False(t, s.filter(tab))
}

// Which rows are loosened for a pull: those that hold later goals which go the same
// way, so that the pull has something to spare.
func TestLoosen(t *testing.T) {
	p := &program{columns: repeated(3, 9), asked: -1, listed: make([]bool, 3), rows: []Row{
		atLeast(5, 1, 1),       // 0: the goal x + y
		atLeast(-9, -1, -2),    // 1: few of both
		atLeast(-4, -1),        // 2: few of x
		atLeast(-9, 0, 1),      // 3: many of y, which goes along
		atLeast(-9, -1, 0, -1), // 4: z is none of the goal's
	}}
	s := newSession(context.Background(), p, &budget{limit: math.MaxInt}, nil)
	for i := range p.rows {
		s.pulls = append(s.pulls, pull{row: i, goal: over(3, nil)})
	}
	lows := func() (list []float64) {
		for i := range p.rows {
			list = append(list, s.base.lo[s.base.shape.slack(i)])
		}
		return list
	}
	fasten := s.loosen(s.base, &pull{row: 0, goal: over(3, terms(1, 1))})
	require.Equal(t, []float64{0, -18.0 / 4, -5.0 / 2, 0, 0}, lows(), "as if nothing were asked: 27 and 9 are the most, by the bits of the coefficients")
	fasten()
	require.Equal(t, make([]float64, 5), lows())
	s.loosen(s.base, &pull{row: 2, goal: over(3, terms(1, 1))})
	require.Equal(t, make([]float64, 5), lows(), "those before stay")
	s.loosen(s.base, &pull{row: -1, goal: over(3, terms(1, 1))})
	require.Equal(t, make([]float64, 5), lows(), "a goal that no row holds is none of them")
}

func TestAlong(t *testing.T) {
	goal := over(3, terms(1, -2))
	for _, c := range []struct {
		row  Row
		want bool
	}{{atMost(9, 3), true}, {atMost(9, 3, -1), true}, {atMost(9, -3), false}, {atMost(9, 3, 1), false}, {atMost(9, 3, -1, 1), false}, {AtMost(9, Times(1, 2)), false}, {AtMost(9), true}} {
		require.Equal(t, c.want, c.row.along(&goal), c.row)
	}
	row := atMost(9, 3)
	require.False(t, row.along(&objective{minima: []int{0}}))
}
