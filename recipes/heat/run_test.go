package heat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// volumes are the shares of a body's volume that its shells hold, for shells
// as thick as one another.
func volumes(exponent float64, n int) []float64 {
	list := make([]float64, n)
	for i := range list {
		list[i] = math.Pow(float64(i+1)/float64(n), exponent+1) - math.Pow(float64(i)/float64(n), exponent+1)
	}
	return list
}

// heatOf is the mean temperature of a body's shells.
func heatOf(t []float64, exponent float64) float64 {
	sum := 0.0
	for i, volume := range volumes(exponent, len(t)) {
		sum += volume * t[i]
	}
	return sum
}

// A slab of four shells, all figures 1: one step moves a fifth of each
// difference between neighbours, and the surface takes the flux.
func TestOneStepByHand(t *testing.T) {
	m := newMesh(Body{RadiusM: 4, Exponent: 0}, Properties{1, 1, 1}, 4)
	assert.InDelta(t, 0.2, m.dt, 1e-12, "a fifth of the spacing squared over the diffusivity")
	temperatures := []float64{10, 20, 40, 80}
	m.step(temperatures, 5)
	want := []float64{10 + 0.2*10, 20 + 0.2*20 - 0.2*10, 40 + 0.2*40 - 0.2*20, 80 - 0.2*40 + 0.2*5}
	for i := range want {
		assert.InDelta(t, want[i], temperatures[i], 1e-12, "shell %d", i)
	}
	// Properties with figures of their own: conductivity 2, 3 kg/m³, 4 J/(kg K).
	m = newMesh(Body{RadiusM: 4, Exponent: 0}, Properties{2, 3, 4}, 4)
	alpha := 2.0 / 12
	assert.InDelta(t, 0.2/alpha, m.dt, 1e-12)
	assert.InDelta(t, 0.2/2, m.surfaceFactor, 1e-12, "K for each W/m²: dt over volume, density and heat capacity")
	assert.InDelta(t, 1/(1/7.0+0.5/2), m.conductance(7), 1e-12, "the film, and half a shell behind it")
	assert.Equal(t, 3.0, centre([]float64{3 + 0.25, 3 + 2.25}), "of 3 + r², at half a shell and at one and a half")
}

// Whatever the shape, a step gives the body exactly the heat that its surface
// takes, and leaves an even temperature alone.
func TestStepsLoseNoHeat(t *testing.T) {
	for _, exponent := range []float64{0, 0.7, 1, 2, 2.4} {
		props := Properties{0.6, 1060, 3700}
		body := Body{RadiusM: 0.02, Exponent: exponent}
		m := newMesh(body, props, 8)
		temperatures := []float64{15, 16, 19, 30, 42, 61, 77, 90}
		before := heatOf(temperatures, exponent)
		const flux = 3000.0
		m.step(temperatures, flux)
		// Surface over volume of a radial body: (exponent + 1) / radius.
		gain := flux * m.dt * (exponent + 1) / body.RadiusM / (props.Density * props.HeatCapacity)
		assert.InEpsilon(t, gain, heatOf(temperatures, exponent)-before, 1e-9, "exponent %g", exponent)

		even := []float64{50, 50, 50, 50, 50, 50, 50, 50}
		m.step(even, 0)
		for _, celsius := range even {
			assert.InDelta(t, 50, celsius, 1e-12)
		}
	}
}

// exactMinutes is how long a sphere takes in steam without end, by the exact
// series of its centre (Carslaw & Jaeger 1959): no shells, no body that stands
// for it.
func exactMinutes(radiusM, film, steamC, startC, target, z float64, p Properties) float64 {
	terms := sphere.series(film*radiusM/p.Conductivity, 40)
	rate := func(seconds float64) float64 {
		theta := centreTheta(terms, p.Diffusivity()*seconds/(radiusM*radiusM))
		return math.Pow(10, (steamC-theta*(steamC-startC)-100)/z)
	}
	const step = 0.5
	cook, seconds := 0.0, 0.0
	for cook < target {
		cook += (rate(seconds) + rate(seconds+step)) / 2 * step / 60
		seconds += step
	}
	return seconds / 60
}

