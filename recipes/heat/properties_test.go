package heat

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"trencher/units"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// anySteaming draws a crop, a cut and conditions within the model's range.
func anySteaming(r *rand.Rand) (Crop, Cut, Conditions) {
	all := Crops()
	crop := all[r.IntN(len(all))]
	shapes := []Shape{Whole, Halves, Quarters, Eighths, Wedges, Cube, Slice, Baton}
	shape := shapes[r.IntN(len(shapes))]
	size := 8 + r.Float64()*40
	if shape.OfTuber() {
		size = 15 + r.Float64()*50
	}
	c := Conditions{
		StartC: new(2 + r.Float64()*30), AltitudeM: r.Float64() * 2900,
		LoadGrams: 100 + r.Float64()*900, NetPowerW: 400 + r.Float64()*1500,
		Heaped: r.IntN(5) == 0,
	}
	return crop, Cut{Shape: shape, SizeMM: size}, c
}

func fromLoading(t *testing.T, crop Crop, cut Cut, until Doneness, c Conditions) float64 {
	e, err := Steam(crop, cut, until, c)
	require.NoError(t, err, "%s %s", crop.Title(), cut)
	return e.FromLoading
}

// Counted from loading: larger, colder, higher up and softer all take longer.
func TestWhatTakesLonger(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2031))
	for range 80 {
		crop, cut, c := anySteaming(r)
		until := Doneness(1 + r.IntN(2))
		base := fromLoading(t, crop, cut, until, c)

		larger := cut
		larger.SizeMM *= 1.05
		if cut.Shape == Slice { // thicker, of the same disc
			larger.AcrossMM = crop.WidthMM
		}
		// A rod drawn out ever longer takes no longer: hence the ten-thousandth.
		assert.Greater(t, fromLoading(t, crop, larger, until, c), base*0.9999, "larger: %s %s %+v", crop.Title(), cut, c)

		colder := c
		colder.StartC = new(*c.StartC - 2)
		assert.Greater(t, fromLoading(t, crop, cut, until, colder), base, "colder: %s %s", crop.Title(), cut)

		higher := c
		higher.AltitudeM += 100
		assert.Greater(t, fromLoading(t, crop, cut, until, higher), base, "higher: %s %s", crop.Title(), cut)

		assert.Greater(t, fromLoading(t, crop, cut, until+1, c), base, "softer: %s %s", crop.Title(), cut)
	}
}

// The band holds the estimate, and its parts add up.
func TestBandHoldsTheEstimate(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2031))
	for range 80 {
		crop, cut, c := anySteaming(r)
		e, err := Steam(crop, cut, Tender, c)
		require.NoError(t, err)
		assert.LessOrEqual(t, e.Low, e.Minutes, "%s %s", crop.Title(), cut)
		assert.GreaterOrEqual(t, e.High, e.Minutes, "%s %s", crop.Title(), cut)
		assert.Less(t, e.CentreC, e.SteamC)
		assert.GreaterOrEqual(t, e.CentreC, float64(softensC))
		for _, x := range []float64{e.Minutes, e.Low, e.High, e.ComeUp, e.CentreC, e.PerMM} {
			assert.False(t, math.IsNaN(x) || math.IsInf(x, 0))
		}
	}
}

// A hair's breadth in size is a hair's breadth in time: across the ends of the
// range that is checked, where a stick's or a box's reckoning changes, and
// along every cut.
func TestTimeIsContinuousInSize(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	for _, shape := range []Shape{Whole, Halves, Quarters, Eighths, Wedges, Cube, Slice, Baton} {
		before := 0.0
		for mm := 6.0; mm < 70; mm += 0.5 {
			now := fromLoading(t, waxy, Cut{Shape: shape, SizeMM: mm}, Tender, Conditions{})
			if before > 0 {
				assert.Less(t, math.Abs(now-before), 0.9, "%s at %g mm", shape, mm)
			}
			before = now
		}
	}
	// A box drawn out from a cube, and a slice from a plate to a rod.
	for ratio := 1.0; ratio < 4; ratio += 0.06 {
		at := func(ratio float64) float64 {
			return fromLoading(t, waxy, Cut{Shape: Box, Sides: [3]float64{20, 20, 20 * ratio}}, Tender, Conditions{})
		}
		assert.InDelta(t, at(ratio), at(ratio+0.02), 0.12, "box 1:1:%g", ratio)
		disc := func(ratio float64) float64 {
			return fromLoading(t, waxy, Cut{Shape: Slice, SizeMM: 20, AcrossMM: 20 * ratio}, Tender, Conditions{})
		}
		assert.InDelta(t, disc(ratio/2), disc(ratio/2+0.02), 0.25, "disc 1:%g", ratio/2)
	}
}

