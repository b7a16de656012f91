package schedule_test

import (
	"context"
	"errors"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes/schedule"
)

// at are the minutes before serving at which the steps begin, by ID.
func beginsOf(t *testing.T, p schedule.Problem) (map[string]int, schedule.Timetable) {
	t.Helper()
	p.Serve = supper
	got, err := schedule.Solve(t.Context(), p)
	require.NoError(t, err)
	begins := map[string]int{}
	for _, s := range got.Steps {
		begins[s.ID] = int(supper.Sub(s.At).Minutes())
	}
	return begins, got
}

// What a step keeps busy, and what it leaves free.
func TestWhatAStepKeepsBusy(t *testing.T) {
	for _, c := range []struct {
		name  string
		have  schedule.Have
		steps []schedule.Step
		want  map[string]int
	}{
		{"a step that wants a ring wants one, however it is numbered", schedule.Have{Rings: 1},
			[]schedule.Step{step("a", 5, func(s *schedule.Step) { s.Ring = 3 }), step("b", 5, onRing)}, map[string]int{"a": 10, "b": 5}},
		{"and leaves the other to another", schedule.Have{Rings: 2},
			[]schedule.Step{step("a", 5, func(s *schedule.Step) { s.Ring = 2 }), step("b", 5, onRing)}, map[string]int{"a": 5, "b": 5}},
		{"what takes no time keeps nothing", schedule.Have{},
			[]schedule.Step{step("lit", 0, onRing), step("stir", 5, atOnce("lit")), step("warm", 5, onRing, atOnce("stir")), step("milk", 5, onRing)},
			map[string]int{"lit": 10, "stir": 10, "warm": 5, "milk": 10}},
		{"a pan stays on its ring between its own steps", schedule.Have{},
			[]schedule.Step{step("heat", 5, onRing), step("stir", 5, atOnce("heat")), step("warm", 5, onRing, atOnce("stir")), step("milk", 5, onRing)},
			map[string]int{"heat": 20, "stir": 15, "warm": 10, "milk": 5}},
		{"the steamer is free between two fillings that are not tied", schedule.Have{Rings: 2},
			[]schedule.Step{step("a", 5, inSteamer), step("b", 5, inSteamer, after("a")), step("c", 3, inSteamer)},
			map[string]int{"a": 13, "b": 8, "c": 3}},
		{"no trays named are trays enough", schedule.Have{}, []schedule.Step{step("a", 10, onTray), step("b", 10, onTray), step("c", 10, onTray)},
			map[string]int{"a": 10, "b": 10, "c": 10}},
		{"two trays hold two", schedule.Have{Trays: 2}, []schedule.Step{step("a", 10, onTray), step("b", 10, onTray), step("c", 10, onTray)},
			map[string]int{"a": 20, "b": 10, "c": 10}},
		{"a tray and the oven are two things", schedule.Have{Trays: 1}, []schedule.Step{step("a", 10, onTray), step("b", 10, in("oven"))}, map[string]int{"a": 10, "b": 10}},
		{"two at one oven come after each other, hands or not", schedule.Have{Hands: 2}, []schedule.Step{step("a", 10, in("oven"), hands(1)), step("b", 4, in("oven"), hands(1))}, map[string]int{"a": 14, "b": 4}},
		{"three people do three things, not four", schedule.Have{Hands: 3},
			[]schedule.Step{step("a", 10, hands(2)), step("b", 10, hands(1)), step("c", 10, hands(1))}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			begins, got := beginsOf(t, schedule.Problem{Steps: c.steps, Have: c.have})
			assert.True(t, got.Proven)
			if c.want == nil {
				assert.Equal(t, 20, got.Cost.Length)
				return
			}
			assert.Len(t, begins, len(c.steps))
			total := 0
			for _, s := range c.steps {
				total = max(total, begins[s.ID])
			}
			longest := 0
			for _, at := range c.want {
				longest = max(longest, at)
			}
			assert.Equal(t, longest, total, "as long as it has to be: %v", begins)
			if len(c.steps) > 2 || longest == 5 {
				for _, s := range c.steps {
					if s.AtOnce != "" {
						lead := begins[s.AtOnce]
						for _, o := range c.steps {
							if o.ID == s.AtOnce {
								assert.Equal(t, lead-int(o.Length.Minutes()), begins[s.ID], "%s at once", s.ID)
							}
						}
					}
				}
			}
		})
	}
}

