package main

import (
	"encoding/json"
	"os"
	"strconv"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"
)

type stockJSON struct {
	ID       string          `json:"id"`
	Supply   decimal.Decimal `json:"supply_g"`
	OnHand   decimal.Decimal `json:"on_hand_g"`
	Planting string          `json:"planting"`
}

func stockOf(t *testing.T, args ...string) map[string]stockJSON {
	out, errs, status := trencher("", append([]string{"stock", "--json"}, args...)...)
	require.Equal(t, statusDone, status, errs)
	var lots []stockJSON
	require.NoError(t, json.Unmarshal([]byte(out), &lots))
	byID := map[string]stockJSON{}
	for _, lot := range lots {
		byID[lot.ID] = lot
	}
	return byID
}

// `--take` records the plan as used: what stock then shows is what the plan
// said is left, and the season's account has every gram.
func TestTakeMakesTheStockTrue(t *testing.T) {
	t.Chdir(t.TempDir())
	_, errs, status := trencher("", "begin", "garden")
	require.Equal(t, statusDone, status, errs)
	out, errs, status := trencher("", "share", "--plot", "garden", "--take", "--json")
	require.Equal(t, statusDone, status, errs)
	var plan struct {
		Lots []struct {
			ID string `json:"id"`
		} `json:"lots"`
		Left []struct {
			Lot string          `json:"lot"`
			G   decimal.Decimal `json:"g"`
		} `json:"left"`
		Taken []string `json:"taken"`
	}
	require.NoError(t, json.Unmarshal([]byte(out), &plan))
	require.NotEmpty(t, plan.Taken)
	left := map[string]decimal.Decimal{}
	for _, l := range plan.Left {
		left[l.Lot] = l.G
	}
	stock := stockOf(t, "--plot", "garden")
	for _, lot := range plan.Lots {
		difference := stock[lot.ID].Supply.Sub(left[lot.ID]).Abs()
		require.True(t, difference.LessThan(decimal.New(5, -3)), "%s: %s g on hand, %s g left by the plan", lot.ID, stock[lot.ID].Supply, left[lot.ID])
	}
	out, errs, status = trencher("", "tally", "--plot", "garden", "--season", "2031", "--json")
	require.Equal(t, statusDone, status, errs)
	var rows []struct {
		Net  decimal.Decimal            `json:"net_g"`
		Went map[string]decimal.Decimal `json:"went"`
	}
	require.NoError(t, json.Unmarshal([]byte(out), &rows))
	require.Len(t, rows, 3)
	for _, row := range rows {
		sum := decimal.Zero
		for _, g := range row.Went {
			sum = sum.Add(g)
		}
		require.True(t, sum.Equal(row.Net), "where it went: %s g of %s g", sum, row.Net)
	}
}

// What is kept back stays in the ground's account; dishes can be chosen and
// left out.
func TestKeepBackAndChosenDishes(t *testing.T) {
	used := func(args ...string) (potato decimal.Decimal, dishes []string) {
		out, errs, status := trencher("", append([]string{"share", "--demo", "--json", "--dishes", "5"}, args...)...)
		require.Equal(t, statusDone, status, errs)
		var plan struct {
			Dishes []struct {
				Name  string `json:"name"`
				Crops []struct {
					Crop   string          `json:"crop"`
					Lifted decimal.Decimal `json:"lifted_g"`
				} `json:"crops"`
			} `json:"dishes"`
		}
		require.NoError(t, json.Unmarshal([]byte(out), &plan))
		for _, dish := range plan.Dishes {
			dishes = append(dishes, dish.Name)
			for _, crop := range dish.Crops {
				if crop.Crop == "potato" {
					potato = potato.Add(crop.Lifted)
				}
			}
		}
		return potato, dishes
	}
	supply := decimal.RequireFromString("2875.5") // 890 + 540 + 127.5 + 760 + 490 + 68 g
	all, dishes := used()
	require.Len(t, dishes, 5)
	require.True(t, all.LessThanOrEqual(supply))
	kept, _ := used("--keep-back", "1 kg potatoes")
	require.True(t, kept.LessThanOrEqual(supply.Sub(decimal.NewFromInt(1000))), "%s g used", kept)
	_, dishes = used("--only", "spring-onion-mash", "--only", "crushed")
	require.Equal(t, []string{"Spring onion mash", "Crushed potatoes with chives"}, dishes, "in the order named")
	_, dishes = used("--without", "spring-onion-mash")
	require.NotContains(t, dishes, "Spring onion mash")
	require.Len(t, dishes, 4)
}