// Where a cutting plan goes from one cut to the next, both miss the common time
// alike, and the plan's spread is that miss.
func TestPlanIsContinuousAcrossCuts(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	wish := Wish{Cut: cut(t, "cube 25 mm"), Until: JustTender}
	plan, err := PlanCuts(waxy, []SizeClass{{LowMM: 20, HighMM: 65}}, wish, Conditions{})
	require.NoError(t, err)
	require.Len(t, plan.Quick, 4)
	goal := plan.Minutes + plan.ComeUp
	for i := 1; i < len(plan.Quick); i++ {
		upper, lower := plan.Quick[i-1], plan.Quick[i]
		assert.Equal(t, upper.ToMM, lower.FromMM)
		late, early := upper.Longest+plan.ComeUp, lower.Shortest+plan.ComeUp
		assert.InEpsilon(t, goal*goal, late*early, 0.01, "%s to %s at %.0f mm", upper.Cut, lower.Cut, upper.ToMM)
	}
}

// With the same equipment, a load a gram heavier takes about the same.
func TestLoadIsMonotone(t *testing.T) {
	waxy, cubes := crop(t, "potato", "waxy"), cut(t, "cube 25 mm")
	var before Load
	for grams := 100.0; grams < 5000; grams += 150 {
		load, err := LoadPlan(waxy, cubes, Tender, grams, Equipment{}, Conditions{})
		require.NoError(t, err)
		assert.LessOrEqual(t, before.Layers, load.Layers)
		assert.LessOrEqual(t, before.TotalMinutes, load.TotalMinutes*1.02)
		assert.LessOrEqual(t, load.GramsPerRound, load.GramsPerLayer*float64(load.Tiers)*1.0001)
		assert.GreaterOrEqual(t, load.WaterML, 500.0)
		longest := float64(load.Rounds) * (load.Estimate.ComeUp + load.Estimate.High)
		assert.Greater(t, load.WaterML, load.EvaporatesG*longest, "the pan must not boil dry")
		before = load
	}
}

func TestHeapCosts(t *testing.T) {
	waxy, cubes := crop(t, "potato", "waxy"), cut(t, "cube 25 mm")
	even, err := LoadPlan(waxy, cubes, JustTender, 3000, Equipment{}, Conditions{})
	require.NoError(t, err)
	heap, err := LoadPlan(waxy, cubes, JustTender, 3000, Equipment{}, Conditions{Heaped: true})
	require.NoError(t, err)
	assert.Equal(t, 2, even.Rounds)
	assert.Equal(t, 1, heap.Rounds)
	assert.True(t, heap.Heaped)
	assert.False(t, even.Heaped)
	assert.Greater(t, heap.Estimate.FromLoading, even.Estimate.FromLoading*1.5)
	assert.Greater(t, heap.Estimate.High-heap.Estimate.Low, even.Estimate.High-even.Estimate.Low)
}

// A warmer room, a deeper heap and a larger piece all cool more slowly, and what
// is latest is never before what is expected.
func TestCoolingProperties(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	cool := func(text string, spread Spread, room float64) Cooling {
		c, err := Cool(waxy, cut(t, text), spread, room)
		require.NoError(t, err)
		assert.LessOrEqual(t, c.DressExpected, c.DressLatest)
		assert.LessOrEqual(t, c.FridgeExpected, c.FridgeLatest)
		return c
	}
	tray := cool("cube 25 mm", Spread{}, 20)
	assert.Greater(t, cool("cube 30 mm", Spread{}, 20).DressLatest, tray.DressLatest)
	assert.Greater(t, cool("cube 25 mm", Spread{}, 24).DressLatest, tray.DressLatest)
	shallow := cool("cube 25 mm", Spread{Bowl: true, Grams: 1000, DepthMM: 50}, 20)
	deep := cool("cube 25 mm", Spread{Bowl: true, Grams: 1000}, 20)
	assert.Greater(t, shallow.DressLatest, tray.DressLatest)
	assert.Greater(t, deep.DressLatest, shallow.DressLatest)
	assert.True(t, deep.Deep)
	assert.NotEmpty(t, deep.Notes)
	hot := cool("cube 25 mm", Spread{}, 33)
	assert.Greater(t, hot.DressC, 33.0)
	assert.NotEmpty(t, hot.Notes)
}

