package heat

import (
	"fmt"
	"math"
)

// KnifeTest is a knife test a kitchen has written down: a piece of a crop that
// was found so tender after so many minutes of steam at full flow.
type KnifeTest struct {
	Crop, Texture string // as written down; [LookupCrop] reads them
	Cut           Cut    // of one size
	Until         Doneness
	Minutes       float64
	LoadG         float64 // in the steamer at once; 0 = the usual 500 g
	Place         string  // where it is written down
}

// Expected is what the model alone says of the tested piece under a kitchen's
// conditions, in minutes from full flow. What was in the steamer is the test's
// own: much of a large load is cooked by the time steam runs freely.
func (t KnifeTest) Expected(c Conditions) (float64, error) {
	crop, err := LookupCrop(t.Crop, t.Texture)
	if err != nil {
		return 0, err
	}
	c.LoadGrams = or(t.LoadG, c.LoadGrams)
	if filled := c.tiersFilled(crop, t.Cut, t.Until, t.LoadG); filled > 1 {
		return expectUppermost(crop, t.Cut, t.Until, filled, c)
	}
	return expect(crop, t.Cut, t.Until, c)
}

// tiersFilled is how many tiers so many grams are spread over.
func (c Conditions) tiersFilled(crop Crop, cut Cut, until Doneness, grams float64) int {
	body, err := BodyOf(crop, cut)
	if err != nil || grams == 0 {
		return 1
	}
	density := crop.Composition.At((c.startC() + SteamC(c.AltitudeM)) / 2).Density
	layer := layerGrams(or(c.BasketMM, defaultBasketMM)/1e3, coverOf(until), body, density)
	return min(max(c.Tiers, 1), layersFor(grams, layer))
}

// expectUppermost is expect for a load on several tiers: the knife tries the last.
func expectUppermost(crop Crop, cut Cut, until Doneness, tiers int, c Conditions) (float64, error) {
	loads := make([]TierLoad, tiers)
	for i := range loads {
		loads[i] = TierLoad{Crop: crop, Cut: cut, Until: until, Grams: c.LoadGrams / float64(tiers)}
	}
	f, err := newTiered(loads, c)
	if err != nil {
		return 0, err
	}
	run := f.run(nil, math.Inf(1))
	s := f.situations[tiers-1]
	t := timing{run.last(tiers-1).cooked(s.target, s.crop.Z), run.freeS}
	if !t.done {
		return 0, fmt.Errorf("%s, %s: %w", crop.Title(), cut, ErrNotDone)
	}
	return t.minutes(), nil
}

// isOf says whether the test is of a crop, of whatever kind.
func (t KnifeTest) isOf(crop Crop) bool {
	tested, err := LookupCrop(t.Crop, "")
	return err == nil && tested.Name == crop.Name
}

// LearnFrom weighs a kitchen's knife tests of a crop, each against what the
// model alone says of it under the kitchen's conditions. A test that the model
// can say nothing about is left out, with an error that names its place; tests
// of other crops are passed over.
func LearnFrom(tests []KnifeTest, crop Crop, c Conditions) (Learned, []error) {
	var weighed []weighedTest
	var left []error
	for _, test := range tests {
		if !test.isOf(crop) {
			continue
		}
		expected, err := test.Expected(c)
		if err != nil {
			left = append(left, fmt.Errorf("the knife test %s: %w", test.Place, err))
			continue
		}
		weighed = append(weighed, weighedTest{expected: expected, found: test.Minutes})
	}
	return learn(weighed), left
}