// A round beetroot alone in endless steam, by a second route for the whole of
// the model: film, start, steam, z and target, and both ends of the band. The
// figures are typed again here.
func TestRoundPieceBySeries(t *testing.T) {
	beetroot := crop(t, "beetroot", "")
	for _, row := range []struct {
		mm, start float64
		until     Doneness
		target    float64
	}{{50, 15, Tender, 10}, {30, 5, JustTender, 5}, {70, 25, Soft, 18}} {
		e, err := Steam(beetroot, Cut{Shape: Whole, SizeMM: row.mm}, row.until, Conditions{StartC: new(row.start), LoadGrams: 1, NetPowerW: 10000})
		require.NoError(t, err)
		assert.Less(t, e.ComeUp, 0.01, "nothing holds up the steam")
		p := beetroot.Composition.At((row.start + e.SteamC) / 2)
		radius := row.mm / 2e3
		assert.InEpsilon(t, exactMinutes(radius, 500, e.SteamC, row.start, row.target, 18, p), e.Minutes, 0.003, "%g mm", row.mm)
		assert.InEpsilon(t, exactMinutes(radius*0.93, 1500, e.SteamC, row.start, row.target/1.4, 18, p), e.Low, 0.003, "%g mm", row.mm)
		assert.InEpsilon(t, exactMinutes(radius*1.07, 250, e.SteamC, row.start, row.target*1.4, 18, p), e.High, 0.003, "%g mm", row.mm)
		perMM := exactMinutes(radius*1.05, 500, e.SteamC, row.start, row.target, 18, p) - exactMinutes(radius*0.95, 500, e.SteamC, row.start, row.target, 18, p)
		assert.InEpsilon(t, perMM/(0.1*row.mm), e.PerMM, 0.02)
		assert.Equal(t, row.target, e.Target)
		assert.Equal(t, e.Modelled, e.Minutes)
		assert.InDelta(t, row.mm*0.839, e.EdgeMM, row.mm*0.002, "a sphere's half over a cube's 0.5961 of its edge (Carslaw & Jaeger 1959)")
	}
}

// In a heap the last pieces wait for full steam and touch: nominal film 250,
// 150 at the slow end, and the come-up of the pieces that condense it.
func TestHeapBySeries(t *testing.T) {
	beetroot := crop(t, "beetroot", "")
	whole := Cut{Shape: Whole, SizeMM: 40}
	c := Conditions{LoadGrams: 2000, NetPowerW: 700}
	even, err := Steam(beetroot, whole, Tender, c)
	require.NoError(t, err)
	c.Heaped = true
	heap, err := Steam(beetroot, whole, Tender, c)
	require.NoError(t, err)
	p := beetroot.Composition.At((15 + heap.SteamC) / 2)
	assert.Equal(t, even.ComeUp, heap.ComeUp)
	assert.InEpsilon(t, exactMinutes(0.02, 250, heap.SteamC, 15, 10, 18, p), heap.Minutes, 0.003)
	assert.InEpsilon(t, exactMinutes(0.02*0.93, 1500, heap.SteamC, 15, 10/1.4, 18, p), heap.Low, 0.003)
	assert.InEpsilon(t, exactMinutes(0.02*1.07, 150, heap.SteamC, 15, 14, 18, p), heap.High, 0.003)
}

// stepping drives a run by hand.
func stepping(h *heating) *running {
	r := &running{heating: h, t: make([]float64, h.mesh.n), conductance: h.mesh.conductance(h.film)}
	for i := range r.t {
		r.t[i] = h.start
	}
	r.demand = r.conductance * (h.steam - h.start)
	r.full = r.demand <= fullFlowShare*h.cap
	return r
}

// While the load would condense more than the stove makes, it takes exactly
// what the stove makes; steam flows freely once it takes no more than seven
// tenths of it.
func TestComeUpTakesWhatTheStoveMakes(t *testing.T) {
	s, err := newSituation(crop(t, "potato", "waxy"), cut(t, "cube 25 mm"), Tender, Conditions{LoadGrams: 1000, NetPowerW: 700})
	require.NoError(t, err)
	// All surface of the load together takes the net power, no more: 1000 g in
	// cubes of 25 mm have 6 / 0.025 m of surface for each of their volume.
	assert.InEpsilon(t, 700, s.areaW*(1/s.props.Density)*6/0.025, 1e-9)

	var m mesh
	h := s.heating(&m)
	r := stepping(&h)
	require.False(t, r.full)
	given := 0.0
	for !r.full {
		given += min(r.demand, h.cap) * m.dt
		before := r.demand
		r.advance()
		assert.Less(t, r.demand, before)
	}
	body := s.body
	gained := (heatOf(r.t, body.Exponent) - 15) * s.props.Density * s.props.HeatCapacity * body.RadiusM / (body.Exponent + 1)
	assert.InEpsilon(t, given, gained, 1e-9)
	assert.LessOrEqual(t, r.demand, 0.7*h.cap)
	assert.InDelta(t, r.seconds, r.out.fullS, m.dt, "between two steps")
	assert.Less(t, r.out.fullS, r.seconds)
	assert.Equal(t, r.out.fullS, s.run().fullS)

	endless := s
	endless.areaW = math.Inf(1)
	assert.Zero(t, endless.run().fullS)
	enough := s
	enough.areaW = h.conductance(s) / 0.7 * (1 + 1e-12)
	assert.Zero(t, enough.run().fullS, "just enough from the start")
	enough.areaW *= 0.999
	assert.Positive(t, enough.run().fullS)
}

