package heat

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A kitchen's tests are weighed each against what the model alone says of its
// own piece, doneness, load and conditions.
func TestLearnFromWeighsEachTest(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	c := Conditions{AltitudeM: 1000, NetPowerW: 1100}
	tests := []KnifeTest{
		{Crop: "potatoes", Texture: "waxy", Cut: cut(t, "cube 25 mm"), Until: JustTender},
		{Crop: "potato", Texture: "floury", Cut: cut(t, "whole 45 mm"), Until: Soft, Said: NotYet},
		{Crop: "potato", Cut: cut(t, "quarters 60 mm"), Until: Tender, LoadG: 1500, Made: MadeUnder{StartC: new(5.0), AltitudeM: new(300.0), NetPowerW: 500}},
	}
	var readings []reading
	for i, test := range tests {
		around := c
		around.LoadGrams = test.LoadG
		if i == 2 {
			around = Conditions{StartC: new(5.0), AltitudeM: 300, NetPowerW: 500, LoadGrams: 1500}
		}
		of := crop(t, "potato", test.Texture)
		s, err := newSituation(of, test.Cut, test.Until, around.filled())
		require.NoError(t, err)
		f := s.run(shells)
		timed := timing{f.last().cooked(s.target, of.Z), f.freeS}
		tests[i].Minutes = 1.25 * timed.minutes()
		readings = append(readings, reading{timed.minutes(), s.sensitivity(f.last(), timed), tests[i].Minutes, test.Said})
		expected, err := test.Expected(c)
		require.NoError(t, err)
		assert.InDelta(t, timed.minutes(), expected, 1e-9)
	}
	got, left := LearnFrom(tests, waxy, c)
	assert.Empty(t, left)
	want := learn(readings)
	assert.InDelta(t, want.Factor, got.Factor, 1e-9)
	assert.InDelta(t, want.expects(10, 0.4), got.expects(10, 0.4), 1e-9)
	assert.Equal(t, 3, got.Tests)
	assert.Equal(t, 2, got.Assumed, "two do not say what they were made under")
	elsewhere, _ := LearnFrom(tests, waxy, Conditions{NetPowerW: 1100})
	assert.Greater(t, elsewhere.expects(10, 0.4), got.expects(10, 0.4), "by the sea the same minutes are further from the model's")
}

// What a test says of its conditions stands against the kitchen's of today: one that
// says all of it is the same in every kitchen.
func TestKnifeTestKeepsItsConditions(t *testing.T) {
	old := KnifeTest{Crop: "potato", Cut: cut(t, "cube 25 mm"), Until: JustTender, LoadG: 600}
	whole := old
	whole.Made = MadeUnder{StartC: new(6.0), AltitudeM: new(1600.0), NetPowerW: 450, Tier: 1}
	expected := func(test KnifeTest, c Conditions) float64 {
		minutes, err := test.Expected(c)
		require.NoError(t, err)
		return minutes
	}
	here, there := Conditions{AltitudeM: 60, NetPowerW: 800}, Conditions{StartC: new(30.0), AltitudeM: 2500, NetPowerW: 300}
	assert.Equal(t, expected(whole, here), expected(whole, there))
	assert.NotEqual(t, expected(old, here), expected(old, there))
	assert.Greater(t, expected(whole, here), expected(old, here), "cold pieces, high up")
	for _, part := range []MadeUnder{{StartC: new(0.0)}, {AltitudeM: new(2000.0)}, {NetPowerW: 1500}} {
		test := old
		test.Made = part
		assert.NotEqual(t, expected(old, here), expected(test, here), "%+v", part)
		assert.False(t, part.whole())
	}
	assert.True(t, whole.Made.whole())
}

// The steam comes to the lowest tier first.
func TestKnifeTestOfATier(t *testing.T) {
	test := KnifeTest{Crop: "potato", Cut: cut(t, "cube 25 mm"), Until: JustTender, LoadG: 1200}
	c := Conditions{Tiers: 2, BasketMM: 240, NetPowerW: 700}
	on := func(tier int) float64 {
		test.Made.Tier = tier
		minutes, err := test.Expected(c)
		require.NoError(t, err)
		return minutes
	}
	assert.Greater(t, on(2), on(1)+1)
	assert.Equal(t, on(2), on(0), "the uppermost in use")
	test.Made.Tier = 3
	_, err := test.Expected(c)
	assert.ErrorContains(t, err, "nothing lies so high")
	_, left := LearnFrom([]KnifeTest{test}, crop(t, "potato", ""), c)
	assert.Len(t, left, 1)
}

// What was in the steamer counts: half of a heavy load's cooking is over when
// steam runs freely.
func TestKnifeTestExpectsItsLoad(t *testing.T) {
	test := KnifeTest{Crop: "potato", Cut: cut(t, "cube 25 mm"), Until: JustTender}
	usual, err := test.Expected(Conditions{})
	require.NoError(t, err)
	e, err := Steam(crop(t, "potato", ""), test.Cut, JustTender, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, e.Modelled, usual)
	test.LoadG = 1500
	heavy, err := test.Expected(Conditions{LoadGrams: 300})
	require.NoError(t, err)
	assert.Less(t, heavy, usual, "the test's own load, not the kitchen's")
	same, err := test.Expected(Conditions{LoadGrams: 1500})
	require.NoError(t, err)
	assert.Equal(t, same, heavy)
}

func TestFindings(t *testing.T) {
	assert.Equal(t, []string{"just-right", "not-yet", "over"}, FindingNames())
	for text, want := range map[string]Finding{"": JustRight, "just right": JustRight, " Not-Yet ": NotYet, "not yet": NotYet, "OVER": Over} {
		got, err := ParseFinding(text)
		require.NoError(t, err)
		assert.Equal(t, want, got, text)
		assert.Contains(t, FindingNames(), got.String())
	}
	_, err := ParseFinding("burnt")
	assert.ErrorContains(t, err, "not known")
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
