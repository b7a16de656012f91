package heat

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The learning as it was worked out by an independent program on a grid of 61 by 41 by
// 41 (known_by: computed): all potato, half a kilogram, 700 W; nothing wild, and every
// kitchen's readings scattered alike.
func TestWeighingAgainstAnotherProgram(t *testing.T) {
	k := kitchens{phi: 0.18, delta: 0.45, clock: 1, glance: 0.6, pieces: 0.12, lot: 0.10}
	times := map[string][2]float64{ // minutes by the model, and its sensitivity
		"cube 15 just tender": {3.97, 0.633}, "cube 20 just tender": {5.88, 0.480}, "cube 25 just tender": {8.33, 0.389},
		"cube 30 just tender": {11.16, 0.334}, "cube 25 tender": {11.74, 0.482}, "cube 35 tender": {18.51, 0.363},
		"whole 40 tender": {19.82, 0.351}, "whole 50 tender": {27.18, 0.306}, "whole 60 tender": {35.33, 0.279}, "whole 70 just tender": {36.36, 0.236},
	}
	var tests []reading
	for _, one := range []struct {
		what string
		at   float64
		said Finding
	}{
		{"cube 25 just tender", 9.5, JustRight}, {"cube 25 just tender", 10, JustRight}, {"whole 50 tender", 30.5, JustRight},
		{"cube 20 just tender", 7, JustRight}, {"cube 30 just tender", 12.5, NotYet}, {"cube 25 tender", 14, JustRight},
		{"cube 20 just tender", 8, Over}, {"cube 25 just tender", 9, NotYet}, {"whole 40 tender", 22.5, JustRight}, {"cube 25 tender", 13.5, JustRight},
	} {
		tests = append(tests, reading{times[one.what][0], times[one.what][1], one.at, one.said})
	}
	type row struct {
		what string
		band [3]float64
	}
	for _, after := range []struct {
		tests                             int
		phi, phiSD, clock, delta, deltaSD float64
		rows                              []row
	}{
		{0, 0, 0.18, 0, 0, 0.45, []row{{"cube 15 just tender", [3]float64{1.3, 4.0, 7.7}}, {"cube 25 just tender", [3]float64{4.5, 8.3, 13.7}},
			{"cube 35 tender", [3]float64{11.0, 18.4, 29.5}}, {"whole 60 tender", [3]float64{22.0, 35.1, 54.2}}, {"whole 70 just tender", [3]float64{22.9, 36.1, 55.0}}}},
		{1, 0.036, 0.149, 0.21, 0.088, 0.377, []row{{"cube 15 just tender", [3]float64{2.5, 4.6, 7.0}}, {"cube 25 just tender", [3]float64{6.2, 9.1, 12.8}},
			{"cube 35 tender", [3]float64{13.9, 19.9, 27.7}}, {"whole 60 tender", [3]float64{26.4, 37.6, 51.8}}, {"whole 70 just tender", [3]float64{27.1, 38.5, 52.9}}}},
		{3, 0.048, 0.132, 0.33, 0.110, 0.361, []row{{"cube 25 just tender", [3]float64{6.6, 9.5, 12.5}}, {"cube 35 tender", [3]float64{14.8, 20.5, 27.1}}, {"whole 60 tender", [3]float64{27.8, 38.4, 50.7}}}},
		{10, 0.068, 0.126, 0.55, 0.062, 0.321, []row{{"cube 15 just tender", [3]float64{3.2, 5.0, 6.8}}, {"cube 25 just tender", [3]float64{7.0, 9.7, 12.5}},
			{"whole 60 tender", [3]float64{28.6, 39.0, 50.4}}, {"whole 70 just tender", [3]float64{29.3, 40.0, 51.9}}}},
	} {
		b := k.after(tests[:after.tests])
		phi, phiSD := b.mean(func(n kitchenNode) float64 { return n.phi })
		clock, _ := b.mean(func(n kitchenNode) float64 { return n.clock })
		delta, deltaSD := b.mean(func(n kitchenNode) float64 { return n.delta })
		for i, pair := range [][2]float64{{after.phi, phi}, {after.phiSD, phiSD}, {after.delta, delta}, {after.deltaSD, deltaSD}} {
			assert.InDelta(t, pair[0], pair[1], 0.01, "%d tests, figure %d", after.tests, i)
		}
		assert.InDelta(t, after.clock, clock, 0.03, "%d tests", after.tests)
		for _, row := range after.rows {
			o := b.outcome(k, times[row.what][0], times[row.what][1])
			for i, share := range []float64{0.05, 0.5, 0.95} {
				assert.InDelta(t, row.band[i], o.quantile(share, times[row.what][0]), 0.15, "%s after %d tests, %g", row.what, after.tests, share)
			}
		}
	}
}

