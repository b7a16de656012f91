package heat

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A kitchen's tests are weighed each against what the model alone says of its
// own piece, doneness and load.
func TestLearnFromWeighsEachTest(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	c := Conditions{AltitudeM: 1000, NetPowerW: 1100}
	tests := []KnifeTest{
		{Crop: "potatoes", Texture: "waxy", Cut: cut(t, "cube 25 mm"), Until: JustTender},
		{Crop: "potato", Texture: "floury", Cut: cut(t, "whole 45 mm"), Until: Soft},
		{Crop: "potato", Cut: cut(t, "quarters 60 mm"), Until: Tender, LoadG: 1500},
	}
	for i := range tests {
		expected, err := tests[i].Expected(c)
		require.NoError(t, err)
		tests[i].Minutes = 1.25 * expected
	}
	got, left := LearnFrom(tests, waxy, c)
	assert.Empty(t, left)
	assert.InDelta(t, learn([]weighedTest{{10, 12.5}, {10, 12.5}, {10, 12.5}}).Factor, got.Factor, 1e-9)
	assert.Equal(t, 3, got.Tests)
	elsewhere, _ := LearnFrom(tests, waxy, Conditions{NetPowerW: 1100})
	assert.Greater(t, elsewhere.Factor, got.Factor, "by the sea the same minutes are further from the model's")
}

// What was in the steamer counts: half of a heavy load's cooking is over when
// steam runs freely.
func TestKnifeTestExpectsItsLoad(t *testing.T) {
	test := KnifeTest{Crop: "potato", Cut: cut(t, "cube 25 mm"), Until: JustTender}
	usual, err := test.Expected(Conditions{})
	require.NoError(t, err)
	direct, err := expect(crop(t, "potato", ""), test.Cut, JustTender, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, direct, usual)
	test.LoadG = 1500
	heavy, err := test.Expected(Conditions{LoadGrams: 300})
	require.NoError(t, err)
	assert.Less(t, heavy, usual, "the test's own load, not the kitchen's")
	same, err := test.Expected(Conditions{LoadGrams: 1500})
	require.NoError(t, err)
	assert.Equal(t, same, heavy)
}

// A test that the model can say nothing of is named and left out; another
// crop's is nobody's business here.
func TestLearnFromNamesWhatItLeavesOut(t *testing.T) {
	good := KnifeTest{Crop: "potato", Cut: cut(t, "cube 25 mm"), Until: JustTender, Minutes: 9, Place: "good"}
	unsized, kindless, raw := good, good, good
	unsized.Cut, unsized.Place = Cut{Shape: Halves}, "0701-unsized.yaml"
	kindless.Texture, kindless.Place = "purple", "0702-kindless.yaml"
	raw.Cut, raw.Until, raw.Place = cut(t, "whole 200 mm"), Soft, "0703-raw.yaml"
	carrot, granite := unsized, unsized
	carrot.Crop, granite.Crop = "carrot", "granite"

	got, left := LearnFrom([]KnifeTest{unsized, good, carrot, kindless, granite, raw}, crop(t, "potato", "floury"), Conditions{})
	assert.Equal(t, 1, got.Tests)
	require.Len(t, left, 3)
	assert.ErrorContains(t, left[0], "the knife test 0701-unsized.yaml: ")
	assert.ErrorContains(t, left[0], "no size")
	assert.ErrorContains(t, left[1], "0702-kindless.yaml")
	assert.ErrorContains(t, left[1], "no such kind")
	assert.ErrorContains(t, left[2], "0703-raw.yaml")
	assert.ErrorIs(t, left[2], ErrNotDone)

	none, left := LearnFrom(nil, crop(t, "potato", ""), Conditions{})
	assert.Equal(t, Learned{}, none)
	assert.Empty(t, left)
}
