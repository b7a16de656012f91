package ask_test

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/recipes/meal"
	"trencher/recipes/planner"
)

// Whatever was lifted and whatever the dishes: every gram of the net weight is
// in a dish, left in its lot, trimmed off a damaged one, or set aside.
func TestEveryGramIsAccountedFor(t *testing.T) {
	plots := 40
	if os.Getenv("TRENCHER_LONG") != "" {
		plots = 1000
	}
	idle := 0
	for seed := range plots {
		random := rand.New(rand.NewPCG(uint64(seed), 7))
		dir := t.TempDir()
		net := randomPlot(t, random, dir)
		plan, err := ask.Share(context.Background(), ask.ShareWords{
			Plot: ask.PlotRef{Dir: dir, On: "2031-07-12", Now: time.Date(2031, 7, 12, 20, 0, 0, 0, time.UTC)}})
		var unproven *planner.NotProvenError
		require.False(t, errors.As(err, &unproven), "seed %d: %v", seed, err)
		var nothing *meal.NothingMadeError
		if errors.As(err, &nothing) {
			plan.Plan = nothing.Plan
			idle++
			err = nil
		}
		require.NoError(t, err, "seed %d", seed)
		requireConserved(t, plan.Plan)
		sum := decimal.Zero
		for _, lot := range plan.Lots {
			weight := lot.Supply
			if lot.Condition == harvest.Damaged {
				weight = weight.Div(decimal.RequireFromString("0.85"))
			}
			sum = sum.Add(weight)
		}
		for _, aside := range plan.SetAside {
			sum = sum.Add(aside.Weight)
		}
		require.True(t, sum.Equal(net), "seed %d: %s g lifted, %s g told", seed, net, sum)
	}
	require.Less(t, idle, plots/2, "plots of which nothing can be made")
}

func write(t *testing.T, dir, file, text string) {
	path := filepath.Join(dir, file)
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
}

// randomPlot writes a plot and returns the net weight of all its lifts.
func randomPlot(t *testing.T, random *rand.Rand, dir string) decimal.Decimal {
	write(t, dir, "kitchen.yaml", "measures: metric\n")
	crops := []string{"potato", "beetroot", "carrot"}
	var plantings strings.Builder
	net := int64(0)
	for i := range 1 + random.IntN(4) {
		fmt.Fprintf(&plantings, "- {id: bed-%d, crop: %s, planted: 2031-04-01, bed: 1 m2}\n", i, crops[random.IntN(len(crops))])
		var grades strings.Builder
		total := int64(1 + random.IntN(400)) // what is not graded
		for range random.IntN(5) {
			grams := int64(1 + random.IntN(1500))
			low := 20 + 5*random.IntN(9)
			sizes := fmt.Sprintf("sizes: %d-%d mm, ", low, low+5*(1+random.IntN(4)))
			if random.IntN(3) == 0 {
				sizes = ""
			}
			condition := []string{"sound", "scabby", "damaged", "green", "rotten"}[random.IntN(5)]
			fmt.Fprintf(&grades, "  - {%sweight: %d g, condition: %s}\n", sizes, grams, condition)
			total += grams
		}
		text := fmt.Sprintf("kind: lift\nplanting: bed-%d\nat: 2031-07-12T09:%02d:00Z\nweighings:\n  - {gross: %d g, tare: 250 g}\n", i, i, total+250)
		if grades.Len() > 0 {
			text += "grades:\n" + grades.String()
		}
		write(t, dir, fmt.Sprintf("journal/2031/0712-090%d-lift-bed-%d.yaml", i, i), text)
		net += total
	}
	write(t, dir, "plantings.yaml", plantings.String())
	for d := range 1 + random.IntN(5) {
		write(t, dir, fmt.Sprintf("dishes/d%d.yaml", d), randomDish(random, d, crops))
	}
	return decimal.NewFromInt(net)
}

func randomDish(random *rand.Rand, d int, crops []string) string {
	smallest := 1 + random.IntN(3)
	text := fmt.Sprintf("name: Dish %d\nportions: %d\nserved: %s\nsmallest: %d\nlargest: %d\nwish: %d\ncrops:\n", d, 2+random.IntN(5),
		[]string{"hot", "warm", "cold"}[random.IntN(3)], smallest, smallest+random.IntN(12), 1+random.IntN(2))
	first := random.IntN(len(crops))
	for c := range 1 + random.IntN(2) {
		text += fmt.Sprintf("  - {crop: %s, amount: %d g, prepared: %s, cut: cube 25 mm, cook: steam, until: tender}\n",
			crops[(first+c)%len(crops)], 200+random.IntN(900), []string{"as-lifted", "peeled", "scrubbed"}[random.IntN(3)])
	}
	return text + "method: [Steam.]\n"
}
