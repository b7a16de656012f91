package meal_test

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes/heat"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
)

// Whatever the evening, a plan holds together: Check finds nothing, and every
// clock that breaks is told first. An evening is its number, the name of its test.
func TestPlansHoldTogether(t *testing.T) {
	evenings := volume(80, 1_500, 10_000)
	const shards = 4 // side by side
	var all [shards]seen
	t.Cleanup(func() { // when the last of them is done
		if t.Failed() || strings.Contains(flag.Lookup("test.run").Value.String(), "/") {
			return
		}
		var histories []string
		for _, sum := range all {
			histories = append(histories, sum.histories...)
		}
		for _, kind := range kindsOfHistory {
			assert.Contains(t, histories, kind)
		}
	})
	for shard := range shards {
		t.Run(fmt.Sprint("shard ", shard), func(t *testing.T) {
			t.Parallel()
			sum := &all[shard]
			for n := shard; n < evenings; n += shards {
				t.Run(strconv.Itoa(n), func(t *testing.T) { sum.add(requireSoundEvening(t, n)) })
			}
			if !strings.Contains(flag.Lookup("test.run").Value.String(), "/") {
				sum.require(t, evenings/shards)
			}
		})
	}
}

// The same where one to four fillings of the steamer are asked for, which the plan
// keeps to or says that it does not.
func TestPlansOfSoManyFillingsHoldTogether(t *testing.T) {
	kept := 0
	for n := range volume(16, 300, 2_000) {
		q := randomQuestion(t, rand.New(rand.NewPCG(17, uint64(n))))
		q.Rounds = 1 + n%4
		plan, err := meal.Make(context.Background(), q)
		if errors.Is(err, heat.ErrNotDone) {
			continue
		}
		require.NoError(t, err)
		require.Empty(t, meal.Check(plan), n)
		if n < 16 && plan.Levels.Proven && plan.Timing.Proven {
			golden(t, fmt.Sprintf("testdata/evenings/fillings-%02d.txt", n), brief(plan))
		}
		told := slices.ContainsFunc(plan.Warnings, func(w meal.Warning) bool { return w.Concern == meal.MoreRounds })
		require.Equal(t, len(plan.Runs) > q.Rounds, told, "evening %d: %d fillings where %d were asked for", n, len(plan.Runs), q.Rounds)
		if !told && len(plan.Runs) > 0 {
			kept++
		}
	}
	assert.Positive(t, kept)
}

// Evenings that were once planned wrongly, whatever the volume.
func TestEveningsOnceWrong(t *testing.T) {
	for n, wrong := range map[int]string{
		77:   "a dish in two fillings left one of them with the shorter dish beside it",
		83:   "more changes of the canister than placings",
		579:  "two fillings each came first when the other was topped up for",
		1345: "the first boil went on on another ring, which was taken",
		7783: "what comes between fillings needs a top-up more, and its bound was taken for that of both ways",
		3531: "a time of next to nothing with a band of years, of which heat looked for the end for ever",
		6445: "the steamer was brought back to the boil on one ring while it still stood on another",
		1590: "what burns more than a canister was followed by a pause, and nothing was found to change it before",
	} {
		t.Run(fmt.Sprint(n, " ", wrong), func(t *testing.T) { requireSoundEvening(t, n) })
	}
}

// volume is how many are tried: by default, under TRENCHER_LONG=1, and under
// TRENCHER_LONG=full.
func volume(usual, long, full int) int {
	switch os.Getenv("TRENCHER_LONG") {
	case "":
		return usual
	case "full":
		return full
	}
	return long
}

// seen counts what the evenings tried held.
type seen struct {
	planned, timed, broken int
	histories              []string // each kind once or more often
}

func (s *seen) add(o seen) {
	s.planned, s.timed, s.broken = s.planned+o.planned, s.timed+o.timed, s.broken+o.broken
	s.histories = append(s.histories, o.histories...)
}

// require tells that the kinds of evening that the claims are about did occur.
func (s seen) require(t *testing.T, evenings int) {
	assert.Greater(t, s.planned, evenings*9/10)
	assert.Greater(t, s.timed, evenings/2)
	assert.Greater(t, s.broken, evenings/50)
}