// Steps of one block that meet ask for what each asks, together.
func TestStepsTiedToEachOtherAddUp(t *testing.T) {
	for name, busy := range map[string]func(*schedule.Step){"hands": hands(1), "trays": onTray} {
		p := schedule.Problem{Serve: supper, Have: schedule.Have{Hands: 1, Trays: 1},
			Steps: []schedule.Step{step("a", 10, busy), step("b", 5, busy, beside("a", 2))}}
		_, err := schedule.Solve(t.Context(), p)
		require.ErrorIs(t, err, schedule.ErrTooLittle, name)
		assert.ErrorContains(t, err, "a", name)
		p.Have = schedule.Have{Hands: 2, Trays: 2}
		_, err = schedule.Solve(t.Context(), p)
		require.NoError(t, err, name)
		p.Have, p.Steps[1] = schedule.Have{Hands: 1, Trays: 1}, step("b", 5, busy, beside("a", 10))
		_, err = schedule.Solve(t.Context(), p)
		require.NoError(t, err, "%s: one after the other", name)
	}
	// Tiers of one filling share steamer and ring.
	_, err := schedule.Solve(t.Context(), schedule.Problem{Serve: supper, Steps: []schedule.Step{step("a", 10, inSteamer), step("b", 5, inSteamer, beside("a", 2))}})
	require.NoError(t, err)
}

// A part of a minute is a whole one: nothing ends before it is over.
func TestPartsOfMinutesCountWhole(t *testing.T) {
	for length, want := range map[time.Duration]int{0: 0, 1: 1, time.Minute - 1: 1, time.Minute: 1, time.Minute + 1: 2, 5*time.Minute + time.Second: 6} {
		s := step("a", 0)
		s.Length = length
		begins, got := beginsOf(t, schedule.Problem{Steps: []schedule.Step{s}})
		assert.Equal(t, want, begins["a"], length)
		assert.Equal(t, want, got.Cost.Length)
	}
	lag := schedule.Lag{Step: "a", Most: 4*time.Minute + 1, Goal: schedule.HotWaits}
	_, got := beginsOf(t, schedule.Problem{Steps: []schedule.Step{step("a", 1), step("b", 6, after("a"))}, Lags: []schedule.Lag{lag}})
	assert.Equal(t, 1, got.Cost.Hot, "six minutes, of which four and a bit, so five, may be")
}

// What takes any time at all keeps its thing for a minute: one pair of hands does two
// such steps one after the other.
func TestAMomentKeepsItsThing(t *testing.T) {
	moment := func(id string) schedule.Step {
		s := step(id, 0, hands(1))
		s.Length = time.Nanosecond
		return s
	}
	begins, got := beginsOf(t, schedule.Problem{Steps: []schedule.Step{moment("a"), moment("b")}})
	assert.Equal(t, 3, begins["a"]+begins["b"])
	assert.Equal(t, schedule.Cost{Length: 2}, got.Cost)
}

// Of two hot fillings that may wait a minute each the first waits four of five beyond
// that: what the steamer takes is no bound on what may wait.
func TestHotFoodThatMayWaitAMinute(t *testing.T) {
	for most := range 3 {
		lags := []schedule.Lag{hot("a"), hot("b")}
		for i := range lags {
			lags[i].Most = minutes(most)
		}
		_, got := beginsOf(t, schedule.Problem{Steps: []schedule.Step{step("a", 5, inSteamer), step("b", 5, inSteamer)}, Lags: lags})
		assert.Equal(t, schedule.Cost{Hot: 5 - most, Length: 10}, got.Cost)
		assert.Equal(t, got.Cost, got.Bound)
		assert.True(t, got.Proven)
	}
}

// A search that is called off before it has any timetable says so, and no more.
func TestCalledOffBeforeTheFirstTimetable(t *testing.T) {
	var steps []schedule.Step
	for n := range 70 { // all want the one pair of hands: 69 orders of two have to be settled
		steps = append(steps, step(fmt.Sprint("s", n), 1, hands(1)))
	}
	got, err := schedule.Solve(&asking{Context: context.Background()}, schedule.Problem{Steps: steps, Serve: supper})
	require.ErrorIs(t, err, context.Canceled)
	require.NotErrorIs(t, err, schedule.ErrCircle)
	assert.Empty(t, got)
}

