package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes/schedule"
)

// scriptStep is a step as a script reads it, by the names it may rely on.
type scriptStep struct {
	ID, Kind, Do, Crop, Run string
	At                      time.Time
	Minutes                 json.Number
	Dishes, After           []string
	Tier, Hands, Ring       json.Number
}

func (s scriptStep) end(t *testing.T) time.Time {
	minutes, err := s.Minutes.Int64()
	require.NoError(t, err, "%s has whole minutes", s.ID)
	return s.At.Add(time.Duration(minutes) * time.Minute)
}

// scriptPlan is what scripts may rely on of the evening in a plan's JSON.
type scriptPlan struct {
	Timetable []scriptStep
	Rounds    *int
	Canisters *int
	GasG      *float64   `json:"gas_g"`
	WaterML   *float64   `json:"water_ml"`
	StartAt   time.Time  `json:"start_at"`
	ServeAt   time.Time  `json:"serve_at"`
	Earliest  *time.Time `json:"earliest_serve_at"`
	Runs      []struct {
		ID      string
		At      time.Time
		Tiers   [][]string
		Minutes int
	}
	Loads []struct {
		Class, Grams  string
		Dishes        []string
		GramsPerLayer float64 `json:"grams_per_layer"`
		Layers        int
	}
	Clocks []struct {
		Dish, Food, Rule string
		CookedAt         time.Time  `json:"cooked_at"`
		ChilledAt        *time.Time `json:"chilled_at"`
		DressedAt        *time.Time `json:"dressed_at"`
		ServeAt          time.Time  `json:"serve_at"`
		LimitAt          time.Time  `json:"limit_at"`
		Holds            bool
	}
	Warnings []struct{ Severity, Dish, Rule, Says, Mend string }
	Dishes   []struct{ Name, Served string }
}

// eveningPlots are kitchens and dishes, invented, that bring out every part of a
// plan: no fridge, a cold box, an oven, a pot, two rings, a small canister.
var eveningPlots = map[string]map[string]string{
	"outdoors": outdoors,
	"a full kitchen": {
		"kitchen.yaml": `measures: metric
steamer: {diameter: 220 mm, tiers: 2}
stove: {power: 1.8 kW, gas: butane, rings: 2, canister: 230 g}
fridge: 4 C
cold-box: {ice: 2 kg, holds: 5 C}
water: carried 3 l
hands: 2
pot: {volume: 3 l}
`,
		"dishes/salad.yaml": `name: Cold potatoes
portions: 2
served: cold
crops: [{crop: potato, amount: 300 g, prepared: scrubbed, cut: cube 25 mm, until: just-tender}]
others: [{item: rapeseed oil, amount: 1 tbsp}]
method: [Dress it cold.]
`,
		"dishes/mash.yaml": `name: Mash
portions: 2
served: hot
crops: [{crop: potato, amount: 400 g, prepared: peeled, cut: cube 30 mm, cook: boil, takes: 18-20 min}]
others: [{item: milk, amount: 60 ml}]
steps: [{do: Warm the milk, takes: 5 min, uses: ring, before: finish}]
method: [Mash it.]
`,
		"dishes/bake.yaml": `name: Bake
portions: 2
served: warm
crops: [{crop: potato, amount: 300 g, prepared: scrubbed, cut: halves, cook: own, takes: 35-40 min, uses: oven}]
method: [Bake it.]
`,
	},
}

func writePlot(t *testing.T, plot map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range outdoors {
		if !strings.HasPrefix(name, "dishes/") {
			writePlotFile(t, dir, name, text)
		}
	}
	for name, text := range plot {
		writePlotFile(t, dir, name, text)
	}
	return dir
}

func writePlotFile(t *testing.T, dir, name, text string) {
	t.Helper()
	file := filepath.Join(dir, name)
	require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
	require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
}

