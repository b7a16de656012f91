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
			assert.InEpsilon(t, plan.Minutes+plan.ComeUp, e.FromLoading, 0.15, "%s of %.0f mm", rule.Cut, mm)
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

// endless is steam without end, so that a piece's time is its own: a single
// gram at the strongest stove.
var endless = Conditions{LoadGrams: 1, NetPowerW: 10000}

// Every end of every rule is what the piece takes by itself, and the whole is
// the time of the cube that the plan names, with that cube's band as far as the
// misses stretch it.
func TestPlanAgreesWithSinglePieces(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	learned := endless
	learned.Learned = learn([]reading{{minutes: 10, sensitivity: 0.4, at: 13}, {minutes: 10, sensitivity: 0.4, at: 12}})
	for name, row := range map[string]struct {
		wish Wish
		c    Conditions
	}{
		"what suits best":  {Wish{Until: JustTender}, endless},
		"halves":           {Wish{Cut: cut(t, "halves 45 mm"), Until: Tender}, endless},
		"largest halved":   {Wish{Cut: Cut{Shape: Halves}, Until: Tender}, endless},
		"cubes":            {Wish{Cut: cut(t, "cube 25 mm"), Until: Soft}, endless},
		"slices":           {Wish{Cut: cut(t, "slice 12 mm"), Until: Soft}, endless},
		"with knife tests": {Wish{Cut: cut(t, "cube 25 mm"), Until: Soft}, learned},
	} {
		plan, err := PlanCuts(waxy, []SizeClass{{LowMM: 22, HighMM: 48}}, row.wish, row.c)
		require.NoError(t, err, name)
		minutes := func(c Cut, mm float64) float64 {
			e, err := Steam(waxy, Piece(c, mm), row.wish.Until, row.c)
			require.NoError(t, err)
			return e.Minutes
		}
		cube, err := Steam(waxy, Cut{Shape: Cube, SizeMM: plan.PieceMM}, row.wish.Until, row.c)
		require.NoError(t, err)
		assert.InEpsilon(t, cube.Minutes, plan.Minutes, 0.002, name)
		assert.InEpsilon(t, cube.Low*(1-plan.Early/100), plan.Low, 0.002, name)
		assert.InEpsilon(t, cube.High*(1+plan.Late/100), plan.High, 0.002, name)
		if row.wish.Cut.Sized() && row.wish.Cut.Shape != Slice {
			wished, err := Steam(waxy, row.wish.Cut, row.wish.Until, row.c)
			require.NoError(t, err)
			assert.InEpsilon(t, wished.Minutes, plan.Minutes, 0.002, name)
		}
		early, late := 0.0, 0.0
		for i, rule := range append(plan.Rules, plan.Close...) {
			assert.InEpsilon(t, minutes(rule.Cut, rule.FromMM), rule.Shortest, 0.02, "%s: %s from %.1f mm", name, rule.Cut, rule.FromMM)
			assert.InEpsilon(t, minutes(rule.Cut, rule.ToMM), rule.Longest, 0.02, "%s: %s to %.1f mm", name, rule.Cut, rule.ToMM)
			if i < len(plan.Rules) {
				early, late = max(early, 100-100*rule.Shortest/plan.Minutes), max(late, 100*rule.Longest/plan.Minutes-100)
			}
		}
		assert.InDelta(t, early, plan.Early, 0.2, name)
		assert.InDelta(t, late, plan.Late, 0.2, name)
		assert.Equal(t, plan.Early <= 10.01 && plan.Late <= 10.01, plan.Even, name)
		assert.Equal(t, 22.0, plan.Rules[0].FromMM)
		assert.InDelta(t, 48, plan.Rules[len(plan.Rules)-1].ToMM, 1e-9)
		for i := 1; i < len(plan.Rules); i++ {
			assert.Equal(t, plan.Rules[i-1].ToMM, plan.Rules[i].FromMM, name)
		}
		assert.Equal(t, !row.wish.pieces(), plan.Close != nil, name)
		for _, rule := range plan.Close { // as far as a tenth, or as the sizes go
			if rule.FromMM > 22.01 {
				assert.InEpsilon(t, 0.9*plan.Minutes, rule.Shortest, 0.005, "%s: %s", name, rule.Cut)
			}
			if rule.ToMM < 47.99 {
				assert.InEpsilon(t, 1.1*plan.Minutes, rule.Longest, 0.005, "%s: %s", name, rule.Cut)
			}
			assert.GreaterOrEqual(t, rule.Shortest, 0.895*plan.Minutes, "%s: %s", name, rule.Cut)
			assert.LessOrEqual(t, rule.Longest, 1.105*plan.Minutes, "%s: %s", name, rule.Cut)
		}
	}
}