// What is beyond a lag's most counts, what is within it does not, each in its goal.
func TestWhatWaitingCosts(t *testing.T) {
	for _, c := range []struct {
		lag  schedule.Lag
		want schedule.Cost
	}{
		{hot("a"), schedule.Cost{Hot: 40, Length: 45}},
		{warm("a"), schedule.Cost{Warm: 10, Length: 45}},
		{clock("a", 15), schedule.Cost{Over: 25, Length: 45}},
		{clock("a", 40), schedule.Cost{Length: 45}},
		{clock("a", 39), schedule.Cost{Over: 1, Length: 45}},
	} {
		_, got := beginsOf(t, schedule.Problem{Steps: []schedule.Step{step("a", 5), step("b", 40, after("a"))}, Lags: []schedule.Lag{c.lag}})
		assert.Equal(t, c.want, got.Cost)
		assert.Equal(t, c.want, got.Bound)
	}
	_, got := beginsOf(t, schedule.Problem{Steps: []schedule.Step{step("a", 5), step("b", 40, after("a"))}, Lags: []schedule.Lag{hot("a"), hot("b"), warm("a"), clock("a", 10), clock("b", 0)}})
	assert.Equal(t, schedule.Cost{Over: 30, Hot: 40, Warm: 10, Length: 45}, got.Cost, "what several lags cost adds up")
}

// Goals count in their order: none is worth a minute of one before it.
func TestGoalsCountInTheirOrder(t *testing.T) {
	better := []schedule.Cost{
		{Over: 0, Hot: 99, Warm: 99, Length: 99}, {Over: 1, Hot: 0, Warm: 99, Length: 99},
		{Over: 1, Hot: 1, Warm: 0, Length: 99}, {Over: 1, Hot: 1, Warm: 1, Length: 0}, {Over: 1, Hot: 1, Warm: 1, Length: 1},
	}
	for i, a := range better {
		for j, b := range better {
			assert.Equal(t, i < j, a.Compare(b) < 0, "%v %v", a, b)
			assert.Equal(t, i == j, a.Compare(b) == 0, "%v %v", a, b)
		}
	}
}

// The steps come in the order of their beginnings, those that begin together in that
// of their ends.
func TestStepsComeInTheirOrder(t *testing.T) {
	_, got := beginsOf(t, schedule.Problem{Have: schedule.Have{Hands: 9}, Steps: []schedule.Step{
		step("long", 10, hands(1)), step("short", 4, hands(1), beside("long", 0)), step("shortest", 2, hands(1), beside("long", 0)), step("first", 12, hands(1)), step("last", 1, hands(1))}})
	var order []string
	for _, s := range got.Steps {
		order = append(order, s.ID)
	}
	assert.Equal(t, []string{"first", "shortest", "short", "long", "last"}, order)
}

// The steamer has the lowest ring that is free and what is small the highest; a
// filling has its ring from when it first wants one, and no step has one that wants
// none.
func TestWhichRing(t *testing.T) {
	rings := func(have int, steps ...schedule.Step) map[string]int {
		_, got := beginsOf(t, schedule.Problem{Steps: steps, Have: schedule.Have{Rings: have, Hands: 9}})
		of := map[string]int{}
		for _, s := range got.Steps {
			of[s.ID] = s.Ring
		}
		return of
	}
	assert.Equal(t, map[string]int{"milk": 3}, rings(3, step("milk", 5, onRing)), "alone")
	assert.Equal(t, map[string]int{"milk": 3, "butter": 2}, rings(3, step("milk", 6, onRing), step("butter", 5, onRing)))
	assert.Equal(t, map[string]int{"load": 0, "steam": 1, "milk": 2}, rings(2, step("load", 2, hands(1)), step("steam", 10, inSteamer, atOnce("load")), step("milk", 5, onRing)))
	assert.Equal(t, map[string]int{"a": 1, "b": 1}, rings(2, step("a", 5, inSteamer), step("b", 5, inSteamer)), "one steamer, one ring")
	assert.Equal(t, map[string]int{"peel": 0, "a": 1}, rings(1, step("peel", 9, hands(1)), step("a", 5, inSteamer)))
	assert.Equal(t, map[string]int{"a": 1, "b": 1, "stir": 0}, rings(1, step("a", 3, onRing), step("stir", 4, atOnce("a")), step("b", 3, onRing, atOnce("stir"))))
}

