package meal_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
)

// said is something a cook says at a moment.
func said(at time.Time, step string, what harvest.Telling) *harvest.Told {
	told := &harvest.Told{Step: step, What: what}
	told.At = at
	return told
}

// stepOf is the first step of a kind.
func stepOf(t testing.TB, steps []meal.Step, kind schedule.Kind) meal.Step {
	t.Helper()
	i := slices.IndexFunc(steps, func(s meal.Step) bool { return s.Kind == kind })
	require.GreaterOrEqual(t, i, 0, "no %s", kind)
	return steps[i]
}

func idsOf(steps []meal.Step) (ids []string) {
	for _, s := range steps {
		ids = append(ids, s.ID)
	}
	return ids
}

func follow(t testing.TB, plan meal.Plan, now time.Time, told ...*harvest.Told) meal.Cooking {
	t.Helper()
	c, err := meal.Follow(plan, told, now)
	require.NoError(t, err)
	return c
}

// aPlan is the hot dish of two, for half past six.
func aPlan(t *testing.T) meal.Plan {
	q := question(t, twoDishes(t)[:1], lot("tub-1/a", "potato", 1500, 20, 45))
	return makePlan(t, q)
}

// punctual is a cook with whom each step that has come told as done
// when it was planned to end, up to a moment.
func punctual(plan meal.Plan, until time.Time) (told []*harvest.Told) {
	for _, step := range plan.Steps {
		if step.Kind != schedule.Test && !step.End().After(until) {
			told = append(told, said(step.End(), step.ID, harvest.ToldDone))
		}
	}
	slices.SortStableFunc(told, func(a, b *harvest.Told) int { return a.At.Compare(b.At) })
	return told
}

// Before anything is said, the first steps are to be done, and nothing is
// otherwise than planned.
func TestFollowBegins(t *testing.T) {
	plan := aPlan(t)
	c := follow(t, plan, plan.Steps[0].At)
	assert.Equal(t, plan.Steps, c.Plan.Steps)
	require.NotEmpty(t, c.ToDo())
	assert.Equal(t, plan.Steps[0].ID, c.ToDo()[0].ID)
	assert.False(t, c.IsOver())
	early := follow(t, plan, plan.Steps[0].At.Add(-time.Hour))
	assert.Empty(t, early.ToDo(), "it has not begun yet")
	assert.NotEmpty(t, early.Coming())
}

// Whoever keeps to the clock ends on the clock, and every step was shown once.
func TestFollowOnTime(t *testing.T) {
	plan := aPlan(t)
	shown := map[string]bool{}
	for at := plan.Steps[0].At; !at.After(plan.ServeAt); at = at.Add(time.Minute) {
		c := follow(t, plan, at, punctual(plan, at.Add(-time.Second))...)
		assert.Equal(t, plan.Steps, c.Plan.Steps)
		for _, step := range slices.Concat(c.ToDo(), c.UnderWay()) {
			shown[step.ID] = true
		}
	}
	for _, step := range plan.Steps {
		if step.Kind != schedule.Test {
			assert.True(t, shown[step.ID], "%s %s was never shown", step.Kind, step.ID)
		}
	}
	end := follow(t, plan, plan.ServeAt, punctual(plan, plan.ServeAt)...)
	assert.True(t, end.IsOver())
	assert.Empty(t, end.Plan.Warnings)
}

// "Five minutes late" puts what has not begun five minutes off, and serving too.
func TestFollowLate(t *testing.T) {
	plan := aPlan(t)
	at := plan.Steps[0].At.Add(time.Minute)
	c := follow(t, plan, at, said(at, "", harvest.ToldFiveLate))
	assert.Equal(t, plan.ServeAt.Add(5*time.Minute), c.Plan.ServeAt)
	assert.Equal(t, plan.Steps[0].At, c.Plan.Steps[0].At, "what is under way has begun when it did")
	assert.Equal(t, plan.Steps[0].End().Add(5*time.Minute), c.Plan.Steps[0].End())
	assert.Empty(t, meal.Check(c.Plan))
	twice := follow(t, plan, at, said(at, "", harvest.ToldFiveLate), said(at, "", harvest.ToldFiveLate))
	assert.Equal(t, plan.ServeAt.Add(10*time.Minute), twice.Plan.ServeAt)
}

