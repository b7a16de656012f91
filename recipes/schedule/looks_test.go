package schedule

import (
	"context"
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What searches of long days look at, to the last look, wholly and given up on the way:
// no timetable shows that a shortcut is lost or a look not counted, but it takes more of
// them, or ends later. After a change of the search that is meant, the figures are those
// that the test says.
func TestWhatASearchLooksAt(t *testing.T) {
	var told []string
	for _, c := range []struct {
		crops  int
		limits effort // beyond the first timetable
		hurry  bool   // what is steamed may not wait
	}{{3, effort{DefaultNodes, mostLooks}, false}, {6, effort{DefaultNodes, mostLooks}, false}, {12, effort{90, mostLooks}, false}, {12, effort{DefaultNodes, 3_000}, false}, {20, effort{DefaultNodes, 30_000}, false},
		{3, effort{DefaultNodes, mostLooks}, true}, {6, effort{300, mostLooks}, true}, {9, effort{60, mostLooks}, true}} {
		p := longDay(c.crops)
		for i, step := range p.Steps {
			if c.hurry && step.Kind == Steam {
				p.Lags = append(p.Lags, Lag{Step: step.ID, Most: time.Duration(10*(i%5)) * time.Minute, Goal: Goal(i / 4 % 3)})
			}
		}
		m, err := newModel(p)
		require.NoError(t, err)
		s := &search{model: m, ctx: context.Background(), pairs: m.pairs(), paired: m.unseen(), patience: effort{endless, math.MaxInt}}
		root := s.widest(s.longest)
		require.True(t, s.narrow(root, m.unseen(), unlimited))
		m.headsOf()
		begins, end := s.branch(root, unlimited)
		require.Equal(t, found, end)
		first := s.spent
		s.limit = effort{first.nodes + c.limits.nodes, first.looks + c.limits.looks}
		table := s.best(begins, s.costOf(root.high))
		told = append(told, fmt.Sprint(c.crops, " crops: ", first, " to the first, ", s.spent, " in all, cost ", table.Cost, ", bound ", table.Bound))
	}
	assert.Equal(t, []string{
		"3 crops: {4 431} to the first, {4 1397} in all, cost {0 0 0 62}, bound {0 0 0 62}",
		"6 crops: {19 6927} to the first, {36 14990} in all, cost {0 0 0 100}, bound {0 0 0 100}",
		"12 crops: {59 84610} to the first, {149 136795} in all, cost {0 0 0 212}, bound {0 0 0 174}",
		"12 crops: {59 84610} to the first, {59 89098} in all, cost {0 0 0 212}, bound {0 0 0 174}",
		"20 crops: {141 646226} to the first, {156 676442} in all, cost {0 0 0 344}, bound {0 0 0 282}",
		"3 crops: {4 431} to the first, {4 1043} in all, cost {0 0 0 62}, bound {0 0 0 62}",
		"6 crops: {19 6927} to the first, {27 10588} in all, cost {59 31 28 100}, bound {59 31 28 100}",
		"9 crops: {37 31746} to the first, {94 72889} in all, cost {141 83 74 153}, bound {141 83 74 139}",
	}, told)
}

// How patient the search is, in orders and in looks.
func TestHowPatientTheSearchIs(t *testing.T) {
	assert.Equal(t, []int{12_000, 100_000_000}, []int{DefaultNodes, mostLooks})
	most := effort{10, 100}
	for spent, over := range map[effort]bool{{10, 100}: false, {11, 0}: true, {0, 101}: true, {}: false} {
		assert.Equal(t, over, spent.exceeds(most), spent)
	}
	assert.Equal(t, effort{5, 50}, effort{}.half(most))
	assert.Equal(t, effort{8, 81}, effort{5, 61}.half(most), "rounded up")
	assert.Equal(t, most, most.half(most))
}
