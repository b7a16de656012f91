package heat

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// What is not asked for is not answered, but for the cautions.
func TestQuestionAnswersWhatIsAsked(t *testing.T) {
	waxy, cubes := crop(t, "potato", "waxy"), cut(t, "cube 25 mm")
	bare, err := Question{Crop: waxy}.Answer()
	require.NoError(t, err)
	assert.Nil(t, bare.Estimate)
	assert.Nil(t, bare.Load)
	assert.Nil(t, bare.Plan)
	assert.Nil(t, bare.Cooling)
	assert.Nil(t, bare.Curve)
	assert.Empty(t, bare.Table)
	assert.Len(t, bare.Cautions, 3)

	alone, err := Question{Crop: waxy, Cut: cubes, Until: Tender}.Answer()
	require.NoError(t, err)
	direct, err := Steam(waxy, cubes, Tender, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, direct, *alone.Estimate)
	assert.Nil(t, alone.Load)

	c := Conditions{AltitudeM: 800, NetPowerW: 900}
	all, err := Question{Crop: waxy, Cut: cubes, Until: Tender, Table: []float64{20, 30}, TableShape: Slice,
		Lots: []SizeClass{{LowMM: 20, HighMM: 45}}, Cool: &Spread{}, RoomC: 25, Curve: true, Conditions: c}.Answer()
	require.NoError(t, err)
	table, err := BySize(waxy, Slice, []float64{20, 30}, c)
	require.NoError(t, err)
	assert.Equal(t, table, all.Table)
	plan, err := PlanCuts(waxy, []SizeClass{{LowMM: 20, HighMM: 45}}, Wish{Cut: cubes, Until: Tender}, c)
	require.NoError(t, err)
	assert.Equal(t, plan, *all.Plan)
	cooling, err := Cool(waxy, cubes, Spread{}, 25)
	require.NoError(t, err)
	assert.Equal(t, cooling, *all.Cooling)
	curve, err := Trace(waxy, cubes, Tender, c)
	require.NoError(t, err)
	assert.Equal(t, curve, *all.Curve)
}

// With a load the time, and all that follows, is for what is in the steamer at
// once.
func TestQuestionReckonsWithItsLoad(t *testing.T) {
	waxy, cubes := crop(t, "potato", "waxy"), cut(t, "cube 25 mm")
	equipment := Equipment{PowerW: 1800, Tiers: 2}
	net, err := equipment.NetPowerW()
	require.NoError(t, err)
	q := Question{Crop: waxy, Cut: cubes, Until: Tender, Grams: new(4000.0), Table: []float64{25}, TableShape: Cube,
		Equipment: equipment, Conditions: Conditions{NetPowerW: net}}
	a, err := q.Answer()
	require.NoError(t, err)
	require.Greater(t, a.Load.Rounds, 1)
	round := Conditions{NetPowerW: net, LoadGrams: a.Load.GramsPerRound}
	alone, err := Steam(waxy, cubes, Tender, round)
	require.NoError(t, err)
	tier := TierLoad{Crop: waxy, Cut: cubes, Until: Tender, Grams: a.Load.GramsPerRound / 2}
	tiers, err := SteamTiers([]TierLoad{tier, tier}, round)
	require.NoError(t, err)
	assert.Equal(t, tiers.Estimates[1].FromLoading, a.Estimate.FromLoading, "the upper tier")
	assert.Equal(t, *a.Estimate, a.Load.Estimate)
	assert.Equal(t, alone.Minutes, a.Table[0].By[Tender-JustTender].Minutes, "the table is for the same load, side by side")

	q.Conditions.Heaped = true
	heap, err := q.Answer()
	require.NoError(t, err)
	assert.True(t, heap.Load.Heaped)
	assert.Greater(t, heap.Estimate.FromLoading, 1.5*a.Estimate.FromLoading)
	assert.Greater(t, heap.Table[0].By[0].ComeUp, a.Table[0].By[0].ComeUp)
}

