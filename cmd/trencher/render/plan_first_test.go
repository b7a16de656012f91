package render

import (
	"fmt"
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes/meal"
)

// Whatever the evening, the first 25 lines of 80 columns hold every dish with its
// portions, for whom, when to start and to serve, every danger, and what to have at
// hand; and no line is wider.
func TestFirstThingsFirst(t *testing.T) {
	var dangers, guests, gas, late int
	random := rand.New(rand.NewPCG(13, 6))
	for n := range evenings(t) {
		plan, made := randomPlan(t, random)
		if !made {
			continue
		}
		if n%3 == 0 {
			plan = endangered(plan, random)
		}
		requireFirstThings(t, plan)
		requirePeoplesNumbers(t, plan)
		requireOnlyWhatIsPlanned(t, plan)
		dangers += min(1, len(dangersIn(plan)))
		guests += min(1, len(plan.Plates))
		gas += min(1, int(plan.Supplies.GasG))
		if !plan.EarliestServeAt.IsZero() {
			late++
		}
	}
	for kind, count := range map[string]int{"dangers": dangers, "guests": guests, "gas": gas, "late": late} {
		assert.Positive(t, count, "evenings with %s", kind)
	}
	for name, plan := range uglyPlans() {
		t.Run(name, func(t *testing.T) { requireFirstThings(t, plan) })
	}
	t.Run("twelve dishes past their limits", func(t *testing.T) { requireFirstThings(t, endangered(twelveDishes(), nil)) })
}

// evenings is how many are tried.
func evenings(t *testing.T) int {
	t.Helper()
	switch os.Getenv("TRENCHER_LONG") {
	case "":
		return 40
	case "full":
		return 5000
	}
	return 600
}

// endangered is a plan of which some dishes, or all, are past their limits.
func endangered(plan meal.Plan, random *rand.Rand) meal.Plan {
	plan.Warnings = slices.Clone(plan.Warnings)
	for _, dish := range plan.Dishes {
		if random == nil || random.IntN(2) == 0 {
			clock := meal.Clock{Dish: dish.Name(), ServeAt: plan.ServeAt, LimitAt: plan.ServeAt.Add(-72 * time.Minute)}
			plan.Warnings = slices.Insert(plan.Warnings, 0, meal.Warning{Severity: meal.Danger, Concern: meal.ClockBroken, Dish: dish.Name(), Rule: "uk-hot-2h-once", Clock: clock})
		}
	}
	return plan
}

func requireFirstThings(t *testing.T, plan meal.Plan) {
	t.Helper()
	lines := strings.Split(textOf(t, plan, false, false), "\n")
	for _, line := range lines {
		if words := strings.Fields(line); len(words) > 0 && len(slices.MaxFunc(words, func(a, b string) int { return len(a) - len(b) })) < 40 {
			require.LessOrEqual(t, len([]rune(line)), Columns, line)
		}
	}
	first := joined(strings.Join(lines[:min(firstScreen, len(lines))], " "))
	has := func(words string) {
		t.Helper()
		require.Contains(t, first, joined(words), "on the first screen:\n%s", strings.Join(lines[:min(30, len(lines))], "\n"))
	}
	for _, dish := range plan.Dishes {
		has(fmt.Sprintf("%d %s", dish.Portions, shortened(dish.Name()[:min(len(dish.Name()), 25)])))
	}
	if plan.Levels.Fed != nil {
		has("for " + count(eatersOf(plan), "person", "people"))
	}
	if len(plan.Steps) > 0 {
		has("Start " + clockOn(plan.Steps[0].At, plan.On) + ", on the table " + clockOn(plan.ServeAt, plan.On))
	}
	for _, w := range dangersIn(plan) {
		has(sentence(warningWords(w, plan)))
	}
	has(atHandWords(plan))
}

// In the short answer amounts are people's: two significant figures, but for weights
// of crops, which are weighed, and whole numbers.
var fraction = regexp.MustCompile(`\d*\.\d+( ?kg)?`)

func requirePeoplesNumbers(t *testing.T, plan meal.Plan) {
	t.Helper()
	text, _, _ := strings.Cut(textOf(t, plan, false, false), "\nKeep it safe")
	for _, number := range fraction.FindAllString(joined(text), -1) {
		if strings.HasSuffix(number, "kg") {
			continue // of a crop, to 10 g
		}
		digits := strings.TrimLeft(strings.Replace(number, ".", "", 1), "0")
		require.LessOrEqual(t, len(digits), 2, "%s in\n%s", number, text)
	}
	for _, amount := range []string{litres(plan.Supplies.WaterML), twoFigures(plan.Supplies.GasG)} {
		digits := strings.Trim(regexp.MustCompile(`[^0-9]`).ReplaceAllString(amount, ""), "0")
		require.LessOrEqual(t, len(digits), 2, amount)
	}
}

// Deadlines are of what is in the plan; cautions are of what is done in it, six lines
// at most.
func requireOnlyWhatIsPlanned(t *testing.T, plan meal.Plan) {
	t.Helper()
	_, keep, found := strings.Cut(textOf(t, plan, false, false), "\nKeep it safe\n")
	require.True(t, found)
	var names, crops []string
	for _, dish := range plan.Dishes {
		names = append(names, dish.Name())
		for _, part := range dish.Parts {
			crops = append(crops, part.Line.Crop)
		}
	}
	for _, note := range plan.Keep {
		for _, dish := range note.Dishes {
			require.Contains(t, names, dish)
		}
	}
	cautions := briefCautions(plan)
	require.LessOrEqual(t, len(cautions), 6)
	for _, caution := range cautions {
		require.LessOrEqual(t, len([]rune("  - "+caution)), Columns, "a line each")
		require.Contains(t, keep, caution)
	}
	require.Equal(t, slices.Contains(crops, potato), strings.Contains(keep, "sprouted potatoes"))
	require.Equal(t, plan.Supplies.WaterML > 0, strings.Contains(keep, "Steam scalds"))
	require.Equal(t, plan.Supplies.GasG > 0, strings.Contains(keep, "Gas stove outdoors only"))
	require.Contains(t, keep, "General guidance")
}
