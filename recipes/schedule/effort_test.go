package schedule

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// longDay is so many crops, each washed and cut, and steamed in fillings that follow
// each other at once, with one pair of hands that has to be there for every filling:
// how the work goes into the pauses between them is a puzzle.
func longDay(crops int) Problem {
	random := rand.New(rand.NewPCG(1, 1))
	minutes := func(least, most int) time.Duration {
		return time.Duration(least+random.IntN(most-least+1)) * time.Minute
	}
	p := Problem{Serve: time.Date(2031, 7, 12, 18, 0, 0, 0, time.UTC), Have: Have{Hands: 1, Rings: 1}}
	before := ""
	for crop := range crops {
		id := func(does Kind) string { return fmt.Sprint(does, " ", crop) }
		p.Steps = append(p.Steps,
			Step{ID: id(Scrub), Kind: Scrub, Length: minutes(3, 9), Hands: 1},
			Step{ID: id(Cut), Kind: Cut, Length: minutes(3, 9), Hands: 1, After: []string{id(Scrub)}},
			Step{ID: id(Load), Kind: Load, Length: 2 * time.Minute, Hands: 1, Ring: 1, Steamer: true, After: []string{id(Cut)}, AtOnce: before},
			Step{ID: id(Steam), Kind: Steam, Length: minutes(10, 12), Ring: 1, Steamer: true, AtOnce: id(Load)})
		before = id(Steam)
	}
	return p
}

// What is too much to be tried to the end is given up in time, whatever one order
// costs to try: looks are bounded, not orders alone. The best there is by then is
// handed out, and is not called proven.
func TestALongDayIsGivenUpInTime(t *testing.T) {
	m, err := newModel(longDay(30))
	require.NoError(t, err)
	s := &search{model: m, ctx: context.Background(), pairs: m.pairs(), paired: m.unseen(), patience: effort{endless, math.MaxInt}}
	root := s.widest(s.longest)
	require.True(t, s.narrow(root, m.unseen(), unlimited))
	m.headsOf()
	begins, end := s.branch(root, unlimited)
	require.Equal(t, found, end)
	const few = 20_000
	s.limit = effort{s.spent.nodes + DefaultNodes, s.spent.looks + few}
	table := s.best(begins, s.costOf(root.high))
	assert.False(t, table.Proven)
	assert.Negative(t, table.Bound.Compare(table.Cost))
	assert.Less(t, s.spent.looks-s.limit.looks, 200_000, "what it looked at once it was to stop")
}

// The second route to each of the search's shortcuts: as it is told, over all there is.

func TestLoadIsThatOfEveryStretch(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 1))
	var tree load
	exceeded := 0
	for range 3000 {
		have := 1 + random.IntN(3)
		var jobs []job
		for range random.IntN(12) {
			begin := -random.IntN(60)
			jobs = byEnd(jobs, job{begin, begin + 1 + random.IntN(40), 1 + random.IntN(12*have)})
		}
		over := false
		for _, from := range jobs {
			for _, to := range jobs {
				work := 0
				for _, j := range jobs {
					if j.begin >= from.begin && j.end <= to.end {
						work += j.work
					}
				}
				over = over || work > 0 && work > have*(to.end-from.begin)
			}
		}
		require.Equal(t, over, tree.exceeds(jobs, have), "%d at once: %v", have, jobs)
		if over {
			exceeded++
		}
	}
	assert.Greater(t, exceeded, 300)
	assert.Less(t, exceeded, 2700)
}

// randomWindows is a model of blocks with some uses of one thing, and windows.
func randomWindows(random *rand.Rand) (*search, window) {
	m := &model{spans: make([][]span, 1), have: []int{1}, lengths: make([]int, 2+random.IntN(5)), into: nil}
	w := window{}
	for b := range m.lengths {
		at := 0
		for range 1 + random.IntN(4) {
			from := at + random.IntN(6)
			at = from + 1 + random.IntN(6)
			m.spans[0] = append(m.spans[0], span{b, from, at, 1})
		}
		low := -40 - random.IntN(40)
		w.low, w.high = append(w.low, low), append(w.high, low+random.IntN(50))
	}
	return &search{model: m}, w
}

func TestTheTightestTwoMeet(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 1))
	for range 2000 {
		s, w := randomWindows(random)
		var want []span
		least := 0
		for i, u := range s.spans[0] {
			for _, v := range s.spans[0][i+1:] {
				if room, meet := s.room(u, v, w); meet && (want == nil || room < least) {
					want, least = []span{u, v}, room
				}
			}
		}
		require.Equal(t, want, s.tightest(0, w))
	}
}

// Windows are drawn as close as every two uses by themselves draw them.
func TestPairsDrawAsEachOfThem(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 1))
	closed := 0
	for range 3000 {
		s, w := randomWindows(random)
		each := window{slices.Clone(w.low), slices.Clone(w.high)}
		left := eachPair(s.spans[0], each)
		all, drawn, ok := s.model.pairs(), true, true
		for drawn && ok {
			drawn = false
			for b := range all {
				did, fine := w.order(all[b])
				drawn, ok = drawn || did, ok && fine
			}
		}
		require.Equal(t, left, ok)
		if left {
			require.Equal(t, each, w)
		} else {
			closed++
		}
	}
	assert.Greater(t, closed, 200)
}

func eachPair(spans []span, w window) (left bool) {
	for again := true; again; {
		again = false
		for _, u := range spans {
			for _, v := range spans {
				if u.block == v.block || w.low[u.block]+u.to-v.from <= w.high[v.block] {
					continue // u may come first
				}
				after := v.to - u.from // from v's block to u's
				if by := w.high[u.block] - after; by < w.high[v.block] {
					w.high[v.block], again = by, true
				}
				if by := w.low[v.block] + after; by > w.low[u.block] {
					w.low[u.block], again = by, true
				}
				if w.low[u.block] > w.high[u.block] || w.low[v.block] > w.high[v.block] {
					return false
				}
			}
		}
	}
	return true
}

// Of arcs between the same blocks the strongest is held, and taken back in turn; two
// that chase each other are told apart at once.
func TestArcsAreHeldInTurn(t *testing.T) {
	m := &model{into: make([][]arc, 3)}
	first, second, other := arc{0, 1, 5}, arc{0, 1, 9}, arc{2, 1, 3}
	weaker1, weakerOther, weaker2 := m.hold(first), m.hold(other), m.hold(second)
	assert.Equal(t, []arc{{0, 1, 9}, {2, 1, 3}}, m.into[1])
	weaker3 := m.hold(arc{0, 1, 2})
	assert.Equal(t, []arc{{0, 1, 9}, {2, 1, 3}}, m.into[1], "a weaker one changes nothing")
	assert.True(t, m.contradicts(arc{1, 0, -8}))
	assert.False(t, m.contradicts(arc{1, 0, -9}), "they may begin just so")
	assert.False(t, m.contradicts(arc{2, 0, 50}))
	m.letGo(arc{0, 1, 2}, weaker3)
	m.letGo(second, weaker2)
	assert.Equal(t, []arc{{0, 1, 5}, {2, 1, 3}}, m.into[1])
	m.letGo(other, weakerOther)
	m.letGo(first, weaker1)
	assert.Empty(t, m.into[1])
}