// What scripts may rely on holds for every way of asking.
func TestWhatScriptsRelyOnOfAnEvening(t *testing.T) {
	kinds := map[string]bool{}
	for name, plot := range eveningPlots {
		dir := writePlot(t, plot)
		for _, args := range [][]string{
			{"share", "--plot", dir, "--on", "2031-07-12", "--start", "16:30", "--dishes", "3"},
			{"share", "--plot", dir, "--on", "2031-07-12", "--serve-at", "20:00", "--air", "35 C", "--dishes", "3", "--hands", "1"},
			{"share", "--plot", dir, "--on", "2031-07-12", "--serve-at", "21:00", "--dishes", "3", "--hands", "1"},
			{"table", "--plot", dir, "--on", "2031-07-12", "--guests", "2 adults", "--hands", "1"},
			{"share", "--plot", dir, "--on", "2031-07-12", "--serve-at", "18:00", "--gas", "100 g"},
		} {
			t.Run(name+" "+strings.Join(append(args[:1:1], args[5:]...), " "), func(t *testing.T) {
				for _, step := range requireContract(t, args).Timetable {
					kinds[step.Kind] = true
				}
			})
		}
	}
	for _, args := range [][]string{{"share", "--demo"}, {"share", "--demo", "--serve-at", "12:30"}, {"dish", "Spring onion mash", "--demo", "--portions", "4"}} {
		t.Run(strings.Join(args, " "), func(t *testing.T) {
			for _, step := range requireContract(t, args).Timetable {
				kinds[step.Kind] = true
			}
		})
	}
	for _, kind := range []string{"boil", "boil-in", "own", "warm", "steam", "chill", "cold-box", "dress", "finish", "serve", "test", "unload"} {
		assert.True(t, kinds[kind], "no plan here has a step of the kind %s", kind)
	}
}

func requireContract(t *testing.T, args []string) scriptPlan {
	t.Helper()
	out, errs, status := trencher("", append(args, "--json")...)
	require.Equal(t, statusDone, status, errs)
	var plan scriptPlan
	require.NoError(t, json.Unmarshal([]byte(out), &plan))
	require.NotEmpty(t, plan.Timetable)
	requireTimetable(t, plan)
	requireRuns(t, plan)
	requireClocks(t, plan)
	require.NotNil(t, plan.GasG)
	require.NotNil(t, plan.WaterML)
	require.NotNil(t, plan.Canisters)
	require.NotNil(t, plan.Rounds)
	require.Equal(t, *plan.Rounds, len(plan.Runs))
	late := slices.ContainsFunc(plan.Warnings, func(w struct{ Severity, Dish, Rule, Says, Mend string }) bool {
		return strings.Contains(w.Says, "cannot be met")
	})
	require.Equal(t, late, plan.Earliest != nil)
	return plan
}

func requireTimetable(t *testing.T, plan scriptPlan) {
	t.Helper()
	ids := map[string]scriptStep{}
	for _, step := range plan.Timetable {
		require.NotContains(t, ids, step.ID)
		ids[step.ID] = step
	}
	var known []string
	for _, kind := range schedule.Kinds() {
		known = append(known, string(kind))
	}
	serves := 0
	for i, step := range plan.Timetable {
		require.Contains(t, known, step.Kind)
		require.NotEmpty(t, step.Do)
		require.Zero(t, step.At.Second()+step.At.Nanosecond(), "%s begins on a whole minute", step.ID)
		require.False(t, step.end(t).After(plan.ServeAt), "%s ends after serving", step.ID)
		require.False(t, i > 0 && step.At.Before(plan.Timetable[i-1].At), "in the order of their starts")
		for _, id := range step.After {
			require.Contains(t, ids, id)
			require.False(t, ids[id].end(t).After(step.At), "%s begins before %s has ended", step.ID, id)
		}
		for _, number := range []json.Number{step.Tier, step.Hands, step.Ring} {
			_, err := number.Int64()
			require.NoError(t, err)
		}
		switch step.Kind {
		case "serve":
			serves++
			require.True(t, step.end(t).Equal(plan.ServeAt))
		case "steam", "test", "scrub", "peel", "boil-in", "cool", "chill", "spread":
			require.NotEmpty(t, step.Crop, "%s is about one crop", step.ID)
		}
		if step.Kind == "boil-in" {
			require.True(t, slices.ContainsFunc(step.After, func(id string) bool { return ids[id].Kind == "boil" }))
		}
	}
	require.Equal(t, 1, serves)
	require.True(t, plan.StartAt.Equal(plan.Timetable[0].At))
}

