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