func TestImpossibleIsRefused(t *testing.T) {
	waxy, cubes := crop(t, "potato", "waxy"), cut(t, "cube 25 mm")
	for name, c := range map[string]Conditions{
		"frozen":        {StartC: new(-1.0)},
		"boiling":       {StartC: new(99.0)},
		"no number":     {StartC: new(math.NaN())},
		"under the sea": {AltitudeM: -5000},
		"on the moon":   {AltitudeM: 384400000},
		"no load":       {LoadGrams: -1},
		"no power":      {NetPowerW: -700},
		"endless power": {NetPowerW: math.Inf(1)},
	} {
		_, err := Steam(waxy, cubes, Tender, c)
		var input *units.FieldError
		require.ErrorAs(t, err, &input, name)
		assert.NotEmpty(t, input.Hint(), name)
	}
	_, err := Steam(waxy, Cut{Shape: Halves}, Tender, Conditions{})
	require.ErrorContains(t, err, "no size")
	_, err = Steam(waxy, Cut{}, Tender, Conditions{})
	require.Error(t, err)
	_, err = Steam(waxy, Cut{Shape: Whole, SizeMM: 200}, Soft, Conditions{})
	require.True(t, errors.Is(err, ErrNotDone))
	_, err = PlanCuts(waxy, nil, Wish{}, Conditions{})
	require.ErrorContains(t, err, "none given")
	_, err = PlanCuts(waxy, []SizeClass{{LowMM: 45, HighMM: 20}}, Wish{}, Conditions{})
	require.Error(t, err)
	_, err = PlanCuts(waxy, []SizeClass{{Grams: 500}}, Wish{}, Conditions{})
	require.Error(t, err)
	_, err = LoadPlan(waxy, cubes, Tender, 500, Equipment{Fuel: "coal"}, Conditions{})
	require.ErrorContains(t, err, `fuel "coal"`)
	_, err = LoadPlan(waxy, cubes, Tender, 500, Equipment{PowerW: 300, Windy: true}, Conditions{})
	require.ErrorContains(t, err, "no steam to speak of")
	_, err = Cool(waxy, cubes, Spread{}, 60)
	require.Error(t, err)
	require.ErrorContains(t, Cut{Shape: Cube, SizeMM: 60}.CheckTuber(45), "larger than the tuber")
	require.NoError(t, Cut{Shape: Cube, SizeMM: 25}.CheckTuber(45))
}

// Outside the checked range an answer says so, and by how much.
func TestOutsideTheRange(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	for _, row := range []struct {
		cut  string
		c    Conditions
		says string
	}{
		{"cube 6 mm", Conditions{}, "2.0 mm under"},
		{"whole 95 mm", Conditions{}, "5 mm over"},
		{"cube 25 mm", Conditions{AltitudeM: 3500}, "500 m over"},
		{"cube 25 mm", Conditions{StartC: new(45.0)}, "5 °C over"},
		{"cube 25 mm", Conditions{LoadGrams: 3500}, "500 g over"},
		{"cube 10 mm", Conditions{LoadGrams: 2900, NetPowerW: 160}, "too small for this load"},
	} {
		e, err := Steam(waxy, cut(t, row.cut), JustTender, row.c)
		require.NoError(t, err)
		assert.False(t, e.InRange())
		found := false
		for _, text := range e.Outside {
			found = found || strings.Contains(text, row.says)
		}
		assert.True(t, found, "%s: %v", row.says, e.Outside)
	}
	high, err := Steam(waxy, cut(t, "cube 25 mm"), JustTender, Conditions{AltitudeM: 3000})
	require.NoError(t, err)
	higher, err := Steam(waxy, cut(t, "cube 25 mm"), JustTender, Conditions{AltitudeM: 4000})
	require.NoError(t, err)
	assert.Greater(t, higher.High/higher.Low, 1.3*high.High/high.Low, "the band widens")
	e, err := Steam(waxy, cut(t, "cube 25 mm"), JustTender, Conditions{})
	require.NoError(t, err)
	assert.True(t, e.InRange())
	assert.Empty(t, e.Notes)
}

// What is known to spread lies within the band: the crop's diffusivity by a
// fifth either way (published values for potato), a start five degrees off,
// pieces a fifteenth off, and the film of the published range's low end.
func TestBandCoversWhatSpreads(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	for _, text := range []string{"cube 20 mm", "cube 30 mm", "whole 40 mm", "quarters 60 mm", "baton 12 mm"} {
		e, err := Steam(waxy, cut(t, text), Tender, Conditions{})
		require.NoError(t, err)
		for name, change := range map[string]func(*situation){
			"heat spreads faster": func(s *situation) { s.props.Conductivity *= 1.2 },
			"heat spreads slower": func(s *situation) { s.props.Conductivity *= 0.8 },
			"warmer start":        func(s *situation) { s.start += 5 },
			"colder start":        func(s *situation) { s.start -= 5 },
			"smaller":             func(s *situation) { s.body = s.body.scaled(1 - 0.07) },
			"larger":              func(s *situation) { s.body = s.body.scaled(1 + 0.07) },
			"thin film":           func(s *situation) { s.film = 400 },
			"thick film":          func(s *situation) { s.film = 1500 },
			"less steam":          func(s *situation) { s.areaW *= 0.8 },
			"cooler steam":        func(s *situation) { s.steam -= 2 }, // air under the lid
		} {
			s, err := newSituation(waxy, cut(t, text), Tender, Conditions{}.filled())
			require.NoError(t, err)
			change(&s)
			minutes := s.time().minutes()
			assert.True(t, e.Low <= minutes && minutes <= e.High, "%s, %s: %.1f outside %.1f to %.1f", text, name, minutes, e.Low, e.High)
		}
	}
}
