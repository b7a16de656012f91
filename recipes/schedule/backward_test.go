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

var supper = time.Date(2031, time.July, 12, 18, 30, 0, 0, time.UTC)

// A salad has to cool before it is dressed; crushed potatoes come straight from
// the steamer. The evening is placed backward from the table.
func ExampleBackward() {
	minutes := func(m int) time.Duration { return time.Duration(m) * time.Minute }
	timed, err := schedule.Backward(schedule.Problem{Serve: supper, Reboil: minutes(9), Steps: []schedule.Step{
		{ID: "boil", Kind: schedule.Boil, Ring: 1, Length: minutes(9)},
		{ID: "salad", Kind: schedule.Steam, Ring: 1, Length: minutes(15), After: []string{"boil"}},
		{ID: "tray", Kind: schedule.Cool, Length: minutes(60), After: []string{"salad"}},
		{ID: "dress", Kind: schedule.Dress, Hands: 1, Length: minutes(10), After: []string{"tray"}},
		{ID: "crushed", Kind: schedule.Steam, Ring: 1, Length: minutes(20), After: []string{"boil"}, Rank: 2},
		{ID: "finish", Kind: schedule.Finish, Hands: 1, Length: minutes(5), StraightFrom: "crushed", Rank: 2},
	}})
	for _, step := range timed {
		fmt.Println(step.At.Format("15:04"), step.End().Format("15:04"), step.Kind)
	}
	fmt.Println(err)
	// Output:
	// 16:51 17:00 boil
	// 17:00 17:15 steam
	// 17:15 18:15 cool
	// 17:56 18:05 boil
	// 18:05 18:25 steam
	// 18:15 18:25 dress
	// 18:25 18:30 finish
	// <nil>
}

func step(id string, minutes int, change ...func(*schedule.Step)) schedule.Step {
	s := schedule.Step{ID: id, Length: time.Duration(minutes) * time.Minute}
	for _, c := range change {
		c(&s)
	}
	return s
}

func hands(s *schedule.Step)  { s.Hands = 1 }
func onRing(s *schedule.Step) { s.Ring = 1 }

func rank(n int) func(*schedule.Step) { return func(s *schedule.Step) { s.Rank = n } }
func after(ids ...string) func(*schedule.Step) {
	return func(s *schedule.Step) { s.After = append(s.After, ids...) }
}
func straight(id string) func(*schedule.Step) {
	return func(s *schedule.Step) { s.StraightFrom = id }
}

// starts are the steps' IDs with the minutes before serving at which they begin.
func starts(t *testing.T, reboil int, steps ...schedule.Step) []string {
	t.Helper()
	timed, err := schedule.Backward(schedule.Problem{Steps: steps, Serve: supper, Reboil: time.Duration(reboil) * time.Minute})
	require.NoError(t, err)
	var told []string
	for _, s := range timed {
		told = append(told, fmt.Sprintf("%s -%d", s.ID, int(supper.Sub(s.At).Minutes())))
	}
	return told
}

func TestBackward(t *testing.T) {
	for _, c := range []struct {
		name   string
		reboil int
		steps  []schedule.Step
		want   []string
	}{
		{"nothing to do", 0, nil, nil},
		{"as late as it can be", 0, []schedule.Step{step("a", 10)}, []string{"a -10"}},
		{"a step waits for another", 0, []schedule.Step{step("b", 5, after("a")), step("a", 10)}, []string{"a -15", "b -5"}},
		{"two things for one pair of hands", 0, []schedule.Step{step("a", 10, hands), step("b", 5, hands)}, []string{"a -15", "b -5"}},
		{"hands and ring are two things", 0, []schedule.Step{step("a", 10, hands), step("b", 5, onRing)}, []string{"a -10", "b -5"}},
		{"nobody is needed to wait", 0, []schedule.Step{step("a", 10), step("b", 10), step("c", 10, hands)}, []string{"a -10", "b -10", "c -10"}},
		{"the higher rank is later", 0, []schedule.Step{step("hot", 10, onRing, rank(2)), step("cold", 10, onRing)}, []string{"cold -20", "hot -10"}},
		{"of one rank the later given is later", 0, []schedule.Step{step("a", 10, onRing), step("b", 10, onRing)}, []string{"a -20", "b -10"}},
		{"straight from the steamer", 0, []schedule.Step{step("steam", 20, onRing), step("finish", 5, hands, straight("steam")), step("other", 7, hands)},
			[]string{"steam -25", "other -12", "finish -5"}},
		{"two straight from one, one after the other", 0, []schedule.Step{step("steam", 20, onRing),
			step("one", 5, hands, straight("steam")), step("two", 3, hands, straight("steam"))}, []string{"steam -28", "one -8", "two -3"}},
		{"what waits for a tail waits for its chain", 0, []schedule.Step{step("steam", 20, onRing), step("dress", 5, hands, straight("steam")),
			step("serve", 2, hands, after("dress"))}, []string{"steam -27", "dress -7", "serve -2"}},
		{"a short pause keeps the pan hot", 9, []schedule.Step{step("a", 10, onRing), step("wait", 10, after("a")), step("b", 10, onRing, after("wait"))},
			[]string{"a -30", "wait -20", "b -10"}},
		{"a long pause lets it cool", 9, []schedule.Step{step("a", 10, onRing), step("wait", 11, after("a")), step("b", 10, onRing, after("wait"))},
			[]string{"a -31", "wait -21", "b-boil -19", "b -10"}},
		{"a pause shorter than the boil is used whole", 15, []schedule.Step{step("a", 10, onRing), step("wait", 11, after("a")), step("b", 10, onRing, after("wait"))},
			[]string{"a -31", "wait -21", "b-boil -21", "b -10"}},
		{"no reboil where none is asked", 0, []schedule.Step{step("a", 10, onRing), step("wait", 60, after("a")), step("b", 10, onRing, after("wait"))},
			[]string{"a -80", "wait -70", "b -10"}},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, starts(t, c.reboil, c.steps...)) })
	}
}

