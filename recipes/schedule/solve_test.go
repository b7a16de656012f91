package schedule_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes/schedule"
)

var supper = time.Date(2031, time.July, 12, 18, 30, 0, 0, time.UTC)

func minutes(m int) time.Duration { return time.Duration(m) * time.Minute }

// A salad has to cool before it is dressed; crushed potatoes come straight from
// the steamer to the table.
func ExampleSolve() {
	t, err := schedule.Solve(context.Background(), schedule.Problem{Serve: supper, Steps: []schedule.Step{
		{ID: "salad", Kind: schedule.Steam, Steamer: true, Ring: 1, Length: minutes(15)},
		{ID: "tray", Kind: schedule.Cool, Length: minutes(60), AtOnce: "salad"},
		{ID: "dress", Kind: schedule.Dress, Hands: 1, Length: minutes(10), After: []string{"tray"}},
		{ID: "crushed", Kind: schedule.Steam, Steamer: true, Ring: 1, Length: minutes(20)},
		{ID: "finish", Kind: schedule.Finish, Hands: 1, Length: minutes(5), After: []string{"crushed"}},
	}, Lags: []schedule.Lag{{Step: "crushed", Goal: schedule.HotWaits}}})
	for _, step := range t.Steps {
		fmt.Println(step.At.Format("15:04"), step.End().Format("15:04"), step.Kind)
	}
	fmt.Println(t.Cost.Hot, "min of waiting,", t.Cost.Length, "min in all, proven:", t.Proven, err)
	// Output:
	// 17:00 17:15 steam
	// 17:15 18:15 cool
	// 18:05 18:25 steam
	// 18:15 18:25 dress
	// 18:25 18:30 finish
	// 5 min of waiting, 90 min in all, proven: true <nil>
}

func step(id string, length int, change ...func(*schedule.Step)) schedule.Step {
	s := schedule.Step{ID: id, Length: minutes(length)}
	for _, c := range change {
		c(&s)
	}
	return s
}

func hands(n int) func(*schedule.Step) { return func(s *schedule.Step) { s.Hands = n } }
func inSteamer(s *schedule.Step)       { s.Steamer, s.Ring = true, 1 }
func onRing(s *schedule.Step)          { s.Ring = 1 }
func in(place string) func(*schedule.Step) {
	return func(s *schedule.Step) { s.Place = place }
}
func onTray(s *schedule.Step)            { s.Tray = 1 }
func run(id string) func(*schedule.Step) { return func(s *schedule.Step) { s.Run = id } }
func after(ids ...string) func(*schedule.Step) {
	return func(s *schedule.Step) { s.After = append(s.After, ids...) }
}
func atOnce(id string) func(*schedule.Step) { return func(s *schedule.Step) { s.AtOnce = id } }
func beside(id string, offset int) func(*schedule.Step) {
	return func(s *schedule.Step) { s.Beside, s.Offset = id, minutes(offset) }
}

func hot(id string) schedule.Lag { return schedule.Lag{Step: id, Goal: schedule.HotWaits} }
func warm(id string) schedule.Lag {
	return schedule.Lag{Step: id, Goal: schedule.WarmWaits, Most: minutes(30)}
}
func clock(id string, most int) schedule.Lag {
	return schedule.Lag{Step: id, Goal: schedule.KeepsClock, Most: minutes(most)}
}