// A plan that was shown is recorded by its id, in one entry, or not at all when
// the stock has changed; one void takes it back; its batches come in one step.
func TestAPlanIsRecordedAsShown(t *testing.T) {
	t.Chdir(t.TempDir())
	do := func(args ...string) string {
		t.Helper()
		out, errs, status := trencher("", args...)
		require.Equal(t, statusDone, status, errs)
		return out
	}
	do("begin", "garden")
	shown := func() (plan struct {
		Plan struct{ ID, Stock string }
	}) {
		require.NoError(t, json.Unmarshal([]byte(do("share", "--plot", "garden", "--json")), &plan))
		return plan
	}
	first := shown()
	before := stockOf(t, "--plot", "garden")
	do("give", "bed-3/35-55-sound", "20 g", "--plot", "garden")
	written := snapshot(t)
	_, errs, status := trencher("", "share", "--plot", "garden", "--take", "--as-shown", first.Plan.ID)
	require.Equal(t, statusInput, status)
	require.Contains(t, errs, "the plan is another now")
	require.Equal(t, written, snapshot(t), "nothing is written")

	second := shown()
	require.NotEqual(t, first.Plan, second.Plan)
	out := do("share", "--plot", "garden", "--take", "--as-shown", second.Plan.ID, "--json")
	var plan struct {
		Dishes []struct {
			Name     string
			Portions int
		}
		Taken []string
	}
	require.NoError(t, json.Unmarshal([]byte(out), &plan))
	require.Len(t, plan.Taken, 1)
	require.Len(t, snapshot(t), len(written)+1, "one entry for the whole plan")

	var batches []struct{ Batch, Amount, Plan string }
	require.NoError(t, json.Unmarshal([]byte(do("cooked", "--as-planned", second.Plan.ID[:3], "--plot", "garden", "--json")), &batches))
	require.Len(t, batches, len(plan.Dishes))
	for i, dish := range plan.Dishes {
		require.Equal(t, dish.Name, batches[i].Batch)
		require.Equal(t, strconv.Itoa(dish.Portions), batches[i].Amount)
		require.Equal(t, second.Plan.ID, batches[i].Plan)
	}
	_, errs, status = trencher("", "cooked", "--as-planned", "last", "--plot", "garden")
	require.Equal(t, statusInput, status)
	require.Contains(t, errs, "all its dishes are logged as cooked already")

	do("journal", "void", plan.Taken[0], "--plot", "garden")
	after := stockOf(t, "--plot", "garden")
	for id, lot := range before {
		if lot.Planting != "bed-3" {
			require.Equal(t, lot, after[id], "back as it was")
		}
	}
}

// Several batches in one command: all of them, or none.
func TestSeveralBatchesInOneCommand(t *testing.T) {
	t.Chdir(t.TempDir())
	_, errs, status := trencher("", "begin", "garden")
	require.Equal(t, statusDone, status, errs)
	before := snapshot(t)
	_, errs, status = trencher("", "cooked", "spring", "6", "no such dish", "--plot", "garden")
	require.Equal(t, statusInput, status)
	require.Contains(t, errs, "no such dish is no dish of this plot")
	require.Equal(t, before, snapshot(t))
	out, errs, status := trencher("", "cooked", "spring", "6,", "crushed", "1.2kg", "--plot", "garden")
	require.Equal(t, statusDone, status, errs)
	require.Contains(t, out, "Spring onion mash: cooked at 12:00, 6 portions\n")
	require.Contains(t, out, "Crushed potatoes with chives: cooked at 12:00, 1.2 kg\n")
	require.Len(t, snapshot(t), len(before)+2)
	out, errs, status = trencher("", "eaten", "crushed", "400 g", "spring", "--plot", "garden")
	require.Equal(t, statusDone, status, errs)
	require.Contains(t, out, "Crushed potatoes with chives: eaten at 12:00, 400 g\n")
	require.Contains(t, out, "Spring onion mash: eaten at 12:00\n")
}

// Names match alike in every command: a beginning is enough where it is the
// only one, and of several the candidates are listed.
func TestNamesMatchAlikeEverywhere(t *testing.T) {
	t.Chdir(t.TempDir())
	_, errs, status := trencher("", "begin", "garden")
	require.Equal(t, statusDone, status, errs)
	const full = "Crushed potatoes with chives"
	for _, args := range [][]string{
		{"share", "CRUSHED"}, {"share", "--only", "crushed"}, {"dish", "crushed", "--portions", "4"}, {"dish", "export", "crushed"},
		{"note", "crushed", "less salt"}, {"keep", "--dish", "crushed"}, {"cooked", "crushed", "--at", "11:00"}, {"eaten", "crushed", "2", "--at", "11:30"},
		{"use", "bed-3/35-55-sound", "20 g", "--dish", "crushed", "--json"},
	} {
		out, errs, status := trencher("", append(args, "--plot", "garden")...)
		require.Equal(t, statusDone, status, "%v: %s", args, errs)
		if args[0] != "keep" {
			require.Contains(t, out, full, "%v", args)
		}
	}
	require.NoError(t, os.WriteFile("garden/dishes/another.yaml", []byte("name: Crushed peas\nportions: 4\ncrops: [{crop: pea, amount: 400 g}]\n"), 0o600))
	for _, args := range [][]string{
		{"share", "crushed"}, {"dish", "crushed"}, {"dish", "export", "crushed"}, {"note", "crushed", "less salt"}, {"keep", "--dish", "crushed"}, {"cooked", "crushed"},
		{"use", "bed-3/35-55-sound", "20 g", "--dish", "crushed"},
	} {
		_, errs, status := trencher("", append(args, "--plot", "garden")...)
		require.Equal(t, statusInput, status, "%v", args)
		require.Contains(t, errs, "hint: write one of Crushed peas, "+full, "%v", args)
	}
	for _, args := range [][]string{{"lift", "--planting", "TUB-1", "--weighing", "2.29 - 0.31 kg"}, {"ready", "--felt", "BED-2=40 mm"}} {
		_, errs, status := trencher("", append(args, "--plot", "garden")...)
		require.Equal(t, statusDone, status, "%v: %s", args, errs)
	}
	_, errs, status = trencher("", "lift", "--planting", "bed", "--weighing", "1 kg", "--plot", "garden")
	require.Equal(t, statusInput, status)
	require.Contains(t, errs, "more than one begins so\nhint: write one of bed-2, bed-3")
}
