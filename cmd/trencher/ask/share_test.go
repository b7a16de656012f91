package ask_test

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/recipes/meal"
)

// expected is the answer an independent integer-programming solver gave for a
// plot in testdata/share: x holds the portions by dish in file-name order.
// The plots are invented; the answers are computed.
type expected struct {
	Args   []string `json:"args"`
	Levels struct {
		Fed      *float64 `json:"fed"`
		UseFirst float64  `json:"use_first_g"`
		Balance  float64  `json:"balance"`
		Portions float64  `json:"portions"`
	} `json:"levels"`
	X   []int    `json:"x"`
	Out []string `json:"out"`
}

func TestPlansAgreeWithAnIndependentSolver(t *testing.T) {
	folders, err := filepath.Glob("../../../testdata/share/*")
	require.NoError(t, err)
	require.Len(t, folders, 6)
	for _, folder := range folders {
		t.Run(filepath.Base(folder), func(t *testing.T) {
			var want expected
			data, err := os.ReadFile(filepath.Join(folder, "expected.json"))
			require.NoError(t, err)
			require.NoError(t, json.Unmarshal(data, &want))
			plan := solve(t, filepath.Join(folder, "plot"), want.Args)
			require.Equal(t, want.X, portionsByFile(t, filepath.Join(folder, "plot"), plan))
			useFirst, _ := plan.Levels.UseFirst.Float64()
			require.InDelta(t, want.Levels.UseFirst, useFirst, 1e-6)
			require.InDelta(t, want.Levels.Portions, plan.Levels.Portions, 0)
			balance, _ := plan.Levels.Balance.Float64()
			require.InDelta(t, want.Levels.Balance, balance, 1e-6)
			if want.Levels.Fed != nil {
				require.InDelta(t, *want.Levels.Fed, plan.Levels.Fed, 0)
			}
			var out []string
			for _, dish := range plan.LeftOut {
				out = append(out, dish.Dish)
			}
			require.ElementsMatch(t, want.Out, out)
			requireConserved(t, plan)
		})
	}
}

// solve runs the job that the command line in args names.
func solve(t *testing.T, dir string, args []string) meal.Plan {
	q := ask.ShareWords{Plot: ask.PlotRef{Dir: dir, Now: time.Date(2031, 7, 12, 12, 0, 0, 0, time.FixedZone("", 3600))}}
	for i := 1; i < len(args); i++ {
		value := ""
		if i+1 < len(args) {
			value = args[i+1]
		}
		switch args[i] {
		case "--on":
			q.Plot.On = value
		case "--limit":
			q.Limits = append(q.Limits, value)
		case "--guests":
			q.Guests = append(q.Guests, value)
		case "--sides":
			sides, err := strconv.Atoi(value)
			require.NoError(t, err)
			q.Sides = sides
		}
	}
	job := ask.Share
	if args[0] == "table" {
		job = ask.Table
	}
	plan, err := job(context.Background(), q)
	require.NoError(t, err)
	return plan.Plan
}

func portionsByFile(t *testing.T, dir string, plan meal.Plan) []int {
	files, err := filepath.Glob(filepath.Join(dir, "dishes", "*.yaml"))
	require.NoError(t, err)
	var portions []int
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		name := regexp.MustCompile(`(?m)^name: (.*)$`).FindStringSubmatch(string(data))[1]
		made := 0
		for _, dish := range plan.Dishes {
			if dish.Name() == name {
				made = dish.Portions
			}
		}
		portions = append(portions, made)
	}
	return portions
}

// requireConserved checks that grams in lots are grams in dishes and grams
// left, exactly, lot by lot.
func requireConserved(t *testing.T, plan meal.Plan) {
	t.Helper()
	rest := map[string]decimal.Decimal{}
	for _, lot := range plan.Lots {
		rest[lot.ID] = lot.Supply
	}
	for _, dish := range plan.Dishes {
		for _, part := range dish.Parts {
			sum := decimal.Zero
			for _, take := range part.From {
				sum = sum.Add(take.Grams)
				rest[take.Lot.ID] = rest[take.Lot.ID].Sub(take.Grams)
			}
			require.True(t, sum.Equal(part.Lifted), "%s takes %s of its %s", dish.Name(), sum, part.Lifted)
		}
	}
	for _, left := range plan.Left {
		require.False(t, left.Grams.IsNegative(), "less than nothing left of %s", left.ID)
		rest[left.ID] = rest[left.ID].Sub(left.Grams)
	}
	for lot, grams := range rest {
		require.True(t, grams.IsZero(), "%s: %s g are unaccounted for", lot, grams)
	}
}

// A search that gives up hands out its best plan and says so first.
func TestGivingUpIsSaid(t *testing.T) {
	plan, err := ask.Share(context.Background(), ask.ShareWords{Plot: ask.PlotRef{Demo: true}, NodeLimit: 1})
	require.NoError(t, err)
	require.NotEmpty(t, plan.Warnings)
	require.Equal(t, meal.Unproven, plan.Warnings[0].Concern)
	require.False(t, plan.Levels.Proven)
	requireConserved(t, plan.Plan)
}
