package schedule_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes/schedule"
)

// The least cost over every beginning that every step could have, by trying them
// all.
func TestSolveAgainstTryingAll(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	kinds := map[string]int{}
	for n := range 2000 {
		p := randomSmall(random, 4)
		countKinds(p, kinds)
		got, err := schedule.Solve(t.Context(), p)
		require.NoError(t, err)
		require.True(t, got.Proven)
		requireSound(t, p, got)
		require.Equal(t, tryAll(p), got.Cost, "case %d: %+v", n, p)
		again, err := schedule.Solve(t.Context(), p)
		require.NoError(t, err)
		require.Equal(t, got, again, "the same every time")
		for goal, cost := range map[string]int{"a clock overrun": got.Cost.Over, "hot food waiting": got.Cost.Hot, "warm food waiting": got.Cost.Warm} {
			kinds[goal] += min(1, cost)
		}
	}
	for _, kind := range []string{"two pairs of hands", "two rings", "a crowd of trays", "tiers of one filling",
		"a clock overrun", "hot food waiting", "warm food waiting"} {
		assert.Greater(t, kinds[kind], 20, "cases with %s", kind)
	}
}

// countKinds notes what a problem tries.
func countKinds(p schedule.Problem, kinds map[string]int) {
	blocks, trays, rings := map[string]int{}, 0, 0
	for i, s := range p.Steps {
		if s.Steamer {
			blocks[leader(p, i)]++
		}
		trays, rings = trays+s.Tray, rings+s.Ring
	}
	for _, n := range blocks {
		kinds["tiers of one filling"] += min(1, n/2)
	}
	if p.Have.Trays > 0 && trays > p.Have.Trays {
		kinds["a crowd of trays"]++
	}
	if p.Have.Rings > 1 && rings > 1 {
		kinds["two rings"]++
	}
	if p.Have.Hands > 1 {
		kinds["two pairs of hands"]++
	}
}

// randomSmall is up to so many steps of up to three minutes.
func randomSmall(random *rand.Rand, most int) schedule.Problem {
	p := schedule.Problem{Serve: supper, Have: schedule.Have{Hands: 1 + random.IntN(2), Rings: 1 + random.IntN(2), Trays: random.IntN(2)}}
	for n := range 2 + random.IntN(most-1) {
		s := step(fmt.Sprint("s", n), 1+random.IntN(3))
		switch random.IntN(6) {
		case 0:
			s.Steamer, s.Ring = true, 1
		case 1:
			s.Ring = 1
		case 2:
			s.Tray = 1
		case 3:
			s.Hands = 1 + random.IntN(p.Have.Hands)
		default:
			s.Hands = 1
		}
		if n > 0 {
			earlier := fmt.Sprint("s", random.IntN(n))
			switch random.IntN(5) {
			case 0:
				s.After = []string{earlier}
			case 1:
				if s.Tray+s.Hands == 0 || !slices.ContainsFunc(p.Steps, func(o schedule.Step) bool { return o.AtOnce+o.Beside == earlier }) {
					s.AtOnce = earlier
				}
			case 2:
				if s.Hands == 0 && s.Tray == 0 {
					s.Beside, s.Offset = earlier, minutes(random.IntN(3))
				}
			}
		}
		p.Steps = append(p.Steps, s)
		if random.IntN(2) == 0 {
			p.Lags = append(p.Lags, schedule.Lag{Step: s.ID, Most: minutes(random.IntN(4)), Goal: schedule.Goal(random.IntN(3))})
		}
	}
	return p
}

// tryAll places the steps one after the other at every minute there is.
func tryAll(p schedule.Problem) schedule.Cost {
	horizon := 0
	for _, s := range p.Steps {
		horizon += int((s.Length + s.Offset).Minutes())
	}
	begins := make([]int, len(p.Steps))
	best := schedule.Cost{Over: 1 << 30}
	var place func(n int)
	place = func(n int) {
		if n == len(p.Steps) {
			if c := costOf(p, begins); c.Compare(best) < 0 {
				best = c
			}
			return
		}
		length := int(p.Steps[n].Length.Minutes())
		for at := -horizon; at+length <= 0; at++ {
			begins[n] = at
			if allowed(p, begins[:n+1]) {
				place(n + 1)
			}
		}
	}
	place(0)
	return best
}

// allowed looks at the last of the steps placed so far.
func allowed(p schedule.Problem, begins []int) bool {
	return inOrder(p, begins) && len(overbooked(p, begins)) == 0
}

