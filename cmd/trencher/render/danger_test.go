package render

import (
	"encoding/json"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
)

// A food clock that ends before serving stands first in every face.
func TestDangerStandsFirstInEveryFace(t *testing.T) {
	plan := spoiling()
	dish := plan.Dishes[0].Name()
	var text strings.Builder
	require.NoError(t, PlanText(&text, ask.MealAnswer{Plan: plan}, false, false))
	lines := strings.Split(text.String(), "\n")
	assert.Contains(t, lines[1], "DANGER")
	assert.Contains(t, strings.Join(lines[1:4], " "), "served 25 min past its limit")

	var script strings.Builder
	require.NoError(t, PlanJSON(&script, ask.MealAnswer{Plan: plan}, false))
	var told struct {
		Warnings []warningJSON
		Clocks   []clockJSON
	}
	require.NoError(t, json.Unmarshal([]byte(script.String()), &told))
	assert.Equal(t, "danger", told.Warnings[0].Severity)
	assert.Equal(t, dish, told.Warnings[0].Dish)
	assert.NotEmpty(t, told.Warnings[0].Rule)
	assert.NotEmpty(t, told.Warnings[0].Mend)
	assert.False(t, told.Clocks[0].Holds)

	sheet := sheetOf(t, plan)
	assert.Less(t, strings.Index(sheet, "served 25 min past its limit"), strings.Index(sheet, `class="answer"`))
	screen, err := PlanScreen(plan, plan.On)
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(string(screen.Head), `<p class="danger"`))

	events := eventsOf(t, plan)
	assert.True(t, strings.HasPrefix(unescape(events[0].values("DESCRIPTION")[0]), "DANGER"), "the first thing to do says it")
	said := 0
	for i, event := range events[:len(plan.Steps)] {
		if strings.Contains(event.values("DESCRIPTION")[0], "DANGER") {
			said++
		} else {
			assert.NotContains(t, plan.Steps[i].Dishes, dish)
		}
	}
	assert.Greater(t, said, 2)
	for _, event := range events[len(plan.Steps):] {
		says := strings.Join(event.values("DESCRIPTION"), "")
		assert.Equal(t, strings.Contains(unescape(event.values("SUMMARY")[0]), dish), strings.Contains(says, "DANGER"), "the end of its time says it too")
	}
}

// Scripts rely on a danger's words being at most 100 letters, whatever the dish
// and the rule are called.
func TestDangerIsShort(t *testing.T) {
	plan := examplePlan()
	plan.On = at(0, 0).AddDate(0, 0, -1)
	for _, rule := range keeping.Rules() {
		clock := meal.Clock{Dish: strings.Repeat("Kartoffel", 9), Rule: rule.ID, ServeAt: at(18, 30), LimitAt: at(18, 30).Add(-26*time.Hour - 59*time.Minute)}
		says := warningWords(meal.Warning{Severity: meal.Danger, Concern: meal.ClockBroken, Dish: clock.Dish, Rule: rule.ID, Clock: clock}, plan)
		assert.LessOrEqual(t, utf8.RuneCountInString(says), 100, says)
		assert.Contains(t, says, rule.ID)
	}
}
