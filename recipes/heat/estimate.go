package heat

import (
	"fmt"
	"math"
)

// Estimate answers how long a piece takes. Minutes, Low and High count from the
// moment steam flows freely, ComeUp from loading to that moment.
type Estimate struct {
	Crop     Crop
	Cut      Cut
	Doneness Doneness

	Minutes   float64 // expected
	Low, High float64 // start testing with a knife at Low
	ComeUp    float64
	SteamC    float64
	CentreC   float64 // at Minutes
	PerMM     float64 // minutes more for each mm of the cut's size
	EdgeMM    float64 // of the cube that takes as long
	// Outside says what lies outside the model's range, and by how much.
	Outside []string
	// Notes say what else to mind.
	Notes []string
	// Properties are the crop's, at the mean of start and steam temperature,
	// and Target the cook value to reach, in minutes at 100 °C.
	Properties Properties
	Target     float64
	// KnifeTests is how many tests of this kitchen the figures rest on, and
	// Modelled the minutes that the model alone would say.
	KnifeTests int
	Modelled   float64

	heaped bool // reckoned for a heap
}

// InRange says whether the model has been checked for such a piece.
func (e Estimate) InRange() bool { return len(e.Outside) == 0 }

// FromLoading is the expected time from loading, come-up included.
func (e Estimate) FromLoading() float64 { return e.ComeUp + e.Minutes }

// Steam estimates how long a sized cut takes until done, with its band. It
// refuses impossible inputs with an *units.FieldError; a piece that three hours do
// not cook is ErrNotDone.
func Steam(crop Crop, cut Cut, until Doneness, c Conditions) (Estimate, error) {
	c = c.filled()
	s, err := newSituation(crop, cut, until, c)
	if err != nil {
		return Estimate{}, err
	}
	middle, low, high, err := s.band(c.Heaped)
	if err != nil {
		return Estimate{}, fmt.Errorf("%s, %s: %w; cut it smaller", crop.Title(), cut, err)
	}
	e := Estimate{Crop: crop, Cut: cut, Doneness: max(until, JustTender),
		ComeUp: middle.fullS / 60, SteamC: s.steam, CentreC: middle.centreC,
		EdgeMM: s.body.EdgeMM(), KnifeTests: c.Learned.Tests, Properties: s.props, Target: s.target, heaped: c.Heaped}
	e.Modelled = middle.minutes()
	e.Minutes, e.Low, e.High = c.Learned.band(e.Modelled, low.minutes(), high.minutes())
	e.widen(c.AltitudeM - rangeHighM)
	e.PerMM = s.perMM(characteristicMM(cut))
	e.Outside = s.outside(cut, c, e)
	e.Notes = notes(crop, e)
	return e, nil
}

// widen stretches the band above the altitudes that were checked: by half for
// every kilometre (judgement).
func (e *Estimate) widen(overM float64) {
	if overM <= 0 || e.Minutes == 0 {
		return
	}
	stretch := 1 + overM/2000
	e.Low = e.Minutes * math.Pow(e.Low/e.Minutes, stretch)
	e.High = e.Minutes * math.Pow(e.High/e.Minutes, stretch)
}

// expect is what the model alone says a piece takes, in minutes from full flow:
// what a knife test is weighed against. It is Steam without the band.
func expect(crop Crop, cut Cut, until Doneness, c Conditions) (float64, error) {
	s, err := newSituation(crop, cut, until, c.filled())
	if err != nil {
		return 0, err
	}
	h := s.run()
	if !h.done {
		return 0, fmt.Errorf("%s, %s: %w", crop.Title(), cut, ErrNotDone)
	}
	return h.minutes(), nil
}