func TestSolve(t *testing.T) {
	for _, c := range []struct {
		name  string
		have  schedule.Have
		lags  []schedule.Lag
		steps []schedule.Step
		want  []string // id and minutes before serving
	}{
		{"nothing to do", schedule.Have{}, nil, nil, nil},
		{"as late as it can be", schedule.Have{}, nil, []schedule.Step{step("a", 10)}, []string{"a -10"}},
		{"a step waits for another", schedule.Have{}, nil, []schedule.Step{step("b", 5, after("a")), step("a", 10)}, []string{"a -15", "b -5"}},
		{"one pair of hands", schedule.Have{}, []schedule.Lag{hot("b")}, []schedule.Step{step("a", 10, hands(1)), step("b", 5, hands(1))}, []string{"a -15", "b -5"}},
		{"two pairs of hands", schedule.Have{Hands: 2}, nil, []schedule.Step{step("a", 10, hands(1)), step("b", 5, hands(1))}, []string{"a -10", "b -5"}},
		{"hot goes last", schedule.Have{}, []schedule.Lag{hot("h")}, []schedule.Step{step("h", 10, inSteamer), step("c", 10, inSteamer)}, []string{"c -20", "h -10"}},
		{"a clock comes before what is hot", schedule.Have{}, []schedule.Lag{hot("h"), clock("c", 5)},
			[]schedule.Step{step("h", 10, inSteamer), step("c", 10, inSteamer)}, []string{"h -20", "c -10"}},
		{"warm may wait half an hour", schedule.Have{}, []schedule.Lag{warm("w"), hot("h")},
			[]schedule.Step{step("w", 10, inSteamer), step("h", 10, inSteamer)}, []string{"w -20", "h -10"}},
		{"one steamer on two rings", schedule.Have{Rings: 2}, []schedule.Lag{hot("h")},
			[]schedule.Step{step("h", 10, inSteamer), step("c", 10, inSteamer), step("milk", 5, onRing)}, []string{"c -20", "h -10", "milk -5"}},
		{"the milk has to have the one ring", schedule.Have{}, []schedule.Lag{hot("h")},
			[]schedule.Step{step("h", 10, inSteamer), step("milk", 5, onRing), step("mash", 3, hands(1), after("h", "milk"))}, []string{"milk -18", "h -13", "mash -3"}},
		{"at once and beside", schedule.Have{}, []schedule.Lag{hot("steam")},
			[]schedule.Step{step("steam", 20, inSteamer), step("test", 1, hands(1), beside("steam", 12)), step("out", 2, hands(1), atOnce("steam")), step("peel", 9, hands(1))},
			[]string{"steam -22", "peel -19", "test -10", "out -2"}},
		{"one filling, two tiers", schedule.Have{}, nil,
			[]schedule.Step{step("a", 20, inSteamer, run("r1")), step("b", 12, inSteamer, run("r1"), beside("a", 8))}, []string{"a -20", "b -12"}},
		{"one oven and one grill", schedule.Have{}, nil, []schedule.Step{step("a", 10, in("oven")), step("b", 10, in("oven")), step("c", 10, in("grill"))}, []string{"a -20", "b -10", "c -10"}},
		{"one tray", schedule.Have{Trays: 1}, nil, []schedule.Step{step("a", 10, onTray), step("b", 10, onTray)}, []string{"a -20", "b -10"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := schedule.Solve(t.Context(), schedule.Problem{Steps: c.steps, Serve: supper, Have: c.have, Lags: c.lags})
			require.NoError(t, err)
			assert.True(t, got.Proven)
			assert.Equal(t, got.Cost, got.Bound)
			var told []string
			for _, s := range got.Steps {
				told = append(told, fmt.Sprintf("%s -%d", s.ID, int(supper.Sub(s.At).Minutes())))
			}
			assert.ElementsMatch(t, c.want, told)
		})
	}
}

// What is better done soon goes to the first time its hands are free, and costs
// nothing.
func TestSoonIsDoneEarly(t *testing.T) {
	soon := func(s *schedule.Step) { s.Soon = true }
	steps := []schedule.Step{step("w", 10, inSteamer), step("out", 1, hands(1), inSteamer, atOnce("w")),
		step("h", 20, inSteamer), step("load", 2, hands(1), beside("h", 0)), step("dress", 4, hands(1), after("out"), soon), step("finish", 5, hands(1), after("h"))}
	got, err := schedule.Solve(t.Context(), schedule.Problem{Steps: steps, Serve: supper, Lags: []schedule.Lag{hot("h")}})
	require.NoError(t, err)
	at := map[string]int{}
	for _, s := range got.Steps {
		at[s.ID] = -int(supper.Sub(s.At).Minutes())
	}
	assert.Equal(t, map[string]int{"w": -36, "out": -26, "h": -25, "load": -25, "dress": -23, "finish": -5}, at, "after the loading, long before it has to be")
}

func TestRingsAreNumbered(t *testing.T) {
	got, err := schedule.Solve(t.Context(), schedule.Problem{Serve: supper, Have: schedule.Have{Rings: 2}, Lags: []schedule.Lag{hot("h"), hot("milk")},
		Steps: []schedule.Step{step("h", 10, inSteamer), step("milk", 5, onRing), step("peel", 5, hands(1))}})
	require.NoError(t, err)
	rings := map[string]int{}
	for _, s := range got.Steps {
		rings[s.ID] = s.Ring
	}
	assert.Equal(t, map[string]int{"h": 1, "milk": 2, "peel": 0}, rings)
}