// Before any test the band in closed form and the grid say the same.
func TestBandIsTheBeliefBeforeAnyTest(t *testing.T) {
	b := prior.after(nil)
	for _, row := range [][2]float64{{3, 0.7}, {8.6, 0.4}, {20, 0.35}, {60, 0.2}} {
		low, high := prior.band(row[0], row[1])
		o := b.outcome(prior, row[0], row[1])
		assert.InDelta(t, o.quantile(0.05, row[0]), low, 0.03+0.005*row[0])
		assert.InDelta(t, o.quantile(0.95, row[0]), high, 0.03+0.005*row[0])
		assert.InEpsilon(t, row[0], o.quantile(0.5, row[0]), 0.03, "the model is the middle")
	}
	low, high := prior.band(0, 0.4)
	assert.Zero(t, low)
	assert.Zero(t, high)
}

// findings are readings of a kitchen that takes factor times as long and whose clock
// is late.
func findings(r *rand.Rand, factor, late float64, count int) []reading {
	tests := make([]reading, count)
	for i := range tests {
		minutes := 5 + 25*r.Float64()
		tests[i] = reading{minutes: minutes, sensitivity: 2.2 / (2 + minutes/4), at: max(0.5, minutes*factor*math.Exp(0.1*r.NormFloat64())+late)}
	}
	return tests
}

// The more tests, the nearer the expected minutes come to the kitchen's own.
func TestLearnsAKitchen(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 2031))
	for _, kitchen := range [][2]float64{{0.75, 0}, {1, 1.5}, {1.3, -0.5}} {
		miss := math.Inf(1)
		for _, count := range []int{1, 8, 64} {
			worst := 0.0
			for range 6 {
				l := learn(findings(r, kitchen[0], kitchen[1], count))
				for _, minutes := range []float64{8, 25} {
					worst = max(worst, math.Abs(math.Log(l.expects(minutes, 2.2/(2+minutes/4))/(minutes*kitchen[0]+kitchen[1]))))
				}
			}
			assert.Less(t, worst, miss, "factor %g, %d tests", kitchen[0], count)
			miss = worst
		}
		assert.Less(t, miss, 0.08, "factor %g, %g min late, after 64 tests", kitchen[0], kitchen[1])
	}
}

// Factor, offset and doneness are told apart by what they do: a late clock by short
// pieces, a palate by what goes most with the target.
func TestTellsFactorOffsetAndDonenessApart(t *testing.T) {
	repeated := func(change func(minutes, sensitivity float64) float64) Learned {
		var tests []reading
		for range 12 {
			for _, one := range [][2]float64{{4, 0.63}, {8.3, 0.39}, {18.5, 0.36}, {35, 0.28}, {36, 0.24}} {
				tests = append(tests, reading{minutes: one[0], sensitivity: one[1], at: change(one[0], one[1])})
			}
		}
		return learn(tests)
	}
	late := repeated(func(m, _ float64) float64 { return m + 1.5 })
	soft := repeated(func(m, s float64) float64 { return m * math.Exp(0.6*s) })
	slow := repeated(func(m, _ float64) float64 { return m * 1.3 })
	assert.Greater(t, late.Offset, 0.8)
	assert.Greater(t, late.Offset, max(soft.Offset, slow.Offset))
	assert.Greater(t, soft.Doneness, max(late.Doneness, slow.Doneness))
	assert.Greater(t, slow.Factor, max(late.Factor, soft.Factor))
	assert.True(t, slow.Low < slow.Factor && slow.Factor < slow.High)
}

