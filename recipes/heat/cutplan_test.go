package heat

import (
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
	plan, err := PlanCuts(waxy, []SizeClass{{LowMM: 20, HighMM: 45}, {LowMM: 45, HighMM: 65}}, Wish{Until: JustTender}, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, []string{"whole", "halves", "quarters", "eighths"}, shapesOf(plan.Rules))
	assert.InDelta(t, 20, plan.Rules[0].FromMM, 0.1)
	assert.InDelta(t, 65, plan.Rules[3].ToMM, 0.1)
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

// Sizes that two cuts can bring together within a tenth are so cut.
func TestPlanIsEvenWhereItCanBe(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	plan, err := PlanCuts(waxy, []SizeClass{{LowMM: 26, HighMM: 28}, {LowMM: 37, HighMM: 40}, {LowMM: 49, HighMM: 52}}, Wish{Until: JustTender}, Conditions{})
	require.NoError(t, err)
	assert.True(t, plan.Even, "-%.0f +%.0f", plan.Early, plan.Late)
	assert.Equal(t, []string{"whole", "halves", "quarters"}, shapesOf(plan.Rules))
	assert.Len(t, plan.Classes, 3)
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
	assert.Equal(t, []string{"cube 25 mm"}, shapesOf(two.Classes[1].Rules))
	assert.LessOrEqual(t, two.Late, 10.01)

	small, err := PlanCuts(waxy, []SizeClass{{LowMM: 15, HighMM: 20}}, wish, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, []string{"whole"}, shapesOf(small.Rules))
	assert.NotEmpty(t, small.Notes)
}

func TestPlanFromCountAndWeight(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	// 100 g of an ellipsoid 1.3 long at 1.08 g/cm³: 51 mm through.
	assert.InDelta(t, 51.4, MeanDiameterMM(waxy, 100), 0.5)
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

	ungraded, err := SteamLot(waxy, Cut{Shape: Whole}, Sizes{}, Tender, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, "whole 65 mm", ungraded.Cut.String())
	assert.Contains(t, ungraded.Notes, "ungraded: sizes of 25-65 mm assumed")

	small, err := SteamLot(waxy, cut(t, "cube 25 mm"), Sizes{18, 22}, Tender, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, "whole 22 mm", small.Cut.String())
	assert.Contains(t, small.Notes, "tubers no larger than the cube 25 mm stay whole")
}