// What is better done soon waits for all that it rests on and for hands, and is never
// later than it has to be.
func TestSoonWaitsForHands(t *testing.T) {
	soon := func(s *schedule.Step) { s.Soon = true }
	steps := func() []schedule.Step {
		return []schedule.Step{step("out", 1, hands(1)), step("herbs", 3, hands(1), atOnce("out")), step("cool", 30, atOnce("herbs")),
			step("dress", 4, hands(1), after("out"), soon), step("serve", 1, hands(1), after("dress", "cool"))}
	}
	begins, _ := beginsOf(t, schedule.Problem{Steps: steps()})
	assert.Equal(t, map[string]int{"out": 35, "herbs": 34, "cool": 31, "dress": 31, "serve": 1}, begins, "once the herbs are chopped")
	begins, _ = beginsOf(t, schedule.Problem{Steps: steps(), Have: schedule.Have{Hands: 2}})
	assert.Equal(t, 34, begins["dress"], "a second pair of hands dresses at once")
	alone := []schedule.Step{step("dress", 4, hands(1), soon), step("serve", 1, hands(1), after("dress"))}
	begins, _ = beginsOf(t, schedule.Problem{Steps: alone})
	assert.Equal(t, 5, begins["dress"], "what waits for nothing has no first moment")
	late := []schedule.Step{step("a", 2, hands(1)), step("a2", 25, atOnce("a")), step("b", 6), step("dress", 4, hands(1), after("a", "b"), soon), step("rest", 20, after("b")), step("serve", 1, after("dress", "rest", "a2"))}
	begins, _ = beginsOf(t, schedule.Problem{Steps: late})
	assert.Equal(t, begins["b"]-6, begins["dress"], "the last of those it waits for")
}

// asking counts how often it is asked, and is over after so many times.
type asking struct {
	context.Context
	asked, most int
}

func (a *asking) Err() error {
	if a.asked++; a.asked > a.most {
		return context.Canceled
	}
	return nil
}

// The context is asked once in 64 orders, and heeded whenever it is over.
func TestTheContextIsAskedNowAndThen(t *testing.T) {
	p := evening(8, 0)
	p.Steps = append(p.Steps, step("milk", 9, onRing, hands(1)))
	patient := &asking{Context: context.Background(), most: 1 << 30}
	got, err := schedule.Solve(patient, p)
	require.NoError(t, err)
	require.Greater(t, got.Nodes, 2*64)
	assert.Equal(t, got.Nodes/64, patient.asked)
	for limit, nodes := range map[int]int{157: 5*64 + 1, 218: 6*64 - 1} {
		patient := &asking{Context: context.Background(), most: 1 << 30}
		got, err := schedule.Solve(patient, evening(10, limit))
		require.NoError(t, err)
		require.Equal(t, nodes, got.Nodes)
		assert.Equal(t, 5, patient.asked)
	}
	for most := range patient.asked {
		_, err := schedule.Solve(&asking{Context: context.Background(), most: most}, p)
		require.ErrorIs(t, err, context.Canceled, "asked %d times", most)
	}
}

// Each error names the step and what it names.
func TestErrorsNameTheirSteps(t *testing.T) {
	for _, c := range []struct {
		want  string
		steps []schedule.Step
		lags  []schedule.Lag
	}{
		{"bake waits for knead: no such step", []schedule.Step{step("bake", 1, after("knead"))}, nil},
		{"bake follows knead: no such step", []schedule.Step{step("bake", 1, atOnce("knead"))}, nil},
		{"bake follows knead: no such step", []schedule.Step{step("bake", 1, beside("knead", 1))}, nil},
		{"a lag of knead: no such step", []schedule.Step{step("bake", 1)}, []schedule.Lag{hot("knead")}},
		{"bake and cool: steps wait for each other", []schedule.Step{step("bake", 1, after("cool")), step("cool", 1, atOnce("bake"))}, nil},
		{"bake: a step wants more than there is", []schedule.Step{step("rest", 1), step("bake", 1, hands(3))}, nil},
	} {
		_, err := schedule.Solve(t.Context(), schedule.Problem{Steps: c.steps, Lags: c.lags, Serve: supper})
		require.EqualError(t, err, c.want)
	}
	_, err := schedule.Solve(t.Context(), schedule.Problem{Serve: supper, Steps: []schedule.Step{step("a", 1, atOnce("b")), step("b", 1, beside("c", 1)), step("c", 1, atOnce("a"))}})
	assert.True(t, errors.Is(err, schedule.ErrCircle), err)
	// A chain as long as the problem is no circle.
	chain := []schedule.Step{step("s0", 1)}
	for n := 1; n < 6; n++ {
		chain = append([]schedule.Step{step(fmt.Sprint("s", n), 1, atOnce(fmt.Sprint("s", n-1)))}, chain...)
	}
	begins, _ := beginsOf(t, schedule.Problem{Steps: chain})
	assert.Equal(t, map[string]int{"s0": 6, "s1": 5, "s2": 4, "s3": 3, "s4": 2, "s5": 1}, begins)
}

