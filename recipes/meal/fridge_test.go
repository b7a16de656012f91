package meal_test

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
)

// A fridge is believed as keep believes it. Published: 5 °C at most (FSANZ; UK
// 8 °C), and what is in a warmer one is out of the fridge: two hours, under the UK's
// rules for hot food four once it has been in one (see keeping). So in a warmer
// fridge the salad is chilled only as long as leaves time to dress, serve and eat
// it, and it is not called cold; a fridge over 7.5 °C makes nothing cold in any
// time.
func TestTheFridgeIsBelievedAsInKeep(t *testing.T) {
	for _, c := range []struct {
		fridge, authority string
		chills            bool
		cold              bool
		why               meal.NotColdCause
		clockRuns         bool // in the fridge
	}{
		{"4 C", "strictest", true, true, 0, false},
		{"5 C", "strictest", true, true, 0, false},
		{"6 C", "strictest", true, false, meal.FridgeKeepsNothing, true},
		{"9 C", "strictest", true, false, meal.FridgeKeepsNothing, true},
		{"12 C", "strictest", true, false, meal.FridgeKeepsNothing, true},
		{"7 C", "uk", true, true, 0, false},
		{"8 C", "uk", true, false, meal.FridgeTooWarm, false},
		{"9 C", "uk", true, false, meal.FridgeKeepsNothing, true},
		{"none", "strictest", false, false, meal.NoColdPlace, true},
	} {
		t.Run(c.fridge+" "+c.authority, func(t *testing.T) {
			q := question(t, twoDishes(t)[1:], lot("tub-1/a", "potato", 2000, 20, 45))
			q.Kitchen = loadKitchen(t, "fridge: "+c.fridge+"\nauthority: "+c.authority+"\n")
			plan := makePlan(t, q)
			clock := plan.Clocks[0]
			assert.Equal(t, c.chills, slices.Contains(kindsOf(plan, "Potato salad"), schedule.Chill))
			assert.Equal(t, c.chills, !clock.History.ChilledAt.IsZero())
			at := slices.IndexFunc(plan.Warnings, func(w meal.Warning) bool { return w.Concern == meal.NotCold })
			require.Equal(t, c.cold, at < 0)
			if !c.cold {
				assert.Equal(t, c.why, plan.Warnings[at].NotCold)
			}
			assert.True(t, clock.Holds, "it is served in its time")
			assert.GreaterOrEqual(t, clock.LimitAt.Sub(plan.ServeAt), 15*time.Minute, "with time to eat it")
			later := clock.History
			later.Out = []keeping.Spell{{From: clock.DressedAt.Add(time.Hour)}}
			if c.chills {
				deadline, err := keeping.DeadlineOf(later, keeping.Authority(c.authority), clock.DressedAt.Add(time.Hour))
				require.NoError(t, err)
				assert.Equal(t, c.clockRuns, !deadline.Until.After(clock.LimitAt), "an hour longer in the fridge")
			}
		})
	}
}