// No common time would bring the sizes nearer together with fewer cuts: going
// through every time there is, none misses by much less.
func TestPlanMissesAboutAsLittleAsCanBe(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	for _, band := range [][2]float64{{20, 45}, {30, 70}, {18, 25}, {20, 130}, {25, 60}, {15, 90}, {40, 44}, {10, 80}, {60, 120}} {
		plan, err := PlanCuts(waxy, []SizeClass{{LowMM: band[0], HighMM: band[1]}}, Wish{Until: JustTender}, endless)
		require.NoError(t, err)
		p := cutPlanner{crop: waxy, wish: Wish{Until: JustTender}, bands: []Sizes{{band[0], band[1]}}}
		require.NoError(t, p.reckon(endless))
		least := math.Inf(1)
		for minutes := 1.0; minutes < 60; minutes += 0.05 {
			worst := 0.0
			for mm := band[0]; mm <= band[1]; mm += 0.25 {
				nearest := math.Inf(1)
				for rung := range ladder {
					nearest = min(nearest, math.Abs(p.lnTime(rung, mm)-math.Log(minutes*60)))
				}
				worst = max(worst, nearest)
			}
			least = min(least, worst)
		}
		require.NoError(t, p.setGoal())
		step := (p.lnTime(0, p.high()) - p.lnTime(len(ladder)-1, p.low)) / 160
		assert.LessOrEqual(t, p.worst(p.goal), p.worst(p.goal-step)+1e-9, "%v: a step sooner would miss by no less", band)
		miss := math.Log(max(1+plan.Late/100, 1/(1-plan.Early/100)))
		assert.LessOrEqual(t, miss, max(math.Log(1.1), least+0.06)+0.02, "%v", band)
	}
}

// The dice that a cook may be told to make instead are from 15 to 35 mm.
func TestDiceAKitchenMakes(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	told, large, small := 0, 0, 0
	var highs []float64
	for i := range 14 {
		highs = append(highs, 18+0.6*float64(i), 50+0.7*float64(i))
	}
	for _, high := range highs {
		plan, err := PlanCuts(waxy, []SizeClass{{LowMM: 8, HighMM: high}}, Wish{Cut: Cut{Shape: Halves}, Until: Tender, Sparing: true}, Conditions{})
		require.NoError(t, err)
		require.False(t, plan.Even)
		switch {
		case plan.PieceMM > 35:
			large++
			assert.Zero(t, plan.DiceMM)
		case plan.PieceMM < 15:
			small++
			assert.Zero(t, plan.DiceMM)
		default:
			told++
			assert.Equal(t, math.Round(plan.PieceMM), plan.DiceMM)
		}
	}
	assert.Greater(t, told, 8)
	assert.Greater(t, large, 3)
	assert.Greater(t, small, 3)
}

// What is said of an uneven plan depends on what makes it so.
func TestPlanNotes(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	for name, row := range map[string]struct {
		low, high float64
		wish      Wish
		note      string
	}{
		"one way to leave them": {58, 71, Wish{Cut: cut(t, "whole 64 mm"), Until: Tender}, "the sizes alone spread the times from -"},
		"no cut comes nearer":   {20, 65, Wish{Until: Tender}, "these cuts come no nearer than -"},
		"small ones stay whole": {15, 40, Wish{Cut: cut(t, "cube 25 mm"), Until: Tender}, "the smallest are done "},
		"slices of all widths":  {28, 200, Wish{Cut: cut(t, "slice 60 mm"), Until: Tender}, "the last end "},
	} {
		plan, err := PlanCuts(waxy, []SizeClass{{LowMM: row.low, HighMM: row.high}}, row.wish, Conditions{})
		require.NoError(t, err, name)
		require.False(t, plan.Even, name)
		require.Len(t, plan.Notes, 1, name)
		assert.Contains(t, plan.Notes[0], row.note, name)
	}
}