// A step beside another keeps its distance to the minute, before it or after.
func TestBesideKeepsItsDistance(t *testing.T) {
	begins, got := beginsOf(t, schedule.Problem{Steps: []schedule.Step{step("steam", 20), step("test", 1, beside("steam", 12)), step("heat", 5, beside("steam", -5)), step("stir", 2, atOnce("heat"))}})
	assert.Equal(t, map[string]int{"steam": 20, "test": 8, "heat": 25, "stir": 20}, begins)
	assert.Equal(t, schedule.Cost{Length: 25}, got.Cost, "from the first of them on")
}

// What waits for a step in the middle of a block waits for that one alone.
func TestWaitingForTheMiddleOfABlock(t *testing.T) {
	begins, _ := beginsOf(t, schedule.Problem{Have: schedule.Have{Hands: 5}, Steps: []schedule.Step{
		step("a", 5), step("b", 7, atOnce("a")), step("c", 9, atOnce("b")), step("x", 20, after("b")), step("y", 3, after("a")), step("z", 4)}})
	assert.Equal(t, map[string]int{"a": 32, "b": 27, "c": 20, "x": 20, "y": 3, "z": 4}, begins)
}

// Patience is what is said; without it, the usual.
func TestPatience(t *testing.T) {
	random := evening(12, 50)
	impatient, err := schedule.Solve(t.Context(), random)
	require.NoError(t, err)
	assert.False(t, impatient.Proven)
	assert.NotEqual(t, impatient.Cost, impatient.Bound, "what is not proven has a bound below its cost")
	random.NodeLimit = 0
	usual, err := schedule.Solve(t.Context(), random)
	require.NoError(t, err)
	assert.Greater(t, usual.Nodes, impatient.Nodes)
	assert.LessOrEqual(t, usual.Nodes, schedule.DefaultNodes+2*len(random.Steps)+100)
}

// A step may wait for the one that it follows at once: that says the same twice.
func TestWaitingForWhatIsFollowedAtOnce(t *testing.T) {
	begins, _ := beginsOf(t, schedule.Problem{Steps: []schedule.Step{step("a", 5), step("b", 5, atOnce("a"), after("a"))}})
	assert.Equal(t, map[string]int{"a": 10, "b": 5}, begins)
}

// Work for two that takes both of two people bounds the evening as work for one that
// takes the only one: the first timetable found is proven, after as many orders as
// there are steps.
func TestWorkForTwoBoundsTheEvening(t *testing.T) {
	for _, each := range []int{2, 3} {
		var steps []schedule.Step
		for n := range 6 {
			steps = append(steps, step(fmt.Sprint("s", n), 5+n, hands(each)))
		}
		_, got := beginsOf(t, schedule.Problem{Steps: steps, Have: schedule.Have{Hands: each}})
		assert.Equal(t, schedule.Cost{Length: 5 + 6 + 7 + 8 + 9 + 10}, got.Cost)
		assert.True(t, got.Proven)
		assert.Equal(t, len(steps), got.Nodes)
	}
}

// Nothing to do takes no time.
func TestNothingToDo(t *testing.T) {
	_, got := beginsOf(t, schedule.Problem{})
	assert.Equal(t, schedule.Cost{}, got.Cost)
	assert.Equal(t, schedule.Cost{}, got.Bound)
	assert.True(t, got.Proven)
	assert.Empty(t, got.Steps)
}

// What may not wait warm does not count among what waits hot: of a hot filling and a
// warm one the hot is last, and nothing of it waits.
func TestWarmFillingsAreNotHot(t *testing.T) {
	for _, goal := range []schedule.Goal{schedule.WarmWaits, schedule.KeepsClock} {
		begins, got := beginsOf(t, schedule.Problem{Have: schedule.Have{Rings: 2},
			Steps: []schedule.Step{step("beets", 5, inSteamer), step("mash", 10, inSteamer)},
			Lags:  []schedule.Lag{hot("mash"), {Step: "beets", Goal: goal}}})
		if goal == schedule.KeepsClock { // a clock goes before what is hot
			assert.Equal(t, map[string]int{"beets": 5, "mash": 15}, begins)
			assert.Equal(t, schedule.Cost{Hot: 5, Length: 15}, got.Cost)
		} else {
			assert.Equal(t, map[string]int{"beets": 15, "mash": 10}, begins)
			assert.Equal(t, schedule.Cost{Warm: 10, Length: 15}, got.Cost)
		}
		assert.Equal(t, got.Cost, got.Bound)
		assert.True(t, got.Proven)
	}
}
