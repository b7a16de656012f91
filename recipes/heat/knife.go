package heat

import "fmt"

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
	return expect(crop, t.Cut, t.Until, c)
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