func requireRuns(t *testing.T, plan scriptPlan) {
	t.Helper()
	for _, run := range plan.Runs {
		var first, last time.Time
		boils := false
		for _, step := range plan.Timetable {
			if step.Run != run.ID {
				continue
			}
			if step.Kind == "steam" {
				if first.IsZero() {
					first = step.At
				}
				if step.end(t).After(last) {
					last = step.end(t)
				}
				require.NotEqual(t, json.Number("0"), step.Tier)
				require.NotEqual(t, json.Number("0"), step.Ring)
			}
			boils = boils || step.Kind == "boil" && (first.IsZero() || !step.end(t).After(first))
		}
		require.True(t, boils, "%s has a boil of its own before it", run.ID)
		require.True(t, run.At.Equal(first))
		require.Equal(t, int(last.Sub(first).Minutes()), run.Minutes)
		require.NotEmpty(t, run.Tiers)
		for _, tier := range run.Tiers {
			require.NotEmpty(t, tier)
		}
	}
	for _, load := range plan.Loads {
		require.GreaterOrEqual(t, len(strings.Fields(load.Class)), 4, "crop texture cut doneness")
		require.NotEmpty(t, load.Grams)
		require.NotEmpty(t, load.Dishes)
		require.Positive(t, load.GramsPerLayer)
		require.Positive(t, load.Layers)
	}
	require.Equal(t, len(plan.Runs) > 0, len(plan.Loads) > 0)
}

// longestDanger is how many characters a danger may have.
const longestDanger = 100

func requireClocks(t *testing.T, plan scriptPlan) {
	t.Helper()
	cooked := map[string]time.Time{} // when the oldest part of each dish leaves the heat
	for _, step := range plan.Timetable {
		if step.Kind != "steam" && step.Kind != "boil-in" && (step.Kind != "own" || step.Crop == "") {
			continue
		}
		for _, dish := range step.Dishes {
			if at, known := cooked[dish]; !known || step.end(t).Before(at) {
				cooked[dish] = step.end(t)
			}
		}
	}
	warned := map[string][]string{}
	for i, w := range plan.Warnings {
		warned[w.Dish] = append(warned[w.Dish], w.Severity)
		if w.Severity == "danger" {
			require.True(t, i == 0 || plan.Warnings[i-1].Severity == "danger", "dangers stand first")
			require.LessOrEqual(t, utf8.RuneCountInString(w.Says), longestDanger, w.Says)
		}
	}
	require.Len(t, plan.Clocks, len(cooked))
	for _, clock := range plan.Clocks {
		require.True(t, clock.CookedAt.Equal(cooked[clock.Dish]), "%s counts from its oldest part", clock.Dish)
		require.True(t, clock.ServeAt.Equal(plan.ServeAt))
		require.Equal(t, !clock.ServeAt.After(clock.LimitAt), clock.Holds)
		require.NotEmpty(t, clock.Food)
		require.NotEmpty(t, clock.Rule)
		if !clock.Holds {
			require.Contains(t, warned[clock.Dish], "danger")
		}
	}
	for _, dish := range plan.Dishes {
		most := map[string]time.Duration{"hot": 10 * time.Minute, "warm": 30 * time.Minute}[dish.Served]
		if off, known := cooked[dish.Name]; known && most > 0 && plan.ServeAt.Sub(off) > most {
			require.NotEmpty(t, warned[dish.Name], "%s waits untold", dish.Name)
		}
	}
}
