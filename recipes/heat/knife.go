package heat

import (
	"fmt"

	"trencher/units"
)

// KnifeTest is a knife test a kitchen has written down: what a knife said of a piece
// of a crop after so many minutes of steam at full flow, or, where steam never flows
// freely before it is done, after so many minutes from loading. What it does not
// say of its conditions is taken to have been as it is in the kitchen now.
type KnifeTest struct {
	Crop, Texture string // as written down; [LookupCrop] reads them
	Cut           Cut    // of one size
	Until         Doneness
	Said          Finding // of that doneness
	Minutes       float64
	LoadG         float64 // in the steamer at once; 0 = the usual 500 g
	Made          MadeUnder
	Place         string // where it is written down
}

// MadeUnder is what a knife test says of its conditions; nil or 0 where it does not.
type MadeUnder struct {
	StartC    *float64 // °C before steaming
	AltitudeM *float64
	NetPowerW float64 // heat that became steam
	Tier      int     // that the piece lay on, 1 the lowest; 0 = the uppermost that was filled
}

// whole says whether a test says all of it.
func (m MadeUnder) whole() bool { return m.StartC != nil && m.AltitudeM != nil && m.NetPowerW > 0 }

// in is a kitchen's conditions with what the test says of its own.
func (m MadeUnder) in(c Conditions) Conditions {
	if m.StartC != nil {
		c.StartC = m.StartC
	}
	if m.AltitudeM != nil {
		c.AltitudeM = *m.AltitudeM
	}
	c.NetPowerW = or(m.NetPowerW, c.NetPowerW)
	return c
}

// Expected is what the model alone says of the tested piece, in minutes from full
// flow, under what it was made under and else a kitchen's conditions. What was in
// the steamer is the test's own: much of a large load is cooked by the time steam
// runs freely.
func (t KnifeTest) Expected(c Conditions) (float64, error) {
	r, err := t.reading(c)
	return r.minutes, err
}

// reading is the test as it is weighed.
func (t KnifeTest) reading(c Conditions) (reading, error) {
	crop, err := LookupCrop(t.Crop, t.Texture)
	if err != nil {
		return reading{}, err
	}
	c = t.Made.in(c)
	c.LoadGrams = or(t.LoadG, c.LoadGrams)
	filled := c.tiersFilled(crop, t.Cut, t.Until, t.LoadG)
	if t.Made.Tier > filled {
		return reading{}, units.WrongField("tier", fmt.Sprint(t.Made.Tier), "nothing lies so high", tiersUpTo(filled))
	}
	s, err := newSituation(crop, t.Cut, t.Until, c.filled())
	if err != nil {
		return reading{}, err
	}
	f := s.run(shells)
	h, freeS := f.last(), &f.freeS
	if filled > 1 {
		if s, h, freeS, err = t.onTier(crop, filled, c); err != nil {
			return reading{}, err
		}
	}
	timed := timing{doneAt: h.cooked(s.target, s.crop.Z)}
	timed.freeS = *freeS
	if !timed.done {
		return reading{}, fmt.Errorf("%s, %s: %w", crop.Title(), t.Cut, ErrNotDone)
	}
	return reading{minutes: timed.minutes(), sensitivity: s.sensitivity(h, timed), at: t.Minutes, said: t.Said}, nil
}

func tiersUpTo(filled int) string {
	if filled == 1 {
		return "1: such a load fills the lowest alone"
	}
	return fmt.Sprintf("1, the lowest, to %d", filled)
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

// onTier is the tested piece on its tier, where a load lies on several, and when
// steam flows freely.
func (t KnifeTest) onTier(crop Crop, tiers int, c Conditions) (situation, *history, *float64, error) {
	loads := make([]TierLoad, tiers)
	for i := range loads {
		loads[i] = TierLoad{Crop: crop, Cut: t.Cut, Until: t.Until, Grams: c.LoadGrams / float64(tiers)}
	}
	f, err := newTiered(loads, c)
	if err != nil {
		return situation{}, nil, nil, err
	}
	run := f.run(nil, never)
	tier := tiers - 1
	if t.Made.Tier > 0 {
		tier = t.Made.Tier - 1
	}
	return f.situations[tier], run.last(tier), &run.freeS, nil
}

// isOf says whether the test is of a crop, of whatever kind.
func (t KnifeTest) isOf(crop Crop) bool {
	tested, err := LookupCrop(t.Crop, "")
	return err == nil && tested.Name == crop.Name
}

// LearnFrom weighs a kitchen's knife tests of a crop, each against what the
// model alone says of it under what it was made under. A test that the model
// can say nothing about is left out, with an error that names its place; tests
// of other crops are passed over.
func LearnFrom(tests []KnifeTest, crop Crop, c Conditions) (Learned, []error) {
	var readings []reading
	var left []error
	assumed := 0
	for _, test := range tests {
		if !test.isOf(crop) {
			continue
		}
		r, err := test.reading(c)
		if err != nil {
			left = append(left, fmt.Errorf("the knife test %s: %w", test.Place, err))
			continue
		}
		readings = append(readings, r)
		if !test.Made.whole() {
			assumed++
		}
	}
	learned := learn(readings)
	learned.Assumed = min(assumed, learned.Tests)
	return learned, left
}