func TestReboilIsOnItsRing(t *testing.T) {
	long := step("wait", 30, after("a"))
	b := step("b", 10, onRing, after("wait"))
	b.Run, b.Dishes = "r2", []string{"mash"}
	timed, err := schedule.Backward(schedule.Problem{Steps: []schedule.Step{step("a", 10, onRing), long, b}, Serve: supper, Reboil: 5 * time.Minute})
	require.NoError(t, err)
	at := slices.IndexFunc(timed, func(s schedule.Timed) bool { return s.Kind == schedule.Boil })
	assert.Equal(t, schedule.Timed{At: supper.Add(-15 * time.Minute),
		Step: schedule.Step{ID: "b-boil", Kind: schedule.Boil, Run: "r2", Ring: 1, Length: 5 * time.Minute}}, timed[at])
}

func TestBackwardRefuses(t *testing.T) {
	for _, c := range []struct {
		name  string
		steps []schedule.Step
		want  error
	}{
		{"two that wait for each other", []schedule.Step{step("a", 1, after("b")), step("b", 1, after("a"))}, schedule.ErrCircle},
		{"two that follow each other", []schedule.Step{step("a", 1, straight("b")), step("b", 1, straight("a"))}, schedule.ErrCircle},
		{"one that waits for nothing there is", []schedule.Step{step("a", 1, after("x"))}, schedule.ErrUnknownStep},
		{"one that follows nothing there is", []schedule.Step{step("a", 1, straight("x"))}, schedule.ErrUnknownStep},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := schedule.Backward(schedule.Problem{Steps: c.steps, Serve: supper})
			require.ErrorIs(t, err, c.want)
		})
	}
}

// Nothing overlaps that cannot, everything follows what it waits for without a
// gap where there must be none, and all is ready at the serving time.
func TestBackwardProperties(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		p := randomMeal(random)
		timed, err := schedule.Backward(p)
		require.NoError(t, err)
		requireSound(t, p, timed)
		again, err := schedule.Backward(p)
		require.NoError(t, err)
		require.Equal(t, timed, again, "the same every time")
	}
}

// randomMeal is up to six chains of steps after a common boil.
func randomMeal(random *rand.Rand) schedule.Problem {
	p := schedule.Problem{Serve: supper, Reboil: time.Duration(random.IntN(12)) * time.Minute}
	p.Steps = append(p.Steps, step("boil", 1+random.IntN(12), onRing))
	for d := range 1 + random.IntN(6) {
		last, steamed := "", false
		for n := range 1 + random.IntN(7) {
			s := step(fmt.Sprintf("%d-%d", d, n), 1+random.IntN(40), rank(random.IntN(3)))
			isSteam := false
			switch random.IntN(3) {
			case 0:
				s.Hands = 1
			case 1:
				s.Ring, isSteam = 1, true
				s.After = append(s.After, "boil")
			}
			switch {
			case last != "" && steamed && !isSteam && random.IntN(2) == 0:
				s.StraightFrom = last
			case last != "":
				s.After = append(s.After, last)
			}
			p.Steps = append(p.Steps, s)
			last, steamed = s.ID, isSteam
		}
	}
	return p
}

func requireSound(t *testing.T, p schedule.Problem, timed []schedule.Timed) {
	t.Helper()
	byID := map[string]schedule.Timed{}
	for _, s := range timed {
		byID[s.ID] = s
		require.False(t, s.End().After(p.Serve), "%s ends after serving", s.ID)
	}
	for _, s := range p.Steps {
		placed, there := byID[s.ID]
		require.True(t, there, "%s has no place", s.ID)
		require.Equal(t, s, placed.Step)
		for _, id := range s.After {
			require.False(t, byID[id].End().After(placed.At), "%s begins before %s is over", s.ID, id)
		}
		if s.StraightFrom != "" {
			require.Equal(t, byID[s.StraightFrom].End(), placed.At, "%s waits", s.ID)
		}
	}
	for i, a := range timed {
		for _, b := range timed[i+1:] {
			if a.Hands > 0 && b.Hands > 0 || a.Ring > 0 && a.Ring == b.Ring {
				require.False(t, a.At.Before(b.End()) && b.At.Before(a.End()), "%s and %s at once", a.ID, b.ID)
			}
		}
	}
}

func TestKindsAreThoseOfTheContract(t *testing.T) {
	want := []string{"scrub", "peel", "cut", "pick", "boil", "load", "steam", "boil-in", "test", "unload", "lift-out", "spread",
		"cool", "chill", "cold-box", "warm", "melt", "dress", "finish", "serve", "top-up", "canister", "own"}
	var got []string
	for _, kind := range schedule.Kinds() {
		got = append(got, string(kind))
	}
	assert.Equal(t, want, got)
}