// conductance is the demand of a cold piece's surface, in W/m² of real surface.
func (h heating) conductance(s situation) float64 {
	return h.mesh.conductance(h.film) * (s.steam - s.start) / s.body.AreaMore
}

// The surface drives the flux that the outer half shell conducts.
func TestSurfaceTemperature(t *testing.T) {
	s, err := newSituation(crop(t, "potato", "waxy"), cut(t, "cube 25 mm"), Tender, Conditions{}.filled())
	require.NoError(t, err)
	var m mesh
	h := s.heating(&m)
	r := stepping(&h)
	for range 50 {
		r.advance()
		flux := min(r.demand, h.cap)
		assert.InEpsilon(t, flux, (r.surface()-r.t[m.n-1])*2*m.conductivity/m.spacing, 1e-9)
	}
}

// Below 80 °C nothing softens, and a run gives up after three hours.
func TestRunsEnd(t *testing.T) {
	s, err := newSituation(crop(t, "potato", "waxy"), cut(t, "cube 10 mm"), Tender, Conditions{}.filled())
	require.NoError(t, err)
	tepid := s
	tepid.steam, tepid.target = 79.5, 0.001
	assert.False(t, tepid.run().done, "no pectin softens in it (memory)")
	tepid.steam = 81
	assert.True(t, tepid.run().done)

	slow := s
	slow.target = 170
	ready := slow.run()
	require.True(t, ready.done)
	assert.InDelta(t, 170, (ready.doneS-slow.run().fullS)/60, 10, "in steam of 100 °C a minute counts for about one")
	slow.target = 185
	assert.False(t, slow.run().done, "more than three hours")
}

// A curve and an answer are of one run, whether or not somebody looks on.
func TestWatchingChangesNothing(t *testing.T) {
	for _, text := range []string{"cube 25 mm", "whole 9 mm", "cube 60 mm"} {
		s, err := newSituation(crop(t, "potato", "waxy"), cut(t, text), Soft, Conditions{}.filled())
		require.NoError(t, err)
		alone := s.run()
		var m mesh
		h := s.heating(&m)
		last, steps := 0.0, 0
		h.watchS = alone.doneS + 100
		h.watch = func(seconds, centreC, surfaceC float64) {
			assert.InDelta(t, m.dt, seconds-last, 1e-9)
			last = seconds
			steps++
		}
		seen := h.run()
		assert.InEpsilon(t, alone.doneS, seen.doneS, 0.002, text)
		assert.Equal(t, alone.fullS, seen.fullS)
		assert.InDelta(t, alone.centreC, seen.centreC, 0.01, text)
		assert.GreaterOrEqual(t, last, h.watchS)
		assert.Less(t, last, h.watchS+2*m.dt, "no longer than asked for")
	}
}

// A millimetre more is one for every piece of the load: the same weight in
// larger pieces has less surface to condense on.
func TestPerMillimetreIsOfTheWholeLoad(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	c := Conditions{LoadGrams: 1200, NetPowerW: 600}
	minutes := func(text string) float64 {
		e, err := Steam(waxy, cut(t, text), Tender, c)
		require.NoError(t, err)
		return e.Minutes
	}
	e, err := Steam(waxy, cut(t, "cube 20 mm"), Tender, c)
	require.NoError(t, err)
	assert.InEpsilon(t, (minutes("cube 21 mm")-minutes("cube 19 mm"))/2, e.PerMM, 0.001)
	box, err := Steam(waxy, cut(t, "box 40x20x30 mm"), Tender, c)
	require.NoError(t, err)
	assert.InEpsilon(t, (minutes("box 42x21x31.5 mm")-minutes("box 38x19x28.5 mm"))/2, box.PerMM, 0.001, "of its thinnest side")
}