// The knife: "not yet" leaves it on the heat and shifts what waits for it; "done"
// a little sooner brings taking out forward.
func TestFollowTheKnife(t *testing.T) {
	plan := aPlan(t)
	steam := stepOf(t, plan.Steps, schedule.Steam)
	before := punctual(plan, steam.At)
	try := follow(t, plan, steam.At.Add(time.Minute), before...).KnifeAt(steam)
	assert.True(t, try.After(steam.At) && !try.After(steam.End()), "the knife is tried while it steams: %s", try)

	tiers := follow(t, plan, steam.At.Add(time.Minute), before...).Tiers()
	require.Len(t, tiers, 1)
	assert.Equal(t, steam.Tier, tiers[0].Number)
	require.Len(t, tiers[0].Steams, 1)

	late := follow(t, plan, steam.End(), append(before, said(steam.End(), steam.ID, harvest.ToldNotYet))...)
	longer := stepOf(t, late.Plan.Steps, schedule.Steam)
	assert.Equal(t, steam.End().Add(3*time.Minute), longer.End())
	assert.Equal(t, steam.End().Add(3*time.Minute), late.KnifeAt(longer), "and the knife is tried again then")
	assert.Contains(t, idsOf(late.UnderWay()), steam.ID)
	assert.Equal(t, plan.ServeAt.Add(3*time.Minute), late.Plan.ServeAt)
	for _, finding := range meal.Check(late.Plan) {
		assert.Contains(t, finding.Says, "of gas are burnt", "the longer steaming takes more gas, and nothing else is amiss")
	}

	soon := steam.End().Add(-2 * time.Minute)
	early := follow(t, plan, soon, append(before, said(soon, steam.ID, harvest.ToldDone))...)
	assert.NotContains(t, idsOf(early.UnderWay()), steam.ID)
	assert.Contains(t, idsOf(early.ToDo()), stepOf(t, plan.Steps, schedule.Unload).ID, "it is taken out at once")
}

// What is said of steps that are not in the plan is kept apart, and saying a
// thing twice is saying it once.
func TestFollowHearsOddThings(t *testing.T) {
	plan := aPlan(t)
	at := plan.Steps[0].At
	c := follow(t, plan, at, said(at, "s99", harvest.ToldDone))
	require.Len(t, c.Amiss, 1)
	once := follow(t, plan, at.Add(time.Minute), said(at, plan.Steps[0].ID, harvest.ToldDone))
	twice := follow(t, plan, at.Add(time.Minute), said(at, plan.Steps[0].ID, harvest.ToldDone), said(at.Add(time.Minute), plan.Steps[0].ID, harvest.ToldDone))
	assert.Equal(t, once.Plan.Steps, twice.Plan.Steps)
}

// Any evening, with a cook who is late, early and says whatever comes to mind:
// the same words give the same answer; nothing that is over moves; no step comes
// before what it waits for, hands and rings are in no two places at once; and
// whoever goes on to the end gets everything onto the table.
func TestFollowAnyEvening(t *testing.T) {
	evenings := volume(2, 50, 1000)
	followed := 0
	for seed := range evenings {
		random := rand.New(rand.NewPCG(uint64(seed), 19))
		plan, err := meal.Make(t.Context(), randomQuestion(t, random))
		if err != nil || len(plan.Steps) == 0 {
			continue
		}
		followed++
		require.True(t, t.Run(fmt.Sprint(seed), func(t *testing.T) {
			if seed >= 2 {
				cookAnyhow(t, random, plan, func(meal.Cooking) {})
				return
			}
			var seen strings.Builder
			cookAnyhow(t, random, plan, func(c meal.Cooking) { seen.WriteString(glance(c)) })
			golden(t, fmt.Sprintf("testdata/cooked/any-%d.txt", seed), seen.String())
		}))
	}
	assert.Greater(t, followed, evenings/3, "too few plans have steps")
}

