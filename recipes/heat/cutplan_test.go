package heat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func shapesOf(rules []CutRule) []string {
	var out []string
	for _, r := range rules {
		out = append(out, r.Cut.String())
	}
	return out
}

// "Leave the small ones whole, halve the middle, quarter the large": computed.
func TestPlanByHalving(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	plan, err := PlanCuts(waxy, []SizeClass{{LowMM: 20, HighMM: 45}, {LowMM: 45, HighMM: 52}}, Wish{Until: JustTender}, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, []string{"whole", "halves", "quarters", "eighths"}, shapesOf(plan.Rules))
	assert.InDelta(t, 20, plan.Rules[0].FromMM, 0.1)
	assert.InDelta(t, 52, plan.Rules[3].ToMM, 0.1)
	assert.Less(t, plan.Early, 30.0)
	assert.Less(t, plan.Late, 30.0)
	assert.False(t, plan.Even)
	assert.NotEmpty(t, plan.Notes)
	for _, rule := range plan.Close { // what it calls close is close
		for _, mm := range []float64{rule.FromMM, rule.ToMM} {
			e, err := Steam(waxy, rule.Cut.WithTuber(mm), JustTender, Conditions{})
			require.NoError(t, err)
			assert.InEpsilon(t, plan.Minutes+plan.ComeUp, e.FromLoading(), 0.15, "%s of %.0f mm", rule.Cut, mm)
		}
	}
}

// Tubers whose eighths would be late by more than a tenth are diced to the cube
// that takes the common time, and are late no more.
func TestPlanDicesWhatIsTooLarge(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	for _, row := range []struct {
		highMM float64
		last   string
	}{{52, "eighths"}, {130, "cube 33 mm"}} {
		plan, err := PlanCuts(waxy, []SizeClass{{LowMM: 20, HighMM: row.highMM}}, Wish{Until: JustTender}, Conditions{})
		require.NoError(t, err)
		shapes := shapesOf(plan.Rules)
		assert.Equal(t, []string{"whole", "halves", "quarters", row.last}, shapes)
		last := plan.Rules[len(plan.Rules)-1]
		assert.Equal(t, row.highMM, math.Round(last.ToMM))
		if last.Cut.Shape == Eighths {
			assert.LessOrEqual(t, last.Longest-plan.Minutes, 0.1*(plan.ComeUp+plan.Minutes))
			continue
		}
		assert.Equal(t, math.Round(plan.PieceMM), last.Cut.SizeMM)
		assert.Equal(t, []float64{plan.Minutes, plan.Minutes}, []float64{last.Shortest, last.Longest})
		assert.Equal(t, Eighths, plan.Close[len(plan.Close)-1].Cut.Shape, "what eighths would suit is still said")
	}
	quick, err := PlanCuts(waxy, []SizeClass{{LowMM: 20, HighMM: 130}}, Wish{Cut: cut(t, "cube 25 mm"), Until: JustTender}, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, []string{"whole", "cube 25 mm"}, shapesOf(quick.Rules))
	assert.Equal(t, []string{"whole", "halves", "quarters", "eighths"}, shapesOf(quick.Quick), "halving alone is what it says")
}

// How far the first and the last pieces miss the common time, in minutes, and
// the cube that would have all end together, where a kitchen would cut it.
func TestPlanTellsItsMisses(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	plan := func(low, high float64, wish Wish) CutPlan {
		p, err := PlanCuts(waxy, []SizeClass{{LowMM: low, HighMM: high}}, wish, Conditions{})
		require.NoError(t, err)
		return p
	}
	halves := Wish{Cut: Cut{Shape: Halves}, Until: Tender}
	uneven := plan(20, 45, halves)
	total := uneven.ComeUp + uneven.Minutes
	assert.InDelta(t, total*uneven.Early/100, uneven.EarlyMinutes, 1e-9)
	assert.InDelta(t, total*uneven.Late/100, uneven.LateMinutes, 1e-9)
	assert.Greater(t, uneven.EarlyMinutes, 2.0)
	assert.Greater(t, uneven.LateMinutes, 2.0)
	assert.Equal(t, math.Round(uneven.PieceMM), uneven.DiceMM)
	shortest, longest := math.Inf(1), 0.0
	for _, rule := range uneven.Rules {
		shortest, longest = min(shortest, rule.Shortest), max(longest, rule.Longest)
	}
	assert.InDelta(t, uneven.Minutes-shortest, uneven.EarlyMinutes, 0.01)
	assert.InDelta(t, longest-uneven.Minutes, uneven.LateMinutes, 0.01)

	even := plan(40, 42, Wish{Until: JustTender})
	assert.True(t, even.Even)
	assert.Zero(t, even.DiceMM, "all end together as they are")
	assert.Zero(t, even.LateMinutes, "under a minute is nobody's concern")
	assert.Zero(t, plan(20, 65, Wish{Cut: cut(t, "cube 25 mm"), Until: Tender}).DiceMM, "it is diced already")
	assert.Zero(t, plan(20, 40, Wish{Cut: cut(t, "slice 12 mm"), Until: Tender}).DiceMM, "it is sliced")
	assert.Zero(t, plan(40, 65, halves).DiceMM, "nobody dices to more than 35 mm")
	small := plan(8, 20, halves)
	assert.False(t, small.Even)
	assert.Less(t, small.PieceMM, 15.0)
	assert.Zero(t, small.DiceMM, "nor to less than 15")
}