// requireSoundEvening plans one random evening and looks the plan over.
func requireSoundEvening(t *testing.T, n int) (s seen) {
	t.Helper()
	random := rand.New(rand.NewPCG(7, uint64(n)))
	q := randomQuestion(t, random)
	plan, err := meal.Make(context.Background(), q)
	if errors.Is(err, heat.ErrNotDone) {
		return s // a whole root that three hours do not cook is refused, not planned
	}
	require.NoError(t, err)
	assert.Empty(t, meal.Check(plan))
	s.planned = 1
	requireDangersFirst(t, plan)
	require.LessOrEqual(t, plan.Timing.Bound.Compare(plan.Timing.Cost), 0, "no timetable costs less than its bound")
	require.Equal(t, plan.Timing.Proven || len(plan.Steps) == 0, plan.Timing.Bound == plan.Timing.Cost, "what is proven is at its bound, and only that")
	for _, clock := range plan.Clocks {
		s.timed++
		if !clock.Holds {
			s.broken++
		}
		requireAsKeepSays(t, plan, clock)
		s.histories = append(s.histories, requireOneVerdict(t, random, plan, clock)...)
	}
	requireTopUps(t, plan)
	requireEveryGram(t, q, plan)
	if n < toldEvenings && plan.Levels.Proven && plan.Timing.Proven { // else it is as good as the search is long
		golden(t, fmt.Sprintf("testdata/evenings/%02d.txt", n), brief(plan))
	}
	return s
}

// toldEvenings are so many of the random evenings of which all that is planned is
// looked at.
const toldEvenings = 80

func requireDangersFirst(t *testing.T, plan meal.Plan) {
	t.Helper()
	var dangers []string
	for i, w := range plan.Warnings {
		if w.Severity == meal.Danger {
			require.True(t, i == 0 || plan.Warnings[i-1].Severity == meal.Danger, "a danger stands behind what is none")
			dangers = append(dangers, w.Dish)
		}
	}
	for _, clock := range plan.Clocks {
		require.Equal(t, !clock.Holds, slices.Contains(dangers, clock.Dish))
	}
}

// requireAsKeepSays asks keeping about the food at the table and at the limit.
func requireAsKeepSays(t *testing.T, plan meal.Plan, clock meal.Clock) {
	t.Helper()
	authority := keeping.Authority(plan.Kitchen.Authority)
	served, err := keeping.Judge(clock.History, authority, plan.ServeAt)
	require.NoError(t, err)
	require.Equal(t, clock.Holds, served.Kind != keeping.Discard, "%s at the table", clock.Dish)
	if clock.Holds {
		later, err := keeping.Judge(clock.History, authority, clock.LimitAt.Add(time.Minute))
		require.NoError(t, err)
		require.Equal(t, keeping.Discard, later.Kind, "%s after its limit", clock.Dish)
		require.Contains(t, later.Rules(), clock.Rule)
	}
	require.Zero(t, clock.Over()*boolean(clock.Holds))
}

// requireTopUps makes sure that no filling is topped up for that is the first in time:
// its water is in the pan.
func requireTopUps(t *testing.T, plan meal.Plan) {
	t.Helper()
	first, topped := "", map[string]int{}
	for _, step := range plan.Steps {
		switch {
		case step.Kind == schedule.TopUp:
			topped[step.Run]++
			require.Equal(t, 1, topped[step.Run], "%s is topped up for twice", step.Run)
		case step.Kind == schedule.Steam && first == "":
			first = step.Run
		}
	}
	require.Zero(t, topped[first], "%s is the first", first)
}

func boolean(b bool) time.Duration {
	if b {
		return 1
	}
	return 0
}

// requireEveryGram adds up the lift: in a dish, left, trimmed off, or set aside.
func requireEveryGram(t *testing.T, q meal.Question, plan meal.Plan) {
	t.Helper()
	lifted, found := decimal.Zero, decimal.Zero
	for _, lot := range q.Lots {
		lifted = lifted.Add(lot.Supply)
	}
	for _, dish := range plan.Dishes {
		for _, part := range dish.Parts {
			found = found.Add(part.Lifted)
		}
	}
	for _, left := range plan.Left {
		found = found.Add(left.Grams)
	}
	require.True(t, lifted.Equal(found), "%s g lifted, %s g told", lifted, found)
	for _, lot := range plan.SetAside {
		require.False(t, lot.Condition.Edible())
	}
	require.Len(t, q.Lots, len(plan.Lots)+len(plan.SetAside))
}

// sound is a plan of a hot and a cold dish to be spoilt by the tests below.
func sound(t *testing.T) meal.Plan {
	t.Helper()
	plan, err := meal.Make(context.Background(), question(t, twoDishes(t), lot("tub-1/a", "potato", 2000, 20, 45), lot("tub-1/b", "potato", 900, 45, 65)))
	require.NoError(t, err)
	require.Empty(t, meal.Check(plan))
	require.Len(t, plan.Dishes, 2)
	// The spoiling must not reach the plan's own parts.
	plan.Steps, plan.Clocks, plan.Lots, plan.Left = slices.Clone(plan.Steps), slices.Clone(plan.Clocks), slices.Clone(plan.Lots), slices.Clone(plan.Left)
	return plan
}

