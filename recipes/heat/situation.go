package heat

import "math"

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

// heaped is the situation in a heap: steam reaches the last pieces about when
// the flow is full, and they touch.
func (s situation) heaped() situation {
	s.areaW, s.film = math.Inf(1), filmLow
	return s
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
