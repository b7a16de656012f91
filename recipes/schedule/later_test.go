package schedule_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes/schedule"
)

// six is when the steps of these tests begin.
var six = time.Date(2031, time.July, 12, 18, 0, 0, 0, time.UTC)

// from places a step so many minutes after six.
func from(minutesIn int, s schedule.Step) schedule.Timed {
	return schedule.Timed{Step: s, At: six.Add(minutes(minutesIn))}
}

func began(ids ...string) map[string]bool {
	out := map[string]bool{}
	for _, id := range ids {
		out[id] = true
	}
	return out
}

// Timetables that come late, each worked out by hand: when every step begins then, in
// minutes after six.
func TestLaterByHand(t *testing.T) {
	onHands := func(id string, length int) schedule.Step { return step(id, length, hands(1)) }
	for _, c := range []struct {
		name  string
		have  schedule.Have
		by    int
		steps []schedule.Timed
		p     schedule.Progress
		want  map[string]int
	}{
		{name: "what has begun stays, the rest is put off", by: 7,
			steps: []schedule.Timed{from(0, onHands("peel", 10)), from(10, step("boil", 8, after("peel"))), from(18, onHands("dress", 5))},
			p:     schedule.Progress{Began: began("peel")}, want: map[string]int{"peel": 0, "boil": 17, "dress": 25}},
		{name: "what takes longer is waited for", by: 0,
			steps: []schedule.Timed{from(0, step("boil", 10)), from(10, step("load", 2, after("boil"))), from(30, step("dress", 5, after("load")))},
			p:     schedule.Progress{Began: began("boil"), Longer: map[string]time.Duration{"boil": minutes(6)}}, want: map[string]int{"boil": 0, "load": 16, "dress": 30}},
		{name: "what was over late is waited for, what was over early is not hurried after", by: 0,
			steps: []schedule.Timed{from(0, step("a", 10)), from(0, step("b", 10)), from(10, step("c", 5, after("a"))), from(10, step("d", 5, after("b")))},
			p:     schedule.Progress{Began: began("a", "b"), Ended: map[string]time.Time{"a": six.Add(minutes(14)), "b": six.Add(minutes(6))}},
			want:  map[string]int{"a": 0, "b": 0, "c": 14, "d": 10}},
		{name: "what does not follow at once on what is over early is put off", by: 9,
			steps: []schedule.Timed{from(0, step("steam", 20, inSteamer)), from(20, onHands("out", 2)), from(30, step("other", 5))},
			p:     schedule.Progress{Began: began("steam"), Ended: map[string]time.Time{"steam": six.Add(minutes(16))}},
			want:  map[string]int{"steam": 0, "out": 29, "other": 39}},
		{name: "what does is due from then, with all that is tied to it", by: 9,
			steps: []schedule.Timed{from(0, step("steam", 20, inSteamer)), from(20, step("out", 2, hands(1), atOnce("steam"))), from(22, step("spread", 3, hands(1), atOnce("out"))), from(30, step("other", 5))},
			p:     schedule.Progress{Began: began("steam"), Ended: map[string]time.Time{"steam": six.Add(minutes(16))}},
			want:  map[string]int{"steam": 0, "out": 16, "spread": 18, "other": 39}},
		{name: "what hangs on what goes on as it was stays with it", by: 9,
			steps: []schedule.Timed{from(0, step("steam", 20, inSteamer)), from(12, step("test", 1, hands(1), beside("steam", 12))), from(20, step("out", 2, hands(1), atOnce("steam"))), from(22, step("eat", 5, after("out")))},
			p:     schedule.Progress{Began: began("steam")}, want: map[string]int{"steam": 0, "test": 12, "out": 20, "eat": 31}},
		{name: "tied steps go together to where the last of them may", by: 0,
			steps: []schedule.Timed{from(0, step("peel", 12)), from(2, step("water", 3, onRing)), from(5, step("load", 2, hands(1), atOnce("water"), after("cut"))), from(0, step("cut", 5, hands(1))), from(7, step("steam", 10, atOnce("load")))},
			p:     schedule.Progress{Began: began("cut"), Longer: map[string]time.Duration{"cut": minutes(4)}},
			want:  map[string]int{"peel": 0, "cut": 0, "water": 6, "load": 9, "steam": 11}},
		{name: "so do those of the first step there is", by: 0,
			steps: []schedule.Timed{from(2, step("water", 3, onRing)), from(2, step("cut", 3)), from(5, step("load", 2, hands(1), atOnce("water"), after("cut"))), from(7, step("steam", 10, atOnce("load")))},
			p:     schedule.Progress{Began: began("cut"), Longer: map[string]time.Duration{"cut": minutes(4)}},
			want:  map[string]int{"cut": 2, "water": 6, "load": 9, "steam": 11}},
		{name: "one pair of hands does one thing at a time", by: 0,
			steps: []schedule.Timed{from(0, onHands("peel", 10)), from(10, onHands("pick", 5)), from(15, onHands("dress", 5))},
			p:     schedule.Progress{Began: began("peel"), Longer: map[string]time.Duration{"peel": minutes(3)}}, want: map[string]int{"peel": 0, "pick": 13, "dress": 18}},
		{name: "two pairs do two", have: schedule.Have{Hands: 2}, by: 0,
			steps: []schedule.Timed{from(0, onHands("peel", 10)), from(5, onHands("pick", 8)), from(10, onHands("dress", 5))},
			p:     schedule.Progress{Began: began("peel", "pick"), Longer: map[string]time.Duration{"peel": minutes(6)}}, want: map[string]int{"peel": 0, "pick": 5, "dress": 13}},
		{name: "a step that wants more hands than there are waits for all of them", by: 0,
			steps: []schedule.Timed{from(0, onHands("peel", 10)), from(10, step("lift", 5, hands(2))), from(15, step("rest", 5))},
			p:     schedule.Progress{Began: began("peel"), Longer: map[string]time.Duration{"peel": minutes(2)}}, want: map[string]int{"peel": 0, "lift": 12, "rest": 15}},
		{name: "one steamer, one ring, one oven", have: schedule.Have{Hands: 3}, by: 0,
			steps: []schedule.Timed{from(0, step("beets", 20, inSteamer)), from(0, step("milk", 8, func(s *schedule.Step) { s.Ring = 2 })), from(0, step("crust", 12, in("oven"))),
				from(8, step("butter", 4, func(s *schedule.Step) { s.Ring = 2 })), from(12, step("tart", 5, in("oven"))), from(20, step("peas", 9, inSteamer)), from(8, step("broth", 3, in("grill")))},
			p:    schedule.Progress{Began: began("beets", "milk", "crust"), Longer: map[string]time.Duration{"beets": minutes(5), "milk": minutes(3), "crust": minutes(2)}},
			want: map[string]int{"beets": 0, "milk": 0, "crust": 0, "butter": 11, "tart": 14, "peas": 25, "broth": 8}},
		{name: "as many trays as there are", have: schedule.Have{Trays: 2}, by: 0,
			steps: []schedule.Timed{from(0, step("a", 20, onTray)), from(0, step("b", 30, onTray)), from(20, step("c", 10, onTray)), from(30, step("d", 10, onTray))},
			p:     schedule.Progress{Began: began("a", "b"), Longer: map[string]time.Duration{"a": minutes(4)}}, want: map[string]int{"a": 0, "b": 0, "c": 24, "d": 30}},
		{name: "trays nobody counted are enough", by: 0,
			steps: []schedule.Timed{from(0, step("a", 20, onTray)), from(0, step("b", 30, onTray)), from(20, step("c", 10, onTray))},
			p:     schedule.Progress{Began: began("a", "b"), Longer: map[string]time.Duration{"a": minutes(4)}}, want: map[string]int{"a": 0, "b": 0, "c": 20}},
		{name: "one tray holds one", have: schedule.Have{Trays: 1}, by: 0,
			steps: []schedule.Timed{from(0, step("a", 20, onTray)), from(20, step("c", 10, onTray)), from(20, step("d", 10))},
			p:     schedule.Progress{Began: began("a"), Longer: map[string]time.Duration{"a": minutes(4)}}, want: map[string]int{"a": 0, "c": 24, "d": 20}},
		{name: "what one of several tied steps waits for has its place first", by: 0, // hands are free at 6, the cut is done at 9
			steps: []schedule.Timed{from(0, onHands("peel", 2)), from(2, step("water", 3, onRing)), from(2, onHands("cut", 3)), from(5, step("load", 2, hands(1), atOnce("water"), after("cut"))), from(7, step("steam", 10, atOnce("load")))},
			p:     schedule.Progress{Began: began("peel"), Longer: map[string]time.Duration{"peel": minutes(4)}},
			want:  map[string]int{"peel": 0, "water": 6, "cut": 6, "load": 9, "steam": 11}},
		{name: "so has the first step of all, for what is due", by: 9,
			steps: []schedule.Timed{from(0, onHands("cut", 5)), from(0, step("steam", 10, inSteamer)), from(10, step("out", 2, atOnce("steam"), after("cut")))},
			p:     schedule.Progress{Began: began("steam"), Ended: map[string]time.Time{"steam": six.Add(minutes(4))}},
			want:  map[string]int{"steam": 0, "cut": 9, "out": 14}},
		{name: "what is due does not wait for hands", by: 9,
			steps: []schedule.Timed{from(0, onHands("peel", 30)), from(0, step("steam", 20, inSteamer)), from(20, step("out", 2, hands(1), atOnce("steam")))},
			p:     schedule.Progress{Began: began("peel", "steam"), Ended: map[string]time.Time{"steam": six.Add(minutes(16))}},
			want:  map[string]int{"peel": 0, "steam": 0, "out": 16}},
		{name: "what is due has its place before what was to begin before it", by: 0,
			steps: []schedule.Timed{from(0, step("steam", 20, inSteamer)), from(17, onHands("cut", 5)), from(20, step("out", 2, hands(1), atOnce("steam")))},
			p:     schedule.Progress{Began: began("steam"), Ended: map[string]time.Time{"steam": six.Add(minutes(16))}},
			want:  map[string]int{"steam": 0, "out": 16, "cut": 18}},
		{name: "nothing waits for hands longer than a day", by: 0,
			steps: []schedule.Timed{from(0, onHands("peel", 10)), from(10, onHands("cut", 5))},
			p:     schedule.Progress{Began: began("peel"), Longer: map[string]time.Duration{"peel": 48 * time.Hour}}, want: map[string]int{"peel": 0, "cut": 10 + 24*60}},
		{name: "a step over before it was to begin is over when it was to", by: 3,
			steps: []schedule.Timed{from(10, step("a", 20)), from(30, step("b", 5, atOnce("a")))},
			p:     schedule.Progress{Began: began("a"), Ended: map[string]time.Time{"a": six.Add(minutes(4))}}, want: map[string]int{"b": 10, "a": 10}},
		{name: "names of nothing are nothing", by: 2,
			steps: []schedule.Timed{from(0, step("a", 5, after("gone"), atOnce("away"))), from(5, step("b", 5, beside("far", 3)))},
			want:  map[string]int{"a": 2, "b": 7}},
	} {
		t.Run(c.name, func(t *testing.T) {
			before := slices.Clone(c.steps)
			got := map[string]int{}
			moved := schedule.Later(c.steps, c.have, c.p, minutes(c.by))
			for _, s := range moved {
				got[s.ID] = int(s.At.Sub(six).Minutes())
			}
			assert.Equal(t, c.want, got)
			assert.Equal(t, before, c.steps, "what was given stays")
			assert.True(t, slices.IsSortedFunc(moved, func(a, b schedule.Timed) int { return a.At.Compare(b.At) }))
		})
	}
}

