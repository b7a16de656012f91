package heat

import (
	"fmt"
	"math"
)

// Method is how pieces are cooked.
type Method uint8

// Steaming, in a lidded steamer; Boiling, in a pot of water.
const (
	Steaming Method = iota
	Boiling
)

// Estimate answers how long a piece takes in steam, or in boiling water: then "full
// steam" is the water boiling again. FromLoading and its ends count
// from the moment it is put in. Minutes, Low and High count from when steam flows
// freely, ComeUp from loading to that moment; where the piece is done before steam
// ever flows freely (FreeFirst is false) all four are 0, and there is no such clock.
type Estimate struct {
	Crop     Crop
	Cut      Cut
	Doneness Doneness
	Method   Method

	FromLoading                     float64 // expected
	FromLoadingLow, FromLoadingHigh float64
	FreeFirst                       bool
	Minutes                         float64 // expected
	Low, High                       float64 // start testing with a knife at Low
	ComeUp                          float64
	SteamC                          float64 // of the steam, or of the water when it is hot again
	LowestC                         float64 // of boiling water, once they are in
	Simmering                       bool    // the water is kept below the boil; "boiling again" is when it is as warm again
	CentreC                         float64 // when done
	Outer                           Outer   // how far the outside is past the middle
	Firming                         Firming // from heating slowly
	LayersDeep                      int     // pieces lie so many layers deep
	PerMM                           float64 // minutes more for each mm of the cut's size; 0 while [Conditions.Planning]
	EdgeMM                          float64 // of the cube that takes as long
	// Outside says what lies outside the model's range, and by how much.
	Outside []string
	// Notes say what else to mind.
	Notes []string
	// Properties are the crop's, at the mean of start and steam temperature,
	// and Target the cook value to reach, in minutes at 100 °C.
	Properties Properties
	Target     float64
	// KnifeTests is how many tests of this kitchen the figures rest on, Modelled the
	// minutes that the model alone would say, and Learned what those tests have shown.
	KnifeTests int
	Modelled   float64
	Learned    Learned
}

// Clock is the expected time and its band by the clock there is: from when steam
// flows freely, or, where that does not come first, from loading.
func (e Estimate) Clock() (minutes, low, high float64) {
	if e.FreeFirst {
		return e.Minutes, e.Low, e.High
	}
	return e.FromLoading, e.FromLoadingLow, e.FromLoadingHigh
}

// InRange says whether the model has been checked for such a piece.
func (e Estimate) InRange() bool { return len(e.Outside) == 0 }

// Steam estimates how long a sized cut takes until done, with its band. It
// refuses impossible inputs with an *units.FieldError; a piece that three hours do
// not cook is ErrNotDone.
func Steam(crop Crop, cut Cut, until Doneness, c Conditions) (Estimate, error) {
	c = c.filled()
	s, err := newSituation(crop, cut, until, c)
	if err != nil {
		return Estimate{}, err
	}
	f := s.run(shells)
	e, err := s.estimate(cut, until, f.last(), &f.freeS, c)
	if err != nil {
		return Estimate{}, err
	}
	if !c.Planning {
		e.PerMM = s.perMMBy(characteristicMM(cut), situation.time)
	}
	return e, nil
}

// estimate reads an answer off one layer's history; freeS is where the run notes
// when its steam or boiling water is free.
func (s situation) estimate(cut Cut, until Doneness, h *history, freeS *float64, c Conditions) (Estimate, error) {
	done := h.cooked(s.target, s.crop.Z)
	if !done.done {
		return Estimate{}, fmt.Errorf("%s, %s: %w; cut it smaller", s.crop.Title(), cut, ErrNotDone)
	}
	t := timing{done, *freeS}
	e := Estimate{Crop: s.crop, Cut: cut, Doneness: max(until, JustTender), FreeFirst: t.freeFirst(),
		SteamC: s.steam, CentreC: done.centreC, LayersDeep: s.layers,
		EdgeMM: s.body.EdgeMM(), KnifeTests: c.Learned.Tests, Learned: c.Learned, Properties: s.props, Target: s.target}
	e.Outer = outerOf(h, done.seconds, s.crop)
	e.Firming = firmingOf(h)
	e.Modelled = t.minutes()
	minutes, low, high := s.outlook(h, t, e.Firming, c)
	if e.FreeFirst {
		e.ComeUp = t.freeS / 60
		e.Minutes, e.Low, e.High = minutes, low, high
	}
	e.FromLoading, e.FromLoadingLow, e.FromLoadingHigh = e.ComeUp+minutes, e.ComeUp+low, e.ComeUp+high
	e.Outside = s.outside(cut, c, e)
	e.Notes = notes(s.crop, e)
	return e, nil
}

// outlook is the expected time of this kitchen, in minutes by the clock of the
// timing, with the band that it lies in nine times in ten.
func (s situation) outlook(h *history, t timing, f Firming, c Conditions) (minutes, low, high float64) {
	sensitivity := s.sensitivity(h, t)
	minutes, low, high = c.Learned.outlook(t.minutes(), sensitivity)
	low, high = f.widen(minutes, low, high, sensitivity)
	low, high = widen(minutes, low, high, c.AltitudeM-rangeHighM)
	return minutes, low, high
}

// sensitivity is how much longer, in logarithms, a piece takes for a target larger
// in logarithms: d ln t / d ln C.
func (s situation) sensitivity(h *history, t timing) float64 {
	const step = 1.1
	from := 0.0
	if t.freeFirst() {
		from = t.freeS
	}
	more, less := h.cooked(s.target*step, s.crop.Z).seconds, h.cooked(s.target/step, s.crop.Z).seconds
	least := t.seconds - from
	return math.Log(max(more-from, least)/max(less-from, least/4)) / (2 * math.Log(step))
}

// widen stretches a band above the altitudes that were checked: by half for every
// kilometre (judgement).
func widen(minutes, low, high, overM float64) (lower, higher float64) {
	if overM <= 0 || minutes == 0 {
		return low, high
	}
	stretch := 1 + overM/2000
	return minutes * math.Pow(low/minutes, stretch), minutes * math.Pow(high/minutes, stretch)
}

// perMMBy is how many minutes one more mm of a size takes when every piece of the
// load is that much larger, by the difference of five per cent either way.
func (s situation) perMMBy(sizeMM float64, time func(situation) timing) float64 {
	const share = 0.05
	small, large := s, s
	small.body, large.body = s.body.scaled(1-share), s.body.scaled(1+share)
	small.areaW *= 1 - share // the same weight in smaller pieces has more surface
	large.areaW *= 1 + share
	a, b := time(small), time(large)
	if !a.freeFirst() || !b.freeFirst() {
		a.freeS, b.freeS = never, never
	}
	return (b.minutes() - a.minutes()) / (2 * share * sizeMM)
}
