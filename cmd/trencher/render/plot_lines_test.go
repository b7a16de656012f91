package render

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
)

// The plot's hygiene, by the words that tell each line from all else in a plan.
var plotSays = []string{"never from butt or dip tank", "poured drinking water, 20 seconds", "No fresh manure, and no feed",
	"leaf by leaf in two waters", "What rats gnawed or dirtied", "Cover what cools, off the ground"}

// matters tells which of plotSays are about a plan, from its steps and lists alone.
func matters(plan meal.Plan) []bool {
	made, carried, raw, lay, cools := len(plan.Dishes) > 0, plan.Kitchen.Water.Carried, false, false, false
	for _, step := range plan.Steps {
		raw = raw || step.Kind == schedule.Pick
		cools = cools || step.Kind == schedule.Cool
	}
	for _, dish := range plan.Dishes {
		raw = raw || slices.ContainsFunc(dish.Parts, func(p meal.Part) bool { return p.Line.Cook == "raw" })
	}
	for _, lot := range plan.Lots {
		fresh := lot.Lifted.Format(time.DateOnly) == plan.On.Format(time.DateOnly) && lot.Condition != harvest.Damaged
		lay = lay || !fresh && lot.Taken.IsPositive()
	}
	return []bool{made && !carried, made && carried, raw, raw, lay, cools}
}

// The short plan, the whole one, the page, the sheet and a script say the same of
// the plot's hygiene: each line that matters once, in one line, and no other.
func TestPlotHygieneOnEveryFace(t *testing.T) {
	seen := make([][2]int, len(plotSays))
	for seed, plans := uint64(1), 0; plans < 12; seed++ {
		plan, ok := randomPlan(t, rand.New(rand.NewPCG(seed, 1705)))
		if !ok {
			continue
		}
		plans++
		said := saidOfPlot(t, plan)
		for i, matter := range matters(plan) {
			times := 0
			if matter {
				times = 1
			}
			seen[i][times]++
			for face, lines := range said {
				about := slices.DeleteFunc(slices.Clone(lines), func(line string) bool { return !strings.Contains(line, plotSays[i]) })
				require.Len(t, about, times, "seed %d, %s: %s", seed, face, plotSays[i])
				require.Equal(t, slices.DeleteFunc(slices.Clone(said["script"]), func(line string) bool { return !strings.Contains(line, plotSays[i]) }), about, face)
			}
		}
	}
	for i, n := range seen {
		assert.NotZero(t, n[1], "no plan where it matters: %s", plotSays[i])
		assert.NotZero(t, n[0], "no plan where it does not: %s", plotSays[i])
	}
}

// saidOfPlot is what each face says, line by line: of a terminal each line by
// itself, of the sheet and the page each paragraph or list item.
func saidOfPlot(t *testing.T, plan meal.Plan) map[string][]string {
	t.Helper()
	terminal := func(full bool) []string {
		var text strings.Builder
		require.NoError(t, PlanText(&text, ask.MealAnswer{Plan: plan}, false, full))
		var lines []string
		for _, line := range strings.Split(text.String(), "\n") {
			require.LessOrEqual(t, len([]rune(line)), Columns)
			lines = append(lines, strings.TrimPrefix(line, "  - "))
		}
		return lines
	}
	html := func(page string) []string {
		var lines []string
		for _, item := range strings.Split(styles.ReplaceAllString(page, " "), "<li>") {
			lines = append(lines, oneLine(words(strings.Split(item, "</li>")[0])))
		}
		return lines
	}
	facts, _ := faces(t, plan)
	var sheet strings.Builder
	require.NoError(t, Sheet(&sheet, plan))
	screen, err := PlanScreen(plan, plan.On)
	require.NoError(t, err)
	said := map[string][]string{"short": terminal(false), "full": terminal(true), "sheet": html(sheet.String()),
		"screen": html(fmt.Sprint(screen.Head, screen.Rest))}
	for _, note := range facts.Keep {
		said["script"] = append(said["script"], note.Says)
	}
	return said
}