func TestSolveRefuses(t *testing.T) {
	for _, c := range []struct {
		name  string
		steps []schedule.Step
		lags  []schedule.Lag
		want  error
	}{
		{"two that wait for each other", []schedule.Step{step("a", 1, after("b")), step("b", 1, after("a"))}, nil, schedule.ErrCircle},
		{"two that follow each other", []schedule.Step{step("a", 1, atOnce("b")), step("b", 1, atOnce("a"))}, nil, schedule.ErrCircle},
		{"one that waits for what follows it at once", []schedule.Step{step("a", 1, after("b")), step("b", 1, atOnce("a"))}, nil, schedule.ErrCircle},
		{"one that waits for nothing there is", []schedule.Step{step("a", 1, after("x"))}, nil, schedule.ErrUnknownStep},
		{"one that follows nothing there is", []schedule.Step{step("a", 1, atOnce("x"))}, nil, schedule.ErrUnknownStep},
		{"a lag of nothing there is", []schedule.Step{step("a", 1)}, []schedule.Lag{hot("x")}, schedule.ErrUnknownStep},
		{"more hands than there are", []schedule.Step{step("a", 1, hands(2))}, nil, schedule.ErrTooLittle},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := schedule.Solve(t.Context(), schedule.Problem{Steps: c.steps, Serve: supper, Lags: c.lags})
			require.ErrorIs(t, err, c.want)
		})
	}
}

func TestSolveHeedsItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := schedule.Solve(ctx, evening(12, 1<<20))
	require.ErrorIs(t, err, context.Canceled)
}

// What is given up early has a bound that holds and a timetable that is sound.
func TestSolveGivesUpHonestly(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	gaveUp := 0
	for range 300 {
		p := randomSmall(random, 5)
		whole, err := schedule.Solve(t.Context(), p)
		require.NoError(t, err)
		p.NodeLimit = 1 + random.IntN(4)
		early, err := schedule.Solve(t.Context(), p)
		require.NoError(t, err)
		requireSound(t, p, early)
		require.LessOrEqual(t, early.Bound.Compare(whole.Cost), 0)
		require.GreaterOrEqual(t, early.Cost.Compare(whole.Cost), 0)
		if !early.Proven {
			gaveUp++
		} else {
			require.Equal(t, whole.Cost, early.Cost)
		}
	}
	assert.Positive(t, gaveUp)
}

// evening is a meal of so many fillings, each of one dish: peeled, steamed with a
// test, taken out, finished; every third is cooled first.
func evening(dishes, patience int) schedule.Problem {
	p := schedule.Problem{Serve: supper, NodeLimit: patience}
	p.Steps = append(p.Steps, step("boil", 9, onRing), step("pick", 9, hands(1)))
	for d := range dishes {
		id := func(what string) string { return fmt.Sprint(what, d) }
		p.Steps = append(p.Steps, step(id("peel"), 6+d%5, hands(1)), step(id("reboil"), 1, inSteamer, after("boil")),
			step(id("load"), 2, inSteamer, hands(1), atOnce(id("reboil")), after(id("peel"))),
			step(id("steam"), 14+3*(d%4), inSteamer, atOnce(id("load"))),
			step(id("test"), 1, hands(1), beside(id("steam"), 8)), step(id("out"), 1, inSteamer, hands(1), atOnce(id("steam"))))
		switch d % 3 {
		case 0:
			p.Steps = append(p.Steps, step(id("finish"), 5, hands(1), after(id("out"))))
			p.Lags = append(p.Lags, hot(id("steam")))
		case 1:
			p.Steps = append(p.Steps, step(id("cool"), 50, atOnce(id("out"))), step(id("dress"), 8, hands(1), after(id("cool"), "pick")))
		default:
			p.Steps = append(p.Steps, step(id("finish"), 5, hands(1), after(id("out"), "pick")))
			p.Lags = append(p.Lags, warm(id("steam")))
		}
	}
	return p
}

// Evenings of up to eight fillings are proven. The orders tried are pinned: more
// of them tell that a bound or a narrowing rule has been lost, which no cost
// shows.
func TestEveningsAreProven(t *testing.T) {
	for n, want := range []struct {
		cost  schedule.Cost
		nodes int
	}{
		{schedule.Cost{Over: 0, Hot: 0, Warm: 0, Length: 9}, 1},
		{schedule.Cost{Over: 0, Hot: 6, Warm: 0, Length: 37}, 5},
		{schedule.Cost{Over: 0, Hot: 6, Warm: 0, Length: 100}, 5},
		{schedule.Cost{Over: 0, Hot: 6, Warm: 0, Length: 100}, 13},
		{schedule.Cost{Over: 0, Hot: 30, Warm: 21, Length: 104}, 25},
		{schedule.Cost{Over: 0, Hot: 30, Warm: 21, Length: 130}, 250},
		{schedule.Cost{Over: 0, Hot: 30, Warm: 63, Length: 151}, 1402},
		{schedule.Cost{Over: 0, Hot: 78, Warm: 111, Length: 167}, 163},
		{schedule.Cost{Over: 0, Hot: 78, Warm: 111, Length: 194}, 210},
	} {
		got, err := schedule.Solve(t.Context(), evening(n, 0))
		require.NoError(t, err)
		assert.True(t, got.Proven, "%d fillings", n)
		assert.Equal(t, want.cost, got.Cost, "%d fillings", n)
		assert.Equal(t, want.nodes, got.Nodes, "%d fillings", n)
		requireSound(t, evening(n, 0), got)
	}
}