// Sizes that two cuts can bring together within a tenth are so cut.
func TestPlanIsEvenWhereItCanBe(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	plan, err := PlanCuts(waxy, []SizeClass{{LowMM: 26, HighMM: 28}, {LowMM: 37, HighMM: 40}, {LowMM: 49, HighMM: 52}}, Wish{Until: JustTender}, Conditions{})
	require.NoError(t, err)
	assert.True(t, plan.Even, "-%.0f +%.0f", plan.Early, plan.Late)
	assert.Equal(t, []string{"whole", "halves", "quarters"}, shapesOf(plan.Rules))
}

// A narrow lot needs no knife at all.
func TestPlanPrefersFewerCuts(t *testing.T) {
	plan, err := PlanCuts(crop(t, "potato", ""), []SizeClass{{LowMM: 40, HighMM: 44}}, Wish{Until: Tender}, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, []string{"whole"}, shapesOf(plan.Rules))
	assert.True(t, plan.Even)
}

// A wish of cubes: the small stay whole, the others are cut, all together but
// for those too small to last as long.
func TestPlanToAPiece(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	wish := Wish{Cut: cut(t, "cube 25 mm"), Until: JustTender}
	plan, err := PlanCuts(waxy, []SizeClass{{LowMM: 25.5, HighMM: 65}}, wish, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, []string{"whole", "cube 25 mm"}, shapesOf(plan.Rules))
	assert.True(t, plan.Even, "-%.0f +%.0f", plan.Early, plan.Late)
	alone, err := Steam(waxy, wish.Cut, JustTender, Conditions{})
	require.NoError(t, err)
	assert.InEpsilon(t, alone.Minutes, plan.Minutes, 0.01)
	assert.InDelta(t, 25, plan.PieceMM, 0.1)
	assert.False(t, plan.QuickEven.Even)

	// Two classes, the larger all beyond what may stay whole.
	two, err := PlanCuts(waxy, []SizeClass{{LowMM: 20, HighMM: 45}, {LowMM: 45, HighMM: 65}}, wish, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, []string{"whole", "cube 25 mm"}, shapesOf(two.Rules))
	assert.InDelta(t, 65, two.Rules[1].ToMM, 0.01)
	assert.LessOrEqual(t, two.Late, 10.01)

	small, err := PlanCuts(waxy, []SizeClass{{LowMM: 15, HighMM: 20}}, wish, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, []string{"whole"}, shapesOf(small.Rules))
	assert.NotEmpty(t, small.Notes)
}

func TestPlanFromCountAndWeight(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	// 100 g of an ellipsoid 1.3 long at 1.08 g/cm³: 51 mm through.
	assert.InDelta(t, 51.4, meanDiameterMM(waxy, 100), 0.5)
	plan, err := PlanCuts(waxy, []SizeClass{{Grams: 900, Count: 9}}, Wish{Until: Tender}, Conditions{})
	require.NoError(t, err)
	assert.InDelta(t, 46.3, plan.Rules[0].FromMM, 0.5)
}

// A lot's largest tuber says how long; the band reaches from its smallest.
func TestSteamLot(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	lot, err := SteamLot(waxy, Cut{Shape: Halves}, Sizes{20, 45}, Tender, Conditions{})
	require.NoError(t, err)
	largest, err := Steam(waxy, cut(t, "halves 45 mm"), Tender, Conditions{})
	require.NoError(t, err)
	smallest, err := Steam(waxy, cut(t, "halves 20 mm"), Tender, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, largest.Minutes, lot.Minutes)
	assert.Equal(t, smallest.Low, lot.Low)
	assert.Equal(t, largest.High, lot.High)
	assert.Equal(t, "halves 45 mm", lot.Cut.String())

	small, err := SteamLot(waxy, cut(t, "cube 25 mm"), Sizes{18, 22}, Tender, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, "whole 22 mm", small.Cut.String())
	assert.Contains(t, small.Notes, "tubers no larger than the cube 25 mm stay whole")
}