// Each way to spoil a plan is found.
func TestCheckFinds(t *testing.T) {
	stepOf := func(p *meal.Plan, kind schedule.Kind) *meal.Step {
		at := slices.IndexFunc(p.Steps, func(s meal.Step) bool { return s.Kind == kind })
		require.GreaterOrEqual(t, at, 0, kind)
		return &p.Steps[at]
	}
	drop := func(p *meal.Plan, kind schedule.Kind) {
		p.Steps = slices.DeleteFunc(p.Steps, func(s meal.Step) bool { return s.Kind == kind })
	}
	for _, c := range []struct {
		name, says string
		spoil      func(*meal.Plan)
	}{
		{"a lot gives more than is told", "are taken where", func(p *meal.Plan) { p.Lots[0].Taken = p.Lots[0].Taken.Add(decimal.NewFromInt(1)) }},
		{"what is left does not add up", "g left are not its", func(p *meal.Plan) {
			p.Left = append(p.Left, meal.Leftover{Lot: p.Lots[0].Lot, Grams: decimal.NewFromInt(5)})
		}},
		{"a dish lifts what it does not take", "where it lifts", func(p *meal.Plan) {
			p.Dishes[0].Parts[0].Lifted = p.Dishes[0].Parts[0].Lifted.Add(decimal.NewFromInt(1))
		}},
		{"a dish takes nothing of a lot", "takes 0 g", func(p *meal.Plan) {
			p.Dishes[0].Parts[0].From = append(slices.Clone(p.Dishes[0].Parts[0].From), meal.Take{Lot: p.Lots[0].Lot})
		}},
		{"a step ends after serving", "ends after serving", func(p *meal.Plan) { stepOf(p, schedule.Serve).Length += time.Minute }},
		{"a step begins too early", "before what it waits for", func(p *meal.Plan) { stepOf(p, schedule.Dress).At = stepOf(p, schedule.Chill).At }},
		{"what it waits for is gone", "before what it waits for", func(p *meal.Plan) { drop(p, schedule.Finish) }},
		{"steps out of order", "told after a later step", func(p *meal.Plan) { p.Steps[0], p.Steps[1] = p.Steps[1], p.Steps[0] }},
		{"two things on the ring", "is taken", func(p *meal.Plan) {
			extra := *stepOf(p, schedule.Steam)
			extra.ID, extra.Run, extra.Parts = "extra", "", nil
			p.Steps = append(p.Steps, extra)
			slices.SortStableFunc(p.Steps, func(a, b meal.Step) int { return a.At.Compare(b.At) })
		}},
		{"what is cool waits on its tray", "not followed at once", func(p *meal.Plan) { drop(p, schedule.Chill) }},
		{"it stays in the steamer", "stays in the steamer", func(p *meal.Plan) { drop(p, schedule.Unload) }},
		{"no water boils", "no water boils", func(p *meal.Plan) { drop(p, schedule.Boil) }},
		{"the pan boils dry", "boils dry", func(p *meal.Plan) { p.Supplies.StartML = 100 }},
		{"gas that does not add up", "of gas are burnt", func(p *meal.Plan) { p.Supplies.GasG++ }},
		{"too few canisters", "canisters are told", func(p *meal.Plan) { p.Kitchen.Stove.CanisterG = p.Supplies.GasG - 1; p.Supplies.Canisters = 1 }},
		{"a canister that holds too little", "more than it holds", func(p *meal.Plan) { p.Kitchen.Stove.CanisterG = p.Supplies.GasG - 1; p.Supplies.Canisters = 2 }},
		{"less water than is used", "of water are told", func(p *meal.Plan) { p.Supplies.WaterML = p.Supplies.StartML - 1 }},
		{"it does not follow at once", "follow at once", func(p *meal.Plan) {
			unload := stepOf(p, schedule.Unload)
			unload.At = unload.At.Add(time.Minute)
		}},
		{"a test at another minute", "not at its minute", func(p *meal.Plan) {
			test := stepOf(p, schedule.Test)
			test.At = test.At.Add(-time.Minute)
		}},
		{"nothing is served", "serving does not end", func(p *meal.Plan) { drop(p, schedule.Serve) }},
		{"it is chilled for a minute", "is called cold and is not", func(p *meal.Plan) { stepOf(p, schedule.Chill).Length = time.Minute }},
		{"a hot dish in the cold box", "into the cold box warm", func(p *meal.Plan) {
			box := *stepOf(p, schedule.Finish)
			box.Kind, box.ID = schedule.ColdBox, "box"
			p.Steps = append(p.Steps, box)
		}},
		{"a clock that was chilled at another time", "chilled and dressed", func(p *meal.Plan) {
			for i := range p.Clocks {
				if !p.Clocks[i].History.ChilledAt.IsZero() {
					p.Clocks[i].History.ChilledAt = p.Clocks[i].History.ChilledAt.Add(-time.Minute)
				}
			}
		}},
		{"a clock that starts too late", "leaves the fridge", func(p *meal.Plan) {
			for i := range p.Clocks {
				p.Clocks[i].History.Out = nil
			}
		}},
		{"a clock that stands colder than it does", "colder than it stands", func(p *meal.Plan) {
			for i := range p.Clocks {
				p.Clocks[i].History.Out = slices.Clone(p.Clocks[i].History.Out)
				for j := range p.Clocks[i].History.Out {
					p.Clocks[i].History.Out[j].Air = keeping.Celsius(3)
				}
			}
		}},
		{"two things in one oven", "the oven is taken", func(p *meal.Plan) {
			for i := range p.Steps[:2] {
				p.Steps[i].Place, p.Steps[i].Length = "oven", time.Hour
			}
		}},
		{"too few tiers", "tiers are full", func(p *meal.Plan) {
			p.Kitchen.Steamer.Tiers = 1
			p.Runs = slices.Clone(p.Runs)
			p.Runs[0].Tiers = make([][]meal.PartAt, 2)
		}},
		{"hot food waits untold", "untold", func(p *meal.Plan) { p.ServeAt = p.ServeAt.Add(time.Hour) }},
		{"two things for one pair of hands", "pairs of hands", func(p *meal.Plan) { stepOf(p, schedule.Load).Hands = 2 }},
		{"more layers than tiers", "layers share", func(p *meal.Plan) {
			p.Runs = []meal.Run{{ID: "r9", Parts: []meal.PartAt{{Dish: 0}, {Dish: 1}}, Tiers: make([][]meal.PartAt, 2)}}
			p.Kitchen.Steamer.Tiers = 1
		}},
		{"nobody scrubs", "nobody prepares", func(p *meal.Plan) { drop(p, schedule.Scrub) }},
		{"a part is not steamed", "is steamed 0 times", func(p *meal.Plan) { drop(p, schedule.Steam) }},
		{"steamed before it is prepared", "before it is prepared", func(p *meal.Plan) { stepOf(p, schedule.Scrub).At = p.ServeAt.Add(-time.Minute) }},
		{"finished before it is done", "before the potato is done", func(p *meal.Plan) { stepOf(p, schedule.Finish).At = p.Steps[0].At }},
		{"out of the steamer too early", "too early", func(p *meal.Plan) { stepOf(p, schedule.Steam).Length = 2 * time.Minute }},
		{"a dish without a clock", "on the clock differ", func(p *meal.Plan) { p.Clocks = p.Clocks[1:] }},
		{"a clock without a dish cooked", "on the clock differ", func(p *meal.Plan) {
			for i := range p.Steps {
				p.Steps[i].Parts = nil
			}
		}},
		{"a clock from the newest part", "oldest part", func(p *meal.Plan) {
			p.Clocks[0].History.CookedAt = p.Clocks[0].History.CookedAt.Add(time.Minute)
		}},
		{"a clock that says it breaks", "keeping's verdict differ", func(p *meal.Plan) { p.Clocks[0].Holds = false }},
		{"a broken clock nobody warns of", "without a warning", func(p *meal.Plan) {
			p.Clocks[0].Holds = false
			p.Warnings = nil
		}},
		{"a broken clock warned of in another dish's name", "without a warning", func(p *meal.Plan) {
			p.Clocks[0].Holds = false
			p.Warnings = []meal.Warning{{Severity: meal.Danger, Concern: meal.ClockBroken, Dish: p.Clocks[1].Dish}, {Severity: meal.Notice, Dish: p.Clocks[0].Dish}}
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			plan := sound(t)
			c.spoil(&plan)
			found := meal.Check(plan)
			require.True(t, slices.ContainsFunc(found, func(f meal.Finding) bool { return contains(f.Says, c.says) }), "%v", found)
		})
	}
}