// inOrder tells that the last of the steps placed so far waits for the others as
// it should.
func inOrder(p schedule.Problem, begins []int) bool {
	n := len(begins) - 1
	s, at := p.Steps[n], begins[n]
	length := func(i int) int { return int(p.Steps[i].Length.Minutes()) }
	for i := range n {
		before := p.Steps[i].ID
		end := begins[i] + length(i)
		if slices.Contains(s.After, before) && at < end || s.AtOnce == before && at != end || s.Beside == before && at != begins[i]+int(s.Offset.Minutes()) {
			return false
		}
	}
	return true
}

// overbooked lists what is wanted more often at once than there is of it.
func overbooked(p schedule.Problem, begins []int) []string {
	var what []string
	for i := range begins {
		moment := begins[i]
		people, trays, rings, steamers := 0, 0, map[string]bool{}, map[string]bool{}
		for j, at := range begins {
			s := p.Steps[j]
			if moment < at || moment >= at+int(s.Length.Minutes()) {
				continue
			}
			people, trays = people+s.Hands, trays+s.Tray
			block := leader(p, j)
			if s.Steamer {
				steamers[block] = true
			}
		}
		for j := range begins {
			if p.Steps[j].Ring > 0 && ringBusy(p, begins, leader(p, j), moment) {
				rings[leader(p, j)] = true
			}
		}
		if people > max(1, p.Have.Hands) || p.Have.Trays > 0 && trays > p.Have.Trays || len(rings) > max(1, p.Have.Rings) || len(steamers) > 1 {
			what = append(what, p.Steps[i].ID)
		}
	}
	return what
}

// ringBusy tells that a block's pan is on its ring, pauses included.
func ringBusy(p schedule.Problem, begins []int, block string, moment int) bool {
	before, after := false, false
	for j, at := range begins {
		s := p.Steps[j]
		if s.Ring == 0 || leader(p, j) != block {
			continue
		}
		before = before || at <= moment
		after = after || moment < at+int(s.Length.Minutes())
	}
	return before && after
}

// leader is the step that the steps tied to a step begin with.
func leader(p schedule.Problem, i int) string {
	for p.Steps[i].AtOnce+p.Steps[i].Beside != "" {
		i = slices.IndexFunc(p.Steps, func(s schedule.Step) bool { return s.ID == p.Steps[i].AtOnce+p.Steps[i].Beside })
	}
	return p.Steps[i].ID
}

func costOf(p schedule.Problem, begins []int) schedule.Cost {
	var by [3]int
	for _, lag := range p.Lags {
		i := slices.IndexFunc(p.Steps, func(s schedule.Step) bool { return s.ID == lag.Step })
		by[lag.Goal] += max(0, -(begins[i]+int(p.Steps[i].Length.Minutes()))-int(lag.Most.Minutes()))
	}
	return schedule.Cost{Over: by[0], Hot: by[1], Warm: by[2], Length: -slices.Min(begins)}
}

func requireSound(t *testing.T, p schedule.Problem, got schedule.Timetable) {
	t.Helper()
	begins := make([]int, len(p.Steps))
	for i, s := range p.Steps {
		at := slices.IndexFunc(got.Steps, func(o schedule.Timed) bool { return o.ID == s.ID })
		require.GreaterOrEqual(t, at, 0, "%s has no place", s.ID)
		begins[i] = -int(supper.Sub(got.Steps[at].At).Minutes())
		require.False(t, got.Steps[at].End().After(p.Serve), "%s ends after serving", s.ID)
	}
	for n := range begins {
		require.True(t, inOrder(p, begins[:n+1]), "%s is misplaced: %v", p.Steps[n].ID, begins)
	}
	require.Empty(t, overbooked(p, begins))
	require.Equal(t, costOf(p, begins), got.Cost)
	rings := map[int][]schedule.Timed{}
	for _, s := range got.Steps {
		require.LessOrEqual(t, s.Ring, max(1, p.Have.Rings))
		if s.Ring > 0 {
			rings[s.Ring] = append(rings[s.Ring], s)
		}
	}
	index := func(id string) int {
		return slices.IndexFunc(p.Steps, func(s schedule.Step) bool { return s.ID == id })
	}
	for _, on := range rings {
		for i, a := range on {
			for _, b := range on[i+1:] {
				if leader(p, index(a.ID)) != leader(p, index(b.ID)) {
					require.False(t, a.At.Before(b.End()) && b.At.Before(a.End()), "%s and %s on one ring", a.ID, b.ID)
				}
			}
		}
	}
}
