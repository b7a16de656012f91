package render

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
)

// Of a timetable that is not proven every face tells the first goal that another
// order might improve, with what was found and what none goes under; of a proven
// one, none does.
func TestTheBoundOfATimetableIsTold(t *testing.T) {
	cost := schedule.Cost{Over: 0, Hot: 12, Warm: 30, Length: 200}
	for _, c := range []struct {
		name  string
		bound schedule.Cost
		want  string
	}{
		{"past limits", schedule.Cost{}, "Not proven the best timetable: food is past its limits by 25 min, no order brings it under 10 min."},
		{"hot food", schedule.Cost{Hot: 8}, "Not proven the best timetable: hot food waits in all 12 min, no order brings it under 8 min."},
		{"warm food", schedule.Cost{Hot: 12, Warm: 6}, "Not proven the best timetable: warm food waits too long by 30 min, no order brings it under 6 min."},
		{"the whole", schedule.Cost{Hot: 12, Warm: 30, Length: 190}, "Not proven the best timetable: it takes 3 h 20 min, no order brings it under 3 h 10 min."},
	} {
		t.Run(c.name, func(t *testing.T) {
			plan := examplePlan()
			plan.Timing = meal.Timing{Cost: cost, Bound: c.bound}
			if c.name == "past limits" {
				plan.Timing.Cost.Over, plan.Timing.Bound.Over = 25, 10
			}
			assert.Contains(t, joined(textOf(t, plan, false, false)), c.want)
			assert.Contains(t, joined(textOf(t, plan, false, true)), c.want, "with --full")
			assert.Contains(t, joined(textOf(t, plan, true, false)), "the best found: "+costWords(plan.Timing.Cost)+"; none can be better than: "+costWords(plan.Timing.Bound))
			assert.Contains(t, sheetOf(t, plan), c.want)
			screen, err := PlanScreen(plan, plan.On)
			require.NoError(t, err)
			assert.Contains(t, string(screen.Rest), c.want)
			var out strings.Builder
			require.NoError(t, PlanJSON(&out, ask.MealAnswer{Plan: plan}, false))
			var told struct {
				Proven bool     `json:"timetable_proven"`
				Cost   costJSON `json:"timetable_cost"`
				Bound  costJSON `json:"timetable_bound"`
			}
			require.NoError(t, json.Unmarshal([]byte(out.String()), &told))
			assert.False(t, told.Proven)
			assert.Equal(t, *costOf(plan.Timing.Cost), told.Cost)
			assert.Equal(t, *costOf(plan.Timing.Bound), told.Bound)
		})
	}
	nothing := uglyPlans()["nothing to share"]
	assert.NotContains(t, sheetOf(t, nothing)+textOf(t, nothing, true, true), "Not proven", "there is no timetable")
	proven := examplePlan()
	require.True(t, proven.Timing.Proven)
	assert.NotContains(t, textOf(t, proven, false, true), "Not proven")
	assert.Contains(t, joined(textOf(t, proven, true, false)), "proven: no order is better")
}

func textOf(t *testing.T, plan meal.Plan, why, full bool) string {
	t.Helper()
	var text strings.Builder
	require.NoError(t, PlanText(&text, ask.MealAnswer{Plan: plan}, why, full))
	return text.String()
}

// joined is a text without its line ends.
func joined(text string) string { return strings.Join(strings.Fields(text), " ") }
