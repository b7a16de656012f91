package ask_test

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
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
	X      []int    `json:"x"`
	Levels struct {
		Fed      []int  `json:"fed"`
		Over     int    `json:"over"`
		UseFirst string `json:"use_first_g"`
		Dishes   int    `json:"dishes"`
		Balance  string `json:"balance"`
		Portions int    `json:"portions"`
	} `json:"levels"`
}

func TestPlansAgreeWithAnIndependentSolver(t *testing.T) {
	folders, err := filepath.Glob("../../../testdata/share/*")
	require.NoError(t, err)
	require.Len(t, folders, 8)
	for _, folder := range folders {
		t.Run(filepath.Base(folder), func(t *testing.T) {
			var want expected
			data, err := os.ReadFile(filepath.Join(folder, "expected.json"))
			require.NoError(t, err)
			require.NoError(t, json.Unmarshal(data, &want))
			plan := solve(t, filepath.Join(folder, "plot"), want.Args)
			require.Equal(t, want.X, portionsByFile(t, filepath.Join(folder, "plot"), plan))
			require.Equal(t, want.Levels.Fed, plan.Levels.Fed)
			require.Equal(t, want.Levels.Over, plan.Levels.Over)
			require.Equal(t, want.Levels.UseFirst, plan.Levels.UseFirst.RatString())
			require.Equal(t, want.Levels.Dishes, plan.Levels.Dishes)
			require.Equal(t, want.Levels.Balance, plan.Levels.Balance.RatString())
			require.Equal(t, want.Levels.Portions, plan.Levels.Portions)
			require.True(t, plan.Levels.Proven)
			requireConserved(t, plan)
		})
	}
}

// solve runs the job that the command line in args names.
func solve(t *testing.T, dir string, args []string) meal.Plan {
	q := ask.ShareWords{Plot: ask.PlotRef{Dir: dir, Now: time.Date(2031, 7, 12, 12, 0, 0, 0, time.FixedZone("", 3600))}}
	for i := 1; i < len(args); i++ {
		switch args[i] {
		case "--json":
			continue
		case "--on":
			q.Plot.On = args[i+1]
		case "--limit":
			q.Limits = append(q.Limits, args[i+1])
		case "--keep-back":
			q.KeepBack = append(q.KeepBack, args[i+1])
		case "--without":
			q.Without = append(q.Without, args[i+1])
		case "--guests":
			q.Eaters.Guests = append(q.Eaters.Guests, args[i+1])
		case "--for":
			q.Eaters.For = args[i+1]
		case "--sides":
			q.Eaters.Sides = args[i+1]
		case "--dishes":
			q.Eaters.Dishes = args[i+1]
		default:
			t.Fatalf("what is %s?", args[i])
		}
		i++
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
