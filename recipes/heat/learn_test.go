package heat

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// found draws knife tests of a kitchen that takes factor times as long.
func found(r *rand.Rand, factor float64, count int) []weighedTest {
	tests := make([]weighedTest, count)
	for i := range tests {
		expected := 5 + 20*r.Float64()
		tests[i] = weighedTest{expected, expected * factor * math.Exp(testSpread*r.NormFloat64())}
	}
	return tests
}

func TestLearnsAKnownFactor(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 2031))
	for _, factor := range []float64{0.7, 0.9, 1, 1.2, 1.5} {
		miss := math.Inf(1)
		for _, count := range []int{5, 40, 320} {
			squares := 0.0
			for range 30 {
				l := math.Log(learn(found(r, factor, count)).Factor / factor)
				squares += l * l / 30
			}
			assert.Less(t, math.Sqrt(squares), miss, "factor %g, %d tests", factor, count)
			miss = math.Sqrt(squares)
		}
		assert.Less(t, miss, 0.02, "factor %g after 320 tests", factor)
	}
}

// Kitchens drawn from what is likely before any test: the factor's band covers
// the true one nine times in ten, whatever the number of tests.
func TestBandCoversAtItsRate(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 2031))
	const kitchens = 800
	for _, count := range []int{1, 3, 10, 30} {
		covered := 0
		for range kitchens {
			factor := math.Exp(factorSpread * r.NormFloat64())
			l := learn(found(r, factor, count))
			if l.Low <= factor && factor <= l.High {
				covered++
			}
		}
		rate := float64(covered) / kitchens
		t.Logf("%d tests: covered %.1f %%", count, rate*100)
		assert.InDelta(t, 0.90, rate, 0.04, "%d tests", count)
	}
}

func TestOneWildEntryPullsLittle(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 2031))
	tests := found(r, 1.1, 10)
	tame := learn(tests)
	for _, wild := range []weighedTest{{10, 100}, {10, 0.6}} {
		got := learn(append(tests[:10:10], wild))
		assert.InDelta(t, math.Log(tame.Factor), math.Log(got.Factor), 0.03)
	}
	alone := learn([]weighedTest{{10, 120}})
	assert.Less(t, alone.Factor, 1.3, "one test of twelve times as long is a slip of the pen")
}

func TestNoTestsChangeNothing(t *testing.T) {
	assert.Equal(t, Learned{}, learn(nil))
	assert.Equal(t, Learned{}, learn([]weighedTest{{0, 9}, {9, 0}, {math.NaN(), 9}, {9, math.NaN()}}))
	minutes, low, high := Learned{}.band(8, 6, 12)
	assert.Equal(t, []float64{8, 6, 12}, []float64{minutes, low, high})
}

func TestOrderOfTestsDoesNotMatter(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 2031))
	tests := found(r, 1.2, 8)
	forward := learn(tests)
	r.Shuffle(len(tests), func(i, j int) { tests[i], tests[j] = tests[j], tests[i] })
	assert.InDelta(t, forward.Factor, learn(tests).Factor, 1e-9)
}

// The band of an estimate narrows as tests add up, never below the spread of
// the pieces' sizes, and moves with the factor; another kitchen's estimate is
// untouched.
func TestBandNarrows(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 2031))
	waxy, cubes := crop(t, "potato", "waxy"), cut(t, "cube 25 mm")
	plain, err := Steam(waxy, cubes, JustTender, Conditions{})
	require.NoError(t, err)
	width := plain.High / plain.Low
	for _, count := range []int{1, 4, 16, 64, 1000} {
		learned := learn(found(r, 1.2, count))
		e, err := Steam(waxy, cubes, JustTender, Conditions{Learned: learned})
		require.NoError(t, err)
		assert.Equal(t, count, e.KnifeTests)
		assert.InEpsilon(t, plain.Minutes*learned.Factor, e.Minutes, 1e-9)
		assert.Less(t, e.High/e.Low, width, "%d tests", count)
		width = e.High / e.Low
	}
	assert.Greater(t, width, math.Exp(2*nineInTen*piecesSpread)*0.95, "the sizes of pieces stay")
	again, err := Steam(waxy, cubes, JustTender, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, plain, again)
}

