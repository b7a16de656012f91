package heat

import (
	"fmt"
	"math"
	"trencher/units"
)

// Conditions are what surrounds the pieces. The zero value stands for the
// defaults: 500 g in one layer, 700 W net, 15 °C, sea level.
type Conditions struct {
	StartC    *float64 // °C before steaming; nil = 15
	AltitudeM float64
	LoadGrams float64 // in the steamer at once; 0 = 500
	NetPowerW float64 // heat that becomes steam, losses off; 0 = 700
	Heaped    bool    // more than a layer and a half in a tier
	Learned   Learned // what knife tests in this kitchen have shown; zero = none
}

// Defaults of Conditions, and the surface coefficient of condensing steam with
// some air in it, W/(m² K): a calibration choice for a lidded household
// steamer; published values run from 400 to 12000.
const (
	DefaultStartC    = 15.0
	DefaultLoadGrams = 500.0
	DefaultNetPowerW = 700.0
	filmNominal      = 500.0
)

func (c Conditions) startC() float64 {
	if c.StartC == nil {
		return DefaultStartC
	}
	return *c.StartC
}

func (c Conditions) filled() Conditions {
	c.LoadGrams = or(c.LoadGrams, DefaultLoadGrams)
	c.NetPowerW = or(c.NetPowerW, DefaultNetPowerW)
	return c
}

// check refuses what cannot be; what can be but lies outside the model's range
// is told by Estimate.Outside instead.
func (c Conditions) check() error {
	if start := c.startC(); start < 0 {
		return &units.FieldError{Field: "start", Value: fmt.Sprintf("%g °C", start),
			Problem: "frozen pieces are not reckoned: what melts in them takes heat of its own", Accepted: "0 to 60 °C: thaw them first"}
	}
	for _, one := range []struct {
		what             string
		value, low, high float64
		unit             string
	}{
		{"start", c.startC(), 0, 60, "°C"},
		{"altitude", c.AltitudeM, -430, 5500, "m"},
		{"load", c.LoadGrams, 1, 20000, "g"},
		{"net power", c.NetPowerW, 50, 10000, "W"},
	} {
		if err := within(one.what, one.value, one.low, one.high, one.unit); err != nil {
			return err
		}
	}
	return nil
}

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
}

// InRange says whether the model has been checked for such a piece.
func (e Estimate) InRange() bool { return len(e.Outside) == 0 }

// FromLoading is the expected time from loading, come-up included.
func (e Estimate) FromLoading() float64 { return e.ComeUp + e.Minutes }

// situation is one piece under one set of parameters.
type situation struct {
	body   Body
	props  Properties
	crop   Crop
	film   float64
	target float64
	start  float64
	steam  float64
	areaW  float64 // W/m² of real surface that the steam supply can give; +Inf = no cap
}

func (s situation) heating(m *mesh) heating {
	*m = newMesh(s.body, s.props, shells)
	return heating{mesh: m, film: s.film * s.body.Film, start: s.start, steam: s.steam,
		cap: s.areaW * s.body.AreaMore, target: s.target, z: s.crop.Z}
}

func (s situation) run() heated {
	var m mesh
	h := s.heating(&m)
	return h.run()
}

// Spread of what is not known, for the band: sizes of pieces in one basket, the
// cook value that a knife calls done (it stands for the crop's age, too), the
// surface coefficient. All at once, for a third or more either way; a start
// five degrees off moves an answer by less than a fiftieth and is covered.
const (
	sizeSpread   = 0.07
	targetSpread = 1.4
	filmHigh     = 1500.0
	filmLow      = 250.0
	filmHeap     = 150.0
)

// newSituation puts a cut into the steamer at nominal parameters.
func newSituation(crop Crop, cut Cut, until Doneness, c Conditions) (situation, error) {
	if err := c.check(); err != nil {
		return situation{}, err
	}
	body, err := BodyOf(crop, cut)
	if err != nil {
		return situation{}, err
	}
	steam := SteamC(c.AltitudeM)
	props := crop.Composition.At((c.startC() + steam) / 2)
	area := c.LoadGrams / 1e3 / props.Density * body.AreaM2 / body.VolumeM3
	return situation{
		body: body, props: props, crop: crop, film: filmNominal, target: crop.Target(until),
		start: c.startC(), steam: steam, areaW: c.NetPowerW / area,
	}, nil
}

// heaped is the situation in a heap: steam reaches the last pieces about when
// the flow is full, and they touch.
func (s situation) heaped() situation {
	s.areaW, s.film = math.Inf(1), filmLow
	return s
}

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
		EdgeMM: s.body.EdgeMM(), KnifeTests: c.Learned.Tests, Properties: s.props, Target: s.target}
	e.Modelled = middle.minutes()
	e.Minutes, e.Low, e.High = c.Learned.band(e.Modelled, low.minutes(), high.minutes())
	e.widen(c.AltitudeM - rangeHighM)
	e.PerMM = s.perMM(characteristicMM(cut))
	e.Outside = s.outside(cut, c, e)
	e.Notes = notes(crop, cut, e)
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

// perMM is how many minutes one more mm of a size takes when every piece of the
// load is that much larger, by the difference of five per cent either way.
func (s situation) perMM(sizeMM float64) float64 {
	const share = 0.05
	small, large := s, s
	small.body, large.body = s.body.scaled(1-share), s.body.scaled(1+share)
	small.areaW *= 1 - share // the same weight in smaller pieces has more surface
	large.areaW *= 1 + share
	return (large.run().minutes() - small.run().minutes()) / (2 * share * sizeMM)
}

// Expect is what the model alone says a piece takes, in minutes from full flow:
// what a knife test is weighed against. It is Steam without the band.
func Expect(crop Crop, cut Cut, until Doneness, c Conditions) (float64, error) {
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

func (h heated) minutes() float64 { return max(0, h.doneS-h.fullS) / 60 }

// band runs the nominal piece and the two ends of what is not known.
func (s situation) band(heap bool) (middle, low, high heated, err error) {
	first := s.run()
	fast, slow := s, s
	fast.body, slow.body = s.body.scaled(1-sizeSpread), s.body.scaled(1+sizeSpread)
	fast.target, slow.target = s.target/targetSpread, s.target*targetSpread
	fast.film, slow.film = filmHigh, filmLow
	middle = first
	if heap {
		middle = s.heaped().run()
		middle.doneS += first.fullS
		middle.fullS = first.fullS
		fast.areaW, slow.areaW, slow.film = math.Inf(1), math.Inf(1), filmHeap
	}
	low, high = fast.run(), slow.run()
	if !middle.done || !low.done || !high.done {
		return middle, low, high, ErrNotDone
	}
	return middle, low, high, nil
}