// look is shown the plan at every moment.
func cookAnyhow(t *testing.T, random *rand.Rand, plan meal.Plan, look func(meal.Cooking)) {
	var told []*harvest.Told
	now, early := plan.Steps[0].At, random.IntN(2) == 0
	for range 40 * len(plan.Steps) {
		c := follow(t, plan, now, told...)
		requireOrder(t, plan, c, !early)
		look(c)
		if c.IsOver() {
			assert.Empty(t, c.ToDo())
			return
		}
		open := slices.Concat(c.ToDo(), c.UnderWay())
		switch {
		case random.IntN(30) == 0:
			told = append(told, said(now, "", harvest.ToldFiveLate))
		case len(open) > 0 && random.IntN(3) > 0:
			step, says := open[random.IntN(len(open))], harvest.ToldDone
			if !early && now.Before(step.End()) {
				break
			}
			if step.IsCooking() {
				if now.Before(step.End().Add(-3 * time.Minute)) {
					break // nobody tries yet
				}
				says = []harvest.Telling{harvest.ToldDone, harvest.ToldNotYet, harvest.ToldOver}[random.IntN(3)]
			}
			told = append(told, said(now, step.ID, says))
		}
		now = now.Add(time.Duration(random.IntN(300)) * time.Second)
	}
	c := follow(t, plan, now, told...)
	t.Fatalf("never over: to do %v, under way %v, coming %v", idsOf(c.ToDo()), idsOf(c.UnderWay()), idsOf(c.Coming()))
}

// requireOrder makes sure that a followed plan keeps nothing busy twice from now
// on, and that its steps wait for each other. Where something was over early,
// what follows it at once may come while hands are busy: it is shown beside the
// other, and waits for them.
func requireOrder(t *testing.T, plan meal.Plan, c meal.Cooking, hands bool) {
	t.Helper()
	require.Len(t, c.Plan.Steps, len(plan.Steps))
	require.True(t, slices.IsSortedFunc(c.Plan.Steps, func(a, b meal.Step) int { return a.At.Compare(b.At) }))
	coming := c.Coming()
	byID := map[string]meal.Step{}
	for _, step := range c.Plan.Steps {
		byID[step.ID] = step
	}
	for i, step := range coming {
		for _, id := range step.After {
			require.False(t, byID[id].End().After(step.At) && step.At.After(c.Now), "%s %s comes before %s %s has ended", step.Kind, step.ID, byID[id].Kind, id)
		}
		busy, with := step.Hands, ""
		for _, other := range coming[:i] {
			if step.At.Before(other.End()) && other.At.After(c.Now) {
				busy, with = busy+other.Hands, fmt.Sprint(with, " ", other.Kind, " ", other.ID)
			}
		}
		if hands && step.Hands > 0 && step.At.After(c.Now) {
			require.LessOrEqual(t, busy, max(1, plan.Kitchen.Hands), "%s %s at %s wants more hands than there are, with%s", step.Kind, step.ID, step.At.Format("15:04:05"), with)
		}
	}
	for _, clock := range c.Plan.Clocks {
		warned := slices.ContainsFunc(c.Plan.Warnings, func(w meal.Warning) bool { return w.Concern == meal.ClockBroken && w.Dish == clock.Dish })
		require.Equal(t, !clock.Holds, warned, "%s: a clock that breaks is told", clock.Dish)
	}
}

// What a plan was asked for is kept with it, word for word.
func TestRecordedWordsReadBack(t *testing.T) {
	r := meal.Recorded{Mode: meal.Table, Now: clockAt(16, 40), PlanWords: meal.PlanWords{Only: []string{"a", "b"}, Without: []string{"c"},
		Limits: []string{"butter=150 g"}, KeepBack: []string{"500 g potato"}, ServeAt: "18:30", Air: "24 C",
		Eaters: meal.EaterWords{Guests: []string{"6 adults", "2 adults no milk, egg"}, For: "4", Sides: "2", Dishes: "3", Rounds: "1", Layers: "4"},
		Given:  meal.GivenWords{Start: "now", Hands: "2", Gas: "100 g", Water: "2 l"}}}
	again, err := meal.ReadRecorded(&harvest.Planned{ID: "abcde", Asked: r.Asked()})
	require.NoError(t, err)
	assert.Equal(t, r, again)
	_, err = meal.ReadRecorded(&harvest.Planned{ID: "abcde"})
	assert.ErrorContains(t, err, "plan")
	_, err = meal.ReadRecorded(&harvest.Planned{ID: "abcde", Asked: append(r.Asked(), harvest.Asked{Field: "moon", Says: "full"})})
	assert.ErrorContains(t, err, "plan")
}
