package heat

import (
	"math"
	"sync"
)

// situation is one piece of a load under one set of parameters: pieces all alike,
// in one layer of the steamer or in a heap of several.
type situation struct {
	body   Body
	props  Properties
	crop   Crop
	film   float64
	target float64
	start  float64
	steam  float64
	areaW  float64 // W/m² of real surface that the steam supply can give; +Inf = no cap
	layers int     // one upon the other; the last to be done counts
}

// Films of condensing steam, W/(m² K): a choice for a lidded household steamer,
// and within a heap, where pieces touch and air stays (judgement; published values
// run from 400 to 12000).
const (
	filmNominal = 500.0
	filmHeap    = 250.0
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
	s := situation{
		body: body, props: props, crop: crop, film: filmNominal, target: crop.Target(until),
		start: c.startC(), steam: steam, areaW: c.NetPowerW / area, layers: 1,
	}
	if s.layers = c.layersOf(crop, cut, body, props.Density); s.layers > 1 {
		s.film = filmHeap
	}
	return s, nil
}

// filling is a situation's run, with room for its single layer.
type filling struct {
	steamer
	single layer
	first  [1]*layer
	only   [1]tier
	knots  [96]knot
}

// run begins the situation's run, cut into n shells.
func (s situation) run(n int) *filling {
	f := new(filling)
	s.begin(f, n)
	return f
}

// begin is run in room that nobody uses.
func (s situation) begin(f *filling, n int) {
	*f = filling{}
	f.single.knots = f.knots[:0]
	layers := f.first[:]
	layers[0] = &f.single
	for len(layers) < s.layers {
		layers = append(layers, new(layer))
	}
	for _, l := range layers {
		l.begin(s.body, s.props, n, s.film, 1/s.body.AreaMore, s.start)
	}
	f.only[0] = tier{layers: layers}
	f.steamer.tiers, f.steamC, f.powerW = f.only[:], s.steam, s.areaW*float64(s.layers)
	f.start()
}

// last is the history of the last layer the steam comes to.
func (f *filling) last() *history {
	layers := f.only[0].layers
	return &layers[len(layers)-1].history
}

// timing is how long a situation takes, in seconds from loading. freeS is +Inf
// where the piece is done before steam flows freely.
type timing struct {
	doneAt
	freeS float64
}

// fillings is room for runs of which only the time is kept: a plan asks for fifty.
var fillings = sync.Pool{New: func() any { return new(filling) }}

// time runs the situation until its target.
func (s situation) time() timing {
	f := fillings.Get().(*filling)
	defer fillings.Put(f)
	s.begin(f, shells)
	d := f.last().cooked(s.target, s.crop.Z)
	return timing{d, f.freeS}
}

// freeFirst says whether steam flows freely before the piece is done.
func (t timing) freeFirst() bool { return t.freeS < t.seconds }

// minutes count from free steam, or, where that does not come first, from loading.
func (t timing) minutes() float64 {
	if t.freeFirst() {
		return (t.seconds - t.freeS) / 60
	}
	return t.seconds / 60
}

// Seeds, pods, kernels and dice under 12 mm are never laid in one layer: they lie as deep as their weight in
// bulk makes them (judgement).
const (
	smallMM     = 12.0
	bulkDensity = 600.0 // kg/m³, peas, beans and dice
)

// layersOf is how many layers of pieces lie on each other in a tier.
func (c Conditions) layersOf(crop Crop, cut Cut, body Body, density float64) int {
	basket := math.Pi / 4 * math.Pow(or(c.BasketMM, defaultBasketMM)/1e3, 2)
	layer := coverEven * basket / body.FootprintM2 * body.VolumeM3 * density // kg
	switch {
	case characteristicMM(cut) < smallMM && (cut.Shape == Cube || crop.Ready && cut.Shape == Whole):
		depth := c.LoadGrams / 1e3 / (bulkDensity * basket) * 1e3
		return max(1, wholes(depth/smallMM))
	case c.Heaped:
		return max(2, wholes(c.LoadGrams/1e3/layer))
	}
	return 1
}