// The same of random evenings on one to three pairs of hands and one or two
// rings; the larger are not always proven, and their bounds are pinned too. More of
// them with TRENCHER_LONG.
func TestRandomEvenings(t *testing.T) {
	for _, want := range []evenings{
		{4, 6, 6, 152, 1309, 1309},
		{6, 6, 6, 488, 2014, 2014},
		{8, 6, 5, 1659, 4103, 3777},
		{10, 2, 2, 551, 1692, 1692},
	} {
		assert.Equal(t, want, manyEvenings(t, want.fillings, want.tried))
	}
	if os.Getenv("TRENCHER_LONG") == "" {
		return
	}
	for _, want := range []evenings{
		{4, 20, 20, 460, 3886, 3886},
		{6, 20, 19, 2820, 6980, 6973},
		{8, 20, 18, 4699, 11527, 11200},
		{10, 20, 14, 11162, 16222, 15839},
	} {
		assert.Equal(t, want, manyEvenings(t, want.fillings, want.tried))
	}
}

// evenings are the sums over evenings of so many fillings.
type evenings struct{ fillings, tried, proven, nodes, cost, bound int }

func manyEvenings(t *testing.T, fillings, tried int) evenings {
	random := rand.New(rand.NewPCG(11, uint64(fillings)))
	sums := evenings{fillings: fillings, tried: tried}
	for range tried {
		p := randomEvening(random, fillings)
		got, err := schedule.Solve(t.Context(), p)
		require.NoError(t, err)
		requireSound(t, p, got)
		require.LessOrEqual(t, got.Bound.Compare(got.Cost), 0)
		if got.Proven {
			sums.proven++
		}
		sums.nodes += got.Nodes
		sums.cost += got.Cost.Over + got.Cost.Hot + got.Cost.Warm + got.Cost.Length
		sums.bound += got.Bound.Over + got.Bound.Hot + got.Bound.Warm + got.Bound.Length
	}
	return sums
}

// randomEvening is a meal of so many fillings, cooled, warm and hot, some with a
// clock, a pan on a ring or an oven besides.
func randomEvening(random *rand.Rand, fillings int) schedule.Problem {
	p := schedule.Problem{Serve: supper, NodeLimit: 800, Have: schedule.Have{Hands: 1 + random.IntN(3), Rings: 1 + random.IntN(2), Trays: random.IntN(3)}}
	p.Steps = append(p.Steps, step("boil", 6+random.IntN(8), onRing), step("pick", 5+random.IntN(10), hands(1)))
	for d := range fillings {
		id := func(what string) string { return fmt.Sprint(what, d) }
		steams := 12 + random.IntN(20)
		p.Steps = append(p.Steps, step(id("peel"), 5+random.IntN(8), hands(1)), step(id("reboil"), 1+random.IntN(5), inSteamer, after("boil")),
			step(id("load"), 2, inSteamer, hands(1), atOnce(id("reboil")), after(id("peel"))),
			step(id("steam"), steams, inSteamer, atOnce(id("load"))),
			step(id("test"), 1, hands(1), beside(id("steam"), 3+random.IntN(steams-3))),
			step(id("out"), 1, inSteamer, hands(1), atOnce(id("steam"))))
		finish := step(id("finish"), 4, hands(1), after(id("out")))
		switch random.IntN(3) {
		case 0:
			p.Lags = append(p.Lags, hot(id("steam")), clock(id("steam"), 60))
		case 1:
			p.Steps = append(p.Steps, step(id("spread"), 2, hands(1), atOnce(id("out"))), step(id("cool"), 40+random.IntN(30), onTray, atOnce(id("spread"))))
			finish.After = []string{id("cool"), "pick"}
		default:
			p.Lags = append(p.Lags, warm(id("steam")))
		}
		switch random.IntN(4) {
		case 0:
			p.Steps = append(p.Steps, step(id("milk"), 4, hands(1), onRing))
			finish.After = append(finish.After, id("milk"))
		case 1:
			p.Steps = append(p.Steps, step(id("crust"), 12, in("oven")))
			finish.After = append(finish.After, id("crust"))
		}
		p.Steps = append(p.Steps, finish)
	}
	return p
}

func BenchmarkSolve(b *testing.B) {
	for _, dishes := range []int{5, 8, 12} {
		b.Run(fmt.Sprint(dishes, " dishes"), func(b *testing.B) {
			p := evening(dishes, 0)
			for b.Loop() {
				if _, err := schedule.Solve(b.Context(), p); err != nil {
					b.Fatal(err)
				}
			}
		})
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