// Not yet and over bound the time from one side each.
func TestCensoredFindings(t *testing.T) {
	at := func(said Finding, minutes float64) float64 {
		return learn([]reading{{minutes: 10, sensitivity: 0.4, at: minutes, said: said}}).expects(10, 0.4)
	}
	untested := Learned{}.expects(10, 0.4)
	assert.Equal(t, 10.0, untested)
	assert.Greater(t, at(NotYet, 13), at(NotYet, 10))
	assert.Greater(t, at(NotYet, 10), untested)
	assert.InDelta(t, untested, at(NotYet, 4), 0.15, "nobody thought it was done so soon")
	assert.Less(t, at(Over, 8), at(Over, 10))
	assert.Less(t, at(Over, 10), untested)
	assert.InDelta(t, untested, at(Over, 25), 0.15)
	assert.Greater(t, at(JustRight, 13), at(NotYet, 10))
	assert.Less(t, at(JustRight, 13), 13.0)
}

func TestOneWildEntryPullsLittle(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 2031))
	tests := findings(r, 1.1, 0, 10)
	tame := learn(tests).expects(10, 0.4)
	for _, wild := range []reading{{10, 0.4, 100, JustRight}, {10, 0.4, 0.6, JustRight}, {10, 0.4, 40, NotYet}, {10, 0.4, 1, Over}} {
		got := learn(append(tests[:10:10], wild)).expects(10, 0.4)
		assert.InDelta(t, math.Log(tame), math.Log(got), 0.06, "%+v", wild)
	}
	assert.Less(t, learn([]reading{{10, 0.4, 120, JustRight}}).expects(10, 0.4), 15.0, "one test of twelve times as long is a slip of the pen")
}

func TestNoTestsChangeNothing(t *testing.T) {
	assert.Equal(t, Learned{}, learn(nil))
	assert.Equal(t, Learned{}, learn([]reading{{0, 0.4, 9, JustRight}, {9, 0.4, 0, NotYet}, {math.NaN(), 0.4, 9, Over}, {9, 0.4, math.NaN(), JustRight}}))
	assert.Equal(t, 1, learn([]reading{{0.5, 0.4, 0.5, JustRight}, {0.4, 0.4, 9, JustRight}}).Tests)
	minutes, low, high := Learned{}.outlook(8, 0.4)
	l, h := prior.band(8, 0.4)
	assert.Equal(t, []float64{8, l, h}, []float64{minutes, low, high})
	minutes, _, high = learn(findings(rand.New(rand.NewPCG(1, 1)), 1, 0, 2)).outlook(0, 0.4)
	assert.Equal(t, []float64{0, 0}, []float64{minutes, high}, "done by full steam")
}

func TestOrderOfTestsDoesNotMatter(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 2031))
	tests := findings(r, 1.2, 1, 8)
	tests[3].said, tests[5].said = NotYet, Over
	forward := learn(tests)
	r.Shuffle(len(tests), func(i, j int) { tests[i], tests[j] = tests[j], tests[i] })
	again := learn(tests)
	assert.InDelta(t, forward.Factor, again.Factor, 1e-9)
	assert.InDelta(t, forward.expects(10, 0.4), again.expects(10, 0.4), 1e-6)
}

// The band of an estimate narrows as tests add up, never below what pieces and lots
// scatter, and moves with the kitchen; another kitchen's estimate is untouched. One
// whose readings scatter wildly keeps a wider band.
func TestBandNarrows(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 2031))
	waxy, cubes := crop(t, "potato", "waxy"), cut(t, "cube 25 mm")
	plain, err := Steam(waxy, cubes, JustTender, Conditions{})
	require.NoError(t, err)
	width := plain.High / plain.Low
	for _, count := range []int{1, 4, 16, 100} {
		learned := learn(findings(r, 1.2, 0, count))
		e, err := Steam(waxy, cubes, JustTender, Conditions{Learned: learned})
		require.NoError(t, err)
		assert.Equal(t, count, e.KnifeTests)
		assert.Greater(t, e.Minutes, plain.Minutes)
		assert.Equal(t, plain.Minutes, e.Modelled)
		assert.Less(t, e.High/e.Low, width, "%d tests", count)
		width = e.High / e.Low
	}
	assert.Greater(t, width, 1.25, "the sizes of pieces and the lots stay")
	again, err := Steam(waxy, cubes, JustTender, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, plain, again)

	steady, wild := findings(r, 1.2, 0, 12), findings(r, 1.2, 0, 12)
	for i := range wild {
		wild[i].at *= []float64{0.7, 1.4}[i%2]
	}
	band := func(tests []reading) float64 {
		_, low, high := learn(tests).outlook(10, 0.4)
		return high / low
	}
	assert.Greater(t, band(wild), 1.3*band(steady))
}