// Classes that lie apart or overlap keep to one clock; neighbours with the same
// cut are told as one.
func TestPlanOfSeveralClasses(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	wish := Wish{Cut: cut(t, "cube 25 mm"), Until: Tender}
	plan, err := PlanCuts(waxy, []SizeClass{{LowMM: 45, HighMM: 65}, {LowMM: 20, HighMM: 45}, {LowMM: 65, HighMM: 80}}, wish, endless)
	require.NoError(t, err)
	require.Equal(t, []string{"whole", "cube 25 mm"}, shapesOf(plan.Rules))
	assert.Equal(t, 20.0, plan.Rules[0].FromMM)
	assert.Equal(t, 80.0, plan.Rules[1].ToMM)
	assert.Equal(t, plan.Rules[0].ToMM, plan.Rules[1].FromMM)
	one, err := PlanCuts(waxy, []SizeClass{{LowMM: 20, HighMM: 80}}, wish, endless)
	require.NoError(t, err)
	assert.InDelta(t, one.Minutes, plan.Minutes, 1e-9)
	assert.InDelta(t, one.Rules[0].ToMM, plan.Rules[0].ToMM, 0.3)
	assert.InDelta(t, one.Rules[1].Longest, plan.Rules[1].Longest, 1e-9)
	assert.InDelta(t, one.Rules[0].Shortest, plan.Rules[0].Shortest, 1e-9)

	small, err := PlanCuts(waxy, []SizeClass{{LowMM: 24, HighMM: 28}, {LowMM: 18, HighMM: 24}, {LowMM: 20, HighMM: 22}}, wish, endless)
	require.NoError(t, err)
	require.Equal(t, []string{"whole"}, shapesOf(small.Rules))
	least, err := Steam(waxy, cut(t, "whole 18 mm"), Tender, endless)
	require.NoError(t, err)
	most, err := Steam(waxy, cut(t, "whole 28 mm"), Tender, endless)
	require.NoError(t, err)
	assert.InEpsilon(t, least.Minutes, small.Rules[0].Shortest, 0.02)
	assert.InEpsilon(t, most.Minutes, small.Rules[0].Longest, 0.02)
	assert.Equal(t, []float64{18, 28}, []float64{small.Rules[0].FromMM, small.Rules[0].ToMM})

	// A counted class is its mean tuber a tenth either way; a stick's mean is a
	// cylinder's (1080 kg/m³, memory).
	sizes, err := SizeClass{Grams: 900, Count: 9}.Sizes(waxy)
	require.NoError(t, err)
	mean := 2 * math.Cbrt(3*100/1.08e-3/(4*math.Pi*1.3))
	assert.InDelta(t, 0.9*mean, sizes.LowMM, 1e-9)
	assert.InDelta(t, 1.1*mean, sizes.HighMM, 1e-9)
	carrot, err := SizeClass{Grams: 240, Count: 3}.Sizes(crop(t, "carrot", ""))
	require.NoError(t, err)
	across := math.Cbrt(4 * 80 / 1.08e-3 / (math.Pi * 6))
	assert.InDelta(t, 0.9*across, carrot.LowMM, 1e-9)
	flat, err := SizeClass{Grams: 3, Count: 1}.Sizes(crop(t, "broad beans", ""))
	require.NoError(t, err)
	assert.InDelta(t, 1.1*2*math.Cbrt(3*3/1.08e-3/(4*math.Pi*1.4*0.6)), flat.HighMM, 1e-9)
	assert.Equal(t, 51.0, ThicknessMM(waxy, 100), "to the mm")
	given, err := SizeClass{LowMM: 20, HighMM: 45, Grams: 900, Count: 3}.Sizes(waxy)
	require.NoError(t, err)
	assert.Equal(t, Sizes{20, 45}, given, "a band that is given stands")
	for _, bad := range []SizeClass{{}, {Count: 9}, {Grams: 900}, {Grams: -900, Count: 9}, {Grams: 900, Count: -9}, {Grams: math.NaN(), Count: 1}} {
		_, err := bad.Sizes(waxy)
		assert.ErrorContains(t, err, "neither sizes nor a weight and a count", "%+v", bad)
	}
	for _, fine := range []SizeClass{{LowMM: 2, HighMM: 200}, {LowMM: 30, HighMM: 30}} {
		_, err := fine.Sizes(waxy)
		assert.NoError(t, err, "%+v", fine)
	}
}