// Random evenings, some way into them and late: what has begun stays, nothing else is
// sooner than planned but what is due, all that is waited for is waited for, and hands,
// steamer and trays are enough wherever something was moved to.
func TestLaterKeepsTheOrder(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 9))
	for n := range 60 {
		p := randomEvening(random, 2+random.IntN(3))
		p.NodeLimit = 60
		plan, err := schedule.Solve(t.Context(), p)
		require.NoError(t, err)
		now := plan.Steps[0].At.Add(minutes(random.IntN(90)))
		progress := schedule.Progress{Began: map[string]bool{}, Ended: map[string]time.Time{}, Longer: map[string]time.Duration{}}
		for _, s := range plan.Steps {
			if s.At.After(now) {
				continue
			}
			progress.Began[s.ID] = true
			if random.IntN(6) == 0 {
				progress.Longer[s.ID] = minutes(random.IntN(9))
			} else if s.End().Before(now) && random.IntN(6) == 0 {
				progress.Ended[s.ID] = s.End().Add(minutes(random.IntN(7) - 3))
			}
		}
		by := minutes(random.IntN(20))
		moved := schedule.Later(plan.Steps, p.Have, progress, by)
		require.Len(t, moved, len(plan.Steps))
		was, is := map[string]schedule.Timed{}, map[string]schedule.Timed{}
		for i := range moved {
			was[plan.Steps[i].ID], is[moved[i].ID] = plan.Steps[i], moved[i]
		}
		for id, s := range is {
			what := fmt.Sprintf("evening %d, %s", n, id)
			_, due := progress.Ended[s.AtOnce]
			if progress.Began[id] {
				require.Equal(t, was[id].At, s.At, what)
				continue
			}
			for tied := s; !due && tied.AtOnce+tied.Beside != ""; tied = is[tied.AtOnce+tied.Beside] {
				_, due = progress.Ended[tied.AtOnce]
			}
			if !due {
				require.False(t, s.At.Before(was[id].At), "%s is sooner than planned", what)
				for _, before := range s.After {
					require.False(t, s.At.Before(is[before].End()), "%s waits for %s", what, before)
				}
			}
			if s.AtOnce != "" && !progress.Began[s.AtOnce] {
				require.Equal(t, is[s.AtOnce].End(), s.At, "%s follows at once", what)
			}
			if s.Beside != "" && !progress.Began[s.Beside] {
				require.Equal(t, is[s.Beside].At.Add(s.Offset), s.At, "%s keeps its distance", what)
			}
		}
	}
}