// The same weighing, integrated anew on a grid of its own: a prior of spread
// 0.189 about a factor of 1, and for each test Student's t of four degrees of
// freedom and spread 0.14 in the logarithm.
func TestWeighingByHand(t *testing.T) {
	for _, tests := range [][]weighedTest{
		{{10, 12}},
		{{10, 12}, {8, 7}, {20, 33}},
		{{10, 30}, {10, 9}, {0.4, 9}, {9, 0.4}},
		{{0.5, 0.7}},
	} {
		const stops = 40001
		sum, mean, square := 0.0, 0.0, 0.0
		var at, weight [stops]float64
		for i := range at {
			x := -2 + 4*float64(i)/(stops-1)
			w := math.Exp(-x * x / (2 * 0.189 * 0.189))
			for _, test := range tests {
				if test.expected < 0.5 || test.found < 0.5 {
					continue // too short to say anything
				}
				miss := (math.Log(test.found/test.expected) - x) / 0.14
				w *= math.Pow(1+miss*miss/4, -2.5)
			}
			at[i], weight[i] = x, w
			sum, mean, square = sum+w, mean+w*x, square+w*x*x
		}
		mean /= sum
		got := learn(tests)
		assert.InDelta(t, math.Exp(mean), got.Factor, 2e-4)
		assert.InDelta(t, math.Sqrt(square/sum-mean*mean), got.spread, 2e-4)
		low, high, run := math.NaN(), math.NaN(), 0.0
		for i, w := range weight {
			if before := run; before < 0.05*sum && before+w >= 0.05*sum {
				low = math.Exp(at[i])
			} else if before < 0.95*sum && before+w >= 0.95*sum {
				high = math.Exp(at[i])
			}
			run += w
		}
		assert.InDelta(t, low, got.Low, 1e-3)
		assert.InDelta(t, high, got.High, 1e-3)
	}
	assert.Equal(t, 2, learn([]weighedTest{{10, 30}, {10, 9}, {0.4, 9}, {9, 0.4}}).Tests)
	assert.Equal(t, 1, learn([]weighedTest{{0.5, 0.5}}).Tests)
}

// Twice the model's minutes, however often found, are believed in the end; but
// not beyond what the weighing spans.
func TestLearnsFarFactors(t *testing.T) {
	many := func(ratio float64) []weighedTest {
		list := make([]weighedTest, 60)
		for i := range list {
			list[i] = weighedTest{10, 10 * ratio}
		}
		return list
	}
	assert.InEpsilon(t, 2, learn(many(2)).Factor, 0.03)
	assert.InEpsilon(t, 0.5, learn(many(0.5)).Factor, 0.03)
	beyond := learn(many(8))
	assert.InEpsilon(t, math.Exp(1.5), beyond.Factor, 0.02)
	assert.LessOrEqual(t, beyond.High, math.Exp(1.5)*1.01)
	assert.GreaterOrEqual(t, learn(many(0.125)).Low, math.Exp(-1.5)*0.99)
}

// The ends come nearer as the share of the band that this kitchen has learned:
// its own spread beside that of sizes, which nobody can learn away.
func TestBandOfTheLearned(t *testing.T) {
	l := Learned{Factor: 1.2, Tests: 5, spread: 0.05}
	narrow := math.Sqrt(0.05*0.05+0.073*0.073) / math.Sqrt(0.189*0.189+0.073*0.073)
	minutes, low, high := l.band(10, 7, 14)
	assert.InDelta(t, 12, minutes, 1e-9)
	assert.InDelta(t, 12*math.Pow(0.7, narrow), low, 1e-9)
	assert.InDelta(t, 12*math.Pow(1.4, narrow), high, 1e-9)
	wide := Learned{Factor: 1, Tests: 1, spread: 0.5}
	_, low, high = wide.band(10, 7, 14)
	assert.Equal(t, []float64{7, 14}, []float64{low, high}, "never wider than before any test")
	minutes, low, high = l.band(0, 0, 1)
	assert.Equal(t, []float64{0, 0, 1}, []float64{minutes, low, high}, "done by full steam")
}