// Tubers of several sizes: the largest says how long, and cools longest.
func TestQuestionSpansItsLots(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	lots := []SizeClass{{LowMM: 30, HighMM: 45}, {LowMM: 20, HighMM: 35}, {LowMM: 28, HighMM: 55}}
	a, err := Question{Crop: waxy, Cut: Cut{Shape: Halves}, Until: Tender, Lots: lots, Cool: &Spread{}, RoomC: 20, Curve: true}.Answer()
	require.NoError(t, err)
	lot, err := SteamLot(waxy, Cut{Shape: Halves}, Sizes{20, 55}, Tender, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, lot, *a.Estimate)
	largest, err := Cool(waxy, cut(t, "halves 55 mm"), Spread{}, 20)
	require.NoError(t, err)
	assert.Equal(t, largest.DressLatest, a.Cooling.DressLatest)
	assert.Equal(t, "halves 55 mm", a.Curve.Estimate.Cut.String())
	require.NotNil(t, a.Plan)
	assert.InDelta(t, 20, a.Plan.Rules[0].FromMM, 1e-9)
	assert.InDelta(t, 55, a.Plan.Rules[len(a.Plan.Rules)-1].ToMM, 1e-9)

	loaded, err := Question{Crop: waxy, Cut: Cut{Shape: Halves}, Until: Tender, Lots: lots, Grams: new(600.0)}.Answer()
	require.NoError(t, err)
	piece, err := LoadPlan(waxy, cut(t, "halves 55 mm"), Tender, 600, Equipment{}, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, piece.WaterML, loaded.Load.WaterML, "the water lasts for the largest piece")
	assert.Less(t, loaded.Load.Estimate.Low, piece.Estimate.Low, "and the knife starts at the smallest")
}

// A question that cannot be answered names its field.
func TestQuestionNamesTheFieldAtFault(t *testing.T) {
	waxy, cubes := crop(t, "potato", "waxy"), cut(t, "cube 25 mm")
	for name, row := range map[string]struct {
		q     Question
		field string
	}{
		"no sizes of a lot":     {Question{Lots: []SizeClass{{Grams: 900}}}, "lot"},
		"a lot of no tubers":    {Question{Lots: []SizeClass{{LowMM: 1, HighMM: 45}}}, "lot"},
		"a lot from the moon":   {Question{Lots: []SizeClass{{LowMM: 20, HighMM: 201}}}, "lot"},
		"a lot turned about":    {Question{Lots: []SizeClass{{LowMM: 45, HighMM: 20}}}, "lot"},
		"a cut without size":    {Question{Cut: Cut{Shape: Halves}}, "cut"},
		"cooling of nothing":    {Question{Cool: &Spread{}, RoomC: 20}, "cut"},
		"a curve of nothing":    {Question{Curve: true}, "cut"},
		"no weight to steam":    {Question{Cut: cubes, Grams: new(0.0)}, "load"},
		"frozen":                {Question{Cut: cubes, Conditions: Conditions{StartC: new(-5.0)}}, "start"},
		"too hot a room":        {Question{Cut: cubes, Cool: &Spread{}, RoomC: 46}, "room"},
		"too deep a heap":       {Question{Cut: cubes, Cool: &Spread{DepthMM: 401}, RoomC: 20}, "cool"},
		"too warm a fridge":     {Question{Cut: cubes, Cool: &Spread{FridgeC: 13}, RoomC: 20}, "fridge"},
		"a bowl of no weight":   {Question{Cut: cubes, Cool: &Spread{Bowl: true}, RoomC: 20}, "load"},
		"a bowl of a tonne":     {Question{Cut: cubes, Cool: &Spread{Bowl: true, Grams: 1e6}, RoomC: 20}, "load"},
		"a stove that is none":  {Question{Cut: cubes, Grams: new(500.0), Equipment: Equipment{PowerW: 300, Windy: true}}, "stove"},
		"a table of no sizes":   {Question{Table: []float64{1}, TableShape: Cube}, "cut"},
		"a table beyond a limb": {Question{Table: []float64{201}, TableShape: Whole}, "cut"},
	} {
		row.q.Crop = waxy
		a, err := row.q.Answer()
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong, name)
		assert.Equal(t, row.field, wrong.Field, name)
		assert.NotEmpty(t, wrong.Hint(), name)
		assert.Equal(t, Answer{}, a, "%s: no half of an answer", name)
	}
	_, err := Question{Crop: waxy, Until: Soft, Lots: []SizeClass{{LowMM: 190, HighMM: 200}}, Cut: Cut{Shape: Whole}}.Answer()
	assert.ErrorIs(t, err, ErrNotDone)
}
